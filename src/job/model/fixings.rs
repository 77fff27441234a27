//! Notches of their own depth, bolts and screws, and the strip to clear, as they are on disk.

use super::extra::Extra;
use super::fence::Foot;
use serde::{Deserialize, Serialize};

/// A depth of notch for some rails or some posts, in place of the rails' own.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
#[serde(default)]
pub struct Notch {
    /// For the rail of this number, 1 the lowest; for every rail where none is given.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub rail: Option<u32>,
    /// For posts that stand so; for every post where nothing is said.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub foot: Option<Foot>,
    /// Cut into the post, mm.
    pub depth: f64,
    /// Keys that this program does not know, kept as they are.
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

/// What holds the timber: bolts into walls, and screws.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(default)]
pub struct Fixings {
    /// Bolts of each post that is fixed to a wall.
    pub wall: WallBolts,
    /// Screws for each pale and rail; 1 where nothing is said.
    pub pale: u32,
    /// Screws for each end of a rail; 2 where nothing is said.
    pub rail: u32,
    /// Screws for each end of a gravel board; 2 where nothing is said.
    pub gravel: u32,
    /// Keys that this program does not know, kept as they are.
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

/// Bolts down a post that is fixed to a wall, mm.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(default)]
pub struct WallBolts {
    /// From each end of the post to its nearest bolt, mm; 150 where nothing is said.
    pub ends: f64,
    /// The farthest that two neighbouring bolts may be apart, mm; 500 where nothing is said.
    pub most: f64,
    /// Kept between a bolt and a notch, mm; 30 where nothing is said.
    pub clear: f64,
    /// How deep a bolt's head is sunk into the post, mm; not sunk where none is given.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub counterbore: Option<f64>,
    /// How deep a bolt sits in the wall, mm; where none is given, its length is not worked out.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub embed: Option<f64>,
    /// Keys that this program does not know, kept as they are.
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

/// The strip to clear along the runs before digging, and how much dug ground swells.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(default)]
pub struct Clearing {
    /// Across the run, mm; 300 where nothing is said.
    pub width: f64,
    /// Taken off, mm; 0 where nothing is cleared.
    pub depth: f64,
    /// How many times its room in place dug ground takes loose; 1.3 where nothing is said.
    pub bulk: f64,
    /// Keys that this program does not know, kept as they are.
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
