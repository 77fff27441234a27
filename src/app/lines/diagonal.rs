//! The two figures that prove a corner: the arms marked on the strings, and the tape across them.
//! Neither is of the job.

use crate::app::desk::chosen::ARMS;
use crate::app::desk::{Desk, Entered, FigureKind, Focus, Prompt};
use crate::app::kit::words::status;
use crate::job::Job;
use crate::length;
use crate::site::{PM, diagonal_at};
use tautmark_ui::{Status, Verdict};

#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum CheckPart {
    /// How far from the corner both strings are marked.
    Arms,
    /// What the tape between the marks reads.
    Across,
}

/// One of the figures of a corner's check.
pub struct CheckFigure {
    pub corner: usize,
    pub part: CheckPart,
}

impl Prompt for CheckFigure {
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

    fn measure(&self) -> FigureKind {
        FigureKind::Length
    }

    fn value(&self, _job: &Job) -> Option<f64> {
        None
    }

    fn enter(&self, job: &Job, value: f64) -> Entered {
        match self.part {
            CheckPart::Arms if !ARMS.contains(&value) => Entered::Refused(too_far(job)),
            _ => Entered::Desk,
        }
    }

    fn entered(&self, desk: &mut Desk, value: f64) {
        match self.part {
            CheckPart::Arms => (desk.chosen.arm, desk.chosen.diagonal) = (value, None),
            CheckPart::Across => desk.chosen.diagonal = Some(value),
        }
    }

    fn verdict(&self, desk: &Desk, typed: Option<f64>) -> Option<Status> {
        match self.part {
            CheckPart::Arms => None,
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
        let taped = PM * job.tape.class.sd(job.tape.reading, read);
        let text = format!(
            "It must read **{}**; this is {} {}.",
            length::show(check.diagonal, unit),
            length::signed(off, unit),
            length::show_pm(taped, unit),
        );
        Some(status(verdict, &text))
    }
}

fn too_far(job: &Job) -> String {
    let unit = job.show.lengths;
    format!(
        "Take arms between {} and {}.",
        length::show_with_unit(*ARMS.start(), unit),
        length::show_with_unit(*ARMS.end(), unit)
    )
}
