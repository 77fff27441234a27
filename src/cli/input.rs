//! Opening the job that a command is about.

use super::args::JobArgs;
use super::{Ending, Stop};
use std::fs::File;
use std::io::{self, Read};
use std::path::{Path, PathBuf};
use tautmark::job::{self, Job, LARGEST_FILE};

/// A job that has been opened.
pub struct OpenedJob {
    pub job: Job,
    /// What to call it when something is wrong.
    pub name: String,
    /// Where it came from; none for the example and for standard input.
    pub path: Option<PathBuf>,
    /// Written by a newer program.
    pub newer: bool,
}

/// Opens the file, standard input, or the example, as the arguments say.
pub fn open(args: &JobArgs) -> Result<OpenedJob, Stop> {
    let mut opened = match &args.file {
        None => OpenedJob {
            job: job::example(),
            name: "the built-in example".to_owned(),
            path: None,
            newer: false,
        },
        Some(path) if path.as_os_str() == "-" => {
            read("standard input", &mut io::stdin().lock(), None)?
        }
        Some(path) => from_file(path)?,
    };
    if let Some(lengths) = args.lengths {
        opened.job.show.lengths = lengths.into();
    }
    Ok(opened)
}

fn from_file(path: &Path) -> Result<OpenedJob, Stop> {
    let name = path.display().to_string();
    let cannot = |error: &io::Error| Stop {
        ending: Ending::Usage,
        words: format!("{name}: this file cannot be opened ({error}). Check its name and place."),
    };
    let mut file = File::open(path).map_err(|error| cannot(&error))?;
    if file.metadata().is_ok_and(|about| about.is_dir()) {
        return Err(Stop {
            ending: Ending::Usage,
            words: format!("{name}: this is a folder. Name the job file inside it."),
        });
    }
    read(&name, &mut file, Some(path))
}

fn read(name: &str, from: &mut impl Read, path: Option<&Path>) -> Result<OpenedJob, Stop> {
    let mut bytes = Vec::new();
    let read = from.take(LARGEST_FILE + 1).read_to_end(&mut bytes);
    read.map_err(|error| Stop {
        ending: Ending::Usage,
        words: format!("{name}: this cannot be read ({error}). Try it from another place."),
    })?;
    let opened = job::read_bytes(&bytes).map_err(|error| Stop {
        ending: Ending::Job,
        words: format!("{name}: {error}"),
    })?;
    Ok(OpenedJob {
        job: opened.job,
        name: name.to_owned(),
        path: path.map(Path::to_owned),
        newer: opened.read_only,
    })
}
