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
    /// The name that points, ticked-off posts and messages call it by.
    pub id: RunId,
    /// What a person calls it; empty where the `id` has to do.
    #[serde(skip_serializing_if = "String::is_empty")]
    pub name: String,
    /// The string its posts stand along.
    pub line: LineId,
    /// The side of the string, looking along it, that its posts stand on; left is taken where
    /// none is given.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub side: Option<Side>,
    /// From the string to the posts' front faces, mm.
    pub gap: f64,
    /// Where the running readings begin, at 0; asked for where it is missing.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub start: Option<End>,
    /// Where the last post is; asked for where it is missing.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub end: Option<End>,
    /// How its posts stand; in holes where nothing is said.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub foot: Option<Foot>,
    /// Size of its posts; 100 by 100 where nothing is said.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub post: Option<PostSize>,
    /// How its posts are spaced; equal bays of at most 1800 where nothing is said.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub bays: Option<Bays>,
    /// Openings, in any order.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub gates: Vec<Gate>,
    /// Post centres that must be at a running reading.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub pins: Vec<Pin>,
    /// Keys that this program does not know, kept as they are.
    #[serde(flatten)]
    pub extra: Extra,
}

/// Where a run starts or ends: one of wall, corner, mark; an end may also be a length from the start.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
#[serde(default)]
pub struct End {
    /// Where the string meets this wall's line; the post stands hard against it.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub wall: Option<WallId>,
    /// Where the strings of this corner cross; its corner post stands there.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub corner: Option<CornerId>,
    /// Where this mark is dropped square onto the string; the post is centred on it.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub mark: Option<MarkId>,
    /// So far along the string from the run's start, mm; the post is centred there.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub length: Option<f64>,
    /// How the post here stands; as the run's other posts where nothing is said.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub foot: Option<Foot>,
    /// Keys that this program does not know, kept as they are.
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

/// The size of a post's section, mm.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(default)]
pub struct PostSize {
    /// Along the run, mm; 100 where nothing is said.
    pub width: f64,
    /// Across the run, square to the string, mm; 100 where nothing is said.
    pub depth: f64,
    /// Keys that this program does not know, kept as they are.
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

/// How the posts between fixed ones are spaced.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(default)]
pub struct Bays {
    /// The longest bay, centre to centre, mm; 1800 where nothing is said.
    pub max: f64,
    /// Equal bays where nothing is said.
    pub fit: BayFit,
    /// Keys that this program does not know, kept as they are.
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

/// How bays fill the length between two fixed posts.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "lowercase")]
pub enum BayFit {
    /// The fewest equal bays that are not longer than the longest.
    #[default]
    Equal,
    /// Bays of the longest from the start, and one closing bay.
    Full,
}

/// A post whose centre is held where it is given.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
#[serde(default)]
pub struct Pin {
    /// Running reading of the post's centre, mm.
    pub at: Option<f64>,
    /// The post is there already: a bay beside it may be over the longest by the tolerance.
    #[serde(skip_serializing_if = "is_false")]
    pub stands: bool,
    /// Keys that this program does not know, kept as they are.
    #[serde(flatten)]
    pub extra: Extra,
}

/// The holes that posts are set in, and the concrete they take.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(default)]
pub struct Hole {
    /// Across the hole, mm; 300 where nothing is said.
    pub diameter: f64,
    /// From the ground down, mm; 600 where nothing is said.
    pub depth: f64,
    /// Litres of concrete that one bag makes; 12 where nothing is said.
    pub bag: f64,
    /// The share that a dug hole runs over its drawing; 0.25, a quarter, where nothing is said.
    pub over: f64,
    /// Keys that this program does not know, kept as they are.
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

/// A post that was ticked off, and what was measured of it as built.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
#[serde(default)]
pub struct Marked {
    /// The run it is in.
    pub run: RunId,
    /// Its number in the run, from 1 at the start.
    pub post: u32,
    /// It stands, and is ticked off.
    pub done: bool,
    /// Running reading of its centre as built, mm; `None` while it is not measured.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub measured: Option<f64>,
    /// From the string to its centre as built, mm; `None` while it is not measured.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub off: Option<f64>,
    /// Its heights are marked on it.
    #[serde(skip_serializing_if = "is_false")]
    pub heights: bool,
    /// It is marked and cut, on trestles.
    #[serde(skip_serializing_if = "is_false")]
    pub cut: bool,
    /// It stays where it was measured, and everything else is fitted to it.
    #[serde(skip_serializing_if = "is_false")]
    pub keep: bool,
    /// Keys that this program does not know, kept as they are.
    #[serde(flatten)]
    pub extra: Extra,
}

called!(Run);
