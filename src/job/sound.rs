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
    /// As the job states it; it weighs the readings.
    pub tape: Tape,
    /// As the job states them; it makes every nail as sure as it is.
    pub string: StringLine,
    /// As the job states it; it weighs the sights.
    pub laser: Laser,
    /// What a post as built may be off.
    pub tolerance: Tolerance,
    /// The holes of all posts that stand in one.
    pub hole: Hole,
    /// By [`MarkIx`].
    pub marks: Vec<SoundMark>,
    /// By [`WallIx`].
    pub walls: Vec<SoundWall>,
    /// Only those that are used.
    pub readings: Vec<Taken>,
    /// By [`LineIx`].
    pub lines: Vec<SoundLine>,
    /// By [`CornerIx`].
    pub corners: Vec<SoundCorner>,
    /// By [`RunIx`].
    pub runs: Vec<SoundRun>,
    /// What was sighted, and from where.
    pub levels: SoundLevels,
    /// The timber of every run.
    pub boards: Boards,
    /// Lengths that the timber can be bought in.
    pub stock: Stock,
}

/// A mark, and where the sketch has it (mm, any frame).
#[derive(Clone, Debug)]
pub struct SoundMark {
    /// What the rest of the file calls it by.
    pub id: MarkId,
    /// `None` where it is not drawn yet; the readings then have to place it.
    pub rough: Option<[f64; 2]>,
    /// Place in the file's list of marks.
    pub index: usize,
}

/// A wall between two different marks.
#[derive(Clone, Debug)]
pub struct SoundWall {
    /// What the rest of the file calls it by.
    pub id: WallId,
    /// What a person calls it; empty where the `id` has to do.
    pub name: String,
    /// Where it begins; readings along it count from there.
    pub from: MarkIx,
    /// Where it ends; never where it begins.
    pub to: MarkIx,
}

/// A used reading: its place in the file, what it measured, and its standard deviation.
#[derive(Clone, Copy, Debug)]
pub struct Taken {
    /// Place in the file's list of readings.
    pub index: usize,
    /// The quantity, and between what.
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
    /// From mark to mark, level.
    Tape {
        /// One end.
        from: MarkIx,
        /// The other end.
        to: MarkIx,
        /// Brought level, mm.
        length: f64,
    },
    /// Square off a wall's line to a mark.
    Offset {
        /// The mark that was offset to.
        mark: MarkIx,
        /// The wall; the mark is neither of its own two.
        wall: WallIx,
        /// Looking along the wall, the side that the mark is on.
        side: Side,
        /// Square off the wall's line, mm.
        length: f64,
    },
    /// On the string between two others.
    Inline {
        /// The mark on the string.
        mark: MarkIx,
        /// What the string is stretched between.
        with: [MarkIx; 2],
    },
    /// The unsigned angle at a mark between two others.
    Angle {
        /// On one arm.
        from: MarkIx,
        /// Where it is turned.
        at: MarkIx,
        /// On the other arm.
        to: MarkIx,
        /// From 0 to 180.
        degrees: f64,
    },
}

/// A string line.
#[derive(Clone, Debug)]
pub struct SoundLine {
    /// What the rest of the file calls it by.
    pub id: LineId,
    /// What a person calls it; empty where the `id` has to do.
    pub name: String,
    /// A wall or two marks.
    pub along: Along,
    /// It runs against the wall, or from its second mark to its first.
    pub reverse: bool,
    /// Place in the file's list of lines.
    pub index: usize,
}

/// What a string line follows.
#[derive(Clone, Debug)]
pub enum Along {
    /// Nails (at, off) from a wall, mm; at least one.
    Wall {
        /// The wall it is offset from.
        wall: WallIx,
        /// Looking along the wall, the side that it lies on.
        side: Side,
        /// Along the wall from its first mark, and square out from it, mm.
        stations: Vec<[f64; 2]>,
    },
    /// Through two different marks.
    Marks([MarkIx; 2]),
}

/// Where two different lines should cross.
#[derive(Clone, Debug)]
pub struct SoundCorner {
    /// What the rest of the file calls it by.
    pub id: CornerId,
    /// The one that is walked along first, and the one that is turned onto; never the same.
    pub lines: [LineIx; 2],
    /// Its own size and turn; `None` where its run's size and the first line decide.
    pub post: Option<CornerPost>,
    /// Only those whose diagonal was read.
    pub checks: Vec<SoundCornerCheck>,
    /// Place in the file's list of corners.
    pub index: usize,
}

/// The strings of a corner as stretched, mm: arms marked on the first and the second, the tape across.
#[derive(Clone, Copy, Debug)]
pub struct SoundCornerCheck {
    /// From the crossing along the first and the second string.
    pub arms: [f64; 2],
    /// Between the two marks.
    pub diagonal: f64,
    /// Place in the corner's list of checks.
    pub index: usize,
}

