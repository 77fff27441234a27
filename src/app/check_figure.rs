//! The two figures that prove a corner: the arms marked on the strings, and the tape across them.
//! Neither is of the job.

use super::Desk;
use super::chosen::ARMS;
use super::field::{Field, Focus, Measure};
use super::words::status;
use crate::job::Job;
use crate::job::edit::Edit;
use crate::length;
use crate::site::{PM, diagonal_at};
use tautmark_ui::{Status, Verdict};

#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum CheckPart {
    /// How far from the corner both strings are marked.
    Arms,
    /// What the tape between the marks reads.
    Across,
}

/// One of the figures of a corner's check.
pub(super) struct CheckFigure {
    pub corner: usize,
    pub part: CheckPart,
}

impl Field for CheckFigure {
    fn key(&self) -> String {
        format!("check {} {:?}", self.corner, self.part)
    }

    fn title(&self, _job: &Job) -> String {
        match self.part {
            CheckPart::Arms => "Mark this far along **each string**",
            CheckPart::Across => "The tape between the marks **reads**",
        }
        .to_owned()
    }

    fn measure(&self) -> Measure {
        Measure::Length
    }

    fn value(&self, _job: &Job) -> Option<f64> {
        None
    }

    fn edit(&self, _job: &Job, _value: f64) -> Option<Edit> {
        None
    }

    fn entered(&self, desk: &mut Desk, value: f64) {
        match self.part {
            CheckPart::Arms if ARMS.contains(&value) => {
                (desk.chosen.arm, desk.chosen.diagonal) = (value, None);
            }
            CheckPart::Arms => desk.say(&too_far(desk)),
            CheckPart::Across => desk.chosen.diagonal = Some(value),
        }
    }

    fn verdict(&self, desk: &Desk, typed: Option<f64>) -> Option<Status> {
        match self.part {
            CheckPart::Arms if ARMS.contains(&typed?) => None,
            CheckPart::Arms => Some(status(Verdict::Attention, &too_far(desk))),
            CheckPart::Across => self.against(desk, typed?),
        }
    }

    fn focus(&self, _job: &Job) -> Focus {
        Focus::Corner(self.corner)
    }
}

impl CheckFigure {
    /// What was read against what it must read.
    fn against(&self, desk: &Desk, read: f64) -> Option<Status> {
        let job = desk.job();
        let corner = job.corners.get(self.corner)?;
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
            length::show_pm(taped, unit),
        );
        Some(status(verdict, &text))
    }
}

fn too_far(desk: &Desk) -> String {
    let unit = desk.job().show.lengths;
    format!(
        "Take arms between {} and {}.",
        length::show_with_unit(*ARMS.start(), unit),
        length::show_with_unit(*ARMS.end(), unit)
    )
}
