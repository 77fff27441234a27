//! The post whose heights are marked, and the set-up that they are measured from.

use crate::app::desk::Desk;
use crate::app::names::marked;
use crate::boards::PostHeights;
use crate::job::model::Run;
use crate::job::{RunId, SetupId};
use crate::levels::SetupFix;

/// Something on it can be marked.
fn is_known(post: &PostHeights) -> bool {
    post.top.is_some() || post.before.is_some() || post.after.is_some()
}

/// The posts of a run that something can be marked on.
pub fn posts<'a>(desk: &'a Desk, run: &RunId) -> impl Iterator<Item = &'a PostHeights> + Clone {
    let boards = desk.solution.boards.get(run);
    let posts = boards.map_or(&[][..], |boards| boards.posts.as_slice());
    posts.iter().filter(|post| is_known(post))
}

/// The post's heights are on it.
pub fn is_marked(desk: &Desk, run: &Run, n: usize) -> bool {
    marked(desk.job(), run, n).is_some_and(|one| one.heights)
}

/// The set-up whose line is measured from, where its height is known.
pub fn setup_in_sight(desk: &Desk) -> Option<(&SetupId, &SetupFix)> {
    let id = &desk.job().levels.setups.get(desk.chosen.setup)?.id;
    let fix = desk.solution.levels.as_ref()?.setups.get(id)?;
    Some((id, fix))
}

/// The run and the post in sight, where anything can be marked on it.
pub fn in_sight(desk: &Desk) -> Option<(&Run, &PostHeights)> {
    let run = desk.job().runs.get(desk.chosen.run)?;
    let post = posts(desk, &run.id).find(|post| post.n == desk.chosen.post)?;
    Some((run, post))
}
