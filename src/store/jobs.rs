//! The list of jobs: new, copy, rename, bring in, send out.

use super::access::Access;
use super::as_of::AsOf;
use super::disk::Disk;
use super::files::Files;
use super::folder::{
    EARLIER, HISTORY, JOB, JobKey, list_if_there, make_if_missing, numbered, numbers, put,
};
use super::open::{find, glance, open};
use super::open_job::{ChangeError, OpenJob, Shelf};
use super::trouble::{Cause, OpenError, Trouble};
use crate::job::check::too_much;
use crate::job::edit::{Edit, History, Setting};
use crate::job::{Job, ReadError, read_bytes, visible, write};
use std::path::PathBuf;
use std::sync::Arc;
use std::time::SystemTime;

/// All jobs kept in one place.
#[derive(Clone)]
pub struct Jobs {
    pub(super) disk: Arc<dyn Disk>,
}

/// One job in the list.
#[derive(Clone, Debug)]
pub struct Entry {
    /// What it is opened by.
    pub key: JobKey,
    /// What it is called; the key where its file cannot be read.
    pub title: String,
    /// When it was last changed, where the disk says so.
    pub changed: Option<SystemTime>,
    /// What could be read of its file.
    pub contents: Contents,
    /// For [`Jobs::keep_row`].
    pub as_of: Option<AsOf>,
}

/// What is in a job's file.
#[derive(Clone, Debug)]
pub enum Contents {
    /// A job that can be opened.
    Job(Box<Job>),
    /// Made by a newer version in a shape that this one cannot show.
    Newer,
    /// The file cannot be read; opening it brings back what can be had.
    Damaged,
}

impl Entry {
    /// How much is in the job, for a person: “6 marks, 9 readings, 2 runs”.
    #[must_use]
    pub fn summary(&self) -> String {
        match &self.contents {
            Contents::Job(job) => {
                let counts = [
                    (job.marks.len(), "mark"),
                    (job.readings.len(), "reading"),
                    (job.runs.len(), "run"),
                ];
                counts.map(|(n, word)| count(n, word)).join(", ")
            }
            Contents::Newer => "Made by a newer version of the program.".to_owned(),
            Contents::Damaged => {
                "The file is damaged. Open it to get back what is there.".to_owned()
            }
        }
    }
}

fn count(n: usize, word: &str) -> String {
    match n {
        1 => format!("1 {word}"),
        _ => format!("{n} {word}s"),
    }
}

impl Jobs {
    /// The jobs on this disk.
    #[must_use]
    pub fn on(disk: impl Disk + 'static) -> Self {
        Self {
            disk: Arc::new(disk),
        }
    }

    /// The jobs in this folder.
    #[must_use]
    pub fn in_folder(folder: impl Into<PathBuf>) -> Self {
        Self::on(Files::in_folder(folder))
    }

    /// Every job, the latest changed first.
    ///
    /// # Errors
    /// Where the list itself cannot be read; a single job that cannot is in the list as such.
    pub fn list(&self) -> Result<Vec<Entry>, Trouble> {
        let keys = self.keys()?.into_iter();
        let mut entries: Vec<_> = keys.filter_map(|(key, _)| self.entry(key)).collect();
        let order = |e: &Entry| (std::cmp::Reverse(e.changed), e.title.clone());
        entries.sort_by_key(order);
        Ok(entries)
    }

    /// The key of every job and when it was last changed, the latest first; no job is read.
    ///
    /// # Errors
    /// Where the list cannot be read.
    pub fn keys(&self) -> Result<Vec<(JobKey, Option<SystemTime>)>, Trouble> {
        let names = list_if_there(&*self.disk, "jobs")?;
        let keys = names.iter().filter_map(|name| JobKey::parse(name));
        let mut keys: Vec<_> = keys.map(|key| (key.clone(), self.changed(&key))).collect();
        keys.sort_by(|(a, when), (b, other)| (other, a).cmp(&(when, b)));
        Ok(keys)
    }

    fn changed(&self, key: &JobKey) -> Option<SystemTime> {
        let times = [JOB, HISTORY].map(|name| self.disk.changed(&key.file(name)).ok());
        times.into_iter().flatten().max()
    }

    /// One job for the list; `None` where nothing of a job is in its folder.
    #[must_use]
    pub fn entry(&self, key: JobKey) -> Option<Entry> {
        let as_of = AsOf::now(&*self.disk, &key);
        let contents = match glance(&*self.disk, &key) {
            Ok(job) => Contents::Job(Box::new(job)),
            Err(OpenError::Unreadable(ReadError::TooNew { .. })) => Contents::Newer,
            Err(_) if list_if_there(&*self.disk, &key.folder()).is_ok_and(|l| l.is_empty()) => {
                return None;
            }
            Err(_) => Contents::Damaged,
        };
        let title = match &contents {
            Contents::Job(job) => job.title.clone(),
            _ => key.to_string(),
        };
        Some(Entry {
            changed: self.changed(&key),
            key,
            title,
            contents,
            as_of,
        })
    }

    /// Opens a job, with its history.
    ///
    /// # Errors
    /// Where nothing of it can be read or shown. Its files are left as they are.
    pub fn open(&self, key: &JobKey) -> Result<OpenJob, OpenError> {
        open(Arc::clone(&self.disk), key.clone())
    }

