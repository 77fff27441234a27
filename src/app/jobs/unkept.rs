//! Jobs that are on no disk yet, since none could be written.

use super::open::take;
use crate::app::desk::{Desk, Then, root_of};
use crate::job::Job;
use crate::store::OpenJob;
use tautmark_ui::{JobRow, Verdict};

/// No key of a job on a disk has a space in it.
const ID: &str = "unkept ";

/// Their rows, the one on the desk first.
pub fn rows(desk: &Desk, of_job: fn(&str, &Job, &str) -> JobRow) -> Vec<JobRow> {
    let open = desk.open().into_iter().chain(&desk.aside);
    let places = open.filter(|open| !open.is_kept()).enumerate();
    let row = |(at, open): (usize, &OpenJob)| JobRow {
        verdict: Verdict::Attention,
        remark: "in this window only".into(),
        ..of_job(&format!("{ID}{at}"), open.job(), "")
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
        return Then::Open(root_of(desk.nav.place));
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
