//! Corners: where two lines cross, at what angle, how sure, and the post that stands there.

use super::fixes::{CornerFix, CornerPostFix, Diagonal};
use super::line::{Place, line_marks, line_ray};
use super::network::{PM, Plane, larger_eigenvalue};
use super::ray::Ray;
use crate::job::Problems;
use crate::job::model::{PostSet, Tape};
use crate::job::sound::{
    CornerIx, LineIx, RunEnd, RunStart, Sound, SoundCorner, SoundLine, SoundRun,
};
use nalgebra::{Matrix2, Vector2};

/// Arms for which the check diagonal is given, mm.
const ARMS: [f64; 3] = [1000.0, 2000.0, 3000.0];

/// A corner whose lines are known.
#[derive(Clone, Debug)]
pub struct Crossing {
    pub at: Vector2<f64>,
    pub fix: CornerFix,
}

/// Where two lines cross and the turn from one onto the other (degrees, left positive), from
/// marks at the given places.
fn cross(sound: &Sound, lines: [&SoundLine; 2], place: &Place<'_>) -> Option<(Vector2<f64>, f64)> {
    let first = line_ray(sound, lines[0], place)?;
    let second = line_ray(sound, lines[1], place)?;
    Some((first.crossing(&second)?, first.turn_onto(&second)))
}

/// A corner, without its check diagonals; `None` while one of its lines is not there yet, or where
/// the lines are parallel.
pub(super) fn solve_corner(
    sound: &Sound,
    ix: CornerIx,
    rays: &[Option<Ray>],
    plane: &Plane,
    problems: &mut Problems,
) -> Option<Crossing> {
    let corner = &sound.corners[ix.0];
    let place = format!("corners[{}]", corner.index);
    let lines = corner.lines.map(|line| &sound.lines[line.0]);
    let [Some(first), Some(second)] = corner.lines.map(|line| rays[line.0]) else {
        problems.warning(
            place,
            format!("Corner “{}” waits for its lines.", corner.id),
            "Settle the marks of both lines first.",
        );
        return None;
    };
    let Some((at, signed)) = cross(sound, lines, &|ix| plane.sketch(ix)) else {
        problems.error(
            format!("{place}.lines"),
            format!(
                "Lines “{}” and “{}” are parallel; they never cross.",
                lines[0].id, lines[1].id
            ),
            "Name two lines that cross, or check the tapes that settle them.",
        );
        return None;
    };
    let marks: Vec<_> = lines
        .iter()
        .flat_map(|line| line_marks(sound, line))
        .collect();
    let covariance = plane.covariance(&marks, |place| {
        let (at, turn) = cross(sound, lines, place)?;
        // The turn may pass from −180 to 180 while the marks are moved a little.
        let turn = signed + (turn - signed + 540.0).rem_euclid(360.0) - 180.0;
        Some([at.x, at.y, turn])
    })?;
    let turn = signed.abs();
    let mut fix = CornerFix {
        x: at.x,
        y: at.y,
        pm: PM * larger_eigenvalue(covariance[0][0], covariance[0][1], covariance[1][1]).sqrt(),
        angle: 180.0 - turn,
        angle_pm: PM * covariance[2][2].max(0.0).sqrt(),
        turn,
        bevel: turn / 2.0,
        check: Vec::new(),
        post: corner_post(sound, ix, [first, second], at),
    };
    fix.check = ARMS
        .iter()
        .map(|&arm| diagonal_at(&sound.tape, &fix, arm))
        .collect();
    Some(Crossing { at, fix })
}

/// What the tape across must read with both arms `arm` long, and its ±, mm: the corner's own and
/// that of one tape.
///
/// d = 2 a sin(angle/2), the law of cosines with equal arms.
#[must_use]
pub fn diagonal_at(tape: &Tape, corner: &CornerFix, arm: f64) -> Diagonal {
    let half = (corner.angle / 2.0).to_radians();
    let diagonal = 2.0 * arm * half.sin();
    let turned = arm * half.cos() * corner.angle_pm.to_radians();
    let taped = PM * tape.class.sd(tape.reading, diagonal);
    Diagonal {
        arm,
        diagonal,
        pm: turned.hypot(taped),
    }
}

/// Keeps the diagonals whose arms fit on the runs; on short runs, the longest whole 100 mm that do.
pub fn fit_arms(sound: &Sound, corner: &mut CornerFix, shortest_run: Option<f64>) {
    let Some(shortest) = shortest_run else { return };
    corner.check.retain(|check| check.arm <= shortest);
    let arm = (shortest / 100.0).floor() * 100.0;
    if corner.check.is_empty() && arm > 0.0 {
        let only = diagonal_at(&sound.tape, corner, arm);
        corner.check.push(only);
    }
}

/// The first run on a line that starts or ends at a corner.
#[must_use]
pub fn run_at(sound: &Sound, corner: CornerIx, line: LineIx) -> Option<&SoundRun> {
    let here = RunStart::Corner(corner);
    sound
        .runs
        .iter()
        .find(|run| run.line == line && (run.start == here || run.end == RunEnd::At(here)))
}

/// The corner post: turned to the first line, to the second or to the bisector, and pushed into the
/// corner until it is just the runs' gaps inside both strings.
///
/// With inward unit normals n₁, n₂ and half widths h(n) = (width/2)|n·u| + (depth/2)|n·v| it solves
/// nᵢ·(c − X) = gapᵢ + h(nᵢ). `None` where no run meets the corner: there is no inside then.
fn corner_post(
    sound: &Sound,
    ix: CornerIx,
    rays: [Ray; 2],
    at: Vector2<f64>,
) -> Option<CornerPostFix> {
    let corner = &sound.corners[ix.0];
    let runs = corner.lines.map(|line| run_at(sound, ix, line));
    // A line without a run yet stands on the same side as the run that is there.
    let known = runs[0].or(runs[1])?;
    let faces = runs.map(|run| run.unwrap_or(known));
    let [width, depth] = post_size(corner, known);
    let turn = rays[0].turn_onto(&rays[1]);
    let rotation = match corner.set() {
        PostSet::First => rays[0].bearing(),
        PostSet::Second => rays[1].bearing(),
        PostSet::Bisect => rays[0].bearing() + turn / 2.0,
    };
    let (sin, cos) = rotation.to_radians().sin_cos();
    let (u, v) = (Vector2::new(cos, sin), Vector2::new(-sin, cos));
    let normals = [0, 1].map(|i| rays[i].left() * faces[i].side.sign());
    let wanted = [0, 1].map(|i| {
        let n: Vector2<f64> = normals[i];
        faces[i].gap + width / 2.0 * n.dot(&u).abs() + depth / 2.0 * n.dot(&v).abs()
    });
    let rows = Matrix2::new(normals[0].x, normals[0].y, normals[1].x, normals[1].y);
    let push = rows.try_inverse()? * Vector2::new(wanted[0], wanted[1]);
    let centre = at + push;
    let rotation = (rotation + 180.0).rem_euclid(360.0) - 180.0;
    Some(CornerPostFix {
        x: centre.x,
        y: centre.y,
        rotation,
        width,
        depth,
    })
}

fn post_size(corner: &SoundCorner, run: &SoundRun) -> [f64; 2] {
    match &corner.post {
        Some(post) => [post.width, post.depth],
        None => [run.width, run.depth],
    }
}
