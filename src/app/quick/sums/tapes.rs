//! Can I believe the tape: on a slope, hanging free, against another one.

use super::Tail::{Pm, Unit};
use super::Value::{Fine, Length};
use super::{Answer, Given, Input, Pen, QuickSum, Stage, Vec2, Verdict, Worked};
use crate::length::distance;
use crate::quick::Figure;
use crate::quick::tape_check::{
    BothTapes, TapeCheck, TapeCheckError, TapeVerdict, TwoTapeClasses, tape_check,
};
use crate::quick::tape_pull::{
    MASONS_LINE, STEEL_BLADE, level_length, line_sag, off_line, tape_sag,
};

const TAPE: Input = Input::length("slope tape", "The tape reads").called("tape");
const DROP: Input = Input::length("slope drop", "One end higher by")
    .called("drop")
    .how("or the middle pushed aside, for each half");

pub static SLOPE: QuickSum = QuickSum {
    id: "slope",
    title: "Tape on a slope",
    stage: Stage::Measure,
    answers: "How long is it level, when I taped it on the slope?",
    how: "**Type what the tape read and how much higher one end was.**",
    why: "The level side of the triangle: the root of the tape squared less the drop squared. A \
          tape that bends round something in its middle reads too long in the same way.",
    inputs: &[TAPE, DROP],
    work: slope,
    picture: slope_picture,
    pictured: "A tape pulled on a slope, and the level distance",
    ..QuickSum::BARE
};

fn slope(given: &Given<'_>) -> Worked {
    let (tape, drop) = (given.get(&TAPE)?, given.get(&DROP)?);
    let (level, long) = (level_length(tape, drop)?, off_line(tape, drop)?);
    Ok(Answer::new("Level distance", Length(level), Unit).row(
        "The tape reads too long by",
        Fine(long),
        Unit,
    ))
}

fn slope_picture(pen: &mut Pen<'_>) {
    let given = pen.given;
    let worked = slope(given);
    let said = match &worked {
        Ok(answer) => given.say(answer.value),
        Err(_) => "level".to_owned(),
    };
    let share = match (worked, given.maybe(&TAPE), given.maybe(&DROP)) {
        (Ok(_), Some(tape), Some(drop)) => (drop.abs() / tape).clamp(0.06, 0.7),
        _ => 0.22,
    };
    let at = Vec2::new;
    let [low, high] = [at(0.0, 0.0), at(10.0, 10.0 * share)];
    let foot = at(high.x, low.y);
    let (below, on) = (at(0.0, -0.5), (high - low) * 0.07);
    pen.ground(&[low + below - on, high + below + on], 0.6);
    pen.tape(&TAPE, low, high);
    pen.ghost(low, foot);
    pen.dimension(said, [low, foot], [0.0, 1.0], high.y + 0.3);
    pen.sight(&DROP, foot, high, [1.0, 0.0]);
}

const SPAN: Input = Input::length("sag length", "Length between its ends").called("length");
const PULL: Input = Input::number("sag pull", "Pull", "N")
    .called("pull")
    .usually(50.0);
const WHAT: Input = Input::choice("sag what", "It is a", &["Mason's line", "Steel tape"]);

pub static SAG: QuickSum = QuickSum {
    id: "sag",
    title: "Sag of a tape or line",
    stage: Stage::Measure,
    answers: "How far does it hang, and how much too long does it read?",
    how: "**Type the length and how hard you pull:** 50 N is a firm pull, about 5 kg.",
    why: "A flat curve under its own weight: its middle hangs by weight times length squared over \
          eight times the pull. A peg in the middle quarters it; a cross-wind bows a line aside \
          further than it sags.",
    inputs: &[SPAN, PULL, WHAT],
    work: sag,
    picture: sag_picture,
    pictured: "A line between two pegs, hanging in its middle",
    ..QuickSum::BARE
};

/// Over this length, mm, wind bows a line aside further than it sags.
const BOWS: f64 = 10_000.0;

fn sag(given: &Given<'_>) -> Worked {
    let (length, pull) = (given.get(&SPAN)?, given.get(&PULL)?);
    let tape = given.picked(&WHAT) == 1;
    let weight = if tape { STEEL_BLADE } else { MASONS_LINE };
    let hangs = line_sag(length, pull, weight)?;
    let long = tape_sag(length, pull, weight)?;
    let answer = Answer::new("Its middle hangs by", Fine(hangs), Unit);
    Ok(if tape {
        answer.row("The tape reads too long by", Fine(long), Unit)
    } else if length > BOWS {
        let far = distance(BOWS, given.unit);
        let text =
            format!("Over {far}, wind bows a line further than it sags: set a peg in the middle.");
        answer.says(Verdict::Note, text)
    } else {
        answer
    })
}

