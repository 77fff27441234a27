//! The bays still to come, spaced from the posts that stand already.

use super::{Post, PostKind, RunFix, pins_as_built};
use crate::job::Job;
use crate::job::edit::{Change, Edit, apply};
use crate::job::model::{Marked, Run};

/// A post nearer to its place than this is on it, mm: no tape tells them apart.
const ON_ITS_PLACE: f64 = 1.0;

/// What is known of a post as built; `None` where nothing is.
fn marked<'a>(job: &'a Job, run: &Run, n: usize) -> Option<&'a Marked> {
    job.marked
        .iter()
        .find(|one| one.run == run.id && usize::try_from(one.post).is_ok_and(|post| post == n))
}

/// True where a line post stands off its place and there are bays still to come.
#[must_use]
pub fn can_respace(job: &Job, run: &Run, fix: &RunFix) -> bool {
    let open = |n: usize| !marked(job, run, n).is_some_and(|one| one.done);
    let off = |post: &Post| {
        let measured = marked(job, run, post.n).and_then(|one| one.measured);
        post.kind == PostKind::Line
            && measured.is_some_and(|at| (at - post.centre).abs() > ON_ITS_PLACE)
    };
    fix.posts.iter().any(off) && fix.posts.iter().any(|post| open(post.n))
}

/// The change that holds every post that stands where it is, so that the bays still to come are
/// spaced from there. A post ticked and not measured stands on its place. Where the posts come out
/// in another number, what is known of each goes with it. `spaced` sets the run of this place in the
/// file out again.
#[must_use]
pub fn respacing(
    job: &Job,
    at: usize,
    fix: &RunFix,
    spaced: impl FnOnce(&Job) -> Option<RunFix>,
) -> Option<Edit> {
    let run = job.runs.get(at)?;
    let there: Vec<Marked> = job
        .marked
        .iter()
        .filter(|one| one.run == run.id && (one.done || one.measured.is_some()))
        .filter_map(|one| {
            let measured = one.measured.or(Some(planned(fix, one)?));
            Some(Marked {
                measured,
                ..one.clone()
            })
        })
        .collect();
    let standing: Vec<&Marked> = there.iter().collect();
    let value = Run {
        pins: pins_as_built(fix, &run.pins, &standing),
        ..run.clone()
    };
    let pinned = Edit::Run(Change::Replace { at, value });
    let mut after = job.clone();
    apply(&mut after, &pinned).ok()?;
    let spaced = spaced(&after)?;
    let mut edits = vec![pinned];
    if spaced.posts.len() != fix.posts.len() {
        edits.extend(renumbered(job, run, fix, &spaced));
    }
    Some(Edit::Many(edits))
}

fn planned(fix: &RunFix, one: &Marked) -> Option<f64> {
    let n = usize::try_from(one.post).ok()?;
    fix.post(n).map(|post| post.centre)
}

/// What is known of each post of a run, put to the post that stands there after a change.
fn renumbered(job: &Job, run: &Run, before: &RunFix, after: &RunFix) -> Vec<Edit> {
    let known = job.marked.iter().enumerate();
    known
        .filter(|(_, one)| one.run == run.id)
        .filter_map(|(at, one)| {
            let stood = one.measured.or(planned(before, one))?;
            let nearest = after.posts.iter().min_by(|a, b| {
                let far = |post: &Post| (post.centre - stood).abs();
                far(a).total_cmp(&far(b))
            })?;
            let post = u32::try_from(nearest.n).ok()?;
            let value = Marked {
                post,
                ..one.clone()
            };
            Some(Edit::Marked(Change::Replace { at, value }))
        })
        .collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::job::example;
    use crate::solve;

    fn stands(post: u32, measured: Option<f64>) -> Marked {
        Marked {
            run: "R2".into(),
            post,
            done: true,
            measured,
            ..Marked::default()
        }
    }

    fn respaced(job: &Job) -> Job {
        let fix = &solve(job).runs["R2"];
        let mut after = job.clone();
        let edit = respacing(job, 1, fix, |job| solve(job).runs.get("R2").cloned())
            .expect("the run is settled");
        apply(&mut after, &edit).expect("the change can be made");
        after
    }

    #[test]
    fn a_tick_goes_with_its_post_where_one_more_is_needed() {
        let mut job = example();
        job.runs[1].bays.as_mut().expect("bays").max = 1500.0;
        let before = solve(&job).runs["R2"].clone();
        let measured = before.posts[1].centre + 300.0;
        job.marked = vec![stands(1, None), stands(2, Some(measured))];
        assert!(can_respace(&job, &job.runs[1], &before));
        let after = respaced(&job);
        let fix = &solve(&after).runs["R2"];
        assert!(fix.posts.len() > before.posts.len());
        let numbers: Vec<u32> = after.marked.iter().map(|one| one.post).collect();
        assert_eq!(numbers, [1, 3]);
        assert!((fix.posts[2].centre - measured).abs() < 1e-9);
        assert!(!can_respace(&after, &after.runs[1], fix));
    }

    #[test]
    fn a_post_that_is_ticked_and_not_measured_stays_where_it_was_marked() {
        let mut job = example();
        let before = solve(&job).runs["R2"].clone();
        let measured = before.posts[1].centre + 30.0;
        job.marked = vec![stands(3, None), stands(2, Some(measured))];
        let after = respaced(&job);
        let centre = solve(&after).runs["R2"].posts[2].centre;
        assert!((centre - before.posts[2].centre).abs() < 1e-9);
    }
}
