//! Housings for the rails on two sides of a post that meet inside it.
//!
//! ```text
//!          ┌───────────┐
//!   rail ━━━━━━▒▒▒▒▒━━━━━━━ rail     seen from above: nothing is left between the two
//!          └───────────┘
//! ```

use super::RunBoards;
use super::laid::{LaidRun, Tip};
use super::pieces::Sits;
use super::rails::sits;
use crate::job::model::{Joint, Rails};
use crate::job::sound::Sound;
use crate::job::{Problems, Where};
use crate::setout::{Post, posts_called};
use geo::{Intersects, Polygon};

/// Housings nearer to each other than this have nothing between them, mm.
const BETWEEN: f64 = 1.0;

/// Names the posts in which the housings of two sides meet at one height.
pub(super) fn name_met(
    sound: &Sound,
    laid: &[LaidRun],
    built: &[RunBoards],
    problems: &mut Problems,
) {
    let rails = sound.boards.rails.as_ref();
    let Some(rails) = rails.filter(|rails| rails.joint == Joint::Side) else {
        return;
    };
    let mut place = Where::from("boards.rails.notch");
    let mut met = Vec::new();
    for (run, boards) in laid.iter().zip(built) {
        for (post, heights) in run.fix.posts.iter().zip(&boards.posts) {
            let Some([before, after]) = sides(run, post, laid) else {
                continue;
            };
            let (Some(lower), Some(upper)) = (&heights.before, &heights.after) else {
                continue;
            };
            let depths = |at: usize| sound.boards.notch(at + 1, post.foot);
            let meet = lower.rails.iter().enumerate().any(|(i, here)| {
                upper.rails.iter().enumerate().any(|(j, there)| {
                    (here - there).abs() < rails.height
                        && before
                            .cut(rails, depths(i))
                            .intersects(&after.cut(rails, depths(j)))
                })
            });
            if meet {
                met.push((run.run.called(), post.n));
                place = place.of_post(&run.run.id, post.n);
            }
        }
    }
    if !met.is_empty() {
        problems.warning(
            place,
            format!(
                "In {} the rails’ housings from two sides meet: nothing is left between them.",
                posts_called(&met)
            ),
            "Cut shallower notches, take wider posts, or set the rails of one side higher.",
        );
    }
}

/// One side of a post that rails come to, as a run has it.
struct Side<'a> {
    run: &'a LaidRun<'a>,
    post: &'a Post,
    /// The rails come from the run's start.
    before: bool,
}

/// What comes to a post from before and from after; a corner post that two runs share is told with
/// the earlier of them, and `None` stands for it in the other.
fn sides<'a>(
    run: &'a LaidRun<'a>,
    post: &'a Post,
    laid: &'a [LaidRun<'a>],
) -> Option<[Side<'a>; 2]> {
    let own = |before| Side { run, post, before };
    for (tip, at) in [
        (Tip::Start, run.fix.posts.first()),
        (Tip::End, run.fix.posts.last()),
    ] {
        if at.is_none_or(|at| at.n != post.n) {
            continue;
        }
        let partner = run.partner(tip, laid)?;
        if partner.run.run.index < run.run.index {
            return None;
        }
        let other = Side {
            run: partner.run,
            post: partner.post()?,
            before: partner.tip == Tip::End,
        };
        return Some(match tip {
            Tip::Start => [other, own(false)],
            Tip::End => [own(true), other],
        });
    }
    Some([own(true), own(false)])
}

impl Side<'_> {
    /// The housing of a rail seen from above, on the ground plan, mm.
    fn cut(&self, rails: &Rails, depth: f64) -> Polygon<f64> {
        let outline = self.run.outline(self.post);
        let Sits { front, back, .. } = sits(rails, self.run);
        let depth = depth + BETWEEN / 2.0;
        let (edge, inwards) = if self.before { (0, depth) } else { (1, -depth) };
        let face = |y: f64| outline.span(y)[edge];
        let ring = [
            (face(front), front),
            (face(front) + inwards, front),
            (face(back) + inwards, back),
            (face(back), back),
        ];
        let (sin, cos) = self.run.fix.bearing.to_radians().sin_cos();
        let [x, y] = self.run.fix.zero;
        let on_plan = ring.map(|(along, behind)| {
            let left = self.run.side * behind;
            (x + along * cos - left * sin, y + along * sin + left * cos)
        });
        Polygon::new(on_plan.to_vec().into(), Vec::new())
    }
}
