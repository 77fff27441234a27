//! Is it square: four sides and two diagonals, and the diagonal of a rectangle.

use super::Tail::{AnglePm, Pm, Unit};
use super::Value::{Angle, Length, Words};
use super::{Answer, Given, Input, Pen, QuickSum, Stage, Stop, Vec2, Verdict, Worked};
use crate::app::quick::keep::{self, KeptIn, NewMarks};
use crate::cautions::STRINGS;
use crate::drawing::Sketch;
use crate::job::Job;
use crate::job::edit::Edit;
use crate::job::reading::Reading;
use crate::quick::four_sides::{
    Agreement, FourSides, FourSidesCheck, Layout, SideName, Slide, ToRectangle, four_sides,
    rectangle_diagonal,
};
use tautmark_ui::Place;

const AB: Input = Input::length("square ab", "Side A to B").called("side AB");
const BC: Input = Input::length("square bc", "Side B to C").called("side BC");
const CD: Input = Input::length("square cd", "Side C to D").called("side CD");
const DA: Input = Input::length("square da", "Side D to A").called("side DA");
const AC: Input = Input::length("square ac", "Diagonal A to C").called("diagonal AC");
const BD: Input = Input::length("square bd", "Diagonal B to D").called("diagonal BD");

pub static SIX_TAPES: QuickSum = QuickSum {
    id: "square",
    title: "Is it square?",
    stage: Stage::Measure,
    answers: "Do four sides and two diagonals agree, and what shape are they?",
    how: "**Name the corners A, B, C, D as you walk round** and tape all four sides and both \
          diagonals.",
    why: "Six tapes fix four corners with one to spare: that one check shows that something is \
          misread, never which. Equal diagonals alone do not make a rectangle: a trapezium has \
          them too.",
    inputs: &[AB, BC, CD, DA, AC, BD],
    work: six,
    picture: six_picture,
    pictured: "Four corners, their sides and both diagonals",
    cautions: &[STRINGS],
    keep: Some(|desk, inputs| {
        let kept = KeptIn {
            title: "Four sides and two diagonals",
            said: "Four marks and six tapes.",
            place: Place::Walls,
        };
        keep::into_a_job(desk, inputs, kept, Box::new(in_job))
    }),
};

fn taped(given: &Given<'_>) -> Result<FourSides, Stop> {
    Ok(FourSides {
        ab: given.taped(&AB)?,
        bc: given.taped(&BC)?,
        cd: given.taped(&CD)?,
        da: given.taped(&DA)?,
        ac: given.taped(&AC)?,
        bd: given.taped(&BD)?,
    })
}

fn six(given: &Given<'_>) -> Worked {
    Ok(answer(&four_sides(&taped(given)?)?))
}

fn answer(check: &FourSidesCheck) -> Answer {
    let closure = &check.closure;
    let verdict = match closure.agreement {
        Agreement::Agree => Verdict::Good,
        Agreement::Doubtful => Verdict::Attention,
        Agreement::Contradict => Verdict::Bad,
    };
    let main = match &check.layout {
        Some(layout) => to_rectangle(&layout.to_rectangle),
        None => Answer::new(
            "B to D is off what the others make it by",
            Length(closure.off.value.abs()),
            Pm(closure.off),
        ),
    };
    let mut answer = main.says(verdict, closure.agreement.text());
    if let Some(layout) = &check.layout {
        let verdict = match layout.to_rectangle {
            ToRectangle::Already => Verdict::Good,
            _ => Verdict::Attention,
        };
        answer = answer.says(verdict, format!("**{}**", layout.shape.text()));
        answer = corners(answer, layout);
    }
    answer
        .row(
            "B to D by the others",
            Length(closure.expected.value),
            Pm(closure.expected),
        )
        .row("A slip this small could hide", Length(closure.hidden), Unit)
}

fn corners(answer: Answer, layout: &Layout) -> Answer {
    ["A", "B", "C", "D"]
        .into_iter()
        .zip(&layout.angles)
        .fold(answer, |answer, (name, at)| {
            answer.row(
                format!("Corner {name}"),
                Angle(at.value, at.pm),
                AnglePm(at.pm),
            )
        })
}

fn to_rectangle(way: &ToRectangle) -> Answer {
    match way {
        ToRectangle::Already => {
            Answer::new("It is", Words("square"), "as near as these tapes can tell")
        }
        ToRectangle::Slide { either, .. } => slides(either),
        ToRectangle::SidesFirst { diagonal } => Answer::new(
            "Make opposite sides equal first; each diagonal is then",
            Length(*diagonal),
            Unit,
        ),
    }
}

