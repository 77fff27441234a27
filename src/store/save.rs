//! Saving: each change into the history, then the job's own file when there is time; nothing is
//! overwritten that is not ours.

use super::access::Access;
use super::disk::{Disk, DiskLock};
use super::folder::{
    ASIDE, EARLIER, HISTORY, JOB, JobKey, list_if_there, make_if_missing, next_numbered, numbered,
    numbers, put, read_if_there,
};
use super::journal::{afresh, fitting};
use super::line::{HistoryLine, Print};
use super::open_job::OpenJob;
use super::trouble::{Cause, StoreNotice, Trouble};
use crate::job::{Job, read, write};
use std::io::{self, ErrorKind};

/// The job's own file is brought up to the history at the latest after so many changes.
const BEHIND_MOST: u32 = 256;
/// An earlier copy is made the first time the file changes after opening, and then every so many
/// changes.
const COPY_EVERY: u32 = 32;
/// So many earlier copies are kept.
const COPIES: usize = 12;
/// A history file longer than this is put together afresh, bytes.
const HISTORY_LONGEST: usize = 8 << 20;
/// The steps that stay then, bytes.
const HISTORY_KEPT: usize = 2 << 20;

impl OpenJob {
    /// Brings the job's own file up to its latest change. Every change is safe before this; it
    /// makes the file one that can be taken elsewhere. Called when nobody is typing; dropping the
    /// open job does it too.
    pub fn settle(&mut self) {
        if self.access != Access::Change {
            return;
        }
        if let Err(error) = self.disk.kept() {
            self.trouble = Some(error.into());
        } else if self.trouble.is_some() {
            self.retry();
        } else if self.shelf.behind > 0 {
            let settled = self.text_to_save().and_then(|text| self.put_job(&text));
            self.trouble = settled.err();
        }
    }

    /// Tries again to save what is in memory only; true where all is on the disk now.
    pub fn retry(&mut self) -> bool {
        if self.trouble.is_some() && self.access == Access::Change {
            self.save_whole();
        }
        self.trouble.is_none()
    }

    /// Saves after a change that the line tells, given the fingerprint of the job after it.
    pub(super) fn save(&mut self, line: impl FnOnce(Print) -> HistoryLine) {
        if self.trouble.is_some() {
            // The history file lacks what could not be saved before.
            return self.save_whole();
        }
        let saved = self.text_to_save().and_then(|text| {
            let line = line(Print::of(text.as_bytes()));
            let line = line.text().map_err(io::Error::from)?;
            self.add_line(&text, &line)
        });
        match saved {
            // Its folder was taken away: it is made again, with all of the job in it.
            Err(trouble) if trouble.cause == Cause::Gone => self.save_whole(),
            saved => self.trouble = saved.err(),
        }
    }

    /// Saves all of it: the history put together afresh, then the job's own file.
    pub(super) fn save_whole(&mut self) {
        self.shelf.history = None;
        let saved = self.text_to_save().and_then(|text| {
            self.take_hold()?;
            self.put_history(&text, None)?;
            self.put_job(&text)
        });
        self.trouble = saved.err();
    }

    fn text_to_save(&self) -> Result<String, Trouble> {
        write(&self.job).map_err(|error| io::Error::from(error).into())
    }

    fn add_line(&mut self, text: &str, line: &str) -> Result<(), Trouble> {
        self.take_hold()?;
        self.put_history(text, Some(line))?;
        self.shelf.behind = self.shelf.behind.saturating_add(1);
        if self.shelf.behind >= BEHIND_MOST {
            self.put_job(text)?;
        }
        Ok(())
    }

    /// The folder is there, and no other window changes the job.
    fn take_hold(&mut self) -> Result<(), Trouble> {
        if !self.shelf.folder {
            self.make_folder()?;
        }
        if self.shelf.history.is_none() && self.is_gone()? {
            // What the lock was on is gone with the folder, perhaps.
            self.lock = None;
            make_if_missing(&*self.disk, &self.key.folder())?;
            self.shelf.keep_history = false;
        }
        if self.lock.is_none() {
            self.lock = take_lock(self)?;
        }
        Ok(())
    }

    /// True where its folder was there and is there no more.
    fn is_gone(&self) -> io::Result<bool> {
        match self.disk.list(&self.key.folder()) {
            Ok(_) => Ok(false),
            Err(error) if error.kind() == ErrorKind::NotFound => Ok(true),
            Err(error) => Err(error),
        }
    }

    /// Makes a folder of its own for a new job.
    fn make_folder(&mut self) -> io::Result<()> {
        self.key = free_folder(&*self.disk, &self.job)?;
        self.shelf.folder = true;
        Ok(())
    }

    /// A job file that this window neither read nor wrote is somebody else's work.
    fn keep_other_version(&mut self) -> io::Result<()> {
        let path = self.key.file(JOB);
        let Some(bytes) = read_if_there(&*self.disk, &path)? else {
            return Ok(());
        };
        if self.shelf.may_hold.contains(&Print::of(&bytes)) {
            return Ok(());
        }
        let other = str::from_utf8(&bytes).ok().and_then(|text| read(text).ok());
        let Some(other) = other else {
            let aside = next_numbered(&*self.disk, &self.key.file(ASIDE), JOB)?;
            return self.disk.rename(&path, &aside);
        };
        let key = free_folder(&*self.disk, &other.job)?;
        put(&*self.disk, &key.file(JOB), &bytes)?;
        self.shelf.may_hold.push(Print::of(&bytes));
        let title = other.job.title;
        self.notices.push(StoreNotice::OtherVersionKept { title });
        Ok(())
    }

