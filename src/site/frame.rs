//! The frame of the marks, and a first place for every mark in it.
//!
//! The frame: the `from` mark of the first wall is the origin, its `to` mark lies on +x. Without a
//! wall, the first tape's two marks take its place; without a tape, the first two marks.

use crate::job::sound::{MarkIx, Quantity, Sound, Taken};
use nalgebra::{Rotation2, Vector2};

/// Where marks start before they are adjusted, mm, in the frame.
#[derive(Clone, Debug, Default)]
pub struct SiteFrame {
    /// The mark at the origin and the mark on +x; the second is missing where there is one mark.
    pub base: Option<(MarkIx, Option<MarkIx>)>,
    /// First place of every mark, by [`MarkIx`].
    pub start: Vec<Vector2<f64>>,
    /// Marks that the sketch does not show; which side they lie on was a guess.
    pub guessed: Vec<MarkIx>,
}

/// Distance between marks about which nothing at all is known, mm.
const APART: f64 = 1000.0;

/// Turns and moves the sketch into the frame, and finds a place for marks that are not on it.
#[must_use]
pub fn frame(sound: &Sound) -> SiteFrame {
    let Some(origin) = base(sound).map(|(from, _)| from) else {
        return SiteFrame::default();
    };
    let along = base(sound).and_then(|(_, to)| to);
    let guessed: Vec<MarkIx> = (0..sound.marks.len())
        .map(MarkIx)
        .filter(|ix| sound.marks[ix.0].rough.is_none())
        .collect();
    let placed = Placing::new(sound, origin, along).place_all();
    let zero = placed[origin.0];
    let turn = along.map_or(0.0, |to| {
        let base = placed[to.0] - zero;
        base.y.atan2(base.x)
    });
    let level = Rotation2::new(-turn);
    let mut start: Vec<Vector2<f64>> = placed.iter().map(|at| level * (at - zero)).collect();
    if let Some(to) = along {
        start[to.0].y = 0.0;
    }
    SiteFrame {
        base: Some((origin, along)),
        start,
        guessed,
    }
}

fn base(sound: &Sound) -> Option<(MarkIx, Option<MarkIx>)> {
    if let Some(wall) = sound.walls.first() {
        return Some((wall.from, Some(wall.to)));
    }
    let first_tape = sound.readings.iter().find_map(|taken| match taken.what {
        Quantity::Tape { from, to, .. } => Some((from, Some(to))),
        _ => None,
    });
    first_tape.or(match sound.marks.len() {
        0 => None,
        1 => Some((MarkIx(0), None)),
        _ => Some((MarkIx(0), Some(MarkIx(1)))),
    })
}

/// Marks being placed one after the other, each from the tapes to those placed before.
struct Placing<'a> {
    sound: &'a Sound,
    at: Vec<Option<Vector2<f64>>>,
}

impl<'a> Placing<'a> {
    fn new(sound: &'a Sound, origin: MarkIx, along: Option<MarkIx>) -> Self {
        let mut at: Vec<Option<Vector2<f64>>> = sound
            .marks
            .iter()
            .map(|mark| mark.rough.map(Vector2::from))
            .collect();
        if at.iter().all(Option::is_none) {
            at[origin.0] = Some(Vector2::zeros());
        }
        let mut placing = Self { sound, at };
        if let Some(to) = along {
            placing.place_base(origin, to);
        }
        placing
    }

    /// The two marks of the base must be apart, or the frame has no direction.
    fn place_base(&mut self, origin: MarkIx, to: MarkIx) {
        let length = self
            .tapes(origin)
            .find(|&(mark, _)| mark == to)
            .map_or(APART, |(_, l)| l);
        let step = Vector2::new(length, 0.0);
        match (self.at[origin.0], self.at[to.0]) {
            (Some(a), None) => self.at[to.0] = Some(a + step),
            (None, Some(b)) => self.at[origin.0] = Some(b - step),
            (None, None) => {
                self.at[origin.0] = Some(Vector2::zeros());
                self.at[to.0] = Some(step);
            }
            (Some(a), Some(b)) if (b - a).norm() < 1e-3 => self.at[to.0] = Some(a + step),
            (Some(_), Some(_)) => {}
        }
    }

