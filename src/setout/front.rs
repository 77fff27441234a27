//! Where does a post come nearest to its string? A turned corner post has no near face that a tape
//! could be held to: its front corner is what can be taped.

use super::fixes::{Post, RunFix};

/// Corners as near to the string as this are both its front, mm.
const LEVEL: f64 = 0.5;

/// The corner of a post's outline nearest to its string: its running reading, and how far it is
/// behind the string, mm. Of two as near, the one nearer the run's zero.
///
/// ```
/// use tautmark::setout::front_corner;
///
/// let solution = tautmark::solve(&tautmark::job::example());
/// let run = &solution.runs["R1"];
/// // A post square to the string has its front at its near face, the gap behind the string.
/// let [at, behind] = front_corner(run, &run.posts[1]);
/// assert!((at - run.posts[1].near).abs() < 1e-6 && (behind - 75.0).abs() < 1e-6);
/// ```
#[must_use]
pub fn front_corner(run: &RunFix, post: &Post) -> [f64; 2] {
    let (sin, cos) = run.bearing.to_radians().sin_cos();
    let in_run = |x: f64, y: f64| {
        let (x, y) = (x - run.zero[0], y - run.zero[1]);
        [x * cos + y * sin, y * cos - x * sin]
    };
    let centre = in_run(post.x, post.y);
    // The posts' side of the string, as the run goes.
    let side = if post.off.abs() > 1e-6 {
        (centre[1] * post.off).signum()
    } else {
        1.0
    };
    let (turn_sin, turn_cos) = post.rotation.to_radians().sin_cos();
    let corners = [(-0.5, -0.5), (0.5, -0.5), (0.5, 0.5), (-0.5, 0.5)].map(|(a, b)| {
        let (a, b) = (a * post.size[0], b * post.size[1]);
        let [at, left] = in_run(
            post.x + a * turn_cos - b * turn_sin,
            post.y + a * turn_sin + b * turn_cos,
        );
        [at, left * side]
    });
    let nearest = corners
        .iter()
        .map(|one| one[1])
        .fold(f64::INFINITY, f64::min);
    let front = corners.into_iter().filter(|one| one[1] < nearest + LEVEL);
    front
        .min_by(|a, b| a[0].total_cmp(&b[0]))
        .unwrap_or([post.near, nearest])
}
