//! The leaf of a gate that goes into an opening.

use super::Tail::Unit;
use super::Value::{Fine, Length};
use super::{Answer, Given, Input, Pen, QuickSum, Solid, Stage, Usual, Vec2, Worked};
use crate::cautions::GATE;
use crate::drawing::Sketch;
use crate::quick::gate::{Height, TapedOpening, latch_drop, leaf};

const TOP: Input = Input::length("leaf top", "Opening at the top").called("opening at the top");
const MIDDLE: Input = Input::length("leaf middle", "At the middle").called("opening at the middle");
const BOTTOM: Input = Input::length("leaf bottom", "At the bottom").called("opening at the bottom");
const HINGE: Input = Input::length("leaf hinge", "Gap at the hinges")
    .called("hinge gap")
    .how("what your hinges need")
    .natively(Usual::METRIC.hinge, Usual::FEET.hinge);
const LATCH: Input = Input::length("leaf latch", "Gap at the latch")
    .called("latch gap")
    .how("what your latch needs")
    .natively(Usual::METRIC.latch, Usual::FEET.latch);
const LEAN: Input = Input::length("leaf lean", "Hinge post leans by")
    .called("lean of the hinge post")
    .may();
const OVER: Input = Input::length("leaf lean over", "Measured over a height of")
    .called("height the lean is measured over")
    .natively(Usual::METRIC.fence, Usual::FEET.fence);

pub static LEAF: QuickSum = QuickSum {
    id: "leaf",
    title: "Gate leaf",
    stage: Stage::Gate,
    answers: "How wide is the leaf for this opening?",
    how: "**Measure the opening at the top, the middle and the bottom:** the least of them counts.",
    why: "The least of the three less the gaps that hinges and latch need. A hinge post that leans \
          drops the latch by the leaf's width times the lean over its height.",
    inputs: &[TOP, MIDDLE, BOTTOM, HINGE, LATCH, LEAN, OVER],
    work: leaf_work,
    picture: leaf_picture,
    pictured: "A gate between its posts, measured at three heights",
    cautions: &[GATE],
    ..QuickSum::BARE
};

fn leaf_work(given: &Given<'_>) -> Worked {
    let opening = TapedOpening {
        top: given.get(&TOP)?,
        middle: given.get(&MIDDLE)?,
        bottom: given.get(&BOTTOM)?,
    };
    let found = leaf(opening, given.get(&HINGE)?, given.get(&LATCH)?)?;
    let at = match found.least_at {
        Height::Top => "at the top",
        Height::Middle => "at the middle",
        Height::Bottom => "at the bottom",
    };
    let answer = Answer::new("Width of the leaf", Length(found.width), Unit)
        .row("Least opening", Length(found.least), Unit)
        .noted(at)
        .row(
            "Posts out of parallel by",
            Length(found.out_of_parallel),
            Unit,
        );
    let Some(lean) = given.maybe(&LEAN) else {
        return Ok(answer);
    };
    let drop = latch_drop(found.width, lean, given.get(&OVER)?)?;
    Ok(answer.row("The latch drops by", Fine(drop), Unit))
}

/// Two posts and the leaf between them, 10 wide and 12 high.
fn gate(sketch: &mut Sketch<'_>, [hinge, latch, ground]: [f64; 3]) {
    let at = Vec2::new;
    sketch.ground(&[at(-2.5, 0.0), at(12.5, 0.0)], 1.2);
    for x in [-1.2, 10.0] {
        sketch.upright(Solid::Post, [x, 0.0, x + 1.2, 12.5]);
    }
    sketch.upright(Solid::Pale, [hinge, ground, 10.0 - latch, 11.0]);
    let (low, high) = (at(hinge, ground), at(10.0 - latch, 11.0));
    sketch.ink(vec![low, at(high.x, low.y), high, at(low.x, high.y), low]);
    sketch.ink(vec![low, high]);
}

fn leaf_picture(pen: &mut Pen<'_>) {
    let given = pen.given;
    let at = Vec2::new;
    let up = at(0.0, 1.0);
    gate(pen, [0.5, 0.4, 0.8]);
    for (input, y, clear) in [(TOP, 11.0, 1.7), (MIDDLE, 6.0, 0.0), (BOTTOM, 1.2, 0.0)] {
        let ends = [at(0.0, y), at(10.0, y)];
        if input.key == TOP.key {
            pen.dimension(&input, ends, up, clear);
        } else {
            pen.tape(&input, ends[0], ends[1]);
        }
    }
    if given.asks(&HINGE) {
        pen.dimension(&HINGE, [[0.0, 8.5], [0.5, 8.5]], up, 0.0);
    }
    if given.asks(&LATCH) {
        pen.dimension(&LATCH, [[9.6, 8.5], [10.0, 8.5]], up, 0.0);
    }
    if given.asks(&LEAN) || given.asks(&OVER) {
        pen.ghost(at(-1.2, 0.0), at(0.2, 12.5));
        pen.figure(&LEAN, [-0.6, 12.5], up);
        let side = [at(-1.2, 0.0), at(-1.2, 12.5)];
        pen.dimension(&OVER, side, [-1.0, 0.0], 0.4);
    }
}
