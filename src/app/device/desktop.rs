//! A desktop: a folder of documents, and the system's own window for picking a file.

use super::{Brought, Device, Handed, Picked, Way};
use std::fs::OpenOptions;
use std::io::{ErrorKind, Write};
use std::path::{Path, PathBuf};

/// The desktop that the window is on.
pub struct Desktop {
    /// Where files that are saved go.
    folder: Option<PathBuf>,
}

impl Desktop {
    /// Saves among this person's documents.
    #[must_use]
    pub fn of_this_person() -> Self {
        let folder = directories::UserDirs::new().map(|dirs| {
            dirs.document_dir()
                .unwrap_or_else(|| dirs.home_dir())
                .to_owned()
        });
        Self { folder }
    }

    /// Saves in this folder.
    #[must_use]
    pub fn saving_in(folder: impl Into<PathBuf>) -> Self {
        Self {
            folder: Some(folder.into()),
        }
    }
}

impl Device for Desktop {
    fn hand_over(&self, file: &Handed, _way: Way) -> Result<String, String> {
        let folder = self.folder.as_deref().ok_or(
            "This system names no folder for documents. Use “tautmark sheet” on the command line.",
        )?;
        let path = write_new(folder, file).map_err(|why| {
            format!(
                "It could not be saved in {} ({why}). Free some space or make the folder writable.",
                folder.display()
            )
        })?;
        Ok(format!("Saved as {}", path.display()))
    }

    fn ways(&self) -> &'static [Way] {
        &[Way::Save]
    }

    fn pick(&self, then: Box<dyn FnOnce(Picked)>) {
        let asked = rfd::AsyncFileDialog::new()
            .set_title("Bring in a job file")
            .add_filter("Job files", &["json"])
            .pick_file();
        let waiting = slint::spawn_local(async move {
            then(match asked.await {
                Some(file) => read(file.path()).map(Some),
                None => Ok(None),
            });
        });
        // Only a window that has closed waits for nothing.
        drop(waiting);
    }

    /// A desktop's screen is its person's own affair.
    fn keep_awake(&self, _awake: bool) {}
}

/// Writes the file under its own name or, where that is taken, with a number: never over a file
/// that is there.
fn write_new(folder: &Path, file: &Handed) -> std::io::Result<PathBuf> {
    let (stem, ending) = file.name.split_once('.').unwrap_or((&file.name, ""));
    for n in 1u32.. {
        let name = match (n, ending) {
            (1, _) => file.name.clone(),
            (_, "") => format!("{stem}-{n}"),
            _ => format!("{stem}-{n}.{ending}"),
        };
        let path = folder.join(name);
        match OpenOptions::new().write(true).create_new(true).open(&path) {
            Ok(mut out) => {
                out.write_all(&file.bytes)?;
                return Ok(path);
            }
            Err(why) if why.kind() == ErrorKind::AlreadyExists => {}
            Err(why) => return Err(why),
        }
    }
    Err(ErrorKind::AlreadyExists.into())
}

fn read(path: &Path) -> Result<Brought, String> {
    let name = path.file_name().unwrap_or_default().to_string_lossy();
    match std::fs::read(path) {
        Ok(bytes) => Ok(Brought {
            name: name.into_owned(),
            bytes,
        }),
        Err(why) => Err(format!(
            "{} cannot be read ({why}). Look whether it is still there and may be opened.",
            path.display()
        )),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn nothing_that_is_there_is_written_over() {
        let folder = tempfile::tempdir().expect("a folder to save in");
        let desktop = Desktop::saving_in(folder.path());
        let mut file = Handed::job("side", b"one".to_vec());
        let first = desktop.hand_over(&file, Way::Save).expect("there is room");
        file.bytes = b"two".to_vec();
        let second = desktop.hand_over(&file, Way::Save).expect("there is room");
        assert!(first.ends_with("side.job.json"), "{first}");
        assert!(second.ends_with("side-2.job.json"), "{second}");
        let there = |name: &str| std::fs::read(folder.path().join(name)).expect("it was saved");
        assert_eq!(there("side.job.json"), b"one");
        assert_eq!(there("side-2.job.json"), b"two");
    }

    #[test]
    fn a_folder_that_is_not_there_is_said() {
        let folder = tempfile::tempdir().expect("a folder");
        let desktop = Desktop::saving_in(folder.path().join("gone"));
        let file = Handed {
            name: "side.csv".to_owned(),
            media_type: "text/csv",
            bytes: Vec::new(),
        };
        let said = desktop.hand_over(&file, Way::Save).expect_err("no folder");
        assert!(
            said.contains("gone") && said.contains("Free some space"),
            "{said}"
        );
    }
}
