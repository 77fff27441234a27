//! How sure a reading is, and where its ± comes from.

use crate::app::desk::Desk;
use crate::job::Job;
use crate::job::reading::{Measure, Reading};
use crate::length;
use crate::site::{PM, is_checked};

/// Where the ± of a reading comes from, and how well the others check it, in a sentence or two.
#[must_use]
pub fn how_sure(desk: &Desk, index: usize) -> String {
    let job = desk.job();
    let Some(reading) = job.readings.get(index) else {
        return String::new();
    };
    let pm = sureness(job, reading);
    let own = match &reading.what {
        Measure::Angle { .. } => format!("{pm}, from how well an angle is read."),
        Measure::Inline { .. } | Measure::Other { .. } => {
            "From how well a mark is lined up on a string.".to_owned()
        }
        _ => format!(
            "{pm}, from a tape of class {} and how well one reading of it is taken; both are under Name and settings.",
            job.tape.class
        ),
    };
    let fix = desk.solution.readings.iter().find(|fix| fix.index == index);
    let others = match fix {
        Some(fix) if !is_checked(fix.redundancy) => {
            " No other reading checks it: one more tape to either of its marks would.".to_owned()
        }
        Some(fix) => format!(
            " The other readings bear {:.0} in 100 of it: a slip shows the sooner, the more they bear.",
            100.0 * fix.redundancy
        ),
        None => String::new(),
    };
    own + &others
}

/// ± of one reading by itself, 95 %.
#[must_use]
pub fn sureness(job: &Job, reading: &Reading) -> String {
    match &reading.what {
        Measure::Tape {
            length: Some(mm), ..
        }
        | Measure::Offset {
            length: Some(mm), ..
        } => {
            let sd = job.tape.class.sd(job.tape.reading, *mm);
            length::show_pm(PM * sd, job.show.lengths)
        }
        Measure::Angle { sd, .. } => format!("±\u{a0}{:.1}°", PM * sd),
        _ => String::new(),
    }
}
