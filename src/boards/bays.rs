use crate::setout::{Post, RunFix};

/// A boarded bay between two neighbouring posts. Running readings, mm.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Bay {
    /// Numbers of its posts.
    pub from: usize,
    pub to: usize,
    /// Post centres.
    pub start: f64,
    pub end: f64,
    /// Post faces towards the bay.
    pub near: f64,
    pub far: f64,
    /// Top and bottom of its gravel board, mm, once they are fitted.
    pub board: Option<Board>,
}

/// Where a bay's gravel board is, mm.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Board {
    pub top: f64,
    pub bottom: f64,
}

impl Bay {
    fn between(before: &Post, after: &Post) -> Self {
        Self {
            from: before.n,
            to: after.n,
            start: before.centre,
            end: after.centre,
            near: before.far,
            far: after.near,
            board: None,
        }
    }
}

/// Every bay of a run but the gate openings.
pub(super) fn bays(run: &RunFix) -> Vec<Bay> {
    run.posts
        .windows(2)
        .filter_map(|pair| match pair {
            [before, after] if !run.gate_after(before.n) => Some(Bay::between(before, after)),
            _ => None,
        })
        .collect()
}
