//! Drawings among the pieces of a page.

use super::piece::Piece;
use super::set::{Gap, PageColumn, paragraph, tall};
use super::{LEADING, SMALL, Words};
use crate::drawing::{Bundled, Hand, LayoutDesk, Weight, fitted, lay_out};
use crate::sheet::{Picture, Section, Sheet};
use std::rc::Rc;

impl PageColumn {
    /// The plan, as much lower as the section under it needs to end on the same page, if it can.
    pub fn plan(&mut self, plan: &Picture, under: Option<&Section>, sheet: &Sheet) {
        let mut below = PageColumn {
            pieces: Vec::new(),
            ..*self
        };
        if let Some(section) = under {
            below.section(section, sheet);
        }
        let most = plan.height(self.width);
        let least = plan.least_height(self.width);
        let caption = 3.0 + Gap::Block.height() + 2.0 * SMALL * LEADING;
        let left = self.page - tall(&self.pieces) - tall(&below.pieces) - caption;
        let height = if left < least { most } else { left.min(most) };
        self.pictures_of(std::slice::from_ref(plan), height);
    }

    /// Side by side, as high as suits them.
    pub fn pictures(&mut self, pictures: &[Picture]) {
        let width = side_by_side(self.width, pictures.len());
        let heights = pictures.iter().map(|p| p.height(width));
        self.pictures_of(pictures, heights.fold(0.0, f64::max));
    }

    /// Side by side and so high, each with its caption under it.
    fn pictures_of(&mut self, pictures: &[Picture], height: f64) {
        let paper = Hand::paper();
        // Half a page has room for as much as a whole one in small type.
        let small = Hand {
            text: SMALL,
            ..paper
        };
        let is_small = pictures.iter().all(|picture| picture.room.is_narrow());
        let desk = LayoutDesk {
            hand: if is_small { &small } else { &paper },
            measure: &Bundled,
        };
        let width = side_by_side(self.width, pictures.len());
        let mut all = Piece {
            before: Gap::Block.height(),
            ..Piece::default()
        };
        for (at, picture) in pictures.iter().enumerate() {
            let left = at as f64 * (width + BETWEEN);
            let room = [width, height];
            let view = fitted(&picture.drawing, room, desk);
            let laid = lay_out(&picture.drawing, &view, Some(room), desk);
            all.drawings.push((left, 0.0, Rc::new(laid)));
            let caption = paragraph(&picture.caption, SMALL, Weight::Regular, 0.0, width);
            for words in caption.words {
                all.words.push(Words {
                    x: words.x + left,
                    y: words.y + height + 3.0,
                    ..words
                });
            }
            all.height = all.height.max(height + 3.0 + caption.height);
        }
        self.pieces.push(all);
    }
}

/// Between drawings side by side, pt.
const BETWEEN: f64 = 16.0;

/// The width of each of so many drawings side by side, pt.
fn side_by_side(width: f64, count: usize) -> f64 {
    let count = count.max(1) as f64;
    (width - BETWEEN * (count - 1.0)) / count
}
