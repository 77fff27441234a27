//! Pales that finish on a whole board, and what a notch leaves of a post.

use super::given::Given;
use super::sum::{Answer, Input, Refused, Stage, Sum, Worked};
use crate::cautions::NOTCH as WEAKENS;
use crate::drawing::{Block, Drawing, Vec2};
use crate::quick::notch::{Governs, centred_mortise, face_notch, moment_at_ground, which_governs};
use crate::quick::pales::pales;
use tautmark_ui::Verdict;

const COVER: &str = "pales cover";
const WIDTH: &str = "pales width";
const LAP: &str = "pales lap";

pub(super) static PALES: Sum = Sum {
    id: "pales",
    title: "Pales and their lap",
    stage: Stage::Boards,
    answers: "How many pales, and what lap finishes on a whole one?",
    how: "**Type the width to cover, the width of one pale and the least lap.**",
    why: "The fewest pales that cover the width with no lap under the least; what is over goes \
          into the laps, all alike.",
    inputs: &[
        Input::length(COVER, "Width to cover").called("width to cover"),
        Input::length(WIDTH, "Width of a pale").called("width of a pale"),
        Input::length(LAP, "Least lap")
            .called("lap")
            .how("13 to 30 as a rule"),
    ],
    work: cover,
    picture: cover_picture,
    caution: None,
    keep: None,
};

/// At most so many pales are listed one by one.
const MOST: usize = 40;

fn cover(given: &Given<'_>) -> Worked {
    let (cover, width) = (given.get(COVER)?, given.get(WIDTH)?);
    let row = pales(cover, width, given.get(LAP)?).map_err(Refused::from);
    Some(row.map(|row| {
        let unit = given.unit_name();
        let answer = Answer::new("Pales", row.count().to_string(), "");
        let (Some(lap), Some(spacing)) = (row.lap, row.spacing) else {
            return answer.says(Verdict::Note, "One pale covers it all.");
        };
        let answer = answer.row("True lap", given.fine(lap), unit).row(
            "From edge to edge of the next",
            given.fine(spacing),
            unit,
        );
        row.near
            .iter()
            .take(MOST)
            .enumerate()
            .fold(answer, |answer, (n, at)| {
                answer.row(format!("Pale {}, near edge", n + 1), given.fine(*at), unit)
            })
    }))
}

fn cover_picture(given: &Given<'_>) -> Drawing {
    let mut sketch = given.sheet();
    let worked = || {
        let (cover, width) = (given.get(COVER)?, given.get(WIDTH)?);
        Some((pales(cover, width, given.get(LAP)?).ok()?, cover, width))
    };
    let likely = || Some((pales(600.0, 125.0, 20.0).ok()?, 600.0, 125.0));
    let Some((row, cover, width)) = worked().or_else(likely) else {
        return sketch.done("Pales");
    };
    // From above: every second pale lies on the two beside it.
    let thick = (width * 0.16).min(cover * 0.03);
    for (n, near) in row.near.iter().take(200).enumerate() {
        let low = if n % 2 == 0 { 0.0 } else { thick };
        sketch.upright(Block::Timber, [*near, low, near + width, low + thick]);
    }
    let at = Vec2::new;
    let up = at(0.0, 1.0);
    sketch.dimension(
        &given.tag(COVER),
        [at(0.0, 0.0), at(cover, 0.0)],
        up,
        thick * 2.0 + cover * 0.09,
    );
    sketch.dimension(
        &given.tag(WIDTH),
        [at(0.0, 0.0), at(width, 0.0)],
        -up,
        thick,
    );
    if let Some(second) = row.near.get(1) {
        let lap = [at(*second, thick * 2.0), at(width, thick * 2.0)];
        let tag = match (given.asked, row.lap) {
            (None, Some(lap)) if worked().is_some() => given.said(given.fine(lap)),
            _ => given.tag(LAP),
        };
        sketch.dimension(&tag, lap, up, cover * 0.01);
    }
    sketch.done("Pales from above, each lapping the next")
}

const DEPTH: &str = "notch depth";
const CUT: &str = "notch cut";
const HIGH: &str = "notch height";
const TALL: &str = "notch post height";
const WAY: &str = "notch way";
const WIND: &str = "notch wind";
const BAY: &str = "notch bay";

