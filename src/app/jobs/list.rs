//! The rows of the list of jobs. Reading, solving and drawing a job for its row is done once for
//! each time it was changed, and kept; only a few at a time, so that a long list never holds anybody
//! up.

use super::ago::ago;
use super::{kept, unkept};
use crate::app::desk::Desk;
use crate::app::desk::seen::Changed;
use crate::app::kit::{capital, thumbnail};
use crate::app::walls::standing::standing_in_short;
use crate::job::Job;
use crate::solve;
use crate::store::{Contents, Entry, JobKey};
use tautmark_ui::{JobRow, Verdict};

/// Room for the small plan, logical px.
const PLAN: [f64; 2] = [96.0, 72.0];

/// So many jobs are read at most before the window answers again.
const AT_ONCE: usize = 6;

/// The rows of these jobs, and whether some are still to be read.
pub fn rows(desk: &Desk, keys: &[(JobKey, Changed)]) -> (Vec<JobRow>, bool) {
    let mut listed = desk.listed.borrow_mut();
    listed
        .0
        .retain(|key, _| keys.iter().any(|(one, _)| one == key));
    let mut rows = unkept::rows(desk, of_job);
    let mut to_read = AT_ONCE;
    let mut more = false;
    for (key, changed) in keys {
        let known = listed.0.get(key).filter(|(when, _)| when == changed);
        let row = match known {
            _ if desk.not_opened.contains(key) => Some(JobRow {
                verdict: Verdict::Attention,
                remark: "did not open".into(),
                ..to_come(key)
            }),
            Some((_, row)) => Some(row.clone()),
            None if to_read == 0 => {
                more = true;
                Some(to_come(key))
            }
            None => {
                to_read -= 1;
                let row = read(desk, key);
                if let Some(row) = &row {
                    listed.0.insert(key.clone(), (*changed, row.clone()));
                }
                row
            }
        };
        rows.extend(row.map(|row| dated(row, *changed)));
    }
    (rows, more)
}

/// A row before its job has been read: its key reads like its title.
fn to_come(key: &JobKey) -> JobRow {
    JobRow {
        id: key.as_str().into(),
        title: capital(&key.as_str().replace('-', " ")).into(),
        ..JobRow::default()
    }
}

fn dated(row: JobRow, changed: Changed) -> JobRow {
    let when = changed.map(ago);
    let parts = [Some(row.note.to_string()), when];
    let parts: Vec<String> = parts
        .into_iter()
        .flatten()
        .filter(|p| !p.is_empty())
        .collect();
    JobRow {
        note: parts.join(" · ").into(),
        ..row
    }
}

fn read(desk: &Desk, key: &JobKey) -> Option<JobRow> {
    if let Some(row) = kept::row(desk, key) {
        return Some(row);
    }
    // A job is solved for its row: one that ends the program is left alone at the next start.
    let _ = desk.jobs.note_opening(key);
    let entry = desk.jobs.entry(key.clone());
    let row = entry.map(|entry| match &entry.contents {
        Contents::Job(job) => {
            let row = of_job(key.as_str(), job, &entry.summary());
            kept::keep(desk, &entry, &row);
            row
        }
        Contents::Newer | Contents::Damaged => unreadable(&entry),
    });
    desk.jobs.note_opened(key);
    row
}

fn unreadable(entry: &Entry) -> JobRow {
    JobRow {
        id: entry.key.as_str().into(),
        title: entry.title.as_str().into(),
        verdict: Verdict::Attention,
        remark: entry.summary().into(),
        ..JobRow::default()
    }
}

/// The row of a job that could be read.
pub fn of_job(id: &str, job: &Job, summary: &str) -> JobRow {
    let solution = solve(job);
    let (verdict, remark) = standing_in_short(job, &solution);
    JobRow {
        id: id.into(),
        title: job.title.as_str().into(),
        note: summary.into(),
        verdict,
        remark: remark.into(),
        plan: thumbnail(job, &solution, PLAN),
    }
}
