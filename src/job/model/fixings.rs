//! Notches of their own depth, bolts and screws, and the strip to clear, as they are on disk.

use super::extra::Extra;
use super::fence::Foot;
use serde::{Deserialize, Serialize};

/// A depth of notch for some rails or some posts, mm: those of that number (1 the lowest) and of
/// posts that stand so; any where it is not said.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
#[serde(default)]
pub struct Notch {
    #[serde(skip_serializing_if = "Option::is_none")]
    pub rail: Option<u32>,
    #[serde(skip_serializing_if = "Option::is_none")]
    pub foot: Option<Foot>,
    pub depth: f64,
    #[serde(flatten)]
    pub extra: Extra,
}

impl Notch {
    /// Whether it is for this rail, counted from 1 at the lowest, of a post that stands so.
    #[must_use]
    pub fn fits(&self, rail: usize, foot: Foot) -> bool {
        self.rail.is_none_or(|own| own as usize == rail) && self.foot.is_none_or(|own| own == foot)
    }
}

/// What holds the timber: bolts into walls, and screws for each pale and rail, each end of a rail
/// and each end of a gravel board.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(default)]
pub struct Fixings {
    pub wall: WallBolts,
    pub pale: u32,
    pub rail: u32,
    pub gravel: u32,
    #[serde(flatten)]
    pub extra: Extra,
}

impl Default for Fixings {
    fn default() -> Self {
        Self {
            wall: WallBolts::default(),
            pale: 1,
            rail: 2,
            gravel: 2,
            extra: Extra::new(),
        }
    }
}

/// Bolts down a post that is fixed to a wall, mm: from its ends, the farthest apart, clear of the
/// notches; how deep their heads are sunk, and how deep they sit in the wall.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(default)]
pub struct WallBolts {
    pub ends: f64,
    pub most: f64,
    pub clear: f64,
    #[serde(skip_serializing_if = "Option::is_none")]
    pub counterbore: Option<f64>,
    #[serde(skip_serializing_if = "Option::is_none")]
    pub embed: Option<f64>,
    #[serde(flatten)]
    pub extra: Extra,
}

impl Default for WallBolts {
    fn default() -> Self {
        Self {
            ends: 150.0,
            most: 500.0,
            clear: 30.0,
            counterbore: None,
            embed: None,
            extra: Extra::new(),
        }
    }
}

/// The strip to clear along the runs before digging, mm, and how much dug ground swells.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(default)]
pub struct Clearing {
    pub width: f64,
    pub depth: f64,
    pub bulk: f64,
    #[serde(flatten)]
    pub extra: Extra,
}

impl Default for Clearing {
    fn default() -> Self {
        Self {
            width: 300.0,
            depth: 0.0,
            bulk: 1.3,
            extra: Extra::new(),
        }
    }
}
