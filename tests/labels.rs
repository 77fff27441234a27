//! Every word of every drawing can be read: none touches another, none leaves the picture, none is
//! struck, and what a person must find is never left out.
//!
//! Two thousand jobs are drawn. Each shares in the rooms and in the drawings that a job has, so that all
//! of them come up often.

mod any_job;
mod fences;
mod legible;
mod yards;

use any_job::any_job;
use any_job::drawn::{pieces, plans};
use legible::{LineWeight, Painted, PaintedLine, PaintedWords, faults};
use rand::SeedableRng;
use rand::rngs::StdRng;
use rand::seq::{IndexedRandom, SliceRandom};
use std::thread;
use tautmark::drawing::{
    Areas, Bundled, Drawing, DrawnItem, Hand, Laid, LayoutDesk, Rank, Role, Shape, Stroke, Target,
    Tile, Tone, Vec2, View, WordsPlace, fitted, lay_out,
};
use tautmark::solve;

const JOBS: u64 = 2000;
/// How many of a job's plans, and how many of its other drawings, are laid out.
const DRAWN: usize = 1;

/// A post whose neighbours are so far off, in sizes of its number, has room for one.
const ALONE: f64 = 4.5;

/// A phone's drawing low and high, one for a person who needs larger words, a tablet's, a desktop's, and
/// paper.
fn rooms() -> [([f64; 2], Hand); 7] {
    [
        ([360.0, 240.0], Hand::screen(1.0)),
        ([360.0, 240.0], Hand::screen(1.3)),
        ([412.0, 330.0], Hand::screen(1.0)),
        ([360.0, 560.0], Hand::screen(1.3)),
        ([760.0, 740.0], Hand::screen(1.0)),
        ([1400.0, 900.0], Hand::screen(1.0)),
        ([511.0, 320.0], Hand::paper()),
    ]
}

fn weight(item: &DrawnItem, stroke: &Stroke, hand: &Hand) -> LineWeight {
    let Some((tone, width)) = stroke.line else {
        return match item.shape {
            Shape::Dot(_) => LineWeight::Heavy,
            _ => LineWeight::Pale,
        };
    };
    match item.shape {
        // A line to words that found no place nearer may go on behind others and their patch.
        Shape::Label(_) => return LineWeight::Fine,
        Shape::Dimension(_) if tone == Tone::Second => return LineWeight::Fine,
        Shape::Dimension(_) | Shape::Row(_) => return LineWeight::Heavy,
        _ => {}
    }
    let fine_edge = matches!(item.role, Role::Rail | Role::GravelBoard) && width <= hand.fine;
    // A leaf's thin diagonal on an elevation.
    let brace = item.role == Role::Gate && width <= hand.hair;
    match (LineWeight::of(tone, width >= hand.line), hand.areas) {
        (LineWeight::Fine, Areas::Toned) if fine_edge => LineWeight::Pale,
        (LineWeight::Heavy, _) if brace => LineWeight::Fine,
        (weight, _) => weight,
    }
}

fn painted(drawing: &Drawing, laid: &Laid, room: [f64; 2], hand: &Hand) -> Painted {
    let mut lines = Vec::new();
    let mut solid = Vec::new();
    for stroke in &laid.strokes {
        let item = &drawing.items[stroke.item];
        let weight = weight(item, stroke, hand);
        let next = stroke.points.iter().cycle().skip(1);
        let edges = stroke.points.len() - usize::from(!stroke.closed);
        let pairs = stroke.points.iter().zip(next).take(edges);
        lines.extend(pairs.map(|(&from, &to)| PaintedLine {
            ends: [from, to],
            weight,
        }));
        let post = matches!(item.role, Role::Post | Role::DonePost);
        if let ([a, b, c, d], true) = (stroke.points.as_slice(), post && stroke.closed) {
            let turn = (b - a).y.atan2((b - a).x).to_degrees();
            let half = [(b - a).norm() / 2.0, (d - a).norm() / 2.0];
            solid.push(Tile::turned((a + c) / 2.0, half, turn));
        }
    }
    let words = laid.labels.iter().map(|label| PaintedWords {
        text: label.text.clone(),
        tile: label.tile(),
        size: label.size,
        bold: label.bold,
        patch: label.patched,
    });
    Painted {
        room,
        lines,
        words: words.collect(),
        solid,
    }
}

