//! A drawing at the size of its view: every stroke and every word where it is to be seen.
//!
//! ```text
//!        ┌────────┐   words take the first free place around their point;
//!        │ 1 990  │   what matters most chooses first; they never cover each
//!     ┌──┴┐───────┘   other or a post; what finds no place is left out
//!   ──│   │──────
//! ```
//!
//! Two words keep two spaces apart, and what is heavy or drawn in ink runs through none but those that
//! are written on it. Words look for a place where they belong, then on the other side, then farther off
//! with a line to their point. What still finds none is left out, the least important first: it may be
//! the name of a wall, a string or a run, the figure of a wall, one running reading or one post's number
//! of many that stand close. A mark's name, the numbers of the posts at the ends and beside the gates,
//! and the figure that is asked for are led as far out as they must be.

mod around;
mod board;
mod dimension;
mod fit;
mod lead;
mod near;
mod row;
mod strokes;
mod tile;

use super::bounds::Vec2;
use super::hand::Hand;
use super::model::{Drawing, Rank, Shape, Sign, WordsPlace};
use super::text::{TextMeasure, Weight};
use super::tone::Tone;
use super::view::{View, ViewPoint};
use board::LayoutBoard;
pub use fit::fitted;
pub use tile::Tile;

/// A drawing ready to be painted: the strokes in their order, the patches under the labels, the labels.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Laid {
    /// In the order they are painted.
    pub strokes: Vec<Stroke>,
    /// Painted over the strokes; none covers another.
    pub labels: Vec<PlacedLabel>,
    /// Labels that found no place.
    pub dropped: usize,
}

impl Laid {
    /// The same larger by a factor, then moved.
    #[must_use]
    pub fn placed(&self, factor: f64, by: ViewPoint) -> Self {
        let mut placed = self.clone();
        for stroke in &mut placed.strokes {
            for point in &mut stroke.points {
                *point = *point * factor + by;
            }
            stroke.line = stroke.line.map(|(tone, width)| (tone, width * factor));
            stroke.dash = stroke.dash.map(|dash| dash.map(|length| length * factor));
        }
        for label in &mut placed.labels {
            label.at = label.at * factor + by;
            label.half = label.half.map(|half| half * factor);
            label.inset *= factor;
            label.size *= factor;
        }
        placed
    }

    /// Paints another after this one.
    pub fn add(&mut self, other: Self) {
        self.strokes.extend(other.strokes);
        self.labels.extend(other.labels);
        self.dropped += other.dropped;
    }
}

/// One stroke or filled area, in view units.
#[derive(Clone, Debug, PartialEq)]
pub struct Stroke {
    /// Corners of a line or an area, x to the right and y down.
    pub points: Vec<ViewPoint>,
    /// From the last point back to the first.
    pub closed: bool,
    /// Tone and width of the line; none where only the inside is painted.
    pub line: Option<(Tone, f64)>,
    /// Lengths that are drawn and left out in turn.
    pub dash: Option<[f64; 2]>,
    /// What its inside is painted with; none where it stays as it is.
    pub fill: Option<Tone>,
    /// Place in the drawing's items.
    pub item: usize,
}

/// Words where they stand, in view units.
#[derive(Clone, Debug, PartialEq)]
pub struct PlacedLabel {
    /// What they say.
    pub text: String,
    /// Middle of the place that they take, with the sign before them.
    pub at: ViewPoint,
    /// Half the width and half the height of that place.
    pub half: [f64; 2],
    /// A triangle before the words.
    pub sign: Option<Sign>,
    /// From the left end of the place to the first word.
    pub inset: f64,
    /// Font size.
    pub size: f64,
    /// Heavier than the other words.
    pub bold: bool,
    /// What they are painted with.
    pub tone: Tone,
    /// Degrees clockwise, −90 to 90.
    pub turn: f64,
    /// Lines run behind them: they stand on a patch of paper, painted before any words.
    pub patched: bool,
    /// Place in the drawing's items.
    pub item: usize,
}

impl PlacedLabel {
    /// The place that the words take.
    #[must_use]
    pub fn tile(&self) -> Tile {
        Tile::turned(self.at, self.half, self.turn)
    }

    /// The patch of paper that they stand on, where lines run behind them.
    #[must_use]
    pub fn patch(&self) -> Option<Stroke> {
        /// How far it reaches beyond them at either end, in font sizes.
        const BEYOND: f64 = 0.15;
        self.patched.then(|| Stroke {
            points: self.tile().wider(BEYOND * self.size).corners().to_vec(),
            closed: true,
            line: None,
            dash: None,
            fill: Some(Tone::Paper),
            item: self.item,
        })
    }

