//! How sure a reading is, and where its ± comes from.

use crate::app::desk::Desk;
use crate::job::Job;
use crate::job::reading::{Measure, Reading};
use crate::length;
use crate::site::PM;

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
            "{pm}, from how well one reading of the tape is taken, and from what pull, sag and heat change over its length.{}",
            another_tape(job, reading)
        ),
    };
    let fix = desk.solution.readings.iter().find(|fix| fix.index == index);
    let others = match fix {
        Some(fix) if fix.least_slip.is_none() => {
            " No other reading checks it: one more tape to either of its marks would.".to_owned()
        }
        Some(fix) => format!(
            " The other readings check {:.0} % of it: the more they check, the sooner a slip shows.",
            100.0 * fix.redundancy
        ),
        None => String::new(),
    };
    own + &others
}

/// What another tape would make of the longest length, which the ± leaves out: said beside that one.
fn another_tape(job: &Job, reading: &Reading) -> String {
    let taped = |one: &Reading| match &one.what {
        Measure::Tape { length, .. } if one.used => *length,
        _ => None,
    };
    let longest = job.readings.iter().filter_map(taped).reduce(f64::max);
    match (taped(reading), longest) {
        (Some(mm), Some(longest)) if mm >= longest => format!(
            " This is the longest: another tape of class {} may differ by up to {} over it, so use one tape for the whole job.",
            job.tape.class,
            length::show_with_unit(2.0 * job.tape.class.mpe(mm), job.show.lengths)
        ),
        _ => String::new(),
    }
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
            let sd = job.tape.sd(*mm);
            length::show_pm_with_unit(PM * sd, job.show.lengths)
        }
        Measure::Angle { sd, .. } => format!("±\u{a0}{:.1}°", PM * sd),
        _ => String::new(),
    }
}