    /// Keeps how the job was, now and then. Not being able to is no reason not to save.
    fn keep_earlier_copy(&mut self) {
        let since = self
            .shelf
            .since_copy
            .map(|n| n.saturating_add(self.shelf.behind));
        self.shelf.since_copy = since;
        if since.is_some_and(|n| n < COPY_EVERY) {
            return;
        }
        let copied = match &self.shelf.kept {
            Some(bytes) => self.copy_earlier(bytes),
            None => Ok(()),
        };
        if copied.is_ok() {
            self.shelf.since_copy = Some(0);
        }
    }

    fn copy_earlier(&self, bytes: &[u8]) -> io::Result<()> {
        let folder = self.key.file(EARLIER);
        let have = numbers(&*self.disk, &folder)?;
        if let Some(&last) = have.last() {
            let same = self.disk.read(&numbered(&folder, last, JOB));
            if same.is_ok_and(|same| same == bytes) {
                return Ok(());
            }
        }
        let path = next_numbered(&*self.disk, &folder, JOB)?;
        put(&*self.disk, &path, bytes)?;
        let over = (have.len() + 1).saturating_sub(COPIES);
        for &old in &have[..over.min(have.len())] {
            self.disk.remove(&numbered(&folder, old, JOB))?;
        }
        Ok(())
    }

    /// Adds the line to the history, or puts the history together afresh.
    fn put_history(&mut self, text: &str, line: Option<&str>) -> io::Result<()> {
        let path = self.key.file(HISTORY);
        if let (Some(size), Some(line)) = (self.shelf.history, line)
            && size + line.len() <= HISTORY_LONGEST
        {
            // A line half written would spoil the next one.
            self.shelf.history = None;
            self.disk.append(&path, line.as_bytes())?;
            self.shelf.history = Some(size + line.len());
            return Ok(());
        }
        if let Some(text) = &self.shelf.owed_copy {
            self.copy_earlier(text.as_bytes())?;
            self.shelf.owed_copy = None;
        }
        if self.shelf.keep_history {
            self.set_history_aside(&path)?;
            self.shelf.keep_history = false;
        }
        let mut whole = afresh(&self.history, text, &self.shelf.may_hold)?;
        if whole.len() > HISTORY_LONGEST / 2 {
            self.history.shorten(fitting(&self.history, HISTORY_KEPT));
            whole = afresh(&self.history, text, &self.shelf.may_hold)?;
        }
        put(&*self.disk, &path, whole.as_bytes())?;
        self.shelf.history = Some(whole.len());
        Ok(())
    }

    fn set_history_aside(&self, path: &str) -> io::Result<()> {
        let aside = next_numbered(&*self.disk, &self.key.file(ASIDE), HISTORY)?;
        match self.disk.rename(path, &aside) {
            Err(error) if error.kind() == ErrorKind::NotFound => Ok(()),
            moved => moved,
        }
    }

    /// Writes the job beside its own file, then lets it take that file's place.
    fn put_job(&mut self, text: &str) -> Result<(), Trouble> {
        self.keep_other_version()?;
        self.keep_earlier_copy();
        let path = self.key.file(JOB);
        let print = Print::of(text.as_bytes());
        // Should it fail half way, the file may hold the old text or this.
        self.shelf.may_hold.push(print);
        put(&*self.disk, &path, text.as_bytes())?;
        self.shelf.may_hold = vec![print];
        self.shelf.kept = Some(text.as_bytes().to_vec());
        self.shelf.behind = 0;
        Ok(())
    }
}

impl Drop for OpenJob {
    fn drop(&mut self) {
        self.settle();
    }
}

/// The job's lock, where this disk has locks.
fn take_lock(open: &OpenJob) -> Result<Option<DiskLock>, Trouble> {
    match open.disk.lock(&open.key.lock()) {
        Ok(Some(lock)) => Ok(Some(lock)),
        Ok(None) => Err(Trouble {
            cause: Cause::OpenElsewhere,
            detail: open.key.to_string(),
        }),
        Err(error) if error.kind() == ErrorKind::Unsupported => Ok(None),
        Err(error) => Err(error.into()),
    }
}

/// Makes a folder for a job of this title that no job has, here or in the bin.
pub(super) fn free_folder(disk: &dyn Disk, job: &Job) -> io::Result<JobKey> {
    let binned = list_if_there(disk, "bin")?;
    let mut number = 1;
    loop {
        let key = JobKey::from_title(&job.title, number);
        if !binned.iter().any(|name| name == key.as_str()) {
            match disk.make_folder(&key.folder()) {
                Err(error) if error.kind() == ErrorKind::AlreadyExists => {}
                made => return made.map(|()| key),
            }
        }
        number += 1;
    }
}
