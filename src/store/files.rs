//! A disk made of a folder of files.

use super::disk::{Disk, DiskLock};
use std::fs::{self, DirBuilder, File, OpenOptions, TryLockError};
use std::io::{self, ErrorKind, Read, Write};
use std::path::{Path, PathBuf};
use std::time::SystemTime;

/// Files in one folder of this device.
#[derive(Clone, Debug)]
pub struct Files {
    root: PathBuf,
}

impl Files {
    /// Keeps everything in this folder, which is made when first written to. On a phone this is
    /// the app's own folder, which the system names.
    #[must_use]
    pub fn in_folder(root: impl Into<PathBuf>) -> Self {
        Self { root: root.into() }
    }

    /// Keeps everything where this system keeps a person's own data; `None` where it says no such
    /// place.
    #[cfg(not(any(target_arch = "wasm32", target_os = "android")))]
    #[must_use]
    pub fn of_this_person() -> Option<Self> {
        let places = directories::ProjectDirs::from("", "", "tautmark")?;
        Some(Self::in_folder(places.data_dir()))
    }

    /// The folder all is kept in.
    #[must_use]
    pub fn folder(&self) -> &Path {
        &self.root
    }

    fn at(&self, path: &str) -> PathBuf {
        let mut at = self.root.clone();
        at.extend(path.split('/').filter(|part| !part.is_empty()));
        at
    }
}

impl Disk for Files {
    fn read(&self, path: &str) -> io::Result<Vec<u8>> {
        let at = self.at(path);
        // A pipe that nobody writes to would hold the program up for ever.
        if !fs::metadata(&at)?.is_file() {
            return Err(io::Error::new(
                ErrorKind::InvalidInput,
                "it is no plain file",
            ));
        }
        let mut bytes = Vec::new();
        File::open(at)?.take(LARGEST + 1).read_to_end(&mut bytes)?;
        if bytes.len() as u64 > LARGEST {
            return Err(io::Error::new(
                ErrorKind::InvalidData,
                "it is too large to be ours",
            ));
        }
        Ok(bytes)
    }

    fn changed(&self, path: &str) -> io::Result<SystemTime> {
        fs::metadata(self.at(path))?.modified()
    }

    fn write(&self, path: &str, bytes: &[u8]) -> io::Result<()> {
        let mut options = own();
        let mut file = options.write(true).truncate(true).open(self.at(path))?;
        file.write_all(bytes)?;
        file.sync_all()
    }

    fn append(&self, path: &str, bytes: &[u8]) -> io::Result<()> {
        let at = self.at(path);
        let is_new = !at.exists();
        let mut file = own().append(true).open(&at)?;
        file.write_all(bytes)?;
        file.sync_data()?;
        if is_new {
            return flush_folder_of(&at);
        }
        Ok(())
    }

    fn rename(&self, from: &str, to: &str) -> io::Result<()> {
        let (from, to) = (self.at(from), self.at(to));
        fs::rename(&from, &to)?;
        flush_folder_of(&to)?;
        if from.parent() == to.parent() {
            return Ok(());
        }
        flush_folder_of(&from)
    }

    fn remove(&self, path: &str) -> io::Result<()> {
        fs::remove_file(self.at(path))
    }

    fn make_folder(&self, path: &str) -> io::Result<()> {
        let at = self.at(path);
        if let Some(parent) = at.parent() {
            make_folders(parent)?;
        }
        folder_maker().create(&at)?;
        flush_folder_of(&at)
    }

    fn remove_folder(&self, path: &str) -> io::Result<()> {
        fs::remove_dir_all(self.at(path))
    }

    fn list(&self, path: &str) -> io::Result<Vec<String>> {
        let names = fs::read_dir(self.at(path))?.map(|entry| Ok(entry?.file_name()));
        let names: io::Result<Vec<_>> = names.collect();
        // A name that is not text is none of ours.
        let ours = names?
            .into_iter()
            .filter_map(|name| name.into_string().ok());
        Ok(ours.collect())
    }

    fn lock(&self, path: &str) -> io::Result<Option<DiskLock>> {
        let at = self.at(path);
        if let Some(parent) = at.parent() {
            make_folders(parent)?;
        }
        let file = own().truncate(false).write(true).open(at)?;
        match file.try_lock() {
            Ok(()) => Ok(Some(Box::new(file))),
            Err(TryLockError::WouldBlock) => Ok(None),
            Err(TryLockError::Error(error)) => Err(error),
        }
    }
}

/// Larger files are none of ours: a history is put together afresh long before.
const LARGEST: u64 = 64 << 20;

/// Makes a file where there is none, for this person alone to read and write.
fn own() -> OpenOptions {
    let mut options = OpenOptions::new();
    options.create(true);
    #[cfg(unix)]
    std::os::unix::fs::OpenOptionsExt::mode(&mut options, 0o600);
    options
}

/// Makes folders for this person alone.
fn folder_maker() -> DirBuilder {
    #[cfg_attr(not(unix), allow(unused_mut))]
    let mut maker = DirBuilder::new();
    #[cfg(unix)]
    std::os::unix::fs::DirBuilderExt::mode(&mut maker, 0o700);
    maker
}

/// Makes a folder and those it is in, each on the medium before the next.
fn make_folders(path: &Path) -> io::Result<()> {
    if path.as_os_str().is_empty() || path.is_dir() {
        return Ok(());
    }
    if let Some(parent) = path.parent() {
        make_folders(parent)?;
    }
    match folder_maker().create(path) {
        Err(error) if error.kind() == ErrorKind::AlreadyExists => Ok(()),
        Err(error) => Err(error),
        Ok(()) => flush_folder_of(path),
    }
}

/// Puts a folder's list of names on the medium, so that a rename outlasts a power cut.
#[cfg(unix)]
fn flush_folder_of(path: &Path) -> io::Result<()> {
    match path.parent() {
        Some(folder) if folder.as_os_str().is_empty() => File::open(".")?.sync_all(),
        Some(folder) => File::open(folder)?.sync_all(),
        None => Ok(()),
    }
}

/// Elsewhere folders cannot be flushed; the system orders renames itself.
#[cfg(not(unix))]
fn flush_folder_of(_: &Path) -> io::Result<()> {
    Ok(())
}
