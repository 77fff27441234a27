//! How long a gravel board or a rail is, from where it sits: at either of its two edges, how far
//! it is from what it meets at one end to what it meets at the other.
//!
//! ```text
//!   string ──────────────────────────────────────────────
//!      ▐▌                                        ╱╲
//!   y₀ ▐▌─────────────── front edge ────────────╱  ╲      long point front or back: the end is
//!   y₁ ▐▌────────────────── back edge ────────────╱       cut on the bevel
//!      ▐▌                                       ╲╱
//! ```

use super::WhichEnd;
use super::bays::Bay;
use super::laid::{LaidRun, Tip};
use super::outline::Outline;
use crate::job::model::Joint;
use serde::Serialize;

/// Two edges that differ by less than this are cut square, mm.
const SQUARE: f64 = 0.05;

/// How a piece sits: the depths of its two edges behind the string, and how it meets its posts. Mm.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Sits {
    pub front: f64,
    pub back: f64,
    pub joint: Joint,
}

/// A piece's lengths, mm.
#[derive(Clone, Debug, Default, PartialEq)]
pub(super) struct Length {
    /// Of the longer of its two edges.
    pub long: f64,
    /// The shortest clear anywhere between them.
    pub short: f64,
    pub ends: Vec<PieceEnd>,
}

/// An end that is cut on the bevel.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct PieceEnd {
    /// Which of its two ends, as the run goes.
    pub end: WhichEnd,
    /// The edge that its long point is on, as seen from the string.
    #[serde(rename = "long point")]
    pub long_point: LongPoint,
    /// On a saw that reads 0 for a square cut, degrees.
    #[serde(rename = "off square")]
    pub off_square: f64,
    /// Measured from the piece's length, degrees.
    #[serde(rename = "from length")]
    pub from_length: f64,
    /// From its long to its short point along the piece, mm.
    #[serde(rename = "long to short")]
    pub long_to_short: f64,
    /// The corner of the post that pokes into the end between the two edges.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub corner: Option<PostCorner>,
}

/// A corner of a post that pokes into the end of a piece: a straight cut from edge to edge would
/// not clear it. Mm.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct PostCorner {
    /// Behind the piece's front edge.
    pub behind: f64,
    /// How much shorter than its longer edge the piece is there.
    pub shorter: f64,
}

/// The edge of a piece nearer the string, or the one away from it.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "lowercase")]
pub enum LongPoint {
    /// Nearer the string.
    Front,
    /// Away from the string.
    Back,
}

/// What a piece meets at one end of its bay.
#[derive(Clone, Copy)]
enum Meets {
    /// The side of a post.
    Side(Outline),
    /// A square cut at a running reading.
    Cut(f64),
    /// The plane through the crossing of two strings that halves their angle: at depth y it lies
    /// at `from` + `lean` · y.
    Mitre { from: f64, lean: f64 },
}

impl Meets {
    /// Running reading of the piece's end at a depth.
    fn at(&self, depth: f64, tip: Tip) -> f64 {
        match (self, tip) {
            (Self::Side(outline), Tip::Start) => outline.span(depth)[1],
            (Self::Side(outline), Tip::End) => outline.span(depth)[0],
            (Self::Cut(at), _) => *at,
            (Self::Mitre { from, lean }, _) => from + lean * depth,
        }
    }

    /// Depths at which it turns.
    fn turns(&self) -> Vec<f64> {
        match self {
            Self::Side(outline) => outline.depths().to_vec(),
            Self::Cut(_) | Self::Mitre { .. } => Vec::new(),
        }
    }
}

/// The lengths of a piece that sits like this in a bay.
pub(super) fn length(run: &LaidRun, laid: &[LaidRun], bay: &Bay, sits: Sits) -> Length {
    let meets = [Tip::Start, Tip::End].map(|tip| meets(run, laid, bay, sits, tip));
    let [start, end] = &meets;
    let clear = |depth: f64| end.at(depth, Tip::End) - start.at(depth, Tip::Start);
    let edges = [sits.front, sits.back].map(clear);
    let inside = |depth: &f64| *depth > sits.front && *depth < sits.back;
    let turns = start.turns().into_iter().chain(end.turns());
    let short = turns
        .filter(inside)
        .map(clear)
        .chain(edges)
        .fold(f64::INFINITY, f64::min);
    let bevelled = [(start, Tip::Start), (end, Tip::End)].into_iter();
    Length {
        long: edges[0].max(edges[1]).max(0.0),
        short: short.max(0.0),
        ends: bevelled
            .filter_map(|(meets, tip)| bevel(meets, tip, sits))
            .collect(),
    }
}

