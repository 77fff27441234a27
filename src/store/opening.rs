//! Which job was being opened when the program last stopped.

use super::folder::{JobKey, list_if_there, make_if_missing, put};
use super::jobs::Jobs;
use super::trouble::Trouble;

const OPENING: &str = "here/opening";

impl Jobs {
    /// Notes that a job is about to be opened, or solved for its row in the list. Should the program
    /// end before [`Jobs::note_opened`], [`Jobs::not_opened`] names the job at the next start, so that
    /// it is left alone there: it may be what ended the program.
    ///
    /// # Errors
    /// Where it cannot be noted; the job can be opened all the same.
    pub fn note_opening(&self, key: &JobKey) -> Result<(), Trouble> {
        make_if_missing(&*self.disk, "here")?;
        make_if_missing(&*self.disk, OPENING)?;
        Ok(put(&*self.disk, &note(key), b"")?)
    }

    /// Takes the note back: the job is open, or it was said why it cannot be.
    pub fn note_opened(&self, key: &JobKey) {
        // A note that stays costs one question at the next start, and no job.
        let _ = self.disk.remove(&note(key));
    }

    /// The jobs that were being opened when the program stopped, by their keys. They can be opened
    /// again, sent out ([`Jobs::send_out`]) or deleted.
    #[must_use]
    pub fn not_opened(&self) -> Vec<JobKey> {
        let names = list_if_there(&*self.disk, OPENING).unwrap_or_default();
        let mut keys: Vec<JobKey> = names
            .iter()
            .filter_map(|name| JobKey::parse(name))
            .collect();
        keys.sort();
        keys
    }
}

fn note(key: &JobKey) -> String {
    format!("{OPENING}/{key}")
}
