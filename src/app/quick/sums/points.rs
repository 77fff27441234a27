//! A point and its two tapes: where it is, and which tapes put it there.

use super::Tail::{Pm, Unit};
use super::Value::{Degrees, Length};
use super::{Answer, Given, Input, Pen, QuickSum, Stage, Stop, Vec2, Verdict, Worked};
use crate::app::desk::{Desk, Menu, Then};
use crate::app::quick::keep::{self, KeptIn, NewMarks, Put};
use crate::cautions::STRINGS;
use crate::drawing::Sketch;
use crate::job::edit::Edit;
use crate::job::reading::Reading;
use crate::job::{Job, MarkId};
use crate::quick::two_tapes::{TapesCrossing, TwoTapes, point_by_tapes, tapes_to};
use tautmark_ui::Place;

const SIDES: &[&str] = &["Left", "Right"];

const BASE: Input = Input::length("point base", "Between the marks")
    .called("base between the marks")
    .how("from the first mark to the second");
const FIRST: Input =
    Input::length("point first", "First mark to the point").called("tape from the first mark");
const SECOND: Input =
    Input::length("point second", "Second mark to the point").called("tape from the second mark");
const SIDE: Input = Input::choice(
    "point side",
    "Seen from the first mark to the second, it lies",
    SIDES,
);

pub static BY_TAPES: QuickSum = QuickSum {
    id: "point",
    title: "Point by two tapes",
    stage: Stage::Measure,
    answers: "Where is a point that I tape from two marks?",
    how: "**Tape between two marks, and from each of them to the point.** Best where the two tapes \
          meet squarely.",
    why: "Where the two tapes cross, and once more on the other side of the base. They fix a point \
          best where they cross squarely; under 30° or over 150° a small slip moves it far.",
    inputs: &[BASE, FIRST, SECOND, SIDE],
    work: by_tapes,
    picture: tapes_picture,
    pictured: "Two marks and a tape from each to the point",
    cautions: &[STRINGS],
    keep: Some(keep_point),
};

fn taped(given: &Given<'_>) -> Result<TwoTapes, Stop> {
    Ok(TwoTapes {
        base: given.taped(&BASE)?,
        from_first: given.taped(&FIRST)?,
        from_second: given.taped(&SECOND)?,
    })
}

fn warned(answer: Answer, crossing: f64) -> Answer {
    match TapesCrossing::of(crossing).text() {
        Some(text) => answer.says(Verdict::Attention, text),
        None => answer,
    }
}

fn by_tapes(given: &Given<'_>) -> Worked {
    let point = point_by_tapes(&taped(given)?)?;
    let before = if point.along.value < 0.0 {
        "before it"
    } else {
        "towards the second"
    };
    let answer = Answer::new(
        "Square off the base",
        Length(point.off.value),
        Pm(point.off),
    )
    .row(
        "Along it from the first mark",
        Length(point.along.value.abs()),
        Pm(point.along),
    )
    .noted(before)
    .row("The tapes cross at", Degrees(point.crossing, 0), "");
    Ok(warned(answer, point.crossing))
}

/// The side as a factor: the base runs to the right, its left is up.
fn side(given: &Given<'_>) -> f64 {
    if given.picked(&SIDE) == 1 { -1.0 } else { 1.0 }
}

/// Two marks, the point, and the swings that meet in it.
fn swings(sketch: &mut Sketch<'_>, [base, along, off]: [f64; 3]) -> [Vec2; 3] {
    let ends @ [first, second] = [Vec2::zeros(), Vec2::new(base, 0.0)];
    let point = Vec2::new(along, off);
    let down = Vec2::new(0.0, -off.signum());
    sketch.mark(first, "first", down);
    sketch.mark(second, "second", down);
    for end in ends {
        let way = point - end;
        let bearing = way.y.atan2(way.x).to_degrees();
        sketch.swing(end, way.norm(), [bearing - 14.0, 28.0]);
    }
    [first, second, point]
}

fn tapes_picture(pen: &mut Pen<'_>) {
    let given = pen.given;
    let point = taped(given).and_then(|tapes| {
        let point = point_by_tapes(&tapes)?;
        Ok([tapes.base.length, point.along.value, point.off.value])
    });
    let [base, along, off] = point.unwrap_or([5.0, 2.0, 2.6]);
    let [first, second, point] = swings(pen, [base, along, off * side(given)]);
    pen.tape(&BASE, first, second);
    pen.tape(&FIRST, first, point);
    pen.tape(&SECOND, second, point);
    pen.found(point);
}

/// The two marks are some of the job's, or new ones.
fn keep_point(desk: &mut Desk, inputs: &'static [Input]) -> Then {
    let kept = KeptIn {
        title: "Point by two tapes",
        said: "A mark and its two tapes.",
        place: Place::Walls,
    };
    let marks = desk.open().map(|open| open.job().marks.clone());
    let marks = marks.unwrap_or_default();
    if marks.len() < 2 {
        return keep::into_a_job(desk, inputs, kept, Box::new(with_new_marks));
    }
    let menu = Menu::new("What was the first mark?").row(
        "A new mark",
        "the base is kept too",
        move |desk| keep::into_a_job(desk, inputs, kept, Box::new(with_new_marks)),
    );
    let menu = marks.into_iter().fold(menu, |menu, mark| {
        menu.row(format!("Mark {}", mark.id), &mark.note, move |desk| {
            second_mark(desk, inputs, kept, mark.id)
        })
    });
    desk.offer(menu)
}

