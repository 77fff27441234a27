//! Opening: the job's file, or what of it can be had back.

use super::access::{Access, ViewOnly};
use super::disk::{Disk, DiskLock};
use super::folder::{EARLIER, HISTORY, JOB, JobKey, numbered, numbers, read_if_there};
use super::journal::Journal;
use super::line::Print;
use super::open_job::{OpenJob, Shelf};
use super::trouble::{OpenError, StoreNotice, Trouble};
use crate::job::edit::History;
use crate::job::{Job, Opened, ReadError, read_bytes, write};
use std::io::{self, ErrorKind};
use std::sync::Arc;

/// A history file longer than this is put together afresh at the first change, bytes.
const HISTORY_LONG: usize = 4 << 20;

/// Opens a job for changing, or for showing where another window has it.
pub(super) fn open(disk: Arc<dyn Disk>, key: JobKey) -> Result<OpenJob, OpenError> {
    // A job that is not there gets no lock left behind for it.
    disk.list(&key.folder())?;
    let (lock, mut access, trouble) = lock(&*disk, &key);
    let found = find(&*disk, &key)?;
    if found.newer {
        access = Access::View(ViewOnly::NewerVersion);
    }
    let behind = found.behind;
    let mut open = OpenJob {
        disk,
        key,
        job: found.job,
        history: found.history,
        access,
        lock,
        trouble,
        notices: found.notices,
        shelf: found.shelf,
    };
    if behind && access == Access::Change {
        open.save_whole();
    }
    Ok(open)
}

/// The lock, and what having it or not means. A disk that cannot be written to is trouble at once.
fn lock(disk: &dyn Disk, key: &JobKey) -> (Option<DiskLock>, Access, Option<Trouble>) {
    match disk.lock(&key.lock()) {
        Ok(Some(lock)) => (Some(lock), Access::Change, None),
        Ok(None) => (None, Access::View(ViewOnly::OpenElsewhere), None),
        Err(error) if error.kind() == ErrorKind::Unsupported => (None, Access::Change, None),
        Err(error) => (None, Access::Change, Some(error.into())),
    }
}

/// A job as it was found on the disk.
pub(super) struct Found {
    pub(super) job: Job,
    history: History,
    notices: Vec<StoreNotice>,
    pub(super) shelf: Shelf,
    /// The file does not hold this job yet.
    pub(super) behind: bool,
    newer: bool,
}

/// The job for the list, without reading its whole history unless that is ahead of the file.
pub(super) fn glance(disk: &dyn Disk, key: &JobKey) -> Result<Job, OpenError> {
    if let OwnFile::Good(opened, bytes) = own_file(disk, key)? {
        let history = read_if_there(disk, &key.file(HISTORY)).ok().flatten();
        let print = Print::of(&bytes);
        if history.is_none_or(|history| Journal::file_ends_with(&history, print)) {
            return Ok(opened.job);
        }
    }
    Ok(find(disk, key)?.job)
}

/// What the job's own file gave.
enum OwnFile {
    Good(Box<Opened>, Vec<u8>),
    Bad(String),
    /// It is there, and the disk does not give it.
    Kept(io::Error),
}

/// The job, from whatever of its files can be read. Nothing is written.
pub(super) fn find(disk: &dyn Disk, key: &JobKey) -> Result<Found, OpenError> {
    let own = own_file(disk, key)?;
    let (journal, unreadable) = journal(disk, key);
    match own {
        OwnFile::Good(opened, bytes) => Ok(with_own(*opened, bytes, journal, unreadable)),
        OwnFile::Bad(why) => recovered(disk, key, journal, OpenError::Damaged(why)),
        OwnFile::Kept(error) => recovered(disk, key, journal, error.into()),
    }
}