/// A run whose line, ends and sizes are all given and possible.
#[derive(Clone, Debug)]
pub struct SoundRun {
    /// What the rest of the file calls it by.
    pub id: RunId,
    /// What a person calls it; empty where the `id` has to do.
    pub name: String,
    /// The string its posts stand along.
    pub line: LineIx,
    /// Looking along the string, the side that its posts stand on.
    pub side: Side,
    /// From the string to the posts' front faces, mm.
    pub gap: f64,
    /// Where the running readings are 0.
    pub start: RunStart,
    /// Where the last post is.
    pub end: RunEnd,
    /// How its posts stand.
    pub foot: Foot,
    /// How its first and its last post stand.
    pub end_feet: [Foot; 2],
    /// Of a post, along the run, mm.
    pub width: f64,
    /// Of a post, across the run, mm.
    pub depth: f64,
    /// The longest bay, centre to centre, mm.
    pub bay_max: f64,
    /// How bays fill the length between two fixed posts.
    pub bay_fit: BayFit,
    /// Openings, in the order of the file.
    pub gates: Vec<SoundGate>,
    /// Post centres that are held, in the order of the file.
    pub pins: Vec<SoundPin>,
    /// Posts that stay where they stand, in the order of the file.
    pub kept: Vec<SoundKept>,
    /// Place in the file's list of runs.
    pub index: usize,
}

/// Where the running readings start.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum RunStart {
    /// Where the string meets this wall's line.
    Wall(WallIx),
    /// Where the strings of this corner cross.
    Corner(CornerIx),
    /// Where this mark is dropped square onto the string.
    Mark(MarkIx),
}

/// Where a run ends.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum RunEnd {
    /// At a wall, a corner or a mark.
    At(RunStart),
    /// So many mm from the start.
    Length(f64),
}

/// A gate's opening between two posts' faces, mm.
#[derive(Clone, Debug)]
pub struct SoundGate {
    /// Where it begins or ends.
    pub at: GateAt,
    /// Its width.
    pub clear: f64,
    /// The leaf; `None` where only the opening is wanted.
    pub leaf: Option<Leaf>,
    /// The lock; `None` where there is none.
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

/// A post that stays where it stands. Mm.
#[derive(Clone, Copy, Debug)]
pub struct SoundKept {
    /// Number in its run, from 1.
    pub n: usize,
    /// Running reading of its centre.
    pub measured: f64,
    /// From the string to its centre, positive where its run's posts stand; `None` where it was
    /// not measured.
    pub off: Option<f64>,
    /// Place in the file's list of posts marked as done.
    pub index: usize,
}

/// A post whose centre is held.
#[derive(Clone, Copy, Debug)]
pub struct SoundPin {
    /// Running reading, mm.
    pub at: f64,
    /// The post is there already.
    pub stands: bool,
    /// Place in the run's list of pins.
    pub index: usize,
}

/// Heights to be worked out.
#[derive(Clone, Debug, Default)]
pub struct SoundLevels {
    /// `None` where heights have nothing to count from yet.
    pub datum: Option<SoundDatum>,
    /// Every point named in the file: those listed, then those only sighted or the datum.
    pub points: Vec<SoundPoint>,
    /// Names of the set-ups, by [`SetupIx`].
    pub setups: Vec<SetupId>,
    /// In the order of the file.
    pub sights: Vec<SoundSight>,
}

/// The point that everything is measured from, and its height, mm.
#[derive(Clone, Copy, Debug)]
pub struct SoundDatum {
    /// Which point.
    pub point: PointIx,
    /// Its height, mm up positive.
    pub height: f64,
}

/// A point with a height.
#[derive(Clone, Debug)]
pub struct SoundPoint {
    /// What the rest of the file calls it by.
    pub id: PointId,
    /// On the ground of a run, at a mark, or anywhere.
    pub stands: Stands,
}

/// Where a point is.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Stands {
    /// Ground on a run, at a running reading, mm.
    Ground {
        /// The run.
        run: RunIx,
        /// From the run's zero.
        at: f64,
    },
    /// At a mark.
    Mark(MarkIx),
    /// Nowhere that a run or a mark says, such as a change point.
    Anywhere,
}

/// A used sight, mm.
#[derive(Clone, Copy, Debug)]
pub struct SoundSight {
    /// Where the laser stood.
    pub setup: SetupIx,
    /// What was sighted.
    pub point: PointIx,
    /// From the laser line down to the point, negative where it is above.
    pub down: f64,
    /// Distance from the laser, where it is given.
    pub dist: Option<f64>,
    /// Standard deviation: one reading, and the laser over the distance.
    pub sd: f64,
    /// Set-up and sight in the file, both from 0.
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
