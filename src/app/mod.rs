//! The bridge between a job and the screens: callbacks come in, the desk changes, the screens are
//! filled again from it. One file a place; nothing here knows a formula.
//!
//! ```text
//!   screen ──callback──▶ act(desk) ──▶ Desk (job, solution, figure being typed)
//!     ▲                                  │
//!     └────────────── fill ◀─────────────┘
//! ```

mod about;
mod add_line;
mod add_reading;
mod ago;
mod as_built;
mod bin;
mod board_facts;
mod boards;
mod carry;
mod carry_guide;
mod carry_said;
mod caution;
mod check_figure;
mod chosen;
mod corner_page;
mod cut_list;
mod desk;
pub mod device;
mod entry;
mod field;
mod form;
mod frame;
mod heights;
mod heights_said;
mod job_list;
mod job_menu;
mod jobs;
mod keeping;
mod keypad;
mod laser;
mod left;
mod level_menus;
mod level_names;
mod level_status;
mod levels;
pub mod licences;
mod lines;
mod mark_out;
mod mark_out_facts;
mod mark_out_said;
mod menu;
mod nail_figure;
mod naming;
mod over;
mod painted;
mod picture;
mod point_figure;
mod posts;
mod preview;
mod quick;
mod reading_figure;
mod respace;
mod retitle;
mod rows;
mod run_figure;
mod run_names;
mod run_picks;
mod run_rows;
mod run_setup;
mod settings;
mod sheet;
mod sight;
mod size_figure;
mod sizes;
mod standing;
mod start;
mod string_page;
mod typing;
mod walls;
mod words;

pub use chosen::Chosen;
pub use desk::{Desk, Notice, Snack};
pub use entry::{Entry, Typed};
pub use field::{Field, Focus, Measure};
pub use over::Menu;

use crate::store::Jobs;
use device::{Device, Picked};
use slint::{ComponentHandle, Global, PlatformError};
use std::cell::RefCell;
use std::rc::{Rc, Weak};
use tautmark_ui::{App, Nav, Page, Place};

/// The window and the desk behind it.
pub struct Bridge {
    me: Weak<Self>,
    app: slint::Weak<App>,
    desk: RefCell<Desk>,
    keeping: keeping::Keeping,
}

/// Where to go once something has been done.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Then {
    Stay,
    /// Shows the keypad for the figure that the desk asks for, or takes it away.
    Keypad,
    Open(Page),
    Go(Place),
    /// Goes to a place and shows the keypad over it.
    Ask(Place),
    /// Goes to a page of a place and shows the keypad over it.
    AskAt(Place, Page),
    /// Lets the person pick a job file, and brings it in.
    Pick,
    Back,
}

