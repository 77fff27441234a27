//! The two figures that prove a corner, kept with it: the arms marked on the strings, and the tape across
//! them.

use crate::app::desk::{Desk, Entered, FigureOf, Focus};
use crate::app::kit::{KeypadFigure, status};
use crate::job::Job;
use crate::job::edit::{Change, Edit};
use crate::job::model::CornerCheck;
use crate::length;
use crate::site::{CornerFix, PM, diagonal_at};
use std::ops::RangeInclusive;
use tautmark_ui::{Status, Verdict};

/// Arms that a tape can be laid along, mm.
const ARMS: RangeInclusive<f64> = 100.0..=30_000.0;

/// What was last marked and taped at a corner.
fn last(job: &Job, corner: usize) -> Option<&CornerCheck> {
    job.corners.get(corner)?.checks.last()
}

/// The arms of the check in sight, mm: those last marked, else the longest that the sheet gives.
#[must_use]
pub fn arm_of(job: &Job, corner: usize, fix: &CornerFix) -> f64 {
    let longest = || fix.check.last().map_or(*ARMS.start(), |check| check.arm);
    last(job, corner).map_or_else(longest, |check| check.arms[0])
}

/// The change that makes this the corner's check: in place of one that is not read yet, else as another.
fn with_check(job: &Job, at: usize, how: impl FnOnce(&mut CornerCheck)) -> Option<Edit> {
    let mut value = job.corners.get(at)?.clone();
    let mut check = value.checks.pop().unwrap_or_default();
    how(&mut check);
    value.checks.push(check);
    Some(Edit::Corner(Change::Replace { at, value }))
}

/// How far from the corner both strings are marked. What was read belongs to the arms it was read at: it
/// goes with them.
pub fn arms(corner: usize) -> KeypadFigure {
    let title = "Mark this far along **each string**";
    let there = move |job: &Job| Some(last(job, corner)?.arms[0]);
    let arms = KeypadFigure::entering(title, there, move |job, value| {
        if !ARMS.contains(&value) {
            return Entered::Refused(too_far(job));
        }
        let edit = with_check(job, corner, |check| {
            (check.arms, check.diagonal) = ([value; 2], None);
        });
        edit.map_or_else(
            || Entered::Refused(GONE.to_owned()),
            |edit| Entered::Edit(Box::new(edit)),
        )
    });
    check(corner, title, arms)
}

const GONE: &str = "This corner is not in the job any more. Leave it with the cross.";

/// What the tape between the marks reads, with both strings marked `arm` mm from the corner.
pub fn across(corner: usize, arm: f64) -> KeypadFigure {
    let title = "The tape between the marks **reads**";
    let there = move |job: &Job| last(job, corner)?.diagonal;
    let across = KeypadFigure::new(title, there, move |job, value| {
        with_check(job, corner, |check| {
            if check.diagonal.is_none() {
                check.arms = [arm; 2];
            }
            check.diagonal = Some(value);
        })
    });
    check(corner, title, across).judged(move |desk, read| against(desk, corner, arm, read))
}

fn check(corner: usize, title: &'static str, figure: KeypadFigure) -> KeypadFigure {
    figure
        .of(FigureOf::Corner(corner))
        .titled(move |_| title.to_owned())
        .stressing(Focus::Corner(corner))
}

/// What was read against what it must read.
fn against(desk: &Desk, corner: usize, arm: f64, read: f64) -> Option<Status> {
    let job = desk.job();
    let corner = job.corners.get(corner)?;
    let fix = desk.solution.corners.get(&corner.id)?;
    let check = diagonal_at(&job.tape, fix, arm);
    let unit = job.show.lengths;
    let off = read - check.diagonal;
    let verdict = if off.abs() <= check.pm {
        Verdict::Good
    } else {
        Verdict::Attention
    };
    let taped = length::show_pm_with_unit(PM * job.tape.sd(read), unit);
    let by = length::show_with_unit(off.abs(), unit);
    let off = match length::rounded(off, unit, 0) {
        0.0 => "this is the same".to_owned(),
        more if more > 0.0 => format!("this is {by} longer"),
        _ => format!("this is {by} shorter"),
    };
    let text = format!(
        "It must read **{}**; {off}, {taped}.",
        length::show(check.diagonal, unit),
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
