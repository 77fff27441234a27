//! A job that has been checked: every name found, every figure possible.
//!
//! Things refer to each other by their place in these lists, in the order of the file. What was
//! wrong in the file is not here; [`super::check::check`] has named it.

use crate::length::{Unit, show_with_unit};

use super::ids::{CornerId, LineId, MarkId, PointId, RunId, SetupId, WallId};
use super::model::{
    BayFit, Boards, CornerPost, Foot, Hole, Laser, Leaf, Lock, PostSet, Side, Stock, StringLine,
    Tape, Tolerance, called,
};

macro_rules! index {
    ($($(#[$doc:meta])* $name:ident;)*) => {$(
        $(#[$doc])*
        #[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
        pub struct $name(pub usize);
    )*};
}

index! {
    /// Place of a mark in [`Sound::marks`].
    MarkIx;
    /// Place of a wall in [`Sound::walls`].
    WallIx;
    /// Place of a line in [`Sound::lines`].
    LineIx;
    /// Place of a corner in [`Sound::corners`].
    CornerIx;
    /// Place of a run in [`Sound::runs`].
    RunIx;
    /// Place of a point in [`SoundLevels::points`].
    PointIx;
    /// Place of a set-up in [`SoundLevels::setups`].
    SetupIx;
}

/// The checked job.
#[derive(Clone, Debug, Default)]
pub struct Sound {
    /// How lengths are shown to people.
    pub unit: Unit,
    pub tape: Tape,
    pub string: StringLine,
    pub laser: Laser,
    pub tolerance: Tolerance,
    pub hole: Hole,
    pub marks: Vec<SoundMark>,
    pub walls: Vec<SoundWall>,
    pub readings: Vec<Taken>,
    pub lines: Vec<SoundLine>,
    pub corners: Vec<SoundCorner>,
    pub runs: Vec<SoundRun>,
    pub levels: SoundLevels,
    pub boards: Boards,
    pub stock: Stock,
}

/// A mark, and where the sketch has it (mm, any frame).
#[derive(Clone, Debug)]
pub struct SoundMark {
    pub id: MarkId,
    pub rough: Option<[f64; 2]>,
    /// Place in the file's list of marks.
    pub index: usize,
}

/// A wall between two different marks.
#[derive(Clone, Debug)]
pub struct SoundWall {
    pub id: WallId,
    pub name: String,
    pub from: MarkIx,
    pub to: MarkIx,
}

/// A used reading: its place in the file, what it measured, and its standard deviation.
#[derive(Clone, Copy, Debug)]
pub struct Taken {
    pub index: usize,
    pub what: Quantity,
    /// mm, or degrees for an angle.
    pub sd: f64,
    /// How much higher one end of a tape was than the other, mm; 0 for other readings.
    pub drop: f64,
}

impl Taken {
    /// A level length as it is read on this reading's own slope: √(level² + drop²), mm. What was
    /// not taped on a slope is read as it is.
    #[must_use]
    pub fn as_read(&self, level: f64) -> f64 {
        if self.drop == 0.0 {
            level
        } else {
            level.hypot(self.drop)
        }
    }
}

/// What a used reading measured, lengths mm (a sloping tape already brought level), angles degrees.
#[derive(Clone, Copy, Debug)]
pub enum Quantity {
    Tape {
        from: MarkIx,
        to: MarkIx,
        length: f64,
    },
    Offset {
        mark: MarkIx,
        wall: WallIx,
        side: Side,
        length: f64,
    },
    Inline {
        mark: MarkIx,
        with: [MarkIx; 2],
    },
    Angle {
        from: MarkIx,
        at: MarkIx,
        to: MarkIx,
        degrees: f64,
    },
}

/// A string line.
#[derive(Clone, Debug)]
pub struct SoundLine {
    pub id: LineId,
    pub name: String,
    pub along: Along,
    pub reverse: bool,
    /// Place in the file's list of lines.
    pub index: usize,
}

/// What a string line follows.
#[derive(Clone, Debug)]
pub enum Along {
    /// Nails (at, off) from a wall, mm; at least one.
    Wall {
        wall: WallIx,
        side: Side,
        stations: Vec<[f64; 2]>,
    },
    /// Through two different marks.
    Marks([MarkIx; 2]),
}

/// Where two different lines should cross.
#[derive(Clone, Debug)]
pub struct SoundCorner {
    pub id: CornerId,
    pub lines: [LineIx; 2],
    pub post: Option<CornerPost>,
    pub checks: Vec<SoundCornerCheck>,
    /// Place in the file's list of corners.
    pub index: usize,
}

/// The strings of a corner as stretched, mm: arms marked on the first and the second, the tape across.
#[derive(Clone, Copy, Debug)]
pub struct SoundCornerCheck {
    pub arms: [f64; 2],
    pub diagonal: f64,
    /// Place in the corner's list of checks.
    pub index: usize,
}

/// A run whose line, ends and sizes are all given and possible.
#[derive(Clone, Debug)]
pub struct SoundRun {
    pub id: RunId,
    pub name: String,
    pub line: LineIx,
    pub side: Side,
    pub gap: f64,
    pub start: RunStart,
    pub end: RunEnd,
    /// How its posts stand, and its first and last.
    pub foot: Foot,
    pub end_feet: [Foot; 2],
    pub width: f64,
    pub depth: f64,
    pub bay_max: f64,
    pub bay_fit: BayFit,
    pub gates: Vec<SoundGate>,
    pub pins: Vec<SoundPin>,
    pub kept: Vec<SoundKept>,
    /// Place in the file's list of runs.
    pub index: usize,
}

/// Where the running readings start.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum RunStart {
    Wall(WallIx),
    Corner(CornerIx),
    Mark(MarkIx),
}

/// Where a run ends.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum RunEnd {
    At(RunStart),
    /// So many mm from the start.
    Length(f64),
}

