//! A job that is open: every change is on the disk before it returns, or said not to be.

use super::access::{Access, ViewOnly};
use super::disk::{Disk, DiskLock};
use super::folder::JobKey;
use super::line::{HistoryLine, Print};
use super::trouble::{StoreNotice, Trouble};
use crate::job::edit::{Edit, EditError, History, Step};
use crate::job::{Job, write};
use std::sync::Arc;
use thiserror::Error;

/// A job on this device that is open in this window.
pub struct OpenJob {
    pub(super) disk: Arc<dyn Disk>,
    pub(super) key: JobKey,
    pub(super) job: Job,
    pub(super) history: History,
    pub(super) access: Access,
    pub(super) lock: Option<DiskLock>,
    pub(super) trouble: Option<Trouble>,
    pub(super) notices: Vec<StoreNotice>,
    pub(super) shelf: Shelf,
}

/// Why a change was refused. The job is as it was.
#[derive(Clone, Debug, PartialEq, Eq, Error)]
pub enum ChangeError {
    /// The job could not hold it.
    #[error(transparent)]
    Edit(#[from] EditError),
    /// The job is only shown here.
    #[error(transparent)]
    ViewOnly(#[from] ViewOnly),
}

/// What is known of the job's files.
#[derive(Default)]
pub(super) struct Shelf {
    /// The folder is there.
    pub(super) folder: bool,
    /// What `job.json` may hold, as far as this program wrote or read it.
    pub(super) may_hold: Vec<Print>,
    /// The bytes last known to be in `job.json`.
    pub(super) kept: Option<Vec<u8>>,
    /// Size of `history.jsonl`; `None` where it must be put together afresh.
    pub(super) history: Option<usize>,
    /// The history file is to be kept aside before another takes its place.
    pub(super) keep_history: bool,
    /// A text to be kept as an earlier copy before the history is put together afresh.
    pub(super) owed_copy: Option<String>,
    /// Changes that are in the history and not in `job.json` yet.
    pub(super) behind: u32,
    /// Changes since the latest earlier copy; `None` before the first one.
    pub(super) since_copy: Option<u32>,
}

impl OpenJob {
    /// The job as it is.
    #[must_use]
    pub fn job(&self) -> &Job {
        &self.job
    }

    /// Which job it is.
    #[must_use]
    pub fn key(&self) -> &JobKey {
        &self.key
    }

    /// Whether it can be changed here.
    #[must_use]
    pub fn access(&self) -> Access {
        self.access
    }

    /// Why the latest changes are in memory only; `None` where all is on the disk.
    #[must_use]
    pub fn trouble(&self) -> Option<&Trouble> {
        self.trouble.as_ref()
    }

    /// Whether anything of it is on the disk.
    #[must_use]
    pub fn is_kept(&self) -> bool {
        self.shelf.folder
    }

    /// What a person should be told once; each is given once.
    pub fn take_notices(&mut self) -> Vec<StoreNotice> {
        std::mem::take(&mut self.notices)
    }

    /// Steps done and undone.
    #[must_use]
    pub fn history(&self) -> &History {
        &self.history
    }

    /// The job as the text of a job file, to be sent out.
    #[must_use]
    pub fn text(&self) -> String {
        // Edits let in only what the file can hold.
        write(&self.job).unwrap_or_default()
    }

    /// Makes an edit as a step of its own, and saves.
    ///
    /// # Errors
    /// Only if the edit cannot be made or the job is only shown; a disk that cannot be written is
    /// told by [`OpenJob::trouble`].
    pub fn change(&mut self, edit: Edit) -> Result<(), ChangeError> {
        self.may_change()?;
        self.history.push(&mut self.job, edit)?;
        self.save_latest(false);
        Ok(())
    }

    /// Makes an edit as part of the latest step (the keystrokes of one figure), and saves.
    ///
    /// # Errors
    /// As [`OpenJob::change`].
    pub fn amend(&mut self, edit: Edit) -> Result<(), ChangeError> {
        self.may_change()?;
        let before = self.history.done().len();
        self.history.amend(&mut self.job, edit)?;
        self.save_latest(self.history.done().len() == before);
        Ok(())
    }

    /// Ends the latest step: the next [`OpenJob::amend`] starts another.
    pub fn close_step(&mut self) {
        self.history.close();
    }

    /// Takes the latest step back, saves, and gives what it was; `None` where there is none.
    ///
    /// # Errors
    /// As [`OpenJob::change`].
    pub fn undo(&mut self) -> Result<Option<String>, ChangeError> {
        self.may_change()?;
        let label = label(self.history.undo(&mut self.job)?);
        if label.is_some() {
            self.save(|after| HistoryLine::Undid { after });
        }
        Ok(label)
    }

    /// Makes the step last undone again, saves, and gives what it was; `None` where there is none.
    ///
    /// # Errors
    /// As [`OpenJob::change`].
    pub fn redo(&mut self) -> Result<Option<String>, ChangeError> {
        self.may_change()?;
        let label = label(self.history.redo(&mut self.job)?);
        if label.is_some() {
            self.save(|after| HistoryLine::Redid { after });
        }
        Ok(label)
    }

    fn may_change(&self) -> Result<(), ViewOnly> {
        match self.access {
            Access::Change => Ok(()),
            Access::View(why) => Err(why),
        }
    }

    fn save_latest(&mut self, grown: bool) {
        let Some(step) = self.history.done().last().cloned() else {
            return;
        };
        if grown {
            self.save(|after| HistoryLine::Grew { step, after });
        } else {
            self.save(|after| HistoryLine::Did { step, after });
        }
    }
}

fn label(step: Option<&Step>) -> Option<String> {
    step.map(|step| step.label.clone())
}
