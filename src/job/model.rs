//! The job as it is on disk, version 1. Plain data; nothing here is checked (see [`super::check`]).
//!
//! Lengths and heights are millimetres, angles degrees. A missing part takes its default or stays
//! empty; a key this program does not know is kept in `extra` and written back.

use super::ids::{CornerId, LineId, MarkId, PointId, RunId, SetupId, WallId};
use super::reading::Reading;
use crate::{length::Unit, tape::TapeClass};
use serde::{Deserialize, Serialize};
use serde_json::{Map, Value};

/// Keys of the file that this program does not know, kept as they are.
pub type Extra = Map<String, Value>;

/// The word every job file starts with.
pub const FORMAT: &str = "tautmark-job";
/// The newest version of the job file this program can change.
pub const VERSION: u32 = 1;

/// A whole job: what was measured and what is wanted.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Job {
    pub format: String,
    pub version: u32,
    pub title: String,
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub notes: String,
    #[serde(default)]
    pub show: Show,
    #[serde(default)]
    pub tape: Tape,
    #[serde(default)]
    pub level: Laser,
    #[serde(default)]
    pub tolerance: Tolerance,
    #[serde(default)]
    pub marks: Vec<Mark>,
    #[serde(default)]
    pub walls: Vec<Wall>,
    #[serde(default)]
    pub readings: Vec<Reading>,
    #[serde(default)]
    pub lines: Vec<Line>,
    #[serde(default)]
    pub corners: Vec<Corner>,
    #[serde(default)]
    pub runs: Vec<Run>,
    #[serde(default)]
    pub hole: Hole,
    #[serde(default)]
    pub levels: Levels,
    #[serde(default)]
    pub boards: Boards,
    #[serde(default)]
    pub stock: Stock,
    #[serde(default)]
    pub marked: Vec<Marked>,
    #[serde(flatten)]
    pub extra: Extra,
}

impl Job {
    /// A job with a title and nothing measured yet.
    #[must_use]
    pub fn new(title: &str) -> Self {
        Self {
            format: FORMAT.to_owned(),
            version: VERSION,
            title: title.to_owned(),
            notes: String::new(),
            show: Show::default(),
            tape: Tape::default(),
            level: Laser::default(),
            tolerance: Tolerance::default(),
            marks: Vec::new(),
            walls: Vec::new(),
            readings: Vec::new(),
            lines: Vec::new(),
            corners: Vec::new(),
            runs: Vec::new(),
            hole: Hole::default(),
            levels: Levels::default(),
            boards: Boards::default(),
            stock: Stock::default(),
            marked: Vec::new(),
            extra: Extra::new(),
        }
    }
}

/// How figures are shown.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
pub struct Show {
    #[serde(default)]
    pub lengths: Unit,
    #[serde(flatten)]
    pub extra: Extra,
}

/// The tape: its accuracy class and the standard deviation of one reading, mm.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(default)]
pub struct Tape {
    pub class: TapeClass,
    pub reading: f64,
    #[serde(flatten)]
    pub extra: Extra,
}

impl Default for Tape {
    fn default() -> Self {
        Self {
            class: TapeClass::II,
            reading: 1.0,
            extra: Extra::new(),
        }
    }
}

/// The laser: its stated accuracy (a limit, mm per m) and the standard deviation of one reading, mm.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(default)]
pub struct Laser {
    pub accuracy: f64,
    pub reading: f64,
    #[serde(flatten)]
    pub extra: Extra,
}

impl Default for Laser {
    fn default() -> Self {
        Self {
            accuracy: 0.3,
            reading: 1.0,
            extra: Extra::new(),
        }
    }
}

/// How far a post as built may be from its place, and a height from its own, mm.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(default)]
pub struct Tolerance {
    pub length: f64,
    pub level: f64,
    #[serde(flatten)]
    pub extra: Extra,
}