/// A gate's clear opening: where it begins or ends, and its width, mm.
#[derive(Clone, Debug)]
pub struct SoundGate {
    pub at: GateAt,
    pub clear: f64,
    pub leaf: Option<Leaf>,
    pub lock: Option<Lock>,
    /// Place in the run's list of gates.
    pub index: usize,
}

/// Where a gate's opening is.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum GateAt {
    /// It begins at this running reading, mm.
    Reading(f64),
    /// It begins at the far face of the run's first post.
    First,
    /// It ends at the near face of the run's last post.
    Last,
}

/// A post that stays where it stands: the running reading of its centre and, where it was
/// measured, how far its centre is off the string. Mm.
#[derive(Clone, Copy, Debug)]
pub struct SoundKept {
    /// Number in its run, from 1.
    pub n: usize,
    pub measured: f64,
    pub off: Option<f64>,
    /// Place in the file's list of posts marked as done.
    pub index: usize,
}

/// A pinned post centre: running reading, mm.
#[derive(Clone, Copy, Debug)]
pub struct SoundPin {
    pub at: f64,
    /// The post is there already.
    pub stands: bool,
    /// Place in the run's list of pins.
    pub index: usize,
}

/// Heights to be worked out.
#[derive(Clone, Debug, Default)]
pub struct SoundLevels {
    pub datum: Option<SoundDatum>,
    /// Every point named in the file: those listed, then those only sighted or the datum.
    pub points: Vec<SoundPoint>,
    pub setups: Vec<SetupId>,
    pub sights: Vec<SoundSight>,
}

/// The point that everything is measured from, and its height, mm.
#[derive(Clone, Copy, Debug)]
pub struct SoundDatum {
    pub point: PointIx,
    pub height: f64,
}

/// A point with a height.
#[derive(Clone, Debug)]
pub struct SoundPoint {
    pub id: PointId,
    pub stands: Stands,
}

/// Where a point is.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Stands {
    /// Ground on a run, at a running reading, mm.
    Ground {
        run: RunIx,
        at: f64,
    },
    Mark(MarkIx),
    Anywhere,
}

/// A used sight, mm; `place` is (set-up, sight) in the file.
#[derive(Clone, Copy, Debug)]
pub struct SoundSight {
    pub setup: SetupIx,
    pub point: PointIx,
    pub down: f64,
    /// Distance from the laser, where it is given.
    pub dist: Option<f64>,
    pub sd: f64,
    pub place: (usize, usize),
}

impl Sound {
    /// A length (mm) as this job shows it, with its unit.
    #[must_use]
    pub fn say(&self, mm: f64) -> String {
        show_with_unit(mm, self.unit)
    }
}

impl SoundCorner {
    /// How the corner post is turned; square to the first line where nothing is said.
    #[must_use]
    pub fn set(&self) -> PostSet {
        self.post.as_ref().map(|post| post.set).unwrap_or_default()
    }
}

called!(SoundWall, SoundLine, SoundRun);
