//! A drawing that is laid out, in the screen's own shapes: strokes as paths with the box that each
//! needs, so that the screen paints no more than that.

use crate::drawing::{self, Bundled, Hand, Laid, PlacedLabel, Tone, Vec2, View, lay_out};
use std::fmt::Write;
use std::rc::Rc;
use tautmark_ui::{Anchor, Paint, PaintedDrawing, PaintedLabel, PaintedStroke};

/// A drawing laid out for its room (width, height, logical px), `scale` times the ordinary text size,
/// in the screen's own shapes.
pub fn laid(drawing: &drawing::Drawing, view: &View, room: [f64; 2], scale: f64) -> PaintedDrawing {
    let hand = Hand::screen(scale);
    let measure = &Bundled;
    let desk = drawing::LayoutDesk {
        hand: &hand,
        measure,
    };
    let laid = lay_out(drawing, view, Some(room), desk);
    painted(laid, room, &drawing.description)
}

/// What is laid out, in the screen's own shapes; what is far from the room (width, height, logical
/// px) is left out.
pub fn painted(laid: Laid, room: [f64; 2], description: &str) -> PaintedDrawing {
    let Laid {
        strokes, labels, ..
    } = laid;
    let patches = labels.iter().filter_map(PlacedLabel::patch);
    let strokes = strokes.into_iter().chain(patches);
    let strokes = strokes.filter_map(|one| stroke(&one, room));
    let signs = labels.iter().filter_map(|label| sign(label, room));
    let strokes: Vec<PaintedStroke> = strokes.chain(signs).collect();
    let labels: Vec<PaintedLabel> = labels.into_iter().map(words).collect();
    PaintedDrawing {
        strokes: Rc::new(slint::VecModel::from(strokes)).into(),
        labels: Rc::new(slint::VecModel::from(labels)).into(),
        description: description.into(),
    }
}

fn words(label: PlacedLabel) -> PaintedLabel {
    let at = label.words_at();
    PaintedLabel {
        x: at.x as f32,
        y: at.y as f32,
        text: label.text.into(),
        size: label.size as f32,
        bold: label.bold,
        role: role(label.tone),
        anchor: Anchor::Middle,
        turn: label.turn as f32,
    }
}

/// The triangle before a label that tells up from down.
fn sign(label: &PlacedLabel, room: [f64; 2]) -> Option<PaintedStroke> {
    let corners = label.sign_corners()?;
    let filled = drawing::Stroke {
        points: corners.into(),
        closed: true,
        line: None,
        dash: None,
        fill: Some(label.tone),
        item: label.item,
    };
    stroke(&filled, room)
}

/// `None` where nothing of it is in the room. The screen's own path drawing knows no dashes, so that
/// they are cut here.
fn stroke(stroke: &drawing::Stroke, room: [f64; 2]) -> Option<PaintedStroke> {
    let place = Patch::around(stroke)?.seen_in(room)?;
    let from = place.min;
    let commands = match stroke.dash {
        Some([on, off]) => dashes(&stroke.points, stroke.closed, [on, off], from),
        None => outline(&stroke.points, stroke.closed, from),
    };
    let (ink, width) = stroke
        .line
        .map_or((Paint::None, 0.0), |(tone, width)| (role(tone), width));
    Some(PaintedStroke {
        x: from.x as f32,
        y: from.y as f32,
        across: (place.max.x - from.x) as f32,
        tall: (place.max.y - from.y) as f32,
        commands: commands.into(),
        role: ink,
        width: width as f32,
        fill: stroke.fill.map_or(Paint::None, role),
    })
}

/// The place that a stroke is painted in, from whole px to whole px.
struct Patch {
    min: Vec2,
    max: Vec2,
}

impl Patch {
    /// `None` where there is no such place.
    fn around(stroke: &drawing::Stroke) -> Option<Self> {
        let mut points = stroke.points.iter();
        let first = *points.next()?;
        let (min, max) = points.fold((first, first), |(min, max), at| (min.inf(at), max.sup(at)));
        let width = stroke.line.map_or(0.0, |(_, width)| width);
        // A pointed corner reaches out by two widths before it is cut off.
        let cornered = stroke.closed || stroke.points.len() > 2;
        let reach = width * if cornered { 2.0 } else { 0.5 } + 1.0;
        let reach = Vec2::new(reach, reach);
        let (min, max) = ((min - reach).map(f64::floor), (max + reach).map(f64::ceil));
        let known = min.iter().chain(max.iter()).all(|side| side.is_finite());
        known.then_some(Self { min, max })
    }

    /// What of it is in the room or, where nothing is, close enough to be moved there at once.
    fn seen_in(self, room: [f64; 2]) -> Option<Self> {
        let room = Vec2::from(room).map(f64::ceil);
        let inside = self.within(Vec2::zeros(), room);
        inside.or_else(|| self.within(-room, room * 2.0))
    }

    fn within(&self, least: Vec2, most: Vec2) -> Option<Self> {
        let (min, max) = (self.min.sup(&least), self.max.inf(&most));
        (min.x < max.x && min.y < max.y).then_some(Self { min, max })
    }
}

fn outline(points: &[Vec2], closed: bool, from: Vec2) -> String {
    let mut out = String::with_capacity(points.len() * 16);
    for (i, at) in points.iter().enumerate() {
        let letter = if i == 0 { 'M' } else { 'L' };
        let at = at - from;
        let _ = write!(out, "{letter}{:.2} {:.2}", at.x, at.y);
    }
    if closed {
        out.push('Z');
    }
    out
}

fn dashes(points: &[Vec2], closed: bool, [on, off]: [f64; 2], from: Vec2) -> String {
    let mut out = String::new();
    let back = closed.then(|| points.first().copied()).flatten();
    let all: Vec<Vec2> = points.iter().copied().chain(back).collect();
    let pace = (on + off).max(1.0);
    for ends in all.windows(2) {
        let way = ends[1] - ends[0];
        let length = way.norm();
        // Far longer than any screen: there is nothing to see of its dashes.
        if !length.is_normal() || length > 20_000.0 {
            continue;
        }
        let at = |along: f64| ends[0] + way * (along.min(length) / length) - from;
        let mut start = 0.0;
        while start < length {
            let (a, b) = (at(start), at(start + on));
            let _ = write!(out, "M{:.2} {:.2}L{:.2} {:.2}", a.x, a.y, b.x, b.y);
            start += pace;
        }
    }
    out
}

fn role(tone: Tone) -> Paint {
    match tone {
        Tone::Ink => Paint::Ink,
        Tone::Second => Paint::Second,
        Tone::Rule => Paint::Rule,
        Tone::String => Paint::String,
        Tone::Level => Paint::Level,
        Tone::Wall => Paint::Wall,
        Tone::Hatch => Paint::Hatch,
        Tone::Earth => Paint::Earth,
        Tone::Soil => Paint::Soil,
        Tone::Board => Paint::Board,
        Tone::Timber => Paint::Timber,
        Tone::Pale => Paint::Pale,
        Tone::Paper => Paint::Paper,
        Tone::Post => Paint::Post,
        Tone::Bad => Paint::Bad,
    }
}
