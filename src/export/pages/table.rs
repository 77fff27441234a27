//! Tables: columns as wide as they need, rows kept whole, the heading again on the next page.

use super::piece::{Piece, Rule};
use super::set::wrapped;
use super::{LEADING, Words};
use crate::drawing::{Bundled, Measure, Tone, Weight};
use crate::length::Unit;
use crate::sheet::{Align, Column, Table};
use std::rc::Rc;

/// Between two columns, pt.
const GUTTER: f64 = 9.0;
/// Above and below the words of a row, pt.
const PAD: f64 = 1.6;
/// Sizes that are tried until the table fits its page.
const SIZES: [f64; 4] = [8.8, 8.4, 8.0, 7.6];

/// The pieces of a table: heading, rows, note. A table too wide for the page comes in parts that
/// each repeat the columns that name the rows.
pub(super) fn pieces(table: &Table, unit: Unit, width: f64) -> Vec<Piece> {
    let shown = Shown::of(table, unit);
    let fits = |size: &f64| shown.least(*size, &shown.all()) <= width;
    let last = SIZES[SIZES.len() - 1];
    let size = SIZES.into_iter().find(fits).unwrap_or(last);
    let mut pieces = Vec::new();
    for columns in shown.parts(size, width) {
        pieces.extend(shown.part(&columns, size, width));
    }
    if !table.note.is_empty() {
        if let Some(row) = pieces.last_mut() {
            row.glued = true;
        }
        pieces.push(note(&table.note, width));
    }
    pieces
}

/// Whether it comes in one part on this width.
pub(super) fn fits(table: &Table, unit: Unit, width: f64) -> bool {
    let shown = Shown::of(table, unit);
    let least = SIZES[SIZES.len() - 1];
    shown.least(least, &shown.all()) <= width
}

fn note(text: &str, width: f64) -> Piece {
    const SIZE: f64 = 7.6;
    let lines = wrapped(text, SIZE, Weight::Regular, width);
    let step = SIZE * LEADING;
    Piece {
        height: step * lines.len() as f64,
        before: 3.0,
        words: (lines.into_iter().enumerate())
            .map(|(at, text)| Words {
                x: 0.0,
                y: SIZE + step * at as f64,
                text,
                size: SIZE,
                weight: Weight::Regular,
            })
            .collect(),
        ..Piece::default()
    }
}

/// A table with its cells as they read.
struct Shown<'a> {
    columns: &'a [Column],
    names: usize,
    cells: Vec<Vec<String>>,
}

impl<'a> Shown<'a> {
    fn of(table: &'a Table, unit: Unit) -> Self {
        let row = |row: &Vec<crate::sheet::Cell>| row.iter().map(|cell| cell.shown(unit)).collect();
        Self {
            columns: &table.columns,
            names: table.names.min(table.columns.len()),
            cells: table.rows.iter().map(row).collect(),
        }
    }

    fn all(&self) -> Vec<usize> {
        (0..self.columns.len()).collect()
    }

    fn weight(&self, column: usize) -> Weight {
        if column < self.names {
            Weight::Bold
        } else {
            Weight::Regular
        }
    }

    /// The least and the natural width of a column, pt. Figures are never folded; headings fold at
    /// their spaces.
    fn widths(&self, column: usize, size: f64) -> [f64; 2] {
        /// Text is folded no narrower than this unless it is short, in font sizes.
        const NARROW: f64 = 9.0;
        let weight = self.weight(column);
        let cells = self.cells.iter().filter_map(|row| row.get(column));
        let natural = cells
            .map(|cell| Bundled.width(cell, size, weight))
            .fold(0.0, f64::max);
        let heading = self.columns.get(column).map_or("", |c| c.heading.as_str());
        let [longest, on_two] = heading_widths(heading, size);
        let folds = self
            .columns
            .get(column)
            .is_some_and(|c| c.align == Align::Left);
        let least = if folds {
            natural.min(NARROW * size)
        } else {
            natural
        };
        [least.max(longest), natural.max(on_two)]
    }

    fn least(&self, size: f64, columns: &[usize]) -> f64 {
        let widths = columns.iter().map(|&column| self.widths(column, size)[0]);
        widths.sum::<f64>() + GUTTER * columns.len().saturating_sub(1) as f64
    }

    /// Columns that go side by side on one page width.
    fn parts(&self, size: f64, width: f64) -> Vec<Vec<usize>> {
        let names: Vec<usize> = (0..self.names).collect();
        let mut parts = Vec::new();
        let mut part = names.clone();
        for column in self.names..self.columns.len() {
            part.push(column);
            if self.least(size, &part) > width && part.len() > names.len() + 1 {
                part.pop();
                parts.push(std::mem::replace(&mut part, names.clone()));
                part.push(column);
            }
        }
        parts.push(part);
        parts
    }

