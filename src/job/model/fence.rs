//! Runs, their ends, bays, holes, and which posts are ticked off, as they are on disk.

use super::called::called;
use super::extra::{Extra, is_false};
use super::gate::Gate;
use super::site::Side;
use crate::job::ids::{CornerId, LineId, MarkId, RunId, WallId};
use serde::{Deserialize, Serialize};

/// A stretch of fence along one line.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
#[serde(default)]
pub struct Run {
    pub id: RunId,
    #[serde(skip_serializing_if = "String::is_empty")]
    pub name: String,
    pub line: LineId,
    #[serde(skip_serializing_if = "Option::is_none")]
    pub side: Option<Side>,
    pub gap: f64,
    #[serde(skip_serializing_if = "Option::is_none")]
    pub start: Option<End>,
    #[serde(skip_serializing_if = "Option::is_none")]
    pub end: Option<End>,
    /// How its posts stand; in holes where nothing is said.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub foot: Option<Foot>,
    #[serde(skip_serializing_if = "Option::is_none")]
    pub post: Option<PostSize>,
    #[serde(skip_serializing_if = "Option::is_none")]
    pub bays: Option<Bays>,
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub gates: Vec<Gate>,
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub pins: Vec<Pin>,
    #[serde(flatten)]
    pub extra: Extra,
}

/// Where a run starts or ends: one of wall, corner, mark; an end may also be a length from the start.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
#[serde(default)]
pub struct End {
    #[serde(skip_serializing_if = "Option::is_none")]
    pub wall: Option<WallId>,
    #[serde(skip_serializing_if = "Option::is_none")]
    pub corner: Option<CornerId>,
    #[serde(skip_serializing_if = "Option::is_none")]
    pub mark: Option<MarkId>,
    #[serde(skip_serializing_if = "Option::is_none")]
    pub length: Option<f64>,
    /// How the post here stands; as the run's other posts where nothing is said.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub foot: Option<Foot>,
    #[serde(flatten)]
    pub extra: Extra,
}

/// How a post stands.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "lowercase")]
pub enum Foot {
    /// In a hole, in concrete.
    #[default]
    Hole,
    /// On a plate.
    Plate,
    /// Fixed to a wall, without a hole.
    Wall,
}

/// A post's size: width along the run, depth across it, mm.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(default)]
pub struct PostSize {
    pub width: f64,
    pub depth: f64,
    #[serde(flatten)]
    pub extra: Extra,
}

impl Default for PostSize {
    fn default() -> Self {
        Self {
            width: 100.0,
            depth: 100.0,
            extra: Extra::new(),
        }
    }
}

/// How bays are filled: the longest bay, centre to centre, mm.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(default)]
pub struct Bays {
    pub max: f64,
    pub fit: BayFit,
    #[serde(flatten)]
    pub extra: Extra,
}

impl Default for Bays {
    fn default() -> Self {
        Self {
            max: 1800.0,
            fit: BayFit::default(),
            extra: Extra::new(),
        }
    }
}

/// Equal bays, or full bays from the start and one closing bay.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "lowercase")]
pub enum BayFit {
    #[default]
    Equal,
    Full,
}

/// A post centre held at this running reading, mm; `stands` where the post is there already, so
/// that a bay beside it may be over the longest by the tolerance.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
#[serde(default)]
pub struct Pin {
    pub at: Option<f64>,
    #[serde(skip_serializing_if = "is_false")]
    pub stands: bool,
    #[serde(flatten)]
    pub extra: Extra,
}

/// A post hole, mm; litres of concrete from one bag; the share a dug hole runs over its drawing.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(default)]
pub struct Hole {
    pub diameter: f64,
    pub depth: f64,
    pub bag: f64,
    pub over: f64,
    #[serde(flatten)]
    pub extra: Extra,
}

impl Default for Hole {
    fn default() -> Self {
        Self {
            diameter: 300.0,
            depth: 600.0,
            bag: 12.0,
            over: 0.25,
            extra: Extra::new(),
        }
    }
}

/// A post marked as done: its running reading as built (centre), how far its centre is off the string
/// as built, and whether its heights are marked on it.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
#[serde(default)]
pub struct Marked {
    pub run: RunId,
    pub post: u32,
    pub done: bool,
    #[serde(skip_serializing_if = "Option::is_none")]
    pub measured: Option<f64>,
    #[serde(skip_serializing_if = "Option::is_none")]
    pub off: Option<f64>,
    #[serde(skip_serializing_if = "is_false")]
    pub heights: bool,
    /// It stays where it was measured, and everything else is fitted to it.
    #[serde(skip_serializing_if = "is_false")]
    pub keep: bool,
    #[serde(flatten)]
    pub extra: Extra,
}

called!(Run);
