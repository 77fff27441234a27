//! Gates, their leaves and locks, as they are on disk.

use super::extra::Extra;
use serde::{Deserialize, Serialize};

/// A gate: its clear opening starts at this running reading, mm.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
#[serde(default)]
pub struct Gate {
    #[serde(skip_serializing_if = "Option::is_none")]
    pub at: Option<f64>,
    /// Hard against the run's first or last post, in place of `at`.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub against: Option<Against>,
    pub clear: Option<f64>,
    #[serde(skip_serializing_if = "Option::is_none")]
    pub leaf: Option<Leaf>,
    #[serde(skip_serializing_if = "Option::is_none")]
    pub lock: Option<Lock>,
    #[serde(flatten)]
    pub extra: Extra,
}

/// The post that an opening is hard against.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "lowercase")]
pub enum Against {
    Start,
    End,
    /// No post that a run has.
    #[serde(untagged)]
    Other(String),
}

/// The gaps a gate leaf needs, which gate post it hangs on, which way it opens, and what it is made
/// of. Mm.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(default)]
pub struct Leaf {
    pub hinge: f64,
    pub latch: f64,
    pub ground: f64,
    pub hung: Hung,
    #[serde(skip_serializing_if = "Option::is_none")]
    pub opens: Option<Opens>,
    /// Width and thickness of the frame's members, and thickness of the boards on its face.
    pub stile: f64,
    pub thick: f64,
    pub face: f64,
    #[serde(flatten)]
    pub extra: Extra,
}

impl Default for Leaf {
    fn default() -> Self {
        Self {
            hinge: 15.0,
            latch: 10.0,
            ground: 60.0,
            hung: Hung::default(),
            opens: None,
            stile: 70.0,
            thick: 38.0,
            face: 16.0,
            extra: Extra::new(),
        }
    }
}

/// The gate post that carries the hinges: nearer the run's start, or its end.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "lowercase")]
pub enum Hung {
    #[default]
    Start,
    End,
}

/// The side of the string that a gate opens to: in front of it, or behind it where the posts stand.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "lowercase")]
pub enum Opens {
    Front,
    Behind,
}

/// A lock, mm: its centre above the leaf's bottom, its spindle from the leaf's edge, and the width
/// of its case, which begins `edge` from the leaf's edge.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(default)]
pub struct Lock {
    pub height: f64,
    pub backset: f64,
    pub case: f64,
    #[serde(skip_serializing_if = "is_nothing")]
    pub edge: f64,
    /// An offcut of the tapered face board turned over under the lock, which brings its face
    /// parallel with the frame; left out unless it is asked for.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub offcut: Option<Offcut>,
    #[serde(flatten)]
    pub extra: Extra,
}

impl Default for Lock {
    fn default() -> Self {
        Self {
            height: 1000.0,
            backset: 60.0,
            case: 110.0,
            edge: 0.0,
            offcut: None,
            extra: Extra::new(),
        }
    }
}

/// A tapered face board at the lock, mm: its thin edge (its thick edge is the leaf's `face`), its
/// width, and how far the lock's centre is from the thin edge.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
#[serde(default)]
pub struct Offcut {
    pub thin: f64,
    pub width: f64,
    pub from: f64,
    #[serde(flatten)]
    pub extra: Extra,
}

#[expect(clippy::trivially_copy_pass_by_ref, reason = "what serde asks for")]
fn is_nothing(mm: &f64) -> bool {
    *mm == 0.0
}