pub(super) static NOTCH: Sum = Sum {
    id: "notch",
    title: "Notch in a post",
    stage: Stage::Boards,
    answers: "How much of its strength does a notch leave?",
    how: "**Type the post's depth and how deep it is cut.** Geometry only: whether it stands up to \
          the wind is a structural question.",
    why: "In bending a face notch leaves the square of the depth that is left over the whole; a \
          mortise in the middle leaves one less the cube of its share. Wind works a post hardest at \
          the ground, so that a notch high up may cost nothing more.",
    inputs: &[
        Input::length(DEPTH, "Depth of the post")
            .called("depth of the post")
            .how("in the direction of the cut"),
        Input::length(CUT, "Depth of the cut").called("cut"),
        Input::choice(WAY, "It is cut", &["Into a face", "Through the middle"]),
        Input::length(HIGH, "Notch above the ground")
            .called("height of the notch")
            .may(),
        Input::length(TALL, "Post out of the ground")
            .called("height of the post")
            .usually(1800.0),
        Input::length(BAY, "Bay").called("bay").usually(1800.0),
        Input::number(WIND, "Net wind pressure", "kN/m²")
            .called("wind pressure")
            .how("to see what the ground line carries")
            .may(),
    ],
    work: notch,
    picture: notch_picture,
    caution: Some(&WEAKENS),
    keep: None,
};

fn notch(given: &Given<'_>) -> Worked {
    let (depth, cut) = (given.get(DEPTH)?, given.get(CUT)?);
    Some(notched(given, depth, cut))
}

fn notched(given: &Given<'_>, depth: f64, cut: f64) -> Result<Answer, Refused> {
    let face = given.picked(WAY) == 0;
    let left = if face {
        face_notch(depth, cut)?
    } else {
        centred_mortise(depth, cut)?
    };
    let share = |share: f64| format!("{:.0} %", share * 100.0);
    let mut answer = Answer::new("It leaves, in bending", share(left.bending), "of the post").row(
        "Of its cross-section",
        share(left.section),
        "",
    );
    let tall = given.get(TALL);
    if let (true, Some(high), Some(tall)) = (face, given.get(HIGH), tall) {
        let (verdict, text) = match which_governs(depth, cut, high, tall)? {
            Governs::Notch => (
                Verdict::Attention,
                "Under an even wind the post is worked hardest **at the notch.**",
            ),
            Governs::GroundLine => (
                Verdict::Note,
                "Under an even wind the post is worked hardest **at the ground,** not at the notch.",
            ),
        };
        answer = answer.says(verdict, text);
    }
    if let (Some(wind), Some(tall), Some(bay)) = (given.get(WIND), tall, given.get(BAY)) {
        let moment = moment_at_ground(wind, tall, bay)?;
        answer = answer.row("Bending at the ground", format!("{moment:.2}"), "kNm");
    }
    Ok(answer)
}

fn notch_picture(given: &Given<'_>) -> Drawing {
    let mut sketch = given.sheet();
    let share = match (given.get(DEPTH), given.get(CUT)) {
        (Some(depth), Some(cut)) if depth > 0.0 => (cut / depth).clamp(0.0, 0.9),
        _ => 0.2,
    };
    let at = Vec2::new;
    let (wide, low, high, top) = (3.0, 4.0, 5.2, 8.0);
    let up = match (given.get(HIGH), given.get(TALL)) {
        (Some(height), Some(tall)) if tall > 0.0 => (height / tall).clamp(0.05, 0.8) * top - 0.6,
        _ => low,
    };
    let (low, high) = (up.max(0.3), up.max(0.3) + high - low);
    sketch.ground(&[at(-3.0, 0.0), at(wide + 3.0, 0.0)], 1.0);
    let face = given.picked(WAY) == 0;
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
        sketch.block(Block::Post, outline.map(Vec2::from).to_vec());
    } else {
        sketch.upright(Block::Post, [0.0, -0.8, wide, top]);
        let middle = wide / 2.0;
        sketch.upright(
            Block::Ground,
            [middle - cut / 2.0, low, middle + cut / 2.0, high],
        );
    }
    let ends = if face {
        [wide - cut, wide]
    } else {
        [(wide - cut) / 2.0, (wide + cut) / 2.0]
    };
    sketch.dimension(
        &given.tag(CUT),
        ends.map(|x| at(x, low)),
        at(0.0, -1.0),
        0.3,
    );
    sketch.dimension(
        &given.tag(DEPTH),
        [at(0.0, top), at(wide, top)],
        at(0.0, 1.0),
        0.2,
    );
    let left = at(-1.0, 0.0);
    sketch.dimension(&given.tag(TALL), [at(0.0, 0.0), at(0.0, top)], left, 0.3);
    let middle = f64::midpoint(low, high);
    let side = [at(wide, 0.0), at(wide, middle)];
    sketch.dimension(&given.tag(HIGH), side, at(1.0, 0.0), 0.4);
    sketch.done("A post from the side with the notch in it")
}