fn slides(either: &[Slide; 2]) -> Answer {
    let [first, other] = either;
    let said = |slide: &Slide| format!("slide {} towards {:?}", side(slide.side), slide.towards);
    let what = format!("To square it {} by", said(first));
    Answer::new(what, Length(first.by.value), Pm(first.by))
        .row(
            format!("Or {} by", said(other)),
            Length(other.by.value),
            Pm(other.by),
        )
        .row("Both diagonals then read", Length(first.diagonal), Unit)
}

fn side(side: SideName) -> &'static str {
    match side {
        SideName::AB => "side A to B",
        SideName::BC => "side B to C",
        SideName::CD => "side C to D",
        SideName::DA => "side D to A",
    }
}

/// The corners as taped, or a likely figure while they are not there.
fn lying(given: &Given<'_>) -> [Vec2; 4] {
    let likely = [[0.0, 0.0], [5.0, 0.0], [5.4, 3.4], [0.2, 3.6]].map(Vec2::from);
    let place = || {
        let tapes = taped(given).ok()?;
        four_sides(&tapes).ok()?;
        let [ab, da, bd] = [tapes.ab, tapes.da, tapes.bd].map(|tape| tape.length);
        let [bc, ac] = [tapes.bc, tapes.ac].map(|tape| tape.length);
        let third = |near: f64, far: f64| {
            let x = (ab * ab + near * near - far * far) / (2.0 * ab);
            Vec2::new(x, (near * near - x * x).max(0.0).sqrt())
        };
        Some([
            Vec2::zeros(),
            Vec2::new(ab, 0.0),
            third(ac, bc),
            third(da, bd),
        ])
    };
    place().unwrap_or(likely)
}

fn six_picture(pen: &mut Pen<'_>) {
    let given = pen.given;
    let at @ [a, b, c, d] = lying(given);
    for (key, from, to) in [
        (&AB, a, b),
        (&BC, b, c),
        (&CD, c, d),
        (&DA, d, a),
        (&AC, a, c),
        (&BD, b, d),
    ] {
        pen.tape(key, from, to);
    }
    named(pen, at);
}

fn named(sketch: &mut Sketch<'_>, at: [Vec2; 4]) {
    let middle = at.iter().sum::<Vec2>() / 4.0;
    for (name, at) in ["A", "B", "C", "D"].into_iter().zip(at) {
        sketch.mark(at, name, at - middle);
    }
}

fn in_job(given: &Given<'_>, job: &Job) -> Option<Edit> {
    let tapes = taped(given).ok()?;
    four_sides(&tapes).ok()?;
    let mut marks = NewMarks::beside(job);
    let [a, b, c, d] = lying(given).map(|at| marks.at(at.x, at.y));
    let mut edits = marks.edits();
    let read = [
        (&a, &b, tapes.ab),
        (&b, &c, tapes.bc),
        (&c, &d, tapes.cd),
        (&d, &a, tapes.da),
        (&a, &c, tapes.ac),
        (&b, &d, tapes.bd),
    ];
    let read = read.map(|(from, to, tape)| Reading::tape(from.clone(), to.clone(), tape.length));
    edits.extend(keep::readings(job, read.to_vec()));
    Some(Edit::Many(edits))
}

const WIDE: Input = Input::length("rectangle width", "One side").called("width");
const LONG: Input = Input::length("rectangle length", "The other side").called("length");

pub static DIAGONAL: QuickSum = QuickSum {
    id: "diagonal",
    title: "Diagonal of a rectangle",
    stage: Stage::Strings,
    answers: "What must both diagonals read?",
    how: "**Type both sides** of the rectangle you want.",
    why: "The root of both sides squared and added. Both diagonals and all four sides must be \
          right: equal diagonals alone do not make it square.",
    inputs: &[WIDE, LONG],
    work: diagonal,
    picture: diagonal_picture,
    pictured: "A rectangle and its diagonals",
    ..QuickSum::BARE
};

fn diagonal(given: &Given<'_>) -> Worked {
    let found = rectangle_diagonal(given.get(&WIDE)?, given.get(&LONG)?)?;
    Ok(Answer::new("Both diagonals must read", Length(found), Unit))
}

fn diagonal_picture(pen: &mut Pen<'_>) {
    let given = pen.given;
    let worked = diagonal(given);
    let (wide, long) = match (&worked, given.maybe(&WIDE), given.maybe(&LONG)) {
        (Ok(_), Some(wide), Some(long)) => (wide, long),
        _ => (3.0, 4.5),
    };
    let [a, b, c, d] = [[0.0, 0.0], [long, 0.0], [long, wide], [0.0, wide]].map(Vec2::from);
    pen.tape(&LONG, a, b);
    pen.tape(&WIDE, b, c);
    pen.tape(given.found(&worked), a, c);
    pen.ghost(b, d);
    pen.ghost(c, d);
    pen.ghost(d, a);
    named(pen, [a, b, c, d]);
}
