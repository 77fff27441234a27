//! Is the laser telling the truth, by two pegs.

use super::Tail::{Pm, SlopePm};
use super::Value::{Fine, Length, Number};
use super::{Answer, Given, Input, Pen, QuickSum, Solid, Stage, Stop, Vec2, Verdict, Worked};
use crate::app::desk::{Desk, Menu, Then};
use crate::app::quick::settings;
use crate::cautions::LASER;
use crate::drawing::Tag;
use crate::job::edit::{Edit, Setting};
use crate::quick::Figure;
use crate::quick::laser_check::{AtPegs, LaserVerdict as Found, PegCheck, TwoPegs, two_pegs};

const BASE: Input = Input::length("laser base", "Between the pegs")
    .called("base between the pegs")
    .how_natively(
        "drive two pegs 15 m apart or more, about level",
        "drive two pegs 50 ft apart or more, about level",
    );
const MIDDLE_A: Input = Input::down("laser middle a", "Peg A from the middle")
    .called("A from the middle")
    .how("laser midway; down from its line to the peg's top");
const MIDDLE_B: Input =
    Input::down("laser middle b", "Peg B from the middle").called("B from the middle");
const DIST_A: Input = Input::length("laser distance a", "Laser to peg A")
    .called("distance to peg A")
    .how("laser beside one peg, or just beyond it");
const DIST_B: Input =
    Input::length("laser distance b", "Laser to peg B").called("distance to peg B");
const SECOND_A: Input = Input::down("laser second a", "Peg A, second place")
    .called("A, second place")
    .how("down from the laser line again");
const SECOND_B: Input =
    Input::down("laser second b", "Peg B, second place").called("B, second place");

pub static TWO_PEGS: QuickSum = QuickSum {
    id: "laser",
    title: "Check the laser",
    stage: Stage::Levels,
    answers: "How far is my laser out, by two pegs?",
    how: "**From the middle both readings are wrong alike,** so that their difference is true; \
          from beside one peg the far one is wrong by more.",
    why: "The height between the pegs as read from the second place, less that read from the \
          middle, over the difference of the two distances; sights twice as long halve its ±.",
    inputs: &[BASE, MIDDLE_A, MIDDLE_B, DIST_A, DIST_B, SECOND_A, SECOND_B],
    work: pegs,
    picture: pegs_picture,
    pictured: "Two pegs, read from the middle and from a second place",
    cautions: &[LASER],
    keep: Some(keep_accuracy),
};

fn read(given: &Given<'_>) -> Result<TwoPegs, Stop> {
    let pair = |a, b| {
        Ok::<_, Stop>(AtPegs {
            a: given.get(a)?,
            b: given.get(b)?,
        })
    };
    Ok(TwoPegs {
        base: given.get(&BASE)?,
        middle: pair(&MIDDLE_A, &MIDDLE_B)?,
        second: pair(&SECOND_A, &SECOND_B)?,
        second_dist: pair(&DIST_A, &DIST_B)?,
        higher: None,
    })
}

/// What the readings at both pegs come to.
///
/// # Errors
/// Where some are missing or they cannot all be.
pub fn checked(given: &Given<'_>) -> Result<PegCheck, Stop> {
    Ok(two_pegs(&read(given)?, given.laser)?)
}

pub fn slope(given: &Given<'_>, slope: Figure, found: Found) -> Answer {
    let what = if slope.value < 0.0 {
        "The line dips away from the laser by"
    } else {
        "The line climbs away from the laser by"
    };
    let verdict = match found {
        Found::Within => Verdict::Good,
        Found::Beyond => Verdict::Bad,
        Found::CannotTell { .. } => Verdict::Attention,
    };
    Answer::new(what, Number(slope.value.abs(), 2), SlopePm(slope.pm))
        .says(verdict, found.text(given.unit))
}

fn pegs(given: &Given<'_>) -> Worked {
    let check = checked(given)?;
    let (apart, true_at) = (check.a_above_b, check.true_second);
    let note = if apart.value < 0.0 {
        "B is the higher"
    } else {
        "A is the higher"
    };
    Ok(slope(given, check.slope, check.verdict)
        .row("Peg A, second place, true", Fine(true_at.a), "")
        .noted("what a true laser would read at the second place")
        .row("Peg B, second place, true", Fine(true_at.b), "")
        .row(
            "Between the pegs, in height",
            Length(apart.value.abs()),
            Pm(apart),
        )
        .noted(note))
}

