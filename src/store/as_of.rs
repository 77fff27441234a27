//! How a job was at one moment, told from its files without reading the job in them.

use super::disk::Disk;
use super::folder::{HISTORY, JOB, JobKey, read_if_there};
use super::line::Print;

/// How a job was at one moment: a row that was made then is out of date once it has changed.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct AsOf(pub(super) String);

impl AsOf {
    /// How the job is now; `None` where its files cannot be read.
    pub(super) fn now(disk: &dyn Disk, key: &JobKey) -> Option<Self> {
        let print = |name| {
            let bytes = read_if_there(disk, &key.file(name)).ok()?;
            Some(bytes.map_or(0, |bytes| Print::of(&bytes).number()))
        };
        let (job, history) = (print(JOB)?, print(HISTORY)?);
        Some(Self(format!("{job:016x}{history:016x}")))
    }
}
