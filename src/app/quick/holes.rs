//! Concrete round posts.

use super::given::Given;
use super::sum::{Answer, Input, Refused, Stage, Sum, Worked};
use crate::cautions::CEMENT;
use crate::drawing::{Block, Drawing, Vec2};
use crate::quick::concrete::{Hole, concrete};

const ACROSS: &str = "hole across";
const DEEP: &str = "hole deep";
const POST: &str = "hole post";
const HOLES: &str = "hole count";
const OVER: &str = "hole over";
const BAG: &str = "hole bag";

pub(super) static CONCRETE: Sum = Sum {
    id: "concrete",
    title: "Concrete for the holes",
    stage: Stage::Posts,
    answers: "How many litres, and how many bags?",
    how: "**Type the hole, the post in it and how many there are.**",
    why: "The hole's cylinder less the post in it. A dug hole runs about a quarter over; a post \
          1.8 m high stands 600 to 900 in the ground, about a quarter of it, as the ground and \
          local practice ask.",
    inputs: &[
        Input::length(ACROSS, "Across the hole").called("hole diameter"),
        Input::length(DEEP, "Depth of the hole").called("hole depth"),
        Input::length(POST, "Post, square")
            .called("post width")
            .usually(100.0),
        Input::count(HOLES, "Number of holes").called("holes"),
        Input::number(OVER, "Dug larger than drawn by", "%")
            .called("share for over-digging")
            .usually(25.0),
        Input::number(BAG, "Concrete from one bag", "litres")
            .called("litres from one bag")
            .usually(12.0),
    ],
    work: litres,
    picture: hole_picture,
    caution: Some(&CEMENT),
    keep: None,
};

fn litres(given: &Given<'_>) -> Worked {
    let post = given.get(POST)?;
    let hole = Hole {
        diameter: given.get(ACROSS)?,
        depth: given.get(DEEP)?,
        post: [post, post],
    };
    let holes = u32::try_from(given.count(HOLES)?).unwrap_or(u32::MAX);
    let all = concrete(hole, holes, given.get(OVER)? / 100.0, given.get(BAG)?);
    Some(all.map_err(Refused::from).map(|all| {
        Answer::new(
            "Bags",
            all.bags.to_string(),
            format!("{:.0} litres", all.litres),
        )
        .row(
            "One hole as drawn",
            format!("{:.2}", all.net_each),
            "litres",
        )
        .row("All, as dug", format!("{:.0}", all.litres), "litres")
    }))
}

fn hole_picture(given: &Given<'_>) -> Drawing {
    let mut sketch = given.sheet();
    let shape = match (
        litres(given),
        given.get(ACROSS),
        given.get(DEEP),
        given.get(POST),
    ) {
        (Some(Ok(_)), Some(across), Some(deep), Some(post)) => [across, deep, post],
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
    sketch.block(Block::Ground, earth.map(Vec2::from).to_vec());
    sketch.upright(Block::Timber, [-half, -deep_drawn, half, -across * 0.05]);
    sketch.upright(Block::Post, [-post / 2.0, -deep_drawn, post / 2.0, tall]);
    let up = at(0.0, 1.0);
    sketch.dimension(
        &given.tag(POST),
        [at(-post / 2.0, tall), at(post / 2.0, tall)],
        up,
        0.0,
    );
    let mouth = [at(-half, -deep_drawn), at(half, -deep_drawn)];
    sketch.dimension(&given.tag(ACROSS), mouth, -up, across * 0.1);
    let side = [at(half, -deep_drawn), at(half, 0.0)];
    sketch.dimension(&given.tag(DEEP), side, at(1.0, 0.0), across * 0.2);
    if given.asked == Some(HOLES) {
        sketch.figure(&given.tag(HOLES), at(-wide * 0.7, 0.0), up);
    }
    sketch.done("A post in its hole")
}
