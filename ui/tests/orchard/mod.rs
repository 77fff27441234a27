//! The orchard corner, filled into the screens as it will stand there, to be looked at and pressed.
#![allow(dead_code)] // each test binary uses its own part

mod drawings;
mod entry;
mod forms;
mod heights;
mod papers;
mod places;
mod posts;
mod walls;

use i_slint_backend_testing::{TestingBackend, TestingBackendOptions, mock_elapsed_time};
use slint::{ComponentHandle, Global, LogicalSize, ModelRc, SharedString, StyledText, VecModel};
use std::{rc::Rc, time::Duration};
use tautmark_ui::{
    App, DrawingVm, Fact, FormShape, Nav, Page, Place, RowItem, Status, Theme, ThemeMode, Verdict,
};

/// A window of the app in this test's own thread, full of the orchard corner.
pub struct Site {
    pub app: App,
}

/// Something to stand before: the name of its picture, and the way there.
pub struct Scene {
    pub name: &'static str,
    pub show: fn(&App),
}

impl Site {
    /// Opens the app on a screen of this size in logical px.
    pub fn open(width: f32, height: f32) -> Self {
        slint::platform::set_platform(Box::new(TestingBackend::new(TestingBackendOptions {
            mock_time: true,
            threading: false,
            renderer_name: Some("software".into()),
        })))
        .expect("one window a thread");
        let app = App::new().expect("the screens are built in");
        places::fill(&app);
        app.show().expect("a window without a screen always opens");
        app.window().set_size(LogicalSize::new(width, height));
        let weak = app.as_weak();
        DrawingVm::get(&app).on_resized(move |width, height| {
            if let Some(app) = weak.upgrade() {
                drawings::draw(&app, width, height);
            }
        });
        settle();
        Self { app }
    }

    pub fn go(&self, scene: &Scene, mode: ThemeMode) {
        Theme::get(&self.app).set_mode(mode);
        places::fill(&self.app);
        stand(&self.app, Place::Walls, Page::Jobs);
        settle();
        (scene.show)(&self.app);
        settle();
    }
}

/// Stands on a page as the app does.
pub fn stand(app: &App, place: Place, page: Page) {
    let nav = Nav::get(app);
    let covered = matches!(
        page,
        Page::Jobs
            | Page::Bin
            | Page::Rename
            | Page::Start
            | Page::About
            | Page::Licences
            | Page::Licence
            | Page::Sums
            | Page::Quick
            | Page::Sheet
            | Page::Settings
    );
    nav.set_place(place);
    nav.set_page(page);
    nav.set_covered(covered);
    nav.set_at_root(matches!(
        page,
        Page::Walls | Page::Lines | Page::Posts | Page::Levels | Page::Boards
    ));
    nav.set_form(match page {
        Page::Run | Page::Sizes | Page::Carry | Page::Laser => FormShape::Drawn,
        Page::Quick => FormShape::Quick,
        Page::Settings | Page::Rename | Page::Sums => FormShape::Plain,
        _ => FormShape::None,
    });
    nav.set_entry(false);
}

/// Lets layouts, lists and timers come to rest.
pub fn settle() {
    for _ in 0..3 {
        mock_elapsed_time(Duration::from_millis(200));
    }
}

