//! String lines: off a wall by nails, or through two marks.

use super::fixes::LineFix;
use super::network::Plane;
use super::ray::Ray;
use super::stakes::Stakes;
use crate::job::Problems;
use crate::job::sound::{Along, LineIx, MarkIx, Sound, SoundLine};

/// The two marks that settle a line.
#[must_use]
pub fn line_marks(sound: &Sound, line: LineIx) -> [MarkIx; 2] {
    match sound.lines[line.0].along {
        Along::Wall { wall, .. } => {
            let wall = &sound.walls[wall.0];
            [wall.from, wall.to]
        }
        Along::Marks(marks) => marks,
    }
}

/// Where a string runs, with its marks and nails where `stakes` has them; `None` where the marks
/// coincide.
///
/// Through nails it is the straight line that fits their offsets best (least squares of the
/// offsets over the distances along the wall). A single offset makes it parallel to the wall, with
/// a nail at each of the wall's ends.
#[must_use]
pub fn line_ray(sound: &Sound, ix: LineIx, stakes: &Stakes<'_>) -> Option<Ray> {
    let line = &sound.lines[ix.0];
    let [from, to] = line_marks(sound, ix).map(|mark| stakes.mark(mark));
    let base = Ray::between(from, to)?;
    let ray = match &line.along {
        Along::Marks(_) => base,
        Along::Wall { side, stations, .. } => {
            let mut nails = nails(stations, (to - from).norm());
            for (i, [_, off]) in nails.iter_mut().enumerate() {
                *off += stakes.nail_off(ix, i);
            }
            let (off, slope) = fit(&nails);
            let through = base.at(0.0, side.sign() * off);
            let along = (base.along + base.left() * (side.sign() * slope)).normalize();
            Ray { through, along }
        }
    };
    Some(if line.reverse { ray.reversed() } else { ray })
}

/// Where the nails are, (at, off) in mm: as listed, or at both ends of the wall for one offset alone.
fn nails(stations: &[[f64; 2]], wall: f64) -> Vec<[f64; 2]> {
    match *stations {
        [[_, off]] => vec![[0.0, off], [wall, off]],
        _ => stations.to_vec(),
    }
}

/// Offset at 0 and its change per mm along, of the straight line nearest to the stations.
fn fit(stations: &[[f64; 2]]) -> (f64, f64) {
    let count = stations.len() as f64;
    let mean_at = stations.iter().map(|[at, _]| at).sum::<f64>() / count;
    let mean_off = stations.iter().map(|[_, off]| off).sum::<f64>() / count;
    let spread: f64 = stations.iter().map(|[at, _]| (at - mean_at).powi(2)).sum();
    let tilt: f64 = stations
        .iter()
        .map(|[at, off]| (at - mean_at) * (off - mean_off))
        .sum();
    let slope = if spread > 0.0 { tilt / spread } else { 0.0 };
    (mean_off - slope * mean_at, slope)
}

/// How far each nail stands off the straight string, mm, away from the wall positive; `None` for
/// fewer than three.
fn bow(line: &SoundLine) -> Option<Vec<f64>> {
    let Along::Wall { stations, .. } = &line.along else {
        return None;
    };
    if stations.len() < 3 {
        return None;
    }
    let (off, slope) = fit(stations);
    Some(
        stations
            .iter()
            .map(|[at, measured]| measured - (off + slope * at))
            .collect(),
    )
}

/// A line on marks that do not move, or why there is none yet.
pub(super) fn solve_line(
    sound: &Sound,
    ix: LineIx,
    plane: &Plane,
    problems: &mut Problems,
) -> Option<(Ray, LineFix)> {
    let line = &sound.lines[ix.0];
    let place = format!("lines[{}]", line.index);
    let marks = line_marks(sound, ix);
    if let Some(mark) = marks.into_iter().find(|&mark| plane.mark(mark).is_none()) {
        let mark = &sound.marks[mark.0].id;
        problems.warning(
            place,
            format!(
                "String “{}” hangs on mark {mark}, which can still move.",
                line.called()
            ),
            format!("Take another tape to mark {mark}."),
        );
        return None;
    }
    let Some(ray) = line_ray(sound, ix, &Stakes::at(&|mark| plane.sketch(mark))) else {
        problems.error(
            place,
            format!(
                "The two marks of string “{}” come out at one place.",
                line.called()
            ),
            "Check the tapes to them.",
        );
        return None;
    };
    too_far_along(sound, ix, plane, &place, problems);
    let fix = LineFix {
        x: ray.through.x,
        y: ray.through.y,
        bearing: ray.bearing(),
        bow: bow(line),
    };
    Some((ray, fix))
}

/// Nails close together aim a string badly: past 1.5 times the base its error outgrows the nails'.
fn too_far_along(sound: &Sound, ix: LineIx, plane: &Plane, place: &str, problems: &mut Problems) {
    let line = &sound.lines[ix.0];
    let Along::Wall { stations, .. } = &line.along else {
        return;
    };
    if stations.len() < 2 {
        return;
    }
    let (low, high) = stations
        .iter()
        .fold((f64::INFINITY, f64::NEG_INFINITY), |(l, h), [at, _]| {
            (l.min(*at), h.max(*at))
        });
    let [from, to] = line_marks(sound, ix);
    let wall = (plane.sketch(to) - plane.sketch(from)).norm();
    if high - low < wall / 3.0 {
        problems.warning(
            format!("{place}.offsets"),
            format!(
                "The nails of string “{}” are only {} apart on a wall of {}.",
                line.called(),
                sound.say(high - low),
                sound.say(wall)
            ),
            "Put them as far apart as the wall allows: close nails aim the string badly.",
        );
    }
}

#[cfg(test)]
mod tests {
    use super::fit;

    #[test]
    fn nails_that_are_not_in_line_share_the_misfit() {
        let (off, slope) = fit(&[[0.0, 50.0], [1000.0, 53.0], [2000.0, 50.0]]);
        assert!((off - 51.0).abs() < 1e-9 && slope.abs() < 1e-12);
    }

    #[test]
    fn one_nail_is_parallel_and_two_are_exact() {
        assert_eq!(fit(&[[700.0, 38.0]]), (38.0, 0.0));
        let (off, slope) = fit(&[[100.0, 40.0], [2100.0, 60.0]]);
        assert!((off - 39.0).abs() < 1e-9 && (slope - 0.01).abs() < 1e-12);
    }
}
