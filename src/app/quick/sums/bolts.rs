//! Bolts down a post that is fixed to a wall.

use super::Tail::Unit;
use super::Value::{Count, Fine};
use super::{Answer, Given, Input, Pen, QuickSum, Solid, Stage, Stop, Usual, Vec2, Worked};
use crate::app::quick::keep::{self, KeptIn};
use crate::cautions::MASONRY;
use crate::job::Job;
use crate::job::edit::{Edit, Setting};
use crate::quick::bolts::bolts;
use tautmark_ui::Place;

const LENGTH: Input =
    Input::length("bolts length", "Length of the post").called("length of the post");
const ENDS: Input = Input::length("bolts ends", "From each end to its nearest bolt")
    .called("distance from the ends")
    .natively(Usual::METRIC.bolt_ends, Usual::FEET.bolt_ends);
const MOST: Input = Input::length("bolts most", "Farthest between two")
    .called("most between two bolts")
    .natively(Usual::METRIC.bolt_most, Usual::FEET.bolt_most);

pub static BOLTS: QuickSum = QuickSum {
    id: "bolts",
    title: "Bolts on a wall post",
    stage: Stage::Posts,
    answers: "How many bolts, and where along the post?",
    how: "**Type how long the post is,** from its top to its foot.",
    why: "So far from either end, the rest evenly between and never farther apart than you say. \
          Move one that meets a notch clear of it; a job does that by itself. What the wall holds, \
          and how deep and how near an edge a fixing may be, is for its own sheet.",
    inputs: &[LENGTH, ENDS, MOST],
    work,
    picture,
    pictured: "A post against a wall with its bolts, its top to the right",
    cautions: &[MASONRY],
    keep: Some(|desk, inputs| {
        let kept = KeptIn {
            title: "Bolts on a wall post",
            said: "The bolts of its wall posts.",
            place: Place::Boards,
        };
        keep::into_a_job(desk, inputs, kept, Box::new(in_job))
    }),
};

/// At most so many are listed one by one.
const LISTED: usize = 30;

fn found(given: &Given<'_>) -> Result<Vec<f64>, Stop> {
    let length = given.get(&LENGTH)?;
    Ok(bolts(length, given.get(&ENDS)?, given.get(&MOST)?)?)
}

fn work(given: &Given<'_>) -> Worked {
    let at = found(given)?;
    let mut answer = Answer::new("Bolts", Count(at.len()), "");
    if let [first, second, ..] = at[..] {
        answer = answer.row("From one to the next", Fine(second - first), Unit);
    }
    Ok(answer.marks(&at, LISTED, Fine, |n| format!("Bolt {n}, from the top")))
}

/// How its wall posts are bolted; the posts' lengths are the job's own.
fn in_job(given: &Given<'_>, job: &Job) -> Option<Edit> {
    let mut boards = job.boards.clone();
    let wall = &mut boards.fixings.get_or_insert_default().wall;
    wall.ends = given.maybe(&ENDS)?;
    wall.most = given.maybe(&MOST)?;
    Some(Edit::Set(Setting::Boards(boards)))
}

fn picture(pen: &mut Pen<'_>) {
    let given = pen.given;
    let known = found(given).ok().zip(given.maybe(&LENGTH));
    let likely = || Some((bolts(1700.0, 150.0, 500.0).ok()?, 1700.0));
    let Some((bolts, length)) = known.or_else(likely) else {
        return;
    };
    let at = Vec2::new;
    let thick = length * 0.08;
    pen.block(
        Solid::Ground,
        [
            [0.0, -2.5 * thick],
            [length, -2.5 * thick],
            [length, 0.0],
            [0.0, 0.0],
        ]
        .map(Vec2::from)
        .to_vec(),
    );
    pen.upright(Solid::Post, [0.0, 0.0, length, thick]);
    for from_top in bolts.iter().take(100) {
        let x = length - from_top;
        pen.ink(vec![at(x, -1.5 * thick), at(x, thick)]);
    }
    let up = at(0.0, 1.0);
    pen.dimension(
        &LENGTH,
        [at(0.0, thick), at(length, thick)],
        up,
        thick * 2.0,
    );
    if let [first, second, ..] = bolts[..] {
        let top = [at(length - first, thick), at(length, thick)];
        pen.dimension(&ENDS, top, up, thick * 0.4);
        if given.asks(&MOST) {
            let two = [at(length - second, thick), at(length - first, thick)];
            pen.dimension(&MOST, two, up, thick * 0.4);
        }
    }
}