    /// Every column gets its natural width; where that is too much, those that fold share what is
    /// left beyond their least.
    fn share(&self, columns: &[usize], size: f64, width: f64) -> Vec<f64> {
        let widths: Vec<[f64; 2]> = columns.iter().map(|&c| self.widths(c, size)).collect();
        let gutters = GUTTER * columns.len().saturating_sub(1) as f64;
        let least: f64 = widths.iter().map(|[least, _]| least).sum();
        let wish: f64 = widths.iter().map(|[least, natural]| natural - least).sum();
        let spare = (width - gutters - least).max(0.0);
        let share = if wish > spare && wish > 0.0 {
            spare / wish
        } else {
            1.0
        };
        let each = widths.iter();
        each.map(|[least, natural]| least + (natural - least) * share)
            .collect()
    }

    fn part(&self, columns: &[usize], size: f64, width: f64) -> Vec<Piece> {
        let widths = self.share(columns, size, width);
        let headings: Vec<&str> = columns
            .iter()
            .map(|&column| self.columns.get(column).map_or("", |c| c.heading.as_str()))
            .collect();
        let bold = vec![Weight::Bold; columns.len()];
        let mut head = self.row(&headings, columns, &widths, size, &bold);
        let across: f64 = widths.iter().sum::<f64>() + GUTTER * (widths.len() - 1) as f64;
        let rule = |y: f64, thick: f64, tone: Tone| Rule {
            x: 0.0,
            y,
            width: across,
            thick,
            tone,
        };
        stand_at_foot(&mut head, size);
        head.rules.push(rule(head.height, 0.8, Tone::Ink));
        head.before = 5.0;
        head.glued = true;
        let again = Rc::new(head.clone());
        let mut pieces = vec![head];
        let weights: Vec<Weight> = columns.iter().map(|&column| self.weight(column)).collect();
        for (at, row) in self.cells.iter().enumerate() {
            let cells: Vec<&str> = columns
                .iter()
                .map(|&column| row.get(column).map_or("", String::as_str))
                .collect();
            let mut piece = self.row(&cells, columns, &widths, size, &weights);
            piece.rules.push(rule(piece.height, 0.35, Tone::Rule));
            piece.again = Some(Rc::clone(&again));
            // No row stands alone under a heading or over a page's end.
            piece.glued = at == 0 && self.cells.len() > 1 || at + 2 == self.cells.len();
            pieces.push(piece);
        }
        pieces
    }

    fn row(
        &self,
        cells: &[&str],
        columns: &[usize],
        widths: &[f64],
        size: f64,
        weights: &[Weight],
    ) -> Piece {
        let step = size * LEADING;
        let mut piece = Piece::default();
        let mut left = 0.0;
        let mut most = 1;
        for (at, cell) in cells.iter().enumerate() {
            let (width, weight) = (widths[at], weights[at]);
            // A hair more than measured, so that what fits is never folded.
            let lines = wrapped(cell, size, weight, width + 0.01);
            most = most.max(lines.len());
            let column = columns.get(at).and_then(|&column| self.columns.get(column));
            let right = column.is_some_and(|column| column.align == Align::Right);
            for (line, text) in lines.into_iter().enumerate() {
                let wide = Bundled.width(&text, size, weight);
                piece.words.push(Words {
                    x: if right { left + width - wide } else { left },
                    y: PAD + size + step * line as f64,
                    text,
                    size,
                    weight,
                });
            }
            left += width + GUTTER;
        }
        piece.height = step * most as f64 + PAD;
        piece
    }
}

/// The width of a heading's longest word, and of the heading on two lines, pt.
fn heading_widths(heading: &str, size: f64) -> [f64; 2] {
    let wide = |text: &str| Bundled.width(text, size, Weight::Bold);
    let longest = heading.split(' ').map(wide).fold(0.0, f64::max);
    let breaks = heading.match_indices(' ');
    let on_two = breaks.map(|(at, _)| wide(&heading[..at]).max(wide(&heading[at + 1..])));
    [longest, on_two.fold(wide(heading), f64::min)]
}

/// Headings of one line stand on the last line of those with more.
fn stand_at_foot(head: &mut Piece, size: f64) {
    let step = size * LEADING;
    let last = head.words.iter().map(|words| words.y).fold(0.0, f64::max);
    let mut columns: Vec<Vec<usize>> = Vec::new();
    for (at, words) in head.words.iter().enumerate() {
        let first = words.y < PAD + size + step / 2.0;
        match columns.last_mut() {
            Some(column) if !first => column.push(at),
            _ => columns.push(vec![at]),
        }
    }
    for column in columns {
        let foot = column.last().map_or(last, |&at| head.words[at].y);
        for at in column {
            head.words[at].y += last - foot;
        }
    }
}
