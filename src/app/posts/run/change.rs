//! Changes a run; and which of its ends is meant.

use crate::app::desk::{Desk, Then};
use crate::job::edit::{Change, Edit};
use crate::job::model::{End, Run};

/// The start of a run, or its end.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Which {
    Start,
    End,
}

impl Which {
    /// That end of a run.
    pub fn of(self, run: &Run) -> Option<&End> {
        match self {
            Self::Start => run.start.as_ref(),
            Self::End => run.end.as_ref(),
        }
    }

    /// That end of a run, to be changed.
    pub fn of_mut(self, run: &mut Run) -> &mut Option<End> {
        match self {
            Self::Start => &mut run.start,
            Self::End => &mut run.end,
        }
    }
}

/// Changes the run at this place in the file.
pub fn change(desk: &mut Desk, at: usize, how: impl FnOnce(&mut Run)) -> Then {
    if let Some(mut value) = desk.saved().runs.get(at).cloned() {
        how(&mut value);
        desk.change(Edit::Run(Change::Replace { at, value }));
    }
    Then::Stay
}
