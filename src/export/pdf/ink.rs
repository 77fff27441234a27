//! Pages written as PDF.

use super::flow::{Frame, Page, Piece, Rule};
use super::{PdfError, Words};
use crate::drawing::{
    BOLD, Bundled, Laid, Measure, PlacedLabel, REGULAR, Stroke, Tone, ViewPoint, Weight, has,
};
use crate::export::colours::on_paper;
use crate::sheet::Sheet;
use krilla::Document;
use krilla::color::rgb;
use krilla::geom::{Path, PathBuilder, Point, Transform};
use krilla::metadata::Metadata;
use krilla::num::NormalizedF32;
use krilla::page::PageSettings;
use krilla::paint::{Fill, FillRule, LineCap, LineJoin, Stroke as PdfStroke, StrokeDash};
use krilla::surface::Surface;
use krilla::text::{Font, TextDirection};

/// The pages with a line at the foot of each, as a file.
pub(super) fn write(sheet: &Sheet, pages: &[Page], frame: &Frame) -> Result<Vec<u8>, PdfError> {
    let fonts = Fonts::load().ok_or_else(|| PdfError("no typeface".to_owned()))?;
    let mut document = Document::new();
    document.set_metadata(
        Metadata::new()
            .title(sheet.title.clone())
            .creator("Tautmark".to_owned())
            .language("en-GB".to_owned()),
    );
    let [width, height] = frame.page;
    for (at, page) in pages.iter().enumerate() {
        let settings = PageSettings::from_wh(width as f32, height as f32)
            .ok_or_else(|| PdfError("no page size".to_owned()))?;
        let mut sheet_page = document.start_page_with(settings);
        let mut surface = sheet_page.surface();
        let mut pen = Pen {
            surface: &mut surface,
            fonts: &fonts,
        };
        for (y, piece) in &page.pieces {
            pen.piece(piece, frame.left, frame.top + y);
        }
        foot(&mut pen, frame, &sheet.title, at + 1, pages.len());
        surface.finish();
        sheet_page.finish();
    }
    document
        .finish()
        .map_err(|error| PdfError(format!("{error:?}")))
}

fn foot(pen: &mut Pen, frame: &Frame, title: &str, page: usize, of: usize) {
    const SIZE: f64 = 8.0;
    let y = frame.page[1] - 28.0;
    pen.rule(
        &Rule {
            x: 0.0,
            y: 0.0,
            width: frame.width,
            thick: 0.5,
            tone: Tone::Ink,
        },
        frame.left,
        y - SIZE - 5.0,
    );
    let number = format!("page {page} of {of}");
    let wide = Bundled.width(&number, SIZE, Weight::Regular);
    let room = frame.width - wide - 20.0;
    let short = shortened(title, SIZE, room);
    for (x, text) in [
        (frame.left, short),
        (frame.left + frame.width - wide, number),
    ] {
        pen.words(&text, [x, y], SIZE, Weight::Regular, Tone::Ink);
    }
}

/// With … where it is too long.
fn shortened(text: &str, size: f64, room: f64) -> String {
    let fits = |text: &str| Bundled.width(text, size, Weight::Regular) <= room;
    if fits(text) {
        return text.to_owned();
    }
    let mut short: Vec<char> = text.chars().collect();
    while !short.is_empty() {
        short.pop();
        let tried: String = short.iter().chain(['…'].iter()).collect();
        if fits(&tried) {
            return tried;
        }
    }
    String::new()
}

struct Fonts {
    regular: Font,
    bold: Font,
}

impl Fonts {
    fn load() -> Option<Self> {
        Some(Self {
            regular: Font::new(REGULAR.to_vec().into(), 0)?,
            bold: Font::new(BOLD.to_vec().into(), 0)?,
        })
    }

    fn of(&self, weight: Weight) -> &Font {
        match weight {
            Weight::Regular => &self.regular,
            Weight::Bold => &self.bold,
        }
    }
}

struct Pen<'a, 'b> {
    surface: &'a mut Surface<'b>,
    fonts: &'a Fonts,
}

