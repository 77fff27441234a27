//! What goes on the sheet, one file for each step of the work.

mod attention;
mod built;
mod buy;
mod card;
mod cut;
mod cut_sides;
mod gate;
mod height_sides;
mod heights;
mod last;
mod lengths;
mod level;
mod measure;
mod message;
mod names;
mod notches;
mod pictures;
mod posts;
mod strings;
mod sundries;
mod trestles;

pub use message::message;
pub use names::place;
pub use pictures::plan;

use super::document::{Cell, Section};
use crate::Solution;
use crate::job::Job;
use crate::length::{Unit, show, show_fine, show_pm_with_unit, show_with_unit};

/// A job and what it came to, with the unit that its figures are read in.
pub struct SheetDesk<'a> {
    pub job: &'a Job,
    pub solution: &'a Solution,
    pub unit: Unit,
}

impl<'a> SheetDesk<'a> {
    pub fn new(job: &'a Job, solution: &'a Solution) -> Self {
        Self {
            job,
            solution,
            unit: job.show.lengths,
        }
    }

    /// A length without the name of its unit.
    pub fn length(&self, mm: f64) -> String {
        show(mm, self.unit)
    }

    /// A length with the name of its unit.
    pub fn full(&self, mm: f64) -> String {
        show_with_unit(mm, self.unit)
    }

    /// A short length, one decimal finer, with the name of its unit.
    pub fn fine(&self, mm: f64) -> String {
        let figure = show_fine(mm, self.unit, 1);
        match self.unit {
            Unit::Mm => format!("{figure}\u{a0}mm"),
            Unit::M => format!("{figure}\u{a0}m"),
            Unit::FtIn(_) => figure,
        }
    }

    /// A rise or drift as a share of the way along: `255 mm in each metre`.
    pub fn slope(&self, share: f64) -> String {
        match self.unit {
            Unit::Mm | Unit::M => format!("{} in each metre", self.full(share * 1000.0)),
            Unit::FtIn(_) => format!("{} in each foot", self.full(share * 304.8)),
        }
    }

    /// The same with one more decimal, for what an instrument is good to.
    pub fn slope_fine(&self, share: f64) -> String {
        match self.unit {
            Unit::Mm | Unit::M => format!("{} in each metre", self.fine(share * 1000.0)),
            Unit::FtIn(_) => format!("{} in 100 feet", self.fine(share * 30_480.0)),
        }
    }

    pub fn pm(&self, mm: f64) -> String {
        show_pm_with_unit(mm, self.unit)
    }

    /// `4 102 ± 8 mm`.
    pub fn full_with_pm(&self, mm: f64, pm: f64) -> String {
        format!("{}\u{a0}{}", self.length(mm), self.pm(pm))
    }
}

/// Every section that has something to say, in the order of the work.
pub fn sections(desk: &SheetDesk<'_>) -> Vec<Section> {
    let steps = [
        measure::section(desk),
        strings::section(desk),
        posts::section(desk),
        level::section(desk),
        trestles::section(desk),
        heights::section(desk),
        gate::section(desk),
        cut::section(desk),
        last::cautions(desk),
        last::how_sure(desk),
    ];
    let mut sections: Vec<Section> = card::section(desk).into_iter().collect();
    sections.push(attention::section(desk));
    let steps = steps.into_iter().flatten().enumerate();
    sections.extend(steps.map(|(i, mut step)| {
        step.heading = format!("{} {}", i + 1, step.heading);
        step
    }));
    sections
}

/// A count as a cell.
fn number(n: usize) -> Cell {
    Cell::Count(n)
}