fn sag_picture(pen: &mut Pen<'_>) {
    let given = pen.given;
    let at = Vec2::new;
    let hang = |x: f64| at(x, -0.9 * (1.0 - (x / 5.0 - 1.0).powi(2)));
    pen.ghost(at(0.0, 0.0), at(10.0, 0.0));
    for x in [0.0, 10.0] {
        pen.ink(vec![at(x, -2.0), at(x, 0.3)]);
    }
    let curve: Vec<Vec2> = (0..=20).map(|n| hang(f64::from(n) / 2.0)).collect();
    for ends in curve.windows(2) {
        pen.string(ends[0], ends[1]);
    }
    pen.ground(&[at(-0.8, -2.0), at(10.8, -2.0)], 0.5);
    let middle = [at(5.0, 0.0), hang(5.0)];
    pen.dimension(given.found(&sag(given)), middle, [1.0, 0.0], 0.1);
    let ends = [at(0.0, 0.0), at(10.0, 0.0)];
    pen.dimension(&SPAN, ends, [0.0, 1.0], 0.4);
    pen.figure(&PULL, [10.0, 0.0], [0.8, -1.0]);
}

const ONE: Input =
    Input::length("two tapes first", "First tape").called("reading of the first tape");
const OTHER: Input = Input::length("two tapes second", "Second tape, the same length")
    .called("reading of the second tape");
const FAR_ONE: Input = Input::length("two tapes first far", "First tape, a longer length")
    .called("longer, first")
    .may();
const FAR_OTHER: Input = Input::length("two tapes second far", "Second tape, the longer one")
    .called("longer, second")
    .may();

pub static TWO_TAPES: QuickSum = QuickSum {
    id: "two tapes",
    title: "Do my two tapes agree?",
    stage: Stage::Measure,
    answers: "Is one of my tapes bent at the hook, or stretched?",
    how: "**Read one length with both tapes;** a long one besides tells a bent hook from a \
          stretched blade.",
    why: "A bent hook is out by the same everywhere, a stretched blade by more the longer it is. \
          Both are taken to be of the class chosen for the quick sums. Use one tape for the whole \
          job.",
    inputs: &[ONE, OTHER, FAR_ONE, FAR_OTHER],
    work: two_tapes,
    picture: two_tapes_picture,
    pictured: "One length read with two tapes, and a longer one",
    ..QuickSum::BARE
};

fn two_tapes(given: &Given<'_>) -> Worked {
    let near = BothTapes {
        first: given.get(&ONE)?,
        second: given.get(&OTHER)?,
    };
    let far = given.maybe(&FAR_ONE).zip(given.maybe(&FAR_OTHER));
    let far = far.map(|(first, second)| BothTapes { first, second });
    let lengths: Vec<BothTapes> = [near].into_iter().chain(far).collect();
    let tapes = TwoTapeClasses {
        first: given.tape.class,
        second: given.tape.class,
        reading: given.tape.reading,
    };
    let check = tape_check(&lengths, tapes)?;
    let last = check.differences.iter().zip(&check.permitted).next_back();
    let (off, permitted) = last.ok_or(TapeCheckError::NoLengths)?;
    Ok(parts(given, &check, differ(&check, *off, *permitted)))
}

fn differ(check: &TapeCheck, off: Figure, permitted: f64) -> Answer {
    let verdict = match check.verdict {
        TapeVerdict::Within => Verdict::Good,
        TapeVerdict::Beyond => Verdict::Bad,
        TapeVerdict::CannotTell => Verdict::Attention,
    };
    Answer::new("They differ by", Fine(off.value.abs()), Pm(off))
        .says(verdict, check.verdict.text())
        .row("Their classes permit", Fine(permitted), Unit)
}

/// What of it is the hook's and what the blade's, where both a short and a long length were read.
fn parts(given: &Given<'_>, check: &TapeCheck, answer: Answer) -> Answer {
    let Some(parts) = check.parts else {
        return answer;
    };
    let (each, scale) = given.in_each(parts.scale);
    answer
        .row("At the hook", Fine(parts.zero.value), Pm(parts.zero))
        .row(each, Fine(scale.value), Pm(scale))
}

fn two_tapes_picture(pen: &mut Pen<'_>) {
    let at = Vec2::new;
    for (y, ends, inputs) in [(0.0, 5.0, [ONE, OTHER]), (-3.4, 10.0, [FAR_ONE, FAR_OTHER])] {
        for (n, input) in inputs.into_iter().enumerate() {
            let level = y - if n == 0 { 0.0 } else { 1.3 };
            let end = ends + if n == 0 { 0.0 } else { 0.15 };
            pen.tape(&input, [0.0, level], [end, level]);
        }
        pen.ink(vec![at(0.0, y + 0.4), at(0.0, y - 1.7)]);
        pen.ink(vec![at(ends, y + 0.4), at(ends, y - 1.7)]);
    }
}
