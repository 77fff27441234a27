//! Setting a post that is cut already: which of its marks comes to the laser line.

use super::along::{AlongPost, AlongWhat};
use super::marks::UpOrDown;
use serde::Serialize;

/// The mark to bring to a laser line when a post that is already cut is set, mm.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct LaserMark {
    /// From the post's top to the laser line; none where the line passes over the post.
    #[serde(rename = "from top", skip_serializing_if = "Option::is_none")]
    pub from_top: Option<f64>,
    /// The nearest mark; none for the top itself.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub what: Option<AlongWhat>,
    /// Which edge of it; the upper for the top itself.
    pub edge: MarkEdge,
    /// Which way that mark is from the laser line, and by how much.
    pub way: UpOrDown,
    /// How far, never negative.
    pub by: f64,
}

impl LaserMark {
    /// What a person calls the mark: “its top”, “the upper edge of rail 2”.
    #[must_use]
    pub fn called(&self) -> String {
        let edge = match self.edge {
            MarkEdge::Upper => "upper",
            MarkEdge::Lower => "lower",
        };
        match self.what {
            Some(what) => format!("the {edge} edge of {what}"),
            None => "its top".to_owned(),
        }
    }
}

/// An edge of a housing or a board.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "lowercase")]
pub enum MarkEdge {
    /// The one nearer the post's top.
    Upper,
    /// The one nearer the post's foot.
    Lower,
}

/// The mark that comes nearest a laser line `below` the post's top, mm.
pub(super) fn nearest(along: &[AlongPost], below: f64) -> Option<LaserMark> {
    let edges = along
        .iter()
        .filter(|mark| matches!(mark.what, AlongWhat::Rail(_) | AlongWhat::Gravel));
    let edges = edges.flat_map(|mark| {
        [
            (Some(mark.what), MarkEdge::Upper, mark.from),
            (Some(mark.what), MarkEdge::Lower, mark.to),
        ]
    });
    let all = edges.chain([(None, MarkEdge::Upper, 0.0)]);
    let (what, edge, at) =
        all.min_by(|a, b| (a.2 - below).abs().total_cmp(&(b.2 - below).abs()))?;
    Some(LaserMark {
        from_top: (below >= 0.0).then_some(below),
        what,
        edge,
        way: if at <= below {
            UpOrDown::Up
        } else {
            UpOrDown::Down
        },
        by: (below - at).abs(),
    })
}
