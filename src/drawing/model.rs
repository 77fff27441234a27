//! What a drawing is made of. Plain data in mm; x to the right, y up.

use super::bounds::{Bounds, Vec2};
use crate::job::{CornerId, LineId, MarkId, PointId, RunId, SetupId, WallId};
use nalgebra::Rotation2;

/// A picture in mm, in the order in which it is painted.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Drawing {
    /// What is painted first stands first.
    pub items: Vec<DrawnItem>,
    /// What the drawn things reach to, without their labels.
    pub bounds: Bounds,
    /// The part of it that is seen at first; all of it where none is named.
    pub sight: Option<Bounds>,
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
    /// Its form, in mm.
    pub shape: Shape,
    /// What it shows; the renderer colours it by that.
    pub role: Role,
    /// The part of the job that this shows; what a press on it selects.
    pub of: Option<Target>,
    /// Whether it stands out.
    pub stress: Stress,
}

/// The form of one thing. Everything is in mm but what is named for the eye (crosses, rings, dots,
/// text), whose size is the renderer's.
#[derive(Clone, Debug, PartialEq)]
pub enum Shape {
    /// Straight pieces through the points.
    Path {
        /// In order along it.
        points: Vec<Vec2>,
        /// From the last point back to the first.
        closed: bool,
        /// How its outline is drawn.
        line: LineStyle,
        /// How its inside is drawn.
        fill: Fill,
    },
    /// A wall's face, hatched on one side.
    Wall {
        /// Where the face begins.
        from: Vec2,
        /// Where it ends.
        to: Vec2,
        /// The side that the inside of the building is on.
        hatched: Hatched,
    },
    /// A post from above: its width along `bearing` (degrees). On small scales it is drawn larger than
    /// it is, so that it can be seen.
    Footprint {
        /// Middle of the post.
        centre: Vec2,
        /// Along `bearing`.
        width: f64,
        /// Across `bearing`.
        depth: f64,
        /// Degrees from +x, counter-clockwise.
        bearing: f64,
    },
    /// A cross on a mark.
    Cross(Vec2),
    /// A ring around something that matters now; `clear` mm around the point stay free.
    Ring {
        /// What matters now.
        at: Vec2,
        /// Kept free around it, mm.
        clear: f64,
    },
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
    /// Not at all.
    None,
    /// The thinnest there is: leaders and hatching.
    Hair,
    /// Edges within a thing.
    Fine,
    /// Outlines.
    Plain,
    /// What stands out.
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
    /// Not at all: what lies behind shows.
    None,
    /// With the tone of its role.
    Plain,
}

/// The side of a wall that is hatched, seen from its first mark to its second.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Hatched {
    /// To the left, looking that way.
    Left,
    /// To the right, looking that way.
    Right,
    /// Nothing tells which side is the inside.
    Neither,
}

/// A length between two points.
#[derive(Clone, Debug, PartialEq)]
pub struct Dimension {
    /// Where the length begins.
    pub from: Vec2,
    /// Where it ends.
    pub to: Vec2,
    /// Unit vector towards the side it is drawn on.
    pub out: Vec2,
    /// What lies between the points and the dimension, mm.
    pub clear: f64,
    /// What it is of, written before the figure where there is room.
    pub name: String,
    /// The figure, as the job shows lengths.
    pub text: String,
    /// What it gives way to where there is no room.
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
    /// The point it is of.
    pub at: Vec2,
    /// The figure, as the job shows lengths.
    pub text: String,
    /// The part of the job that this shows; what a press on it selects.
    pub of: Option<Target>,
}

/// Words that belong to a point.
#[derive(Clone, Debug, PartialEq)]
pub struct Label {
    /// The point they belong to.
    pub at: Vec2,
    /// A triangle before the words.
    pub sign: Option<Sign>,
    /// What they say.
    pub text: String,
    /// How large they are.
    pub size: Size,
    /// Heavier than the other words.
    pub bold: bool,
    /// Where they may stand.
    pub place: WordsPlace,
    /// What they give way to where there is no room.
    pub rank: Rank,
}

/// Which way to measure from a laser line: a triangle that points there.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Sign {
    /// Points up: the mark is above the line.
    Up,
    /// Points down: the mark is below the line.
    Down,
}

