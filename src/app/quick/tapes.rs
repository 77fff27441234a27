//! Can I believe the tape: on a slope, hanging free, against another one.

use super::given::Given;
use super::sum::{Answer, Input, Refused, Stage, Sum, Worked};
use crate::drawing::{Drawing, Vec2};
use crate::quick::tape_check::{BothTapes, TapeVerdict, TwoTapeClasses, tape_check};
use crate::quick::tape_pull::{
    MASONS_LINE, STEEL_BLADE, level_length, line_sag, off_line, tape_sag,
};
use crate::tape::TapeClass;
use tautmark_ui::Verdict;

const TAPE: &str = "slope tape";
const DROP: &str = "slope drop";

pub(super) static SLOPE: Sum = Sum {
    id: "slope",
    title: "Tape on a slope",
    stage: Stage::Measure,
    answers: "How long is it level, when I taped it on the slope?",
    how: "**Type what the tape read and how much higher one end was.**",
    why: "The level side of the triangle: the root of the tape squared less the drop squared. A \
          tape that bends round something in its middle reads too long in the same way.",
    inputs: &[
        Input::length(TAPE, "The tape reads").called("tape"),
        Input::length(DROP, "One end higher by")
            .called("drop")
            .how("or the middle pushed aside, for each half"),
    ],
    work: slope,
    picture: slope_picture,
    caution: None,
    keep: None,
};

fn slope(given: &Given<'_>) -> Worked {
    let (tape, drop) = (given.get(TAPE)?, given.get(DROP)?);
    let worked = level_length(tape, drop).and_then(|level| Ok((level, off_line(tape, drop)?)));
    Some(worked.map_err(Refused::from).map(|(level, long)| {
        Answer::new("Level distance", given.length(level), given.unit_name()).row(
            "The tape reads too long by",
            given.fine(long),
            given.unit_name(),
        )
    }))
}

fn slope_picture(given: &Given<'_>) -> Drawing {
    let mut sketch = given.sheet();
    let worked = slope(given);
    let said = match &worked {
        Some(Ok(answer)) => answer.figure.clone(),
        _ => "level".to_owned(),
    };
    let share = match (worked, given.get(TAPE), given.get(DROP)) {
        (Some(Ok(_)), Some(tape), Some(drop)) => (drop.abs() / tape).clamp(0.06, 0.7),
        _ => 0.22,
    };
    let at = Vec2::new;
    let [low, high] = [at(0.0, 0.0), at(10.0, 10.0 * share)];
    let foot = at(high.x, low.y);
    let (below, on) = (at(0.0, -0.5), (high - low) * 0.07);
    sketch.ground(&[low + below - on, high + below + on], 0.6);
    sketch.tape(&given.tag(TAPE), low, high);
    sketch.ghost(low, foot);
    sketch.dimension(&given.said(said), [low, foot], at(0.0, 1.0), high.y + 0.3);
    sketch.sight(&given.tag(DROP), foot, high, at(1.0, 0.0));
    sketch.done("A tape pulled on a slope, and the level distance")
}

const SPAN: &str = "sag length";
const PULL: &str = "sag pull";
const WHAT: &str = "sag what";

pub(super) static SAG: Sum = Sum {
    id: "sag",
    title: "Sag of a tape or line",
    stage: Stage::Measure,
    answers: "How far does it hang, and how much too long does it read?",
    how: "**Type the length and how hard you pull:** 50 N is a firm pull, about 5 kg.",
    why: "A flat curve under its own weight: its middle hangs by weight times length squared over \
          eight times the pull. A peg in the middle quarters it; a cross-wind bows a line aside \
          further than it sags.",
    inputs: &[
        Input::length(SPAN, "Length between its ends").called("length"),
        Input::number(PULL, "Pull", "N")
            .called("pull")
            .usually(50.0),
        Input::choice(WHAT, "It is a", &["Mason's line", "Steel tape"]),
    ],
    work: sag,
    picture: sag_picture,
    caution: None,
    keep: None,
};

fn sag(given: &Given<'_>) -> Worked {
    let (length, pull) = (given.get(SPAN)?, given.get(PULL)?);
    let tape = given.picked(WHAT) == 1;
    let weight = if tape { STEEL_BLADE } else { MASONS_LINE };
    let worked = line_sag(length, pull, weight)
        .and_then(|hangs| Ok((hangs, tape_sag(length, pull, weight)?)));
    Some(worked.map_err(Refused::from).map(|(hangs, long)| {
        let answer = Answer::new("Its middle hangs by", given.fine(hangs), given.unit_name());
        if tape {
            answer.row(
                "The tape reads too long by",
                given.fine(long),
                given.unit_name(),
            )
        } else if length > 10_000.0 {
            answer.says(
                Verdict::Note,
                "Over 10 m, wind bows a line further than it sags: set a peg in the middle.",
            )
        } else {
            answer
        }
    }))
}

