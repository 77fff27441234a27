//! One line of a history, and the fingerprint that ties it to a job's file.

use crate::job::edit::Step;
use serde::{Deserialize, Serialize};

/// Fingerprint of a job file's text: its checksum and its length.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, Serialize, Deserialize)]
#[serde(transparent)]
pub(super) struct Print(u64);

impl Print {
    pub(super) fn of(text: &[u8]) -> Self {
        let length = text.len() as u64 & 0xffff_ffff;
        Self(u64::from(crc32fast::hash(text)) << 32 | length)
    }

    /// As a number, to be noted.
    pub(super) fn number(self) -> u64 {
        self.0
    }
}

/// One line of the history file.
#[derive(Debug, Serialize, Deserialize)]
#[serde(rename_all = "lowercase")]
pub(super) enum HistoryLine {
    Done(Step),
    Undone(Step),
    /// The job's text, and what its own file may hold at this moment.
    Now {
        job: String,
        over: Vec<Print>,
    },
    Did {
        step: Step,
        after: Print,
    },
    /// The latest step has grown to this one.
    Grew {
        step: Step,
        after: Print,
    },
    Undid {
        after: Print,
    },
    Redid {
        after: Print,
    },
}

const HEAD: &str = "{\"sum\":\"";
const MIDDLE: &str = "\",\"is\":";
const TAIL: &str = "}";

impl HistoryLine {
    /// The line with its checksum, ending in a line break.
    pub(super) fn text(&self) -> Result<String, serde_json::Error> {
        let body = serde_json::to_string(self)?;
        let sum = crc32fast::hash(body.as_bytes());
        Ok(format!("{HEAD}{sum:08x}{MIDDLE}{body}{TAIL}\n"))
    }

    /// The line, if it is whole.
    pub(super) fn of(text: &str) -> Option<Self> {
        let rest = text.strip_prefix(HEAD)?;
        let (sum, rest) = rest.split_once(MIDDLE)?;
        let body = rest.strip_suffix(TAIL)?;
        let right = u32::from_str_radix(sum, 16) == Ok(crc32fast::hash(body.as_bytes()));
        right.then(|| serde_json::from_str(body).ok())?
    }
}
