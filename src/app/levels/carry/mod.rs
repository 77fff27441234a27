//! Carry round a corner: sight the datum, sight a change point, move the laser, sight the change
//! point again.

mod guide;
mod said;

use super::datum::{choose_change_point, choose_datum};
use super::figures::ask;
use super::menus::add_setup;
use super::standing::in_doubt;
use super::{heights, levelled};
use crate::app::bridge::form::FormPage;
use crate::app::bridge::screen::{Picture, Screen, Spec};
use crate::app::desk::{Desk, Then, caution};
use crate::app::kit::fields::FormContents;
use crate::cautions::LASER;
use guide::{Guide, Next};
use said::{button, carried, done, rows, what_now};
use tautmark_ui::{Page, Place, Verdict};

/// How the step round the corner is called: good only where every sight fits.
fn told(desk: &Desk) -> Verdict {
    match desk.solution.levels.is_none() || in_doubt(desk) {
        true => Verdict::Attention,
        false => Verdict::Good,
    }
}

/// The page of the guide. It goes from the set-up in sight to the one after it.
pub struct Carry;

impl Screen for Carry {
    fn spec(&self) -> Spec {
        Spec::inside(Place::Levels, Page::Carry, "carry")
    }

    fn form(&self) -> Option<&dyn FormPage> {
        Some(self)
    }

    fn picture(&self, desk: &Desk) -> Option<Picture> {
        Some(levelled(desk))
    }
}

impl FormPage for Carry {
    fn title(&self, _desk: &Desk) -> String {
        "Carry round a corner".to_owned()
    }

    fn contents(&self, desk: &Desk) -> FormContents {
        let guide = Guide::of(desk);
        let next = guide.next(desk);
        let mut contents = FormContents::new(rows(desk, &guide));
        contents = match &next {
            Next::Done => contents.saying(told(desk), &done(desk, &guide)),
            _ => contents.saying(Verdict::Note, &what_now(&guide, &next)),
        };
        contents.figure = carried(desk, &guide);
        contents.caution = LASER.short.to_owned();
        contents.primary = button(&next);
        if matches!(next, Next::Done) {
            contents.secondary = "Next corner".to_owned();
        }
        contents
    }

    fn pressed(&self, desk: &mut Desk, id: &str) -> Then {
        let guide = Guide::of(desk);
        let from = guide.from;
        let (datum, point) = (guide.datum.cloned(), guide.point.cloned());
        match (id, datum, point) {
            ("datum", Some(datum), _) => ask(desk, from, datum),
            ("datum", None, _) => choose_datum(desk, None),
            ("first", _, Some(point)) => ask(desk, from, point),
            ("second", _, Some(point)) => ask(desk, from + 1, point),
            ("point", ..) => choose_change_point(desk, from),
            _ => self.figure_asked(desk),
        }
    }

    fn figure_asked(&self, desk: &mut Desk) -> Then {
        desk.explain(
            "How far one line is above the other",
            "From every point that ties the set-ups together, all sights adjusted at once; one \
             more point seen from both, as far from the one as from the other, makes it surer.",
        );
        Then::Stay
    }

    fn caution_pressed(&self, desk: &mut Desk) -> Then {
        caution::open(desk, &LASER)
    }

    fn primary(&self, desk: &mut Desk) -> Then {
        let guide = Guide::of(desk);
        let from = guide.from;
        match guide.next(desk) {
            Next::ChooseDatum => choose_datum(desk, None),
            Next::SetUp => {
                add_setup(desk);
                Then::Stay
            }
            Next::SightDatum(point) | Next::Sight(point) => ask(desk, from, point),
            Next::ChoosePoint => choose_change_point(desk, from),
            Next::Move => {
                // The guide goes on from the set-up before the new one.
                if add_setup(desk) {
                    desk.chosen.setup = from;
                }
                Then::Stay
            }
            Next::SightAgain(point) => ask(desk, from + 1, point),
            Next::Done => heights::start_from(desk, from + 1),
        }
    }

    fn secondary(&self, desk: &mut Desk) -> Then {
        desk.chosen.setup = Guide::of(desk).from + 1;
        Then::Stay
    }
}
