//! Pieces one under the other, and pages where they are full.

use super::{Paper, Words};
use crate::drawing::{Laid, Stroke, Tone, Vec2};
use std::rc::Rc;

/// Where text may stand on a page, pt.
#[derive(Clone, Copy, Debug)]
pub(super) struct Frame {
    pub page: [f64; 2],
    pub left: f64,
    pub top: f64,
    pub width: f64,
    pub height: f64,
}

impl Frame {
    pub fn of(paper: Paper) -> Self {
        let [width, height] = paper.size();
        let (side, top, foot) = (42.0, 42.0, 52.0);
        Self {
            page: [width, height],
            left: side,
            top,
            width: width - 2.0 * side,
            height: height - top - foot,
        }
    }
}

/// Something that is not broken over pages; places are from its own top left corner.
#[derive(Clone, Debug, Default)]
pub(super) struct Piece {
    pub height: f64,
    /// Space before it, unless it starts a page.
    pub before: f64,
    pub words: Vec<Words>,
    pub rules: Vec<Rule>,
    pub drawings: Vec<(f64, f64, Rc<Laid>)>,
    /// Begins a section of the sheet.
    pub opens: bool,
    /// Stays with the piece after it.
    pub glued: bool,
    /// Comes again at the top of a page that starts with this piece.
    pub again: Option<Rc<Piece>>,
}

/// A level rule.
#[derive(Clone, Copy, Debug)]
pub(super) struct Rule {
    pub x: f64,
    pub y: f64,
    pub width: f64,
    pub thick: f64,
    pub tone: Tone,
}

impl Rule {
    /// As a stroke, for a piece whose top left corner is there.
    pub fn stroke(&self, [left, top]: [f64; 2]) -> Stroke {
        let start = Vec2::new(left + self.x, top + self.y);
        Stroke {
            points: vec![start, start + Vec2::new(self.width, 0.0)],
            closed: false,
            line: Some((self.tone, self.thick)),
            dash: None,
            fill: None,
            item: 0,
        }
    }
}

/// What stands on one page: pieces with their distance from the frame's top.
#[derive(Clone, Debug, Default)]
pub(super) struct Page {
    pub pieces: Vec<(f64, Rc<Piece>)>,
}

/// Fills page after page. A piece goes to the next page with all that is glued before it; only a
/// group taller than a page is broken inside.
pub(super) fn flow(pieces: &[Rc<Piece>], frame: &Frame) -> Vec<Page> {
    let mut pages = vec![Page::default()];
    let mut y = 0.0;
    let mut at = 0;
    while at < pieces.len() {
        let end = group_end(pieces, at);
        let group = &pieces[at..end];
        let tall = height(group);
        let fresh = y == 0.0;
        if !fresh && y + group[0].before + tall > frame.height {
            pages.push(Page::default());
            y = 0.0;
        }
        for piece in group {
            place(&mut pages, &mut y, piece, frame);
        }
        at = end;
    }
    pages
}

fn group_end(pieces: &[Rc<Piece>], start: usize) -> usize {
    let rest = pieces[start..].iter();
    let glued = rest.take_while(|piece| piece.glued).count();
    (start + glued + 1).min(pieces.len())
}

/// Of pieces in a row, without the space before the first.
fn height(group: &[Rc<Piece>]) -> f64 {
    let between: f64 = group.iter().skip(1).map(|piece| piece.before).sum();
    between + group.iter().map(|piece| piece.height).sum::<f64>()
}

fn place(pages: &mut Vec<Page>, y: &mut f64, piece: &Rc<Piece>, frame: &Frame) {
    let before = if *y == 0.0 { 0.0 } else { piece.before };
    if *y > 0.0 && *y + before + piece.height > frame.height {
        pages.push(Page::default());
        *y = 0.0;
    }
    let Some(page) = pages.last_mut() else { return };
    if *y == 0.0
        && let Some(again) = &piece.again
    {
        page.pieces.push((0.0, Rc::clone(again)));
        *y = again.height;
    }
    if *y > 0.0 {
        *y += piece.before;
    }
    page.pieces.push((*y, Rc::clone(piece)));
    *y += piece.height;
}

#[cfg(test)]
mod tests {
    use super::*;

    fn piece(height: f64, glued: bool) -> Rc<Piece> {
        Rc::new(Piece {
            height,
            glued,
            before: 10.0,
            ..Piece::default()
        })
    }

    fn frame() -> Frame {
        Frame {
            height: 100.0,
            ..Frame::of(Paper::A4)
        }
    }

    fn tops(pages: &[Page]) -> Vec<Vec<f64>> {
        let of = |page: &Page| page.pieces.iter().map(|(y, _)| *y).collect();
        pages.iter().map(of).collect()
    }

    #[test]
    fn what_is_glued_goes_over_together() {
        let pieces = [piece(60.0, false), piece(10.0, true), piece(25.0, false)];
        assert_eq!(tops(&flow(&pieces, &frame())), [vec![0.0], vec![0.0, 20.0]]);
        let pieces = [piece(60.0, false), piece(10.0, false), piece(25.0, false)];
        assert_eq!(tops(&flow(&pieces, &frame())), [vec![0.0, 70.0], vec![0.0]]);
    }

    #[test]
    fn a_table_starts_again_with_its_heading() {
        let head = piece(20.0, true);
        let row = || {
            Rc::new(Piece {
                height: 30.0,
                again: Some(Rc::clone(&head)),
                ..Piece::default()
            })
        };
        let pieces = [Rc::clone(&head), row(), row(), row()];
        assert_eq!(
            tops(&flow(&pieces, &frame())),
            [vec![0.0, 20.0, 50.0], vec![0.0, 20.0]]
        );
    }

    #[test]
    fn a_group_taller_than_a_page_is_still_printed() {
        let pieces: Vec<_> = (0..5).map(|_| piece(40.0, true)).collect();
        let all: usize = flow(&pieces, &frame()).iter().map(|p| p.pieces.len()).sum();
        assert_eq!(all, 5);
    }
}
