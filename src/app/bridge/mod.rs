//! The bridge between the window and the desk: callbacks come in, the desk changes, the screens are
//! filled again from it. It knows the screens only as the root hands them in.
//!
//! ```text
//!   screen ──callback──▶ act(desk) ──▶ Desk (job, solution, figure being typed)
//!     ▲                                  │
//!     └────────────── fill ◀─────────────┘
//! ```

pub mod canvas;
pub mod form;
pub mod frame;
pub mod keypad;
pub mod left;
pub mod saving;
pub mod screen;
pub mod voice;

use super::desk::{Desk, Then, root_of};
use saving::Saving;
pub use screen::{Back, FormScreen, PagePicture, Screen, Screens, Spec};
use slint::{ComponentHandle, SharedString};
use std::cell::RefCell;
use std::rc::{Rc, Weak};
use tautmark_ui::{App, Page, Place};
use voice::ReadAloud;

/// What the root hands in: every screen, and what happens with a file that comes from outside.
pub struct House {
    /// Every screen.
    pub screens: Screens,
    /// What happens with a file that comes from outside.
    pub brought: fn(&mut Desk, crate::app::device::Picked) -> Then,
}

/// The window and the desk behind it.
pub struct Bridge {
    me: Weak<Self>,
    app: slint::Weak<App>,
    desk: RefCell<Desk>,
    house: &'static House,
    saving: Saving,
    read: ReadAloud,
}

impl Bridge {
    /// Fills a window from a desk and lets it listen.
    #[must_use]
    pub(super) fn between(app: &App, desk: Desk, house: &'static House) -> Rc<Self> {
        let bridge = Rc::new_cyclic(|me| Self {
            me: me.clone(),
            app: app.as_weak(),
            desk: RefCell::new(desk),
            house,
            saving: Saving::default(),
            read: ReadAloud::default(),
        });
        frame::wire(app, &bridge);
        saving::wire(app, &bridge);
        form::wire(app, &bridge);
        keypad::wire(app, &bridge);
        canvas::wire(app, &bridge);
        voice::wire(app, &bridge);
        for screen in house.screens {
            screen.wire(app, &bridge);
        }
        bridge.refresh();
        bridge
    }

    /// Does something at the desk, goes where that leads, and shows what came of it.
    pub fn act(&self, what: impl FnOnce(&mut Desk) -> Then) {
        let then = {
            let mut desk = self.desk.borrow_mut();
            desk.just_said = false;
            let then = what(&mut desk);
            if then != Then::Stay {
                desk.hush();
            }
            self.go(&mut desk, then);
            then
        };
        if then == Then::Pick {
            self.pick();
        }
        self.show();
        self.desk.borrow_mut().just_said = false;
    }

