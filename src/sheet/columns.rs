//! How wide the columns of a table are, on a page of characters as on paper.
//!
//! ```text
//!   names  figures …        a table too wide for its page comes in parts, as few as can be
//!   ┌────┬─────┬─────┐      and as even as can be; each begins with the columns that name
//!   │ 1  │ 990 │ 412 │      the rows. Figures are never folded; text and headings are.
//!   └────┴─────┴─────┘
//! ```

use super::document::{Align, Table};
use crate::drawing::{TextMeasure, Weight};
use crate::length::Unit;

/// What a table is set in; lengths in the unit of its page: characters, or pt.
#[derive(Clone, Copy)]
pub struct TypeSetting<'a> {
    pub measure: &'a dyn TextMeasure,
    /// Size of the type.
    pub size: f64,
    /// Between two columns.
    pub gutter: f64,
    /// Text is folded no narrower than this, unless it is short.
    pub narrow: f64,
    /// A heading no wider than this stays on one line.
    pub short: f64,
}

/// The columns of one table in one setting.
pub struct Columns<'a> {
    table: &'a Table,
    /// How many leading columns name the row.
    names: usize,
    /// The cells as they read, row by row.
    pub cells: Vec<Vec<String>>,
    /// Least and natural width of each column.
    widths: Vec<[f64; 2]>,
    setting: TypeSetting<'a>,
}

impl<'a> Columns<'a> {
    pub fn new(table: &'a Table, unit: Unit, setting: TypeSetting<'a>) -> Self {
        let rows = table.rows.iter();
        let cells = rows.map(|row| row.iter().map(|cell| cell.shown(unit)).collect());
        let mut columns = Self {
            table,
            names: table.names.min(table.columns.len()),
            cells: cells.collect(),
            widths: Vec::new(),
            setting,
        };
        columns.widths = (0..table.columns.len()).map(|c| columns.own(c)).collect();
        columns
    }

    pub fn heading(&self, column: usize) -> &'a str {
        let column = self.table.columns.get(column);
        column.map_or("", |column| column.heading.as_str())
    }

    pub fn align(&self, column: usize) -> Align {
        let column = self.table.columns.get(column);
        column.map_or(Align::Left, |column| column.align)
    }

    /// Names of rows stand out.
    pub fn weight(&self, column: usize) -> Weight {
        if column < self.names {
            Weight::Bold
        } else {
            Weight::Regular
        }
    }

    /// True where the whole table fits on one page width.
    pub fn fit(&self, page: f64) -> bool {
        let all: Vec<usize> = (0..self.widths.len()).collect();
        self.least(&all) <= page
    }

    fn own(&self, column: usize) -> [f64; 2] {
        let TypeSetting {
            measure,
            size,
            narrow,
            ..
        } = self.setting;
        let weight = self.weight(column);
        let cells = self.cells.iter().filter_map(|row| row.get(column));
        let widths = cells.map(|cell| measure.width(cell, size, weight));
        let natural = widths.fold(0.0, f64::max);
        let least = match self.align(column) {
            Align::Left => natural.min(narrow),
            Align::Right => natural,
        };
        let [longest, easy] = self.heading_widths(self.heading(column));
        [least.max(longest), natural.max(easy)]
    }

    /// The width of a heading's longest word, and of the heading where it is easy to read: on one
    /// line if it is short, else on two.
    fn heading_widths(&self, heading: &str) -> [f64; 2] {
        let TypeSetting {
            measure,
            size,
            short,
            ..
        } = self.setting;
        let wide = |text: &str| measure.width(text, size, Weight::Bold);
        let longest = heading.split(' ').map(wide).fold(0.0, f64::max);
        let whole = wide(heading);
        if whole <= short {
            return [longest, whole];
        }
        let breaks = heading.match_indices(' ');
        let on_two = breaks.map(|(at, _)| wide(&heading[..at]).max(wide(&heading[at + 1..])));
        [longest, on_two.fold(whole, f64::min)]
    }

    fn gutters(&self, columns: &[usize]) -> f64 {
        self.setting.gutter * columns.len().saturating_sub(1) as f64
    }

    fn least(&self, columns: &[usize]) -> f64 {
        let widths = columns.iter().filter_map(|&column| self.widths.get(column));
        widths.map(|[least, _]| least).sum::<f64>() + self.gutters(columns)
    }

    /// Which columns stand together so that each part fits: as few parts as can be, and then as
    /// even as can be.
    pub fn parts(&self, page: f64) -> Vec<Vec<usize>> {
        /// Narrower pages that are tried.
        const TRIES: u32 = 100;
        let parts = self.parts_within(page);
        let narrower =
            (1..TRIES).map(|nth| self.parts_within(page * f64::from(nth) / f64::from(TRIES)));
        let even = narrower.into_iter().find(|even| even.len() == parts.len());
        even.unwrap_or(parts)
    }

    fn parts_within(&self, page: f64) -> Vec<Vec<usize>> {
        let names: Vec<usize> = (0..self.names).collect();
        let (mut parts, mut part) = (Vec::new(), names.clone());
        for column in self.names..self.widths.len() {
            part.push(column);
            if self.least(&part) > page && part.len() > names.len() + 1 {
                part.pop();
                parts.push(std::mem::replace(&mut part, names.clone()));
                part.push(column);
            }
        }
        parts.push(part);
        parts
    }

    /// The widths of columns side by side: natural where there is room, else the widest give way
    /// first, none below its least.
    pub fn widths(&self, columns: &[usize], page: f64) -> Vec<f64> {
        let own = || columns.iter().filter_map(|&column| self.widths.get(column));
        let at_most =
            |level: f64| own().map(move |[least, natural]| natural.min(level.max(*least)));
        let room = page - self.gutters(columns);
        let mut high = own().map(|[_, natural]| *natural).fold(0.0, f64::max);
        if at_most(high).sum::<f64>() <= room {
            return at_most(high).collect();
        }
        // The level that just fits, by halving: as fine as any page is set.
        let mut low = 0.0;
        for _ in 0..40 {
            let level = (low + high) / 2.0;
            if at_most(level).sum::<f64>() <= room {
                low = level;
            } else {
                high = level;
            }
        }
        at_most(low).collect()
    }
}
