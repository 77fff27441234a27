//! Corners: their angle by three tapes, the tape that makes one, how to turn a string, how to cut.

use super::given::{Given, angle, angle_pm};
use super::keep::{self, Kept, Marks};
use super::sum::{Answer, Input, Refused, Stage, Sum, Worked};
use crate::cautions::TREATED_CUTS;
use crate::drawing::{Block, Drawing, Sketch, Vec2, direction};
use crate::job::Job;
use crate::job::edit::Edit;
use crate::job::reading::Reading;
use crate::quick::bevel;
use crate::quick::corner::{Corner, CornerTapes, across_for, corner_by_tapes};
use crate::quick::turn_string::{Swing, turn_string};
use tautmark_ui::{Place, Verdict};

const FIRST: &str = "corner first";
const SECOND: &str = "corner second";
const ACROSS_TAPE: &str = "corner across";
const RUN: &str = "corner run";
const WANTED: &str = "corner wanted";
const END: &str = "corner end";

pub(super) static BY_TAPES: Sum = Sum {
    id: "corner",
    title: "Corner by three tapes",
    stage: Stage::Measure,
    answers: "What angle do two walls or strings make?",
    how: "**Mark both strings or walls out from the corner,** as far as there is room, and tape \
          from mark to mark.",
    why: "From the three tapes by the law of cosines. The longer the legs, the surer the angle: \
          legs twice as long halve its ±. The ± counts on how well you \
          read the tape.",
    inputs: &[
        Input::length(FIRST, "First leg")
            .called("first leg")
            .how("from the corner along the first string"),
        Input::length(SECOND, "Second leg")
            .called("second leg")
            .how("from the corner along the second"),
        Input::length(ACROSS_TAPE, "Across")
            .called("across tape")
            .how("from mark to mark"),
        Input::length(RUN, "Length of the run")
            .called("run")
            .how("to see how far its end may stand off")
            .may(),
    ],
    work: by_tapes,
    picture: tapes_picture,
    caution: None,
    keep: Some(|desk, sum| {
        let kept = Kept {
            title: "Corner by three tapes",
            said: "Three marks, two walls and three tapes.",
            place: Place::Walls,
        };
        keep::into_a_job(desk, sum, kept, Box::new(corner_in_job))
    }),
};

fn taped(given: &Given<'_>) -> Option<CornerTapes> {
    Some(CornerTapes {
        first: given.taped(FIRST)?,
        second: given.taped(SECOND)?,
        across: given.taped(ACROSS_TAPE)?,
    })
}

fn by_tapes(given: &Given<'_>) -> Worked {
    let tapes = taped(given)?;
    Some(
        corner_by_tapes(&tapes)
            .map_err(Refused::from)
            .map(|corner| {
                let answer = Answer::new(
                    "Inside angle",
                    angle(corner.angle.value, corner.angle.pm),
                    angle_pm(corner.angle.pm),
                );
                let answer = and_cuts(given, answer, &corner);
                match given.get(RUN).map(|run| (run, corner.hint(run))) {
                    Some((_, Some(hint))) => answer.says(
                        Verdict::Attention,
                        crate::length::reword(&hint.text(), given.unit),
                    ),
                    Some((run, None)) => {
                        let sideways = given.length(corner.sideways_at(run));
                        let text =
                            format!("The end of that run is sure to **{sideways}** either way.");
                        answer.says(Verdict::Good, text)
                    }
                    None => answer,
                }
            }),
    )
}

fn and_cuts(given: &Given<'_>, answer: Answer, corner: &Corner) -> Answer {
    let off = corner.off_square.value;
    let wider = if off < 0.0 {
        "closer than square"
    } else {
        "wider than square"
    };
    answer
        .row("Not square by", angle(off.abs(), corner.off_square.pm), "")
        .noted(wider)
        .row(
            "In each metre",
            given.fine(corner.per_metre.value.abs()),
            given.pm(corner.per_metre),
        )
        .noted("the second leg off a square one")
        .row(
            "Mitre, saw set at",
            format!("{:.1}°", corner.bevel.off_square),
            "",
        )
        .noted("on a saw that reads 0 for a square cut")
        .row(
            "Against a post square to one",
            format!("{:.1}°", corner.bevel.against_post),
            "",
        )
        .noted("the other rail's end, off square")
}

