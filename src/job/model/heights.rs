//! The datum, points, set-ups and sights, as they are on disk.

use super::extra::{Extra, is_true};
use crate::job::ids::{MarkId, PointId, RunId, SetupId};
use serde::{Deserialize, Serialize};

/// Heights: the datum, the points, and what was sighted.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
#[serde(default)]
pub struct Levels {
    /// The point that heights are counted from; asked for where it is missing.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub datum: Option<Datum>,
    /// Every point with a name of its own.
    pub points: Vec<Point>,
    /// Where the laser stood, in the order it was moved.
    pub setups: Vec<Setup>,
    /// Keys that this program does not know, kept as they are.
    #[serde(flatten)]
    pub extra: Extra,
}

/// The point whose height is given rather than measured.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
#[serde(default)]
pub struct Datum {
    /// Which point.
    pub point: PointId,
    /// Its height, mm up positive.
    pub height: f64,
    /// Keys that this program does not know, kept as they are.
    #[serde(flatten)]
    pub extra: Extra,
}

/// A point with a height: ground on a run at a running reading, at a mark, or anywhere.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
#[serde(default)]
pub struct Point {
    /// The name that sights and the datum call it by.
    pub id: PointId,
    /// The run whose ground it is; `None` where it is no ground of a run.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub run: Option<RunId>,
    /// Running reading on that run, mm.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub at: Option<f64>,
    /// The mark it is at; `None` where it is at no mark.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub mark: Option<MarkId>,
    /// What a person wrote to find it again.
    #[serde(skip_serializing_if = "String::is_empty")]
    pub note: String,
    /// Keys that this program does not know, kept as they are.
    #[serde(flatten)]
    pub extra: Extra,
}

/// One position of the laser and what was sighted from it.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
#[serde(default)]
pub struct Setup {
    /// What the position is called.
    pub id: SetupId,
    /// In the order they were read.
    pub sights: Vec<Sight>,
    /// Keys that this program does not know, kept as they are.
    #[serde(flatten)]
    pub extra: Extra,
}

/// One reading of a staff or tape against the laser's line.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(default)]
pub struct Sight {
    /// What was sighted.
    pub point: PointId,
    /// From the line down to the point, mm, negative where it is above; `None` while not read.
    pub down: Option<f64>,
    /// From the laser to the point, mm; taken as 5000 where none is given.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub dist: Option<f64>,
    /// False where it is left out of the heights.
    #[serde(rename = "use", skip_serializing_if = "is_true")]
    pub used: bool,
    /// Keys that this program does not know, kept as they are.
    #[serde(flatten)]
    pub extra: Extra,
}

impl Default for Sight {
    fn default() -> Self {
        Self {
            point: PointId::default(),
            down: None,
            dist: None,
            used: true,
            extra: Extra::new(),
        }
    }
}
