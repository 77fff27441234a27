//! A file outside the store that is whole or not there: a sheet, a copy of a job.

use std::fs::Permissions;
use std::io::{self, ErrorKind, Write};
use std::path::Path;
use tempfile::NamedTempFile;

/// Writes all of it in a new file beside the old one, puts it on the medium and then in the old
/// one's place, so that a full disk or a pulled plug leaves the old file whole. A device or a pipe is
/// written to as it stands.
///
/// # Errors
/// What the system says, without the name of the file beside it; the old file is as it was.
pub fn write_whole(path: &Path, bytes: &[u8]) -> io::Result<()> {
    let about = path.metadata();
    if about.as_ref().is_ok_and(|about| about.is_dir()) {
        return Err(io::Error::other("it is a folder"));
    }
    // Only a plain file is replaced.
    if about.is_ok_and(|about| !about.is_file()) {
        return std::fs::write(path, bytes);
    }
    let path = path.canonicalize().unwrap_or_else(|_| path.to_owned());
    let put = beside(&path, bytes).and_then(|file| Ok(file.persist(&path)?));
    put.and_then(|_| flush(folder_of(&path))).map_err(plainly)
}

/// As [`write_whole`], under a name that nothing has yet.
///
/// # Errors
/// `AlreadyExists` where something has it, or what the system says; nothing is there then.
pub fn write_new(path: &Path, bytes: &[u8]) -> io::Result<()> {
    let put = beside(path, bytes).and_then(|file| Ok(file.persist_noclobber(path)?));
    put.and_then(|_| flush(folder_of(path))).map_err(plainly)
}

/// What went wrong, without the name of the file beside it, which nobody asked for.
fn plainly(error: io::Error) -> io::Error {
    match error.kind() {
        ErrorKind::NotFound => io::Error::new(ErrorKind::NotFound, "there is no such folder"),
        kind => kind.into(),
    }
}

/// All of it on the medium, in a file beside that path.
fn beside(path: &Path, bytes: &[u8]) -> io::Result<NamedTempFile> {
    let mut file = NamedTempFile::new_in(folder_of(path))?;
    file.write_all(bytes)?;
    if let Some(rights) = rights(path) {
        file.as_file().set_permissions(rights)?;
    }
    file.as_file().sync_all()?;
    Ok(file)
}

fn folder_of(path: &Path) -> &Path {
    match path.parent() {
        Some(folder) if !folder.as_os_str().is_empty() => folder,
        _ => Path::new("."),
    }
}

/// A new file is for its owner alone until it gets the rights of the one it replaces, or the usual.
#[cfg(unix)]
fn rights(path: &Path) -> Option<Permissions> {
    use std::os::unix::fs::PermissionsExt;
    const USUAL: u32 = 0o644;
    let own = path.metadata().map(|about| about.permissions());
    Some(own.unwrap_or_else(|_| Permissions::from_mode(USUAL)))
}

#[cfg(not(unix))]
fn rights(_: &Path) -> Option<Permissions> {
    None
}

/// So that the file's new name outlasts a power cut.
#[cfg(unix)]
fn flush(folder: &Path) -> io::Result<()> {
    std::fs::File::open(folder)?.sync_all()
}

#[cfg(not(unix))]
fn flush(_: &Path) -> io::Result<()> {
    Ok(())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_new_file_takes_no_others_place_and_leaves_nothing_beside_it() {
        let folder = tempfile::tempdir().expect("a folder");
        let path = folder.path().join("sheet.pdf");
        write_new(&path, b"one").expect("it is free");
        let refused = write_new(&path, b"two").expect_err("it is taken");
        assert_eq!(refused.kind(), ErrorKind::AlreadyExists);
        assert_eq!(std::fs::read(&path).expect("there"), b"one");
        write_whole(&path, b"three").expect("it is replaced");
        assert_eq!(std::fs::read(&path).expect("there"), b"three");
        assert_eq!(
            std::fs::read_dir(folder.path()).expect("a folder").count(),
            1
        );
    }

    #[test]
    fn an_error_names_no_file_that_nobody_has_seen() {
        let folder = tempfile::tempdir().expect("a folder");
        let path = folder.path().join("gone/sheet.pdf");
        let said = write_whole(&path, b"one")
            .expect_err("no folder")
            .to_string();
        assert_eq!(said, "there is no such folder");
    }
}
