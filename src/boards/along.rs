//! Every mark along a post, measured from its top, so that it can be marked and cut on trestles
//! before it is set.
//!
//! ```text
//!   top                                                     cut-off
//!   ├──────┬────┬───────────────┬────┬─────────┬───┬────┬───┤
//!   │      │▒▒▒▒│       o       │▒▒▒▒│         │▒▒▒│    ┊   │
//!   └──────┴────┴───────────────┴────┴─────────┴───┴────┴───┘
//!          rail 2      bolt      rail 1   gravel board  ground
//! ```

use super::WhichEnd;
use super::bolts::{BoltRow, NoRoom, bolts};
use super::meets::BayAt;
use crate::job::model::{Boards, Foot, Joint};
use serde::{Serialize, Serializer};
use std::fmt;

/// Marks that agree within this are cut alike, mm.
const ALIKE: f64 = 1.0;
/// Housings of one rail on either side that differ by less than this are one, mm.
const SAME: f64 = 0.05;

/// What a mark along a post is for.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum AlongWhat {
    /// The housing of a rail, counted from 1 at the lowest.
    Rail(usize),
    /// The gravel board, from its upper edge to its lower.
    Gravel,
    /// The ground at the post's centre: a line.
    Ground,
    /// A bolt into the wall, counted from 1 at the highest.
    Bolt(usize),
}

impl fmt::Display for AlongWhat {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Rail(n) => write!(f, "rail {n}"),
            Self::Gravel => f.write_str("gravel board"),
            Self::Ground => f.write_str("ground"),
            Self::Bolt(n) => write!(f, "bolt {n}"),
        }
    }
}

impl Serialize for AlongWhat {
    fn serialize<S: Serializer>(&self, to: S) -> Result<S::Ok, S::Error> {
        to.collect_str(self)
    }
}

/// The face of a post that something is on, as the run goes.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "lowercase")]
pub enum PostFace {
    /// Towards the run's start.
    Start,
    /// Towards the run's end.
    End,
    /// Towards the string.
    Front,
}

/// A mark along a post, mm from its top.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct AlongPost {
    /// What is there.
    pub what: AlongWhat,
    /// Upper and lower edge; the same for a line or a bolt's centre.
    pub from: f64,
    /// Lower edge.
    pub to: f64,
    /// Depth of a housing.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub depth: Option<f64>,
    /// The face it is on; none where it goes all round, or through the post.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub side: Option<PostFace>,
    /// Half of the front that it keeps to, where the rails on either side are at different heights.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub half: Option<WhichEnd>,
    /// Bending strength that a housing leaves: ((depth − notch)/depth)², 0 to 1.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub bending: Option<f64>,
    /// Section that a housing leaves: (depth − notch)/depth, 0 to 1.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub section: Option<f64>,
}

impl AlongPost {
    fn line(what: AlongWhat, at: f64) -> Self {
        Self {
            what,
            from: at,
            to: at,
            depth: None,
            side: None,
            half: None,
            bending: None,
            section: None,
        }
    }

    fn is_alike(&self, other: &Self) -> bool {
        let near = |a: f64, b: f64| (a - b).abs() <= ALIKE;
        self.what == other.what
            && self.side == other.side
            && self.half == other.half
            && near(self.from, other.from)
            && near(self.to, other.to)
            && near(self.depth.unwrap_or(0.0), other.depth.unwrap_or(0.0))
    }
}

/// A post to mark: its top, length and ground, what meets it on either side, how it stands, and its
/// width along the run and depth across it. Mm.
pub(super) struct Blank<'a> {
    pub top: Option<f64>,
    pub length: Option<f64>,
    pub ground: Option<f64>,
    pub sides: [Option<&'a BayAt>; 2],
    pub foot: Foot,
    pub size: [f64; 2],
}

impl Blank<'_> {
    fn sides(&self) -> impl Iterator<Item = (WhichEnd, &BayAt)> {
        let ends = [WhichEnd::Start, WhichEnd::End].into_iter();
        ends.zip(self.sides)
            .filter_map(|(end, bay)| Some((end, bay?)))
    }
}

