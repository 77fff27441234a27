//! Tables as lines of text, no wider than the page.

use super::super::document::{Align, Table};
use crate::length::Unit;
use textwrap::core::display_width;

/// Between two columns.
const GAP: usize = 2;
/// Text columns are not folded narrower than this.
const NARROWEST: usize = 12;

/// The table's headings and rows as lines at most `page` wide. Where it cannot fit, text is folded
/// first; then the table is broken into parts that repeat the columns that name the rows.
pub fn lines(table: &Table, unit: Unit, page: usize) -> Vec<String> {
    let grid = Grid::new(table, unit);
    let mut lines = Vec::new();
    for (i, part) in grid.parts(page).into_iter().enumerate() {
        if i > 0 {
            lines.push(String::new());
        }
        lines.extend(grid.part(&part, page));
    }
    lines
}

struct Grid {
    aligns: Vec<Align>,
    headings: Vec<String>,
    rows: Vec<Vec<String>>,
    /// Unfolded width of each column.
    widths: Vec<usize>,
    names: usize,
}

/// Where a cell with fewer lines than its row stands.
#[derive(Clone, Copy)]
enum Stand {
    FromTheTop,
    OnTheRule,
}

impl Grid {
    fn new(table: &Table, unit: Unit) -> Self {
        let rows: Vec<Vec<String>> = table
            .rows
            .iter()
            .map(|row| row.iter().map(|cell| cell.shown(unit)).collect())
            .collect();
        let headings: Vec<String> = table.columns.iter().map(|c| c.heading.clone()).collect();
        let widths = (0..headings.len())
            .map(|at| {
                let cells = rows.iter().filter_map(|row| row.get(at));
                let widest = cells.map(|cell| display_width(cell)).max().unwrap_or(0);
                widest.max(heading_width(&headings[at]))
            })
            .collect();
        Self {
            aligns: table.columns.iter().map(|column| column.align).collect(),
            headings,
            rows,
            widths,
            names: table.names,
        }
    }

    /// Which columns stand together so that each part fits: as few parts as can be, and then as
    /// even as can be.
    fn parts(&self, page: usize) -> Vec<Vec<usize>> {
        let parts = self.parts_within(page);
        let even = (1..page).map(|width| self.parts_within(width));
        let fewest = parts.len();
        even.into_iter()
            .find(|even| even.len() == fewest)
            .unwrap_or(parts)
    }

    fn parts_within(&self, page: usize) -> Vec<Vec<usize>> {
        let least = |at: usize| match self.aligns[at] {
            Align::Left => self.widths[at].min(NARROWEST),
            Align::Right => self.widths[at],
        };
        let names: Vec<usize> = (0..self.names.min(self.widths.len())).collect();
        let taken: usize = names.iter().map(|&at| least(at) + GAP).sum();
        let (mut parts, mut part, mut width) = (Vec::new(), names.clone(), taken);
        for at in names.len()..self.widths.len() {
            if width + least(at) > page && part.len() > names.len() {
                parts.push(std::mem::replace(&mut part, names.clone()));
                width = taken;
            }
            part.push(at);
            width += least(at) + GAP;
        }
        parts.push(part);
        parts
    }

    fn part(&self, columns: &[usize], page: usize) -> Vec<String> {
        let widths = self.fitted(columns, page);
        let mut lines = self.row(&self.headings, columns, &widths, Stand::OnTheRule);
        let rule: usize = widths.iter().sum::<usize>() + GAP * widths.len().saturating_sub(1);
        lines.push("-".repeat(rule));
        for row in &self.rows {
            lines.extend(self.row(row, columns, &widths, Stand::FromTheTop));
        }
        lines
    }

    /// Widths of these columns, the widest text narrowed until they fit.
    fn fitted(&self, columns: &[usize], page: usize) -> Vec<usize> {
        let mut widths: Vec<usize> = columns.iter().map(|&at| self.widths[at]).collect();
        let gaps = GAP * columns.len().saturating_sub(1);
        while widths.iter().sum::<usize>() + gaps > page {
            let foldable = columns
                .iter()
                .enumerate()
                .filter(|&(i, &at)| self.aligns[at] == Align::Left && widths[i] > NARROWEST);
            let Some((widest, _)) = foldable.max_by_key(|&(i, _)| widths[i]) else {
                break;
            };
            widths[widest] -= 1;
        }
        widths
    }

