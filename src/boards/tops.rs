//! How high do the posts stand?

use super::bays::Bay;
use super::laid::LaidRun;
use crate::job::Problems;
use crate::job::model::Boards;
use crate::job::sound::Sound;

/// How far a post stands above the top of the gravel board: as high as the pales; without pales
/// up to the top of the highest rail.
fn over_gravel(boards: &Boards) -> Option<f64> {
    let pales = boards.pales.as_ref().map(|pales| pales.height);
    let rails = || {
        let rails = boards.rails.as_ref()?;
        let highest = if rails.count > 1 {
            rails.high
        } else {
            rails.low
        };
        Some(highest + rails.height / 2.0)
    };
    pales.or_else(rails)
}

/// So far above the higher adjoining gravel board; a post between two gates takes the higher of
/// the nearest bays of its run.
pub(super) fn top(
    n: usize,
    [before, after]: [Option<&Bay>; 2],
    run: &LaidRun,
    boards: &Boards,
) -> Option<f64> {
    let height = over_gravel(boards)?;
    let higher = |a: Option<&Bay>, b: Option<&Bay>| {
        let tops = [a, b].into_iter().flatten();
        tops.filter_map(|bay| Some(bay.board?.top)).reduce(f64::max)
    };
    let beside = higher(before, after);
    let nearest = || {
        let is_bare = before.is_none() && after.is_none();
        let before = run.bays.iter().rfind(|bay| bay.to <= n);
        let after = run.bays.iter().find(|bay| bay.from >= n);
        is_bare.then(|| higher(before, after))?
    };
    Some(beside.or_else(nearest)? + height)
}

/// What decides the posts' lengths where there are no pales.
pub(super) fn name_missing(sound: &Sound, problems: &mut Problems) {
    let boards = &sound.boards;
    if boards.pales.is_some() {
        return;
    }
    let (text, remedy) = match (&boards.gravel, &boards.rails) {
        (Some(_), Some(_)) => (
            "There are no pales, so the posts end at the top of the highest rail.",
            "Enter the pales' height above the gravel board where the posts go higher.",
        ),
        (Some(_), None) => (
            "The posts have no length yet: nothing says how high they stand.",
            "Enter the pales, or the rails.",
        ),
        (None, Some(_)) => (
            "The posts have no length yet, and the rails no height: both count from the top of a \
             gravel board.",
            "Enter the gravel board.",
        ),
        (None, None) => return,
    };
    problems.note("boards.pales", text, remedy);
}

/// Rails that do not lie within their posts.
pub(super) fn name_too_high(sound: &Sound, problems: &mut Problems) {
    let (Some(rails), Some(top)) = (&sound.boards.rails, over_gravel(&sound.boards)) else {
        return;
    };
    let highest = if rails.count > 1 {
        rails.high
    } else {
        rails.low
    };
    let over = highest + rails.height / 2.0 - top;
    if over > 0.05 {
        problems.warning(
            "boards.rails.high",
            format!(
                "The highest rail stands {} above the top of the posts.",
                sound.say(over)
            ),
            "Set it lower, take a rail that is less high, or take higher pales.",
        );
    }
}