    /// What acts at the desk whenever it is called.
    pub fn does(
        self: &Rc<Self>,
        what: impl Fn(&mut Desk) -> Then + 'static,
    ) -> impl Fn() + 'static {
        let me = self.clone();
        move || me.act(&what)
    }

    /// The same with the id of what was pressed.
    pub fn does_with(
        self: &Rc<Self>,
        what: impl Fn(&mut Desk, &str) -> Then + 'static,
    ) -> impl Fn(SharedString) + 'static {
        let me = self.clone();
        move |id| me.act(|desk| what(desk, &id))
    }

    /// The same with the place in a list of what was picked; nothing where that is none.
    pub fn does_at(
        self: &Rc<Self>,
        what: impl Fn(&mut Desk, usize) -> Then + 'static,
    ) -> impl Fn(i32) + 'static {
        let me = self.clone();
        move |index| {
            if let Ok(index) = usize::try_from(index) {
                me.act(|desk| what(desk, index));
            }
        }
    }

    /// Shows where the person has come to, with what is to be said there, and sees to it that all
    /// is kept.
    pub(super) fn show(&self) {
        self.refresh();
        self.keep();
        if self.look(|desk| desk.leaving)
            && let Some(app) = self.app.upgrade()
        {
            // A window that cannot be hidden is closed by the system all the same.
            let _ = app.hide();
        }
    }

    /// Looks at the desk without changing it.
    pub fn look<T>(&self, what: impl FnOnce(&Desk) -> T) -> T {
        what(&self.desk.borrow())
    }

    /// Goes to a page of a place, whatever was in sight.
    pub fn visit(&self, place: Place, page: Page) {
        self.act(|desk| {
            desk.nav.place = place;
            Then::Open(page)
        });
    }

    /// Brings in a job file that was picked or handed over, and goes to it; what is wrong with it is
    /// said.
    pub fn bring_in(&self, picked: crate::app::device::Picked) {
        self.act(|desk| (self.house.brought)(desk, picked));
    }

    fn pick(&self) {
        let device = self.look(|desk| desk.device.clone());
        if let Some(bridge) = self.me.upgrade() {
            device.pick(Box::new(move |picked| bridge.bring_in(picked)));
        }
    }

    /// The screen of a page.
    fn screen(&self, page: Page) -> &'static dyn Screen {
        let mut screens = self.house.screens.iter();
        let found = screens.find(|screen| screen.spec().page == page);
        // Every page has its screen: a test of the root's list says so.
        *found.unwrap_or(&self.house.screens[0])
    }

    fn go(&self, desk: &mut Desk, then: Then) {
        match then {
            Then::Stay | Then::Keypad | Then::Pick => {}
            Then::Open(page) => {
                desk.leave_entry();
                self.arrive(desk, page);
            }
            Then::Go(place) => {
                desk.leave_entry();
                self.arrive(desk, root_of(place));
            }
            Then::Ask(page) => self.arrive(desk, page),
            Then::Back => {
                if let Some(page) = self.way_back(desk) {
                    self.arrive(desk, page);
                }
            }
        }
    }

    /// What was begun on a page ends as it is left.
    fn arrive(&self, desk: &mut Desk, page: Page) {
        let to = self.screen(page).spec();
        desk.nav.place = to.place.unwrap_or(desk.nav.place);
        if desk.nav.page == page {
            return;
        }
        desk.close_step();
        self.screen(desk.nav.page).leave(desk);
        if to.back == Back::Opener {
            desk.nav.opener = desk.nav.page;
        }
        desk.nav.page = page;
    }

    /// The page that the way back from the one in sight leads to; `None` at its end.
    fn way_back(&self, desk: &Desk) -> Option<Page> {
        let here = self.screen(desk.nav.page).spec();
        let place = root_of(desk.nav.place);
        match here.back {
            _ if here.is_root() => None,
            Back::Page(page) => Some(page),
            Back::Opener => Some(desk.nav.opener),
            Back::Place if here.jobless && desk.open().is_none() => None,
            Back::Place => Some(place),
        }
    }

    /// Fills what is on the screen from the desk.
    pub fn refresh(&self) {
        let Some(app) = self.app.upgrade() else {
            return;
        };
        // A callback of the window that arrives while the desk is in use fills it afterwards.
        let Ok(desk) = self.desk.try_borrow() else {
            return;
        };
        let screen = self.screen(desk.nav.page);
        let own = screen.picture(&desk);
        let sight = frame::InSight {
            screen,
            has_drawing: own.is_some(),
            can_go_back: self.way_back(&desk).is_some(),
        };
        frame::fill(&app, &desk, &sight);
        // The keypad hides the page below it.
        let more = if desk.entry.is_some() {
            keypad::fill(&app, &desk);
            false
        } else if let Some(form) = screen.form() {
            form::fill(&app, screen.title(&desk), form(&desk));
            false
        } else {
            screen.fill(&app, &desk)
        };
        canvas::fill(&app, &desk, own.or_else(|| self.picture_below(&desk)));
        self.read.follow(&app, &desk, screen);
        if more {
            self.go_on_filling();
        }
    }
}
