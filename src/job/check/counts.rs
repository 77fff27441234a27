//! How much a job may hold. Far more than any fence has, and little enough that the largest job is
//! still set out while a person waits; a file with more is not a job that anyone measured.

use super::FilePlace;
use crate::job::model::Job;
use crate::job::problem::{Problem, Problems, Where};

/// One kind of thing: its list in the file, what it is called, and the most of it.
struct Limit {
    list: &'static str,
    kind: &'static str,
    most: usize,
    count: fn(&Job) -> usize,
}

/// What the lists of a whole job may hold.
const LIMITS: [Limit; 9] = [
    limit("marks", "marks", 150, |job| job.marks.len()),
    limit("walls", "walls", 150, |job| job.walls.len()),
    limit("readings", "readings", 1_000, |job| job.readings.len()),
    limit("lines", "strings", 150, |job| job.lines.len()),
    limit("corners", "corners", 150, |job| job.corners.len()),
    limit("runs", "runs", 150, |job| job.runs.len()),
    limit("levels.points", "points", 500, |job| {
        job.levels.points.len()
    }),
    limit("levels.setups", "set-ups", 100, |job| {
        job.levels.setups.len()
    }),
    limit("marked", "posts marked as done", 10_000, |job| {
        job.marked.len()
    }),
];

/// Sights from all the set-ups of a job together.
const SIGHTS: usize = 1_000;
/// Nails of one string.
const NAILS: usize = 100;
/// Gates of one run, and posts held in one.
const GATES: usize = 50;
const PINS: usize = 200;

const fn limit(
    list: &'static str,
    kind: &'static str,
    most: usize,
    count: fn(&Job) -> usize,
) -> Limit {
    Limit {
        list,
        kind,
        most,
        count,
    }
}

/// What the job holds too much of, each list by its place; empty where all of it can be set out.
///
/// ```
/// use tautmark::job::{check::too_much, example};
/// let mut job = example();
/// assert!(too_much(&job).is_empty());
/// job.marks = vec![job.marks[0].clone(); 151];
/// assert_eq!(too_much(&job)[0].text, "This job has 151 marks; a job may hold at most 150.");
/// ```
#[must_use]
pub fn too_much(job: &Job) -> Vec<Problem> {
    let mut problems = Problems::default();
    for limit in &LIMITS {
        let count = (limit.count)(job);
        if count > limit.most {
            over(
                &mut problems,
                limit.list,
                "job",
                limit.kind,
                count,
                limit.most,
            );
        }
    }
    let sights = job.levels.setups.iter().map(|setup| setup.sights.len());
    let sights: usize = sights.sum();
    if sights > SIGHTS {
        over(
            &mut problems,
            "levels.setups",
            "job",
            "sights",
            sights,
            SIGHTS,
        );
    }
    for (at, line) in job.lines.iter().enumerate() {
        let nails = line.offsets.as_ref().map_or(0, Vec::len);
        if nails > NAILS {
            let list = FilePlace::File.key("lines");
            let place = list.nth(at);
            over(
                &mut problems,
                place.key("offsets"),
                "string",
                "nails",
                nails,
                NAILS,
            );
        }
    }
    for (at, run) in job.runs.iter().enumerate() {
        let list = FilePlace::File.key("runs");
        let place = list.nth(at);
        if run.gates.len() > GATES {
            over(
                &mut problems,
                place.key("gates"),
                "run",
                "gates",
                run.gates.len(),
                GATES,
            );
        }
        if run.pins.len() > PINS {
            over(
                &mut problems,
                place.key("pins"),
                "run",
                "held posts",
                run.pins.len(),
                PINS,
            );
        }
    }
    problems.0
}

fn over(
    problems: &mut Problems,
    place: impl Into<Where>,
    holder: &str,
    kind: &str,
    count: usize,
    most: usize,
) {
    problems.error(
        place,
        format!("This {holder} has {count} {kind}; a {holder} may hold at most {most}."),
        "Nothing of it is set out until there are fewer. Delete what is not needed, or make two jobs of it.",
    );
}
