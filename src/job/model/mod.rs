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

pub use boards::{BoardFit, Boards, Gravel, Joint, Pales, Rails, Stock};
pub(in crate::job) use called::called;
pub use extra::Extra;
pub use fence::{BayFit, Bays, End, Foot, Hole, Marked, Pin, PostSize, Run};
pub use fixings::{Clearing, Fixings, Notch, WallBolts};
pub use gate::{Against, Gate, Hung, Leaf, Lock, Offcut, Opens};
pub use heights::{Datum, Levels, Point, Setup, Sight};
pub use show::Show;
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
    pub string: StringLine,
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

/// The tape: its accuracy class, the standard deviation of one reading (mm), and that of what pull,
/// sag and heat change from one reading to the next (mm per m).
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(default)]
pub struct Tape {
    pub class: TapeClass,
    pub reading: f64,
    pub pull: f64,
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

/// The strings: the standard deviation of one nail's offset, mm.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(default)]
pub struct StringLine {
    pub nail: f64,
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
