//! Two-tape swings: the two marks from which a post's centre is best swung.
//!
//! ```text
//!          post
//!          /γ\        γ between 30° and 150°,
//!         /   \       each tape 100 mm to 15 m
//!     mark     mark
//! ```

use crate::job::MarkId;
use crate::job::sound::{MarkIx, Sound};
use crate::site::Plane;
use nalgebra::Vector2;

const SHORTEST: f64 = 100.0;
const LONGEST: f64 = 15_000.0;
const LEAST_CROSSING: f64 = 30.0;

/// Marks that do not move, ready to be swung from.
pub(super) struct Swings<'a> {
    sound: &'a Sound,
    marks: Vec<(MarkIx, Vector2<f64>)>,
}

struct Arm {
    mark: MarkIx,
    length: f64,
    toward: Vector2<f64>,
    variance: f64,
}

impl<'a> Swings<'a> {
    pub fn new(sound: &'a Sound, plane: &Plane) -> Self {
        let marks = (0..sound.marks.len())
            .map(MarkIx)
            .filter_map(|ix| Some((ix, plane.mark(ix)?)))
            .collect();
        Self { sound, marks }
    }

    /// The pair with the smallest error trace (s₁² + s₂²)/sin²γ, in file order, with the distance
    /// from each to the point, mm; `None` where no pair serves.
    pub fn to(&self, point: Vector2<f64>) -> Option<[(MarkId, f64); 2]> {
        let mut arms: Vec<Arm> = self
            .marks
            .iter()
            .filter_map(|m| self.arm(*m, point))
            .collect();
        arms.sort_by(|a, b| a.variance.total_cmp(&b.variance).then(a.mark.cmp(&b.mark)));
        let least_sine = LEAST_CROSSING.to_radians().sin();
        let mut best: Option<(f64, &Arm, &Arm)> = None;
        for (i, one) in arms.iter().enumerate() {
            for two in &arms[i + 1..] {
                let sum = one.variance + two.variance;
                if best.as_ref().is_some_and(|(trace, ..)| sum >= *trace) {
                    break;
                }
                let sine = one.toward.perp(&two.toward).abs();
                let trace = sum / (sine * sine);
                if sine >= least_sine && best.as_ref().is_none_or(|(least, ..)| trace < *least) {
                    best = Some((trace, one, two));
                }
            }
        }
        let (_, one, two) = best?;
        let [one, two] = if one.mark < two.mark {
            [one, two]
        } else {
            [two, one]
        };
        let named = |arm: &Arm| (self.sound.marks[arm.mark.0].id.clone(), arm.length);
        Some([named(one), named(two)])
    }

    fn arm(&self, (mark, at): (MarkIx, Vector2<f64>), point: Vector2<f64>) -> Option<Arm> {
        let way = point - at;
        let length = way.norm();
        if !(SHORTEST..=LONGEST).contains(&length) {
            return None;
        }
        let sd = self.sound.tape.sd(length);
        Some(Arm {
            mark,
            length,
            toward: way / length,
            variance: sd * sd,
        })
    }
}
