//! What is on the drawing so far, and what a place for words would cost.
//!
//! ```text
//!   solid  posts, marks, rings           words keep off them
//!   words  with the space at their ends  words keep off them, and no line is drawn through them
//!   lines  heavy: never under words but those written on them; fine: at a price, with a patch
//! ```

use super::near::{Near, along_line, around_tile};
use super::tile::Tile;
use super::{LINE, Laid, LayoutDesk, PlacedLabel, SIGN, Stroke};
use crate::drawing::bounds::Vec2;
use crate::drawing::hand::Areas;
use crate::drawing::model::{DrawnItem, LineStyle, Sign};
use crate::drawing::text::Weight;
use crate::drawing::tone::{Tone, outline};
use crate::drawing::view::{View, ViewPoint};
use crate::job::visible;

/// The drawing while it is laid out.
pub(super) struct LayoutBoard<'a> {
    pub view: &'a View,
    pub desk: LayoutDesk<'a>,
    pub laid: Laid,
    /// Width and height, where words must stay inside.
    pub room: Option<[f64; 2]>,
    /// What words may not cover.
    solid: Near<Tile>,
    /// Words in their places, each with its share of the space between two.
    words: Near<Tile>,
    /// Lines that no words but their own stand on.
    heavy: Near<(Vec2, Vec2)>,
    /// Other lines, and how little words like to stand on them.
    fine: Near<(Vec2, Vec2, f64)>,
}

/// What a line costs that no words but its own stand on: with a patch under them it would be cut in two
/// and they would be taken for its figure, without one it would strike them.
pub(super) const STRIKES: f64 = f64::INFINITY;

/// The line that words are written on costs them nothing.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Written {
    /// On a line through their middle, along them.
    OnLine,
    /// Beside whatever they are of.
    Beside,
}

/// Words with a place that is not theirs yet.
#[derive(Clone, Debug)]
pub(super) struct Words {
    pub text: String,
    pub size: f64,
    pub bold: bool,
    pub sign: Option<Sign>,
    /// Width of the sign and the space after it.
    pub inset: f64,
    /// Width of sign and words together.
    pub width: f64,
    /// Width of a space: what they keep free at either end. Two figures closer than two spaces would be
    /// read as one row.
    pub space: f64,
}

impl Words {
    /// Half their width and half their height.
    pub fn half(&self) -> [f64; 2] {
        [self.width / 2.0, self.size * LINE / 2.0]
    }
}

impl<'a> LayoutBoard<'a> {
    pub fn new(view: &'a View, room: Option<[f64; 2]>, desk: LayoutDesk<'a>) -> Self {
        Self {
            view,
            desk,
            laid: Laid::default(),
            room,
            solid: Near::new(),
            words: Near::new(),
            heavy: Near::new(),
            fine: Near::new(),
        }
    }

    /// What is wider than the room ends in “…”.
    pub fn words(&self, text: &str, size: f64, bold: bool) -> Words {
        let weight = if bold { Weight::Bold } else { Weight::Regular };
        let width = |text: &str| self.desk.measure.width(text, size, weight);
        let mut text = visible(text).into_owned();
        let most = self.room.map_or(f64::INFINITY, |[width, _]| width);
        let most = most - 2.0 * self.desk.hand.gap;
        if width(&text) > most {
            while text.pop().is_some() && width(&text) + width("…") > most {}
            text.push('…');
        }
        Words {
            size,
            bold,
            sign: None,
            inset: 0.0,
            width: width(&text),
            space: width(" "),
            text,
        }
    }

    pub fn signed(&self, sign: Option<Sign>, text: &str, size: f64, bold: bool) -> Words {
        let words = self.words(text, size, bold);
        let inset = match sign {
            Some(_) => size * (SIGN * 1.1 + 0.3),
            None => 0.0,
        };
        Words {
            sign,
            inset,
            width: words.width + inset,
            ..words
        }
    }

    /// Keeps words off a place, once all that is drawn is there.
    pub fn keep_off(&mut self, tile: Tile) {
        self.solid.prepare(tile, [around_tile(&tile)]);
    }

    /// Makes words on a line cost so much, once all that is drawn is there.
    pub fn avoid(&mut self, from: ViewPoint, to: ViewPoint, cost: f64) {
        if cost < STRIKES {
            self.fine.prepare((from, to, cost), along_line(from, to));
        } else {
            self.heavy.prepare((from, to), along_line(from, to));
        }
    }

    /// All that is drawn is there: words can be placed.
    pub fn drawn(&mut self) {
        self.solid.pack();
        self.heavy.pack();
        self.fine.pack();
    }

