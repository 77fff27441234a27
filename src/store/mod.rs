//! Where are the jobs? Jobs on this device: saved at every change, with a history, never lost.
//!
//! ```text
//!   jobs/side-fence/job.json              the job as it is, exactly a job file
//!                   history.jsonl         every change and its way back, one line each
//!                   earlier/000007.job.json   copies of how it was, a dozen at most
//!                   aside/000001.job.json     what could not be read, kept as it was
//!   bin/side-fence/…                      deleted, until the bin is emptied
//!                   row                   what the list of jobs says of it
//!   locks/side-fence                      held by the window that changes it
//!   here/opening/side-fence               being opened at this moment
//! ```
//!
//! A change is a line at the end of `history.jsonl`, on the medium before the next begins: one
//! short write, whatever the size of the job. When nobody is typing ([`OpenJob::settle`]) a new
//! file takes the place of `job.json`. Opening brings a file that lags behind up to the history,
//! so whatever moment the power goes, the last change that was acknowledged is there.
//!
//! - A disk that cannot be written is said at once ([`OpenJob::trouble`]); editing goes on in
//!   memory, and every further change or [`OpenJob::retry`] tries again.
//! - A job open in one window is shown, not changed, in a second ([`Access`]): whoever opens it
//!   twice has most likely forgotten the first window, and a copy is one step away.
//! - A file changed by something else under an open job is kept as a job of its own.
//! - A file of a newer version is shown, not changed. A file that cannot be read is never
//!   overwritten: it is kept aside.

mod access;
mod as_of;
mod bin;
mod disk;
mod files;
mod folder;
mod jobs;
mod journal;
mod line;
mod open;
mod open_job;
mod opening;
mod rows;
mod save;
pub mod slow;
mod trouble;
#[cfg(not(any(target_arch = "wasm32", target_os = "android")))]
mod whole;

pub use access::{Access, ViewOnly};
pub use as_of::AsOf;
pub use bin::Binned;
pub use disk::{Disk, DiskLock};
pub use files::Files;
pub use folder::JobKey;
pub use jobs::{Contents, Entry, Jobs};
pub use open_job::{ChangeError, OpenJob};
pub use trouble::{Cause, OpenError, StoreNotice, Trouble};
#[cfg(not(any(target_arch = "wasm32", target_os = "android")))]
pub use whole::{write_new, write_whole};
