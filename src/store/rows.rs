//! What the list of jobs says of each, kept so that a job is not solved again for its row.

use super::as_of::AsOf;
use super::folder::{JobKey, put};
use super::jobs::Jobs;
use super::trouble::Trouble;

const ROW: &str = "row";

impl Jobs {
    /// Keeps what the list says of a job as it was then; any text, which is the caller's own.
    ///
    /// # Errors
    /// Where it cannot be written.
    pub fn keep_row(&self, key: &JobKey, as_of: &AsOf, row: &str) -> Result<(), Trouble> {
        let text = format!("{}\n{row}", as_of.0);
        Ok(put(&*self.disk, &key.file(ROW), text.as_bytes())?)
    }

    /// What was kept for the list; `None` where there is none, or the job has changed since.
    #[must_use]
    pub fn row(&self, key: &JobKey) -> Option<String> {
        let text = String::from_utf8(self.disk.read(&key.file(ROW)).ok()?).ok()?;
        let (as_of, row) = text.split_once('\n')?;
        let now = AsOf::now(&*self.disk, key)?;
        (now.0 == as_of).then(|| row.to_owned())
    }
}
