//! The set-out sheet as pages: the sheet's own blocks and its drawings, each in its place. Written
//! as PDF, and shown in the app as they are written.

mod columns;
mod flow;
mod pictures;
mod piece;
mod set;
mod table;
mod wrap;

use crate::drawing::{Bundled, Laid, PlacedLabel, TextMeasure, Tone, Vec2, Weight};
use crate::length::Unit;
use crate::sheet::Sheet;
use flow::flow;
use piece::{Frame, Piece, Rule};
use wrap::shortened;

/// The size of a page, upright.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Paper {
    /// 210 by 297 mm.
    #[default]
    A4,
    /// 8.5 by 11 inches.
    Letter,
}

impl Paper {
    /// Width and height, pt.
    #[must_use]
    pub fn size(self) -> [f64; 2] {
        match self {
            Self::A4 => [595.28, 841.89],
            Self::Letter => [612.0, 792.0],
        }
    }

    /// The paper that is usual where lengths are in this unit.
    #[must_use]
    pub fn usual(unit: Unit) -> Self {
        match unit {
            Unit::FtIn(_) => Self::Letter,
            Unit::Mm | Unit::M => Self::A4,
        }
    }
}

/// One page, ready to be painted.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct SheetPage {
    /// Width and height, pt.
    pub size: [f64; 2],
    /// Strokes and words, pt from the page's top left corner.
    pub ink: Laid,
    /// How many sections of the sheet begin on it.
    pub begins: usize,
}

/// The sheet on pages of this paper, with a line at the foot of each. The same sheet gives the same
/// pages.
#[must_use]
pub fn pages(sheet: &Sheet, paper: Paper) -> Vec<SheetPage> {
    let frame = Frame::of(paper);
    let full = flow(&set::pieces(sheet, [frame.width, frame.height]), &frame);
    let count = full.len();
    let inked = full.iter().enumerate().map(|(at, page)| {
        let mut ink = Laid::default();
        for ([x, y], piece) in &page.pieces {
            put(&mut ink, piece, [frame.left + x, frame.top + y]);
        }
        put(
            &mut ink,
            &foot(&frame, &sheet.title, at + 1, count),
            [frame.left, 0.0],
        );
        SheetPage {
            size: frame.page,
            ink,
            begins: page.pieces.iter().filter(|(_, piece)| piece.opens).count(),
        }
    });
    inked.collect()
}

/// Size of the running text, pt.
const TEXT: f64 = 8.0;
/// Nothing on a page is set smaller, pt.
const SMALL: f64 = 8.0;
/// From one line of text to the next, in font sizes.
const LEADING: f64 = 1.23;

/// Words with their place on the page, pt from the top left.
#[derive(Clone, Debug, PartialEq)]
struct Words {
    x: f64,
    /// The line that they stand on.
    y: f64,
    text: String,
    size: f64,
    weight: Weight,
}

/// The title and the page's number under a rule, as a piece that hangs from the page's top.
fn foot(frame: &Frame, title: &str, page: usize, of: usize) -> Piece {
    const SIZE: f64 = SMALL;
    let y = frame.page[1] - 24.0;
    let number = format!("page {page} of {of}");
    let wide = Bundled.width(&number, SIZE, Weight::Regular);
    let short = shortened(title, SIZE, frame.width - wide - 20.0);
    let words = [(0.0, short), (frame.width - wide, number)];
    Piece {
        rules: vec![Rule {
            x: 0.0,
            y: y - SIZE - 5.0,
            width: frame.width,
            thick: 0.5,
            tone: Tone::Ink,
        }],
        words: words
            .map(|(x, text)| Words {
                x,
                y,
                text,
                size: SIZE,
                weight: Weight::Regular,
            })
            .into(),
        ..Piece::default()
    }
}

/// Puts a piece on the page, its top left corner there.
fn put(ink: &mut Laid, piece: &Piece, [left, top]: [f64; 2]) {
    ink.strokes
        .extend(piece.rules.iter().map(|rule| rule.stroke([left, top])));
    for (x, y, laid) in &piece.drawings {
        ink.add(laid.placed(1.0, Vec2::new(left + x, top + y)));
    }
    for words in &piece.words {
        let start = [left + words.x, top + words.y];
        ink.labels.push(PlacedLabel::starting(
            start,
            &words.text,
            words.size,
            words.weight,
            &Bundled,
        ));
    }
}

#[cfg(test)]
mod tests {
    use super::piece::{group_end, height};
    use super::*;
    use crate::{job, solve};
    use std::rc::Rc;

    /// Which page a piece is on.
    fn page_of(pages: &[piece::PagePieces], wanted: &Rc<Piece>) -> Option<usize> {
        let has =
            |page: &piece::PagePieces| page.pieces.iter().any(|(_, one)| Rc::ptr_eq(one, wanted));
        pages.iter().position(has)
    }

    #[test]
    fn no_table_is_split_that_fits_on_one_page() {
        for unit in Unit::ALL {
            let mut job = job::example();
            job.show.lengths = unit;
            let sheet = Sheet::new(&job, &solve(&job));
            for paper in [Paper::A4, Paper::Letter] {
                let frame = Frame::of(paper);
                let pieces = set::pieces(&sheet, [frame.width, frame.height]);
                let full = flow(&pieces, &frame);
                let mut at = 0;
                while at < pieces.len() {
                    let end = group_end(&pieces, at);
                    let group = &pieces[at..end];
                    if height(group) <= frame.height {
                        let first = page_of(&full, &group[0]);
                        assert!(first.is_some());
                        assert!(group.iter().all(|one| page_of(&full, one) == first));
                    }
                    at = end;
                }
            }
        }
    }
}
