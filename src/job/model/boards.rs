//! Gravel boards, rails, pales and what lengths can be bought, as they are on disk.

use super::extra::Extra;
use super::fence::Foot;
use super::fixings::{Clearing, Fixings, Notch};
use serde::{Deserialize, Serialize};

/// What the fence is made of.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
#[serde(default)]
pub struct Boards {
    #[serde(skip_serializing_if = "Option::is_none")]
    pub gravel: Option<Gravel>,
    #[serde(skip_serializing_if = "Option::is_none")]
    pub rails: Option<Rails>,
    /// Depths of notches that differ from the rails' own: the first that fits a rail and a post.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub notches: Vec<Notch>,
    #[serde(skip_serializing_if = "Option::is_none")]
    pub fixings: Option<Fixings>,
    #[serde(skip_serializing_if = "Option::is_none")]
    pub clear: Option<Clearing>,
    #[serde(skip_serializing_if = "Option::is_none")]
    pub pales: Option<Pales>,
    #[serde(flatten)]
    pub extra: Extra,
}

impl Boards {
    /// Depth cut for a rail, counted from 1 at the lowest, into a post that stands so, mm: of the
    /// first notch that fits, else the rails' own; 0 without rails.
    #[must_use]
    pub fn notch(&self, rail: usize, foot: Foot) -> f64 {
        let own = self.notches.iter().find(|notch| notch.fits(rail, foot));
        let usual = || self.rails.as_ref().map_or(0.0, Rails::notch_depth);
        own.map_or_else(usual, |notch| notch.depth)
    }
}

/// The gravel board, mm: its height, clearance over the ground, how deep it may be let in, the
/// gap under it that is still fine, and how it follows the ground.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(default)]
pub struct Gravel {
    pub height: f64,
    pub thick: f64,
    /// From the posts' front face to the board's; in the middle of the posts where none is given,
    /// or just in front of them for boards across their faces.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub set: Option<f64>,
    #[serde(skip_serializing_if = "Joint::is_side")]
    pub joint: Joint,
    pub clearance: f64,
    pub dig: f64,
    pub gap: f64,
    pub fit: BoardFit,
    #[serde(skip_serializing_if = "Option::is_none")]
    pub step: Option<f64>,
    #[serde(skip_serializing_if = "Option::is_none")]
    pub top: Option<f64>,
    #[serde(flatten)]
    pub extra: Extra,
}

impl Default for Gravel {
    fn default() -> Self {
        Self {
            height: 150.0,
            thick: 22.0,
            set: None,
            joint: Joint::default(),
            clearance: 10.0,
            dig: 0.0,
            gap: 50.0,
            fit: BoardFit::default(),
            step: None,
            top: None,
            extra: Extra::new(),
        }
    }
}

/// How a board or a rail meets its posts.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "lowercase")]
pub enum Joint {
    /// From post to post, its ends at their sides.
    #[default]
    Side,
    /// Across the posts' fronts, meeting the next on their centres.
    Face,
}

impl Joint {
    fn is_side(&self) -> bool {
        *self == Self::Side
    }
}

/// One level right round, or stepped bay by bay.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "lowercase")]
pub enum BoardFit {
    #[default]
    Level,
    Stepped,
}

/// Rails: centres from low to high above the gravel board's top; seat is how far each end sits in
/// its post; notch the depth cut for it (the seat where none is given). Mm.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(default)]
pub struct Rails {
    pub count: u32,
    pub low: f64,
    pub high: f64,
    pub seat: f64,
    #[serde(skip_serializing_if = "Option::is_none")]
    pub notch: Option<f64>,
    pub height: f64,
    /// Thickness of a rail; 40 where none is given.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub thick: Option<f64>,
    /// From the posts' front face to the rail's; in the middle of the posts where none is given,
    /// or a notch deep in their fronts for rails across their faces.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub set: Option<f64>,
    #[serde(skip_serializing_if = "Joint::is_side")]
    pub joint: Joint,
    #[serde(flatten)]
    pub extra: Extra,
}

impl Rails {
    /// Thickness where none is given, mm.
    pub const USUAL_THICKNESS: f64 = 40.0;

    /// Thickness of a rail, mm.
    #[must_use]
    pub fn thickness(&self) -> f64 {
        self.thick.unwrap_or(Self::USUAL_THICKNESS)
    }

    /// Depth cut into the post for a rail, mm: the seat where none is given.
    #[must_use]
    pub fn notch_depth(&self) -> f64 {
        self.notch.unwrap_or(self.seat)
    }
}

impl Default for Rails {
    fn default() -> Self {
        Self {
            count: 3,
            low: 60.0,
            high: 1440.0,
            seat: 15.0,
            notch: None,
            height: 75.0,
            thick: None,
            set: None,
            joint: Joint::default(),
            extra: Extra::new(),
        }
    }
}

/// Pales: width, the least lap, and height above the gravel board's top, mm.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(default)]
pub struct Pales {
    pub width: f64,
    pub lap: f64,
    pub height: f64,
    #[serde(flatten)]
    pub extra: Extra,
}

impl Default for Pales {
    fn default() -> Self {
        Self {
            width: 150.0,
            lap: 20.0,
            height: 1600.0,
            extra: Extra::new(),
        }
    }
}

/// Lengths that can be bought, mm, and the width of a saw cut.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(default)]
pub struct Stock {
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub gravel: Vec<f64>,
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub rails: Vec<f64>,
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub posts: Vec<f64>,
    pub kerf: f64,
    #[serde(flatten)]
    pub extra: Extra,
}

impl Default for Stock {
    fn default() -> Self {
        Self {
            gravel: Vec::new(),
            rails: Vec::new(),
            posts: Vec::new(),
            kerf: 3.0,
            extra: Extra::new(),
        }
    }
}
