//! Where the files of one job are.

use super::disk::Disk;
use std::fmt;
use std::io::{self, ErrorKind};

/// Which job on this device: the name of its folder.
#[derive(Clone, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub struct JobKey(String);

impl JobKey {
    /// A key as it was noted before; `None` where it is no folder's name.
    #[must_use]
    pub fn parse(text: &str) -> Option<Self> {
        let plain = |c: char| c.is_ascii_alphanumeric() || c == '-';
        (!text.is_empty() && text.chars().all(plain)).then(|| Self(text.to_owned()))
    }

    /// The key as text, to be noted.
    #[must_use]
    pub fn as_str(&self) -> &str {
        &self.0
    }

    /// A key that reads like the title; the second and later ones of a title carry a number.
    pub(super) fn from_title(title: &str, number: usize) -> Self {
        let mut slug = String::new();
        for c in title.chars() {
            if c.is_ascii_alphanumeric() {
                slug.push(c.to_ascii_lowercase());
            } else if !slug.is_empty() && !slug.ends_with('-') {
                slug.push('-');
            }
            if slug.len() >= 40 {
                break;
            }
        }
        let slug = slug.trim_end_matches('-');
        let slug = if slug.is_empty() { "job" } else { slug };
        Self(match number {
            0 | 1 => slug.to_owned(),
            _ => format!("{slug}-{number}"),
        })
    }

    pub(super) fn folder(&self) -> String {
        format!("jobs/{}", self.0)
    }

    pub(super) fn file(&self, name: &str) -> String {
        format!("jobs/{}/{name}", self.0)
    }

    pub(super) fn binned(&self) -> String {
        format!("bin/{}", self.0)
    }

    pub(super) fn lock(&self) -> String {
        format!("locks/{}", self.0)
    }
}

impl fmt::Display for JobKey {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.0)
    }
}

/// The job's own file in its folder.
pub(super) const JOB: &str = "job.json";
/// The history in its folder.
pub(super) const HISTORY: &str = "history.jsonl";
/// Copies of how the job was.
pub(super) const EARLIER: &str = "earlier";
/// What could not be read.
pub(super) const ASIDE: &str = "aside";

/// What the file holds, or `None` where there is no such file.
pub(super) fn read_if_there(disk: &dyn Disk, path: &str) -> io::Result<Option<Vec<u8>>> {
    match disk.read(path) {
        Ok(bytes) => Ok(Some(bytes)),
        Err(error) if error.kind() == ErrorKind::NotFound => Ok(None),
        Err(error) => Err(error),
    }
}

/// Names in a folder; none where there is no such folder.
pub(super) fn list_if_there(disk: &dyn Disk, path: &str) -> io::Result<Vec<String>> {
    match disk.list(path) {
        Err(error) if error.kind() == ErrorKind::NotFound => Ok(Vec::new()),
        names => names,
    }
}

/// Makes the folder unless it is there.
pub(super) fn make_if_missing(disk: &dyn Disk, path: &str) -> io::Result<()> {
    match disk.make_folder(path) {
        Err(error) if error.kind() == ErrorKind::AlreadyExists => Ok(()),
        made => made,
    }
}

/// Writes a file beside its place and lets it take that place, so that under its own name it is
/// whole or not there.
pub(super) fn put(disk: &dyn Disk, path: &str, bytes: &[u8]) -> io::Result<()> {
    let next = format!("{path}.next");
    let put = disk
        .write(&next, bytes)
        .and_then(|()| disk.rename(&next, path));
    if put.is_err() {
        // Half a file beside it helps nobody; where it cannot be removed the next one replaces it.
        let _ = disk.remove(&next);
    }
    put
}

/// The numbers that the names of a folder's files start with, ascending.
pub(super) fn numbers(disk: &dyn Disk, folder: &str) -> io::Result<Vec<u32>> {
    let names = list_if_there(disk, folder)?;
    let number = |name: String| name.split('.').next()?.parse().ok();
    let mut numbers: Vec<u32> = names.into_iter().filter_map(number).collect();
    numbers.sort_unstable();
    Ok(numbers)
}

/// The file of that number in a folder of numbered files.
pub(super) fn numbered(folder: &str, number: u32, name: &str) -> String {
    format!("{folder}/{number:06}.{name}")
}

/// A name in a folder of numbered files that none has yet; the folder is made if need be.
pub(super) fn next_numbered(disk: &dyn Disk, folder: &str, name: &str) -> io::Result<String> {
    make_if_missing(disk, folder)?;
    let last = numbers(disk, folder)?.last().copied().unwrap_or(0);
    Ok(numbered(folder, last.saturating_add(1), name))
}
