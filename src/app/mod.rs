//! The app: every screen once, in one list; the window that shows them, and its start.
//!
//! ```text
//!   desk      the only owner of state: job, solution, figure being typed, where the person is
//!    ▲
//!   kit       how values become the screen's: words, rows, fields, drawings
//!    ▲
//!   bridge    how window and desk talk: act, show, go, refresh; form, keypad, canvas; saving
//!    ▲
//!   names     what things are called: from a job to words; renaming, adding: how they come and go
//!    ▲
//!   places    walls, lines, posts, levels, boards, sheet, jobs, quick, about, settings
//!    ▲
//!   here      the list of them all
//! ```
//!
//! Each knows what is above it here, and nothing below.

mod about;
mod adding;
mod boards;
mod bridge;
mod desk;
pub mod device;
mod jobs;
mod kit;
mod laser;
mod levels;
mod lines;
mod names;
mod posts;
mod quick;
mod renaming;
mod settings;
mod sheet;
mod walls;

pub use about::licences;
pub use bridge::Bridge;
pub use desk::{
    Chosen, Desk, FigureKind, Focus, KeypadEntry, Menu, Notice, Prompt, Snack, Then, Typed,
};

use crate::store::Jobs;
use bridge::House;
use bridge::screen::Screen;
use device::Device;
use slint::{ComponentHandle, PlatformError};
use std::rc::Rc;
use tautmark_ui::App;

/// Every screen. A page of the app is here once.
static SCREENS: [&dyn Screen; 28] = [
    &jobs::JobList,
    &jobs::bin::Bin,
    &jobs::title::RETITLE,
    &jobs::start::Starts,
    &about::About,
    &about::LicenceList,
    &about::OneLicence,
    &quick::Index,
    &quick::ONE_SUM,
    &sheet::SheetScreen,
    &settings::SETTINGS,
    &walls::WallsPlace,
    &lines::LinesPlace,
    &lines::stretch::STRETCH,
    &lines::string::OneString,
    &lines::corner::OneCorner,
    &posts::PostsPlace,
    &posts::run::RUN_SETUP,
    &posts::mark_out::MarkOut,
    &levels::LevelsPlace,
    &levels::carry::CARRY,
    &laser::LASER_CHECK,
    &levels::heights::Heights,
    &boards::BoardsPlace,
    &boards::sizes::SIZES,
    &boards::cut_list::CutList,
    &boards::trestles::TRESTLES,
    &boards::gate::GATE_PAGE,
];

static HOUSE: House = House {
    screens: &SCREENS,
    brought: jobs::open::brought,
};

impl Bridge {
    /// Fills a window from a desk and lets it listen.
    #[must_use]
    pub fn new(app: &App, desk: Desk) -> Rc<Self> {
        Self::between(app, desk, &HOUSE)
    }
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

#[cfg(test)]
mod tests {
    use super::*;
    use std::collections::HashSet;
    use tautmark_ui::Page;

    /// The number of a page's screens; without a default arm, so that a new page does not compile
    /// before it is thought of here.
    fn every_page() -> [Page; 28] {
        let next = |page| match page {
            Page::Walls => Some(Page::Lines),
            Page::Lines => Some(Page::Posts),
            Page::Posts => Some(Page::Levels),
            Page::Levels => Some(Page::Boards),
            Page::Boards => Some(Page::Jobs),
            Page::Jobs => Some(Page::Bin),
            Page::Bin => Some(Page::Rename),
            Page::Rename => Some(Page::Start),
            Page::Start => Some(Page::About),
            Page::About => Some(Page::Licences),
            Page::Licences => Some(Page::Licence),
            Page::Licence => Some(Page::Sums),
            Page::Sums => Some(Page::Quick),
            Page::Quick => Some(Page::Sheet),
            Page::Sheet => Some(Page::Settings),
            Page::Settings => Some(Page::Stretch),
            Page::Stretch => Some(Page::Line),
            Page::Line => Some(Page::Corner),
            Page::Corner => Some(Page::Run),
            Page::Run => Some(Page::MarkOut),
            Page::MarkOut => Some(Page::Carry),
            Page::Carry => Some(Page::Laser),
            Page::Laser => Some(Page::Heights),
            Page::Heights => Some(Page::Sizes),
            Page::Sizes => Some(Page::CutList),
            Page::CutList => Some(Page::Trestles),
            Page::Trestles => Some(Page::Gate),
            Page::Gate => None,
        };
        let all: Vec<Page> = std::iter::successors(Some(Page::Walls), |page| next(*page)).collect();
        all.try_into().expect("as many pages as screens")
    }

    #[test]
    fn every_page_has_exactly_one_screen() {
        for page in every_page() {
            let screens = SCREENS.iter();
            let of = screens.filter(|screen| screen.spec().page == page);
            assert_eq!(of.count(), 1, "{page:?}");
        }
    }

    #[test]
    fn every_name_of_a_page_is_its_own() {
        let mut names = HashSet::new();
        for screen in SCREENS {
            let name = screen.spec().name;
            assert!(name.is_none_or(|name| names.insert(name)), "{name:?}");
        }
    }
}