    /// One row, as many lines high as its tallest cell.
    fn row(
        &self,
        cells: &[String],
        columns: &[usize],
        widths: &[usize],
        stand: Stand,
    ) -> Vec<String> {
        let folded: Vec<Vec<String>> = columns
            .iter()
            .zip(widths)
            .map(|(&at, &width)| fold(cells.get(at).map_or("", String::as_str), width))
            .collect();
        let height = folded.iter().map(Vec::len).max().unwrap_or(0);
        (0..height)
            .map(|line| {
                let mut text = String::new();
                for ((&at, &width), cell) in columns.iter().zip(widths).zip(&folded) {
                    if !text.is_empty() || at != columns[0] {
                        text.push_str(&" ".repeat(GAP));
                    }
                    let above = match stand {
                        Stand::FromTheTop => 0,
                        Stand::OnTheRule => height - cell.len(),
                    };
                    let own = line.checked_sub(above).and_then(|line| cell.get(line));
                    let cell = own.map_or("", String::as_str);
                    let room = " ".repeat(width.saturating_sub(display_width(cell)));
                    match self.aligns[at] {
                        Align::Left => text.extend([cell, &room]),
                        Align::Right => text.extend([room.as_str(), cell]),
                    }
                }
                text.trim_end().to_owned()
            })
            .collect()
    }
}

/// Narrow enough for a heading on two lines, wide enough for its longest word.
fn heading_width(heading: &str) -> usize {
    const SHORT: usize = 8;
    if display_width(heading) <= SHORT {
        return display_width(heading);
    }
    let words = heading.split(' ').map(display_width);
    let longest = words.max().unwrap_or(0);
    (longest..=display_width(heading))
        .find(|&width| fold(heading, width).len() <= 2)
        .unwrap_or(longest)
}

fn fold(text: &str, width: usize) -> Vec<String> {
    textwrap::wrap(text, width.max(1))
        .into_iter()
        .map(std::borrow::Cow::into_owned)
        .collect()
}

#[cfg(test)]
mod tests {
    use super::super::super::document::{Cell, Column};
    use super::*;

    fn table(columns: usize) -> Table {
        let mut table = Table::new("", vec![Column::left("Post")]);
        let right = (1..columns).map(|n| Column::right(format!("Figure {n}")));
        table.columns.extend(right);
        let mut row = vec![Cell::text("1")];
        row.extend((1..columns).map(|n| Cell::Length(1000.0 * n as f64)));
        table.rows.push(row);
        table
    }

    #[test]
    fn figures_stand_under_each_other() {
        let mut table = table(3);
        table.columns[2].heading = "Off the string".to_owned();
        let expected = [
            "                Off the",
            "Post  Figure 1   string",
            "-----------------------",
            "1        1\u{a0}000    2\u{a0}000",
        ];
        assert_eq!(lines(&table, Unit::Mm, 40), expected);
    }

    #[test]
    fn a_wide_table_is_broken_and_every_figure_kept() {
        let lines = lines(&table(20), Unit::FEET, 60);
        assert!(lines.iter().all(|line| display_width(line) <= 60));
        let text = lines.join("\n");
        for n in 1..20 {
            let figure = Cell::Length(1000.0 * f64::from(n)).shown(Unit::FEET);
            assert_eq!(text.matches(&figure).count(), 1, "{figure}");
        }
    }

    #[test]
    fn long_text_is_folded_beside_its_figures() {
        let mut table = table(2);
        table.columns.push(Column::left("Where"));
        table.rows[0].push(Cell::text("one two three four five six seven eight"));
        let lines = lines(&table, Unit::Mm, 34);
        assert!(lines.iter().all(|line| display_width(line) <= 34));
        assert!(lines.len() > 3, "{lines:?}");
    }
}