    fn place_all(mut self) -> Vec<Vector2<f64>> {
        while let Some(next) = self.best_next() {
            let spot = self.spot_for(next);
            self.at[next.0] = Some(spot);
        }
        self.at.into_iter().map(Option::unwrap_or_default).collect()
    }

    /// The unplaced mark with the most tapes to placed ones.
    fn best_next(&self) -> Option<MarkIx> {
        (0..self.at.len())
            .map(MarkIx)
            .filter(|ix| self.at[ix.0].is_none())
            .max_by_key(|&ix| (self.to_placed(ix).count(), usize::MAX - ix.0))
    }

    fn spot_for(&self, mark: MarkIx) -> Vector2<f64> {
        let known: Vec<(Vector2<f64>, f64)> = self.to_placed(mark).collect();
        match known.as_slice() {
            [] => self.spare_spot(mark),
            [(at, length)] => at + Vector2::new(0.0, *length),
            [first, second, rest @ ..] => {
                let misfit = |spot: &Vector2<f64>| -> f64 {
                    rest.iter()
                        .map(|(at, length)| ((spot - at).norm() - length).powi(2))
                        .sum()
                };
                let [left, right] = crossings(*first, *second);
                if misfit(&right) < misfit(&left) {
                    right
                } else {
                    left
                }
            }
        }
    }

    /// Away from the rest, so that no two marks start at one place.
    fn spare_spot(&self, mark: MarkIx) -> Vector2<f64> {
        let offset = self
            .sound
            .readings
            .iter()
            .find_map(|taken| match taken.what {
                Quantity::Offset {
                    mark: of,
                    wall,
                    side,
                    length,
                } if of == mark => {
                    let wall = self.sound.walls.get(wall.0)?;
                    let (from, to) = (self.at[wall.from.0]?, self.at[wall.to.0]?);
                    let along = (to - from).try_normalize(1e-9)?;
                    let out = Vector2::new(-along.y, along.x) * side.sign();
                    Some((from + to) / 2.0 + out * length)
                }
                _ => None,
            });
        offset.unwrap_or_else(|| {
            let placed = self.at.iter().flatten();
            let low = placed.fold(Vector2::zeros(), |low: Vector2<f64>, at| low.inf(at));
            low - Vector2::new(APART, APART * (1.0 + mark.0 as f64 / 10.0))
        })
    }

    fn to_placed(&self, mark: MarkIx) -> impl Iterator<Item = (Vector2<f64>, f64)> + '_ {
        self.tapes(mark)
            .filter_map(|(other, length)| Some((self.at[other.0]?, length)))
    }

    fn tapes(&self, mark: MarkIx) -> impl Iterator<Item = (MarkIx, f64)> + '_ {
        self.sound
            .readings
            .iter()
            .filter_map(move |Taken { what, .. }| match *what {
                Quantity::Tape { from, to, length } if from == mark => Some((to, length)),
                Quantity::Tape { from, to, length } if to == mark => Some((from, length)),
                _ => None,
            })
    }
}

/// The two points at the given distances from two others: left and right of the way from the first
/// to the second. Where the swings do not reach each other, the nearest there is.
fn crossings(
    (a, from_a): (Vector2<f64>, f64),
    (b, from_b): (Vector2<f64>, f64),
) -> [Vector2<f64>; 2] {
    let base = b - a;
    let length = base.norm();
    let Some(along) = base.try_normalize(1e-9) else {
        return [a + Vector2::new(from_a, 0.0), a - Vector2::new(from_a, 0.0)];
    };
    let foot = (from_a * from_a - from_b * from_b + length * length) / (2.0 * length);
    let rise = (from_a * from_a - foot * foot)
        .max(0.0)
        .sqrt()
        .max(from_a.min(from_b) * 0.05);
    let left = Vector2::new(-along.y, along.x);
    [
        a + along * foot + left * rise,
        a + along * foot - left * rise,
    ]
}
