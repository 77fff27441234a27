//! How to turn a string until its corner is as wanted.

use super::Tail::{AnglePm, Pm};
use super::Value::{Angle, Length};
use super::corner::{ACROSS_TAPE, FIRST, SECOND, legs, taped, triangle};
use super::{Answer, Given, Input, Pen, QuickSum, Stage, Vec2, Verdict, Worked};
use crate::drawing::direction;
use crate::quick::corner::corner_by_tapes;
use crate::quick::turn_string::{Swing, turn_string};

const WANTED: Input = Input::degrees("corner wanted", "Angle wanted")
    .called("wanted angle")
    .how("inside the corner; 90 is square")
    .usually(90.0);
const END: Input = Input::length("corner end", "Corner to the string's end")
    .called("distance to the string's end")
    .how("to the nail that moves");

pub static TURN: QuickSum = QuickSum {
    id: "turn",
    title: "Turn a string",
    stage: Stage::Strings,
    answers: "Which way does the string's end go, and how far?",
    how: "**Tape the corner as it is,** then say what angle you want and how far off the string's \
          end is tied.",
    why: "The chord of the turn at the string's end, from the corner as taped to the angle wanted. \
          Its ± is that of the corner, carried out to the end.",
    inputs: &[
        FIRST.how("from the corner along the string that stays"),
        SECOND.how("along the string to be moved"),
        ACROSS_TAPE,
        WANTED,
        END,
    ],
    work: turn_work,
    picture: turn_picture,
    pictured: "A corner, and the string turned to the angle wanted",
    ..QuickSum::BARE
};

fn turn_work(given: &Given<'_>) -> Worked {
    let corner = corner_by_tapes(&taped(given)?)?;
    let turn = turn_string(&corner, given.get(&WANTED)?, given.get(&END)?)?;
    let what = match turn.swing {
        Swing::Open => "Open it: move the end away from the first string by",
        Swing::Close => "Close it: move the end towards the first string by",
        Swing::Stay => "Leave it: it stands as wanted",
    };
    let (angle, pm) = (corner.angle.value, corner.angle.pm);
    let answer = Answer::new(what, Length(turn.by.value), Pm(turn.by))
        .row("It is now", Angle(angle, pm), AnglePm(pm))
        .row(
            "It turns by",
            Angle(turn.turn.value.abs(), turn.turn.pm),
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

fn turn_picture(pen: &mut Pen<'_>) {
    let given = pen.given;
    let shape @ [first, second, at] = triangle(given);
    let ends = legs(pen, shape);
    pen.tape(&FIRST, Vec2::zeros(), ends[0]);
    pen.tape(&SECOND, Vec2::zeros(), ends[1]);
    pen.tape(&ACROSS_TAPE, ends[0], ends[1]);
    let wanted = given.maybe(&WANTED).unwrap_or(90.0).clamp(1.0, 179.0);
    let reach = second * 1.25;
    let (now, then) = (
        direction(180.0 - at) * reach,
        direction(180.0 - wanted) * reach,
    );
    pen.ghost(Vec2::zeros(), then);
    if (now - then).norm() > reach * 0.02 {
        pen.arrow(now, then);
    }
    pen.figure(&END, now, direction(180.0 - at));
    let radius = first.min(second) * 0.3;
    pen.angle(&WANTED, Vec2::zeros(), radius, [180.0, -wanted]);
}
