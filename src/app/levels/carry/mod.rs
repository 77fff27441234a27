//! Carry round a corner. A person is led through it: sight the datum, sight a change point, move the
//! laser, sight the change point again.

mod guide;
mod said;

use super::datum::{choose_change_point, choose_datum};
use super::figures::ask;
use super::menus::add_setup;
use super::standing::in_doubt;
use super::{heights, levelled};
use crate::app::bridge::{FormScreen, Spec};
use crate::app::desk::{Desk, Then};
use crate::app::kit::{FormButton, FormContents};
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
pub static CARRY: FormScreen = FormScreen {
    title: |_| "Carry round a corner".to_owned(),
    picture: |desk| Some(levelled(desk)),
    ..FormScreen::new(Spec::inside(Place::Levels, Page::Carry, "carry"), contents)
};

fn contents(desk: &Desk) -> FormContents {
    let guide = Guide::of(desk);
    let next = guide.next(desk);
    let mut contents = FormContents::new(rows(desk, &guide));
    let from = guide.from;
    contents = match next {
        Next::Done => contents.saying(told(desk), &done(desk, &guide)),
        _ => contents.saying(Verdict::Note, &what_now(&guide, &next)),
    };
    if let Next::Done = next {
        contents.secondary = Some(FormButton::new("Next corner", move |desk| {
            desk.chosen.setup = from + 1;
            Then::Stay
        }));
    }
    contents.figure = carried(desk, &guide);
    contents.cautions = &[LASER];
    contents.primary = Some(FormButton::new(button(&next), move |desk| {
        do_next(desk, from, next)
    }));
    contents
}

/// Does what is to be done next, from the first set-up.
fn do_next(desk: &mut Desk, from: usize, next: Next) -> Then {
    match next {
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
