//! From where to where a run goes: its zero, its direction and its length.

use crate::job::Problems;
use crate::job::sound::{CornerIx, LineIx, MarkIx, RunEnd, RunStart, Sound, SoundRun, WallIx};
use crate::site::{PM, PlaceOf, Plane, Ray, Stakes, Strings, covariance, line_ray};
use nalgebra::Vector2;

/// A run on its string: running readings count from `ray.through`, along `ray.along`.
#[derive(Clone, Copy, Debug)]
pub struct Track {
    /// The zero and the direction.
    pub ray: Ray,
    /// From the zero to the run's end, mm.
    pub length: f64,
    /// Standard deviation of the length, mm.
    pub length_sd: f64,
    /// +1 where the posts stand left of the run's direction, −1 where they stand right.
    pub side: f64,
}

impl Track {
    /// The point at a running reading, `off` behind the string (towards the posts), mm.
    #[must_use]
    pub fn at(&self, running: f64, off: f64) -> Vector2<f64> {
        self.ray.at(running, self.side * off)
    }

    /// Running reading of where the string, moved `off` towards the posts, meets a wall's line.
    #[must_use]
    pub fn meets(&self, wall: &Ray, off: f64) -> Option<f64> {
        let shifted = Ray {
            through: self.at(0.0, off),
            along: self.ray.along,
        };
        shifted.crossing(wall).map(|point| self.ray.running(point))
    }
}

/// The run's track, or why there is none yet.
pub(super) fn track(
    sound: &Sound,
    run: &SoundRun,
    plane: &Plane,
    strings: &Strings,
    problems: &mut Problems,
) -> Option<Track> {
    let place = format!("runs[{}]", run.index);
    let waits = |what: String, problems: &mut Problems| {
        problems.warning(
            place.clone(),
            format!("Run “{}” waits for {what}.", run.called()),
            "Settle that first; the run follows by itself.",
        );
    };
    let Some(string) = strings.rays[run.line.0] else {
        waits(
            format!("string “{}”", sound.lines[run.line.0].called()),
            problems,
        );
        return None;
    };
    let ends = [
        Some(run.start),
        match run.end {
            RunEnd::At(at) => Some(at),
            RunEnd::Length(_) => None,
        },
    ];
    for end in ends.into_iter().flatten() {
        if let Some(what) = not_there(sound, end, plane, strings) {
            waits(what, problems);
            return None;
        }
    }
    for (end, key) in ends.into_iter().zip(["start", "end"]) {
        if let Some(RunStart::Wall(wall)) = end
            && wall_ray(sound, wall, &|ix| plane.sketch(ix))
                .is_none_or(|wall| string.crossing(&wall).is_none())
        {
            problems.error(
                format!("{place}.{key}.wall"),
                format!(
                    "The string of run “{}” never meets wall “{}”.",
                    run.called(),
                    sound.walls[wall.0].called()
                ),
                "Name a wall that the string runs into.",
            );
            return None;
        }
    }
    let (zero, signed) = stretch(sound, run, &Stakes::at(&|ix| plane.sketch(ix)))?;
    if signed.abs() < 1.0 {
        problems.error(
            format!("{place}.end"),
            format!(
                "Run “{}” has no length: both its ends fall on one place.",
                run.called()
            ),
            "Name two different ends.",
        );
        return None;
    }
    let (lines, marks) = hangs_on(sound, run);
    let length = |stakes: &Stakes<'_>| Some([stretch(sound, run, stakes)?.1]);
    let variance = covariance(sound, plane, &lines, &marks, length)?[0][0];
    let back = signed < 0.0;
    let along = if back { -string.along } else { string.along };
    Some(Track {
        ray: Ray {
            through: zero,
            along,
        },
        length: signed.abs(),
        length_sd: variance.max(0.0).sqrt(),
        side: if back {
            -run.side.sign()
        } else {
            run.side.sign()
        },
    })
}

impl Track {
    /// ± of the length, mm.
    #[must_use]
    pub fn length_pm(&self) -> f64 {
        PM * self.length_sd
    }
}

/// A wall's line, from → to.
pub(super) fn wall_ray(sound: &Sound, wall: WallIx, place: &PlaceOf<'_>) -> Option<Ray> {
    let wall = &sound.walls[wall.0];
    Ray::between(place(wall.from), place(wall.to))
}

/// The zero, and the end's reading along the line's own direction.
fn stretch(sound: &Sound, run: &SoundRun, stakes: &Stakes<'_>) -> Option<(Vector2<f64>, f64)> {
    let ray = line_ray(sound, run.line, stakes)?;
    let zero = end_point(sound, &ray, run.start, stakes)?;
    let signed = match run.end {
        RunEnd::Length(length) => length,
        RunEnd::At(end) => ray.running(end_point(sound, &ray, end, stakes)?) - ray.running(zero),
    };
    Some((zero, signed))
}

/// Where the string meets a wall's line or crosses the corner's other string, or the foot of a
/// mark dropped square onto it.
fn end_point(sound: &Sound, ray: &Ray, end: RunStart, stakes: &Stakes<'_>) -> Option<Vector2<f64>> {
    match end {
        RunStart::Wall(wall) => ray.crossing(&wall_ray(sound, wall, &|ix| stakes.mark(ix))?),
        RunStart::Mark(mark) => Some(ray.at(ray.running(stakes.mark(mark)), 0.0)),
        RunStart::Corner(corner) => {
            let lines = sound.corners[corner.0].lines;
            let first = line_ray(sound, lines[0], stakes)?;
            first.crossing(&line_ray(sound, lines[1], stakes)?)
        }
    }
}

fn not_there(sound: &Sound, end: RunStart, plane: &Plane, strings: &Strings) -> Option<String> {
    let loose = |mark: MarkIx| plane.mark(mark).is_none();
    match end {
        RunStart::Wall(wall) => {
            let wall = &sound.walls[wall.0];
            (loose(wall.from) || loose(wall.to)).then(|| format!("wall “{}”", wall.called()))
        }
        RunStart::Mark(mark) => loose(mark).then(|| format!("mark {}", sound.marks[mark.0].id)),
        RunStart::Corner(CornerIx(i)) => strings.crossings[i]
            .is_none()
            .then(|| format!("corner “{}”", sound.corners[i].id)),
    }
}

/// Every line and, beside those of the lines, every mark that the run's two ends depend on.
fn hangs_on(sound: &Sound, run: &SoundRun) -> (Vec<LineIx>, Vec<MarkIx>) {
    let (mut lines, mut marks) = (vec![run.line], Vec::new());
    let mut add = |end: RunStart| match end {
        RunStart::Wall(wall) => {
            let wall = &sound.walls[wall.0];
            marks.extend([wall.from, wall.to]);
        }
        RunStart::Mark(mark) => marks.push(mark),
        RunStart::Corner(corner) => lines.extend(sound.corners[corner.0].lines),
    };
    add(run.start);
    if let RunEnd::At(end) = run.end {
        add(end);
    }
    (lines, marks)
}
