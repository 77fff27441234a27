//! A spirit level turned end for end.

use super::Tail::Pm;
use super::Value::Fine;
use super::{Answer, Given, Input, Pen, QuickSum, Solid, Stage, Usual, Vec2, Verdict, Worked};
use crate::quick::spirit_level::reversed;

const PACKED: Input = Input::up("spirit first", "Packing, first way round")
    .called("packing the first way round")
    .how("under the far point; Down if under the near one");
const PACKED_AGAIN: Input = Input::up("spirit second", "Packing, turned end for end")
    .called("packing the second way round")
    .how("under the same far point");
const LONG: Input = Input::length("spirit length", "Length of the level")
    .called("length of the spirit level")
    .natively(Usual::METRIC.spirit_level, Usual::FEET.spirit_level);

pub static SPIRIT: QuickSum = QuickSum {
    id: "spirit",
    title: "Check the spirit level",
    stage: Stage::Levels,
    answers: "Is my spirit level true?",
    how: "**Pack one end until the bubble stands, turn the level end for end on the same two \
          points, and pack again.**",
    why: "Half the difference of the two packings is the level's own error, their mean is the true \
          fall. Packing under the other end counts as down.",
    inputs: &[PACKED, PACKED_AGAIN, LONG],
    work: spirit,
    picture: spirit_picture,
    pictured: "A spirit level over two points, and turned end for end",
    ..QuickSum::BARE
};

/// Packing is read to half a millimetre, 1 s.d.
const PACKING: f64 = 0.5;

fn spirit(given: &Given<'_>) -> Worked {
    let (first, second) = (given.get(&PACKED)?, given.get(&PACKED_AGAIN)?);
    let level = reversed(first, second, given.get(&LONG)?, PACKING)?;
    let out = level.error;
    let (verdict, text) = if out.value.abs() <= out.pm {
        (Verdict::Good, "True, as near as the packing can tell.")
    } else {
        (
            Verdict::Attention,
            "It is out. Turn it end for end and take the mean, or have it set.",
        )
    };
    let (each, slope) = given.in_each(level.per_metre);
    let fall = level.true_fall;
    Ok(
        Answer::new("The level is out by", Fine(out.value.abs()), Pm(out))
            .row(each, Fine(slope.value.abs()), Pm(slope))
            .row("True fall to the far point", Fine(fall.value), Pm(fall))
            .says(verdict, text),
    )
}

fn spirit_picture(pen: &mut Pen<'_>) {
    let at = Vec2::new;
    for (n, input) in [PACKED, PACKED_AGAIN].into_iter().enumerate() {
        let low = if n == 0 { 520.0 } else { 0.0 };
        pen.ground(&[at(-100.0, low), at(1300.0, low - 60.0)], 40.0);
        let (near, far) = (low + 10.0, low - 40.0);
        pen.upright(Solid::Timber, [0.0, near + 50.0, 1200.0, near + 130.0]);
        pen.upright(Solid::Post, [20.0, near, 100.0, near + 50.0]);
        pen.upright(Solid::Post, [1100.0, far, 1180.0, near + 50.0]);
        let mark = if n == 0 { 150.0 } else { 1050.0 };
        pen.ink(vec![at(mark, near + 50.0), at(mark, near + 130.0)]);
        let packed = [at(1180.0, far), at(1180.0, near + 50.0)];
        pen.dimension(&input, packed, [1.0, 0.0], 60.0);
    }
    let ends = [at(0.0, 650.0), at(1200.0, 650.0)];
    pen.dimension(&LONG, ends, [0.0, 1.0], 20.0);
}
