//! Corner posts that two runs share: one piece of timber, marked and cut once, with the first of
//! the two runs.

use super::{PostHeights, RunBoards};
use crate::job::{ByName, RunId};

/// A shared corner post as the other run has it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct SharedPost<'a> {
    /// The other run.
    pub run: &'a RunId,
    /// The post as it stands in that run.
    pub post: &'a PostHeights,
    /// Whether that run comes first, so that the post is marked and cut with it.
    pub is_first: bool,
}

/// The other run's view of a post; `None` where the post is this run's alone.
///
/// ```
/// use tautmark::boards::shared_post;
///
/// let solution = tautmark::solve(&tautmark::job::example());
/// let corner = shared_post(&solution.boards, &"R2".into(), 1).expect("the corner post");
/// assert_eq!((corner.run.as_str(), corner.post.n, corner.is_first), ("R1", 5, true));
/// assert!(shared_post(&solution.boards, &"R2".into(), 2).is_none());
/// ```
#[must_use]
pub fn shared_post<'a>(
    boards: &'a ByName<RunId, RunBoards>,
    run: &RunId,
    n: usize,
) -> Option<SharedPost<'a>> {
    let own = boards.get(run)?.posts.iter().find(|post| post.n == n)?;
    let (other, theirs) = boards.get_key_value(own.shared.as_ref()?)?;
    let ends = [theirs.posts.first(), theirs.posts.last()];
    let post = ends
        .into_iter()
        .flatten()
        .find(|post| post.shared.as_ref() == Some(run))?;
    let is_first = boards.keys().find(|id| *id == run || *id == other) == Some(other);
    Some(SharedPost {
        run: other,
        post,
        is_first,
    })
}

/// What a post is cut to, mm: a shared one to the longer of what its two runs ask.
#[must_use]
pub fn cut_length(boards: &ByName<RunId, RunBoards>, run: &RunId, n: usize) -> Option<f64> {
    let own = boards
        .get(run)?
        .posts
        .iter()
        .find(|post| post.n == n)?
        .length;
    let other = shared_post(boards, run, n).and_then(|shared| shared.post.length);
    [own, other].into_iter().flatten().reduce(f64::max)
}

/// The posts of a run that are marked and cut together, group by group, without those that an
/// earlier run has.
#[must_use]
pub fn cut_together<'a>(
    boards: &'a ByName<RunId, RunBoards>,
    run: &RunId,
) -> Vec<Vec<&'a PostHeights>> {
    let Some(own) = boards.get(run) else {
        return Vec::new();
    };
    let here = |n: &usize| !shared_post(boards, run, *n).is_some_and(|shared| shared.is_first);
    let posts = |group: &Vec<usize>| -> Vec<&'a PostHeights> {
        let numbers = group.iter().filter(|n| here(n));
        numbers
            .filter_map(|n| own.posts.iter().find(|post| post.n == *n))
            .collect()
    };
    let groups = own.alike.iter().map(posts);
    groups.filter(|group| !group.is_empty()).collect()
}