    /// True where a point is in sight.
    pub fn sees(&self, at: ViewPoint) -> bool {
        self.room.is_none_or(|[width, height]| {
            (0.0..=width).contains(&at.x) && (0.0..=height).contains(&at.y)
        })
    }

    /// True where a tile is in the room, and neither anything solid nor other words are in its way.
    pub fn is_free(&self, tile: &Tile, words: &Words) -> bool {
        let off = tile.wider(self.desk.hand.gap * 0.8);
        let apart = tile.wider(words.space);
        tile.corners().iter().all(|&corner| self.sees(corner))
            && !covers(&self.solid, &off)
            && !covers(&self.words, &apart)
    }

    /// True where a line runs through nothing solid.
    pub fn is_open(&self, from: ViewPoint, to: ViewPoint) -> bool {
        !crosses(&self.solid, from, to)
    }

    /// True where a line runs through no words.
    pub fn spares_words(&self, from: ViewPoint, to: ViewPoint) -> bool {
        !crosses(&self.words, from, to)
    }

    /// True where a heavy line runs under a tile or close beside it, but the one its words are written on.
    pub fn is_struck(&self, tile: &Tile, written: Written) -> bool {
        let close = self.close(tile);
        self.heavy.any(around_tile(&close), |(from, to)| {
            close.is_crossed(*from, *to)
                && !(written == Written::OnLine && tile.lies_on(*from, *to))
        })
    }

    /// What the lines under a tile or close beside it cost.
    pub fn cost(&self, tile: &Tile, written: Written) -> f64 {
        if self.is_struck(tile, written) {
            return STRIKES;
        }
        let close = self.close(tile);
        let crossing = self.fine.each(around_tile(&close));
        let crossing = crossing.filter(|(from, to, _)| close.is_crossed(*from, *to));
        crossing.map(|(_, _, cost)| cost).sum()
    }

    /// A tile and what is so close beside it that it seems to touch.
    fn close(&self, tile: &Tile) -> Tile {
        tile.grown(self.desk.hand.gap * 0.4)
    }

    /// Faint lines do not trouble words on a screen; on paper a hatch does.
    fn needs_patch(&self, crossed: f64) -> bool {
        /// Lines that cost less than this are faint.
        const FAINT: f64 = 0.65;
        match self.desk.hand.areas {
            Areas::Toned => crossed >= FAINT,
            Areas::Hatched => crossed > 0.0,
        }
    }

    /// All of it, with patches under words that lines run behind.
    pub fn done(mut self) -> Laid {
        let mut labels = std::mem::take(&mut self.laid.labels);
        for label in &mut labels {
            label.patched = self.needs_patch(self.cost(&label.tile(), Written::Beside));
        }
        self.laid.labels = labels;
        self.laid
    }

    /// Writes words in their place; `tile` is what they take.
    pub fn write(&mut self, index: usize, item: &DrawnItem, words: Words, tile: Tile) {
        let tone = outline(item.role, item.stress);
        let kept = tile.wider(words.space);
        self.words.add(kept, [around_tile(&kept)]);
        self.laid.labels.push(PlacedLabel {
            half: words.half(),
            text: words.text,
            at: tile.middle,
            size: words.size,
            bold: words.bold,
            sign: words.sign,
            inset: words.inset,
            tone,
            turn: tile.along.y.atan2(tile.along.x).to_degrees(),
            patched: false,
            item: index,
        });
    }

    /// Draws an open line that no words stand on.
    pub fn rule(&mut self, index: usize, tone: Tone, line: LineStyle, ends: [ViewPoint; 2]) {
        let Some((width, dash)) = self.desk.hand.pen(line) else {
            return;
        };
        let [from, to] = ends;
        self.heavy.add((from, to), along_line(from, to));
        self.laid.strokes.push(Stroke {
            points: ends.to_vec(),
            closed: false,
            line: Some((tone, width)),
            dash,
            fill: None,
            item: index,
        });
    }
}

fn covers(things: &Near<Tile>, tile: &Tile) -> bool {
    things.any(around_tile(tile), |thing| thing.covers(tile))
}

fn crosses(things: &Near<Tile>, from: ViewPoint, to: ViewPoint) -> bool {
    along_line(from, to).any(|within| things.any(within, |thing| thing.is_crossed(from, to)))
}

/// The direction in which words along a line are read: from the left, or upwards.
pub(super) fn readable(along: Vec2) -> Vec2 {
    if along.x < -1e-6 || (along.x.abs() <= 1e-6 && along.y > 0.0) {
        -along
    } else {
        along
    }
}
