//! Corners: where two lines cross, at what angle, how sure, and the post that stands there.

use super::fixes::{CornerFix, CornerPostFix};
use super::line::line_ray;
use super::network::{PM, Plane, larger_eigenvalue};
use super::propagate::covariance;
use super::ray::Ray;
use super::stakes::Stakes;
use crate::job::Problems;
use crate::job::model::PostSet;
use crate::job::sound::{CornerIx, LineIx, RunEnd, RunStart, Sound, SoundCorner, SoundRun};
use nalgebra::{Matrix2, Vector2};

/// A corner whose lines are known.
#[derive(Clone, Debug)]
pub struct CrossedLines {
    /// Where the strings cross, mm in the marks' frame.
    pub at: Vector2<f64>,
    /// Its angle, its checks and its post.
    pub fix: CornerFix,
}

/// Where two lines cross and the turn from one onto the other (degrees, left positive), from
/// marks and nails where `stakes` has them.
fn cross(sound: &Sound, lines: [LineIx; 2], stakes: &Stakes<'_>) -> Option<(Vector2<f64>, f64)> {
    let first = line_ray(sound, lines[0], stakes)?;
    let second = line_ray(sound, lines[1], stakes)?;
    Some((first.crossing(&second)?, first.turn_onto(&second)))
}

/// A corner, without its diagonals, which wait for the runs; `None` while one of its lines is not there yet, or where
/// the lines are parallel.
pub(super) fn solve_corner(
    sound: &Sound,
    ix: CornerIx,
    rays: &[Option<Ray>],
    plane: &Plane,
    problems: &mut Problems,
) -> Option<CrossedLines> {
    let corner = &sound.corners[ix.0];
    let place = format!("corners[{}]", corner.index);
    let [Some(first), Some(second)] = corner.lines.map(|line| rays[line.0]) else {
        problems.warning(
            place,
            format!("Corner “{}” waits for its strings.", corner.id),
            "Settle the marks of both strings first.",
        );
        return None;
    };
    let Some((at, signed)) = cross(sound, corner.lines, &Stakes::at(&|ix| plane.sketch(ix))) else {
        let [first, second] = corner.lines.map(|line| &sound.lines[line.0].id);
        problems.error(
            format!("{place}.lines"),
            format!("Strings “{first}” and “{second}” are parallel; they never cross."),
            "Name two strings that cross, or check the tapes that settle them.",
        );
        return None;
    };
    let covariance = covariance(sound, plane, &corner.lines, &[], |stakes| {
        let (at, turn) = cross(sound, corner.lines, stakes)?;
        // The turn may pass from −180 to 180 while the marks are moved a little.
        let turn = signed + (turn - signed + 540.0).rem_euclid(360.0) - 180.0;
        Some([at.x, at.y, turn])
    })?;
    let turn = signed.abs();
    let fix = CornerFix {
        x: at.x,
        y: at.y,
        pm: PM * larger_eigenvalue(covariance[0][0], covariance[0][1], covariance[1][1]).sqrt(),
        angle: 180.0 - turn,
        angle_pm: PM * covariance[2][2].max(0.0).sqrt(),
        turn,
        bevel: turn / 2.0,
        check: Vec::new(),
        checks: Vec::new(),
        post: corner_post(sound, ix, [first, second], at),
    };
    Some(CrossedLines { at, fix })
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
