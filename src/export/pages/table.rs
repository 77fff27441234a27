//! Tables: columns as wide as they need, rows kept whole, the heading again on the next page.

use super::piece::{Piece, Rule};
use super::wrap::wrapped;
use super::{LEADING, SMALL, TEXT, Words};
use crate::drawing::{Bundled, TextMeasure, Tone, Weight};
use crate::length::Unit;
use crate::sheet::{Align, Columns, Table, TypeSetting};
use std::rc::Rc;

/// Between two columns, pt.
const GUTTER: f64 = 8.0;
/// Above and below the words of a row, pt.
const PAD: f64 = 1.4;

/// The pieces of a table: heading, rows, note. A table too wide for the page comes in parts that
/// each repeat the columns that name the rows.
pub(super) fn pieces(table: &Table, unit: Unit, width: f64) -> Vec<Piece> {
    let shown = Shown::of(table, unit, TEXT);
    let mut pieces = Vec::new();
    for part in shown.columns.parts(width) {
        pieces.extend(shown.part(&part, width));
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
    Shown::of(table, unit, TEXT).columns.fit(width)
}

fn note(text: &str, width: f64) -> Piece {
    const SIZE: f64 = SMALL;
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

/// A table in one size of type.
struct Shown<'a> {
    columns: Columns<'a>,
    size: f64,
}

impl<'a> Shown<'a> {
    fn of(table: &'a Table, unit: Unit, size: f64) -> Self {
        let setting = TypeSetting {
            measure: &Bundled,
            size,
            gutter: GUTTER,
            narrow: 9.0 * size,
            short: 4.0 * size,
        };
        Self {
            columns: Columns::new(table, unit, setting),
            size,
        }
    }

    fn part(&self, part: &[usize], width: f64) -> Vec<Piece> {
        let columns = &self.columns;
        let widths = columns.widths(part, width);
        let headings: Vec<&str> = part.iter().map(|&at| columns.heading(at)).collect();
        let bold = vec![Weight::Bold; part.len()];
        let mut head = self.row(&headings, part, &widths, &bold);
        let across = widths.iter().sum::<f64>() + GUTTER * widths.len().saturating_sub(1) as f64;
        let rule = |y: f64, thick: f64, tone: Tone| Rule {
            x: 0.0,
            y,
            width: across,
            thick,
            tone,
        };
        stand_at_foot(&mut head, self.size);
        head.rules.push(rule(head.height, 0.8, Tone::Ink));
        head.before = 5.0;
        head.glued = true;
        let again = Rc::new(head.clone());
        let mut pieces = vec![head];
        let weights: Vec<Weight> = part.iter().map(|&at| columns.weight(at)).collect();
        let count = columns.cells.len();
        for (nth, row) in columns.cells.iter().enumerate() {
            let cell = |&at: &usize| row.get(at).map_or("", String::as_str);
            let cells: Vec<&str> = part.iter().map(cell).collect();
            let mut piece = self.row(&cells, part, &widths, &weights);
            piece.rules.push(rule(piece.height, 0.35, Tone::Rule));
            piece.again = Some(Rc::clone(&again));
            // No row stands alone under a heading or over a page's end.
            piece.glued = nth == 0 && count > 1 || nth + 2 == count;
            pieces.push(piece);
        }
        pieces
    }

    fn row(&self, cells: &[&str], part: &[usize], widths: &[f64], weights: &[Weight]) -> Piece {
        let size = self.size;
        let step = size * LEADING;
        let mut piece = Piece::default();
        let mut left = 0.0;
        let mut most = 1;
        let each = cells.iter().zip(part).zip(widths.iter().zip(weights));
        for ((cell, &at), (&width, &weight)) in each {
            // A hair more than measured, so that what fits is never folded.
            let lines = wrapped(cell, size, weight, width + 0.01);
            most = most.max(lines.len());
            for (line, text) in lines.into_iter().enumerate() {
                let indent = match self.columns.align(at) {
                    Align::Left => 0.0,
                    Align::Right => width - Bundled.width(&text, size, weight),
                };
                piece.words.push(Words {
                    x: left + indent,
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
