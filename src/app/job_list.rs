//! The rows of the list of jobs. Reading, solving and drawing a job for its row is done once for
//! each time it was changed, and only a few at a time, so that a long list never holds anybody up.

use super::Desk;
use super::ago::ago;
use super::picture::thumbnail;
use super::standing::standing_in_short;
use crate::job::Job;
use crate::solve;
use crate::store::{Contents, Entry, JobKey};
use std::collections::HashMap;
use std::time::SystemTime;
use tautmark_ui::{JobRow, Verdict};

/// Room for the small plan, logical px.
const PLAN: [f64; 2] = [96.0, 72.0];

/// So many jobs are read at most before the window answers again.
const AT_ONCE: usize = 6;

/// When a job was last changed, as far as the disk says so.
type Changed = Option<SystemTime>;

/// Rows that were made before, with the time of the job they show.
#[derive(Default)]
pub(super) struct Listed(HashMap<JobKey, (Changed, JobRow)>);

/// The rows of these jobs, and whether some are still to be read.
pub(super) fn rows(desk: &Desk, keys: &[(JobKey, Changed)]) -> (Vec<JobRow>, bool) {
    let mut listed = desk.listed.borrow_mut();
    listed
        .0
        .retain(|key, _| keys.iter().any(|(one, _)| one == key));
    let mut rows = unkept::rows(desk);
    let mut to_read = AT_ONCE;
    let mut more = false;
    for (key, changed) in keys {
        let known = listed.0.get(key).filter(|(when, _)| when == changed);
        let row = match known {
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
        title: super::words::capital(&key.as_str().replace('-', " ")).into(),
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
    let entry = desk.jobs.entry(key.clone())?;
    Some(match &entry.contents {
        Contents::Job(job) => of_job(key.as_str(), job, &entry.summary()),
        Contents::Newer | Contents::Damaged => unreadable(&entry),
    })
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

fn of_job(id: &str, job: &Job, summary: &str) -> JobRow {
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

/// Jobs that are on no disk yet, since none could be written.
pub(super) mod unkept {
    use super::super::jobs::take;
    use super::super::{Desk, Then};
    use crate::store::OpenJob;
    use tautmark_ui::{JobRow, Page, Verdict};

    /// No key of a job on a disk has a space in it.
    const ID: &str = "unkept ";

    /// Their rows, the one on the desk first.
    pub fn rows(desk: &Desk) -> Vec<JobRow> {
        let open = desk.open().into_iter().chain(&desk.aside);
        let places = open.filter(|open| !open.is_kept()).enumerate();
        let row = |(at, open): (usize, &OpenJob)| JobRow {
            verdict: Verdict::Attention,
            remark: "in this window only".into(),
            ..super::of_job(&format!("{ID}{at}"), open.job(), "")
        };
        places.map(row).collect()
    }

    /// Which of them a row is of.
    pub fn place(id: &str) -> Option<usize> {
        id.strip_prefix(ID)?.parse().ok()
    }

    /// Goes on with one of them.
    pub fn go_on(desk: &mut Desk, at: usize) -> Then {
        let on_desk = desk.open().is_some_and(|open| !open.is_kept());
        if on_desk && at == 0 {
            return Then::Open(Page::Work);
        }
        let nth = at - usize::from(on_desk);
        let mut aside = desk.aside.iter().enumerate();
        let found = aside.by_ref().filter(|(_, open)| !open.is_kept()).nth(nth);
        match found.map(|(place, _)| place) {
            Some(place) => {
                let open = desk.aside.remove(place);
                take(desk, Ok(open))
            }
            None => Then::Stay,
        }
    }
}
