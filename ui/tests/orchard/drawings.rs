//! Sketches of the orchard corner, sized to the room they get.

use super::list;
use slint::{Global, SharedString};
use tautmark_ui::{
    Anchor, App, DrawingVm, Nav, Page, Paint, PaintedDrawing, PaintedLabel, PaintedStroke, Place,
};

/// Marks A to F of the plan, in mm.
const MARKS: [(&str, f32, f32); 6] = [
    ("A", 0.0, 0.0),
    ("B", 3650.0, 0.0),
    ("C", 10_120.0, 4050.0),
    ("D", 11_020.0, 7790.0),
    ("E", 3680.0, 1800.0),
    ("F", 9890.0, 4150.0),
];

/// Draws what the place in sight shows.
pub fn draw(app: &App, width: f32, height: f32) {
    let nav = Nav::get(app);
    let drawing = match (nav.get_place(), nav.get_page()) {
        (Place::Levels, Page::Heights) if !nav.get_entry() => post(width, height),
        _ => plan(width, height),
    };
    DrawingVm::get(app).set_drawing(drawing);
}

fn plan(width: f32, height: f32) -> PaintedDrawing {
    let margin = if height < 200.0 { 20.0 } else { 34.0 };
    let scale = ((width - 2.0 * margin) / 11_020.0)
        .min((height - 2.0 * margin) / 7790.0)
        .max(0.001);
    let left = (width - 11_020.0 * scale) / 2.0;
    let foot = height - (height - 7790.0 * scale) / 2.0;
    let at = |n: usize| (left + MARKS[n].1 * scale, foot - MARKS[n].2 * scale);
    let mut walls = String::new();
    for (from, to) in [(0, 1), (1, 4), (2, 3)] {
        let (a, b) = (at(from), at(to));
        walls += &format!("M{} {}L{} {}", a.0, a.1, b.0, b.1);
    }
    let mut tapes = String::new();
    for (from, to) in [
        (0, 2),
        (0, 3),
        (0, 4),
        (1, 2),
        (1, 3),
        (1, 5),
        (4, 3),
        (4, 2),
    ] {
        tapes += &dashes(at(from), at(to));
    }
    let mut crosses = String::new();
    let mut labels = Vec::new();
    for (n, mark) in MARKS.iter().enumerate() {
        let (x, y) = at(n);
        crosses += &format!(
            "M{} {y}L{} {y}M{x} {}L{x} {}",
            x - 5.0,
            x + 5.0,
            y - 5.0,
            y + 5.0
        );
        labels.push(label(mark.0, x - 12.0, y - 12.0, 13.0, Paint::Ink));
    }
    PaintedDrawing {
        strokes: list(vec![
            stroke(&tapes, Paint::Second, 1.0),
            stroke(&walls, Paint::Ink, 4.0),
            stroke(&crosses, Paint::Ink, 2.0),
            stroke(&string_line(&at), Paint::String, 2.5),
        ]),
        labels: list(labels),
        description: "Plan with six marks and two strings".into(),
    }
}

fn string_line(at: &dyn Fn(usize) -> (f32, f32)) -> String {
    let (a, b, d) = (at(0), at(1), at(3));
    let along = b.0 + (b.0 - a.0) * 1.47;
    format!(
        "M{} {}L{along} {}M{} {}L{} {}",
        a.0 - 6.0,
        a.1 + 3.0,
        a.1 + 3.0,
        along - 8.0,
        a.1 + 24.0,
        d.0 + 4.0,
        d.1
    )
}

fn dashes(a: (f32, f32), b: (f32, f32)) -> String {
    let length = (b.0 - a.0).hypot(b.1 - a.1).max(1.0);
    let point = |t: f32| {
        (
            a.0 + (b.0 - a.0) * t / length,
            a.1 + (b.1 - a.1) * t / length,
        )
    };
    let mut t = 0.0;
    let mut commands = String::new();
    while t < length {
        let (p, q) = (point(t), point((t + 3.0).min(length)));
        commands += &format!("M{} {}L{} {}", p.0, p.1, q.0, q.1);
        t += 7.0;
    }
    commands
}

/// A post with what goes on it, and how far each is from the laser line.
fn post(width: f32, height: f32) -> PaintedDrawing {
    let (middle, top, foot) = (width / 2.0, height * 0.16, height * 0.84);
    let laser = height * 0.55;
    let mut strokes = Vec::new();
    let mut labels = Vec::new();
    for (at, left, right) in [
        (0.22, "855", "825"),
        (0.47, "165", "135"),
        (0.72, "525", "555"),
    ] {
        let y = height * at;
        strokes.push(fill(
            &format!("M0 {y}H{}V{}H0Z", middle - 20.0, y + 12.0),
            Paint::Timber,
        ));
        strokes.push(fill(
            &format!(
                "M{} {}H{width}V{}H{}Z",
                middle + 20.0,
                y + 5.0,
                y + 17.0,
                middle + 20.0
            ),
            Paint::Timber,
        ));
        let sign = if y < laser { "up " } else { "down " };
        labels.push(label(
            &format!("{sign}{left}"),
            middle / 2.0,
            y - 16.0,
            22.0,
            Paint::Ink,
        ));
        labels.push(label(
            &format!("{sign}{right}"),
            middle * 1.5,
            y - 11.0,
            22.0,
            Paint::Ink,
        ));
    }
    strokes.push(stroke(
        &dashes((0.0, laser), (width, laser)),
        Paint::Level,
        3.0,
    ));
    strokes.push(PaintedStroke {
        fill: Paint::Post,
        ..stroke(
            &format!(
                "M{} {top}H{}V{foot}H{}Z",
                middle - 20.0,
                middle + 20.0,
                middle - 20.0
            ),
            Paint::Ink,
            2.5,
        )
    });
    strokes.push(stroke(
        &format!("M0 {}L{middle} {foot}L{width} {}", foot - 6.0, foot + 8.0),
        Paint::Soil,
        3.0,
    ));
    labels.push(PaintedLabel {
        anchor: Anchor::End,
        ..label(
            "laser, set-up 1",
            width - 6.0,
            laser - 14.0,
            14.0,
            Paint::Level,
        )
    });
    PaintedDrawing {
        strokes: list(strokes),
        labels: list(labels),
        description: "Post 4 with its boards and the laser line".into(),
    }
}

/// The small plan of the list of jobs.
pub fn thumb() -> PaintedDrawing {
    PaintedDrawing {
        strokes: list(vec![
            stroke("M8 64H36M82 34L89 7", Paint::Ink, 2.5),
            stroke("M36 64H74L82 34", Paint::String, 2.0),
        ]),
        labels: list(vec![]),
        description: "".into(),
    }
}

fn stroke(commands: &str, role: Paint, width: f32) -> PaintedStroke {
    PaintedStroke {
        commands: commands.into(),
        role,
        width,
        fill: Paint::None,
        ..PaintedStroke::default()
    }
}

fn fill(commands: &str, role: Paint) -> PaintedStroke {
    PaintedStroke {
        commands: commands.into(),
        role: Paint::None,
        width: 0.0,
        fill: role,
        ..PaintedStroke::default()
    }
}

fn label(text: &str, x: f32, y: f32, size: f32, role: Paint) -> PaintedLabel {
    PaintedLabel {
        x,
        y,
        text: SharedString::from(text),
        size,
        bold: true,
        role,
        anchor: Anchor::Middle,
        turn: 0.0,
    }
}