impl Default for Tolerance {
    fn default() -> Self {
        Self {
            length: 5.0,
            level: 3.0,
            extra: Extra::new(),
        }
    }
}

/// A mark and where it is on the sketch: mm, any frame.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
#[serde(default)]
pub struct Mark {
    pub id: MarkId,
    #[serde(skip_serializing_if = "Option::is_none")]
    pub rough: Option<[f64; 2]>,
    #[serde(skip_serializing_if = "String::is_empty")]
    pub note: String,
    #[serde(flatten)]
    pub extra: Extra,
}

/// A wall through two marks, from → to.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
#[serde(default)]
pub struct Wall {
    pub id: WallId,
    #[serde(skip_serializing_if = "String::is_empty")]
    pub name: String,
    pub from: MarkId,
    pub to: MarkId,
    #[serde(flatten)]
    pub extra: Extra,
}

/// A side, as seen standing on a line and looking along its direction.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "lowercase")]
pub enum Side {
    Left,
    Right,
}

impl Side {
    /// +1 to the left, −1 to the right.
    #[must_use]
    pub fn sign(self) -> f64 {
        match self {
            Side::Left => 1.0,
            Side::Right => -1.0,
        }
    }

    /// The other side.
    #[must_use]
    pub fn other(self) -> Self {
        match self {
            Side::Left => Side::Right,
            Side::Right => Side::Left,
        }
    }
}

/// A string line: at offsets from a wall, or through two marks.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
#[serde(default)]
pub struct Line {
    pub id: LineId,
    #[serde(skip_serializing_if = "String::is_empty")]
    pub name: String,
    #[serde(skip_serializing_if = "Option::is_none")]
    pub wall: Option<WallId>,
    #[serde(skip_serializing_if = "Option::is_none")]
    pub side: Option<Side>,
    #[serde(skip_serializing_if = "Option::is_none")]
    pub offsets: Option<Vec<Station>>,
    #[serde(skip_serializing_if = "Option::is_none")]
    pub marks: Option<[MarkId; 2]>,
    #[serde(skip_serializing_if = "is_false")]
    pub reverse: bool,
    #[serde(flatten)]
    pub extra: Extra,
}

/// A nail: `at` along the wall from its from mark, `off` square out from it, mm.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
#[serde(default)]
pub struct Station {
    pub at: Option<f64>,
    pub off: Option<f64>,
    #[serde(flatten)]
    pub extra: Extra,
}

/// Where two lines cross, and the post that stands there.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
#[serde(default)]
pub struct Corner {
    pub id: CornerId,
    pub lines: [LineId; 2],
    #[serde(skip_serializing_if = "Option::is_none")]
    pub post: Option<CornerPost>,
    #[serde(flatten)]
    pub extra: Extra,
}

/// A corner post: size in mm and how it is turned.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(default)]
pub struct CornerPost {
    pub width: f64,
    pub depth: f64,
    pub set: PostSet,
    #[serde(flatten)]
    pub extra: Extra,
}

impl Default for CornerPost {
    fn default() -> Self {
        Self {
            width: 100.0,
            depth: 100.0,
            set: PostSet::default(),
            extra: Extra::new(),
        }
    }
}

/// How a corner post is turned: square to the first line, to the second, or on the bisector.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "lowercase")]
pub enum PostSet {
    First,
    Second,
    #[default]
    Bisect,
}

/// A stretch of fence along one line.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
#[serde(default)]
pub struct Run {
    pub id: RunId,
    #[serde(skip_serializing_if = "String::is_empty")]
    pub name: String,
    pub line: LineId,
    #[serde(skip_serializing_if = "Option::is_none")]
    pub side: Option<Side>,
    pub gap: f64,
    #[serde(skip_serializing_if = "Option::is_none")]
    pub start: Option<End>,
    #[serde(skip_serializing_if = "Option::is_none")]
    pub end: Option<End>,
    #[serde(skip_serializing_if = "Option::is_none")]
    pub post: Option<PostSize>,
    #[serde(skip_serializing_if = "Option::is_none")]
    pub bays: Option<Bays>,
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub gates: Vec<Gate>,
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub pins: Vec<Pin>,
    #[serde(flatten)]
    pub extra: Extra,
}

