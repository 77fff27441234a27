//! Corners: their angle by three tapes, and the tape that makes one.

use super::Tail::{AnglePm, Pm, Unit};
use super::Value::{Angle, Degrees, Fine, Length};
use super::{Answer, Given, Input, Pen, QuickSum, Stage, Stop, Vec2, Verdict, Worked};
use crate::app::quick::keep::{self, KeptIn, NewMarks};
use crate::cautions::STRINGS;
use crate::drawing::{Sketch, direction};
use crate::job::Job;
use crate::job::edit::Edit;
use crate::job::reading::Reading;
use crate::quick::corner::{CornerTapes, TapedCorner, across_for, corner_by_tapes};
use tautmark_ui::Place;

pub const FIRST: Input = Input::length("corner first", "First leg")
    .called("first leg")
    .how("from the corner along the first string");
pub const SECOND: Input = Input::length("corner second", "Second leg")
    .called("second leg")
    .how("from the corner along the second");
pub const ACROSS_TAPE: Input = Input::length("corner across", "Across")
    .called("across tape")
    .how("from mark to mark");
const RUN: Input = Input::length("corner run", "Length of the run")
    .called("run")
    .how("to see how far its end may stand off")
    .may();

pub static BY_TAPES: QuickSum = QuickSum {
    id: "corner",
    title: "Corner by three tapes",
    stage: Stage::Measure,
    answers: "What angle do two walls or strings make?",
    how: "**Mark both strings or walls out from the corner,** as far as there is room, and tape \
          from mark to mark.",
    why: "From the three tapes by the law of cosines. The longer the legs, the smaller the ±: \
          legs twice as long halve it. It comes from how well you read the tape; the tape's own \
          scale is the same on all three sides and turns no angle.",
    inputs: &[FIRST, SECOND, ACROSS_TAPE, RUN],
    work: by_tapes,
    picture: tapes_picture,
    pictured: "Two legs from a corner and the tape across them",
    cautions: &[STRINGS],
    keep: Some(|desk, inputs| {
        let kept = KeptIn {
            title: "Corner by three tapes",
            said: "Three marks, two walls and three tapes.",
            place: Place::Walls,
        };
        keep::into_a_job(desk, inputs, kept, Box::new(corner_in_job))
    }),
};

pub fn taped(given: &Given<'_>) -> Result<CornerTapes, Stop> {
    Ok(CornerTapes {
        first: given.taped(&FIRST)?,
        second: given.taped(&SECOND)?,
        across: given.taped(&ACROSS_TAPE)?,
    })
}

fn by_tapes(given: &Given<'_>) -> Worked {
    let corner = corner_by_tapes(&taped(given)?)?;
    let (angle, pm) = (corner.angle.value, corner.angle.pm);
    let answer = Answer::new("Inside angle", Angle(angle, pm), AnglePm(pm));
    let answer = and_cuts(given, answer, &corner);
    let Some(run) = given.maybe(&RUN) else {
        return Ok(answer);
    };
    Ok(match corner.hint(run) {
        Some(hint) => answer.says(Verdict::Attention, hint.text(given.unit)),
        None => {
            let sideways = given.say(Length(corner.sideways_at(run)));
            let text = format!("The end of that run is sure to **{sideways}** either way.");
            answer.says(Verdict::Good, text)
        }
    })
}

fn and_cuts(given: &Given<'_>, answer: Answer, corner: &TapedCorner) -> Answer {
    let off = corner.off_square.value;
    let wider = if off < 0.0 {
        "closer than square"
    } else {
        "wider than square"
    };
    let (each, off_square) = given.in_each(corner.per_metre);
    answer
        .row("Not square by", Angle(off.abs(), corner.off_square.pm), "")
        .noted(wider)
        .row(each, Fine(off_square.value.abs()), Pm(off_square))
        .noted("the second leg off a square one")
        .row("Mitre, saw set at", Degrees(corner.bevel.off_square, 1), "")
        .noted("on a saw that reads 0 for a square cut")
        .row(
            "Against a post square to one",
            Degrees(corner.bevel.against_post, 1),
            "",
        )
        .noted("the other rail's end, off square")
}

/// Both legs from the corner on the origin: the first to the left, the second at the inside angle.
pub fn legs(sketch: &mut Sketch<'_>, [first, second, at]: [f64; 3]) -> [Vec2; 2] {
    let ways = [direction(180.0), direction(180.0 - at)];
    let ends = [ways[0] * first, ways[1] * second];
    let long = first.max(second);
    for (way, end) in ways.into_iter().zip(ends) {
        sketch.string(-way * long * 0.12, end * 1.08);
        sketch.dot(end);
    }
    ends
}