/// The marks of a post from the top down, and its bolts; no marks while its top is not known.
/// Where bolts find no room, the marks are without them.
pub(super) fn along(
    boards: &Boards,
    blank: &Blank<'_>,
) -> (Vec<AlongPost>, Result<Option<BoltRow>, NoRoom>) {
    let (Some(top), Some(length)) = (blank.top, blank.length) else {
        return (Vec::new(), Ok(None));
    };
    let mut marks = housings(boards, blank, top);
    for mark in &mut marks {
        (mark.from, mark.to) = (mark.from.max(0.0), mark.to.min(length));
    }
    marks.retain(|mark| mark.to > mark.from);
    let row = match blank.foot {
        Foot::Wall => {
            let cuts: Vec<[f64; 2]> = marks.iter().map(|mark| [mark.from, mark.to]).collect();
            let wall = boards.fixings.clone().unwrap_or_default().wall;
            bolts(length, &cuts, &wall, blank.size[0]).map(Some)
        }
        Foot::Hole | Foot::Plate => Ok(None),
    };
    marks.extend(gravel(boards, blank, top));
    let ground = blank.ground.map(|ground| top - ground);
    marks.extend(ground.map(|at| AlongPost::line(AlongWhat::Ground, at)));
    if let Ok(Some(row)) = &row {
        let bolts = row.at.iter().enumerate();
        marks.extend(bolts.map(|(i, &at)| AlongPost::line(AlongWhat::Bolt(i + 1), at)));
    }
    marks.sort_by(|a, b| a.from.total_cmp(&b.from));
    (marks, row)
}

fn housings(boards: &Boards, blank: &Blank<'_>, top: f64) -> Vec<AlongPost> {
    let Some(rails) = &boards.rails else {
        return Vec::new();
    };
    let mut marks: Vec<AlongPost> = Vec::new();
    for (end, bay) in blank.sides() {
        for (at, &centre) in bay.rails.iter().enumerate() {
            let notch = boards.notch(at + 1, blank.foot);
            let left = 1.0 - notch / blank.size[1];
            let mut mark = AlongPost {
                from: top - centre - rails.height / 2.0,
                to: top - centre + rails.height / 2.0,
                depth: Some(notch),
                side: Some(match (rails.joint, end) {
                    (Joint::Face, _) => PostFace::Front,
                    (Joint::Side, WhichEnd::Start) => PostFace::Start,
                    (Joint::Side, WhichEnd::End) => PostFace::End,
                }),
                bending: Some(left * left),
                section: Some(left),
                ..AlongPost::line(AlongWhat::Rail(at + 1), 0.0)
            };
            let twin = marks
                .iter_mut()
                .find(|one| one.what == mark.what && one.side == mark.side);
            match twin {
                Some(twin) if (twin.from - mark.from).abs() < SAME => continue,
                Some(twin) => {
                    twin.half = Some(WhichEnd::Start);
                    mark.half = Some(end);
                }
                None => {}
            }
            marks.push(mark);
        }
    }
    marks
}

fn gravel(boards: &Boards, blank: &Blank<'_>, top: f64) -> Vec<AlongPost> {
    let Some(gravel) = &boards.gravel else {
        return Vec::new();
    };
    let mut marks: Vec<AlongPost> = Vec::new();
    for (end, bay) in blank.sides() {
        let mut mark = AlongPost {
            from: top - bay.top,
            to: top - bay.bottom,
            side: Some(match (gravel.joint, end) {
                (Joint::Face, _) => PostFace::Front,
                (Joint::Side, WhichEnd::Start) => PostFace::Start,
                (Joint::Side, WhichEnd::End) => PostFace::End,
            }),
            ..AlongPost::line(AlongWhat::Gravel, 0.0)
        };
        if let Some(twin) = marks.iter_mut().find(|one| one.side == mark.side) {
            if (twin.from - mark.from).abs() < SAME {
                continue;
            }
            twin.half = Some(WhichEnd::Start);
            mark.half = Some(end);
        }
        marks.push(mark);
    }
    marks
}

/// Posts with the same housings, boards and bolts to 1 mm, by their numbers: clamped side by side,
/// tops level, they are marked and cut together. Where the ground and the cut-off come is each
/// post's own. Only posts of one size. Each post comes as its
/// number, its size and its marks.
pub(super) fn alike<'a>(
    posts: impl Iterator<Item = (usize, [f64; 2], &'a [AlongPost])>,
) -> Vec<Vec<usize>> {
    let mut groups: Vec<(Vec<AlongPost>, [f64; 2], Vec<usize>)> = Vec::new();
    for (n, size, marks) in posts {
        if marks.is_empty() {
            continue;
        }
        let cut = |mark: &&AlongPost| mark.what != AlongWhat::Ground;
        let own: Vec<AlongPost> = marks.iter().filter(cut).copied().collect();
        let group = groups.iter_mut().find(|(marks, of, _)| {
            *of == size
                && marks.len() == own.len()
                && marks.iter().zip(&own).all(|(a, b)| a.is_alike(b))
        });
        match group {
            Some((.., numbers)) => numbers.push(n),
            None => groups.push((own, size, vec![n])),
        }
    }
    groups.into_iter().map(|(.., numbers)| numbers).collect()
}
