//! The pages of Quick in the list of screens.

use super::page::contents_in_sight;
use super::{buttons, drawing, in_sight, index, wire};
use crate::app::bridge::{Back, Bridge, FormScreen, PagePicture, Screen, Spec};
use crate::app::desk::Desk;
use crate::app::kit::FormContents;
use std::rc::Rc;
use tautmark_ui::{App, Page};

/// The list of all sums.
pub struct Index;

impl Screen for Index {
    fn spec(&self) -> Spec {
        Spec::over(Page::Sums, Some("sums"), Back::Page(Page::Jobs)).jobless()
    }

    fn wire(&self, app: &App, bridge: &Rc<Bridge>) {
        buttons(app);
        wire(app, bridge);
    }

    fn title(&self, _desk: &Desk) -> Option<String> {
        Some("Quick sums".to_owned())
    }

    fn form(&self) -> Option<fn(&Desk) -> FormContents> {
        Some(index)
    }
}

/// One sum.
pub static ONE_SUM: FormScreen = FormScreen {
    title: |desk| in_sight(desk).title.to_owned(),
    picture: |desk| Some(PagePicture::Drawing(drawing(desk))),
    ..FormScreen::new(
        Spec::over(Page::Quick, Some("quick"), Back::Opener).jobless(),
        contents_in_sight,
    )
};
