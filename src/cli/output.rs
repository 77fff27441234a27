//! Writing what a command made.

use super::{Ending, Stop};
use std::io::{self, ErrorKind, Write};
use std::path::Path;
use tempfile::NamedTempFile;

/// Writes `bytes` to a file, or to standard output where none is named. The job's own file is never
/// written over.
pub fn write(bytes: &[u8], out: Option<&Path>, job: Option<&Path>) -> Result<(), Stop> {
    match out {
        None => to_stdout(bytes),
        Some(out) => to_file(bytes, out, job),
    }
}

/// A reader that has seen enough, such as a pager, is no error.
fn to_stdout(bytes: &[u8]) -> Result<(), Stop> {
    let mut stdout = io::stdout().lock();
    let written = stdout.write_all(bytes).and_then(|()| stdout.flush());
    match written {
        Err(error) if error.kind() != ErrorKind::BrokenPipe => Err(Stop {
            ending: Ending::Usage,
            words: format!("The output cannot be written ({error})."),
        }),
        _ => Ok(()),
    }
}

/// All of it in a new file beside the old one, then put in its place, so that a full disk or a
/// pulled plug leaves the old file whole.
fn to_file(bytes: &[u8], out: &Path, job: Option<&Path>) -> Result<(), Stop> {
    let name = out.display();
    if job.is_some_and(|job| is_same(job, out)) {
        return Err(Stop {
            ending: Ending::Usage,
            words: format!(
                "{name}: this is the job itself, and it is left as it is. Choose another name for --out."
            ),
        });
    }
    replace(bytes, out).map_err(|error| Stop {
        ending: Ending::Usage,
        words: format!(
            "{name}: this file cannot be written ({error}). Choose another place for --out."
        ),
    })
}

fn is_same(one: &Path, other: &Path) -> bool {
    match (one.canonicalize(), other.canonicalize()) {
        (Ok(one), Ok(other)) => one == other,
        _ => false,
    }
}

fn replace(bytes: &[u8], out: &Path) -> io::Result<()> {
    // A device or a pipe takes what it is given; only a plain file is replaced.
    if out
        .metadata()
        .is_ok_and(|about| !about.is_file() && !about.is_dir())
    {
        return std::fs::write(out, bytes);
    }
    if out.is_dir() {
        return Err(io::Error::other("it is a folder"));
    }
    let out = out.canonicalize().unwrap_or_else(|_| out.to_owned());
    let folder = match out.parent() {
        Some(folder) if !folder.as_os_str().is_empty() => folder,
        _ => Path::new("."),
    };
    let mut file = NamedTempFile::new_in(folder)?;
    file.write_all(bytes)?;
    file.as_file().sync_all()?;
    share(&file, &out)?;
    file.persist(&out).map_err(|error| error.error)?;
    Ok(())
}

/// A new file is for its owner alone until it gets the rights of the one it replaces, or the usual.
#[cfg(unix)]
fn share(file: &NamedTempFile, out: &Path) -> io::Result<()> {
    use std::os::unix::fs::PermissionsExt;
    const USUAL: u32 = 0o644;
    let mode = out
        .metadata()
        .map_or(USUAL, |about| about.permissions().mode());
    file.as_file()
        .set_permissions(std::fs::Permissions::from_mode(mode))
}

#[cfg(not(unix))]
fn share(_: &NamedTempFile, _: &Path) -> io::Result<()> {
    Ok(())
}
