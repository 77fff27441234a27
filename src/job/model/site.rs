//! Marks, walls, string lines and corners, as they are on disk.

use super::called::called;
use super::extra::{Extra, is_false};
use crate::job::ids::{CornerId, LineId, MarkId, WallId};
use serde::{Deserialize, Serialize};

/// A mark and where it is on the sketch: mm, any frame.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
#[serde(default)]
pub struct Mark {
    /// The name that walls and readings call it by: the letter on the sketch.
    pub id: MarkId,
    /// Where it is on the sketch, mm, any frame; `None` where it is not drawn yet.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub rough: Option<[f64; 2]>,
    /// What a person wrote to find it again: “nail, left end”.
    #[serde(skip_serializing_if = "String::is_empty")]
    pub note: String,
    /// Keys that this program does not know, kept as they are.
    #[serde(flatten)]
    pub extra: Extra,
}

/// A wall through two marks, from → to.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
#[serde(default)]
pub struct Wall {
    /// The name that readings, lines and runs call it by.
    pub id: WallId,
    /// What a person calls it; empty where the `id` has to do.
    #[serde(skip_serializing_if = "String::is_empty")]
    pub name: String,
    /// The mark it begins at; readings along it count from there.
    pub from: MarkId,
    /// The mark it ends at.
    pub to: MarkId,
    /// Keys that this program does not know, kept as they are.
    #[serde(flatten)]
    pub extra: Extra,
}

/// A side, as seen standing on a line and looking along its direction.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "lowercase")]
pub enum Side {
    /// To the left hand.
    Left,
    /// To the right hand.
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
    /// The name that corners and runs call it by.
    pub id: LineId,
    /// What a person calls it; empty where the `id` has to do.
    #[serde(skip_serializing_if = "String::is_empty")]
    pub name: String,
    /// The wall it is offset from; `None` for a line through two marks.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub wall: Option<WallId>,
    /// The side of the wall, looking along it, that it lies on; left is taken where none is
    /// given.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub side: Option<Side>,
    /// Nails measured from the wall; one alone makes the line parallel to it.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub offsets: Option<Vec<Station>>,
    /// The two marks it goes through; `None` for a line offset from a wall.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub marks: Option<[MarkId; 2]>,
    /// It runs against the wall, or from its second mark to its first.
    #[serde(skip_serializing_if = "is_false")]
    pub reverse: bool,
    /// Keys that this program does not know, kept as they are.
    #[serde(flatten)]
    pub extra: Extra,
}

/// A nail that holds a string off a wall.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
#[serde(default)]
pub struct Station {
    /// Along the wall from its `from` mark, mm.
    pub at: Option<f64>,
    /// Square out from the wall to the string, mm.
    pub off: Option<f64>,
    /// Keys that this program does not know, kept as they are.
    #[serde(flatten)]
    pub extra: Extra,
}

/// Where two lines cross, and the post that stands there.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
#[serde(default)]
pub struct Corner {
    /// The name that runs call it by.
    pub id: CornerId,
    /// The string that is walked along first, and the one that is turned onto.
    pub lines: [LineId; 2],
    /// Its post; of its run's size and square to the first line where nothing is said.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub post: Option<CornerPost>,
    /// What was taped across the strings as stretched.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub checks: Vec<CornerCheck>,
    /// Keys that this program does not know, kept as they are.
    #[serde(flatten)]
    pub extra: Extra,
}

/// A check of a corner's strings as they are stretched.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
#[serde(default)]
pub struct CornerCheck {
    /// Marked along the first and the second string from the crossing, mm.
    pub arms: [f64; 2],
    /// Taped across between the two marks, mm; `None` while not read.
    pub diagonal: Option<f64>,
    /// Keys that this program does not know, kept as they are.
    #[serde(flatten)]
    pub extra: Extra,
}

/// The post at a corner.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(default)]
pub struct CornerPost {
    /// Along its own axis, which `set` turns, mm; 100 where nothing is said.
    pub width: f64,
    /// Across that axis, mm; 100 where nothing is said.
    pub depth: f64,
    /// Square to the first line where nothing is said.
    pub set: PostSet,
    /// Keys that this program does not know, kept as they are.
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

/// How a corner post is turned.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "lowercase")]
pub enum PostSet {
    /// Square to the first line.
    #[default]
    First,
    /// Square to the second line.
    Second,
    /// Symmetric about the bisector of the two.
    Bisect,
}

called!(Wall, Line);