/// What a person must find and does not: the name of a mark, what is asked for, the number of a post
/// that has room beside its neighbours for one.
fn missing(
    drawing: &Drawing,
    view: &View,
    laid: &Laid,
    room: [f64; 2],
    hand: &Hand,
) -> Vec<String> {
    let written = |index: usize| laid.labels.iter().any(|label| label.item == index);
    let numbers: Vec<_> = drawing
        .items
        .iter()
        .filter_map(numbered)
        .map(|at| view.place(at))
        .collect();
    let mut found = Vec::new();
    for (index, item) in drawing.items.iter().enumerate() {
        let (at, rank) = match &item.shape {
            Shape::Label(label) => (label.at, label.rank),
            Shape::Dimension(one) => ((one.from + one.to) / 2.0, one.rank),
            _ => continue,
        };
        let at = view.place(at);
        let seen = (0.0..=room[0]).contains(&at.x) && (0.0..=room[1]).contains(&at.y);
        let name = matches!(item.of, Some(Target::Mark(_)));
        let number = numbered(item).is_some() && {
            let near = numbers
                .iter()
                .filter(|other| (**other - at).norm() < ALONE * hand.text);
            near.count() == 1
        };
        // A wall's name is said beside the drawing too.
        let asked = rank == Rank::Now && !matches!(item.of, Some(Target::Wall(_)));
        if seen && (name || number || asked) && !written(index) {
            let what = if number {
                "number"
            } else if name {
                "name"
            } else {
                "asked"
            };
            let text = match &item.shape {
                Shape::Label(label) => &label.text,
                Shape::Dimension(one) => &one.text,
                _ => continue,
            };
            found.push(format!("no {what}: “{text}” at {at:?}"));
        }
    }
    found
}

/// Where a post stands whose number this is.
fn numbered(item: &DrawnItem) -> Option<Vec2> {
    match (&item.shape, &item.of) {
        (Shape::Label(label), Some(Target::Post { .. }))
            if matches!(label.place, WordsPlace::Toward { .. }) =>
        {
            Some(label.at)
        }
        _ => None,
    }
}

/// What cannot be read in some drawings of a job.
fn unreadable(seed: u64) -> Vec<String> {
    let mut rng = StdRng::seed_from_u64(seed);
    let job = any_job(seed);
    let solution = solve(&job);
    let mut all = plans(&job, &solution, &mut rng);
    all.shuffle(&mut rng);
    all.truncate(DRAWN);
    let mut other = pieces(&solution, &mut rng);
    other.shuffle(&mut rng);
    other.truncate(DRAWN);
    all.extend(other);
    let mut found = Vec::new();
    for made in all {
        let (room, hand) = *rooms().choose(&mut rng).expect("rooms");
        let Some(drawing) = made(&job, &solution, room) else {
            continue;
        };
        let desk = LayoutDesk {
            hand: &hand,
            measure: &Bundled,
        };
        let view = fitted(&drawing, room, desk);
        let laid = lay_out(&drawing, &view, Some(room), desk);
        let mut own = faults(&painted(&drawing, &laid, room, &hand));
        own.extend(missing(&drawing, &view, &laid, room, &hand));
        let said = own.into_iter();
        let kind = &drawing.description;
        found.extend(
            said.map(|fault| format!("{fault} in job {seed}, {room:?} × {}, {kind}", hand.text)),
        );
    }
    found
}

#[test]
fn every_word_of_every_drawing_can_be_read() {
    let halves = [0, 1].map(|half| {
        thread::spawn(move || {
            (0..JOBS)
                .filter(|seed| seed % 2 == half)
                .flat_map(unreadable)
                .collect::<Vec<_>>()
        })
    });
    let found = halves
        .into_iter()
        .flat_map(|half| half.join().expect("drawn"));
    let found: Vec<String> = found.collect();
    let some: Vec<&String> = found.iter().take(20).collect();
    assert!(found.is_empty(), "{} words: {some:#?}", found.len());
}
