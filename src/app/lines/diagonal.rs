//! The two figures that prove a corner: the arms marked on the strings, and the tape across them.
//! Neither is of the job.

use crate::app::desk::chosen::ARMS;
use crate::app::desk::{Desk, Entered, FigureOf, Focus};
use crate::app::kit::{KeypadFigure, status};
use crate::job::Job;
use crate::length;
use crate::site::{PM, diagonal_at};
use tautmark_ui::{Status, Verdict};

/// How far from the corner both strings are marked.
pub fn arms(corner: usize) -> KeypadFigure {
    let title = "Mark this far along **each string**";
    let arms = KeypadFigure::entering(
        title,
        |_| None,
        |job, value| {
            if !ARMS.contains(&value) {
                return Entered::Refused(too_far(job));
            }
            Entered::Desk(Box::new(move |desk| {
                (desk.chosen.arm, desk.chosen.diagonal) = (value, None);
            }))
        },
    );
    check(corner, title, arms)
}

/// What the tape between the marks reads.
pub fn across(corner: usize) -> KeypadFigure {
    let title = "The tape between the marks **reads**";
    let across = KeypadFigure::entering(
        title,
        |_| None,
        |_, value| Entered::Desk(Box::new(move |desk| desk.chosen.diagonal = Some(value))),
    );
    check(corner, title, across).judged(move |desk, read| against(desk, corner, read))
}

fn check(corner: usize, title: &'static str, figure: KeypadFigure) -> KeypadFigure {
    figure
        .of(FigureOf::Corner(corner))
        .titled(move |_| title.to_owned())
        .stressing(Focus::Corner(corner))
}

/// What was read against what it must read.
fn against(desk: &Desk, corner: usize, read: f64) -> Option<Status> {
    let job = desk.job();
    let corner = job.corners.get(corner)?;
    let fix = desk.solution.corners.get(&corner.id)?;
    let check = diagonal_at(&job.tape, fix, desk.chosen.arm);
    let unit = job.show.lengths;
    let off = read - check.diagonal;
    let verdict = if off.abs() <= check.pm {
        Verdict::Good
    } else {
        Verdict::Attention
    };
    let taped = PM * job.tape.sd(read);
    let text = format!(
        "It must read **{}**; this is {} {}.",
        length::show(check.diagonal, unit),
        length::signed(off, unit),
        length::show_pm_with_unit(taped, unit),
    );
    Some(status(verdict, &text))
}

fn too_far(job: &Job) -> String {
    let unit = job.show.lengths;
    format!(
        "Take arms between {} and {}.",
        length::show_with_unit(*ARMS.start(), unit),
        length::show_with_unit(*ARMS.end(), unit)
    )
}