impl Pen<'_, '_> {
    fn piece(&mut self, piece: &Piece, left: f64, top: f64) {
        for rule in &piece.rules {
            self.rule(rule, left, top);
        }
        for (x, y, laid) in &piece.drawings {
            self.drawing(laid, left + x, top + y);
        }
        for words in &piece.words {
            let Words {
                x,
                y,
                text,
                size,
                weight,
            } = words;
            self.words(text, [left + x, top + y], *size, *weight, Tone::Ink);
        }
    }

    fn rule(&mut self, rule: &Rule, left: f64, top: f64) {
        let y = top + rule.y;
        let ends = [[left + rule.x, y], [left + rule.x + rule.width, y]];
        if let Some(path) = path(&ends, false) {
            self.line(rule.tone, rule.thick, None);
            self.surface.draw_path(&path);
        }
    }

    fn words(&mut self, text: &str, [x, y]: [f64; 2], size: f64, weight: Weight, tone: Tone) {
        let text: String = text.chars().map(|c| if has(c) { c } else { '?' }).collect();
        self.surface.set_stroke(None);
        self.surface.set_fill(Some(fill(tone)));
        self.surface.draw_text(
            Point::from_xy(x as f32, y as f32),
            self.fonts.of(weight).clone(),
            size as f32,
            &text,
            false,
            TextDirection::LeftToRight,
        );
    }

    fn drawing(&mut self, laid: &Laid, left: f64, top: f64) {
        self.surface
            .push_transform(&Transform::from_translate(left as f32, top as f32));
        for stroke in &laid.strokes {
            self.stroke(stroke);
        }
        for label in &laid.labels {
            self.label(label);
        }
        self.surface.pop();
    }

    fn stroke(&mut self, stroke: &Stroke) {
        let points: Vec<[f64; 2]> = stroke.points.iter().map(|at| [at.x, at.y]).collect();
        let Some(path) = path(&points, stroke.closed) else {
            return;
        };
        match stroke.line {
            Some((tone, width)) => self.line(tone, width, stroke.dash),
            None => self.surface.set_stroke(None),
        }
        self.surface.set_fill(stroke.fill.map(fill));
        self.surface.draw_path(&path);
    }

    fn label(&mut self, label: &PlacedLabel) {
        if label.halo {
            self.area(&label.tile().corners(), Tone::Paper);
        }
        if let Some(corners) = label.sign_corners() {
            self.area(&corners, label.tone);
        }
        let start = label.start();
        let weight = if label.bold {
            Weight::Bold
        } else {
            Weight::Regular
        };
        self.surface.push_transform(&Transform::from_rotate_at(
            label.turn as f32,
            start.x as f32,
            start.y as f32,
        ));
        self.words(
            &label.text,
            [start.x, start.y],
            label.size,
            weight,
            label.tone,
        );
        self.surface.pop();
    }

    fn area(&mut self, corners: &[ViewPoint], tone: Tone) {
        let corners: Vec<[f64; 2]> = corners.iter().map(|at| [at.x, at.y]).collect();
        if let Some(path) = path(&corners, true) {
            self.surface.set_stroke(None);
            self.surface.set_fill(Some(fill(tone)));
            self.surface.draw_path(&path);
        }
    }

    fn line(&mut self, tone: Tone, width: f64, dash: Option<[f64; 2]>) {
        self.surface.set_fill(None);
        self.surface.set_stroke(Some(PdfStroke {
            paint: paint(tone).into(),
            width: width as f32,
            line_cap: LineCap::Butt,
            line_join: LineJoin::Miter,
            dash: dash.map(|array| StrokeDash {
                array: array.map(|length| length as f32).to_vec(),
                offset: 0.0,
            }),
            ..PdfStroke::default()
        }));
    }
}

fn paint(tone: Tone) -> rgb::Color {
    let [red, green, blue] = on_paper(tone);
    rgb::Color::new(red, green, blue)
}

fn fill(tone: Tone) -> Fill {
    Fill {
        paint: paint(tone).into(),
        opacity: NormalizedF32::ONE,
        rule: FillRule::NonZero,
    }
}

fn path(points: &[[f64; 2]], closed: bool) -> Option<Path> {
    let mut builder = PathBuilder::new();
    let mut points = points.iter().map(|[x, y]| (*x as f32, *y as f32));
    let (x, y) = points.next()?;
    builder.move_to(x, y);
    for (x, y) in points {
        builder.line_to(x, y);
    }
    if closed {
        builder.close();
    }
    builder.finish()
}