fn sag_picture(given: &Given<'_>) -> Drawing {
    let mut sketch = given.sheet();
    let said = match sag(given) {
        Some(Ok(answer)) => answer.figure,
        _ => "?".to_owned(),
    };
    let at = Vec2::new;
    let hang = |x: f64| at(x, -0.9 * (1.0 - (x / 5.0 - 1.0).powi(2)));
    sketch.ghost(at(0.0, 0.0), at(10.0, 0.0));
    for x in [0.0, 10.0] {
        sketch.ink(vec![at(x, -2.0), at(x, 0.3)]);
    }
    let curve: Vec<Vec2> = (0..=20).map(|n| hang(f64::from(n) / 2.0)).collect();
    for ends in curve.windows(2) {
        sketch.string(ends[0], ends[1]);
    }
    sketch.ground(&[at(-0.8, -2.0), at(10.8, -2.0)], 0.5);
    let middle = [at(5.0, 0.0), hang(5.0)];
    sketch.dimension(&given.said(said), middle, at(1.0, 0.0), 0.1);
    let ends = [at(0.0, 0.0), at(10.0, 0.0)];
    sketch.dimension(&given.tag(SPAN), ends, at(0.0, 1.0), 0.4);
    sketch.figure(&given.tag(PULL), at(10.0, 0.0), at(0.8, -1.0));
    sketch.done("A line between two pegs, hanging in its middle")
}

const ONE: &str = "two tapes first";
const OTHER: &str = "two tapes second";
const FAR_ONE: &str = "two tapes first far";
const FAR_OTHER: &str = "two tapes second far";

pub(super) static TWO_TAPES: Sum = Sum {
    id: "two tapes",
    title: "Do my two tapes agree?",
    stage: Stage::Measure,
    answers: "Is one of my tapes bent at the hook, or stretched?",
    how: "**Read one length with both tapes;** a long one besides tells a bent hook from a \
          stretched blade.",
    why: "A bent hook is out by the same everywhere, a stretched blade by more the longer it is. \
          Both count with the class of tape chosen for the quick sums. Use one tape for the whole \
          job.",
    inputs: &[
        Input::length(ONE, "First tape").called("reading of the first tape"),
        Input::length(OTHER, "Second tape, the same length").called("reading of the second tape"),
        Input::length(FAR_ONE, "First tape, a longer length")
            .called("longer, first")
            .may(),
        Input::length(FAR_OTHER, "Second tape, the longer one")
            .called("longer, second")
            .may(),
    ],
    work: two_tapes,
    picture: two_tapes_picture,
    caution: None,
    keep: None,
};

fn two_tapes(given: &Given<'_>) -> Worked {
    let pair = |one, other| {
        Some(BothTapes {
            first: given.get(one)?,
            second: given.get(other)?,
        })
    };
    let near = pair(ONE, OTHER)?;
    let lengths: Vec<BothTapes> = [near].into_iter().chain(pair(FAR_ONE, FAR_OTHER)).collect();
    let class: TapeClass = given.tape.class;
    let tapes = TwoTapeClasses {
        first: class,
        second: class,
        reading: given.tape.reading,
    };
    let check = tape_check(&lengths, tapes).map_err(Refused::from);
    Some(check.map(|check| {
        let verdict = match check.verdict {
            TapeVerdict::Within => Verdict::Good,
            TapeVerdict::Beyond => Verdict::Bad,
            TapeVerdict::CannotTell => Verdict::Attention,
        };
        let last = check.differences.len().saturating_sub(1);
        let pairs = check.differences.iter().zip(&check.permitted);
        let Some((off, permitted)) = pairs.clone().nth(last) else {
            return Answer::new("They differ by", "—", "");
        };
        let answer = Answer::new(
            "They differ by",
            given.fine(off.value.abs()),
            given.pm(*off),
        )
        .says(verdict, check.verdict.text())
        .row(
            "Their classes permit",
            given.fine(*permitted),
            given.unit_name(),
        );
        match check.parts {
            Some(parts) => answer
                .row(
                    "At the hook",
                    given.fine(parts.zero.value),
                    given.pm(parts.zero),
                )
                .row(
                    "In each metre",
                    given.fine(parts.scale.value),
                    given.pm(parts.scale),
                ),
            None => answer,
        }
    }))
}

fn two_tapes_picture(given: &Given<'_>) -> Drawing {
    let mut sketch = given.sheet();
    let at = Vec2::new;
    for (y, ends, keys) in [(0.0, 5.0, [ONE, OTHER]), (-3.4, 10.0, [FAR_ONE, FAR_OTHER])] {
        for (n, key) in keys.into_iter().enumerate() {
            let level = y - if n == 0 { 0.0 } else { 1.3 };
            let end = ends + if n == 0 { 0.0 } else { 0.15 };
            sketch.tape(&given.tag(key), at(0.0, level), at(end, level));
        }
        sketch.ink(vec![at(0.0, y + 0.4), at(0.0, y - 1.7)]);
        sketch.ink(vec![at(ends, y + 0.4), at(ends, y - 1.7)]);
    }
    sketch.done("One length read with two tapes, and a longer one")
}
