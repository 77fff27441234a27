//! Every word in the picture of every quick sum can be read, with nothing typed, with long figures of all
//! kinds, and while each of them is asked for.

#[path = "../legible/mod.rs"]
mod legible;

use legible::{LineWeight, Painted, PaintedLine, PaintedWords, faults};
use slint::{Global, Model};
use std::thread;
use tautmark::app::{Desk, FigureKind, Then};
use tautmark::drawing::{Bundled, TextMeasure, Tile, Tone, Vec2, Weight};
use tautmark_app_tests::{Hand, settle};
use tautmark_ui::{DrawingVm, FieldKind, FormVm, Page, Paint, PaintedDrawing, PaintedStroke};

const SUMS: [&str; 29] = [
    "corner",
    "square",
    "point",
    "tapes to",
    "slope",
    "sag",
    "two tapes",
    "across",
    "turn",
    "diagonal",
    "bays",
    "gaps",
    "concrete",
    "spoil",
    "bolts",
    "carry",
    "laser",
    "turn about",
    "spirit",
    "fall",
    "rail",
    "mitre",
    "pales",
    "notch",
    "screws",
    "leaf",
    "brace",
    "swing",
    "lock",
];

/// The tone of what a stroke is of.
fn tone(paint: Paint) -> Tone {
    match paint {
        Paint::Second => Tone::Second,
        Paint::Rule => Tone::Rule,
        Paint::String => Tone::String,
        Paint::Level => Tone::Level,
        Paint::Wall => Tone::Wall,
        Paint::Hatch => Tone::Hatch,
        Paint::Earth => Tone::Earth,
        Paint::Soil => Tone::Soil,
        Paint::Board => Tone::Board,
        Paint::Timber => Tone::Timber,
        Paint::Pale => Tone::Pale,
        Paint::Paper | Paint::None => Tone::Paper,
        Paint::Post => Tone::Post,
        Paint::Bad => Tone::Bad,
        Paint::Ink | Paint::Good | Paint::Attention => Tone::Ink,
    }
}

/// The straight pieces of a stroke's commands, moves and lines only.
fn pieces(stroke: &PaintedStroke) -> Vec<Vec<Vec2>> {
    let commands = stroke.commands.replace('Z', "");
    let from = Vec2::new(f64::from(stroke.x), f64::from(stroke.y));
    let point = |text: &str| {
        let mut sides = text.split(' ').map(|side| side.parse().expect("a number"));
        from + Vec2::new(sides.next().expect("x"), sides.next().expect("y"))
    };
    let moves = commands.split('M').filter(|piece| !piece.is_empty());
    moves
        .map(|piece| piece.split('L').map(point).collect())
        .collect()
}

fn weight(stroke: &PaintedStroke) -> LineWeight {
    /// As wide as an outline, and as an edge within a thing, px.
    const LINE: f32 = 2.0;
    const EDGE: f32 = 1.25;
    if stroke.role == Paint::None {
        // Dots are filled with the tone of a line.
        return match stroke.fill {
            Paint::Ink | Paint::String => LineWeight::Heavy,
            _ => LineWeight::Pale,
        };
    }
    match LineWeight::of(tone(stroke.role), stroke.width >= LINE) {
        // Words are read over the edges of boards and rails.
        LineWeight::Fine if stroke.width >= EDGE => LineWeight::Pale,
        weight => weight,
    }
}

fn painted(drawing: &PaintedDrawing, room: [f64; 2]) -> Painted {
    let strokes: Vec<PaintedStroke> = drawing.strokes.iter().collect();
    let (mut lines, mut solid, mut patches) = (Vec::new(), Vec::new(), Vec::new());
    for stroke in &strokes {
        let weight = weight(stroke);
        for mut points in pieces(stroke) {
            let corners = points.clone();
            if stroke.commands.ends_with('Z') {
                points.push(points[0]);
            }
            let pairs = points.windows(2);
            lines.extend(pairs.map(|two| PaintedLine {
                ends: [two[0], two[1]],
                weight,
            }));
            let [a, b, c, d] = corners[..] else { continue };
            let turn = (b - a).y.atan2((b - a).x).to_degrees();
            let half = [(b - a).norm() / 2.0, (d - a).norm() / 2.0];
            let tile = Tile::turned((a + c) / 2.0, half, turn);
            match stroke.fill {
                Paint::Post => solid.push(tile),
                Paint::Paper if stroke.role == Paint::None => patches.push(tile),
                _ => {}
            }
        }
    }
    let words = drawing.labels.iter().map(|label| {
        let weight = if label.bold {
            Weight::Bold
        } else {
            Weight::Regular
        };
        let size = f64::from(label.size);
        let half = [Bundled.width(&label.text, size, weight) / 2.0, size * 0.55];
        let at = Vec2::new(f64::from(label.x), f64::from(label.y));
        let tile = Tile::turned(at, half, f64::from(label.turn));
        // A patch is as large as the words that stand on it, or larger.
        let under = |patch: &Tile| {
            (patch.middle - at).norm() < 0.5 + size && patch.half[0] + 0.1 >= half[0]
        };
        PaintedWords {
            text: label.text.to_string(),
            tile,
            size,
            bold: label.bold,
            patch: patches.iter().any(under),
        }
    });
    let words = words.collect();
    Painted {
        room,
        lines,
        words,
        solid,
    }
}

