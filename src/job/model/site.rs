//! Marks, walls, string lines and corners, as they are on disk.

use super::called::called;
use super::extra::{Extra, is_false};
use crate::job::ids::{CornerId, LineId, MarkId, WallId};
use serde::{Deserialize, Serialize};

/// A mark and where it is on the sketch: mm, any frame.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
#[serde(default)]
pub struct Mark {
    pub id: MarkId,
    #[serde(skip_serializing_if = "Option::is_none")]
    pub rough: Option<[f64; 2]>,
    #[serde(skip_serializing_if = "String::is_empty")]
    pub note: String,
    #[serde(flatten)]
    pub extra: Extra,
}

/// A wall through two marks, from → to.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
#[serde(default)]
pub struct Wall {
    pub id: WallId,
    #[serde(skip_serializing_if = "String::is_empty")]
    pub name: String,
    pub from: MarkId,
    pub to: MarkId,
    #[serde(flatten)]
    pub extra: Extra,
}

/// A side, as seen standing on a line and looking along its direction.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "lowercase")]
pub enum Side {
    Left,
    Right,
}

impl Side {
    /// +1 to the left, −1 to the right.
    #[must_use]
    pub fn sign(self) -> f64 {
        match self {
            Side::Left => 1.0,
            Side::Right => -1.0,
        }
    }

    /// The other side.
    #[must_use]
    pub fn other(self) -> Self {
        match self {
            Side::Left => Side::Right,
            Side::Right => Side::Left,
        }
    }
}

/// A string line: at offsets from a wall, or through two marks.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
#[serde(default)]
pub struct Line {
    pub id: LineId,
    #[serde(skip_serializing_if = "String::is_empty")]
    pub name: String,
    #[serde(skip_serializing_if = "Option::is_none")]
    pub wall: Option<WallId>,
    #[serde(skip_serializing_if = "Option::is_none")]
    pub side: Option<Side>,
    #[serde(skip_serializing_if = "Option::is_none")]
    pub offsets: Option<Vec<Station>>,
    #[serde(skip_serializing_if = "Option::is_none")]
    pub marks: Option<[MarkId; 2]>,
    #[serde(skip_serializing_if = "is_false")]
    pub reverse: bool,
    #[serde(flatten)]
    pub extra: Extra,
}

/// A nail: `at` along the wall from its from mark, `off` square out from it, mm.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
#[serde(default)]
pub struct Station {
    pub at: Option<f64>,
    pub off: Option<f64>,
    #[serde(flatten)]
    pub extra: Extra,
}

/// Where two lines cross, and the post that stands there.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
#[serde(default)]
pub struct Corner {
    pub id: CornerId,
    pub lines: [LineId; 2],
    #[serde(skip_serializing_if = "Option::is_none")]
    pub post: Option<CornerPost>,
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub checks: Vec<CornerCheck>,
    #[serde(flatten)]
    pub extra: Extra,
}

/// The strings of a corner as stretched: how far along each string an arm is marked from the
/// crossing, and the tape across between the marks, mm.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
#[serde(default)]
pub struct CornerCheck {
    pub arms: [f64; 2],
    pub diagonal: Option<f64>,
    #[serde(flatten)]
    pub extra: Extra,
}

/// A corner post: size in mm and how it is turned.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(default)]
pub struct CornerPost {
    pub width: f64,
    pub depth: f64,
    pub set: PostSet,
    #[serde(flatten)]
    pub extra: Extra,
}

impl Default for CornerPost {
    fn default() -> Self {
        Self {
            width: 100.0,
            depth: 100.0,
            set: PostSet::default(),
            extra: Extra::new(),
        }
    }
}

/// How a corner post is turned: square to the first line, to the second, or on the bisector.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "lowercase")]
pub enum PostSet {
    #[default]
    First,
    Second,
    Bisect,
}

called!(Wall, Line);
