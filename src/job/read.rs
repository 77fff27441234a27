//! Reading and writing job files.

use super::extent::look_through;
use super::model::{FORMAT, Job, VERSION};
use serde_json::Value;
use thiserror::Error;

/// The largest job file, bytes: 16 MB, on every device and however it comes in.
pub const LARGEST_FILE: u64 = 16 << 20;

/// Why a text is not a job that can be opened.
#[derive(Debug, Error, PartialEq, Eq)]
pub enum ReadError {
    /// Not JSON.
    #[error(
        "line {line}, column {column}: this is not JSON ({reason}). Open the file in a text editor and mend it there, or go back to an earlier copy."
    )]
    NotJson {
        /// Where it stops being JSON, from 1.
        line: usize,
        /// In bytes of that line, from 1.
        column: usize,
        /// What the reader stumbled on.
        reason: String,
    },
    /// JSON, but not a job.
    #[error(
        "line {line}, column {column}: {place}: {reason}. This is not a job file of this program, or it was changed by hand; mend that place or go back to an earlier copy."
    )]
    NotAJob {
        /// Where it stops being a job, from 1.
        line: usize,
        /// In that line, from 1.
        column: usize,
        /// The key, such as `runs[0].gap`, or “the file”.
        place: String,
        /// What is wrong with it.
        reason: String,
    },
    /// Not text at all.
    #[error(
        "line {line}, column {column}: this is not UTF-8 text. Save it as UTF-8, or go back to an earlier copy."
    )]
    NotText {
        /// Where it stops being text, from 1.
        line: usize,
        /// In characters of that line, from 1.
        column: usize,
    },
    /// More bytes than any job has.
    #[error(
        "this file is larger than {} MB, which no job is. Check that it is the right file.",
        LARGEST_FILE >> 20
    )]
    TooLarge,
    /// A job of a newer version whose shape this program cannot show.
    #[error(
        "this job is of version {version}; this program knows version {VERSION} and cannot show it. Open it with a newer program; the file is left as it is."
    )]
    TooNew {
        /// What the file says; over the newest this program knows.
        version: u64,
    },
}

/// A job as it was read.
#[derive(Clone, Debug, PartialEq)]
pub struct Opened {
    /// The job, as the file has it.
    pub job: Job,
    /// Written by a newer program: show it, do not change it.
    pub read_only: bool,
}

/// Reads a job from the bytes of its file.
///
/// # Errors
/// As [`read`]; and where the bytes are not text.
pub fn read_bytes(bytes: &[u8]) -> Result<Opened, ReadError> {
    if bytes.len() as u64 > LARGEST_FILE {
        return Err(ReadError::TooLarge);
    }
    let text = str::from_utf8(bytes).map_err(|error| {
        let good = bytes.get(..error.valid_up_to()).unwrap_or_default();
        let (line, column) = end_of(&String::from_utf8_lossy(good));
        ReadError::NotText { line, column }
    })?;
    read(text)
}

/// Reads a job from the text of its file.
///
/// # Errors
/// Says the line and column where the text stops being JSON, or stops being a job; that it is too
/// large; that a text in it holds a control character.
pub fn read(text: &str) -> Result<Opened, ReadError> {
    if text.len() as u64 > LARGEST_FILE {
        return Err(ReadError::TooLarge);
    }
    let text = text.strip_prefix('\u{feff}').unwrap_or(text);
    let mut whole = serde_json::Deserializer::from_str(text);
    let looked = look_through(&mut whole).and_then(|()| whole.end());
    looked.map_err(|error| unfit_file(&error))?;
    let mut stream = serde_json::Deserializer::from_str(text);
    let job: Job = match serde_path_to_error::deserialize(&mut stream) {
        Ok(job) => job,
        Err(error) => return Err(refusal(text, &error)),
    };
    if job.format != FORMAT {
        let (line, column) = position_of(text, "\"format\"");
        return Err(ReadError::NotAJob {
            line,
            column,
            place: "format".to_owned(),
            reason: format!("it says “{}” where a job says “{FORMAT}”", job.format),
        });
    }
    if job.version == 0 {
        let (line, column) = position_of(text, "\"version\"");
        return Err(ReadError::NotAJob {
            line,
            column,
            place: "version".to_owned(),
            reason: "versions start at 1".to_owned(),
        });
    }
    let read_only = job.version > VERSION;
    Ok(Opened { job, read_only })
}

/// The text of a job's file: indented, keys in the file's usual order, unknown keys as they came.
///
/// # Errors
/// A figure that JSON cannot hold (not finite), which no edit lets in.
pub fn write(job: &Job) -> Result<String, serde_json::Error> {
    let mut text = serde_json::to_string_pretty(job)?;
    text.push('\n');
    Ok(text)
}

fn refusal(text: &str, error: &serde_path_to_error::Error<serde_json::Error>) -> ReadError {
    let inner = error.inner();
    let value = serde_json::from_str::<Value>(text).unwrap_or_default();
    if value["format"] == FORMAT
        && let Some(version) = value["version"]
            .as_u64()
            .filter(|&v| v > u64::from(VERSION))
    {
        return ReadError::TooNew { version };
    }
    let path = error.path().to_string();
    let place = if path == "." {
        "the file".to_owned()
    } else {
        path
    };
    ReadError::NotAJob {
        line: inner.line(),
        column: inner.column().max(1),
        place,
        reason: without_position(inner),
    }
}

/// Why a file is refused before it is read as a job: it is no JSON, or more than a job holds.
fn unfit_file(error: &serde_json::Error) -> ReadError {
    // At the very end of a line the parser counts no column yet.
    let (line, column) = (error.line(), error.column().max(1));
    let reason = without_position(error);
    if error.is_data() {
        return ReadError::NotAJob {
            line,
            column,
            place: "the file".to_owned(),
            reason,
        };
    }
    ReadError::NotJson {
        line,
        column,
        reason,
    }
}

/// The message without the “at line … column …” that its own fields carry.
fn without_position(error: &serde_json::Error) -> String {
    let message = error.to_string();
    match message.rfind(" at line ") {
        Some(cut) => message[..cut].to_owned(),
        None => message,
    }
}

/// Line and column, both from 1, of the first place where `needle` stands.
fn position_of(text: &str, needle: &str) -> (usize, usize) {
    end_of(&text[..text.find(needle).unwrap_or(0)])
}

/// Line and column, both from 1, of what comes next after a text.
fn end_of(before: &str) -> (usize, usize) {
    let line = before.matches('\n').count() + 1;
    let column = before.chars().rev().take_while(|&c| c != '\n').count() + 1;
    (line, column)
}