/// Where a run starts or ends: one of wall, corner, mark; an end may also be a length from the start.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
#[serde(default)]
pub struct End {
    #[serde(skip_serializing_if = "Option::is_none")]
    pub wall: Option<WallId>,
    #[serde(skip_serializing_if = "Option::is_none")]
    pub corner: Option<CornerId>,
    #[serde(skip_serializing_if = "Option::is_none")]
    pub mark: Option<MarkId>,
    #[serde(skip_serializing_if = "Option::is_none")]
    pub length: Option<f64>,
    #[serde(flatten)]
    pub extra: Extra,
}

/// A post's size: width along the run, depth across it, mm.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(default)]
pub struct PostSize {
    pub width: f64,
    pub depth: f64,
    #[serde(flatten)]
    pub extra: Extra,
}

impl Default for PostSize {
    fn default() -> Self {
        Self {
            width: 100.0,
            depth: 100.0,
            extra: Extra::new(),
        }
    }
}

/// How bays are filled: the longest bay, centre to centre, mm.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(default)]
pub struct Bays {
    pub max: f64,
    pub fit: BayFit,
    #[serde(flatten)]
    pub extra: Extra,
}

impl Default for Bays {
    fn default() -> Self {
        Self {
            max: 1800.0,
            fit: BayFit::default(),
            extra: Extra::new(),
        }
    }
}

/// Equal bays, or full bays from the start and one closing bay.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "lowercase")]
pub enum BayFit {
    #[default]
    Equal,
    Full,
}

/// A gate: its clear opening starts at this running reading, mm.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
#[serde(default)]
pub struct Gate {
    pub at: Option<f64>,
    pub clear: Option<f64>,
    #[serde(skip_serializing_if = "Option::is_none")]
    pub leaf: Option<Leaf>,
    #[serde(flatten)]
    pub extra: Extra,
}

/// The gaps a gate leaf needs, mm, and which gate post it hangs on.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(default)]
pub struct Leaf {
    pub hinge: f64,
    pub latch: f64,
    pub ground: f64,
    pub hung: Hung,
    #[serde(flatten)]
    pub extra: Extra,
}

impl Default for Leaf {
    fn default() -> Self {
        Self {
            hinge: 15.0,
            latch: 10.0,
            ground: 60.0,
            hung: Hung::default(),
            extra: Extra::new(),
        }
    }
}

/// The gate post that carries the hinges: nearer the run's start, or its end.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "lowercase")]
pub enum Hung {
    #[default]
    Start,
    End,
}

/// A post centre held at this running reading, mm; `stands` where the post is there already, so
/// that a bay beside it may be over the longest by the tolerance.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
#[serde(default)]
pub struct Pin {
    pub at: Option<f64>,
    #[serde(skip_serializing_if = "is_false")]
    pub stands: bool,
    #[serde(flatten)]
    pub extra: Extra,
}

/// A post hole, mm; litres of concrete from one bag; the share a dug hole runs over its drawing.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(default)]
pub struct Hole {
    pub diameter: f64,
    pub depth: f64,
    pub bag: f64,
    pub over: f64,
    #[serde(flatten)]
    pub extra: Extra,
}

impl Default for Hole {
    fn default() -> Self {
        Self {
            diameter: 300.0,
            depth: 600.0,
            bag: 12.0,
            over: 0.25,
            extra: Extra::new(),
        }
    }
}

/// Heights: the datum, the points, and what was sighted.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
#[serde(default)]
pub struct Levels {
    #[serde(skip_serializing_if = "Option::is_none")]
    pub datum: Option<Datum>,
    pub points: Vec<Point>,
    pub setups: Vec<Setup>,
    #[serde(flatten)]
    pub extra: Extra,
}

