//! Where the person is, and where doing something leads.

use tautmark_ui::{Page, Place};

/// Where the person is.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Whereabouts {
    /// The page in sight.
    pub page: Page,
    /// The place that is in sight, or under the page that covers it.
    pub place: Place,
    /// The page that the one in sight was opened from, where its way back is to that.
    pub opener: Page,
}

impl Default for Whereabouts {
    fn default() -> Self {
        Self {
            page: Page::Jobs,
            place: Place::Walls,
            opener: Page::Jobs,
        }
    }
}

/// The page of a place itself.
#[must_use]
pub fn root_of(place: Place) -> Page {
    match place {
        Place::Walls => Page::Walls,
        Place::Lines => Page::Lines,
        Place::Posts => Page::Posts,
        Place::Levels => Page::Levels,
        Place::Boards => Page::Boards,
    }
}

/// Where to go once something has been done.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Then {
    /// Nowhere: what is in sight is shown afresh.
    Stay,
    /// The keypad asks for the figure that the desk asks for, or is done.
    Keypad,
    /// To a page.
    Open(Page),
    /// To the page of a place itself.
    Go(Place),
    /// Goes to a page and leaves the keypad over it.
    Ask(Page),
    /// Lets the person pick a job file, and brings it in.
    Pick,
    /// The way back of the page in sight.
    Back,
}
