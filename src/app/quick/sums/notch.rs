//! What a notch leaves of a post.

use super::Value::{Number, Share};
use super::{Answer, Given, Input, Pen, QuickSum, Solid, Stage, Usual, Vec2, Verdict, Worked};
use crate::cautions::{NOTCH as WEAKENS, SAWING};
use crate::quick::notch::{
    WorkedHardest, centred_mortise, face_notch, moment_at_ground, which_governs,
};

const DEPTH: Input = Input::length("notch depth", "Depth of the post")
    .called("depth of the post")
    .how("in the direction of the cut");
const CUT: Input = Input::length("notch cut", "Depth of the cut").called("cut");
const WAY: Input = Input::choice(
    "notch way",
    "It is cut",
    &["Into a face", "Through the middle"],
);
const HIGH: Input = Input::length("notch height", "Notch above the ground")
    .called("height of the notch")
    .may();
const TALL: Input = Input::length("notch post height", "Post out of the ground")
    .called("height of the post")
    .natively(Usual::METRIC.fence, Usual::FEET.fence);
const BAY: Input = Input::length("notch bay", "Bay")
    .called("bay")
    .natively(Usual::METRIC.bay, Usual::FEET.bay);
const WIND: Input = Input::number("notch wind", "Net wind pressure", "kN/m²")
    .called("wind pressure")
    .how("to see what the ground line carries")
    .may();

pub static NOTCH: QuickSum = QuickSum {
    id: "notch",
    title: "Notch in a post",
    stage: Stage::Boards,
    answers: "How much of its strength does a notch leave?",
    how: "**Type the post's depth and how deep it is cut.** Geometry only: whether it stands up to \
          the wind is a structural question.",
    why: "In bending a face notch leaves the square of the depth that is left over the whole; a \
          mortise in the middle leaves one less the cube of its share. Wind works a post hardest at \
          the ground, so that a notch high up may cost nothing more.",
    inputs: &[DEPTH, CUT, WAY, HIGH, TALL, BAY, WIND],
    work: notch,
    picture: notch_picture,
    pictured: "A post from the side with the notch in it",
    cautions: &[WEAKENS, SAWING],
    ..QuickSum::BARE
};

fn notch(given: &Given<'_>) -> Worked {
    let (depth, cut) = (given.get(&DEPTH)?, given.get(&CUT)?);
    let face = given.picked(&WAY) == 0;
    let left = if face {
        face_notch(depth, cut)?
    } else {
        centred_mortise(depth, cut)?
    };
    let mut answer = Answer::new("It leaves, in bending", Share(left.bending), "of the post").row(
        "Of its cross-section",
        Share(left.section),
        "",
    );
    let tall = given.get(&TALL)?;
    if let Some(high) = given.maybe(&HIGH).filter(|_| face) {
        let (verdict, text) = governs(which_governs(depth, cut, high, tall)?);
        answer = answer.says(verdict, text);
    }
    let Some(wind) = given.maybe(&WIND) else {
        return Ok(answer);
    };
    let moment = moment_at_ground(wind, tall, given.get(&BAY)?)?;
    Ok(answer.row("Bending at the ground", Number(moment, 2), "kNm"))
}

fn governs(governs: WorkedHardest) -> (Verdict, &'static str) {
    match governs {
        WorkedHardest::Notch => (
            Verdict::Attention,
            "Under an even wind the post is worked hardest **at the notch.**",
        ),
        WorkedHardest::GroundLine => (
            Verdict::Note,
            "Under an even wind the post is worked hardest **at the ground,** not at the notch.",
        ),
    }
}

fn notch_picture(pen: &mut Pen<'_>) {
    let given = pen.given;
    let share = match (given.maybe(&DEPTH), given.maybe(&CUT)) {
        (Some(depth), Some(cut)) if depth > 0.0 => (cut / depth).clamp(0.0, 0.9),
        _ => 0.2,
    };
    let at = Vec2::new;
    let (wide, low, high, top) = (3.0, 4.0, 5.2, 8.0);
    let up = match (given.maybe(&HIGH), given.maybe(&TALL)) {
        (Some(height), Some(tall)) if tall > 0.0 => (height / tall).clamp(0.05, 0.8) * top - 0.6,
        _ => low,
    };
    let (low, high) = (up.max(0.3), up.max(0.3) + high - low);
    pen.ground(&[at(-3.0, 0.0), at(wide + 3.0, 0.0)], 1.0);
    let face = given.picked(&WAY) == 0;
    let cut = wide * share;
    if face {
        let outline = [
            [0.0, -0.8],
            [wide, -0.8],
            [wide, low],
            [wide - cut, low],
            [wide - cut, high],
            [wide, high],
            [wide, top],
            [0.0, top],
        ];
        pen.block(Solid::Post, outline.map(Vec2::from).to_vec());
    } else {
        pen.upright(Solid::Post, [0.0, -0.8, wide, top]);
        let middle = wide / 2.0;
        pen.upright(
            Solid::Ground,
            [middle - cut / 2.0, low, middle + cut / 2.0, high],
        );
    }
    let ends = if face {
        [wide - cut, wide]
    } else {
        [(wide - cut) / 2.0, (wide + cut) / 2.0]
    };
    pen.dimension(&CUT, ends.map(|x| at(x, low)), [0.0, -1.0], 0.3);
    pen.dimension(&DEPTH, [[0.0, top], [wide, top]], [0.0, 1.0], 0.2);
    let left = at(-1.0, 0.0);
    pen.dimension(&TALL, [[0.0, 0.0], [0.0, top]], left, 0.3);
    let middle = f64::midpoint(low, high);
    let side = [at(wide, 0.0), at(wide, middle)];
    pen.dimension(&HIGH, side, [1.0, 0.0], 0.4);
}
