//! What went wrong with keeping a job, and what a person should know or do.

use super::access::ViewOnly;
use crate::job::ReadError;
use std::fmt;
use std::io::{self, ErrorKind};
use thiserror::Error;

/// Why something could not be written or read.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Trouble {
    /// What a person can do something about.
    pub cause: Cause,
    /// What the system said, for a report of a fault.
    pub detail: String,
}

/// The cause, as far as a person can do something about it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Cause {
    /// There is no room left.
    Full,
    /// The disk takes no writing.
    ReadOnly,
    /// The system keeps the program out.
    NotAllowed,
    /// The folder or the file is not there.
    Gone,
    /// Another window or copy of the program is changing the job.
    OpenElsewhere,
    /// Anything else: the disk itself, most likely.
    Faulty,
}

impl From<io::Error> for Trouble {
    fn from(error: io::Error) -> Self {
        let cause = match error.kind() {
            ErrorKind::StorageFull | ErrorKind::QuotaExceeded | ErrorKind::FileTooLarge => {
                Cause::Full
            }
            ErrorKind::ReadOnlyFilesystem => Cause::ReadOnly,
            ErrorKind::PermissionDenied => Cause::NotAllowed,
            ErrorKind::NotFound => Cause::Gone,
            _ => Cause::Faulty,
        };
        let detail = error.to_string();
        Self { cause, detail }
    }
}

impl Trouble {
    /// Said while changes are in memory only: what is wrong, that nothing is lost yet, what to do.
    #[must_use]
    pub fn unsaved(&self) -> String {
        let (wrong, remedy) = match self.cause {
            Cause::Full => ("The disk is full", "Free some space"),
            Cause::ReadOnly => ("The disk cannot be written to", "Make it writable"),
            Cause::NotAllowed => (
                "The program is not allowed to write where jobs are kept",
                "Allow it in the system's settings",
            ),
            Cause::Gone => (
                "The folder where jobs are kept has gone, and cannot be made again",
                "Plug its disk in again, or send the job out",
            ),
            Cause::OpenElsewhere => (
                "Another window is changing this job too",
                "Close it there, or make a copy here",
            ),
            Cause::Faulty => (
                "The disk reports a fault",
                "Send the job file out to be safe",
            ),
        };
        format!(
            "{wrong}. Your changes are in this window only. {remedy}; until then leave the program open. It goes on trying to save."
        )
    }
}

impl fmt::Display for Trouble {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        let text = match self.cause {
            Cause::Full => "The disk is full. Free some space and try again.",
            Cause::ReadOnly => "The disk cannot be written to. Make it writable and try again.",
            Cause::NotAllowed => {
                "The program is not allowed to use the folder where jobs are kept. Allow it in the system's settings and try again."
            }
            Cause::Gone => "It is not there any more. Look at the list of jobs, or in the bin.",
            Cause::OpenElsewhere => "This job is open in another window. Close it there first.",
            Cause::Faulty => {
                return write!(
                    f,
                    "The disk reports a fault ({}). Try again; if it stays, copy your job files to another disk.",
                    self.detail
                );
            }
        };
        f.write_str(text)
    }
}

impl std::error::Error for Trouble {}

/// Why a job cannot be opened or brought in. Its file is left as it is.
#[derive(Debug, Error, PartialEq, Eq)]
pub enum OpenError {
    /// Its files cannot be read, listed or written.
    #[error(transparent)]
    Disk(Trouble),
    /// Not a job, or of a version that this program cannot show at all.
    #[error("{0}")]
    Unreadable(ReadError),
    /// More than a job may hold.
    #[error(
        "{0} It is not brought in. Delete what is not needed in a text editor, or make two jobs of it."
    )]
    TooMuch(String),
    /// Neither the file nor its history nor any earlier copy can be read.
    #[error(
        "This job's file is damaged ({0}), and so is every earlier copy. The files are kept as they are; bring in a copy you sent out before."
    )]
    Damaged(String),
    /// It would have to be changed, and cannot be here.
    #[error(transparent)]
    ViewOnly(ViewOnly),
}

impl From<io::Error> for OpenError {
    fn from(error: io::Error) -> Self {
        OpenError::Disk(error.into())
    }
}

/// Something a person should know after a job was opened or saved. Nothing needs doing.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum StoreNotice {
    /// The file was damaged or missing; all of it came back from the history.
    RecoveredWhole,
    /// The file was damaged or missing; an earlier copy is shown.
    RecoveredEarlier,
    /// The file was changed by something else, or its history cannot be read: undo starts afresh; what the history ended with
    /// is kept among the earlier copies, or the history itself aside.
    HistoryStartsAfresh,
    /// The file was changed by something else while it was open; that version is now a job of its
    /// own, of this title.
    OtherVersionKept {
        /// What the other version's job is called.
        title: String,
    },
}

impl fmt::Display for StoreNotice {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            StoreNotice::RecoveredWhole => f.write_str(
                "The job's file was damaged. Everything came back from its history; the damaged file is kept aside.",
            ),
            StoreNotice::RecoveredEarlier => f.write_str(
                "The job's file was damaged. This is the last good copy, so the latest changes may be missing: look through it. The damaged file is kept aside.",
            ),
            StoreNotice::HistoryStartsAfresh => f.write_str(
                "The history of this job does not lead to its file, or cannot be read, so earlier steps cannot be undone. What the history held is kept beside the job.",
            ),
            StoreNotice::OtherVersionKept { title } => write!(
                f,
                "The job was changed by another program at the same time. That version is kept as a job of its own: “{title}”. Look at both and delete the one you do not want.",
            ),
        }
    }
}
