//! What pages are filled with: pieces that are not broken, and the pages as they fill.

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
        let (side, top, foot) = (38.0, 26.0, 38.0);
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
    /// BlocksStand in one of two columns.
    pub narrow: bool,
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

/// What stands on one page: pieces with their place from the frame's top left corner.
#[derive(Clone, Debug, Default)]
pub(super) struct PagePieces {
    pub pieces: Vec<([f64; 2], Rc<Piece>)>,
}

/// Pages being filled.
pub(super) struct Sheaf<'a> {
    pub frame: &'a Frame,
    pub pages: Vec<PagePieces>,
    /// Down the last page, pt.
    pub y: f64,
}

impl Sheaf<'_> {
    pub fn turn_over(&mut self) {
        self.pages.push(PagePieces::default());
        self.y = 0.0;
    }

    pub fn put(&mut self, at: [f64; 2], piece: &Rc<Piece>) {
        if let Some(page) = self.pages.last_mut() {
            page.pieces.push((at, Rc::clone(piece)));
        }
    }
}

pub(super) fn group_end(pieces: &[Rc<Piece>], start: usize) -> usize {
    let rest = pieces[start..].iter();
    let glued = rest.take_while(|piece| piece.glued).count();
    (start + glued + 1).min(pieces.len())
}

/// Of pieces in a row, without the space before the first.
pub(super) fn height(group: &[Rc<Piece>]) -> f64 {
    let between: f64 = group.iter().skip(1).map(|piece| piece.before).sum();
    between + group.iter().map(|piece| piece.height).sum::<f64>()
}
