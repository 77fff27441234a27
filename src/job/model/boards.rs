//! Gravel boards, rails, pales and what lengths can be bought, as they are on disk.

use super::extra::Extra;
use super::fence::Foot;
use super::fixings::{Clearing, Fixings, Notch};
use super::show::RailEdge;
use serde::{Deserialize, Serialize};

/// What the fence is made of.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
#[serde(default)]
pub struct Boards {
    /// Boards along the ground; none where it is not there.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub gravel: Option<Gravel>,
    /// Rails from post to post; none where they are not there.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub rails: Option<Rails>,
    /// Depths of notches that differ from the rails' own: the first that fits a rail and a post.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub notches: Vec<Notch>,
    /// Bolts and screws; the usual ones where nothing is said.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub fixings: Option<Fixings>,
    /// What is cleared and carted off before digging; the usual strip where nothing is said.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub clear: Option<Clearing>,
    /// The upright boards; none where they are not there.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub pales: Option<Pales>,
    /// Keys that this program does not know, kept as they are.
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

/// The board along the ground: how high it is, how it follows the ground, and where it sits. Mm.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(default)]
pub struct Gravel {
    /// From its bottom edge to its top, mm; 150 where nothing is said.
    pub height: f64,
    /// From its front face to its back, mm; 22 where nothing is said.
    pub thick: f64,
    /// From the posts' front face to the board's; in the middle of the posts where none is given,
    /// or just in front of them for boards across their faces.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub set: Option<f64>,
    /// Between the posts' sides where nothing is said.
    #[serde(skip_serializing_if = "Joint::is_side")]
    pub joint: Joint,
    /// Kept under it at the highest ground, mm, before `dig` lets it in; 10 where nothing is
    /// said.
    pub clearance: f64,
    /// How far it is let in below that clearance, mm; 0 where nothing is said.
    pub dig: f64,
    /// The largest gap under it that is still fine, mm; a larger one is a warning, 50 where
    /// nothing is said.
    pub gap: f64,
    /// Level right round where nothing is said.
    pub fit: BoardFit,
    /// A stepped board is lowered only by whole steps of this height, mm; by any amount where
    /// none is given.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub step: Option<f64>,
    /// Height of its top, mm up positive; worked out from the ground where none is given.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub top: Option<f64>,
    /// Keys that this program does not know, kept as they are.
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

/// How gravel boards follow the ground.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "lowercase")]
pub enum BoardFit {
    /// All at one level: that of the highest ground of all runs.
    #[default]
    Level,
    /// Bay by bay, each at the highest ground of its own bay.
    Stepped,
}

/// The rails of every bay, their centres spread evenly from the lowest to the highest. Mm.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(default)]
pub struct Rails {
    /// How many in each bay; 3 where nothing is said.
    pub count: u32,
    /// Centre of the lowest above the gravel board's top, mm; 60 where nothing is said.
    pub low: f64,
    /// Centre of the highest above the gravel board's top, mm; 1440 where nothing is said.
    pub high: f64,
    /// How far each end sits in its post, mm; 15 where nothing is said.
    pub seat: f64,
    /// Depth cut into the post for a rail, mm; the seat where none is given.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub notch: Option<f64>,
    /// From a rail's bottom edge to its top, mm; 75 where nothing is said.
    pub height: f64,
    /// Thickness of a rail; 40 where none is given.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub thick: Option<f64>,
    /// From the posts' front face to the rail's; in the middle of the posts where none is given,
    /// or a notch deep in their fronts for rails across their faces.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub set: Option<f64>,
    /// Ends let into the posts' sides where nothing is said.
    #[serde(skip_serializing_if = "Joint::is_side")]
    pub joint: Joint,
    /// Keys that this program does not know, kept as they are.
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

    /// From a rail's centre up to the edge that its heights are of, mm.
    #[must_use]
    pub fn edge(&self, edge: RailEdge) -> f64 {
        edge.above_centre(self.height)
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

/// The upright boards in front of the rails, each lapping the next. Mm.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(default)]
pub struct Pales {
    /// Of one pale, along the fence, mm; 150 where nothing is said.
    pub width: f64,
    /// The least that one pale may cover of the next, mm; the true lap is worked out, 20 where
    /// nothing is said.
    pub lap: f64,
    /// Their tops above the gravel board's top, mm; 1600 where nothing is said.
    pub height: f64,
    /// Keys that this program does not know, kept as they are.
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

/// What a piece of timber is.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
#[serde(rename_all = "lowercase")]
pub enum CutPiece {
    /// Along the ground, in one bay.
    Gravel,
    /// From post to post, in one bay.
    Rail,
    /// Upright, in front of the rails.
    Pale,
    /// As long as it is cut, with what goes into the ground.
    Post,
}

/// Pieces of one kind and length that are cut already.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct CutDone {
    /// What they are.
    pub piece: CutPiece,
    /// What they are cut to, mm.
    pub length: f64,
    /// Keys that this program does not know, kept as they are.
    #[serde(flatten)]
    pub extra: Extra,
}

impl CutDone {
    /// Whether it is this kind and length, to half a millimetre.
    #[must_use]
    pub fn is(&self, piece: CutPiece, length: f64) -> bool {
        self.piece == piece && (self.length - length).abs() < 0.5
    }
}

/// Lengths that can be bought, mm; where a list is empty, nothing is laid out for cutting.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(default)]
pub struct Stock {
    /// Of gravel boards, mm.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub gravel: Vec<f64>,
    /// Of rails, mm.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub rails: Vec<f64>,
    /// Of posts, mm.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub posts: Vec<f64>,
    /// Width of a saw cut, mm; 3 where nothing is said.
    pub kerf: f64,
    /// What is cut already.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub done: Vec<CutDone>,
    /// Keys that this program does not know, kept as they are.
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
            done: Vec::new(),
            extra: Extra::new(),
        }
    }
}
