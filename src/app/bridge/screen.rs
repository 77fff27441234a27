//! A page of the app as the root lists it: what is fixed of it, what it shows, and what a press on it
//! does.

use super::Bridge;
use crate::app::desk::{Desk, Then, root_of};
use crate::app::kit::FormContents;
use crate::drawing::{Drawing, Laid, Target};
use std::rc::Rc;
use tautmark_ui::{App, Page, Place};

/// What is fixed of a page.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Spec {
    /// The page itself.
    pub page: Page,
    /// The place it is, or is inside of; `None` where it covers them all.
    pub place: Option<Place>,
    /// Names it in the note of where the app was left; `None` where the app opens elsewhere.
    pub name: Option<&'static str>,
    /// Where its way back leads.
    pub back: Back,
    /// It can be looked at with no job on the desk.
    pub jobless: bool,
}

/// Where the way back leads.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Back {
    /// To the place in sight or under it.
    Place,
    /// To this page, always.
    Page(Page),
    /// To the page that this one was opened from.
    Opener,
}

impl Spec {
    /// A place itself.
    #[must_use]
    pub const fn place(place: Place, page: Page, name: &'static str) -> Self {
        Self::inside(place, page, name)
    }

    /// A page inside a place.
    #[must_use]
    pub const fn inside(place: Place, page: Page, name: &'static str) -> Self {
        Self {
            page,
            place: Some(place),
            name: Some(name),
            back: Back::Place,
            jobless: false,
        }
    }

    /// A page over all places, reached from the top.
    #[must_use]
    pub const fn over(page: Page, name: Option<&'static str>, back: Back) -> Self {
        Self {
            page,
            place: None,
            name,
            back,
            jobless: false,
        }
    }

    /// The same, to be looked at with no job on the desk too.
    #[must_use]
    pub const fn jobless(self) -> Self {
        Self {
            jobless: true,
            ..self
        }
    }

    /// True for a place itself: the way back from it is to the jobs.
    #[must_use]
    pub fn is_root(&self) -> bool {
        self.place.is_some_and(|place| root_of(place) == self.page)
    }
}

/// What a page draws.
pub enum PagePicture {
    /// Nothing now.
    Blank,
    Drawing(Drawing),
    /// A page of the sheet: what is on it, with y down, and its size, both in pt.
    Paper {
        ink: Laid,
        size: [f64; 2],
        description: String,
    },
}

impl PagePicture {
    /// A drawing where there is one, else another.
    #[must_use]
    pub fn or(drawing: Option<Drawing>, other: impl FnOnce() -> Self) -> Self {
        drawing.map_or_else(other, Self::Drawing)
    }
}

/// A page of the app.
pub trait Screen: Sync {
    fn spec(&self) -> Spec;

    /// Lets the page's own parts act at the desk.
    fn wire(&self, _app: &App, _bridge: &Rc<Bridge>) {}

    /// What the page shows as a form, where it is one.
    fn form(&self) -> Option<fn(&Desk) -> FormContents> {
        None
    }

    /// Stands at the head of the page; `None`: the job's own title does.
    fn title(&self, _desk: &Desk) -> Option<String> {
        None
    }

    /// Fills what the page shows, while it is in sight; true where there is more of it to come.
    fn fill(&self, _app: &App, _desk: &Desk) -> bool {
        false
    }

    /// What the page draws; `None` where it has no drawing.
    fn picture(&self, _desk: &Desk) -> Option<PagePicture> {
        None
    }

    /// The drawing was pressed: on what, and where on the site, mm.
    fn drawing_pressed(&self, desk: &mut Desk, on: Option<&Target>, _at: [f64; 2]) -> Then {
        on.map_or(Then::Stay, |target| desk.pick(target))
    }

    /// The person has left the page.
    fn leave(&self, _desk: &mut Desk) {}

    /// What a voice reads aloud of the page, for hands that are full: there the device stays awake too.
    /// `None` where there is nothing to say.
    fn aloud(&self, _desk: &Desk) -> Option<String> {
        None
    }
}

/// A page of fields, as data: what it is called, what it shows, what it draws.
pub struct FormScreen {
    /// What is fixed of it.
    pub spec: Spec,
    /// The words in its head.
    pub title: fn(&Desk) -> String,
    /// Its fields.
    pub contents: fn(&Desk) -> FormContents,
    /// What it draws; `None` where it draws nothing.
    pub picture: fn(&Desk) -> Option<PagePicture>,
    /// The person has left the page.
    pub leave: fn(&mut Desk),
    /// What is read aloud of it; `None` where there is nothing to say.
    pub aloud: fn(&Desk) -> Option<String>,
}

impl FormScreen {
    /// A page with these fields and no drawing, called by the job's own title.
    #[must_use]
    pub const fn new(spec: Spec, contents: fn(&Desk) -> FormContents) -> Self {
        Self {
            spec,
            title: |desk| desk.job().title.clone(),
            contents,
            picture: |_| None,
            leave: |_| {},
            aloud: |_| None,
        }
    }
}

impl Screen for FormScreen {
    fn spec(&self) -> Spec {
        self.spec
    }

    fn form(&self) -> Option<fn(&Desk) -> FormContents> {
        Some(self.contents)
    }

    fn title(&self, desk: &Desk) -> Option<String> {
        Some((self.title)(desk))
    }

    fn picture(&self, desk: &Desk) -> Option<PagePicture> {
        (self.picture)(desk)
    }

    fn leave(&self, desk: &mut Desk) {
        (self.leave)(desk);
    }

    fn aloud(&self, desk: &Desk) -> Option<String> {
        (self.aloud)(desk)
    }
}

/// The screens of the app, handed in by the root.
pub type Screens = &'static [&'static dyn Screen];