    /// Starts a job with what is in it already. It is open even where the disk cannot be written
    /// (see [`OpenJob::trouble`]); its key is settled when it is first saved.
    #[must_use]
    pub fn start(&self, mut job: Job) -> OpenJob {
        // A title may have been pasted; a file with a control character in it is not read again.
        job.title = visible(&job.title).into_owned();
        let mut open = OpenJob {
            disk: Arc::clone(&self.disk),
            key: JobKey::from_title(&job.title, 1),
            job,
            history: History::default(),
            access: Access::Change,
            lock: None,
            trouble: None,
            notices: Vec::new(),
            shelf: Shelf::default(),
        };
        open.save_whole();
        open
    }

    /// Starts a job that is a copy of another, with a title that says so.
    ///
    /// # Errors
    /// Where the other cannot be read, or is of a newer version.
    pub fn copy(&self, key: &JobKey) -> Result<OpenJob, OpenError> {
        let found = find(&*self.disk, key)?;
        self.start_titled(found.job, "copy")
    }

    /// The numbers of a job's earlier copies and when each was made, the latest first.
    ///
    /// # Errors
    /// Where they cannot be listed.
    pub fn earlier(&self, key: &JobKey) -> Result<Vec<(u32, Option<SystemTime>)>, Trouble> {
        let folder = key.file(EARLIER);
        let numbers = numbers(&*self.disk, &folder)?.into_iter().rev();
        let with_time = |n| (n, self.disk.changed(&numbered(&folder, n, JOB)).ok());
        Ok(numbers.map(with_time).collect())
    }

    /// Starts a job as another was at that earlier copy.
    ///
    /// # Errors
    /// Where the copy cannot be read.
    pub fn start_from_earlier(&self, key: &JobKey, number: u32) -> Result<OpenJob, OpenError> {
        let bytes = self.disk.read(&numbered(&key.file(EARLIER), number, JOB))?;
        let opened = read_bytes(&bytes).map_err(OpenError::Unreadable)?;
        self.start_titled(opened.job, "as it was")
    }

    fn start_titled(&self, mut job: Job, addition: &str) -> Result<OpenJob, OpenError> {
        if job.version > crate::job::model::VERSION {
            let version = u64::from(job.version);
            return Err(OpenError::Unreadable(ReadError::TooNew { version }));
        }
        job.title = format!("{} ({addition})", job.title);
        Ok(self.start(job))
    }

    /// Gives a job that is not open another title, as a step that can be undone.
    ///
    /// # Errors
    /// Where it cannot be opened, changed or saved.
    pub fn rename(&self, key: &JobKey, title: &str) -> Result<(), OpenError> {
        let mut open = self.open(key)?;
        let set = Edit::Set(Setting::Title(title.to_owned()));
        match open.change(set) {
            Ok(()) => open
                .trouble
                .take()
                .map_or(Ok(()), |t| Err(OpenError::Disk(t))),
            Err(ChangeError::ViewOnly(why)) => Err(OpenError::ViewOnly(why)),
            // A title is always text that the file can hold.
            Err(ChangeError::Edit(error)) => Err(OpenError::Damaged(error.to_string())),
        }
    }

    /// Brings in a job file, byte for byte as it came.
    ///
    /// # Errors
    /// Where it is not a job this program can show, holds more than a job may, or cannot be
    /// written; nothing is kept then.
    pub fn bring_in(&self, bytes: &[u8]) -> Result<JobKey, OpenError> {
        let job = read_bytes(bytes).map_err(OpenError::Unreadable)?.job;
        if let Some(problem) = too_much(&job).into_iter().next() {
            return Err(OpenError::TooMuch(problem.text));
        }
        let key = super::save::free_folder(&*self.disk, &job)?;
        if let Err(error) = put(&*self.disk, &key.file(JOB), bytes) {
            // What was begun is of no use to anyone; the file it came from is untouched.
            let _ = self.disk.remove_folder(&key.folder());
            return Err(error.into());
        }
        Ok(key)
    }

    /// A job's file, to be sent out: byte for byte, unless the history is ahead of it.
    ///
    /// # Errors
    /// Where it cannot be read.
    pub fn send_out(&self, key: &JobKey) -> Result<Vec<u8>, OpenError> {
        let found = find(&*self.disk, key)?;
        match found.shelf.kept {
            Some(bytes) if !found.behind => Ok(bytes),
            _ => Ok(write(&found.job)
                .map_err(std::io::Error::from)?
                .into_bytes()),
        }
    }

    /// Notes a text for the next start of the program, such as the screen it was left on.
    ///
    /// # Errors
    /// Where it cannot be written; what was noted before stays then.
    pub fn remember(&self, text: &str) -> Result<(), Trouble> {
        make_if_missing(&*self.disk, "here")?;
        Ok(put(&*self.disk, "here/left", text.as_bytes())?)
    }

    /// The text last noted; `None` where there is none or it cannot be read.
    #[must_use]
    pub fn remembered(&self) -> Option<String> {
        String::from_utf8(self.disk.read("here/left").ok()?).ok()
    }

    /// Holds the job so that no window changes it meanwhile.
    pub(super) fn hold(&self, key: &JobKey) -> Result<Option<super::DiskLock>, Trouble> {
        match self.disk.lock(&key.lock()) {
            Ok(Some(lock)) => Ok(Some(lock)),
            Ok(None) => Err(Trouble {
                cause: Cause::OpenElsewhere,
                detail: key.to_string(),
            }),
            Err(error) if error.kind() == std::io::ErrorKind::Unsupported => Ok(None),
            Err(error) => Err(error.into()),
        }
    }
}
