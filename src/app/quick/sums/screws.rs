//! Screws for pales, rails and gravel boards.

use super::Value::Count;
use super::{Answer, Given, Input, Pen, QuickSum, Solid, Stage, Vec2, Worked};
use crate::app::quick::keep::{self, KeptIn};
use crate::job::Job;
use crate::job::edit::{Edit, Setting};
use tautmark_ui::Place;

const PALES: Input = Input::count("screws pales", "Pales").called("pales");
const RAILS: Input = Input::count("screws rails", "Rails under each pale")
    .called("rails")
    .usually(3.0);
const PALE: Input = Input::count("screws pale", "Screws to a pale and rail")
    .called("screws to a pale and rail")
    .usually(1.0);
const BAYS: Input = Input::count("screws bays", "Bays").called("bays");
const END: Input = Input::count("screws end", "Screws to a rail’s end")
    .called("screws to a rail’s end")
    .usually(2.0);
const SPARE: Input = Input::number("screws spare", "Spare", "%")
    .called("spare")
    .usually(10.0);

pub static SCREWS: QuickSum = QuickSum {
    id: "screws",
    title: "Screws for a fence",
    stage: Stage::Boards,
    answers: "How many screws?",
    how: "**Type how many pales and how many bays.**",
    why: "Each pale on each rail, and each rail at both its ends; a few more for those that are \
          lost. Which screw holds in which timber is for its maker: take one that treated timber \
          does not eat.",
    inputs: &[PALES, RAILS, PALE, BAYS, END, SPARE],
    work,
    picture,
    pictured: "Pales on three rails with their screws",
    cautions: &[],
    keep: Some(|desk, inputs| {
        let kept = KeptIn {
            title: "Screws for a fence",
            said: "Its screws, and its rails.",
            place: Place::Boards,
        };
        keep::into_a_job(desk, inputs, kept, Box::new(in_job))
    }),
};

fn work(given: &Given<'_>) -> Worked {
    let rails = given.count(&RAILS)?;
    let pales = given.count(&PALES)?.saturating_mul(rails);
    let pales = pales.saturating_mul(given.count(&PALE)?);
    let ends = given.count(&BAYS)?.saturating_mul(2 * rails);
    let ends = ends.saturating_mul(given.count(&END)?);
    let all = pales.saturating_add(ends);
    let spare = given.get(&SPARE)?.max(0.0) / 100.0;
    let bought = (all as f64 * (1.0 + spare)).ceil() as usize;
    Ok(Answer::new("Screws", Count(bought), "with the spare")
        .row("For the pales", Count(pales), "")
        .row("For the rails", Count(ends), ""))
}

/// How many screws each joint takes, and how many rails a bay has.
fn in_job(given: &Given<'_>, job: &Job) -> Option<Edit> {
    let count = |input: &Input| u32::try_from(given.count(input).ok()?).ok();
    let mut boards = job.boards.clone();
    let fixings = boards.fixings.get_or_insert_default();
    fixings.pale = count(&PALE)?;
    fixings.rail = count(&END)?;
    boards.rails.get_or_insert_default().count = count(&RAILS)?;
    Some(Edit::Set(Setting::Boards(boards)))
}

fn picture(pen: &mut Pen<'_>) {
    let given = pen.given;
    let at = Vec2::new;
    for low in [150.0, 800.0, 1450.0] {
        pen.upright(Solid::Timber, [-100.0, low, 1100.0, low + 75.0]);
    }
    for n in 0..7 {
        let left = f64::from(n) * 150.0;
        pen.upright(Solid::Pale, [left, 40.0, left + 125.0, 1650.0]);
        for low in [187.0, 837.0, 1487.0] {
            let x = left + 62.0;
            pen.ink(vec![at(x - 14.0, low), at(x + 14.0, low)]);
            pen.ink(vec![at(x, low - 14.0), at(x, low + 14.0)]);
        }
    }
    let up = at(0.0, 1.0);
    for (input, place) in [
        (PALES, [525.0, 1650.0]),
        (RAILS, [1100.0, 837.0]),
        (BAYS, [525.0, 40.0]),
    ] {
        if given.asks(&input) || given.typed(&input).is_some() {
            pen.figure(&input, place, up);
        }
    }
}
