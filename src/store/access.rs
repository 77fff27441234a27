//! Whether a job can be changed here, and why not.

use thiserror::Error;

/// Whether the job can be changed here.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Access {
    Change,
    View(ViewOnly),
}

/// Why a job is shown and not changed.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Error)]
pub enum ViewOnly {
    #[error(
        "This job was made by a newer version of the program. It is shown, not changed; get the newer program to change it."
    )]
    NewerVersion,
    #[error(
        "This job is open in another window. It is shown here, not changed; change it there, or make a copy."
    )]
    OpenElsewhere,
}