/// The point whose height is given, mm.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
#[serde(default)]
pub struct Datum {
    pub point: PointId,
    pub height: f64,
    #[serde(flatten)]
    pub extra: Extra,
}

/// A point with a height: ground on a run at a running reading, at a mark, or anywhere.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
#[serde(default)]
pub struct Point {
    pub id: PointId,
    #[serde(skip_serializing_if = "Option::is_none")]
    pub run: Option<RunId>,
    #[serde(skip_serializing_if = "Option::is_none")]
    pub at: Option<f64>,
    #[serde(skip_serializing_if = "Option::is_none")]
    pub mark: Option<MarkId>,
    #[serde(skip_serializing_if = "String::is_empty")]
    pub note: String,
    #[serde(flatten)]
    pub extra: Extra,
}

/// One position of the laser and what was sighted from it.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
#[serde(default)]
pub struct Setup {
    pub id: SetupId,
    pub sights: Vec<Sight>,
    #[serde(flatten)]
    pub extra: Extra,
}

/// One sight: how far the point is down from the laser line (negative: above it), and how far away, mm.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(default)]
pub struct Sight {
    pub point: PointId,
    pub down: Option<f64>,
    #[serde(skip_serializing_if = "Option::is_none")]
    pub dist: Option<f64>,
    #[serde(rename = "use", skip_serializing_if = "is_true")]
    pub used: bool,
    #[serde(flatten)]
    pub extra: Extra,
}

impl Default for Sight {
    fn default() -> Self {
        Self {
            point: PointId::default(),
            down: None,
            dist: None,
            used: true,
            extra: Extra::new(),
        }
    }
}

/// What the fence is made of.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
#[serde(default)]
pub struct Boards {
    #[serde(skip_serializing_if = "Option::is_none")]
    pub gravel: Option<Gravel>,
    #[serde(skip_serializing_if = "Option::is_none")]
    pub rails: Option<Rails>,
    #[serde(skip_serializing_if = "Option::is_none")]
    pub pales: Option<Pales>,
    #[serde(flatten)]
    pub extra: Extra,
}

/// The gravel board, mm: its height, clearance over the ground, how deep it may be let in, the
/// gap under it that is still fine, and how it follows the ground.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(default)]
pub struct Gravel {
    pub height: f64,
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
    /// Thickness of a rail; 40 where none is given.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub thick: Option<f64>,
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
            thick: None,
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

/// A post ticked off: its running reading as built (centre), how far its centre is off the string
/// as built, and whether its heights are marked on it.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
#[serde(default)]
pub struct Marked {
    pub run: RunId,
    pub post: u32,
    pub done: bool,
    #[serde(skip_serializing_if = "Option::is_none")]
    pub measured: Option<f64>,
    #[serde(skip_serializing_if = "Option::is_none")]
    pub off: Option<f64>,
    #[serde(skip_serializing_if = "is_false")]
    pub heights: bool,
    #[serde(flatten)]
    pub extra: Extra,
}

#[allow(clippy::trivially_copy_pass_by_ref)] // the signature serde asks for
fn is_false(value: &bool) -> bool {
    !value
}

#[allow(clippy::trivially_copy_pass_by_ref)] // the signature serde asks for
fn is_true(value: &bool) -> bool {
    *value
}

/// Gives kinds with a name and an id the word that a person knows them by.
macro_rules! called {
    ($($kind:ident),*) => {$(
        impl $kind {
            /// The name that a person gave it, or the file's own where none was given.
            #[must_use]
            pub fn called(&self) -> &str {
                if self.name.is_empty() {
                    self.id.as_str()
                } else {
                    &self.name
                }
            }
        }
    )*};
}
pub(super) use called;

called!(Wall, Line, Run);
