//! What is the job? What was measured, what is wanted, as the file holds it.
//!
//! ```text
//!   file ──read──▶ Job ──check──▶ Sound (names found, figures possible)
//!     ▲             │               + problems (place, text, remedy)
//!     └───write─────┘ ◀──edits
//! ```

pub mod check;
pub mod edit;
mod free;
pub mod ids;
pub mod model;
pub mod problem;
mod read;
pub mod sound;
pub mod start;

pub use free::{first_free, free_name, numbered};
pub use ids::{ByName, CornerId, LineId, MarkId, PointId, RunId, SetupId, WallId, with_kind};
pub use model::{Job, reading};
pub use problem::{Problem, Problems, Severity, Where};
pub use read::{Opened, ReadError, read, write};

/// The built-in example: a screen from a potting shed to an old garden wall, with a wicket gate.
pub const EXAMPLE: &str = include_str!("orchard-corner.job.json");

/// The built-in example, opened.
///
/// # Panics
/// Never: a test opens the same text.
#[must_use]
pub fn example() -> Job {
    read(EXAMPLE).expect("the built-in example opens").job
}
