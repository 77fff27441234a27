//! Is the post where it should be, and if not, which way must it move?
//!
//! ```text
//!   zero ──────────────── planned ──┤ along ├── as built
//!                            │                     ▲
//!                            └─────────────────────┘ across: away from the string
//! ```

use super::called::{capital, post_called};
use super::fixes::{Post, RunFix};
use crate::job::model::{Marked, Pin, Tolerance};
use crate::job::{ByName, Job, Problems, RunId, Where};
use serde::Serialize;

/// A post as built against its place, mm.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct AsBuilt {
    /// Post number in its run, from 1.
    pub post: usize,
    /// Built less planned running reading of the centre; `None` where it was not measured.
    pub along: Option<f64>,
    /// Built less planned distance of the centre behind the string.
    pub across: Option<f64>,
    /// What to do about it.
    pub verdict: BuiltVerdict,
}

/// Whether a post may stay where it is.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "lowercase")]
pub enum BuiltVerdict {
    /// Nothing was measured.
    Unmeasured,
    /// Within the tolerance both ways.
    Within,
    /// Out of tolerance.
    Out,
}

/// Names the posts that are marked out and that their run no longer has: their pegs still stand.
pub(crate) fn name_gone(job: &Job, runs: &ByName<RunId, RunFix>, problems: &mut Problems) {
    for (i, marked) in job.marked.iter().enumerate() {
        let Some(run) = runs.get(&marked.run) else {
            continue;
        };
        if post(run, marked.post).is_none() {
            let named = job.runs.iter().find(|one| one.id == marked.run);
            let called = named.map_or(marked.run.as_str(), |run| run.called());
            problems.warning(
                Where::from(format!("marked[{i}].post")).of_post(&marked.run, marked.post as usize),
                format!(
                    "{} is marked out, but the run has {} posts now.",
                    capital(&post_called(called, marked.post as usize)),
                    run.posts.len()
                ),
                "Pull its peg out, or set the run’s bays as they were.",
            );
        }
    }
}

/// Compares a post as built with its place; `None` where the run has no such post.
///
/// ```
/// use tautmark::job::model::{Marked, Tolerance};
/// use tautmark::setout::{BuiltVerdict, as_built};
///
/// let job = tautmark::job::example();
/// let run = &tautmark::solve(&job).runs["R1"];
/// let marked = Marked { post: 4, done: true, measured: Some(3648.0), ..Marked::default() };
/// let built = as_built(run, &marked, &Tolerance::default()).expect("post 4 is there");
/// assert_eq!(built.verdict, BuiltVerdict::Out);
/// assert!((built.along.expect("measured") - 8.24).abs() < 0.01);
/// ```
#[must_use]
pub fn as_built(run: &RunFix, marked: &Marked, tolerance: &Tolerance) -> Option<AsBuilt> {
    let post = post(run, marked.post)?;
    let along = marked.measured.map(|measured| measured - post.centre);
    let across = marked.off.map(|off| off - post.off);
    let worst = along
        .into_iter()
        .chain(across)
        .map(f64::abs)
        .reduce(f64::max);
    let verdict = match worst {
        None => BuiltVerdict::Unmeasured,
        Some(by) if by <= tolerance.length => BuiltVerdict::Within,
        Some(_) => BuiltVerdict::Out,
    };
    Some(AsBuilt {
        post: post.n,
        along,
        across,
        verdict,
    })
}

/// Pins that hold every measured line post of a run where it stands, so that the bays still to come
/// are spaced from there; pins that the run has already stay.
#[must_use]
pub fn pins_as_built(run: &RunFix, pins: &[Pin], marked: &[&Marked]) -> Vec<Pin> {
    let standing: Vec<(&Post, f64)> = marked
        .iter()
        .filter_map(|one| Some((post(run, one.post)?, one.measured?)))
        .filter(|(post, _)| post.kind == super::PostKind::Line)
        .collect();
    let moved = |pin: &&Pin| {
        let at = pin.at.unwrap_or(f64::NAN);
        !standing
            .iter()
            .any(|(post, _)| (post.centre - at).abs() <= super::bench::SAME)
    };
    let mut kept: Vec<Pin> = pins.iter().filter(moved).cloned().collect();
    kept.extend(standing.iter().map(|&(_, measured)| Pin {
        at: Some(measured),
        stands: true,
        ..Pin::default()
    }));
    kept.sort_by(|a, b| a.at.partial_cmp(&b.at).unwrap_or(std::cmp::Ordering::Equal));
    kept
}

fn post(run: &RunFix, number: u32) -> Option<&Post> {
    run.post(number as usize)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::{job, solve};

    fn marked(post: u32, measured: f64, off: Option<f64>) -> Marked {
        Marked {
            run: "R2".into(),
            post,
            done: true,
            measured: Some(measured),
            off,
            ..Marked::default()
        }
    }

    #[test]
    fn a_post_is_judged_along_and_across() {
        let solution = solve(&job::example());
        let run = &solution.runs["R2"];
        let tolerance = Tolerance::default();
        let judge = |one| as_built(run, &one, &tolerance).expect("the post is there");
        assert_eq!(judge(marked(2, 1494.0, None)).verdict, BuiltVerdict::Within);
        let across = judge(marked(2, 1491.0, Some(133.0)));
        assert_eq!(
            (across.verdict, across.across),
            (BuiltVerdict::Out, Some(8.0))
        );
        assert_eq!(as_built(run, &marked(9, 1.0, None), &tolerance), None);
        assert_eq!(as_built(run, &marked(0, 1.0, None), &tolerance), None);
    }

    #[test]
    fn bays_still_to_come_are_spaced_from_the_post_that_stands() {
        let mut job = job::example();
        let before = solve(&job);
        let built = marked(2, 1520.0, None);
        job.runs[1].pins = pins_as_built(&before.runs["R2"], &[], &[&built]);
        let after = solve(&job);
        let centres: Vec<f64> = after.runs["R2"]
            .posts
            .iter()
            .map(|post| post.centre)
            .collect();
        assert_eq!(centres.len(), 4);
        assert!((centres[1] - 1520.0).abs() < 1e-9);
        assert!((centres[2] - f64::midpoint(1520.0, centres[3])).abs() < 1e-9);
        // Pinning again does not pile pins up.
        let again = pins_as_built(&after.runs["R2"], &job.runs[1].pins, &[&built]);
        assert_eq!(again, job.runs[1].pins);
    }

    #[test]
    fn a_standing_post_a_little_far_asks_for_no_extra_post() {
        let mut job = job::example();
        job.runs[1].bays.as_mut().expect("bays").max = 1380.0;
        let before = solve(&job);
        let third = before.runs["R2"].posts[2].centre;
        let built = marked(3, third - 3.0, None);
        job.runs[1].pins = pins_as_built(&before.runs["R2"], &[], &[&built]);
        assert_eq!(
            solve(&job).runs["R2"].posts.len(),
            before.runs["R2"].posts.len()
        );
    }
}
