//! Gates, their leaves and locks, as they are on disk.

use super::extra::Extra;
use serde::{Deserialize, Serialize};

/// An opening in a run, with the leaf that hangs in it.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
#[serde(default)]
pub struct Gate {
    /// Running reading where the clear opening begins, mm.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub at: Option<f64>,
    /// Hard against the run's first or last post, in place of `at`.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub against: Option<Against>,
    /// Width of the clear opening between the posts' faces, mm.
    pub clear: Option<f64>,
    /// The leaf; only the opening is worked out where it is not there.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub leaf: Option<Leaf>,
    /// The lock; none where it is not there.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub lock: Option<Lock>,
    /// Keys that this program does not know, kept as they are.
    #[serde(flatten)]
    pub extra: Extra,
}

/// The post that an opening is hard against.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "lowercase")]
pub enum Against {
    /// It begins at the far face of the run's first post.
    Start,
    /// It ends at the near face of the run's last post.
    End,
    /// No post that a run has.
    #[serde(untagged)]
    Other(String),
}

/// A gate's leaf: the gaps it needs, how it hangs, and what it is made of. Mm.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(default)]
pub struct Leaf {
    /// Gap between the leaf and the post it hangs on, mm; 15 where nothing is said.
    pub hinge: f64,
    /// Gap between the leaf and the post it closes against, mm; 10 where nothing is said.
    pub latch: f64,
    /// Gap between the leaf's bottom and the highest ground under it, mm; 60 where nothing is
    /// said.
    pub ground: f64,
    /// On the post nearer the run's start where nothing is said.
    pub hung: Hung,
    /// The side it swings to; where none is given, nothing is looked for in its swing.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub opens: Option<Opens>,
    /// Width of the frame's members, mm; 70 where nothing is said.
    pub stile: f64,
    /// Thickness of the frame's members, mm; 38 where nothing is said.
    pub thick: f64,
    /// Thickness of the boards on its face, mm; 16 where nothing is said.
    pub face: f64,
    /// Keys that this program does not know, kept as they are.
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

/// The gate post that carries the hinges.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "lowercase")]
pub enum Hung {
    /// The one nearer the run's start.
    #[default]
    Start,
    /// The one nearer the run's end.
    End,
}

/// The side of the string that a gate opens to.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "lowercase")]
pub enum Opens {
    /// In front of the string, away from the posts.
    Front,
    /// Behind the string, where the posts stand.
    Behind,
}

/// A lock in a gate's leaf, mm.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(default)]
pub struct Lock {
    /// Its centre above the leaf's bottom, mm; 1000 where nothing is said.
    pub height: f64,
    /// From the leaf's latch edge to its spindle, mm; 60 where nothing is said.
    pub backset: f64,
    /// Width of its case, mm; 110 where nothing is said.
    pub case: f64,
    /// From the leaf's latch edge to its case, mm; 0 where nothing is said.
    #[serde(skip_serializing_if = "is_nothing")]
    pub edge: f64,
    /// An offcut of the tapered face board turned over under the lock, which brings its face
    /// parallel with the frame; left out unless it is asked for.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub offcut: Option<Offcut>,
    /// Keys that this program does not know, kept as they are.
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

/// A tapered face board at the lock, mm; its thick edge is the leaf's `face`.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
#[serde(default)]
pub struct Offcut {
    /// Thickness of its thin edge, mm.
    pub thin: f64,
    /// From its thin edge to its thick one, mm.
    pub width: f64,
    /// From its thin edge to the lock's centre, mm.
    pub from: f64,
    /// Keys that this program does not know, kept as they are.
    #[serde(flatten)]
    pub extra: Extra,
}

#[expect(clippy::trivially_copy_pass_by_ref, reason = "what serde asks for")]
fn is_nothing(mm: &f64) -> bool {
    *mm == 0.0
}
