//! The ground falls: the step of each bay, or the rail that slopes.

use super::given::Given;
use super::sum::{Answer, Input, Refused, Stage, Sum, Worked};
use crate::cautions::TREATED_CUTS;
use crate::drawing::{Block, Drawing, Vec2};
use crate::quick::fall::{fall_over_bays, sloping_rail};

const TOTAL: &str = "fall total";
const BAYS: &str = "fall bays";
const BAY: &str = "fall bay";

pub(super) static STEP: Sum = Sum {
    id: "fall",
    title: "Steps down a fall",
    stage: Stage::Levels,
    answers: "How far does each bay step down?",
    how: "**Type the whole fall, the number of bays and the length of one.**",
    why: "The whole fall shared over the bays, not over the posts. The slope is that of the ground.",
    inputs: &[
        Input::length(TOTAL, "Fall from start to end").called("fall"),
        Input::count(BAYS, "Number of bays").called("bays"),
        Input::length(BAY, "Each bay, level").called("bay"),
    ],
    work: step,
    picture: step_picture,
    caution: None,
    keep: None,
};

fn step(given: &Given<'_>) -> Worked {
    let (total, bays) = (given.get(TOTAL)?, given.count(BAYS)?);
    let fall = fall_over_bays(total, bays, given.get(BAY)?).map_err(Refused::from);
    Some(fall.map(|fall| {
        Answer::new(
            "Each bay steps down by",
            given.fine(fall.step),
            given.unit_name(),
        )
        .row("The ground slopes at", format!("{:.2}°", fall.slope), "")
    }))
}

fn step_picture(given: &Given<'_>) -> Drawing {
    let mut sketch = given.sheet();
    let worked = step(given);
    let good = matches!(worked, Some(Ok(_)));
    let bays = given.count(BAYS).filter(|_| good).unwrap_or(4).clamp(1, 12);
    let slope = match (good, given.get(TOTAL), given.get(BAY), given.count(BAYS)) {
        (true, Some(total), Some(bay), Some(count)) => total / (bay * count as f64),
        _ => 0.15,
    };
    let at = Vec2::new;
    let (bay, tall) = (10.0 / bays as f64, 2.2);
    let down = (slope * bay).clamp(0.02 * bay, 0.8);
    let count = bays as f64;
    sketch.ground(
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
        sketch.upright(Block::Board, [x, y + tall * 0.25, x + bay, y + tall]);
    }
    for n in 0..=bays {
        let (x, y) = (n as f64 * bay, -down * n as f64);
        sketch.upright(Block::Post, [x - 0.09, y, x + 0.09, y + tall]);
    }
    let said = match worked {
        Some(Ok(answer)) => answer.figure,
        _ => "?".to_owned(),
    };
    if bays > 1 {
        let (x, y) = (bay, -down + tall);
        sketch.dimension(
            &given.said(said),
            [at(x, y), at(x, y - down)],
            at(1.0, 0.0),
            0.2,
        );
    }
    let fall = [at(10.0, 0.0), at(10.0, -down * count)];
    sketch.ghost(at(0.0, 0.0), at(10.0, 0.0));
    sketch.dimension(&given.tag(TOTAL), fall, at(1.0, 0.0), 0.5);
    let low = -down * count - 0.5;
    sketch.dimension(
        &given.tag(BAY),
        [at(0.0, low), at(bay, low)],
        at(0.0, -1.0),
        0.0,
    );
    if given.asked == Some(BAYS) {
        let tag = given.tag(BAYS);
        sketch.figure(&tag, at(5.0, tall), at(0.0, 1.0));
    }
    sketch.done("Bays that step down with the ground")
}

const CLEAR: &str = "rail clear";
const FALL: &str = "rail fall";

pub(super) static RAIL: Sum = Sum {
    id: "rail",
    title: "Sloping rail",
    stage: Stage::Boards,
    answers: "How long is a rail that follows the ground, and how are its ends cut?",
    how: "**Type the clear distance between the posts, held level, and the fall over it.**",
    why: "The clear distance over the cosine of the slope; the ends are cut off square by the \
          slope so that they stand plumb.",
    inputs: &[
        Input::length(CLEAR, "Between the posts, level").called("clear between posts"),
        Input::length(FALL, "Fall over it").called("fall"),
    ],
    work: rail,
    picture: rail_picture,
    caution: Some(&TREATED_CUTS),
    keep: None,
};

fn rail(given: &Given<'_>) -> Worked {
    let rail = sloping_rail(given.get(CLEAR)?, given.get(FALL)?).map_err(Refused::from);
    Some(rail.map(|rail| {
        Answer::new(
            "Rail, face to face",
            given.length(rail.length),
            given.unit_name(),
        )
        .row(
            "Ends cut off square by",
            format!("{:.1}°", rail.end_cut),
            "",
        )
    }))
}

fn rail_picture(given: &Given<'_>) -> Drawing {
    let mut sketch = given.sheet();
    let worked = rail(given);
    let share = match (&worked, given.get(CLEAR), given.get(FALL)) {
        (Some(Ok(_)), Some(clear), Some(fall)) => (fall.abs() / clear).clamp(0.05, 0.8),
        _ => 0.2,
    };
    let at = Vec2::new;
    let (wide, post, thick) = (10.0, 0.5, 0.5);
    let down = wide * share;
    sketch.ground(
        &[
            at(-1.0, 0.0),
            at(0.0, 0.0),
            at(wide, -down),
            at(wide + 1.0, -down),
        ],
        0.7,
    );
    for (x, y) in [(-post, 0.0), (wide, -down)] {
        sketch.upright(Block::Post, [x, y, x + post, y + 4.0]);
    }
    let [from, to] = [at(0.0, 2.6), at(wide, 2.6 - down)];
    let up = at(0.0, thick);
    sketch.block(Block::Timber, vec![from, to, to + up, from + up]);
    let said = match worked {
        Some(Ok(answer)) => answer.figure,
        _ => "?".to_owned(),
    };
    sketch.tape(&given.said(said), from + up, to + up);
    let level = [at(0.0, 4.2), at(wide, 4.2)];
    sketch.dimension(&given.tag(CLEAR), level, at(0.0, 1.0), 0.2);
    sketch.ghost(from, at(wide, from.y));
    sketch.dimension(&given.tag(FALL), [at(wide, from.y), to], at(1.0, 0.0), 0.8);
    sketch.done("A rail that slopes between two plumb posts")
}