impl Bridge {
    /// Fills a window from a desk and lets it listen.
    #[must_use]
    pub fn new(app: &App, desk: Desk) -> Rc<Self> {
        let bridge = Rc::new_cyclic(|me| Self {
            me: me.clone(),
            app: app.as_weak(),
            desk: RefCell::new(desk),
            keeping: keeping::Keeping::default(),
        });
        frame::wire(app, &bridge);
        keeping::wire(app, &bridge);
        form::wire(app, &bridge);
        keypad::wire(app, &bridge);
        picture::wire(app, &bridge);
        jobs::wire(app, &bridge);
        about::wire(app, &bridge);
        bin::wire(app, &bridge);
        quick::wire(app, &bridge);
        start::wire(app, &bridge);
        walls::wire(app, &bridge);
        add_reading::wire(app, &bridge);
        lines::wire(app, &bridge);
        string_page::wire(app, &bridge);
        corner_page::wire(app, &bridge);
        sheet::wire(app, &bridge);
        posts::wire(app, &bridge);
        mark_out::wire(app, &bridge);
        levels::wire(app, &bridge);
        heights::wire(app, &bridge);
        boards::wire(app, &bridge);
        cut_list::wire(app, &bridge);
        over::lay_over(app, &mut bridge.desk.borrow_mut());
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
            then
        };
        if let Some(app) = self.app.upgrade() {
            self.go(&app, then);
            self.show();
        }
        self.desk.borrow_mut().just_said = false;
    }

    /// Shows where the person has come to, with what is to be said there, and sees to it that all
    /// is kept.
    fn show(&self) {
        let (Some(app), Ok(mut desk)) = (self.app.upgrade(), self.desk.try_borrow_mut()) else {
            return;
        };
        desk.arrive(Nav::get(&app).get_page());
        over::lay_over(&app, &mut desk);
        let leaving = desk.leaving;
        drop(desk);
        self.refresh();
        self.keep();
        if leaving {
            // A window that cannot be hidden is closed by the system all the same.
            let _ = app.hide();
        }
    }

    /// The person went to another page: what was said of the one before goes with it.
    fn moved(&self) {
        if let Ok(mut desk) = self.desk.try_borrow_mut() {
            desk.hush();
        }
        self.show();
    }

    /// Looks at the desk without changing it.
    pub fn look<T>(&self, what: impl FnOnce(&Desk) -> T) -> T {
        what(&self.desk.borrow())
    }

    /// Brings in a job file that was picked or handed over, and goes to it; what is wrong with it is
    /// said.
    pub fn bring_in(&self, picked: Picked) {
        self.act(|desk| jobs::brought(desk, picked));
    }

    fn pick(&self) {
        let device = self.look(|desk| desk.device.clone());
        if let Some(bridge) = self.me.upgrade() {
            device.pick(Box::new(move |picked| bridge.bring_in(picked)));
        }
    }

    fn go(&self, app: &App, then: Then) {
        let nav = Nav::get(app);
        match then {
            Then::Stay => {}
            Then::Keypad => nav.set_entry(self.desk.borrow().entry.is_some()),
            Then::Open(page) => {
                nav.set_entry(false);
                if page == Page::Quick && nav.get_page() != Page::Quick {
                    nav.set_under_quick(nav.get_page());
                }
                nav.set_page(page);
            }
            Then::Go(place) => {
                nav.set_entry(false);
                nav.set_page(Page::Work);
                nav.set_place(place);
            }
            Then::Ask(place) => {
                nav.set_page(Page::Work);
                nav.set_place(place);
                nav.set_entry(self.desk.borrow().entry.is_some());
            }
            Then::AskAt(place, page) => {
                nav.set_page(page);
                nav.set_place(place);
                nav.set_entry(self.desk.borrow().entry.is_some());
            }
            Then::Pick => self.pick(),
            Then::Back => nav.invoke_back(),
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
        frame::fill(&app, &desk);
        // The keypad hides the page below it.
        let more = if Nav::get(&app).get_entry() {
            keypad::fill(&app, &desk);
            false
        } else {
            fill_page(&app, &desk)
        };
        picture::fill(&app, &desk);
        if more {
            self.go_on_filling();
        }
    }
}

/// Fills the page in sight, each looking whether it is; true where there is more of it to come.
fn fill_page(app: &App, desk: &Desk) -> bool {
    form::fill(app, desk);
    bin::fill(app, desk);
    about::fill(app);
    quick::fill(app, desk);
    walls::fill(app, desk);
    lines::fill(app, desk);
    sheet::fill(app, desk);
    posts::fill(app, desk);
    mark_out::fill(app, desk);
    levels::fill(app, desk);
    heights::fill(app, desk);
    boards::fill(app, desk);
    cut_list::fill(app, desk);
    jobs::fill(app, desk)
}

/// Makes the window on the jobs of this device, as it was left.
///
/// # Errors
/// Where no display can be opened.
pub fn open(jobs: Jobs, device: Rc<dyn Device>) -> Result<(App, Rc<Bridge>), PlatformError> {
    let app = App::new()?;
    let bridge = Bridge::new(&app, Desk::new(jobs, device));
    bridge.reopen();
    Ok((app, bridge))
}

/// Opens the window on the jobs of this device and runs until it is closed.
///
/// # Errors
/// Where no display can be opened.
pub fn run(jobs: Jobs, device: Rc<dyn Device>) -> Result<(), PlatformError> {
    let (app, bridge) = open(jobs, device)?;
    let ran = app.run();
    bridge.pause();
    ran
}