fn pegs_picture(pen: &mut Pen<'_>) {
    let given = pen.given;
    let at = Vec2::new;
    let (a, b, line, top, ground) = (0.0, 2000.0, 900.0, 260.0, 100.0);
    let beyond = given.maybe(&DIST_A) > given.maybe(&DIST_B);
    let second = if beyond { 2350.0 } else { -350.0 };
    pen.ground(&[at(-550.0, ground), at(2550.0, ground)], 120.0);
    for (x, name) in [(a, "A"), (b, "B")] {
        pen.upright(Solid::Timber, [x - 25.0, ground - 60.0, x + 25.0, top]);
        let out = if (x - second).abs() < 1000.0 {
            -(second - x).signum()
        } else {
            1.0
        };
        pen.name(at(x, top), name, at(out, -0.4));
    }
    pen.laser(at(a, line), at(b, line), "from the middle");
    pen.tripod(at(1000.0, line), line - ground);
    let higher = line + 230.0;
    let ends = if beyond { [a, second] } else { [second, b] };
    pen.laser(
        at(ends[0], higher),
        at(ends[1], higher),
        "from the second place",
    );
    pen.tripod(at(second, higher), higher - ground);
    for (x, middle, from_there) in [(a, MIDDLE_A, SECOND_A), (b, MIDDLE_B, SECOND_B)] {
        let (left, right) = (at(-1.0, 0.0), at(1.0, 0.0));
        pen.sight(
            sight(given, &middle),
            [x - 40.0, line],
            [x - 40.0, top],
            left,
        );
        pen.sight(
            sight(given, &from_there),
            [x + 40.0, higher],
            [x + 40.0, top],
            right,
        );
    }
    let down = at(0.0, -1.0);
    let feet = |x: f64, y: f64| [at(x, ground), at(y, ground)];
    pen.dimension(&BASE, feet(a, b), down, 130.0);
    for (input, peg) in [(DIST_A, a), (DIST_B, b)] {
        if given.asks(&input) {
            pen.dimension(&input, feet(peg, second), down, 330.0);
        }
    }
}

/// A sight still to be read has no name: its place says which it is.
fn sight(given: &Given<'_>, input: &Input) -> Tag<'static> {
    let tag = given.tag(input);
    match given.maybe(input) {
        Some(_) => tag,
        None => Tag {
            text: "?".to_owned(),
            ..tag
        },
    }
}

/// To a tenth of a millimetre per metre, never under what was found.
pub fn counted_on(check: &PegCheck) -> f64 {
    ((check.slope.value.abs() * 10.0 - 1e-6).ceil() / 10.0).max(0.1)
}

/// The ± of the open job count on that accuracy from now on, mm per m.
pub fn count_in_job(desk: &mut Desk, accuracy: f64) -> Then {
    let level = crate::job::model::Laser {
        accuracy,
        ..desk.saved().level.clone()
    };
    let text = format!("Every ± uses {accuracy:.1} mm per m now.");
    desk.change_and_say(Edit::Set(Setting::Laser(level)), &text)
}

/// What was found becomes what the ± of the open job, or of the quick sums, counts on.
fn keep_accuracy(desk: &mut Desk, inputs: &'static [Input]) -> Then {
    let Ok(check) = checked(&Given::of(desk, inputs)) else {
        return Then::Stay;
    };
    let accuracy = counted_on(&check);
    let Some(title) = desk.open().map(|open| open.job().title.clone()) else {
        settings::count_on(desk, accuracy);
        return desk.say(&format!("Every quick sum uses {accuracy:.1} mm per m now."));
    };
    let note = format!("every ± uses {accuracy:.1} mm per m");
    let menu = Menu::new("Use it where?")
        .row(title, &note, move |desk| count_in_job(desk, accuracy))
        .row("The quick sums", &note, move |desk| {
            settings::count_on(desk, accuracy);
            Then::Stay
        });
    desk.offer(menu)
}
