//! The brace of a gate's leaf.

use super::Tail::Unit;
use super::Value::{Degrees, Fine};
use super::{Answer, Given, Input, Pen, QuickSum, Solid, Stage, Stop, Usual, Vec2, Worked};
use crate::app::quick::keep;
use crate::cautions::{GATE, SAWING};
use crate::job::model::Gate;
use crate::quick::brace::{Brace, brace};

const WIDE: Input = Input::length("brace width", "Width of the leaf").called("width of the leaf");
const TALL: Input =
    Input::length("brace height", "Height of the leaf").called("height of the leaf");
const MEMBER: Input = Input::length("brace member", "Width of a member of its frame")
    .called("width of a member")
    .natively(Usual::METRIC.stile, Usual::FEET.stile);

pub static BRACE: QuickSum = QuickSum {
    id: "brace",
    title: "Brace of a gate",
    stage: Stage::Gate,
    answers: "How long is the brace, and how are its ends cut?",
    how: "**Type the leaf’s width and height** and how wide the members of its frame are.",
    why: "From the bottom of the hinge stile to the top of the latch stile, inner corner to inner \
          corner: so it carries the latch side down to the hinges. Off square is on a saw that \
          reads 0 for a square cut.",
    inputs: &[WIDE, TALL, MEMBER],
    work,
    picture,
    pictured: "A leaf from behind, its brace from the foot of the hinge side",
    cautions: &[SAWING, GATE],
    keep: Some(|desk, inputs| keep::into_a_gate(desk, inputs, "The gate’s frame.", in_gate)),
};

fn found(given: &Given<'_>) -> Result<Brace, Stop> {
    let (wide, tall) = (given.get(&WIDE)?, given.get(&TALL)?);
    Ok(brace(wide, tall, given.get(&MEMBER)?)?)
}

fn work(given: &Given<'_>) -> Worked {
    let brace = found(given)?;
    Ok(
        Answer::new("Brace, corner to corner", Fine(brace.length), Unit)
            .row(
                "Saw set along the ledges",
                Degrees(brace.off_square, 1),
                "off square",
            )
            .row(
                "Saw set along the stiles",
                Degrees(brace.to_stile, 1),
                "off square",
            )
            .row("It leans, from the horizontal", Degrees(brace.angle, 1), ""),
    )
}

/// The frame's members; leaf and opening are the job's own.
fn in_gate(given: &Given<'_>, gate: &mut Gate) {
    if let Some(member) = given.maybe(&MEMBER) {
        let usual = Usual::of(given.unit);
        gate.leaf.get_or_insert_with(|| usual.leaf()).stile = member;
    }
}

fn picture(pen: &mut Pen<'_>) {
    let given = pen.given;
    let shape = match (given.maybe(&WIDE), given.maybe(&TALL), given.maybe(&MEMBER)) {
        (Some(wide), Some(tall), Some(member)) if found(given).is_ok() => [wide, tall, member],
        _ => [1000.0, 1600.0, 70.0],
    };
    let [wide, tall, member] = shape;
    let at = Vec2::new;
    for stile in [
        [0.0, 0.0, member, tall],
        [wide - member, 0.0, wide, tall],
        [member, 0.0, wide - member, member],
        [member, tall - member, wide - member, tall],
    ] {
        pen.upright(Solid::Timber, stile);
    }
    let ends = [at(member, member), at(wide - member, tall - member)];
    let known = found(given).ok().map(|brace| given.say(Fine(brace.length)));
    pen.tape(known.unwrap_or_default(), ends[0], ends[1]);
    let clear = wide * 0.1;
    pen.dimension(&WIDE, [at(0.0, 0.0), at(wide, 0.0)], at(0.0, -1.0), clear);
    pen.dimension(&TALL, [at(wide, 0.0), at(wide, tall)], at(1.0, 0.0), clear);
    if given.asks(&MEMBER) {
        let ends = [at(0.0, tall), at(member, tall)];
        pen.dimension(&MEMBER, ends, at(0.0, 1.0), clear * 0.5);
    }
}
