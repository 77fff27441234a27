//! The page of fields: one form at a time, chosen by the page in sight.

use super::rows::patched;
use super::words::{silence, status};
use super::{Bridge, Desk, Then};
use slint::{Global, Model, ModelRc, SharedString, VecModel};
use std::rc::Rc;
use tautmark_ui::{App, Drawing, Field as Row, FieldKind, FormVm, Nav, Page, Status, Verdict};

/// What a form shows. Figures are ready text in the job's own unit.
pub struct FormContents {
    pub status: Status,
    /// The figure that comes out of it all.
    pub figure: Option<FormFigure>,
    pub rows: Vec<Row>,
    /// One line; empty where there is no caution.
    pub caution: String,
    /// Name of the main button; empty where there is none.
    pub primary: String,
    pub primary_enabled: bool,
    /// Name of the other button; empty where there is none.
    pub secondary: String,
}

/// The main figure of a form: what it is of, the figure, and its ± or unit.
pub struct FormFigure {
    pub what: String,
    pub figure: String,
    pub tail: String,
}

impl FormContents {
    /// A form with rows, and nothing else yet.
    #[must_use]
    pub fn new(rows: Vec<Row>) -> Self {
        Self {
            status: silence(),
            figure: None,
            rows,
            caution: String::new(),
            primary: String::new(),
            primary_enabled: true,
            secondary: String::new(),
        }
    }

    /// With a sentence at its head.
    #[must_use]
    pub fn saying(mut self, verdict: Verdict, text: &str) -> Self {
        self.status = status(verdict, text);
        self
    }
}

/// A page of fields: what it shows, and what a press does.
pub trait Form {
    /// Stands at the head of the page.
    fn title(&self, desk: &Desk) -> String;

    /// What it shows now.
    fn contents(&self, desk: &Desk) -> FormContents;

    /// A figure, a result or a pick was pressed.
    fn pressed(&self, _desk: &mut Desk, _id: &str) -> Then {
        Then::Stay
    }

    /// One of a choice was picked, from 0.
    fn picked(&self, _desk: &mut Desk, _id: &str, _index: usize) -> Then {
        Then::Stay
    }

    /// A check was pressed.
    fn toggled(&self, _desk: &mut Desk, _id: &str) -> Then {
        Then::Stay
    }

    /// A name was typed, one letter more or less.
    fn edited(&self, _desk: &mut Desk, _id: &str, _text: &str) -> Then {
        Then::Stay
    }

    /// The main figure was pressed.
    fn figure_asked(&self, _desk: &mut Desk) -> Then {
        Then::Stay
    }

    /// The caution line was pressed.
    fn caution_pressed(&self, _desk: &mut Desk) -> Then {
        Then::Stay
    }

    /// The main button was pressed.
    fn primary(&self, _desk: &mut Desk) -> Then {
        Then::Stay
    }

    /// The other button was pressed.
    fn secondary(&self, _desk: &mut Desk) -> Then {
        Then::Stay
    }
}

/// The form of a page; `None` where the page is not a form.
fn form(page: Page) -> Option<&'static dyn Form> {
    match page {
        Page::Run => Some(&super::run_setup::RunSetup),
        Page::Rename => Some(&super::retitle::Retitle),
        Page::Settings => Some(&super::settings::Settings),
        Page::Carry => Some(&super::carry::Carry),
        Page::Laser => Some(&super::laser::LaserCheck),
        Page::Sizes => Some(&super::sizes::Sizes),
        Page::Sums => Some(&super::quick::Index),
        Page::Quick => Some(&super::quick::OneSum),
        _ => None,
    }
}

pub(super) fn wire(app: &App, bridge: &Rc<Bridge>) {
    let vm = FormVm::get(app);
    let at = bridge.clone();
    vm.on_pressed(move |id| at.on_form(|form, desk| form.pressed(desk, &id)));
    let at = bridge.clone();
    vm.on_picked(move |id, index| {
        let Ok(index) = usize::try_from(index) else {
            return;
        };
        at.on_form(|form, desk| form.picked(desk, &id, index));
    });
    let at = bridge.clone();
    vm.on_toggled(move |id| at.on_form(|form, desk| form.toggled(desk, &id)));
    let at = bridge.clone();
    vm.on_edited(move |id, text| at.on_form(|form, desk| form.edited(desk, &id, &text)));
    let at = bridge.clone();
    vm.on_figure_asked(move || at.on_form(|form, desk| form.figure_asked(desk)));
    let at = bridge.clone();
    vm.on_caution_pressed(move || at.on_form(|form, desk| form.caution_pressed(desk)));
    let at = bridge.clone();
    vm.on_primary_pressed(move || at.on_form(|form, desk| form.primary(desk)));
    let at = bridge.clone();
    vm.on_secondary_pressed(move || at.on_form(|form, desk| form.secondary(desk)));
}

impl Bridge {
    /// Does something with the form in sight.
    fn on_form(&self, what: impl FnOnce(&dyn Form, &mut Desk) -> Then) {
        let Some(app) = self.app.upgrade() else {
            return;
        };
        if let Some(form) = form(Nav::get(&app).get_page()) {
            self.act(|desk| what(form, desk));
        }
    }
}

