//! Equal gaps, marked from one end.

use super::Tail::Unit;
use super::Value::{Fine, Length};
use super::bays::MOST;
use super::{Answer, Given, Input, Pen, QuickSum, Solid, Stage, Stop, Vec2, Verdict, Worked};
use crate::drawing::Sketch;
use crate::length::rounded;
use crate::quick::gaps::{Ends, Gaps, equal_gaps, fewest_items};

const SPAN: Input = Input::length("gaps length", "Length to fill").called("length");
const WIDTH: Input = Input::length("gaps width", "Width of one piece").called("width");
const WIDEST: Input = Input::length("gaps widest", "Widest gap").called("widest gap");
const ITEMS: Input = Input::count("gaps count", "Or so many pieces")
    .called("pieces")
    .may();
const AT_ENDS: Input = Input::choice("gaps ends", "At the ends stands", &["A piece", "A gap"]);

pub static GAPS: QuickSum = QuickSum {
    id: "gaps",
    title: "Equal gaps",
    stage: Stage::Boards,
    answers: "What gap leaves pickets or balusters evenly spaced?",
    how: "**Type the length and the width of one piece,** then how many there are or the widest \
          gap.",
    why: "What the pieces leave of the length, shared over the gaps. Mark every piece from one \
          end: a rounded gap adds up.",
    inputs: &[SPAN, WIDTH, WIDEST, ITEMS, AT_ENDS],
    work: gaps,
    picture: gaps_picture,
    pictured: "A row of pieces with equal gaps",
    ..QuickSum::BARE
};

fn gaps_of(given: &Given<'_>) -> Result<Gaps, Stop> {
    let (length, width) = (given.get(&SPAN)?, given.get(&WIDTH)?);
    let ends = if given.picked(&AT_ENDS) == 1 {
        Ends::Gap
    } else {
        Ends::Flush
    };
    Ok(match given.maybe_count(&ITEMS)? {
        Some(count) => equal_gaps(length, width, count, ends)?,
        None => fewest_items(length, width, given.get(&WIDEST)?, ends)?,
    })
}

fn gaps(given: &Given<'_>) -> Worked {
    let row = gaps_of(given)?;
    let what = format!("{} pieces, the gap between them", row.near.len());
    let answer = Answer::new(what, Fine(row.gap), Unit)
        .row("From edge to edge of the next", Fine(row.spacing), Unit)
        .marks(&row.near, MOST, Fine, |n| format!("Piece {n}, near edge"));
    Ok(match stepped(given, &row) {
        Some(text) => answer.says(Verdict::Note, text),
        None => answer,
    })
}

/// What stepping the spacing as it is shown, piece by piece, would come to at the last one; none where
/// it ends in its place.
fn stepped(given: &Given<'_>, row: &Gaps) -> Option<String> {
    let steps = row.near.len().saturating_sub(1) as f64;
    let shown = rounded(row.spacing, given.unit, 1);
    let over = (shown - row.spacing) * steps;
    (given.say(Length(over.abs())) != given.say(Length(0.0))).then(|| {
        format!(
            "Stepping **{}** from edge to edge would end {} {}: mark every piece from one end.",
            given.say(Fine(shown)),
            given.say(Length(over.abs())),
            if over > 0.0 { "too far" } else { "short" },
        )
    })
}

fn gaps_picture(pen: &mut Pen<'_>) {
    let given = pen.given;
    let row = gaps_of(given).ok();
    let known = row.is_some();
    let likely = || Some((equal_gaps(1000.0, 90.0, 6, Ends::Flush).ok()?, 1000.0, 90.0));
    let shown = row.and_then(|row| Some((row, given.maybe(&SPAN)?, given.maybe(&WIDTH)?)));
    let Some((row, length, width)) = shown.or_else(likely) else {
        return;
    };
    let tall = length * 0.3;
    pieces(pen, &row, [length, width, tall]);
    let up = Vec2::new(0.0, 1.0);
    let top = Vec2::new(0.0, tall);
    let right = Vec2::new(length, tall);
    pen.dimension(&SPAN, [top, right], up, length * 0.06);
    if let Some(&near) = row.near.first() {
        let piece = [Vec2::new(near, 0.0), Vec2::new(near + width, 0.0)];
        pen.dimension(&WIDTH, piece, -up, 0.0);
    }
    if let [first, second, ..] = row.near[..] {
        let gap = [
            Vec2::new(first + width, tall * 0.5),
            Vec2::new(second, tall * 0.5),
        ];
        let tag = if given.asks(&ITEMS) {
            given.tag(&ITEMS)
        } else if known && !given.asks(&WIDEST) {
            given.said(given.say(Fine(row.gap)))
        } else {
            given.tag(&WIDEST)
        };
        pen.dimension(tag, gap, -up, tall * 0.5);
    }
}

fn pieces(sketch: &mut Sketch<'_>, row: &Gaps, [length, width, tall]: [f64; 3]) {
    for near in row.near.iter().take(400) {
        sketch.upright(Solid::Timber, [*near, 0.0, near + width, tall]);
    }
    for x in [0.0, length] {
        sketch.ghost(Vec2::new(x, -tall * 0.1), Vec2::new(x, tall * 1.1));
    }
}
