//! Tables as lines of text, no wider than the page.

use super::super::columns::{Columns, TypeSetting};
use super::super::document::{Align, Table};
use crate::drawing::{TextMeasure, Weight};
use crate::length::Unit;
use textwrap::core::display_width;

/// Between two columns.
const GAP: usize = 2;

/// Widths in characters.
struct Characters;

impl TextMeasure for Characters {
    fn width(&self, text: &str, _: f64, _: Weight) -> f64 {
        display_width(text) as f64
    }
}

/// The table's headings and rows as lines at most `page` wide. Where it cannot fit, text is folded
/// first; then the table is broken into parts that repeat the columns that name the rows.
pub fn lines(table: &Table, unit: Unit, page: usize) -> Vec<String> {
    let setting = TypeSetting {
        measure: &Characters,
        size: 1.0,
        gutter: GAP as f64,
        narrow: 12.0,
        short: 8.0,
    };
    let columns = Columns::new(table, unit, setting);
    let mut lines = Vec::new();
    for (i, part) in columns.parts(page as f64).into_iter().enumerate() {
        if i > 0 {
            lines.push(String::new());
        }
        lines.extend(lines_of(&columns, &part, page));
    }
    lines
}

/// Where a cell with fewer lines than its row stands.
#[derive(Clone, Copy)]
enum Stand {
    FromTheTop,
    OnTheRule,
}

fn lines_of(columns: &Columns, part: &[usize], page: usize) -> Vec<String> {
    // A character is not halved.
    let widths = columns.widths(part, page as f64).into_iter();
    let widths: Vec<usize> = widths.map(|width| (width + 1e-6) as usize).collect();
    let headings: Vec<&str> = part.iter().map(|&at| columns.heading(at)).collect();
    let mut lines = row(columns, &headings, part, &widths, Stand::OnTheRule);
    let rule: usize = widths.iter().sum::<usize>() + GAP * widths.len().saturating_sub(1);
    lines.push("-".repeat(rule));
    for cells in &columns.cells {
        let cell = |&at: &usize| cells.get(at).map_or("", String::as_str);
        let cells: Vec<&str> = part.iter().map(cell).collect();
        lines.extend(row(columns, &cells, part, &widths, Stand::FromTheTop));
    }
    lines
}

/// One row, as many lines high as its tallest cell.
fn row(
    columns: &Columns,
    cells: &[&str],
    part: &[usize],
    widths: &[usize],
    stand: Stand,
) -> Vec<String> {
    let cells = cells.iter().zip(widths);
    let folded: Vec<Vec<String>> = cells.map(|(cell, &width)| fold(cell, width)).collect();
    let height = folded.iter().map(Vec::len).max().unwrap_or(0);
    (0..height)
        .map(|line| {
            let mut text = String::new();
            for (nth, ((&at, &width), cell)) in part.iter().zip(widths).zip(&folded).enumerate() {
                if nth > 0 {
                    text.push_str(&" ".repeat(GAP));
                }
                let above = match stand {
                    Stand::FromTheTop => 0,
                    Stand::OnTheRule => height - cell.len(),
                };
                let own = line.checked_sub(above).and_then(|line| cell.get(line));
                let cell = own.map_or("", String::as_str);
                let room = " ".repeat(width.saturating_sub(display_width(cell)));
                match columns.align(at) {
                    Align::Left => text.extend([cell, &room]),
                    Align::Right => text.extend([room.as_str(), cell]),
                }
            }
            text.trim_end().to_owned()
        })
        .collect()
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