/// What the frame says over a form that has no head of its own.
pub(super) fn title(page: Page, desk: &Desk) -> Option<String> {
    let headless = matches!(page, Page::Run | Page::Sizes | Page::Carry | Page::Laser);
    Some(form(page).filter(|_| headless)?.title(desk))
}

/// Fills the form in sight.
pub(super) fn fill(app: &App, desk: &Desk) {
    let Some(form) = form(Nav::get(app).get_page()) else {
        return;
    };
    let contents = form.contents(desk);
    let vm = FormVm::get(app);
    vm.set_title(form.title(desk).into());
    vm.set_status(contents.status);
    let figure = contents.figure;
    let part = |of: fn(&FormFigure) -> &str| SharedString::from(figure.as_ref().map_or("", of));
    vm.set_figure_what(part(|figure| &figure.what));
    vm.set_figure(part(|figure| &figure.figure));
    vm.set_figure_tail(part(|figure| &figure.tail));
    let there = vm.get_fields();
    let rows = contents.rows.into_iter().enumerate();
    let rows = rows
        .map(|(at, row)| with_same_options(row, there.row_data(at)))
        .collect();
    vm.set_fields(patched(there, rows));
    vm.set_caution(contents.caution.into());
    vm.set_primary(contents.primary.into());
    vm.set_primary_enabled(contents.primary_enabled);
    vm.set_secondary(contents.secondary.into());
}

/// Lists are equal only if they are the same one: a choice whose names have not changed keeps its
/// list, so that it is not drawn anew and keeps the focus.
fn with_same_options(row: Row, there: Option<Row>) -> Row {
    match there {
        Some(there) if there.options.iter().eq(row.options.iter()) => {
            let said = |row: &Row| -> Vec<SharedString> {
                let pictures = row.pictures.iter();
                pictures.map(|picture| picture.description).collect()
            };
            let pictures = if said(&there) == said(&row) {
                there.pictures
            } else {
                row.pictures
            };
            Row {
                options: there.options,
                pictures,
                ..row
            }
        }
        _ => row,
    }
}

fn plain(kind: FieldKind, id: &str, label: &str) -> Row {
    Row {
        id: id.into(),
        kind,
        label: label.into(),
        ..Row::default()
    }
}

/// Names the fields below it.
#[must_use]
pub fn heading(label: &str) -> Row {
    plain(FieldKind::Heading, label, label)
}

/// A figure that is typed: pressing it asks for it.
#[must_use]
pub fn figure(id: &str, label: &str, note: &str, value: &str) -> Row {
    Row {
        note: note.into(),
        value: value.into(),
        ..plain(FieldKind::Figure, id, label)
    }
}

/// A figure that is worked out, with its ± or unit.
#[must_use]
pub fn result(id: &str, label: &str, note: &str, value: &str, tail: &str) -> Row {
    Row {
        note: note.into(),
        value: value.into(),
        tail: tail.into(),
        ..plain(FieldKind::Result, id, label)
    }
}

/// Something to pick elsewhere, such as a wall or a mark, or a row that does something.
#[must_use]
pub fn pick(id: &str, label: &str, note: &str, value: &str) -> Row {
    /// Longer names stand under the label: beside it they would leave it no room.
    const BESIDE: usize = 22;
    if textwrap::core::display_width(value) > BESIDE {
        let parts = [value, note].into_iter().filter(|part| !part.is_empty());
        return Row {
            note: parts.collect::<Vec<_>>().join("; ").into(),
            ..plain(FieldKind::Pick, id, label)
        };
    }
    Row {
        note: note.into(),
        value: value.into(),
        ..plain(FieldKind::Pick, id, label)
    }
}

/// One of a few; `chosen` is `None` where none is.
#[must_use]
pub fn choice(id: &str, label: &str, options: &[&str], chosen: Option<usize>) -> Row {
    let options: Vec<SharedString> = options.iter().map(|&name| name.into()).collect();
    Row {
        options: ModelRc::new(VecModel::from(options)),
        chosen: chosen.and_then(|at| i32::try_from(at).ok()).unwrap_or(-1),
        ..plain(FieldKind::Choice, id, label)
    }
}

/// One of a few, with a picture of what each does.
#[must_use]
pub fn pictured(row: Row, pictures: Vec<Drawing>) -> Row {
    Row {
        pictures: ModelRc::new(VecModel::from(pictures)),
        ..row
    }
}

/// On or off.
#[must_use]
pub fn check(id: &str, label: &str, note: &str, checked: bool) -> Row {
    Row {
        note: note.into(),
        checked,
        ..plain(FieldKind::Check, id, label)
    }
}

/// A name; `placeholder` shows while it is empty.
#[must_use]
pub fn text(id: &str, label: &str, placeholder: &str, value: &str) -> Row {
    Row {
        note: placeholder.into(),
        value: value.into(),
        ..plain(FieldKind::Text, id, label)
    }
}
