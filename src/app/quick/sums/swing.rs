//! The ground under the swing of a gate.

use super::Tail::Unit;
use super::Value::Length;
use super::{Answer, Given, Input, Pen, QuickSum, Solid, Stage, Usual, Vec2, Verdict, Worked};
use crate::quick::gate::ground_under_swing;

const GAP: Input =
    Input::length("swing gap", "Gap under the leaf at the hinge").called("ground gap");
const HALF: Input = Input::up("swing half", "Ground half way along the leaf")
    .called("half way")
    .how("above the ground at the hinge; Down where it falls");
const END: Input = Input::up("swing end", "Ground at the latch").called("at the latch");
const OPEN: Input = Input::up("swing open", "Ground where it stands open").called("standing open");
const WANTED: Input = Input::length("swing wanted", "Clearance wanted")
    .called("wanted clearance")
    .natively(Usual::METRIC.swing, Usual::FEET.swing);

pub static SWING: QuickSum = QuickSum {
    id: "swing",
    title: "Ground under a gate",
    stage: Stage::Gate,
    answers: "Does the gate clear the ground through its whole swing?",
    how: "**Measure how much higher the ground is than at the hinge:** half way along the leaf, at \
          the latch, and where the latch ends up when it stands open.",
    why: "The gap under the leaf less the highest ground under its swing. On a slope, hang it on \
          the low side.",
    inputs: &[GAP, HALF, END, OPEN, WANTED],
    work: swing,
    picture: swing_picture,
    pictured: "A gate leaf over ground that rises under it",
    ..QuickSum::BARE
};

fn swing(given: &Given<'_>) -> Worked {
    let rises = [given.get(&HALF)?, given.get(&END)?, given.get(&OPEN)?];
    let found = ground_under_swing(given.get(&GAP)?, &rises, given.get(&WANTED)?)?;
    let places = ["half way along", "at the latch", "where it stands open"];
    let at = places.get(found.at).copied().unwrap_or_default();
    let strikes = found.least < 0.0;
    let what = if strikes {
        "It strikes the ground by"
    } else {
        "Least clearance"
    };
    let answer = Answer::new(what, Length(found.least.abs()), Unit);
    if found.raise <= 0.0 {
        let text = format!("Clear all the way; tightest {at}.");
        return Ok(answer.says(Verdict::Good, text));
    }
    let raise = given.say(Length(found.raise));
    let text = format!("Tightest **{at}.** Hang it **{raise}** higher to keep what you want.");
    let verdict = if strikes {
        Verdict::Bad
    } else {
        Verdict::Attention
    };
    Ok(answer.says(verdict, text))
}

fn swing_picture(pen: &mut Pen<'_>) {
    let given = pen.given;
    let at = Vec2::new;
    let rise = |input: &Input, likely: f64| match (given.maybe(input), given.maybe(&GAP)) {
        (Some(rise), Some(gap)) if gap > 0.0 => (rise / gap).clamp(-1.5, 1.5),
        _ => likely,
    };
    let ground = [
        at(-2.5, 0.0),
        at(0.0, 0.0),
        at(5.0, rise(&HALF, 0.2)),
        at(10.0, rise(&END, 0.5)),
        at(12.5, rise(&END, 0.5)),
    ];
    pen.ground(&ground, 2.0);
    pen.upright(Solid::Post, [-1.2, 0.0, 0.0, 7.0]);
    pen.upright(Solid::Pale, [0.4, 1.0, 10.0, 6.0]);
    let leaf = [[0.4, 1.0], [10.0, 1.0], [10.0, 6.0], [0.4, 6.0], [0.4, 1.0]];
    pen.ink(leaf.map(Vec2::from).to_vec());
    pen.dimension(&GAP, [[0.4, 0.0], [0.4, 1.0]], [-1.0, 0.0], 1.8);
    let down = at(0.0, -1.0);
    pen.figure(&HALF, ground[2], down);
    pen.figure(&END, ground[3], down);
    if given.asks(&OPEN) {
        pen.figure(&OPEN, [10.0, 6.0], [0.0, 1.0]);
    }
    if given.asks(&WANTED) {
        pen.figure(&WANTED, [7.0, 1.0], [0.0, 1.0]);
    }
}
