//! What is on the drawing so far, and what a place for words would cost.

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
    room: Option<[f64; 2]>,
    /// What words may not cover.
    solid: Near<Tile>,
    /// Lines, and how little words like to stand on them.
    lines: Near<(Vec2, Vec2, f64)>,
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
            lines: Near::new(),
        }
    }

    pub fn words(&self, text: &str, size: f64, bold: bool) -> Words {
        let weight = if bold { Weight::Bold } else { Weight::Regular };
        let text = visible(text).into_owned();
        Words {
            size,
            bold,
            sign: None,
            inset: 0.0,
            width: self.desk.measure.width(&text, size, weight),
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

    /// Keeps words off a place.
    pub fn keep_off(&mut self, tile: Tile) {
        self.solid.add(tile, [around_tile(&tile)]);
    }

    /// Makes words on a line cost so much.
    pub fn avoid(&mut self, from: ViewPoint, to: ViewPoint, cost: f64) {
        self.lines.add((from, to, cost), along_line(from, to));
    }

    /// True where a point is in sight.
    pub fn sees(&self, at: ViewPoint) -> bool {
        self.room.is_none_or(|[width, height]| {
            (0.0..=width).contains(&at.x) && (0.0..=height).contains(&at.y)
        })
    }

    /// True where nothing solid is in the way of a tile and it is in the room.
    pub fn is_free(&self, tile: &Tile) -> bool {
        // Two figures side by side would be read as one.
        let apart = tile.wider(self.desk.hand.gap * 0.8);
        let within = around_tile(&apart);
        tile.corners().iter().all(|&corner| self.sees(corner))
            && !self.solid.any(within, |solid| solid.covers(&apart))
    }

    /// True where a line runs through no words and nothing solid.
    pub fn is_open(&self, from: ViewPoint, to: ViewPoint) -> bool {
        let crossed = |within| {
            let hit = |solid: &Tile| solid.is_crossed(from, to);
            self.solid.any(within, hit)
        };
        !along_line(from, to).any(crossed)
    }

    /// What the lines under a tile or close beside it cost.
    pub fn cost(&self, tile: &Tile) -> f64 {
        let tile = tile.grown(self.desk.hand.gap * 0.4);
        let crossing = self
            .lines
            .each(around_tile(&tile))
            .filter(|(from, to, _)| tile.is_crossed(*from, *to));
        crossing.map(|(_, _, cost)| cost).sum()
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
            label.halo = self.needs_patch(self.cost(&label.tile()));
        }
        self.laid.labels = labels;
        self.laid
    }

    /// Writes words in their place; `tile` is what they take.
    pub fn write(&mut self, index: usize, item: &DrawnItem, words: Words, tile: Tile) {
        let tone = outline(item.role, item.stress);
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
            halo: false,
            item: index,
        });
        self.keep_off(tile);
    }

    /// Draws an open line that words would rather not stand on.
    pub fn rule(&mut self, index: usize, tone: Tone, line: LineStyle, ends: [ViewPoint; 2]) {
        let Some((width, dash)) = self.desk.hand.pen(line) else {
            return;
        };
        self.avoid(ends[0], ends[1], 1.5);
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

/// The direction in which words along a line are read: from the left, or upwards.
pub(super) fn readable(along: Vec2) -> Vec2 {
    if along.x < -1e-6 || (along.x.abs() <= 1e-6 && along.y > 0.0) {
        -along
    } else {
        along
    }
}
