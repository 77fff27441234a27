//! The job as it is on disk, version 1. Plain data; nothing here is checked (see [`super::check`]).
//!
//! Lengths and heights are millimetres, angles degrees. A missing part takes its default or stays
//! empty; a key this program does not know is kept in `extra` and written back.

mod boards;
mod called;
mod extra;
mod fence;
mod fixings;
mod gate;
mod heights;
pub mod reading;
mod show;
mod site;

pub use boards::{BoardFit, Boards, CutDone, CutPiece, Gravel, Joint, Pales, Rails, Stock};
pub(in crate::job) use called::called;
pub use extra::Extra;
pub use fence::{BayFit, Bays, End, Foot, Hole, Marked, Pin, PostSize, Run};
pub use fixings::{Clearing, Fixings, Notch, WallBolts};
pub use gate::{Against, Gate, Hung, Leaf, Lock, Offcut, Opens};
pub use heights::{Datum, Levels, Point, Setup, Sight};
pub use show::{RailEdge, Show};
pub use site::{Corner, CornerCheck, CornerPost, Line, Mark, PostSet, Side, Station, Wall};

use crate::tape::TapeClass;
use reading::Reading;
use serde::{Deserialize, Serialize};

/// The word every job file starts with.
pub const FORMAT: &str = "tautmark-job";
/// The newest version of the job file this program can change.
pub const VERSION: u32 = 1;

/// A whole job: what was measured and what is wanted.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Job {
    /// [`FORMAT`] in every job that opens.
    pub format: String,
    /// From 1; over [`VERSION`] the job was made by a newer program.
    pub version: u32,
    /// What the job is called in the list and on the sheet.
    pub title: String,
    /// What a person wrote about the site.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub notes: String,
    /// The unit of lengths on screen and sheet; millimetres where nothing is said.
    #[serde(default)]
    pub show: Show,
    /// What the tape can be held to.
    #[serde(default)]
    pub tape: Tape,
    /// How well the strings are nailed.
    #[serde(default)]
    pub string: StringLine,
    /// What the laser can be held to.
    #[serde(default)]
    pub level: Laser,
    /// What a post as built may be off before it is said.
    #[serde(default)]
    pub tolerance: Tolerance,
    /// Points that were measured between.
    #[serde(default)]
    pub marks: Vec<Mark>,
    /// Straight walls from mark to mark.
    #[serde(default)]
    pub walls: Vec<Wall>,
    /// Tapes, offsets, strings and angles between marks and walls.
    #[serde(default)]
    pub readings: Vec<Reading>,
    /// Strings stretched for the fence.
    #[serde(default)]
    pub lines: Vec<Line>,
    /// Where strings cross.
    #[serde(default)]
    pub corners: Vec<Corner>,
    /// Stretches of fence.
    #[serde(default)]
    pub runs: Vec<Run>,
    /// The holes of all posts that stand in one.
    #[serde(default)]
    pub hole: Hole,
    /// Heights read with the laser.
    #[serde(default)]
    pub levels: Levels,
    /// The timber of every run.
    #[serde(default)]
    pub boards: Boards,
    /// Lengths that the timber can be bought in.
    #[serde(default)]
    pub stock: Stock,
    /// Posts that stand, as built.
    #[serde(default)]
    pub marked: Vec<Marked>,
    /// Keys that this program does not know, kept as they are.
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
            string: StringLine::default(),
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

/// What one tape can be held to: its class, and what changes from one reading to the next.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(default)]
pub struct Tape {
    /// Accuracy class: it limits the tape's own scale and weighs no reading; II where nothing is
    /// said.
    pub class: TapeClass,
    /// Standard deviation of one reading, mm; 1 where nothing is said.
    pub reading: f64,
    /// Standard deviation of what pull, sag and heat change, mm per m; 0.1 where nothing is said.
    pub pull: f64,
    /// Keys that this program does not know, kept as they are.
    #[serde(flatten)]
    pub extra: Extra,
}

impl Default for Tape {
    fn default() -> Self {
        Self {
            class: TapeClass::II,
            reading: 1.0,
            pull: 0.1,
            extra: Extra::new(),
        }
    }
}

impl Tape {
    /// Standard deviation, mm, of one reading of `length` mm: √(reading² + (pull · length/1000)²).
    ///
    /// The tape's own scale is not in it: it is the same in every reading, and cancels where the
    /// same tape sets out again.
    ///
    /// ```
    /// let sd = tautmark::job::model::Tape::default().sd(10_000.0);
    /// assert!((sd - 2f64.sqrt()).abs() < 1e-12);
    /// ```
    #[must_use]
    pub fn sd(&self, length: f64) -> f64 {
        self.reading.hypot(self.pull * length / 1000.0)
    }
}

/// How well the strings are nailed.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(default)]
pub struct StringLine {
    /// Standard deviation of one nail's offset, mm; 1 where nothing is said.
    pub nail: f64,
    /// Keys that this program does not know, kept as they are.
    #[serde(flatten)]
    pub extra: Extra,
}

impl Default for StringLine {
    fn default() -> Self {
        Self {
            nail: 1.0,
            extra: Extra::new(),
        }
    }
}

/// What the laser can be held to.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(default)]
pub struct Laser {
    /// Its stated accuracy, mm per m: a limit, not a standard deviation; 0.3 where nothing is
    /// said.
    pub accuracy: f64,
    /// Standard deviation of one reading, mm; 1 where nothing is said.
    pub reading: f64,
    /// Keys that this program does not know, kept as they are.
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

impl From<&Laser> for crate::laser::LaserWorth {
    /// As the job states it.
    fn from(stated: &Laser) -> Self {
        Self {
            accuracy: stated.accuracy,
            reading: stated.reading,
        }
    }
}

/// How far a post as built may be from its place, and a height from its own, mm.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(default)]
pub struct Tolerance {
    /// Between a post's centre as built and its place, mm; 5 where nothing is said.
    pub length: f64,
    /// Between a height as built and the one wanted, mm; 3 where nothing is said.
    pub level: f64,
    /// Keys that this program does not know, kept as they are.
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
