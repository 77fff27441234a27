//! The sheet's blocks set in lines and pieces.

use super::piece::{Piece, Rule};
use super::wrap::wrapped;
use super::{LEADING, SMALL, TEXT, Words, columns, table};
use crate::drawing::{Tone, Weight};
use crate::sheet::{
    Block, BlocksStand, Section, Sheet, caution_heading, severity_word, unit_words,
};
use std::rc::Rc;

/// Everything on the sheet, in order, for a column of this width on pages of this height.
pub(super) fn pieces(sheet: &Sheet, [width, page]: [f64; 2]) -> Vec<Rc<Piece>> {
    let mut column = PageColumn {
        full: width,
        width,
        page,
        pieces: Vec::new(),
    };
    column.lines(&sheet.title, 17.0, Weight::Bold, Gap::None);
    let units = format!("Set-out sheet. Lengths in {}.", unit_words(sheet.unit));
    column.lines(&units, TEXT, Weight::Regular, Gap::Small);
    for line in sheet.notes.lines().filter(|line| !line.trim().is_empty()) {
        column.lines(line, TEXT, Weight::Regular, Gap::Small);
    }
    if !sheet.plan.drawing.is_empty() {
        column.plan(&sheet.plan, sheet.sections.first(), sheet);
    }
    for section in &sheet.sections {
        column.section(section, sheet);
    }
    column.pieces.into_iter().map(Rc::new).collect()
}

/// Space before a piece.
#[derive(Clone, Copy)]
pub(super) enum Gap {
    None,
    Small,
    Block,
    Heading,
    Section,
}

impl Gap {
    pub fn height(self) -> f64 {
        match self {
            Self::None => 0.0,
            Self::Small => 2.0,
            Self::Block => 4.5,
            Self::Heading => 7.0,
            Self::Section => 8.0,
        }
    }
}

/// Blocks being set, one under the other.
pub(super) struct PageColumn {
    /// Of the whole page, and of what is being set.
    pub full: f64,
    pub width: f64,
    /// Height of a page.
    pub page: f64,
    pub pieces: Vec<Piece>,
}

impl PageColumn {
    pub fn section(&mut self, section: &Section, sheet: &Sheet) {
        /// Lines under a heading that lead in to a table or a drawing and stay on its page.
        const LEADING_IN: usize = 6;
        self.heading(&section.heading);
        let mut before: Option<&Block> = None;
        let mut lead: Option<usize> = None;
        let across = match section.stands {
            BlocksStand::Across => section.blocks.len(),
            BlocksStand::Columns => {
                let last = section.blocks.iter().rposition(is_picture_as_wide);
                last.map_or(0, |last| last + 1)
            }
        };
        for (at, block) in section.blocks.iter().enumerate() {
            let first = self.pieces.len();
            let narrow = at >= across && !self.is_wide(block, sheet);
            self.width = if narrow {
                columns::width(self.full)
            } else {
                self.full
            };
            self.block(block, sheet);
            for piece in &mut self.pieces[first..] {
                piece.narrow = narrow;
            }
            if matches!(block, Block::Table(_) | Block::Pictures(_))
                && let Some(lead) = lead.take().filter(|lead| first - lead <= LEADING_IN)
            {
                for piece in &mut self.pieces[lead..first] {
                    piece.glued = true;
                }
            }
            if matches!(block, Block::Heading(_)) {
                lead = Some(first);
            }
            // Short lines stand close together, but not close under a table.
            if matches!(before, Some(Block::Table(_)))
                && let Some(piece) = self.pieces.get_mut(first)
            {
                piece.before = piece.before.max(Gap::Block.height());
            }
            before = Some(block);
        }
        self.width = self.full;
    }

    /// Whether a block needs the whole width of the page.
    fn is_wide(&self, block: &Block, sheet: &Sheet) -> bool {
        match block {
            Block::Table(one) => !table::fits(one, sheet.unit, columns::width(self.full)),
            other => is_picture_as_wide(other),
        }
    }

