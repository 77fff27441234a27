//! What the store asks of a disk: a few whole steps, each of which can fail.
//!
//! Paths are relative, with `/` between folders. A browser's storage can stand behind this as
//! well as a folder of files ([`super::Files`]).

use std::io;
use std::time::SystemTime;

/// Held while a job is being changed; let go of when dropped, or when the program ends in any way.
pub type DiskLock = Box<dyn Send + Sync>;

/// A place that keeps files.
pub trait Disk: Send + Sync {
    /// The whole file.
    ///
    /// # Errors
    /// `NotFound`, or what the system says.
    fn read(&self, path: &str) -> io::Result<Vec<u8>>;

    /// When the file was last written.
    ///
    /// # Errors
    /// `NotFound`, or what the system says.
    fn changed(&self, path: &str) -> io::Result<SystemTime>;

    /// Writes a file whole, in place of what it held; it is on the medium when this returns.
    ///
    /// # Errors
    /// What the system says; the file may then hold any part of the bytes.
    fn write(&self, path: &str, bytes: &[u8]) -> io::Result<()>;

    /// Adds to the end of a file, made if it is not there; on the medium when this returns.
    ///
    /// # Errors
    /// What the system says; any part of the bytes may then have been added.
    fn append(&self, path: &str, bytes: &[u8]) -> io::Result<()>;

    /// Gives a file or folder another name in one step, replacing a file of that name; on the
    /// medium when this returns.
    ///
    /// # Errors
    /// What the system says; it may have happened all the same.
    fn rename(&self, from: &str, to: &str) -> io::Result<()>;

    /// Removes a file.
    ///
    /// # Errors
    /// What the system says.
    fn remove(&self, path: &str) -> io::Result<()>;

    /// Makes a folder, and those it is in; on the medium when this returns.
    ///
    /// # Errors
    /// `AlreadyExists`, or what the system says.
    fn make_folder(&self, path: &str) -> io::Result<()>;

    /// Removes a folder with all that is in it.
    ///
    /// # Errors
    /// What the system says.
    fn remove_folder(&self, path: &str) -> io::Result<()>;

    /// Names of what is in a folder, in no order.
    ///
    /// # Errors
    /// `NotFound`, or what the system says.
    fn list(&self, path: &str) -> io::Result<Vec<String>>;

    /// Takes the lock of this name for this program; `None` where another holds it.
    ///
    /// # Errors
    /// `Unsupported` where this disk has no locks, or what the system says.
    fn lock(&self, path: &str) -> io::Result<Option<DiskLock>>;

    /// Whether all that was written is on the medium, where a step may return before it is.
    ///
    /// # Errors
    /// What the system says; it is being tried again.
    fn kept(&self) -> io::Result<()> {
        Ok(())
    }
}
