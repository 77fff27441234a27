//! What a run comes to.

use crate::job::MarkId;
use crate::job::model::Foot;
use serde::Serialize;

/// Why a post stands where it does.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "lowercase")]
pub enum PostKind {
    /// Hard against a wall at the run's start or end.
    Wall,
    /// The corner post, shared with the next run.
    Corner,
    /// Beside a gate opening.
    Gate,
    /// Between the others, or pinned.
    Line,
    /// At a mark or at a given length.
    End,
}

/// A run's length, and its posts in order of running reading.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct RunFix {
    /// From the zero to the run's end along the string, mm.
    pub length: f64,
    /// Half width of the 95 % band of that length, mm.
    #[serde(rename = "length pm")]
    pub length_pm: f64,
    /// The zero of the running readings, on the string, mm.
    pub zero: [f64; 2],
    /// Direction of the run, degrees from +x.
    pub bearing: f64,
    /// From the start, numbered from 1.
    pub posts: Vec<Post>,
    /// Gate openings that fit the run, in order of running reading.
    pub gates: Vec<GateFix>,
}

/// One post. Running readings of its near face, centre and far face along the string, mm.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Post {
    /// Number in the run, from 1.
    pub n: usize,
    /// Why it stands where it stands.
    pub kind: PostKind,
    /// Face nearer the run's start, mm from the zero.
    pub near: f64,
    /// Middle of the post along the string, mm from the zero.
    pub centre: f64,
    /// Face nearer the run's end, mm from the zero.
    pub far: f64,
    /// Its centre along +x of the marks' frame, mm.
    pub x: f64,
    /// Its centre along +y of that frame, mm.
    pub y: f64,
    /// String to the post's centre, square off it to the side the posts stand on, mm.
    pub off: f64,
    /// Half width of the 95 % band of its place along the run, mm.
    pub pm: f64,
    /// Centre to centre from the post before, mm; none for the first.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub bay: Option<f64>,
    /// Face to face from the post before, mm; none for the first.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub clear: Option<f64>,
    /// How it stands.
    pub foot: Foot,
    /// It stays where it was measured, and the rest is fitted to it.
    #[serde(skip_serializing_if = "std::ops::Not::not")]
    pub kept: bool,
    /// How much of the depth of a post that is fixed to a wall lies against it, mm.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub bearing: Option<f64>,
    /// How far the wall is out of square over the post's depth, mm; only for a post at a wall.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub wedge: Option<f64>,
    /// Two-tape swings: two marks and the distance from each to the post's centre, mm; none where no
    /// pair of marks crosses well.
    pub arcs: Option<[(MarkId, f64); 2]>,
    /// Size of the post, mm: width along its own axis, depth across.
    #[serde(skip)]
    pub size: [f64; 2],
    /// Bearing of the post's width, degrees.
    #[serde(skip)]
    pub rotation: f64,
}

/// A gate opening between two posts (their numbers); running readings of its edges, mm.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct GateFix {
    /// Place in the file's list of the run's gates.
    pub index: usize,
    /// The post at the edge nearer the run's start.
    pub from: usize,
    /// The post at the edge nearer the run's end.
    pub to: usize,
    /// Edge nearer the run's start, mm from the zero.
    pub near: f64,
    /// Edge nearer the run's end, mm from the zero.
    pub far: f64,
}

#[cfg(test)]
impl Post {
    /// A post square to its run, at a running reading, its centre `off` behind the string, mm.
    pub(crate) fn square(kind: PostKind, centre: f64, off: f64, size: [f64; 2]) -> Self {
        Self {
            n: 1,
            kind,
            near: centre - size[0] / 2.0,
            centre,
            far: centre + size[0] / 2.0,
            x: centre,
            y: off,
            off,
            pm: 0.0,
            bay: None,
            clear: None,
            foot: Foot::Hole,
            kept: false,
            bearing: None,
            wedge: None,
            arcs: None,
            size,
            rotation: 0.0,
        }
    }
}

impl Post {
    /// Centre to centre from another post, of whichever run, mm.
    #[must_use]
    pub fn apart(&self, other: &Post) -> f64 {
        (self.x - other.x).hypot(self.y - other.y)
    }
}

impl RunFix {
    /// A post by its number, from 1.
    #[must_use]
    pub fn post(&self, n: usize) -> Option<&Post> {
        self.posts.get(n.checked_sub(1)?)
    }

    /// True where the bay from post `n` to the next is a gate opening.
    #[must_use]
    pub fn gate_after(&self, n: usize) -> bool {
        self.gates.iter().any(|gate| gate.from == n)
    }
}
