//! How to cut two rails that meet at a corner.

use super::Tail::Unit;
use super::Value::{Degrees, Fine};
use super::{Answer, Given, Input, Pen, QuickSum, Solid, Stage, Usual, Vec2, Worked};
use crate::cautions::{SAWING, TREATED_CUTS};
use crate::drawing::direction;
use crate::quick::bevel;

const INSIDE: Input =
    Input::degrees("mitre angle", "Angle inside the corner").called("corner angle");
const THICK: Input = Input::length("mitre thick", "Thickness of the rail")
    .called("thickness")
    .natively(38.0, Usual::FEET.rail);

pub static MITRE: QuickSum = QuickSum {
    id: "mitre",
    title: "Rail ends at a corner",
    stage: Stage::Boards,
    answers: "How do I set the saw for two rails that meet?",
    how: "**Type the angle inside the corner** and how thick the rail is.",
    why: "Two rails mitred face to face share the corner: 90 less half the angle on a saw that \
          reads 0 for a square cut, which is half the angle from the rail's length. People mix the \
          two up, so that both are given.",
    inputs: &[INSIDE, THICK],
    work: mitre_work,
    picture: mitre_picture,
    pictured: "Two rails mitred where they meet",
    cautions: &[SAWING, TREATED_CUTS],
    ..QuickSum::BARE
};

fn mitre_work(given: &Given<'_>) -> Worked {
    let cut = bevel::bevel(given.get(&INSIDE)?)?;
    let long = bevel::long_to_short(given.get(&THICK)?, cut.off_square)?;
    Ok(Answer::new(
        "Mitre, saw set at",
        Degrees(cut.off_square, 1),
        "from square",
    )
    .row(
        "The same from the rail's length",
        Degrees(cut.from_length, 1),
        "",
    )
    .noted("half the angle of the corner")
    .row("Long point past the short one", Fine(long), Unit)
    .row(
        "Against a post square to one",
        Degrees(cut.against_post, 1),
        "",
    )
    .noted("the other rail's end, off square"))
}

fn mitre_picture(pen: &mut Pen<'_>) {
    let given = pen.given;
    let at = match (mitre_work(given), given.maybe(&INSIDE)) {
        (Ok(_), Some(at)) => at.clamp(5.0, 175.0),
        _ => 100.0,
    };
    let (long, thick) = (10.0, 1.6);
    let ways = [direction(180.0), direction(180.0 - at)];
    let middle = direction(180.0 - at / 2.0);
    let inner = middle * (thick / (at / 2.0).to_radians().sin());
    for way in ways {
        let square = middle - way * way.dot(&middle);
        let square = square.normalize() * thick;
        let rail = vec![Vec2::zeros(), way * long, way * long + square, inner];
        pen.block(Solid::Timber, rail);
    }
    let thick_at = ways[0] * (long * 0.8);
    let up = Vec2::new(0.0, thick);
    pen.dimension(&THICK, [thick_at, thick_at + up], ways[0], long * 0.2);
    pen.angle(&INSIDE, inner, long * 0.3, [180.0, -at]);
}
