//! What meets a post from one side: its gravel board and its rails.

use super::bays::Bay;
use super::rails;
use crate::job::model::Boards;
use serde::Serialize;

/// What meets a post from one side. Heights mm above the datum's zero.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct BayAt {
    /// Top of the gravel board.
    pub top: f64,
    /// Bottom of the gravel board.
    pub bottom: f64,
    /// Centres of the rails, lowest first.
    pub rails: Vec<f64>,
    /// Gravel board's bottom above the ground at the post; negative where it is let in.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub gap: Option<f64>,
    /// How deep to dig at the post for the board and its clearance.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub dig: Option<f64>,
}

/// What a bay brings to its post; none while its board has no height.
pub(super) fn bay_at(bay: &Bay, ground: Option<f64>, boards: &Boards) -> Option<BayAt> {
    let board = bay.board?;
    let clearance = boards.gravel.as_ref().map_or(0.0, |g| g.clearance);
    Some(BayAt {
        top: board.top,
        bottom: board.bottom,
        rails: boards
            .rails
            .as_ref()
            .map(|rails| rails::heights(rails, Some(board)))
            .unwrap_or_default(),
        gap: ground.map(|ground| board.bottom - ground),
        dig: ground.map(|ground| (ground + clearance - board.bottom).max(0.0)),
    })
}
