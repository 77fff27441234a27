//! How sure is a figure that is made from marks and strings?
//!
//! ```text
//!        nail ± nail sd           mark: its covariance in Q
//!          ┬                        ×
//!   ───────┴───────────┬──────────────────  string
//!                      ┴ nail ± nail sd
//! ```
//!
//! Each mark and each nail is moved a little in turn; what the figure does then, weighed with how
//! sure that mark or nail is, adds up to the figure's own variance (law of propagation of
//! variances, in any adjustment textbook).

use super::line::line_marks;
use super::network::Plane;
use super::stakes::Stakes;
use crate::job::sound::{Along, LineIx, MarkIx, Sound};

/// How many nails hold a line off its wall: one at each end of the wall where a single offset is
/// given; none where the line is tied to marks.
#[must_use]
pub fn nail_count(sound: &Sound, line: LineIx) -> usize {
    match &sound.lines[line.0].along {
        Along::Wall { stations, .. } => stations.len().max(2),
        Along::Marks(_) => 0,
    }
}

/// Variances and covariances (K × K) of figures made from lines and marks: from Q for the marks,
/// also those of the lines, and from `string.nail` for every nail; by central differences.
///
/// `None` where the figures have no value.
pub fn covariance<const K: usize>(
    sound: &Sound,
    plane: &Plane,
    lines: &[LineIx],
    marks: &[MarkIx],
    figures: impl Fn(&Stakes<'_>) -> Option<[f64; K]>,
) -> Option<[[f64; K]; K]> {
    let of_lines = lines.iter().flat_map(|line| line_marks(sound, *line));
    let all: Vec<MarkIx> = of_lines.chain(marks.iter().copied()).collect();
    let mut sum = plane.covariance(&all, |place| figures(&Stakes::at(place)))?;
    for (i, &line) in lines.iter().enumerate() {
        if lines[..i].contains(&line) {
            continue;
        }
        for nail in 0..nail_count(sound, line) {
            let slopes = slopes(plane, (line, nail), &figures)?;
            for (row, a) in sum.iter_mut().zip(slopes) {
                for (value, b) in row.iter_mut().zip(slopes) {
                    *value += sound.string.nail * sound.string.nail * a * b;
                }
            }
        }
    }
    Some(sum)
}

/// What each figure changes for each mm that a nail is off.
fn slopes<const K: usize>(
    plane: &Plane,
    (line, nail): (LineIx, usize),
    figures: impl Fn(&Stakes<'_>) -> Option<[f64; K]>,
) -> Option<[f64; K]> {
    const STEP: f64 = 1e-2;
    let off = |by: f64| {
        let marks = |ix| plane.sketch(ix);
        figures(&Stakes::at(&marks).with_nail_off(line, nail, by))
    };
    let (out, back) = (off(STEP)?, off(-STEP)?);
    Some(std::array::from_fn(|k| (out[k] - back[k]) / (2.0 * STEP)))
}