/// A figure of that kind, another with each number: long, and of lengths that often go together.
fn figure(kind: FigureKind, chance: u64) -> f64 {
    let share = (chance.wrapping_mul(0x9E37_79B9_7F4A_7C15) >> 40) as f64 / (1u64 << 24) as f64;
    match kind {
        FigureKind::Length | FigureKind::FineLength => 9_871.3 + 9_000.0 * share,
        FigureKind::Signed(_) => 2_987.6 * (share - 0.3),
        FigureKind::Degrees => 15.25 + 160.0 * share,
        FigureKind::Count => (2.0 + 30.0 * share).floor(),
        FigureKind::Number(_) => (100.0 * share).round() + 0.125,
    }
}

/// What cannot be read in the picture in sight.
fn looked_at(hand: &Hand, what: &str, found: &mut Vec<String>) {
    let room = hand.bridge.look(|desk| desk.view.room());
    let drawing = DrawingVm::get(&hand.app).get_drawing();
    let mut own = faults(&painted(&drawing, room));
    let is_asked = |stroke: &PaintedStroke| stroke.role == Paint::String && stroke.width > 3.0;
    let mut labels = drawing.labels.iter();
    if drawing.strokes.iter().any(|stroke| is_asked(&stroke))
        && !labels.any(|label| label.role == Paint::String)
    {
        own.push("no figure is asked for".to_owned());
    }
    found.extend(own.into_iter().map(|fault| format!("{what}: {fault}")));
}

fn act(hand: &Hand, what: impl FnOnce(&mut Desk) -> Then) {
    hand.bridge.act(what);
    settle();
}

/// Fills every sum in, one figure after the other, on a screen of this size.
fn every_sum(unit: &str, size: [f32; 2]) -> Vec<String> {
    let hand = Hand::with_no_job(size[0], size[1]);
    hand.press("All quick sums");
    hand.press(unit);
    let mut found = Vec::new();
    for sum in SUMS {
        act(&hand, |desk| {
            desk.look_at_quick(sum);
            Then::Open(Page::Quick)
        });
        assert_eq!(hand.bridge.look(|desk| desk.quick.sum.clone()), sum);
        looked_at(&hand, &format!("{sum} in {unit}, {size:?}"), &mut found);
        let fields = FormVm::get(&hand.app).get_fields();
        let figures = fields
            .iter()
            .filter(|field| field.kind == FieldKind::Figure);
        let figures: Vec<String> = figures.map(|field| field.label.to_string()).collect();
        for label in figures {
            hand.press(&label);
            let what = format!("{sum}, {label} in {unit}, {size:?}");
            looked_at(&hand, &what, &mut found);
            act(&hand, |desk| {
                let entry = desk.entry.as_ref().expect("the keypad");
                let (key, kind) = (entry.figure.key(desk.saved()), entry.figure.measure());
                let chance = key
                    .bytes()
                    .fold(3u64, |sum, byte| sum.wrapping_mul(31) + u64::from(byte));
                desk.figures.insert(key, figure(kind, chance));
                Then::Stay
            });
            looked_at(&hand, &format!("{what}, typed"), &mut found);
            hand.press("Leave this figure");
        }
        looked_at(
            &hand,
            &format!("{sum} in {unit}, {size:?}, all there"),
            &mut found,
        );
        hand.picture(&format!("sum-{sum}-{unit}-{}", size[0]));
    }
    found
}

#[test]
fn every_word_in_the_picture_of_a_sum_can_be_read() {
    let mut ways = Vec::new();
    for unit in ["mm", "ft in"] {
        for size in [[360.0, 640.0], [1280.0, 800.0]] {
            ways.push((unit, size));
        }
    }
    let tried = ways
        .into_iter()
        .map(|(unit, size)| thread::spawn(move || every_sum(unit, size)));
    let tried: Vec<_> = tried.collect();
    let found = tried.into_iter().flat_map(|one| one.join().expect("drawn"));
    let found: Vec<String> = found.collect();
    let some: Vec<&String> = found.iter().take(30).collect();
    assert!(found.is_empty(), "{} words: {some:#?}", found.len());
}