    /// A rule over it and large: the work's next step starts here.
    fn heading(&mut self, text: &str) {
        let mut piece = paragraph(text, 12.5, Weight::Bold, 0.0, self.width);
        for words in &mut piece.words {
            words.y += 6.0;
        }
        piece.height += 8.0;
        piece.before = Gap::Section.height();
        piece.glued = true;
        piece.opens = true;
        piece.rules.push(Rule {
            x: 0.0,
            y: 0.0,
            width: self.width,
            thick: 1.4,
            tone: Tone::Ink,
        });
        self.pieces.push(piece);
    }

    fn lines(&mut self, text: &str, size: f64, weight: Weight, gap: Gap) {
        let piece = paragraph(text, size, weight, 0.0, self.width);
        self.pieces.push(Piece {
            before: gap.height(),
            ..piece
        });
    }

    fn block(&mut self, block: &Block, sheet: &Sheet) {
        match block {
            Block::Heading(text) => {
                self.lines(text, 10.0, Weight::Bold, Gap::Heading);
                self.glue();
            }
            Block::Paragraph(text) => self.lines(text, TEXT, Weight::Regular, Gap::Block),
            Block::List(items) => {
                for item in items {
                    self.marked("–", item, Gap::Small);
                }
            }
            Block::Table(one) => {
                if !one.caption.is_empty() {
                    self.lines(&one.caption, TEXT, Weight::Bold, Gap::Block);
                    self.glue();
                }
                let mut pieces = table::pieces(one, sheet.unit, self.width);
                if tall(&pieces) <= self.page {
                    let kept = pieces.len().saturating_sub(1);
                    for piece in &mut pieces[..kept] {
                        piece.glued = true;
                    }
                }
                self.pieces.extend(pieces);
            }
            Block::Problem(place, problem) => {
                let word = severity_word(problem.severity);
                let place = if place.is_empty() {
                    String::new()
                } else {
                    format!("{place}: ")
                };
                self.marked(word, &format!("{place}{}", problem.text), Gap::Block);
                self.glue();
                self.marked("→", &problem.remedy, Gap::None);
            }
            Block::Caution(caution) => self.marked("!", caution.short, Gap::Small),
            Block::CautionInFull(caution) => {
                let heading = format!("{}.", caution_heading(caution));
                self.lines(&heading, SMALL, Weight::Bold, Gap::Block);
                self.glue();
                self.lines(caution.full, SMALL, Weight::Regular, Gap::None);
            }
            Block::Pictures(pictures) => self.pictures(pictures),
        }
    }

    /// Keeps the last piece with what follows.
    fn glue(&mut self) {
        if let Some(last) = self.pieces.last_mut() {
            last.glued = true;
        }
    }

    /// A bold mark in front, the text beside it.
    fn marked(&mut self, mark: &str, text: &str, gap: Gap) {
        const INDENT: f64 = 34.0;
        let indent = if mark.chars().count() > 1 || mark == "→" {
            INDENT
        } else {
            14.0
        };
        let mut piece = paragraph(text, TEXT, Weight::Regular, indent, self.width);
        let at = if mark == "→" { INDENT - 14.0 } else { 0.0 };
        piece.words.insert(
            0,
            Words {
                x: at,
                y: piece.words.first().map_or(TEXT, |words| words.y),
                text: mark.to_owned(),
                size: TEXT,
                weight: Weight::Bold,
            },
        );
        piece.before = gap.height();
        self.pieces.push(piece);
    }
}

/// A drawing that is worth the page's width.
fn is_picture_as_wide(block: &Block) -> bool {
    match block {
        Block::Pictures(all) => all.len() > 1 || all.iter().any(|one| !one.room.is_narrow()),
        _ => false,
    }
}

/// Height of pieces one under the other.
pub(super) fn tall(pieces: &[Piece]) -> f64 {
    pieces.iter().map(|piece| piece.before + piece.height).sum()
}

/// Text in lines of one width.
pub(super) fn paragraph(text: &str, size: f64, weight: Weight, indent: f64, width: f64) -> Piece {
    let step = size * LEADING;
    let lines = wrapped(text, size, weight, width - indent);
    let each = lines.into_iter().enumerate();
    let words: Vec<Words> = each
        .map(|(at, text)| Words {
            x: indent,
            y: size + step * at as f64,
            text,
            size,
            weight,
        })
        .collect();
    Piece {
        height: step * words.len() as f64,
        words,
        ..Piece::default()
    }
}
