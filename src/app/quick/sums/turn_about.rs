//! Is the laser telling the truth, by two marks on a wall.

use super::Tail::Pm;
use super::Value::Fine;
use super::laser::slope;
use super::{Given, Input, Pen, QuickSum, Stage, Vec2, Worked};
use crate::cautions::LASER;
use crate::quick::laser_check::turn_about;

const WALL: Input = Input::length("turn about distance", "Laser to the wall")
    .called("distance to the wall")
    .how_natively("10 m or more", "30 ft or more");
const APART: Input = Input::up("turn about apart", "Second mark above the first")
    .called("height between the marks")
    .how("Down where it is below");

pub static TURN_ABOUT: QuickSum = QuickSum {
    id: "turn about",
    title: "Check the laser on one wall",
    stage: Stage::Levels,
    answers: "How far is my laser out, with one wall?",
    how: "**Mark the line on a wall, turn the laser through 180° on its tripod, and mark it again.**",
    why: "Turned through 180°, the line is as far out the other way: the marks differ by twice the \
          error over the distance. A wall twice as far halves its ±.",
    inputs: &[WALL, APART],
    work: about,
    picture: about_picture,
    pictured: "A laser’s line marked on a wall, and again after turning it through 180°",
    cautions: &[LASER],
    ..QuickSum::BARE
};

fn about(given: &Given<'_>) -> Worked {
    let (apart, wall) = (given.get(&APART)?, given.get(&WALL)?);
    let check = turn_about(apart, wall, given.laser)?;
    let level = check.level_above_first;
    let note = if level.value < 0.0 {
        "below the first mark"
    } else {
        "above the first mark"
    };
    Ok(slope(given, check.slope, check.verdict)
        .row("True level", Fine(level.value.abs()), Pm(level))
        .noted(note))
}

fn about_picture(pen: &mut Pen<'_>) {
    let given = pen.given;
    let at = Vec2::new;
    let (far, ground, head) = (2200.0, 0.0, 800.0);
    let apart = given.maybe(&APART).unwrap_or(-1.0);
    let swing = if apart < 0.0 { -90.0 } else { 90.0 };
    let marks = [at(far, head - swing), at(far, head + swing)];
    pen.ground(&[at(-300.0, ground), at(far, ground)], 120.0);
    pen.wall(at(far, 1250.0), at(far, ground));
    pen.laser(at(0.0, head), marks[0], "first");
    pen.laser(at(0.0, head), marks[1], "turned about");
    pen.tripod(at(0.0, head), head - ground);
    pen.dimension(&APART, marks, [-1.0, 0.0], 120.0);
    let feet = [at(0.0, ground), at(far, ground)];
    pen.dimension(&WALL, feet, [0.0, -1.0], 130.0);
}