/// Every moment worth looking at.
pub fn scenes() -> Vec<Scene> {
    vec![
        Scene {
            name: "walls",
            show: |app| stand(app, Place::Walls, Page::Walls),
        },
        Scene {
            name: "misread",
            show: |app| {
                walls::misread(app);
                stand(app, Place::Walls, Page::Walls)
            },
        },
        Scene {
            name: "reading",
            show: |app| {
                stand(app, Place::Walls, Page::Walls);
                entry::reading(app);
                Nav::get(app).set_entry(true)
            },
        },
        Scene {
            name: "reading-feet",
            show: |app| {
                stand(app, Place::Walls, Page::Walls);
                entry::reading_feet(app);
                Nav::get(app).set_entry(true)
            },
        },
        Scene {
            name: "reading-sight",
            show: |app| {
                stand(app, Place::Levels, Page::Levels);
                entry::reading_sight(app);
                Nav::get(app).set_entry(true)
            },
        },
        Scene {
            name: "lines",
            show: |app| stand(app, Place::Lines, Page::Lines),
        },
        Scene {
            name: "string",
            show: |app| stand(app, Place::Lines, Page::Line),
        },
        Scene {
            name: "corner",
            show: |app| stand(app, Place::Lines, Page::Corner),
        },
        Scene {
            name: "posts",
            show: |app| stand(app, Place::Posts, Page::Posts),
        },
        Scene {
            name: "mark-out",
            show: |app| {
                posts::marking(app);
                stand(app, Place::Posts, Page::MarkOut)
            },
        },
        Scene {
            name: "levels",
            show: |app| stand(app, Place::Levels, Page::Levels),
        },
        Scene {
            name: "heights",
            show: |app| {
                heights::heights(app);
                stand(app, Place::Levels, Page::Heights)
            },
        },
        Scene {
            name: "boards",
            show: |app| stand(app, Place::Boards, Page::Boards),
        },
        Scene {
            name: "cut-list",
            show: |app| stand(app, Place::Boards, Page::CutList),
        },
        Scene {
            name: "jobs",
            show: |app| stand(app, Place::Walls, Page::Jobs),
        },
        Scene {
            name: "start",
            show: |app| stand(app, Place::Walls, Page::Start),
        },
        Scene {
            name: "about",
            show: |app| stand(app, Place::Walls, Page::About),
        },
        Scene {
            name: "sheet",
            show: |app| stand(app, Place::Walls, Page::Sheet),
        },
        Scene {
            name: "run",
            show: |app| {
                forms::run(app);
                stand(app, Place::Posts, Page::Run)
            },
        },
        Scene {
            name: "settings",
            show: |app| {
                forms::settings(app);
                stand(app, Place::Walls, Page::Settings)
            },
        },
        Scene {
            name: "quick",
            show: |app| {
                forms::quick(app);
                stand(app, Place::Walls, Page::Quick)
            },
        },
        Scene {
            name: "menu",
            show: |app| {
                stand(app, Place::Walls, Page::Jobs);
                papers::menu(app)
            },
        },
        Scene {
            name: "notice",
            show: |app| {
                stand(app, Place::Posts, Page::MarkOut);
                papers::notice(app)
            },
        },
        Scene {
            name: "snack",
            show: |app| {
                stand(app, Place::Walls, Page::Walls);
                papers::snack(app)
            },
        },
    ]
}

/// A sentence with `**bold**` words.
pub fn said(markdown: &str) -> (StyledText, SharedString) {
    let whole = unbroken(markdown);
    let markdown = whole.as_str();
    let styled = StyledText::from_markdown(markdown).expect("bold words only");
    (styled, markdown.replace("**", "").into())
}

/// Keeps `± 6` and `10 881` on one line each.
fn unbroken(text: &str) -> String {
    let letters: Vec<char> = text.chars().collect();
    letters
        .iter()
        .enumerate()
        .map(|(n, &letter)| {
            let before = n
                .checked_sub(1)
                .and_then(|n| letters.get(n))
                .copied()
                .unwrap_or(' ');
            let thousands = letters
                .get(n + 1..n + 4)
                .is_some_and(|next| next.iter().all(char::is_ascii_digit));
            let after = letters.get(n + 1).copied().unwrap_or(' ');
            let joined = before == '±' || after == '±' || (before.is_ascii_digit() && thousands);
            if letter == ' ' && joined {
                '\u{a0}'
            } else {
                letter
            }
        })
        .collect()
}

pub fn status(verdict: Verdict, markdown: &str) -> Status {
    let (text, plain) = said(markdown);
    Status {
        verdict,
        text,
        plain,
    }
}

pub fn fact(id: &str, label: &str, figure: &str, tail: &str) -> Fact {
    Fact {
        id: id.into(),
        label: label.into(),
        figure: figure.into(),
        tail: tail.into(),
        verdict: Verdict::None,
    }
}

pub fn row(title: &str, note: &str, verdict: Verdict, figure: &str, tail: &str) -> RowItem {
    RowItem {
        id: title.into(),
        title: title.into(),
        note: unbroken(note).into(),
        verdict,
        figure: figure.into(),
        tail: tail.into(),
        ..RowItem::default()
    }
}

pub fn list<T: Clone + 'static>(rows: Vec<T>) -> ModelRc<T> {
    Rc::new(VecModel::from(rows)).into()
}
