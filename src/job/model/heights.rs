//! The datum, points, set-ups and sights, as they are on disk.

use super::extra::{Extra, is_true};
use crate::job::ids::{MarkId, PointId, RunId, SetupId};
use serde::{Deserialize, Serialize};

/// Heights: the datum, the points, and what was sighted.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
#[serde(default)]
pub struct Levels {
    #[serde(skip_serializing_if = "Option::is_none")]
    pub datum: Option<Datum>,
    pub points: Vec<Point>,
    pub setups: Vec<Setup>,
    #[serde(flatten)]
    pub extra: Extra,
}

/// The point whose height is given, mm.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
#[serde(default)]
pub struct Datum {
    pub point: PointId,
    pub height: f64,
    #[serde(flatten)]
    pub extra: Extra,
}

/// A point with a height: ground on a run at a running reading, at a mark, or anywhere.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
#[serde(default)]
pub struct Point {
    pub id: PointId,
    #[serde(skip_serializing_if = "Option::is_none")]
    pub run: Option<RunId>,
    #[serde(skip_serializing_if = "Option::is_none")]
    pub at: Option<f64>,
    #[serde(skip_serializing_if = "Option::is_none")]
    pub mark: Option<MarkId>,
    #[serde(skip_serializing_if = "String::is_empty")]
    pub note: String,
    #[serde(flatten)]
    pub extra: Extra,
}

/// One position of the laser and what was sighted from it.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
#[serde(default)]
pub struct Setup {
    pub id: SetupId,
    pub sights: Vec<Sight>,
    #[serde(flatten)]
    pub extra: Extra,
}

/// One sight: how far the point is down from the laser line (negative: above it), and how far away, mm.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(default)]
pub struct Sight {
    pub point: PointId,
    pub down: Option<f64>,
    #[serde(skip_serializing_if = "Option::is_none")]
    pub dist: Option<f64>,
    #[serde(rename = "use", skip_serializing_if = "is_true")]
    pub used: bool,
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