fn own_file(disk: &dyn Disk, key: &JobKey) -> Result<OwnFile, OpenError> {
    let bytes = match read_if_there(disk, &key.file(JOB)) {
        Ok(Some(bytes)) => bytes,
        Ok(None) => return Ok(OwnFile::Bad("it is not there".to_owned())),
        Err(error) => return Ok(OwnFile::Kept(error)),
    };
    match read_bytes(&bytes) {
        Ok(opened) => Ok(OwnFile::Good(Box::new(opened), bytes)),
        Err(error @ ReadError::TooNew { .. }) => Err(OpenError::Unreadable(error)),
        Err(error) => Ok(OwnFile::Bad(error.to_string())),
    }
}

/// The history, with its size; or that it is there and cannot be read.
fn journal(disk: &dyn Disk, key: &JobKey) -> (Option<(Journal, usize)>, bool) {
    match read_if_there(disk, &key.file(HISTORY)) {
        Ok(Some(bytes)) => (Some((Journal::read(&bytes), bytes.len())), false),
        Ok(None) => (None, false),
        Err(_) => (None, true),
    }
}

fn with_own(
    opened: Opened,
    bytes: Vec<u8>,
    journal: Option<(Journal, usize)>,
    unreadable: bool,
) -> Found {
    let print = Print::of(&bytes);
    let mut found = Found {
        job: opened.job,
        history: History::default(),
        notices: Vec::new(),
        behind: false,
        newer: opened.read_only,
        shelf: Shelf {
            folder: true,
            may_hold: vec![print],
            kept: Some(bytes),
            keep_history: unreadable,
            ..Shelf::default()
        },
    };
    if unreadable && !found.newer {
        found.notices.push(StoreNotice::HistoryStartsAfresh);
    }
    // The history of a newer program's job is that program's.
    let Some((journal, size)) = journal.filter(|_| !found.newer) else {
        return found;
    };
    let journal = journal.for_file(print);
    if journal.ends_with(print) {
        found.shelf.history = (journal.whole && size <= HISTORY_LONG).then_some(size);
        found.history = journal.history;
        return found;
    }
    let led_to = journal
        .job()
        .or_else(|| journal.job_after(&found.job, print));
    match led_to {
        // The history is ahead: its line was written, and the file was not yet.
        Some(job) if journal.knows(print) => {
            found.job = job;
            found.shelf.keep_history = !journal.whole;
            found.history = journal.history;
            found.behind = true;
        }
        led_to => {
            found.shelf.keep_history = led_to.is_none() || !journal.whole;
            found.shelf.owed_copy = led_to.and_then(|job| write(&job).ok());
            found.notices.push(StoreNotice::HistoryStartsAfresh);
        }
    }
    found
}

fn recovered(
    disk: &dyn Disk,
    key: &JobKey,
    journal: Option<(Journal, usize)>,
    why: OpenError,
) -> Result<Found, OpenError> {
    let whole = journal.as_ref().is_some_and(|(journal, _)| journal.whole);
    let from_history = journal.and_then(|(journal, _)| Some((journal.job()?, journal.history)));
    let (job, history, notice) = match from_history {
        Some((job, history)) if whole => (job, history, StoreNotice::RecoveredWhole),
        Some((job, history)) => (job, history, StoreNotice::RecoveredEarlier),
        None => match latest_copy(disk, key)? {
            Some(job) => (job, History::default(), StoreNotice::RecoveredEarlier),
            None => return Err(why),
        },
    };
    Ok(Found {
        job,
        history,
        notices: vec![notice],
        behind: true,
        newer: false,
        shelf: Shelf {
            folder: true,
            keep_history: !whole,
            ..Shelf::default()
        },
    })
}

/// The latest earlier copy that can be read and changed.
fn latest_copy(disk: &dyn Disk, key: &JobKey) -> io::Result<Option<Job>> {
    let folder = key.file(EARLIER);
    for number in numbers(disk, &folder)?.into_iter().rev() {
        let bytes = disk.read(&numbered(&folder, number, JOB)).ok();
        if let Some(opened) = bytes.and_then(|bytes| read_bytes(&bytes).ok())
            && !opened.read_only
        {
            return Ok(Some(opened.job));
        }
    }
    Ok(None)
}