/// The triangle as taped, or a likely one while it is not there.
pub fn triangle(given: &Given<'_>) -> [f64; 3] {
    let taped = || {
        let tapes = taped(given)?;
        let corner = corner_by_tapes(&tapes)?;
        Ok::<_, Stop>([tapes.first.length, tapes.second.length, corner.angle.value])
    };
    taped().unwrap_or([4.0, 3.0, 102.0])
}

fn tapes_picture(pen: &mut Pen<'_>) {
    let given = pen.given;
    let shape @ [first, second, at] = triangle(given);
    let ends = legs(pen, shape);
    pen.tape(&FIRST, Vec2::zeros(), ends[0]);
    pen.tape(&SECOND, Vec2::zeros(), ends[1]);
    pen.tape(&ACROSS_TAPE, ends[0], ends[1]);
    let radius = first.min(second) * 0.25;
    let found = given.found(&by_tapes(given));
    pen.angle(found, Vec2::zeros(), radius, [180.0, -at]);
}

/// Marks at the corner and at the ends of both legs, a wall along each, and the three tapes.
fn corner_in_job(given: &Given<'_>, job: &Job) -> Option<Edit> {
    let tapes = taped(given).ok()?;
    let corner = corner_by_tapes(&tapes).ok()?;
    let (a, b) = (tapes.first.length, tapes.second.length);
    let mut marks = NewMarks::beside(job);
    let at = marks.at(0.0, 0.0);
    let first = marks.at(a, 0.0);
    let turn = corner.angle.value.to_radians();
    let second = marks.at(b * turn.cos(), b * turn.sin());
    let mut edits = marks.edits();
    edits.extend(keep::walls(job, &[[&at, &first], [&at, &second]]));
    let read = vec![
        Reading::tape(at.clone(), first.clone(), a),
        Reading::tape(at, second.clone(), b),
        Reading::tape(first, second, tapes.across.length),
    ];
    edits.extend(keep::readings(job, read));
    Some(Edit::Many(edits))
}

const FIRST_LEG: Input = Input::length("across first", "First leg")
    .called("first leg")
    .how("marked from the corner along the first string");
const SECOND_LEG: Input = Input::length("across second", "Second leg")
    .called("second leg")
    .how("marked along the second");
const ANGLE: Input = Input::degrees("across angle", "Angle wanted")
    .called("wanted angle")
    .how("inside the corner; 90 is square")
    .usually(90.0);

pub static ACROSS: QuickSum = QuickSum {
    id: "across",
    title: "Tape for an angle",
    stage: Stage::Strings,
    answers: "What must the tape across read for the angle I want?",
    how: "**Mark both strings out from the corner** and type how far; 90 is square.",
    why: "The tape across two legs at the angle you want, by the law of cosines. Legs as long as \
          the run make a millimetre on the tape turn it least.",
    inputs: &[FIRST_LEG, SECOND_LEG, ANGLE],
    work: across_work,
    picture: across_picture,
    pictured: "Two legs at the angle wanted and the tape across them",
    ..QuickSum::BARE
};

fn across_given(given: &Given<'_>) -> Result<[f64; 3], Stop> {
    let legs = [given.get(&FIRST_LEG)?, given.get(&SECOND_LEG)?];
    Ok([legs[0], legs[1], given.get(&ANGLE)?])
}

fn across_work(given: &Given<'_>) -> Worked {
    let [first, second, wanted] = across_given(given)?;
    let across = across_for(first, second, wanted)?;
    let off = given.say(Length((across.wanted - across.square).abs()));
    let way = if across.wanted < across.square {
        "less"
    } else {
        "more"
    };
    let (label, turned) = match given.unit.part() {
        Some(part) => (
            format!("{} in on the tape turns it", part.name()),
            part.mm(),
        ),
        None => ("1 mm on the tape turns it".to_owned(), 1.0),
    };
    Ok(
        Answer::new("The tape across must read", Length(across.wanted), Unit)
            .row("Square would read", Length(across.square), "")
            .noted(format!("yours is {off} {way}"))
            .row(label, Degrees(across.degrees_per_mm * turned, 3), ""),
    )
}

fn across_picture(pen: &mut Pen<'_>) {
    let given = pen.given;
    let worked = across_work(given);
    let known = across_given(given).ok().filter(|_| worked.is_ok());
    let shape @ [first, second, at] = known.unwrap_or([4.0, 3.0, 90.0]);
    let ends = legs(pen, shape);
    pen.tape(&FIRST_LEG, Vec2::zeros(), ends[0]);
    pen.tape(&SECOND_LEG, Vec2::zeros(), ends[1]);
    pen.tape(given.found(&worked), ends[0], ends[1]);
    let radius = first.min(second) * 0.25;
    pen.angle(&ANGLE, Vec2::zeros(), radius, [180.0, -at]);
}
