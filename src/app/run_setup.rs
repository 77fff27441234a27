//! Setting up a run.

use super::Desk;
use super::form::{Form, FormContents};

/// The page of one run.
pub(super) struct RunSetup;

impl Form for RunSetup {
    fn contents(&self, desk: &Desk) -> FormContents {
        let run = desk.job().runs.get(desk.chosen.run);
        FormContents::new(run.map_or("", |run| &run.name), Vec::new())
    }
}
