//! The pages of Quick in the list of screens.

use super::{Index, OneSum, buttons, drawing, laser_check, wire};
use crate::app::bridge::Bridge;
use crate::app::bridge::form::FormPage;
use crate::app::bridge::screen::{Back, Picture, Screen, Spec};
use crate::app::desk::Desk;
use crate::app::laser::LaserCheck;
use std::rc::Rc;
use tautmark_ui::{App, Page, Place};

impl Screen for Index {
    fn spec(&self) -> Spec {
        Spec::over(Page::Sums, Some("sums"), Back::Page(Page::Jobs)).jobless()
    }

    fn wire(&self, app: &App, bridge: &Rc<Bridge>) {
        buttons(app);
        wire(app, bridge);
    }

    fn form(&self) -> Option<&dyn FormPage> {
        Some(self)
    }
}

impl Screen for OneSum {
    fn spec(&self) -> Spec {
        Spec::over(Page::Quick, Some("quick"), Back::Opener).jobless()
    }

    fn form(&self) -> Option<&dyn FormPage> {
        Some(self)
    }

    fn picture(&self, desk: &Desk) -> Option<Picture> {
        Some(Picture::Drawing(drawing(desk)))
    }
}

impl Screen for LaserCheck {
    fn spec(&self) -> Spec {
        Spec::inside(Place::Levels, Page::Laser, "laser")
    }

    fn form(&self) -> Option<&dyn FormPage> {
        Some(self)
    }

    fn picture(&self, desk: &Desk) -> Option<Picture> {
        Some(Picture::Drawing(laser_check(desk)))
    }
}
