//! The ground falls: the step of each bay, or the rail that slopes.

use super::Tail::Unit;
use super::Value::{Degrees, Fine, Length};
use super::{Answer, Given, Input, Pen, QuickSum, Solid, Stage, Vec2, Worked};
use crate::cautions::{SAWING, TREATED_CUTS};
use crate::quick::fall::{fall_over_bays, sloping_rail};

const TOTAL: Input = Input::length("fall total", "Fall from start to end").called("fall");
const BAYS: Input = Input::count("fall bays", "Number of bays").called("bays");
const BAY: Input = Input::length("fall bay", "Each bay, level").called("bay");

pub static STEP: QuickSum = QuickSum {
    id: "fall",
    title: "Steps down a fall",
    stage: Stage::Levels,
    answers: "How far does each bay step down?",
    how: "**Type the whole fall, the number of bays and the length of one.**",
    why: "The whole fall shared over the bays, not over the posts. The slope is that of the ground.",
    inputs: &[TOTAL, BAYS, BAY],
    work: step,
    picture: step_picture,
    pictured: "Bays that step down with the ground",
    ..QuickSum::BARE
};

fn step(given: &Given<'_>) -> Worked {
    let (total, bays) = (given.get(&TOTAL)?, given.count(&BAYS)?);
    let fall = fall_over_bays(total, bays, given.get(&BAY)?)?;
    Ok(
        Answer::new("Each bay steps down by", Fine(fall.step), Unit).row(
            "The ground slopes at",
            Degrees(fall.slope, 2),
            "",
        ),
    )
}

fn step_picture(pen: &mut Pen<'_>) {
    let given = pen.given;
    let worked = step(given);
    let known = worked.as_ref().ok().and_then(|_| given.count(&BAYS).ok());
    let bays = known.unwrap_or(4).clamp(1, 12);
    let slope = match (known, given.maybe(&TOTAL), given.maybe(&BAY)) {
        (Some(count), Some(total), Some(bay)) => total / (bay * count as f64),
        _ => 0.15,
    };
    let at = Vec2::new;
    let (bay, tall) = (10.0 / bays as f64, 2.2);
    let down = (slope * bay).clamp(0.02 * bay, 0.8);
    let count = bays as f64;
    pen.ground(
        &[
            at(-0.4, 0.0),
            at(0.0, 0.0),
            at(10.0, -down * count),
            at(10.4, -down * count),
        ],
        0.6,
    );
    for n in 0..bays {
        let (x, y) = (n as f64 * bay, -down * (n as f64 + 1.0));
        pen.upright(Solid::Board, [x, y + tall * 0.25, x + bay, y + tall]);
    }
    for n in 0..=bays {
        let (x, y) = (n as f64 * bay, -down * n as f64);
        pen.upright(Solid::Post, [x - 0.09, y, x + 0.09, y + tall]);
    }
    if bays > 1 {
        let (x, y) = (bay, -down + tall);
        pen.dimension(
            given.found(&worked),
            [[x, y], [x, y - down]],
            [1.0, 0.0],
            0.2,
        );
    }
    let fall = [at(10.0, 0.0), at(10.0, -down * count)];
    pen.ghost(at(0.0, 0.0), at(10.0, 0.0));
    pen.dimension(&TOTAL, fall, [1.0, 0.0], 0.5);
    let low = -down * count - 0.5;
    pen.dimension(&BAY, [[0.0, low], [bay, low]], [0.0, -1.0], 0.0);
    if given.asks(&BAYS) {
        let tag = given.tag(&BAYS);
        pen.figure(tag, [5.0, tall], [0.0, 1.0]);
    }
}

const CLEAR: Input =
    Input::length("rail clear", "Between the posts, level").called("clear between posts");
const FALL: Input = Input::length("rail fall", "Fall over it").called("fall");

pub static RAIL: QuickSum = QuickSum {
    id: "rail",
    title: "Sloping rail",
    stage: Stage::Boards,
    answers: "How long is a rail that follows the ground, and how are its ends cut?",
    how: "**Type the clear distance between the posts, held level, and the fall over it.**",
    why: "The clear distance over the cosine of the slope; the ends are cut off square by the \
          slope so that they stand plumb.",
    inputs: &[CLEAR, FALL],
    work: rail,
    picture: rail_picture,
    pictured: "A rail that slopes between two plumb posts",
    cautions: &[SAWING, TREATED_CUTS],
    ..QuickSum::BARE
};

fn rail(given: &Given<'_>) -> Worked {
    let rail = sloping_rail(given.get(&CLEAR)?, given.get(&FALL)?)?;
    Ok(
        Answer::new("Rail, face to face", Length(rail.length), Unit).row(
            "Ends cut off square by",
            Degrees(rail.end_cut, 1),
            "",
        ),
    )
}

fn rail_picture(pen: &mut Pen<'_>) {
    let given = pen.given;
    let worked = rail(given);
    let share = match (&worked, given.maybe(&CLEAR), given.maybe(&FALL)) {
        (Ok(_), Some(clear), Some(fall)) => (fall.abs() / clear).clamp(0.05, 0.8),
        _ => 0.2,
    };
    let at = Vec2::new;
    let (wide, post, thick) = (10.0, 0.5, 0.5);
    let down = wide * share;
    pen.ground(
        &[
            at(-1.0, 0.0),
            at(0.0, 0.0),
            at(wide, -down),
            at(wide + 1.0, -down),
        ],
        0.7,
    );
    for (x, y) in [(-post, 0.0), (wide, -down)] {
        pen.upright(Solid::Post, [x, y, x + post, y + 4.0]);
    }
    let [from, to] = [at(0.0, 2.6), at(wide, 2.6 - down)];
    let up = at(0.0, thick);
    pen.block(Solid::Timber, vec![from, to, to + up, from + up]);
    pen.tape(given.found(&worked), from + up, to + up);
    let level = [at(0.0, 4.2), at(wide, 4.2)];
    pen.dimension(&CLEAR, level, [0.0, 1.0], 0.2);
    pen.ghost(from, at(wide, from.y));
    pen.dimension(&FALL, [at(wide, from.y), to], [1.0, 0.0], 0.8);
}
