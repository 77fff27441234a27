//! Is it square: four sides and two diagonals, and the diagonal of a rectangle.

use super::given::{Given, angle, angle_pm};
use super::keep::{self, Kept, Marks};
use super::sum::{Answer, Input, Refused, Stage, Sum, Worked};
use crate::drawing::{Drawing, Sketch, Vec2};
use crate::job::Job;
use crate::job::edit::Edit;
use crate::job::reading::Reading;
use crate::quick::four_sides::{
    Agreement, FourSides, FourSidesCheck, Layout, Side, Slide, ToRectangle, four_sides,
    rectangle_diagonal,
};
use tautmark_ui::{Place, Verdict};

const AB: &str = "square ab";
const BC: &str = "square bc";
const CD: &str = "square cd";
const DA: &str = "square da";
const AC: &str = "square ac";
const BD: &str = "square bd";

pub(super) static SIX_TAPES: Sum = Sum {
    id: "square",
    title: "Is it square?",
    stage: Stage::Measure,
    answers: "Do four sides and two diagonals agree, and what shape are they?",
    how: "**Name the corners A, B, C, D as you walk round** and tape all four sides and both \
          diagonals.",
    why: "Six tapes fix four corners with one to spare: that one check shows that something is \
          misread, never which. Equal diagonals alone do not make a rectangle: a trapezium has \
          them too.",
    inputs: &[
        Input::length(AB, "Side A to B").called("side AB"),
        Input::length(BC, "Side B to C").called("side BC"),
        Input::length(CD, "Side C to D").called("side CD"),
        Input::length(DA, "Side D to A").called("side DA"),
        Input::length(AC, "Diagonal A to C").called("diagonal AC"),
        Input::length(BD, "Diagonal B to D").called("diagonal BD"),
    ],
    work: six,
    picture: six_picture,
    caution: None,
    keep: Some(|desk, sum| {
        let kept = Kept {
            title: "Four sides and two diagonals",
            said: "Four marks and six tapes.",
            place: Place::Walls,
        };
        keep::into_a_job(desk, sum, kept, Box::new(in_job))
    }),
};

fn taped(given: &Given<'_>) -> Option<FourSides> {
    Some(FourSides {
        ab: given.taped(AB)?,
        bc: given.taped(BC)?,
        cd: given.taped(CD)?,
        da: given.taped(DA)?,
        ac: given.taped(AC)?,
        bd: given.taped(BD)?,
    })
}

fn six(given: &Given<'_>) -> Worked {
    let tapes = taped(given)?;
    Some(
        four_sides(&tapes)
            .map_err(Refused::from)
            .map(|check| answer(given, &check)),
    )
}

fn answer(given: &Given<'_>, check: &FourSidesCheck) -> Answer {
    let closure = &check.closure;
    let verdict = match closure.agreement {
        Agreement::Agree => Verdict::Good,
        Agreement::Doubtful => Verdict::Attention,
        Agreement::Contradict => Verdict::Bad,
    };
    let main = match &check.layout {
        Some(layout) => to_rectangle(given, &layout.to_rectangle),
        None => Answer::new(
            "B to D is off what the others make it by",
            given.length(closure.off.value.abs()),
            given.pm(closure.off),
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
            given.length(closure.expected.value),
            given.pm(closure.expected),
        )
        .row(
            "A slip this small could hide",
            given.length(closure.hidden),
            given.unit_name(),
        )
}

fn corners(answer: Answer, layout: &Layout) -> Answer {
    ["A", "B", "C", "D"]
        .into_iter()
        .zip(&layout.angles)
        .fold(answer, |answer, (name, at)| {
            answer.row(
                format!("Corner {name}"),
                angle(at.value, at.pm),
                angle_pm(at.pm),
            )
        })
}

fn to_rectangle(given: &Given<'_>, way: &ToRectangle) -> Answer {
    match way {
        ToRectangle::Already => Answer::new("It is", "square", "as near as these tapes can tell"),
        ToRectangle::Slide { either, .. } => slides(given, either),
        ToRectangle::SidesFirst { diagonal } => Answer::new(
            "Make opposite sides equal first; each diagonal is then",
            given.length(*diagonal),
            given.unit_name(),
        ),
    }
}

fn slides(given: &Given<'_>, either: &[Slide; 2]) -> Answer {
    let [first, other] = either;
    let said = |slide: &Slide| format!("slide {} towards {:?}", side(slide.side), slide.towards);
    let what = format!("To square it {} by", said(first));
    Answer::new(what, given.length(first.by.value), given.pm(first.by))
        .row(
            format!("Or {} by", said(other)),
            given.length(other.by.value),
            given.pm(other.by),
        )
        .row(
            "Both diagonals then read",
            given.length(first.diagonal),
            given.unit_name(),
        )
}

fn side(side: Side) -> &'static str {
    match side {
        Side::AB => "side A to B",
        Side::BC => "side B to C",
        Side::CD => "side C to D",
        Side::DA => "side D to A",
    }
}

