//! Pales that finish on a whole board.

use super::Tail::Unit;
use super::Value::{Count, Fine};
use super::{Answer, Given, Input, Pen, QuickSum, Solid, Stage, Stop, Vec2, Verdict, Worked};
use crate::quick::pales::{PaleRow, pales};

const COVER: Input = Input::length("pales cover", "Width to cover").called("width to cover");
const WIDTH: Input = Input::length("pales width", "Width of a pale").called("width of a pale");
const LAP: Input = Input::length("pales lap", "Least lap")
    .called("lap")
    .how_natively("13 to 30 as a rule", "1/2 to 1 1/4 in as a rule");

pub static PALES: QuickSum = QuickSum {
    id: "pales",
    title: "Pales and their lap",
    stage: Stage::Boards,
    answers: "How many pales, and what lap finishes on a whole one?",
    how: "**Type the width to cover, the width of one pale and the least lap.**",
    why: "The fewest pales that cover the width with no lap under the least; what is over goes \
          into the laps, all alike.",
    inputs: &[COVER, WIDTH, LAP],
    work: cover,
    picture: cover_picture,
    pictured: "Pales from above, each lapping the next",
    ..QuickSum::BARE
};

/// At most so many pales are listed one by one.
const MOST: usize = 40;

fn row(given: &Given<'_>) -> Result<PaleRow, Stop> {
    let (cover, width) = (given.get(&COVER)?, given.get(&WIDTH)?);
    Ok(pales(cover, width, given.get(&LAP)?)?)
}

fn cover(given: &Given<'_>) -> Worked {
    let row = row(given)?;
    let answer = Answer::new("Pales", Count(row.count()), "");
    let (Some(lap), Some(spacing)) = (row.lap, row.spacing) else {
        return Ok(answer.says(Verdict::Note, "One pale covers it all."));
    };
    Ok(answer
        .row("True lap", Fine(lap), Unit)
        .row("From edge to edge of the next", Fine(spacing), Unit)
        .marks(&row.near, MOST, Fine, |n| format!("Pale {n}, near edge")))
}

fn cover_picture(pen: &mut Pen<'_>) {
    let given = pen.given;
    let known = row(given).ok();
    let shown = || Some((known.clone()?, given.maybe(&COVER)?, given.maybe(&WIDTH)?));
    let likely = || Some((pales(600.0, 125.0, 20.0).ok()?, 600.0, 125.0));
    let Some((row, cover, width)) = shown().or_else(likely) else {
        return;
    };
    // From above: every second pale lies on the two beside it.
    let thick = (width * 0.16).min(cover * 0.03);
    for (n, near) in row.near.iter().take(200).enumerate() {
        let low = if n % 2 == 0 { 0.0 } else { thick };
        pen.upright(Solid::Timber, [*near, low, near + width, low + thick]);
    }
    let at = Vec2::new;
    let up = at(0.0, 1.0);
    pen.dimension(
        &COVER,
        [[0.0, 0.0], [cover, 0.0]],
        up,
        thick * 2.0 + cover * 0.09,
    );
    pen.dimension(&WIDTH, [[0.0, 0.0], [width, 0.0]], -up, thick);
    if let Some(second) = row.near.get(1) {
        let lap = [at(*second, thick * 2.0), at(width, thick * 2.0)];
        let asked = [COVER, WIDTH, LAP].iter().any(|input| given.asks(input));
        let tag = match row.lap.filter(|_| known.is_some() && !asked) {
            Some(lap) => given.said(given.say(Fine(lap))),
            None => given.tag(&LAP),
        };
        pen.dimension(tag, lap, up, cover * 0.01);
    }
}