/// How large words are.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Size {
    /// Words that step back.
    Small,
    /// Most words.
    Plain,
    /// What the drawing is about.
    Large,
}

/// Where words may stand.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum WordsPlace {
    /// Around the point, `clear` mm away from it, first in the direction of `toward`.
    Around {
        /// Unit vector of the first try.
        toward: Vec2,
        /// Kept free around the point, mm.
        clear: f64,
    },
    /// Close to the point, `clear` mm away from it, and no farther than a little to the side of the
    /// direction `toward`: for numbers that would mislead elsewhere.
    Toward {
        /// Unit vector they keep to.
        toward: Vec2,
        /// Kept free around the point, mm.
        clear: f64,
    },
    /// Centred on the point, or moved along a line of `reach` mm either way, turned with it if
    /// `along` is not level.
    Along {
        /// Unit vector of the line.
        along: Vec2,
        /// How far they may move either way, mm.
        reach: f64,
    },
    /// Beside a line through the point: along it and just off it, on the `out` side first.
    Beside {
        /// Unit vector of the line.
        along: Vec2,
        /// Unit vector off the line, towards the side tried first.
        out: Vec2,
        /// How far they may move either way, mm.
        reach: f64,
    },
    /// Level beside a line through the point, on the `out` side first, up to `reach` mm along it, and
    /// on no other line: for figures that would be taken for the neighbour's.
    Clear {
        /// Unit vector of the line.
        along: Vec2,
        /// Unit vector off the line, towards the side tried first.
        out: Vec2,
        /// How far they may move either way, mm.
        reach: f64,
    },
}

/// What stays when there is no room for everything, most important last.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Rank {
    /// Nice to have.
    Extra,
    /// One of many alike.
    Many,
    /// Between the many and what the drawing is about.
    Usual,
    /// Figures and words that the drawing is about.
    Main,
    /// Never left out: a mark's name, the number of a post at an end or beside a gate, a figure of a sum.
    Kept,
    /// What the person is at now.
    Now,
}

/// What a thing in a drawing is. Its colour is the renderer's.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Role {
    /// A wall's face and its hatching.
    Wall,
    /// A mark that the readings fix.
    Mark,
    /// A mark or wall that can still move: drawn where it is on the sketch.
    Sketch,
    /// A tape, an offset or another reading.
    Tape,
    /// A reading that is left out.
    LeftOut,
    /// A reading that does not fit the others.
    SuspectTape,
    /// The reading that is asked for now.
    AskedTape,
    /// A string line.
    String,
    /// A post still to be set.
    Post,
    /// A post that is ticked off.
    DonePost,
    /// A post on trestles: words may stand on it.
    LyingPost,
    /// A post hole.
    Hole,
    /// A gate's leaf and its swing.
    Gate,
    /// A board along the ground.
    GravelBoard,
    /// A rail from post to post.
    Rail,
    /// An upright board.
    Pale,
    /// The ground as it was sighted.
    Ground,
    /// The ground where nothing has been sighted.
    GuessedGround,
    /// The line that a laser draws.
    LaserLine,
    /// A length with its figure.
    Dimension,
    /// Words.
    Text,
    /// Text that steps back.
    Quiet,
}

/// Whether a thing stands out.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Stress {
    /// It does not.
    #[default]
    Plain,
    /// Selected, asked for, or the one at hand.
    Chosen,
}

/// The part of a job that a thing shows.
#[derive(Clone, Debug, PartialEq, Eq, Hash)]
pub enum Target {
    /// A mark, by its name.
    Mark(MarkId),
    /// A wall, by its name.
    Wall(WallId),
    /// Place in the job's list of readings.
    Reading(usize),
    /// A string line, by its name.
    Line(LineId),
    /// A corner, by its name.
    Corner(CornerId),
    /// A post.
    Post {
        /// The run it is in.
        run: RunId,
        /// Its number, from 1.
        n: usize,
    },
    /// A gate.
    Gate {
        /// The run it is in.
        run: RunId,
        /// Place in the run's list of gates.
        index: usize,
    },
    /// The bay after post `from`.
    Bay {
        /// The run it is in.
        run: RunId,
        /// Number of the post it begins at, from 1.
        from: usize,
    },
    /// A set-up of the laser, by its name.
    Setup(SetupId),
    /// A point with a height, by its name.
    Point(PointId),
}
