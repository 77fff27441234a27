//! The sheet as comma-separated rows: every table with its headings, text as rows of one cell.

use super::super::document::{Block, Cell, Sheet, Table};
use super::{severity_word, unit_words};
use crate::length::Unit;
use csv::{Terminator, Writer, WriterBuilder};

/// The sheet as rows; an empty row stands between its parts.
pub fn csv(sheet: &Sheet) -> String {
    let mut rows = Rows::new();
    rows.add([sheet.title.as_str()]);
    rows.add(["Lengths in", unit_words(sheet.unit)]);
    for section in &sheet.sections {
        rows.gap();
        rows.add([section.heading.as_str()]);
        for block in &section.blocks {
            add_block(&mut rows, block, sheet.unit);
        }
    }
    rows.text()
}

fn add_block(rows: &mut Rows, block: &Block, unit: Unit) {
    match block {
        Block::Heading(text) => {
            rows.gap();
            rows.add([text.as_str()]);
        }
        Block::Paragraph(text) => rows.add([text.as_str()]),
        Block::List(items) => items.iter().for_each(|item| rows.add([item.as_str()])),
        Block::Table(table) => add_table(rows, table, unit),
        Block::Problem(place, problem) => rows.add([
            severity_word(problem.severity),
            place.as_str(),
            problem.text.as_str(),
            problem.remedy.as_str(),
        ]),
        Block::Caution(caution) => rows.add([caution.short]),
        Block::Pictures(_) => {}
        Block::CautionInFull(caution) => rows.add([caution.short, caution.full]),
    }
}

fn add_table(rows: &mut Rows, table: &Table, unit: Unit) {
    rows.gap();
    rows.add([table.caption.as_str()]);
    rows.add(table.columns.iter().map(|column| column.heading.as_str()));
    for row in &table.rows {
        rows.record(row.iter().map(|cell| match cell {
            Cell::Text(text) => as_text(text),
            figure => figure.plain(unit),
        }));
    }
    if !table.note.is_empty() {
        rows.add([table.note.as_str()]);
    }
}

/// A spreadsheet would take a text that starts so for a formula, some after they have dropped the
/// spaces and line breaks before it.
fn as_text(text: &str) -> String {
    let blank = |c: char| c.is_whitespace() || c.is_control() || c == '\u{feff}';
    let formula = matches!(
        text.trim_start_matches(blank).chars().next(),
        Some('=' | '+' | '-' | '@' | '＝' | '＋' | '－' | '＠')
    );
    let tabbed = matches!(text.chars().next(), Some('\t' | '\r' | '\n'));
    if formula || tabbed {
        format!("'{text}")
    } else {
        text.to_owned()
    }
}

/// Rows written one after the other; in memory, so writing cannot fail.
struct Rows {
    writer: Writer<Vec<u8>>,
}

impl Rows {
    fn new() -> Self {
        let mut builder = WriterBuilder::new();
        builder.flexible(true).terminator(Terminator::CRLF);
        Self {
            writer: builder.from_writer(Vec::new()),
        }
    }

    fn add<'a>(&mut self, texts: impl IntoIterator<Item = &'a str>) {
        self.record(texts.into_iter().map(as_text));
    }

    fn gap(&mut self) {
        self.add([""]);
    }

    fn record(&mut self, cells: impl IntoIterator<Item = String>) {
        // A Vec takes every byte, and rows may differ in length: nothing can fail here.
        let _ = self.writer.write_record(cells);
    }

    fn text(self) -> String {
        let bytes = self.writer.into_inner().unwrap_or_default();
        String::from_utf8(bytes).unwrap_or_default()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn text_that_looks_like_a_formula_stays_text() {
        assert_eq!(as_text("=1+1"), "'=1+1");
        assert_eq!(as_text("@here"), "'@here");
        assert_eq!(as_text("\n=1+1"), "'\n=1+1");
        assert_eq!(as_text(" =1+1"), "' =1+1");
        assert_eq!(as_text("\u{a0}+1"), "'\u{a0}+1");
        assert_eq!(as_text("＝1+1"), "'＝1+1");
        assert_eq!(as_text("\nshed"), "'\nshed");
        assert_eq!(as_text(" shed"), " shed");
        assert_eq!(as_text("R1"), "R1");
        assert_eq!(as_text(""), "");
    }
}
