//! Writing what a command made.

use super::{Ending, Stop};
use std::fs::File;
use std::io::{self, ErrorKind, Read, Write};
use std::path::Path;
use tautmark::job::LARGEST_FILE;
use tautmark::job::model::FORMAT;
use tautmark::store::write_whole;

/// Where a command writes to.
pub struct OutputTarget<'a> {
    /// Standard output where none is named.
    pub out: Option<&'a Path>,
    /// Replace a job that is there.
    pub force: bool,
}

/// Writes `bytes` to its target. The job that the command was about is never written over, and
/// another only where that was asked for.
pub fn write(bytes: &[u8], target: &OutputTarget<'_>, job: Option<&Path>) -> Result<(), Stop> {
    match target.out {
        None => to_stdout(bytes),
        Some(out) => to_file(bytes, out, target.force, job),
    }
}

/// A reader that has seen enough, such as a pager, is no error.
pub fn to_stdout(bytes: &[u8]) -> Result<(), Stop> {
    let mut stdout = io::stdout().lock();
    let written = stdout.write_all(bytes).and_then(|()| stdout.flush());
    written.or_else(|error| match error.kind() {
        ErrorKind::BrokenPipe => Ok(()),
        _ => Err(unwritten(&error)),
    })
}

/// The output cannot be written.
pub fn unwritten(error: &io::Error) -> Stop {
    Stop {
        ending: Ending::Usage,
        words: format!("The output cannot be written ({error})."),
    }
}

fn to_file(bytes: &[u8], out: &Path, force: bool, job: Option<&Path>) -> Result<(), Stop> {
    let name = out.display();
    let stop = |words: String| Stop {
        ending: Ending::Usage,
        words,
    };
    if job.is_some_and(|job| is_same(job, out)) {
        return Err(stop(format!(
            "{name}: this is the job itself, and it is left as it is. Choose another name for --out."
        )));
    }
    if !force && holds_a_job(out) {
        return Err(stop(format!(
            "{name}: there is a job in this file, and it is left as it is. Choose another name for --out, or \
             say --force to write over it."
        )));
    }
    write_whole(out, bytes).map_err(|error| {
        stop(format!(
            "{name}: this file cannot be written ({error}). Choose another place for --out."
        ))
    })
}

fn is_same(one: &Path, other: &Path) -> bool {
    match (one.canonicalize(), other.canonicalize()) {
        (Ok(one), Ok(other)) => one == other,
        _ => false,
    }
}

/// True where a plain file has a job's name or says that it is one, whole or spoilt. One that cannot
/// be looked into is none that anyone could read.
fn holds_a_job(path: &Path) -> bool {
    if !path.is_file() {
        return false;
    }
    let named = path.to_string_lossy().ends_with(".job.json");
    let mut text = Vec::new();
    let read = File::open(path).and_then(|file| file.take(LARGEST_FILE).read_to_end(&mut text));
    named || read.is_ok() && String::from_utf8_lossy(&text).contains(&format!("\"{FORMAT}\""))
}
