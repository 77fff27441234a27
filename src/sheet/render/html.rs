//! The sheet as one web page that needs nothing else: read on a screen, printed from a browser.

use super::super::document::{Align, Block, Column, Section, Sheet, Table};
use super::super::picture::Picture;
use super::{caution_heading, severity_word, unit_words};
use crate::drawing::svg;
use crate::job::Severity;
use crate::length::Unit;
use maud::{DOCTYPE, Markup, PreEscaped, html as markup};

const STYLE: &str = include_str!("sheet.css");

/// The page. All text is escaped.
pub fn html(sheet: &Sheet) -> String {
    let page = markup! {
        (DOCTYPE)
        html lang="en-GB" {
            head {
                meta charset="utf-8";
                meta name="viewport" content="width=device-width, initial-scale=1";
                title { (sheet.title) }
                style { (PreEscaped(STYLE)) }
            }
            body {
                header {
                    h1 { (sheet.title) }
                    p { "Set-out sheet. Lengths in " (unit_words(sheet.unit)) "." }
                    @for line in sheet.notes.lines() { p { (line) } }
                }
                @if !sheet.plan.drawing.is_empty() { (drawn(&sheet.plan)) }
                @for part in &sheet.sections { (section(part, sheet.unit)) }
            }
        }
    };
    let mut text = page.into_string();
    text.push('\n');
    text
}

fn section(section: &Section, unit: Unit) -> Markup {
    markup! {
        section {
            h2 { (section.heading) }
            @for one in &section.blocks { (block(one, unit)) }
        }
    }
}

fn block(block: &Block, unit: Unit) -> Markup {
    markup! {
        @match block {
            Block::Heading(text) => h3 { (text) },
            Block::Paragraph(text) => p { (text) },
            Block::List(items) => ul { @for item in items { li { (item) } } },
            Block::Table(one) => (table(one, unit)),
            Block::Problem(place, problem) => div class=(class(problem.severity)) {
                p {
                    strong { (severity_word(problem.severity)) ". " }
                    @if !place.is_empty() { (place) ": " }
                    (problem.text)
                }
                p { "→ " (problem.remedy) }
            },
            Block::Pictures(pictures) => @for picture in pictures { (drawn(picture)) },
            Block::Caution(caution) => p class="caution" { (caution.short) },
            Block::CautionInFull(caution) => div class="caution" {
                p { strong { (caution_heading(caution)) "." } }
                p { (caution.full) }
            },
        }
    }
}

fn drawn(picture: &Picture) -> Markup {
    /// Width of a drawing, pt.
    const WIDTH: f64 = 520.0;
    let size = [WIDTH, picture.height(WIDTH)];
    markup! {
        figure class="drawing" {
            (PreEscaped(svg(&picture.drawing, size)))
            figcaption { (picture.caption) }
        }
    }
}

fn class(severity: Severity) -> &'static str {
    match severity {
        Severity::Error => "problem error",
        Severity::Warning => "problem look",
        Severity::Note => "problem note",
    }
}

fn table(table: &Table, unit: Unit) -> Markup {
    markup! {
        figure {
            table {
                @if !table.caption.is_empty() { caption { (table.caption) } }
                thead { tr { @for column in &table.columns {
                    th scope="col" class=(align(column)) { (column.heading) }
                } } }
                tbody { @for row in &table.rows {
                    tr { @for (at, cell) in row.iter().enumerate() {
                        @let set = table.columns.get(at).map_or("", align);
                        @if at < table.names {
                            th scope="row" class=(set) { (cell.shown(unit)) }
                        } @else {
                            td class=(set) { (cell.shown(unit)) }
                        }
                    } }
                } }
            }
            @if !table.note.is_empty() { figcaption { (table.note) } }
        }
    }
}

fn align(column: &Column) -> &'static str {
    match column.align {
        Align::Left => "text",
        Align::Right => "figure",
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn names_cannot_bring_in_markup() {
        let mut job = crate::job::example();
        job.title = "<script>alert(1)</script>".to_owned();
        job.runs[0].name = "a \" & <b>".to_owned();
        let page = Sheet::new(&job, &crate::solve(&job)).html();
        assert!(!page.contains("<script"));
        assert!(page.contains("&lt;script&gt;"));
        assert!(page.contains("a &quot; &amp; &lt;b&gt;"));
    }
}