fn second_mark(desk: &mut Desk, inputs: &'static [Input], kept: KeptIn, first: MarkId) -> Then {
    let marks = desk.saved().marks.iter().filter(|mark| mark.id != first);
    let menu = marks.fold(Menu::new("And the second mark?"), |menu, mark| {
        let base = [first.clone(), mark.id.clone()];
        menu.row(format!("Mark {}", mark.id), &mark.note, move |desk| {
            into_between(desk, inputs, &kept, base)
        })
    });
    desk.offer(menu)
}

fn into_between(
    desk: &mut Desk,
    inputs: &'static [Input],
    kept: &KeptIn,
    base: [MarkId; 2],
) -> Then {
    let at = base.clone().map(|mark| {
        let known = desk.solution.marks.get(&mark).map(|fix| [fix.x, fix.y]);
        let rough = desk.saved().marks.iter().find(|one| one.id == mark);
        known.or(rough.and_then(|mark| mark.rough))
    });
    let put: Put = Box::new(move |given, job| between(given, job, &base, at));
    keep::into_open(desk, inputs, kept, &put)
}

/// A mark taped from two that are there; the base is a reading too, which checks it.
fn between(
    given: &Given<'_>,
    job: &Job,
    base: &[MarkId; 2],
    at: [Option<[f64; 2]>; 2],
) -> Option<Edit> {
    let tapes = taped(given).ok()?;
    let point = point_by_tapes(&tapes).ok()?;
    let ends = [Vec2::from(at[0]?), Vec2::from(at[1]?)];
    let along = (ends[1] - ends[0]).try_normalize(1e-9)?;
    let left = Vec2::new(-along.y, along.x) * side(given);
    let rough = ends[0] + along * point.along.value + left * point.off.value;
    let mut marks = NewMarks::beside(job);
    let new = marks.exactly([rough.x, rough.y]);
    let mut edits = marks.edits();
    let [first, second] = base.clone();
    let read = vec![
        Reading::tape(first.clone(), second.clone(), tapes.base.length),
        Reading::tape(first, new.clone(), tapes.from_first.length),
        Reading::tape(second, new, tapes.from_second.length),
    ];
    edits.extend(keep::readings(job, read));
    Some(Edit::Many(edits))
}

fn with_new_marks(given: &Given<'_>, job: &Job) -> Option<Edit> {
    let tapes = taped(given).ok()?;
    let point = point_by_tapes(&tapes).ok()?;
    let mut marks = NewMarks::beside(job);
    let first = marks.at(0.0, 0.0);
    let second = marks.at(tapes.base.length, 0.0);
    let new = marks.at(point.along.value, point.off.value * side(given));
    let mut edits = marks.edits();
    let read = vec![
        Reading::tape(first.clone(), second.clone(), tapes.base.length),
        Reading::tape(first, new.clone(), tapes.from_first.length),
        Reading::tape(second, new, tapes.from_second.length),
    ];
    edits.extend(keep::readings(job, read));
    Some(Edit::Many(edits))
}

const TO_BASE: Input =
    Input::length("to base", "Between the marks").called("base between the marks");
const ALONG: Input =
    Input::length("to along", "Along it from the first mark").called("distance along the base");
const OFF: Input = Input::length("to off", "Square off it").called("distance off the base");

pub static TAPES_TO: QuickSum = QuickSum {
    id: "tapes to",
    title: "Tapes to a point",
    stage: Stage::Measure,
    answers: "Which two tapes put a point where I want it?",
    how: "**Say where the point is wanted:** along the line of two marks, and square off it.",
    why: "The straight distances from both marks. Swing both tapes and mark where they meet; they \
          should cross between 30° and 150°.",
    inputs: &[TO_BASE, ALONG, OFF],
    work: to_work,
    picture: to_picture,
    pictured: "Two marks, and the two tapes that meet in the point wanted",
    ..QuickSum::BARE
};

fn to_given(given: &Given<'_>) -> Result<[f64; 3], Stop> {
    let base = given.get(&TO_BASE)?;
    Ok([base, given.get(&ALONG)?, given.get(&OFF)?])
}

fn to_work(given: &Given<'_>) -> Worked {
    let [base, along, off] = to_given(given)?;
    let swings = tapes_to(base, along, off)?;
    let answer = Answer::new("From the first mark", Length(swings.from_first), Unit)
        .row("From the second mark", Length(swings.from_second), Unit)
        .row("The tapes cross at", Degrees(swings.crossing, 0), "");
    Ok(warned(answer, swings.crossing))
}

fn to_picture(pen: &mut Pen<'_>) {
    let given = pen.given;
    let good = to_work(given).is_ok();
    let known = to_given(given).ok().filter(|_| good);
    let known = known.unwrap_or([5.0, 2.0, 2.6]);
    let [first, second, point] = swings(pen, known);
    pen.tape(&TO_BASE, first, second);
    let foot = Vec2::new(point.x, 0.0);
    pen.dimension(&ALONG, [first, foot], [0.0, -1.0], known[0] * 0.1);
    pen.tape(&OFF, foot, point);
    let said = |mm: f64| {
        if good {
            given.say(Length(mm))
        } else {
            "?".to_owned()
        }
    };
    pen.tape(said((point - first).norm()), first, point);
    pen.tape(said((point - second).norm()), second, point);
    pen.found(point);
}
