//! Drawings as SVG: plain shapes and words, in pt.

use super::colours::on_paper;
use crate::drawing::{
    Bundled, Drawing, Hand, Laid, LayoutDesk, PlacedLabel, Stroke, Tone, fitted, lay_out,
};
use crate::job::visible;
use quick_xml::Writer;
use quick_xml::events::{BytesText, Event};
use std::fmt::Write as _;
use std::io;

/// A drawing on its own sheet of `size` (width, height) pt.
///
/// The same drawing gives the same bytes. Words ask for the bundled typeface and keep its widths
/// where it is not installed.
#[must_use]
pub fn svg(drawing: &Drawing, size: [f64; 2]) -> String {
    let mut writer = Writer::new_with_indent(Vec::new(), b' ', 1);
    let laid = laid(drawing, size);
    // Writing to memory does not fail.
    let _ = document(&mut writer, drawing, size, &laid, None);
    String::from_utf8(writer.into_inner()).unwrap_or_default()
}

/// As [`svg`], with a line of words under the drawing.
#[must_use]
pub fn svg_over(drawing: &Drawing, size: [f64; 2], foot: &str) -> String {
    let [width, height] = size;
    let mut writer = Writer::new_with_indent(Vec::new(), b' ', 1);
    let laid = laid(drawing, [width, height - FOOT]);
    let _ = document(&mut writer, drawing, size, &laid, Some(foot));
    String::from_utf8(writer.into_inner()).unwrap_or_default()
}

/// The room for a line under a drawing, and the size of its words, pt.
const FOOT: f64 = 20.0;
const FOOT_WORDS: f64 = 8.0;

fn laid(drawing: &Drawing, size: [f64; 2]) -> Laid {
    let desk = LayoutDesk {
        hand: &Hand::paper(),
        measure: &Bundled,
    };
    let view = fitted(drawing, size, desk);
    lay_out(drawing, &view, Some(size), desk)
}

fn document(
    writer: &mut Writer<Vec<u8>>,
    drawing: &Drawing,
    [width, height]: [f64; 2],
    laid: &Laid,
    foot: Option<&str>,
) -> io::Result<()> {
    let sheet = writer
        .create_element("svg")
        .with_attribute(("xmlns", "http://www.w3.org/2000/svg"))
        .with_attribute(("width", &*format!("{}pt", number(width))))
        .with_attribute(("height", &*format!("{}pt", number(height))))
        .with_attribute((
            "viewBox",
            &*format!("0 0 {} {}", number(width), number(height)),
        ))
        .with_attribute(("font-family", "B612, sans-serif"));
    sheet.write_inner_content(|writer| {
        writer
            .create_element("title")
            .write_text_content(BytesText::new(&visible(&drawing.description)))?;
        writer
            .create_element("rect")
            .with_attribute(("width", "100%"))
            .with_attribute(("height", "100%"))
            .with_attribute(("fill", &*colour(Tone::Paper)))
            .write_empty()?;
        for stroke in &laid.strokes {
            path(writer, stroke)?;
        }
        for patch in laid.labels.iter().filter_map(PlacedLabel::patch) {
            path(writer, &patch)?;
        }
        for label in &laid.labels {
            words(writer, label)?;
        }
        if let Some(foot) = foot {
            writer
                .create_element("text")
                .with_attribute(("x", &*number(FOOT)))
                .with_attribute(("y", &*number(height - FOOT_WORDS)))
                .with_attribute(("font-size", &*number(FOOT_WORDS)))
                .with_attribute(("fill", &*colour(Tone::Ink)))
                .write_text_content(BytesText::new(foot))?;
        }
        Ok(())
    })?;
    writer.write_event(Event::Eof)
}

fn path(writer: &mut Writer<Vec<u8>>, stroke: &Stroke) -> io::Result<()> {
    let mut d = String::new();
    for (i, at) in stroke.points.iter().enumerate() {
        let command = if i == 0 { 'M' } else { 'L' };
        let _ = write!(d, "{command}{} {}", number(at.x), number(at.y));
    }
    if stroke.closed {
        d.push('Z');
    }
    let fill = stroke.fill.map_or("none".to_owned(), colour);
    let mut element = writer
        .create_element("path")
        .with_attribute(("d", &*d))
        .with_attribute(("fill", &*fill));
    if let Some((tone, width)) = stroke.line {
        element = element
            .with_attribute(("stroke", &*colour(tone)))
            .with_attribute(("stroke-width", &*number(width)));
        if let Some([drawn, left_out]) = stroke.dash {
            let dashes = format!("{} {}", number(drawn), number(left_out));
            element = element.with_attribute(("stroke-dasharray", &*dashes));
        }
    }
    element.write_empty()?;
    Ok(())
}

fn words(writer: &mut Writer<Vec<u8>>, label: &PlacedLabel) -> io::Result<()> {
    if let Some(corners) = label.sign_corners() {
        let sign = Stroke {
            points: corners.to_vec(),
            closed: true,
            line: None,
            dash: None,
            fill: Some(label.tone),
            item: label.item,
        };
        path(writer, &sign)?;
    }
    let start = label.start();
    let mut element = writer
        .create_element("text")
        .with_attribute(("x", &*number(start.x)))
        .with_attribute(("y", &*number(start.y)))
        .with_attribute(("font-size", &*number(label.size)))
        .with_attribute(("fill", &*colour(label.tone)))
        .with_attribute(("textLength", &*number(label.words_width())));
    if label.bold {
        element = element.with_attribute(("font-weight", "700"));
    }
    if label.turn != 0.0 {
        let turn = format!(
            "rotate({} {} {})",
            number(label.turn),
            number(start.x),
            number(start.y)
        );
        element = element.with_attribute(("transform", &*turn));
    }
    element.write_text_content(BytesText::new(&label.text))?;
    Ok(())
}

fn colour(tone: Tone) -> String {
    let [red, green, blue] = on_paper(tone);
    format!("#{red:02X}{green:02X}{blue:02X}")
}

/// To a hundredth, without zeros that say nothing.
fn number(value: f64) -> String {
    let rounded = (value * 100.0).round() / 100.0;
    // Never "-0".
    format!("{}", rounded + 0.0)
}