/// Both legs from the corner on the origin: the first to the left, the second at the inside angle.
fn legs(sketch: &mut Sketch<'_>, [first, second, at]: [f64; 3]) -> [Vec2; 2] {
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
fn triangle(given: &Given<'_>) -> [f64; 3] {
    let corner = taped(given).and_then(|tapes| corner_by_tapes(&tapes).ok());
    match (corner, given.get(FIRST), given.get(SECOND)) {
        (Some(corner), Some(first), Some(second)) => [first, second, corner.angle.value],
        _ => [4.0, 3.0, 102.0],
    }
}

fn tapes_picture(given: &Given<'_>) -> Drawing {
    let mut sketch = given.sheet();
    let shape @ [first, second, at] = triangle(given);
    let ends = legs(&mut sketch, shape);
    sketch.tape(&given.tag(FIRST), Vec2::zeros(), ends[0]);
    sketch.tape(&given.tag(SECOND), Vec2::zeros(), ends[1]);
    sketch.tape(&given.tag(ACROSS_TAPE), ends[0], ends[1]);
    let said = match by_tapes(given) {
        Some(Ok(answer)) => answer.figure,
        _ => "?".to_owned(),
    };
    let radius = first.min(second) * 0.25;
    sketch.angle(&given.said(said), Vec2::zeros(), radius, [180.0, -at]);
    sketch.done("Two legs from a corner and the tape across them")
}

/// Marks at the corner and at the ends of both legs, a wall along each, and the three tapes.
fn corner_in_job(given: &Given<'_>, job: &Job) -> Option<Edit> {
    let tapes = taped(given)?;
    let corner = corner_by_tapes(&tapes).ok()?;
    let (a, b) = (tapes.first.length, tapes.second.length);
    let mut marks = Marks::beside(job);
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

pub(super) static ACROSS: Sum = Sum {
    id: "across",
    title: "Tape for an angle",
    stage: Stage::Strings,
    answers: "What must the tape across read for the angle I want?",
    how: "**Mark both strings out from the corner** and type how far; 90 is square.",
    why: "The tape across two legs at the angle you want, by the law of cosines. Legs as long as \
          the run make a millimetre on the tape turn it least.",
    inputs: &[
        Input::length("across first", "First leg")
            .called("first leg")
            .how("marked from the corner along the first string"),
        Input::length("across second", "Second leg")
            .called("second leg")
            .how("marked along the second"),
        Input::degrees("across angle", "Angle wanted")
            .called("wanted angle")
            .how("inside the corner; 90 is square")
            .usually(90.0),
    ],
    work: across_work,
    picture: across_picture,
    caution: None,
    keep: None,
};

fn across_given(given: &Given<'_>) -> Option<[f64; 3]> {
    let first = given.get("across first")?;
    Some([
        first,
        given.get("across second")?,
        given.get("across angle")?,
    ])
}

fn across_work(given: &Given<'_>) -> Worked {
    let [first, second, wanted] = across_given(given)?;
    let across = across_for(first, second, wanted).map_err(Refused::from);
    Some(across.map(|across| {
        let off = (across.wanted - across.square).abs();
        let way = if across.wanted < across.square {
            "less"
        } else {
            "more"
        };
        Answer::new(
            "The tape across must read",
            given.length(across.wanted),
            given.unit_name(),
        )
        .row("Square would read", given.length(across.square), "")
        .noted(format!("yours is {} {way}", given.length(off)))
        .row(
            "1 mm on the tape turns it",
            format!("{:.3}°", across.degrees_per_mm),
            "",
        )
    }))
}

fn across_picture(given: &Given<'_>) -> Drawing {
    let mut sketch = given.sheet();
    let worked = across_work(given);
    let known = across_given(given).filter(|_| matches!(worked, Some(Ok(_))));
    let shape @ [first, second, at] = known.unwrap_or([4.0, 3.0, 90.0]);
    let ends = legs(&mut sketch, shape);
    sketch.tape(&given.tag("across first"), Vec2::zeros(), ends[0]);
    sketch.tape(&given.tag("across second"), Vec2::zeros(), ends[1]);
    let said = match worked {
        Some(Ok(answer)) => answer.figure,
        _ => "?".to_owned(),
    };
    sketch.tape(&given.said(said), ends[0], ends[1]);
    let radius = first.min(second) * 0.25;
    sketch.angle(
        &given.tag("across angle"),
        Vec2::zeros(),
        radius,
        [180.0, -at],
    );
    sketch.done("Two legs at the angle wanted and the tape across them")
}

pub(super) static TURN: Sum = Sum {
    id: "turn",
    title: "Turn a string",
    stage: Stage::Strings,
    answers: "Which way does the string's end go, and how far?",
    how: "**Tape the corner as it is,** then say what angle you want and how far off the string's \
          end is tied.",
    why: "The chord of the turn at the string's end, from the corner as taped to the angle wanted. \
          Its ± is that of the corner, carried out to the end.",
    inputs: &[
        Input::length(FIRST, "First leg")
            .called("first leg")
            .how("from the corner along the string that stays"),
        Input::length(SECOND, "Second leg")
            .called("second leg")
            .how("along the string to be moved"),
        Input::length(ACROSS_TAPE, "Across")
            .called("across tape")
            .how("from mark to mark"),
        Input::degrees(WANTED, "Angle wanted")
            .called("wanted angle")
            .how("inside the corner; 90 is square")
            .usually(90.0),
        Input::length(END, "Corner to the string's end")
            .called("distance to the string's end")
            .how("to the nail that moves"),
    ],
    work: turn_work,
    picture: turn_picture,
    caution: None,
    keep: None,
};

fn turn_work(given: &Given<'_>) -> Worked {
    let tapes = taped(given)?;
    let (wanted, end) = (given.get(WANTED)?, given.get(END)?);
    Some(turned(given, &tapes, wanted, end))
}

fn turned(
    given: &Given<'_>,
    tapes: &CornerTapes,
    wanted: f64,
    end: f64,
) -> Result<Answer, Refused> {
    let corner = corner_by_tapes(tapes)?;
    let turn = turn_string(&corner, wanted, end)?;
    let what = match turn.swing {
        Swing::Open => "Open it: move the end away from the first string by",
        Swing::Close => "Close it: move the end towards the first string by",
        Swing::Stay => "Leave it: it stands as wanted",
    };
    let answer = Answer::new(what, given.length(turn.by.value), given.pm(turn.by))
        .row(
            "It is now",
            angle(corner.angle.value, corner.angle.pm),
            angle_pm(corner.angle.pm),
        )
        .row(
            "It turns by",
            angle(turn.turn.value.abs(), turn.turn.pm),
            "",
        );
    Ok(if turn.within_reading() {
        answer.says(
            Verdict::Note,
            "The move is smaller than its own ±: these tapes cannot tell it from none.",
        )
    } else {
        answer
    })
}

fn turn_picture(given: &Given<'_>) -> Drawing {
    let mut sketch = given.sheet();
    let shape @ [first, second, at] = triangle(given);
    let ends = legs(&mut sketch, shape);
    sketch.tape(&given.tag(FIRST), Vec2::zeros(), ends[0]);
    sketch.tape(&given.tag(SECOND), Vec2::zeros(), ends[1]);
    sketch.tape(&given.tag(ACROSS_TAPE), ends[0], ends[1]);
    let wanted = given.get(WANTED).unwrap_or(90.0).clamp(1.0, 179.0);
    let reach = second * 1.25;
    let (now, then) = (
        direction(180.0 - at) * reach,
        direction(180.0 - wanted) * reach,
    );
    sketch.ghost(Vec2::zeros(), then);
    if (now - then).norm() > reach * 0.02 {
        sketch.arrow(now, then);
    }
    sketch.figure(&given.tag(END), now, direction(180.0 - at));
    let radius = first.min(second) * 0.3;
    sketch.angle(&given.tag(WANTED), Vec2::zeros(), radius, [180.0, -wanted]);
    sketch.done("A corner, and the string turned to the angle wanted")
}

pub(super) static MITRE: Sum = Sum {
    id: "mitre",
    title: "Rail ends at a corner",
    stage: Stage::Boards,
    answers: "How do I set the saw for two rails that meet?",
    how: "**Type the angle inside the corner** and how thick the rail is.",
    why: "Two rails mitred face to face share the corner: 90 less half the angle on a saw that \
          reads 0 for a square cut, which is half the angle from the rail's length. People mix the \
          two up, so that both are given.",
    inputs: &[
        Input::degrees("mitre angle", "Angle inside the corner").called("corner angle"),
        Input::length("mitre thick", "Thickness of the rail")
            .called("thickness")
            .usually(38.0),
    ],
    work: mitre_work,
    picture: mitre_picture,
    caution: Some(&TREATED_CUTS),
    keep: None,
};

fn mitre_work(given: &Given<'_>) -> Worked {
    let (at, thick) = (given.get("mitre angle")?, given.get("mitre thick")?);
    Some(mitred(given, at, thick))
}

fn mitred(given: &Given<'_>, at: f64, thick: f64) -> Result<Answer, Refused> {
    let cut = bevel::bevel(at)?;
    let long = bevel::long_to_short(thick, cut.off_square)?;
    Ok(Answer::new(
        "Mitre, saw set at",
        format!("{:.1}°", cut.off_square),
        "from square",
    )
    .row(
        "The same from the rail's length",
        format!("{:.1}°", cut.from_length),
        "",
    )
    .noted("half the angle of the corner")
    .row(
        "Long point past the short one",
        given.fine(long),
        given.unit_name(),
    )
    .row(
        "Against a post square to one",
        format!("{:.1}°", cut.against_post),
        "",
    )
    .noted("the other rail's end, off square"))
}

fn mitre_picture(given: &Given<'_>) -> Drawing {
    let mut sketch = given.sheet();
    let at = match mitre_work(given) {
        Some(Ok(_)) => given.get("mitre angle").unwrap_or(100.0).clamp(5.0, 175.0),
        _ => 100.0,
    };
    let (long, thick) = (10.0, 1.6);
    let ways = [direction(180.0), direction(180.0 - at)];
    let middle = direction(180.0 - at / 2.0);
    let inner = middle * (thick / (at / 2.0).to_radians().sin());
    for way in ways {
        let square = middle - way * way.dot(&middle);
        let square = square.normalize() * thick;
        let rail = vec![Vec2::zeros(), way * long, way * long + square, inner];
        sketch.block(Block::Timber, rail);
    }
    let thick_at = ways[0] * (long * 0.8);
    let up = Vec2::new(0.0, thick);
    sketch.dimension(
        &given.tag("mitre thick"),
        [thick_at, thick_at + up],
        ways[0],
        long * 0.2,
    );
    sketch.angle(&given.tag("mitre angle"), inner, long * 0.3, [180.0, -at]);
    sketch.done("Two rails mitred where they meet")
}
