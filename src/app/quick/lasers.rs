//! Is the laser telling the truth: two pegs, or two marks on a wall.

use super::given::Given;
use super::settings;
use super::sum::{Answer, Input, Refused, Stage, Sum, Worked};
use crate::app::desk::{Desk, Menu, Then};
use crate::cautions::LASER;
use crate::drawing::{Block, Drawing, Tag, Vec2};
use crate::job::edit::{Edit, Setting};
use crate::quick::Figure;
use crate::quick::laser_check::{AtPegs, TwoPegs, Verdict as Found, turn_about, two_pegs};
use tautmark_ui::Verdict;

const BASE: &str = "laser base";
const MIDDLE_A: &str = "laser middle a";
const MIDDLE_B: &str = "laser middle b";
const DIST_A: &str = "laser distance a";
const DIST_B: &str = "laser distance b";
const SECOND_A: &str = "laser second a";
const SECOND_B: &str = "laser second b";

pub(super) static TWO_PEGS: Sum = Sum {
    id: "laser",
    title: "Check the laser",
    stage: Stage::Levels,
    answers: "How far is my laser out, by two pegs?",
    how: "**From the middle both readings are wrong alike,** so that their difference is true; \
          from beside one peg the far one is wrong by more.",
    why: "The height between the pegs as read from the second place, less that read from the \
          middle, over the difference of the two distances; sights twice as long halve its ±.",
    inputs: &[
        Input::length(BASE, "Between the pegs")
            .called("base between the pegs")
            .how("drive two pegs 15 m apart or more, about level"),
        Input::down(MIDDLE_A, "Peg A from the middle")
            .called("A from the middle")
            .how("laser midway; down from its line to the peg's top"),
        Input::down(MIDDLE_B, "Peg B from the middle").called("B from the middle"),
        Input::length(DIST_A, "Laser to peg A")
            .called("distance to peg A")
            .how("laser beside one peg, or just beyond it"),
        Input::length(DIST_B, "Laser to peg B").called("distance to peg B"),
        Input::down(SECOND_A, "Peg A from there")
            .called("A from there")
            .how("down from its line again, from the second place"),
        Input::down(SECOND_B, "Peg B from there").called("B from there"),
    ],
    work: pegs,
    picture: pegs_picture,
    caution: Some(&LASER),
    keep: Some(keep_accuracy),
};

fn given_pegs(given: &Given<'_>) -> Option<TwoPegs> {
    let pair = |a, b| {
        Some(AtPegs {
            a: given.get(a)?,
            b: given.get(b)?,
        })
    };
    Some(TwoPegs {
        base: given.get(BASE)?,
        middle: pair(MIDDLE_A, MIDDLE_B)?,
        second: pair(SECOND_A, SECOND_B)?,
        second_dist: pair(DIST_A, DIST_B)?,
        higher: None,
    })
}

fn slope(slope: Figure, found: Found) -> Answer {
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
    let tail = format!("±\u{a0}{:.2} mm per m", slope.pm);
    Answer::new(what, format!("{:.2}", slope.value.abs()), tail).says(verdict, found.text())
}

fn pegs(given: &Given<'_>) -> Worked {
    let check = two_pegs(&given_pegs(given)?, given.laser).map_err(Refused::from);
    Some(check.map(|check| {
        let (apart, higher) = (check.a_above_b.value, check.a_above_b);
        let note = if apart < 0.0 {
            "B is the higher"
        } else {
            "A is the higher"
        };
        slope(check.slope, check.verdict)
            .row(
                "Peg A from there, true",
                given.fine(check.true_second.a),
                "",
            )
            .noted("what a true laser would read there")
            .row(
                "Peg B from there, true",
                given.fine(check.true_second.b),
                "",
            )
            .row(
                "Between the pegs, in height",
                given.length(apart.abs()),
                given.pm(higher),
            )
            .noted(note)
    }))
}

fn pegs_picture(given: &Given<'_>) -> Drawing {
    let mut sketch = given.sheet();
    let at = Vec2::new;
    let (a, b, line, top, ground) = (0.0, 2000.0, 900.0, 260.0, 100.0);
    let beyond = given.get(DIST_A) > given.get(DIST_B);
    let second = if beyond { 2350.0 } else { -350.0 };
    sketch.ground(&[at(-550.0, ground), at(2550.0, ground)], 120.0);
    for (x, name) in [(a, "A"), (b, "B")] {
        sketch.upright(Block::Timber, [x - 25.0, ground - 60.0, x + 25.0, top]);
        let out = if (x - second).abs() < 1000.0 {
            -(second - x).signum()
        } else {
            1.0
        };
        sketch.name(at(x, top), name, at(out, -0.4));
    }
    sketch.laser(at(a, line), at(b, line), "from the middle");
    sketch.tripod(at(1000.0, line), line - ground);
    let higher = line + 230.0;
    let ends = if beyond { [a, second] } else { [second, b] };
    sketch.laser(
        at(ends[0], higher),
        at(ends[1], higher),
        "from the second place",
    );
    sketch.tripod(at(second, higher), higher - ground);
    for (x, middle, from_there) in [(a, MIDDLE_A, SECOND_A), (b, MIDDLE_B, SECOND_B)] {
        let (left, right) = (at(-1.0, 0.0), at(1.0, 0.0));
        sketch.sight(
            &sight(given, middle),
            at(x - 40.0, line),
            at(x - 40.0, top),
            left,
        );
        sketch.sight(
            &sight(given, from_there),
            at(x + 40.0, higher),
            at(x + 40.0, top),
            right,
        );
    }
    let down = at(0.0, -1.0);
    let feet = |x: f64, y: f64| [at(x, ground), at(y, ground)];
    sketch.dimension(&given.tag(BASE), feet(a, b), down, 130.0);
    match given.asked {
        Some(DIST_A) => sketch.dimension(&given.tag(DIST_A), feet(a, second), down, 330.0),
        Some(DIST_B) => sketch.dimension(&given.tag(DIST_B), feet(b, second), down, 330.0),
        _ => {}
    }
    sketch.done("Two pegs, read from the middle and from a second place")
}

