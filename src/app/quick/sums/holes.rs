//! Concrete round posts.

use super::Tail::{Litres, VolumeUnit};
use super::Value::{Count, Volume};
use super::{Answer, Given, Input, Pen, QuickSum, Solid, Stage, Usual, Vec2, Worked};
use crate::cautions::{CEMENT, LIFTING, SERVICES};
use crate::quick::concrete::{ConcreteHole, concrete};

const ACROSS: Input = Input::length("hole across", "Across the hole").called("hole diameter");
const DEEP: Input = Input::length("hole deep", "Depth of the hole").called("hole depth");
const POST: Input = Input::length("hole post", "Post, square")
    .called("post width")
    .natively(Usual::METRIC.post, Usual::FEET.post);
const HOLES: Input = Input::count("hole count", "Number of holes").called("holes");
const OVER: Input = Input::number("hole over", "Dug larger than drawn by", "%")
    .called("share for over-digging")
    .usually(25.0);
const BAG: Input = Input::number("hole bag", "Concrete from one bag", "litres")
    .called("litres from one bag")
    .usually(12.0);

pub static CONCRETE: QuickSum = QuickSum {
    id: "concrete",
    title: "Concrete for the holes",
    stage: Stage::Posts,
    answers: "How much concrete, and how many bags?",
    how: "**Type the hole, the post in it and how many there are.**",
    why: "The hole's cylinder less the post in it. A dug hole runs about a quarter over; a fence \
          post has about a quarter of its length in the ground, as the ground and local practice \
          ask.",
    inputs: &[ACROSS, DEEP, POST, HOLES, OVER, BAG],
    work: litres,
    picture: hole_picture,
    pictured: "A post in its hole",
    cautions: &[SERVICES, CEMENT, LIFTING],
    ..QuickSum::BARE
};

fn litres(given: &Given<'_>) -> Worked {
    let post = given.get(&POST)?;
    let hole = ConcreteHole {
        diameter: given.get(&ACROSS)?,
        depth: given.get(&DEEP)?,
        post: [post, post],
    };
    let holes = u32::try_from(given.count(&HOLES)?).unwrap_or(u32::MAX);
    let all = concrete(hole, holes, given.get(&OVER)? / 100.0, given.get(&BAG)?)?;
    Ok(
        Answer::new("Bags", Count(all.bags as usize), Litres(all.litres))
            .row("One hole as drawn", Volume(all.net_each, 2), VolumeUnit)
            .row("All, as dug", Volume(all.litres, 0), VolumeUnit),
    )
}

fn hole_picture(pen: &mut Pen<'_>) {
    let given = pen.given;
    let shape = match (
        litres(given),
        given.maybe(&ACROSS),
        given.maybe(&DEEP),
        given.maybe(&POST),
    ) {
        (Ok(_), Some(across), Some(deep), Some(post)) => [across, deep, post],
        _ => [300.0, 600.0, 100.0],
    };
    let [across, deep, post] = shape;
    let deep_drawn = deep.clamp(across * 0.8, across * 3.0);
    let at = Vec2::new;
    let half = across / 2.0;
    let (wide, tall) = (across * 2.0, across * 1.1);
    let earth = [
        [-wide, 0.0],
        [-half, 0.0],
        [-half, -deep_drawn],
        [half, -deep_drawn],
        [half, 0.0],
        [wide, 0.0],
        [wide, -deep_drawn - across * 0.4],
        [-wide, -deep_drawn - across * 0.4],
    ];
    pen.block(Solid::Ground, earth.map(Vec2::from).to_vec());
    pen.upright(Solid::Timber, [-half, -deep_drawn, half, -across * 0.05]);
    pen.upright(Solid::Post, [-post / 2.0, -deep_drawn, post / 2.0, tall]);
    let up = at(0.0, 1.0);
    pen.dimension(&POST, [[-post / 2.0, tall], [post / 2.0, tall]], up, 0.0);
    let mouth = [at(-half, -deep_drawn), at(half, -deep_drawn)];
    pen.dimension(&ACROSS, mouth, -up, across * 0.1);
    let side = [at(half, -deep_drawn), at(half, 0.0)];
    pen.dimension(&DEEP, side, [1.0, 0.0], across * 0.2);
    if given.asks(&HOLES) {
        pen.figure(&HOLES, [-wide * 0.7, 0.0], up);
    }
}
