//! Can every word of a picture be read? The rules that a picture keeps to, told from what is painted.
#![allow(dead_code, reason = "each test takes what it needs")]

use tautmark::drawing::{Bundled, TextMeasure, Tile, Tone, Vec2, Weight};

/// A picture as it is painted, in view units.
pub struct Painted {
    /// Width and height.
    pub room: [f64; 2],
    pub lines: Vec<PaintedLine>,
    pub words: Vec<PaintedWords>,
    /// What words may not stand on at all: posts from above.
    pub solid: Vec<Tile>,
}

/// One straight piece of a stroke.
pub struct PaintedLine {
    pub ends: [Vec2; 2],
    pub weight: LineWeight,
}

/// What a line does to words that it runs through.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum LineWeight {
    /// Nothing: hatching and edges in a pale tone, which words are read over.
    Pale,
    /// It needs a patch of paper under the words, and goes on behind them: a dotted tape, the edge of a
    /// rail or a hole.
    Fine,
    /// It strikes them, patch or none: dashes, and whatever is drawn in ink or in colour. With a patch
    /// it would be cut in two, and the words would be taken for its own.
    Heavy,
}

/// Words and what they stand on.
pub struct PaintedWords {
    pub text: String,
    pub tile: Tile,
    pub size: f64,
    pub bold: bool,
    /// A patch of paper lies under them.
    pub patch: bool,
}

impl PaintedWords {
    /// What a letter's ink reaches: capitals are 0.7 sizes high, a line of words 1.1.
    fn ink(&self) -> Tile {
        Tile {
            half: [self.tile.half[0], self.size * 0.38],
            ..self.tile
        }
    }

    /// Two spaces: words of one name are one space apart, figures of one number a narrower one. Closer
    /// than two, what belongs to two things is read as one row.
    fn apart(&self) -> f64 {
        let weight = if self.bold {
            Weight::Bold
        } else {
            Weight::Regular
        };
        2.0 * Bundled.width(" ", self.size, weight)
    }

    /// True where the line is the one that the words are written on: through their middle, along them.
    fn stands_on(&self, ends: [Vec2; 2]) -> bool {
        let across = Vec2::new(-self.tile.along.y, self.tile.along.x);
        ends.iter()
            .all(|end| (end - self.tile.middle).dot(&across).abs() < 1.0)
    }
}

impl LineWeight {
    /// The weight of a stroke by its tone and whether it is wide (as wide as an outline).
    pub fn of(tone: Tone, wide: bool) -> Self {
        match tone {
            Tone::Hatch | Tone::Pale | Tone::Wall | Tone::Rule | Tone::Paper => Self::Pale,
            Tone::Earth | Tone::Board | Tone::Timber | Tone::Post => Self::Pale,
            Tone::Second if !wide => Self::Fine,
            Tone::Second | Tone::Ink | Tone::String | Tone::Level => Self::Heavy,
            Tone::Soil | Tone::Bad => Self::Heavy,
        }
    }
}

/// Everything that cannot be read in a picture, each in a sentence that begins with the rule.
pub fn faults(picture: &Painted) -> Vec<String> {
    let mut found = Vec::new();
    for (at, one) in picture.words.iter().enumerate() {
        for other in &picture.words[at + 1..] {
            let apart = one.apart().min(other.apart()) / 2.0 - 1e-6;
            let wide = |words: &PaintedWords| {
                let [width, height] = words.tile.half;
                Tile {
                    half: [width + apart, height],
                    ..words.tile
                }
            };
            if wide(one).covers(&wide(other)) {
                found.push(format!("touch: “{}” and “{}”", one.text, other.text));
            }
        }
        let out = |at: &Vec2| {
            let [width, height] = picture.room;
            !(-0.01..=width + 0.01).contains(&at.x) || !(-0.01..=height + 0.01).contains(&at.y)
        };
        if one.tile.corners().iter().any(out) {
            found.push(format!("cut: “{}”", one.text));
        }
        if picture.solid.iter().any(|post| one.tile.covers(post)) {
            found.push(format!("post: “{}”", one.text));
        }
        let ink = one.ink();
        let crossing = picture.lines.iter();
        let crossing = crossing.filter(|line| ink.is_crossed(line.ends[0], line.ends[1]));
        for line in crossing {
            match line.weight {
                LineWeight::Heavy if !(one.patch && one.stands_on(line.ends)) => {
                    found.push(format!("struck: “{}” by {:?}", one.text, line.ends));
                    break;
                }
                LineWeight::Fine if !one.patch => {
                    found.push(format!("crossed: “{}” by {:?}", one.text, line.ends));
                    break;
                }
                _ => {}
            }
        }
    }
    found
}
