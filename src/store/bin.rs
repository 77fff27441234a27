//! The bin: deleted jobs, until they have been there long enough.

use super::folder::{JOB, JobKey, list_if_there, make_if_missing};
use super::jobs::Jobs;
use super::trouble::Trouble;
use crate::job::read_bytes;
use std::io::{self, ErrorKind};
use std::time::SystemTime;

/// Its time says when the job was deleted.
const DELETED: &str = "deleted";

/// A deleted job.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Binned {
    /// Its key in the bin.
    pub key: JobKey,
    /// What it is called; the key where its file cannot be read.
    pub title: String,
    /// When it was deleted, where the disk says so.
    pub deleted: Option<SystemTime>,
}

impl Jobs {
    /// Puts a job that is not open in the bin, with its history; gives its key there.
    ///
    /// # Errors
    /// Where it is open in a window, or cannot be moved.
    pub fn delete(&self, key: &JobKey) -> Result<JobKey, Trouble> {
        let _held = self.hold(key)?;
        make_if_missing(&*self.disk, "bin")?;
        let in_bin = self.free(key, "bin")?;
        self.disk.rename(&key.folder(), &in_bin.binned())?;
        self.note_deleted(&in_bin)?;
        self.note_opened(key);
        Ok(in_bin)
    }

    /// Takes a job back out of the bin; gives its key among the jobs.
    ///
    /// # Errors
    /// Where it cannot be moved.
    pub fn restore(&self, key: &JobKey) -> Result<JobKey, Trouble> {
        make_if_missing(&*self.disk, "jobs")?;
        let back = self.free(key, "jobs")?;
        self.disk.rename(&key.binned(), &back.folder())?;
        match self.disk.remove(&back.file(DELETED)) {
            Err(error) if error.kind() != ErrorKind::NotFound => Err(error.into()),
            _ => Ok(back),
        }
    }

    /// What is in the bin, the latest deleted first.
    ///
    /// # Errors
    /// Where it cannot be listed.
    pub fn bin(&self) -> Result<Vec<Binned>, Trouble> {
        let names = list_if_there(&*self.disk, "bin")?;
        let keys = names.iter().filter_map(|name| JobKey::parse(name));
        let mut all: Vec<_> = keys.map(|key| self.binned(key)).collect();
        all.sort_by_key(|b| (std::cmp::Reverse(b.deleted), b.title.clone()));
        Ok(all)
    }

    /// How many jobs are in the bin, without reading any; none where it cannot be listed.
    #[must_use]
    pub fn bin_size(&self) -> usize {
        let names = list_if_there(&*self.disk, "bin").unwrap_or_default();
        names.iter().filter_map(|name| JobKey::parse(name)).count()
    }

    fn binned(&self, key: JobKey) -> Binned {
        let file = self.disk.read(&format!("{}/{JOB}", key.binned()));
        let job = file.ok().and_then(|bytes| read_bytes(&bytes).ok());
        Binned {
            title: job.map_or_else(|| key.to_string(), |opened| opened.job.title),
            deleted: self.disk.changed(&deleted(&key)).ok(),
            key,
        }
    }

    /// Removes for good what was deleted before this moment; gives how many.
    ///
    /// # Errors
    /// Where something cannot be removed; what was removed before it is gone.
    pub fn empty_bin(&self, before: SystemTime) -> Result<usize, Trouble> {
        let mut removed = 0;
        for binned in self.bin()? {
            match binned.deleted {
                Some(when) if when < before => {
                    self.disk.remove_folder(&binned.key.binned())?;
                    removed += 1;
                }
                Some(_) => {}
                // Its note was never written: its time in the bin starts now.
                None => self.note_deleted(&binned.key)?,
            }
        }
        Ok(removed)
    }

    fn note_deleted(&self, key: &JobKey) -> io::Result<()> {
        self.disk.write(&deleted(key), b"")
    }

    /// This key, or one like it that nothing in the folder has.
    fn free(&self, key: &JobKey, folder: &str) -> io::Result<JobKey> {
        let taken = list_if_there(&*self.disk, folder)?;
        let mut number = 1;
        let mut free = key.clone();
        while taken.iter().any(|name| name == free.as_str()) {
            number += 1;
            free = JobKey::from_title(key.as_str(), number);
        }
        Ok(free)
    }
}

fn deleted(key: &JobKey) -> String {
    format!("{}/{DELETED}", key.binned())
}
