//! Whether a job can be changed here, and why not.

use thiserror::Error;

/// Whether the job can be changed here.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Access {
    /// Every change is kept.
    Change,
    /// It is shown only, for that reason.
    View(ViewOnly),
}

/// Why a job is shown and not changed.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Error)]
pub enum ViewOnly {
    /// A newer version of the program made it.
    #[error(
        "This job was made by a newer version of the program. It can be viewed here; get the newer program to change it."
    )]
    NewerVersion,
    /// Another window has it open.
    #[error(
        "This job is open in another window. It can be viewed here; change it there, or make a copy."
    )]
    OpenElsewhere,
}
