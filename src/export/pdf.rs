//! The sheet's pages written as PDF: drawings as vectors, the typeface embedded, every word
//! searchable.

use super::pages::{Paper, SheetPage, pages};
use crate::Solution;
use crate::drawing::{
    BOLD, Laid, PlacedLabel, REGULAR, Stroke, Tone, ViewPoint, Weight, has, on_paper,
};
use crate::job::Job;
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
use thiserror::Error;

/// Why no PDF could be made.
#[derive(Debug, Error)]
#[error("The pages cannot be written ({0}).")]
pub struct PdfError(String);

/// The sheet of a job and what it came to, as a PDF. The same job gives the same bytes.
///
/// # Errors
/// The bundled typeface cannot be embedded; a build with a whole typeface never gives one.
pub fn pdf(job: &Job, solution: &Solution, paper: Paper) -> Result<Vec<u8>, PdfError> {
    let sheet = Sheet::new(job, solution);
    write(&sheet.title, &pages(&sheet, paper))
}

fn write(title: &str, pages: &[SheetPage]) -> Result<Vec<u8>, PdfError> {
    let fonts = Fonts::load().ok_or_else(|| PdfError("no typeface".to_owned()))?;
    let mut document = Document::new();
    document.set_metadata(
        Metadata::new()
            .title(title.to_owned())
            .creator("Tautmark".to_owned())
            .language("en-GB".to_owned()),
    );
    for page in pages {
        let [width, height] = page.size.map(|side| side as f32);
        let settings = PageSettings::from_wh(width, height)
            .ok_or_else(|| PdfError("no page size".to_owned()))?;
        let mut sheet_page = document.start_page_with(settings);
        let mut surface = sheet_page.surface();
        let mut pen = Pen {
            surface: &mut surface,
            fonts: &fonts,
        };
        pen.drawing(&page.ink);
        surface.finish();
        sheet_page.finish();
    }
    document
        .finish()
        .map_err(|error| PdfError(format!("{error:?}")))
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
    fn words(&mut self, label: &PlacedLabel, [x, y]: [f32; 2], weight: Weight) {
        let letters = label.text.chars();
        let text: String = letters.map(|c| if has(c) { c } else { '?' }).collect();
        self.surface.set_stroke(None);
        self.surface.set_fill(Some(fill(label.tone)));
        self.surface.draw_text(
            Point::from_xy(x, y),
            self.fonts.of(weight).clone(),
            label.size as f32,
            &text,
            false,
            TextDirection::LeftToRight,
        );
    }

    fn drawing(&mut self, laid: &Laid) {
        for stroke in &laid.strokes {
            self.stroke(stroke);
        }
        for patch in laid.labels.iter().filter_map(PlacedLabel::patch) {
            self.stroke(&patch);
        }
        for label in &laid.labels {
            self.label(label);
        }
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
        if let Some(corners) = label.sign_corners() {
            self.area(&corners, label.tone);
        }
        let start = label.start();
        let weight = if label.bold {
            Weight::Bold
        } else {
            Weight::Regular
        };
        let [x, y] = [start.x as f32, start.y as f32];
        let turned = label.turn != 0.0;
        if turned {
            let turn = Transform::from_rotate_at(label.turn as f32, x, y);
            self.surface.push_transform(&turn);
        }
        self.words(label, [x, y], weight);
        if turned {
            self.surface.pop();
        }
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
