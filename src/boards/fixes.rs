use super::{Buy, Cut, GateLeaf, NotchFix, PaleStretch, PieceEnd, PostHeights, RailEnd};
use crate::job::ByName;
use crate::job::{RunId, SetupId};
use serde::Serialize;

/// What the fence is made of, run by run, and all of it together.
#[derive(Clone, Debug, Default, PartialEq, Serialize)]
pub struct BoardsFix {
    /// By run, in the order of the file.
    pub runs: ByName<RunId, RunBoards>,
    /// What to cut, longest first within each kind.
    pub cuts: Vec<Cut>,
    /// What to buy.
    pub buy: Buy,
}

/// The boards of one run. Parts that the job does not ask for are empty.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct RunBoards {
    /// The set-up that `down` is measured from: the first that sights the run's ground.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub setup: Option<SetupId>,
    /// One for every bay without a gate, from the start.
    pub gravel: Vec<GravelBoard>,
    /// The rails of every bay without a gate, from the start.
    pub rails: Vec<RailBay>,
    /// The pales of every stretch between gates, from the start.
    pub pales: Vec<PaleStretch>,
    /// The run's ground points whose height is known, by running reading.
    pub ground: Vec<GroundAt>,
    /// Every post, from the start.
    pub posts: Vec<PostHeights>,
    /// Numbers of posts that are marked and cut together: the same housings, boards and bolts to
    /// 1 mm.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub alike: Vec<Vec<usize>>,
    /// Leaves of the gates whose gaps the job gives.
    pub gates: Vec<GateLeaf>,
    /// Rail ends that are cut at a corner shared with another run.
    #[serde(rename = "rail ends")]
    pub ends: Vec<RailEnd>,
    /// What the rails' housings leave of the posts; none where there are none.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub notch: Option<NotchFix>,
}

/// The gravel board of one bay, between the posts numbered `from` and `to`. Mm; heights are
/// missing where they are not known yet.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct GravelBoard {
    /// The post nearer the run's start.
    pub from: usize,
    /// The post nearer the run's end.
    pub to: usize,
    /// Height of its top, up positive.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub top: Option<f64>,
    /// Height of its bottom, up positive.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub bottom: Option<f64>,
    /// Down from the line of the run's set-up to the board's top.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub down: Option<f64>,
    /// Board's bottom above the lowest ground of the bay; negative where it is let in all along.
    #[serde(rename = "max gap", skip_serializing_if = "Option::is_none")]
    pub max_gap: Option<f64>,
    /// How deep to dig at the highest ground of the bay for the board and its clearance.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub dig: Option<f64>,
    /// Of the longer of its two edges, from what it meets at one end to what it meets at the other.
    pub length: f64,
    /// The shortest clear anywhere between the two edges.
    pub short: f64,
    /// Ends that are cut on the bevel; none where both are square.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub ends: Vec<PieceEnd>,
}

/// The rails of one bay, lowest first, mm.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct RailBay {
    /// Number of the post nearer the run's start.
    pub from: usize,
    /// Number of the post nearer the run's end.
    pub to: usize,
    /// Down from the line of the run's set-up to each rail's centre; empty where not known.
    pub down: Vec<f64>,
    /// Height of each rail's centre; empty where not known.
    pub heights: Vec<f64>,
    /// Of the longer of its two edges, with the seats at both ends.
    pub length: f64,
    /// The shortest clear anywhere between the two edges, with the seats.
    pub short: f64,
    /// Ends that are cut on the bevel; none where both are square.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub ends: Vec<PieceEnd>,
    /// How much shorter each rail is cut, lowest first, because its housings are shallower than
    /// the seat; empty where none is.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub shorter: Vec<f64>,
}

/// Ground at a running reading, mm.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct GroundAt {
    /// Running reading.
    pub at: f64,
    /// Up positive.
    pub height: f64,
}
