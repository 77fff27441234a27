//! Does a wall stand between two marks, so that no tape goes from one to the other?

use crate::adjust::At;
use crate::job::sound::{MarkIx, Sound};

/// A tape passes this share of itself, or of the wall, from an end.
const INSIDE: f64 = 0.02;

/// Whether a wall that neither mark is on stands between them; `x` are the marks' coordinates as adjusted, mm.
pub(super) fn is_hidden(sound: &Sound, x: &[f64], marks: [MarkIx; 2]) -> bool {
    let at = |ix: MarkIx| {
        let mark = At::nth(ix.0);
        [x[mark.x.0], x[mark.y.0]]
    };
    let walls = sound.walls.iter().map(|wall| [wall.from, wall.to]);
    walls
        .filter(|ends| !ends.iter().any(|end| marks.contains(end)))
        .any(|ends| crosses(marks.map(at), ends.map(at)))
}

/// Whether two lengths cross, each well inside its own ends.
fn crosses([a, b]: [[f64; 2]; 2], [c, d]: [[f64; 2]; 2]) -> bool {
    let (u, v) = ([b[0] - a[0], b[1] - a[1]], [d[0] - c[0], d[1] - c[1]]);
    let across = u[0] * v[1] - u[1] * v[0];
    if across.abs() < 1e-9 {
        return false;
    }
    let w = [c[0] - a[0], c[1] - a[1]];
    let along = (w[0] * v[1] - w[1] * v[0]) / across;
    let wall = (w[0] * u[1] - w[1] * u[0]) / across;
    let inside = INSIDE..1.0 - INSIDE;
    inside.contains(&along) && inside.contains(&wall)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_wall_hides_what_lies_behind_it_and_not_what_lies_beside_it() {
        let wall = [[0.0, 0.0], [4000.0, 0.0]];
        assert!(crosses([[1000.0, -2000.0], [3000.0, 2000.0]], wall));
        assert!(
            !crosses([[5000.0, -2000.0], [5000.0, 2000.0]], wall),
            "past its end"
        );
        assert!(
            !crosses([[1000.0, 500.0], [3000.0, 2000.0]], wall),
            "before it"
        );
        assert!(!crosses([[0.0, 100.0], [4000.0, 100.0]], wall), "along it");
    }
}
