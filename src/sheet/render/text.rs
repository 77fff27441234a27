//! The sheet as plain text.

use super::super::document::{Block, Section, Sheet};
use super::{caution_heading, layout, severity_word, unit_words};
use crate::length::Unit;
use textwrap::{Options, core::display_width, wrap};

/// Width of the page in characters.
const PAGE: usize = 100;

/// The sheet as lines of at most 100 characters.
pub fn text(sheet: &Sheet) -> String {
    let mut page = Page::default();
    page.wrapped("", &sheet.title);
    page.rule('=', display_width(&sheet.title).min(PAGE));
    page.wrapped(
        "",
        &format!("Set-out sheet. Lengths in {}.", unit_words(sheet.unit)),
    );
    for paragraph in sheet.notes.lines().filter(|line| !line.trim().is_empty()) {
        page.wrapped("", paragraph);
    }
    for section in &sheet.sections {
        add_section(&mut page, section, sheet.unit);
    }
    page.text
}

fn add_section(page: &mut Page, section: &Section, unit: Unit) {
    page.text.push_str("\n\n");
    let heading = section.heading.to_uppercase();
    page.wrapped("", &heading);
    page.rule('=', display_width(&heading).min(PAGE));
    let mut before: Option<&Block> = None;
    let words = |block: &&Block| !matches!(block, Block::Pictures(_));
    for block in section.blocks.iter().filter(words) {
        if needs_space(before, block) {
            page.text.push('\n');
        }
        add_block(page, block, unit);
        before = Some(block);
    }
}

/// Short lines of one kind stand together.
fn needs_space(before: Option<&Block>, block: &Block) -> bool {
    !matches!(
        (before, block),
        (None | Some(Block::Heading(_)), _)
            | (Some(Block::Caution(_)), Block::Caution(_))
            | (
                Some(Block::Paragraph(_)),
                Block::Paragraph(_) | Block::List(_)
            )
    )
}

fn add_block(page: &mut Page, block: &Block, unit: Unit) {
    match block {
        Block::Heading(text) => {
            page.wrapped("", text);
            page.rule('-', display_width(text).min(PAGE));
        }
        Block::Paragraph(text) => page.wrapped("", text),
        Block::List(items) => {
            for item in items {
                page.hanging("- ", item);
            }
        }
        Block::Table(table) => {
            if !table.caption.is_empty() {
                page.wrapped("", &format!("{}:", table.caption));
                page.text.push('\n');
            }
            for line in layout::lines(table, unit, PAGE - 2) {
                page.line("  ", &line);
            }
            if !table.note.is_empty() {
                page.wrapped("  ", &table.note);
            }
        }
        Block::Problem(place, problem) => {
            let word = severity_word(problem.severity);
            let place = if place.is_empty() {
                String::new()
            } else {
                format!("{place}: ")
            };
            page.hanging(&format!("{word}. "), &format!("{place}{}", problem.text));
            page.hanging("   -> ", &problem.remedy);
        }
        Block::Caution(caution) => page.hanging("! ", caution.short),
        Block::Pictures(_) => {}
        Block::CautionInFull(caution) => {
            page.hanging("! ", &format!("{}.", caution_heading(caution)));
            page.wrapped("  ", caution.full);
        }
    }
}

#[derive(Default)]
struct Page {
    text: String,
}

impl Page {
    fn line(&mut self, indent: &str, line: &str) {
        if !line.is_empty() {
            self.text.push_str(indent);
        }
        self.text.push_str(line);
        self.text.push('\n');
    }

    fn rule(&mut self, mark: char, width: usize) {
        let rule = mark.to_string().repeat(width);
        self.line("", &rule);
    }

    fn wrapped(&mut self, indent: &str, text: &str) {
        let options = Options::new(PAGE)
            .initial_indent(indent)
            .subsequent_indent(indent);
        for line in wrap(text, options) {
            self.line("", line.trim_end());
        }
    }

    /// A line that starts with a mark, the rest under its own text.
    fn hanging(&mut self, mark: &str, text: &str) {
        let under = " ".repeat(display_width(mark));
        let options = Options::new(PAGE)
            .initial_indent(mark)
            .subsequent_indent(&under);
        for line in wrap(text, options) {
            self.line("", line.trim_end());
        }
    }
}
