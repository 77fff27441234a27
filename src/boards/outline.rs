//! A post's section on the ground, as a piece meets it at its depth behind the string.
//!
//! ```text
//!   string ───────────────────────────── y = 0
//!                 ◇ front corner
//!       y ───────╱─╲─────────            span at y: where the outline begins and ends along
//!               ╱   ╲                    the run, turned posts too
//!               ╲   ╱
//! ```

use crate::setout::Post;

/// The outline of a post: its four corners in turn, (running reading, depth behind the string), mm.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Outline {
    corners: [[f64; 2]; 4],
}

impl Outline {
    /// Of a post on a run that goes along `bearing` (degrees), its posts left (`side` +1) or right
    /// (−1) of it.
    pub fn of(post: &Post, bearing: f64, side: f64) -> Self {
        let (sin, cos) = (side * (post.rotation - bearing)).to_radians().sin_cos();
        let [half_width, half_depth] = post.size.map(|size| size / 2.0);
        let corner = |a: f64, b: f64| {
            let (a, b) = (a * half_width, b * half_depth);
            [
                post.centre + a * cos - b * sin,
                post.off + a * sin + b * cos,
            ]
        };
        Self {
            corners: [
                corner(-1.0, -1.0),
                corner(1.0, -1.0),
                corner(1.0, 1.0),
                corner(-1.0, 1.0),
            ],
        }
    }

    /// Depths of its corners, mm.
    pub fn depths(&self) -> [f64; 4] {
        self.corners.map(|[_, y]| y)
    }

    /// Running readings at which it begins and ends at a depth, mm; in front of it or behind it
    /// those of its nearest corner.
    pub fn span(&self, depth: f64) -> [f64; 2] {
        let depths = self.depths();
        let front = depths.into_iter().fold(f64::INFINITY, f64::min);
        let back = depths.into_iter().fold(f64::NEG_INFINITY, f64::max);
        let y = depth.clamp(front, back);
        let mut span = [f64::INFINITY, f64::NEG_INFINITY];
        for (i, &from) in self.corners.iter().enumerate() {
            let to = self.corners[(i + 1) % 4];
            let [low, high] = if from[1] <= to[1] {
                [from, to]
            } else {
                [to, from]
            };
            // A hair's width, so that a corner is met where rounding leaves it just beside.
            if y < low[1] - 1e-9 || y > high[1] + 1e-9 {
                continue;
            }
            let rise = high[1] - low[1];
            let at = |share: f64| low[0] + share * (high[0] - low[0]);
            let met = if rise < 1e-9 {
                [low[0], high[0]]
            } else {
                [at(((y - low[1]) / rise).clamp(0.0, 1.0)); 2]
            };
            for s in met {
                span = [span[0].min(s), span[1].max(s)];
            }
        }
        span
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::setout::PostKind;

    fn post(rotation: f64) -> Post {
        Post {
            rotation,
            ..Post::square(PostKind::Corner, 1000.0, 145.0, [100.0, 100.0])
        }
    }

    #[test]
    fn a_square_post_is_as_wide_at_every_depth() {
        let outline = Outline::of(&post(0.0), 0.0, 1.0);
        for depth in [95.0, 145.0, 195.0, 0.0] {
            assert_eq!(outline.span(depth), [950.0, 1050.0], "{depth}");
        }
    }

    #[test]
    fn a_diamond_is_widest_in_the_middle() {
        let outline = Outline::of(&post(45.0), 0.0, 1.0);
        let half = 50.0 * 2.0_f64.sqrt();
        let near = |found: [f64; 2], wanted: [f64; 2]| {
            (found[0] - wanted[0]).abs() < 1e-9 && (found[1] - wanted[1]).abs() < 1e-9
        };
        assert!(near(outline.span(145.0), [1000.0 - half, 1000.0 + half]));
        assert!(near(outline.span(145.0 - half + 10.0), [990.0, 1010.0]));
        assert!(near(outline.span(0.0), [1000.0, 1000.0]));
    }

    #[test]
    fn a_turn_is_seen_from_the_side_of_the_posts() {
        // 30° to the left: on the left side the front corner comes towards the end of the run.
        let left = Outline::of(&post(30.0), 0.0, 1.0).corners[1];
        let right = Outline::of(&post(-30.0), 0.0, -1.0).corners[1];
        assert_eq!(left, right);
    }
}
