//! What is dug and taken up, as it lies heaped.

use super::Tail::{Litres, VolumeUnit};
use super::Value::{Count, Volume};
use super::{Answer, Given, Input, Pen, QuickSum, Solid, Stage, Stop, Usual, Vec2, Worked};
use crate::app::quick::keep::{self, KeptIn};
use crate::cautions::{LIFTING, SERVICES};
use crate::job::Job;
use crate::job::edit::{Edit, Setting};
use crate::job::model::Hole;
use crate::quick::spoil::{Dug, spoil};
use tautmark_ui::Place;

const HOLES: Input = Input::count("spoil holes", "Number of holes").called("holes");
const ACROSS: Input = Input::length("spoil across", "Across a hole")
    .called("hole diameter")
    .natively(Usual::METRIC.hole_diameter, Usual::FEET.hole_diameter);
const DEEP: Input = Input::length("spoil deep", "Depth of a hole")
    .called("hole depth")
    .natively(Usual::METRIC.hole_depth, Usual::FEET.hole_depth);
const OVER: Input = Input::number("spoil over", "Dug larger than drawn by", "%")
    .called("share for over-digging")
    .usually(25.0);
const STRIP: Input = Input::length("spoil strip", "Length of the strip cleared")
    .called("length of the strip")
    .may();
const WIDE: Input = Input::length("spoil wide", "Its width")
    .called("width of the strip")
    .natively(Usual::METRIC.strip, Usual::FEET.strip);
const THICK: Input = Input::length("spoil thick", "Turf or slabs, thickness")
    .called("thickness taken up")
    .natively(Usual::METRIC.turf, Usual::FEET.turf);
const BULK: Input = Input::number("spoil bulk", "It swells to", "times its room")
    .called("times it swells")
    .usually(1.3);

pub static SPOIL: QuickSum = QuickSum {
    id: "spoil",
    title: "Dug ground to be rid of",
    stage: Stage::Posts,
    answers: "How much is there to cart off?",
    how: "**Type how many holes,** and the strip where turf or slabs come up first.",
    why: "The holes as they are dug and the strip taken up, times how much looser ground lies when \
          it is dug: sand a little over one, clay up to one and a half.",
    inputs: &[HOLES, ACROSS, DEEP, OVER, STRIP, WIDE, THICK, BULK],
    work,
    picture,
    pictured: "A hole, the strip taken up beside it, and the heap",
    cautions: &[SERVICES, LIFTING],
    keep: Some(|desk, inputs| {
        let kept = KeptIn {
            title: "Dug ground to be rid of",
            said: "Its holes and the strip to clear.",
            place: Place::Boards,
        };
        keep::into_a_job(desk, inputs, kept, Box::new(in_job))
    }),
};

fn heaped(given: &Given<'_>, bulk: f64) -> Result<f64, Stop> {
    let dug = Dug {
        holes: u32::try_from(given.count(&HOLES)?).unwrap_or(u32::MAX),
        diameter: given.get(&ACROSS)?,
        depth: given.get(&DEEP)?,
        strip: given.maybe(&STRIP).unwrap_or(0.0),
        strip_width: given.get(&WIDE)?,
        strip_depth: given.get(&THICK)?,
    };
    Ok(spoil(dug, given.get(&OVER)? / 100.0, bulk)?)
}

fn work(given: &Given<'_>) -> Worked {
    let bulk = given.get(&BULK)?;
    let (heap, place) = (heaped(given, bulk)?, heaped(given, 1.0)?);
    Ok(Answer::new("Heaped", Volume(heap, 0), VolumeUnit)
        .row("In place", Volume(place, 0), VolumeUnit)
        .row(
            "Full barrows",
            Count((heap / BARROW).ceil() as usize),
            Litres(BARROW),
        )
        .noted("level full, each"))
}

/// The job's holes and the strip along its runs; how many holes and how long are its own.
fn in_job(given: &Given<'_>, job: &Job) -> Option<Edit> {
    let mut boards = job.boards.clone();
    let clear = boards.clear.get_or_insert_default();
    clear.width = given.maybe(&WIDE)?;
    // Without a strip nothing is taken up.
    let strip = given.maybe(&STRIP).is_some_and(|long| long > 0.0);
    clear.depth = if strip { given.maybe(&THICK)? } else { 0.0 };
    clear.bulk = given.maybe(&BULK)?;
    let hole = Hole {
        diameter: given.maybe(&ACROSS)?,
        depth: given.maybe(&DEEP)?,
        ..job.hole.clone()
    };
    let settings = [Setting::Hole(hole), Setting::Boards(boards)];
    Some(Edit::Many(settings.map(Edit::Set).to_vec()))
}

/// What a barrow holds, litres.
const BARROW: f64 = 70.0;

fn picture(pen: &mut Pen<'_>) {
    let given = pen.given;
    let at = Vec2::new;
    let (across, deep) = (300.0, 600.0);
    let half = across / 2.0;
    let earth = [
        [-900.0, -60.0],
        [-half, -60.0],
        [-half, -deep],
        [half, -deep],
        [half, 0.0],
        [900.0, 0.0],
        [900.0, -850.0],
        [-900.0, -850.0],
    ];
    pen.block(Solid::Ground, earth.map(Vec2::from).to_vec());
    let heap = [[350.0, 0.0], [620.0, 260.0], [890.0, 0.0]];
    pen.block(Solid::Ground, heap.map(Vec2::from).to_vec());
    let mouth = [at(-half, -deep), at(half, -deep)];
    pen.dimension(&ACROSS, mouth, at(0.0, -1.0), 40.0);
    let side = [at(half, -deep), at(half, 0.0)];
    pen.dimension(&DEEP, side, at(1.0, 0.0), 60.0);
    let strip = [at(-900.0, -60.0), at(-half, -60.0)];
    if given.asks(&THICK) {
        pen.figure(&THICK, [-500.0, -60.0], at(0.0, 1.0));
    } else if given.asks(&WIDE) {
        pen.figure(&WIDE, [-500.0, -60.0], at(0.0, 1.0));
    } else {
        pen.dimension(&STRIP, strip, at(0.0, 1.0), 120.0);
    }
    if given.asks(&HOLES) {
        pen.figure(&HOLES, [0.0, -deep * 0.5], at(0.0, 1.0));
    }
}