/// A sight still to be read has no name: its place says which it is.
fn sight(given: &Given<'_>, key: &'static str) -> Tag<'static> {
    match given.get(key) {
        Some(_) => given.tag(key),
        None => Tag {
            key,
            text: "?".to_owned(),
        },
    }
}

/// To a tenth of a millimetre per metre, never under what was found.
fn counted_on(given: &Given<'_>) -> Option<f64> {
    let check = two_pegs(&given_pegs(given)?, given.laser).ok()?;
    Some(((check.slope.value.abs() * 10.0 - 1e-6).ceil() / 10.0).max(0.1))
}

/// What was found becomes what the ± of the open job, or of the quick sums, counts on.
fn keep_accuracy(desk: &mut Desk, sum: &'static Sum) -> Then {
    let Some(accuracy) = counted_on(&Given::of(desk, sum)) else {
        return Then::Stay;
    };
    let Some(title) = desk.open().map(|open| open.job().title.clone()) else {
        settings::count_on(desk, accuracy);
        desk.say(&format!(
            "Every quick sum counts on {accuracy:.1} mm per m now."
        ));
        return Then::Stay;
    };
    let note = format!("every ± counts on {accuracy:.1} mm per m");
    let menu = Menu::new("Count on it where?")
        .row(title, &note, move |desk| {
            let level = crate::job::model::Laser {
                accuracy,
                ..desk.saved().level.clone()
            };
            let text = format!("Every ± counts on {accuracy:.1} mm per m now.");
            desk.change_and_say(Edit::Set(Setting::Laser(level)), &text);
            Then::Stay
        })
        .row("The quick sums", &note, move |desk| {
            settings::count_on(desk, accuracy);
            Then::Stay
        });
    desk.offer(menu)
}

const APART: &str = "turn about apart";
const WALL: &str = "turn about distance";

pub(super) static TURN_ABOUT: Sum = Sum {
    id: "turn about",
    title: "Turn the laser about",
    stage: Stage::Levels,
    answers: "How far is my laser out, with one wall?",
    how: "**Mark the line on a wall, turn the laser half round on its stand, and mark it again.**",
    why: "Turned half round, the line is as far out the other way: the marks differ by twice the \
          error over the distance. A wall twice as far halves its ±.",
    inputs: &[
        Input::length(WALL, "Laser to the wall")
            .called("distance to the wall")
            .how("10 m or more"),
        Input::up(APART, "Second mark above the first")
            .called("height between the marks")
            .how("Down where it is below"),
    ],
    work: about,
    picture: about_picture,
    caution: Some(&LASER),
    keep: None,
};

fn about(given: &Given<'_>) -> Worked {
    let (apart, wall) = (given.get(APART)?, given.get(WALL)?);
    let check = turn_about(apart, wall, given.laser).map_err(Refused::from);
    Some(check.map(|check| {
        let level = check.level_above_first;
        let note = if level.value < 0.0 {
            "below the first mark"
        } else {
            "above the first mark"
        };
        slope(check.slope, check.verdict)
            .row("True level", given.fine(level.value.abs()), given.pm(level))
            .noted(note)
    }))
}

fn about_picture(given: &Given<'_>) -> Drawing {
    let mut sketch = given.sheet();
    let at = Vec2::new;
    let (far, ground, head) = (2200.0, 0.0, 800.0);
    let apart = given.get(APART).unwrap_or(-1.0);
    let swing = if apart < 0.0 { -90.0 } else { 90.0 };
    let marks = [at(far, head - swing), at(far, head + swing)];
    sketch.ground(&[at(-300.0, ground), at(far, ground)], 120.0);
    sketch.wall(at(far, 1250.0), at(far, ground));
    sketch.laser(at(0.0, head), marks[0], "first");
    sketch.laser(at(0.0, head), marks[1], "turned about");
    sketch.tripod(at(0.0, head), head - ground);
    sketch.dimension(&given.tag(APART), marks, at(-1.0, 0.0), 120.0);
    let feet = [at(0.0, ground), at(far, ground)];
    sketch.dimension(&given.tag(WALL), feet, at(0.0, -1.0), 130.0);
    sketch.done("A laser marked on a wall, and again turned half round")
}