/// The corners as taped, or a likely figure while they are not there.
fn lying(given: &Given<'_>) -> [Vec2; 4] {
    let likely = [[0.0, 0.0], [5.0, 0.0], [5.4, 3.4], [0.2, 3.6]].map(Vec2::from);
    let place = || {
        let tapes = taped(given)?;
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

fn six_picture(given: &Given<'_>) -> Drawing {
    let mut sketch = given.sheet();
    let at @ [a, b, c, d] = lying(given);
    for (key, from, to) in [
        (AB, a, b),
        (BC, b, c),
        (CD, c, d),
        (DA, d, a),
        (AC, a, c),
        (BD, b, d),
    ] {
        sketch.tape(&given.tag(key), from, to);
    }
    named(&mut sketch, at);
    sketch.done("Four corners, their sides and both diagonals")
}

fn named(sketch: &mut Sketch<'_>, at: [Vec2; 4]) {
    let middle = at.iter().sum::<Vec2>() / 4.0;
    for (name, at) in ["A", "B", "C", "D"].into_iter().zip(at) {
        sketch.mark(at, name, at - middle);
    }
}

fn in_job(given: &Given<'_>, job: &Job) -> Option<Edit> {
    let tapes = taped(given)?;
    four_sides(&tapes).ok()?;
    let mut marks = Marks::beside(job);
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

const WIDE: &str = "rectangle width";
const LONG: &str = "rectangle length";

pub(super) static DIAGONAL: Sum = Sum {
    id: "diagonal",
    title: "Diagonal of a rectangle",
    stage: Stage::Strings,
    answers: "What must both diagonals read?",
    how: "**Type both sides** of the rectangle you want.",
    why: "The root of both sides squared and added. Both diagonals and all four sides must be \
          right: equal diagonals alone do not make it square.",
    inputs: &[
        Input::length(WIDE, "One side").called("width"),
        Input::length(LONG, "The other side").called("length"),
    ],
    work: diagonal,
    picture: diagonal_picture,
    caution: None,
    keep: None,
};

fn diagonal(given: &Given<'_>) -> Worked {
    let (wide, long) = (given.get(WIDE)?, given.get(LONG)?);
    let found = rectangle_diagonal(wide, long).map_err(Refused::from);
    Some(found.map(|found| {
        Answer::new(
            "Both diagonals must read",
            given.length(found),
            given.unit_name(),
        )
    }))
}

fn diagonal_picture(given: &Given<'_>) -> Drawing {
    let mut sketch = given.sheet();
    let worked = diagonal(given);
    let (wide, long, said) = match (worked, given.get(WIDE), given.get(LONG)) {
        (Some(Ok(answer)), Some(wide), Some(long)) => (wide, long, answer.figure),
        _ => (3.0, 4.5, "?".to_owned()),
    };
    let [a, b, c, d] = [[0.0, 0.0], [long, 0.0], [long, wide], [0.0, wide]].map(Vec2::from);
    sketch.tape(&given.tag(LONG), a, b);
    sketch.tape(&given.tag(WIDE), b, c);
    sketch.tape(&given.said(said), a, c);
    sketch.ghost(b, d);
    sketch.ghost(c, d);
    sketch.ghost(d, a);
    named(&mut sketch, [a, b, c, d]);
    sketch.done("A rectangle and its diagonals")
}