    /// Middle of the words themselves.
    #[must_use]
    pub fn words_at(&self) -> ViewPoint {
        let (sine, cosine) = self.turn.to_radians().sin_cos();
        self.at + Vec2::new(cosine, sine) * (self.inset / 2.0)
    }

    /// Width of the words themselves.
    #[must_use]
    pub fn words_width(&self) -> f64 {
        2.0 * self.half[0] - self.inset
    }

    /// The corners of the sign, to be filled with the label's tone.
    #[must_use]
    pub fn sign_corners(&self) -> Option<[ViewPoint; 3]> {
        let (sine, cosine) = self.turn.to_radians().sin_cos();
        let along = Vec2::new(cosine, sine);
        let up = Vec2::new(sine, -cosine) * (self.size * SIGN / 2.0);
        let tip = match self.sign? {
            Sign::Up => up,
            Sign::Down => -up,
        };
        let side = along * (self.size * SIGN * 0.55);
        let middle = self.at - along * self.half[0] + side;
        Some([middle + tip, middle - tip - side, middle - tip + side])
    }

    /// Level words in ink that begin there, on the line that they stand on.
    #[must_use]
    pub fn starting(
        start: [f64; 2],
        text: &str,
        size: f64,
        weight: Weight,
        measure: &dyn TextMeasure,
    ) -> Self {
        let half = [measure.width(text, size, weight) / 2.0, size * LINE / 2.0];
        Self {
            text: text.to_owned(),
            at: Vec2::new(start[0] + half[0], start[1] - RISE * size),
            half,
            sign: None,
            inset: 0.0,
            size,
            bold: weight == Weight::Bold,
            tone: Tone::Ink,
            turn: 0.0,
            patched: false,
            item: 0,
        }
    }

    /// Where the words begin, on the line that they stand on.
    #[must_use]
    pub fn start(&self) -> ViewPoint {
        let (sine, cosine) = self.turn.to_radians().sin_cos();
        let along = Vec2::new(cosine, sine);
        let down = Vec2::new(-sine, cosine);
        self.at + along * (self.inset - self.half[0]) + down * (RISE * self.size)
    }
}

/// Middle of words above the line that they stand on, in font sizes.
const RISE: f64 = 0.35;

/// Height of a sign, in font sizes.
const SIGN: f64 = 0.7;

/// Height of a line of words, in font sizes.
pub(super) const LINE: f64 = 1.1;

/// What a drawing is laid out with.
#[derive(Clone, Copy)]
pub struct LayoutDesk<'a> {
    /// How large and how thick things are.
    pub hand: &'a Hand,
    /// How wide words are.
    pub measure: &'a dyn TextMeasure,
}

/// Lays a drawing out. With a `room` (width, height) words stay inside it, and the words of what is
/// out of sight are left out.
#[must_use]
pub fn lay_out(
    drawing: &Drawing,
    view: &View,
    room: Option<[f64; 2]>,
    desk: LayoutDesk<'_>,
) -> Laid {
    let mut board = LayoutBoard::new(view, room, desk);
    for (index, item) in drawing.items.iter().enumerate() {
        strokes::draw(&mut board, index, item);
    }
    board.drawn();
    let worded = drawing.items.iter().enumerate();
    let worded = worded.filter_map(|(index, item)| Some((turn(&item.shape)?, index, item)));
    let mut worded: Vec<_> = worded.collect();
    worded.sort_by_key(|(turn, ..)| std::cmp::Reverse(*turn));
    for (_, index, item) in worded {
        match &item.shape {
            Shape::Label(label) => around::place(&mut board, index, item, label),
            Shape::Dimension(dimension) => dimension::place(&mut board, index, item, dimension),
            Shape::Row(row) => row::place(&mut board, index, item, row),
            _ => {}
        }
    }
    board.done()
}

/// Who chooses first: by rank, and in one rank figures in a row, then dimensions, then words. Numbers
/// that can stand in one place only come right after the names of marks.
fn turn(shape: &Shape) -> Option<(Rank, u8)> {
    match shape {
        Shape::Row(_) => Some((Rank::Main, 2)),
        Shape::Dimension(dimension) => Some((dimension.rank, 1)),
        Shape::Label(label) => match label.place {
            WordsPlace::Toward { .. } => Some((label.rank.max(Rank::Kept), 0)),
            _ if label.rank == Rank::Kept => Some((label.rank, 1)),
            _ => Some((label.rank, 0)),
        },
        _ => None,
    }
}