fn bevel(meets: &Meets, tip: Tip, sits: Sits) -> Option<PieceEnd> {
    // How far the piece reaches past its post's line at a depth, towards this end.
    let reach = |depth: f64| match tip {
        Tip::Start => -meets.at(depth, tip),
        Tip::End => meets.at(depth, tip),
    };
    let thick = sits.back - sits.front;
    let lean = reach(sits.back) - reach(sits.front);
    let longest = reach(sits.back).max(reach(sits.front));
    let straight = |depth: f64| reach(sits.front) + lean * (depth - sits.front) / thick;
    let inside = |depth: &f64| *depth > sits.front && *depth < sits.back;
    let corner = meets
        .turns()
        .into_iter()
        .filter(inside)
        .filter(|&depth| reach(depth) < straight(depth) - SQUARE)
        .min_by(|a, b| (reach(*a) - straight(*a)).total_cmp(&(reach(*b) - straight(*b))))
        .map(|depth| PostCorner {
            behind: depth - sits.front,
            shorter: longest - reach(depth),
        });
    if (lean.abs() < SQUARE && corner.is_none()) || thick <= 0.0 {
        return None;
    }
    let off_square = lean.abs().atan2(thick).to_degrees();
    Some(PieceEnd {
        end: match tip {
            Tip::Start => WhichEnd::Start,
            Tip::End => WhichEnd::End,
        },
        long_point: if lean > 0.0 {
            LongPoint::Back
        } else {
            LongPoint::Front
        },
        off_square,
        from_length: 90.0 - off_square,
        long_to_short: lean.abs(),
        corner,
    })
}

fn meets(run: &LaidRun, laid: &[LaidRun], bay: &Bay, sits: Sits, tip: Tip) -> Meets {
    let n = match tip {
        Tip::Start => bay.from,
        Tip::End => bay.to,
    };
    let Some(post) = run.post(n) else {
        return Meets::Cut(match tip {
            Tip::Start => bay.near,
            Tip::End => bay.far,
        });
    };
    match sits.joint {
        Joint::Side => Meets::Side(run.outline(post)),
        Joint::Face => {
            if let Some(mitre) = mitre(run, laid, n, tip) {
                return mitre;
            }
            let goes_on = run.bays.iter().any(|other| match tip {
                Tip::Start => other.to == n,
                Tip::End => other.from == n,
            });
            Meets::Cut(match (goes_on, tip) {
                (true, _) => post.centre,
                (false, Tip::Start) => post.near,
                (false, Tip::End) => post.far,
            })
        }
    }
}

/// The mitre with the other run's piece at a shared corner post that both runs have a bay at.
fn mitre(run: &LaidRun, laid: &[LaidRun], n: usize, tip: Tip) -> Option<Meets> {
    if run.post_at(tip)?.n != n {
        return None;
    }
    let partner = run.partner(tip, laid)?;
    partner.run.bay_at(partner.tip)?;
    let half_turn = (180.0 - run.between_arms(tip, &partner)) / 2.0;
    let slope = half_turn.to_radians().tan();
    // Posts in the angle between the runs: their pieces are shorter the deeper they sit.
    let other_way = partner.run.arm(partner.tip) - run.arm(tip);
    let left_of_arm = match tip {
        Tip::Start => run.side,
        Tip::End => -run.side,
    };
    let inside = other_way.to_radians().sin() * left_of_arm >= 0.0;
    let shorter = if inside { slope } else { -slope };
    Some(match tip {
        Tip::Start => Meets::Mitre {
            from: 0.0,
            lean: shorter,
        },
        Tip::End => Meets::Mitre {
            from: run.fix.length,
            lean: -shorter,
        },
    })
}
