//! How a job begins: the keypad walks through what its start still needs, and goes on from there
//! whenever it is opened again.

use super::open;
use crate::app::bridge::{Back, Bridge, Screen, Spec};
use crate::app::desk::{Desk, Then};
use crate::app::walls::figures::figure_of;
use crate::job::Job;
use crate::job::start::{Start, lay_out, start};
use slint::Global;
use std::rc::Rc;
use tautmark_ui::{App, Page, StartKind, StartVm};

/// The page of starts.
pub struct Starts;

impl Screen for Starts {
    fn spec(&self) -> Spec {
        Spec::over(Page::Start, Some("start"), Back::Page(Page::Jobs)).jobless()
    }

    fn wire(&self, app: &App, bridge: &Rc<Bridge>) {
        let at = bridge.clone();
        StartVm::get(app).on_begun(move |kind| at.act(|desk| begin(desk, of(kind))));
    }
}

fn of(kind: StartKind) -> Start {
    match kind {
        StartKind::Gap => Start::Gap,
        StartKind::Corner => Start::Corner,
        StartKind::Wall => Start::Wall,
        StartKind::Marks => Start::Marks,
    }
}

/// Puts a new job on the desk and lays it out as its first step, so that undoing it all leads back to
/// a job with nothing in it; then asks for its first figure.
fn begin(desk: &mut Desk, kind: Start) -> Then {
    let laid_out = start(kind);
    open::begin(desk, Job::new(&laid_out.title));
    desk.change(lay_out(laid_out));
    desk.ask(figure_of(desk.saved(), 0));
    Then::Ask(Page::Walls)
}
