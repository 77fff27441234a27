//! What a drawing is made of. Plain data in mm; x to the right, y up.

use super::bounds::{Bounds, Vec2};
use crate::job::{CornerId, LineId, MarkId, PointId, RunId, SetupId, WallId};
use nalgebra::Rotation2;

/// A picture in mm, in the order in which it is painted.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Drawing {
    pub items: Vec<DrawnItem>,
    /// What the drawn things reach to, without their labels.
    pub bounds: Bounds,
    /// How far the job's own frame is turned in this drawing, degrees, positive to the left.
    pub turn: f64,
    /// What it shows, in words.
    pub description: String,
}

impl Drawing {
    /// Where a place of the job's frame comes to be in this drawing, mm.
    #[must_use]
    pub fn from_site(&self, at: Vec2) -> Vec2 {
        Rotation2::new(self.turn.to_radians()) * at
    }

    /// The place in the job's frame of a point of this drawing, mm.
    #[must_use]
    pub fn to_site(&self, at: Vec2) -> Vec2 {
        Rotation2::new(-self.turn.to_radians()) * at
    }

    /// True where there is nothing to see.
    #[must_use]
    pub fn is_empty(&self) -> bool {
        self.items.is_empty()
    }
}

/// One thing in a drawing.
#[derive(Clone, Debug, PartialEq)]
pub struct DrawnItem {
    pub shape: Shape,
    pub role: Role,
    /// The part of the job that this shows; what a press on it selects.
    pub of: Option<Target>,
    pub stress: Stress,
}

/// The form of one thing. Everything is in mm but what is named for the eye (crosses, rings, dots,
/// text), whose size is the renderer's.
#[derive(Clone, Debug, PartialEq)]
pub enum Shape {
    /// Straight pieces through the points.
    Path {
        points: Vec<Vec2>,
        closed: bool,
        line: LineStyle,
        fill: Fill,
    },
    /// A wall's face, hatched on one side.
    Wall {
        from: Vec2,
        to: Vec2,
        hatched: Hatched,
    },
    /// A post from above: its width along `bearing` (degrees). On small scales it is drawn larger than
    /// it is, so that it can be seen.
    Footprint {
        centre: Vec2,
        width: f64,
        depth: f64,
        bearing: f64,
    },
    /// A cross on a mark.
    Cross(Vec2),
    /// A ring around something that matters now; `clear` mm around the point stay free.
    Ring { at: Vec2, clear: f64 },
    /// A dot.
    Dot(Vec2),
    /// A length between two points, drawn beside them.
    Dimension(Dimension),
    /// Figures of a row of points along one line, each at its own point and square to the line.
    Row(Row),
    /// Words.
    Label(Label),
}

/// How a stroke is drawn.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum LineStyle {
    None,
    Hair,
    Fine,
    Plain,
    Thick,
    /// Short dashes: measured, not built.
    Dotted,
    /// Long dashes.
    Dashed,
    /// Long dashes, thick.
    HeavyDashed,
}

/// How the inside of a closed path is drawn.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Fill {
    None,
    Plain,
}

/// The side of a wall that is hatched, seen from its first mark to its second.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Hatched {
    Left,
    Right,
    /// Nothing tells which side is the inside.
    Neither,
}

/// A length between two points.
#[derive(Clone, Debug, PartialEq)]
pub struct Dimension {
    pub from: Vec2,
    pub to: Vec2,
    /// Unit vector towards the side it is drawn on.
    pub out: Vec2,
    /// What lies between the points and the dimension, mm.
    pub clear: f64,
    /// What it is of, written before the figure where there is room.
    pub name: String,
    pub text: String,
    pub rank: Rank,
}

/// Figures of points along one line.
#[derive(Clone, Debug, PartialEq)]
pub struct Row {
    /// Unit vector along the line.
    pub along: Vec2,
    /// Unit vector square to it, towards the side that the figures stand on if they can.
    pub out: Vec2,
    /// What lies between the points and the figures on the `out` side, mm.
    pub clear: f64,
    /// The same on the other side, mm.
    pub clear_back: f64,
    /// Level with the line however close they stand; else square to it where they have no room.
    pub level: bool,
    /// In order along the line.
    pub figures: Vec<RowFigure>,
}

/// One figure of a row.
#[derive(Clone, Debug, PartialEq)]
pub struct RowFigure {
    pub at: Vec2,
    pub text: String,
    pub of: Option<Target>,
}

/// Words that belong to a point.
#[derive(Clone, Debug, PartialEq)]
pub struct Label {
    pub at: Vec2,
    /// A triangle before the words.
    pub sign: Option<Sign>,
    pub text: String,
    pub size: Size,
    pub bold: bool,
    pub place: WordsPlace,
    pub rank: Rank,
}

/// Which way to measure from a laser line: a triangle that points there.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Sign {
    Up,
    Down,
}

/// How large words are.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Size {
    Small,
    Plain,
    Large,
}

/// Where words may stand.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum WordsPlace {
    /// Around the point, `clear` mm away from it, first in the direction of `toward`.
    Around { toward: Vec2, clear: f64 },
    /// Close to the point, `clear` mm away from it, and no farther than a little to the side of the
    /// direction `toward`: for numbers that would mislead elsewhere.
    Toward { toward: Vec2, clear: f64 },
    /// Centred on the point, or moved along a line of `reach` mm either way, turned with it if
    /// `along` is not level.
    Along { along: Vec2, reach: f64 },
    /// Beside a line through the point: along it and just off it, on the `out` side first.
    Beside { along: Vec2, out: Vec2, reach: f64 },
    /// Level beside a line through the point, on the `out` side first, up to `reach` mm along it, and
    /// on no other line: for figures that would be taken for the neighbour's.
    Clear { along: Vec2, out: Vec2, reach: f64 },
}

/// What stays when there is no room for everything, most important last.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Rank {
    /// Nice to have.
    Extra,
    /// One of many alike.
    Many,
    Usual,
    /// Names and figures that the drawing is about.
    Main,
    /// What the person is at now.
    Now,
}

/// What a thing in a drawing is. Its colour is the renderer's.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Role {
    Wall,
    Mark,
    /// A mark or wall that can still move: drawn where it is on the sketch.
    Sketch,
    Tape,
    /// A reading that is left out.
    LeftOut,
    SuspectTape,
    AskedTape,
    String,
    Post,
    DonePost,
    /// A post on trestles: words may stand on it.
    LyingPost,
    Hole,
    Gate,
    GravelBoard,
    Rail,
    Pale,
    Ground,
    /// The ground where nothing has been sighted.
    GuessedGround,
    LaserLine,
    Dimension,
    Text,
    /// Text that steps back.
    Quiet,
}

/// Whether a thing stands out.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Stress {
    #[default]
    Plain,
    /// Selected, asked for, or the one at hand.
    Chosen,
}

/// The part of a job that a thing shows.
#[derive(Clone, Debug, PartialEq, Eq, Hash)]
pub enum Target {
    Mark(MarkId),
    Wall(WallId),
    /// Place in the job's list of readings.
    Reading(usize),
    LineStyle(LineId),
    Corner(CornerId),
    Post {
        run: RunId,
        n: usize,
    },
    Gate {
        run: RunId,
        index: usize,
    },
    /// The bay after post `from`.
    Bay {
        run: RunId,
        from: usize,
    },
    Setup(SetupId),
    Point(PointId),
}
