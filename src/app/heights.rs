//! Mark heights: one post at a time, everything that is marked on it from one laser line.

use super::heights_said::{explain, facts, standing};
use super::level_names::run_called;
use super::run_names::marked;
use super::{Bridge, Desk, Then, caution};
use crate::boards::PostHeights;
use crate::cautions::LASER;
use crate::job::edit::Edit;
use crate::job::model::{Marked, Run};
use crate::job::{RunId, SetupId};
use crate::levels::SetupFix;
use slint::Global;
use std::rc::Rc;
use tautmark_ui::{App, FrameVm, HeightsVm, Nav, Page};

pub(super) fn wire(app: &App, bridge: &Rc<Bridge>) {
    let vm = HeightsVm::get(app);
    let at = bridge.clone();
    vm.on_asked(move |id| at.act(|desk| explain(desk, &id)));
    let at = bridge.clone();
    vm.on_caution_pressed(move || at.act(|desk| caution::open(desk, &LASER)));
    let at = bridge.clone();
    vm.on_go_before(move || {
        at.act(|desk| {
            if let Some(n) = neighbours(desk).0 {
                desk.chosen.post = n;
            }
            Then::Stay
        });
    });
    let at = bridge.clone();
    vm.on_pick_set_up(move || {
        at.act(|desk| {
            next_setup(desk);
            Then::Stay
        });
    });
    let at = bridge.clone();
    vm.on_tick(move || at.act(tick));
}

pub(super) fn fill(app: &App, desk: &Desk) {
    if Nav::get(app).get_page() != Page::Heights {
        return;
    }
    let vm = HeightsVm::get(app);
    if let Some(run) = desk.job().runs.get(desk.chosen.run) {
        let name = run_called(desk.job(), &run.id);
        let title = format!("Post {} · {name}", desk.chosen.post);
        FrameVm::get(app).set_title(title.into());
    }
    vm.set_status(standing(desk));
    let (dig, gap) = facts(desk);
    vm.set_dig(dig);
    vm.set_gap(gap);
    let setup = setup_in_sight(desk).map(|(id, _)| format!("Set-up {id}"));
    vm.set_set_up(setup.unwrap_or_else(|| "Set-up".to_owned()).into());
    let number = |n: Option<usize>| n.map(|n| n.to_string()).unwrap_or_default();
    let (before, after) = neighbours(desk);
    vm.set_before(number(before).into());
    vm.set_after(number(after).into());
    vm.set_settled(in_sight(desk).is_some());
    vm.set_caution(LASER.short.into());
}

/// Something on it can be marked.
fn is_known(post: &PostHeights) -> bool {
    post.top.is_some() || post.before.is_some() || post.after.is_some()
}

fn posts<'a>(desk: &'a Desk, run: &RunId) -> impl Iterator<Item = &'a PostHeights> + Clone {
    let boards = desk.solution.boards.get(run);
    let posts = boards.map_or(&[][..], |boards| boards.posts.as_slice());
    posts.iter().filter(|post| is_known(post))
}

/// The post's heights are on it.
pub(super) fn is_marked(desk: &Desk, run: &Run, n: usize) -> bool {
    marked(desk.job(), run, n).is_some_and(|one| one.heights)
}

/// The run (by its place) and post to go on with: the one in sight where it is still to be marked,
/// else the next in its run, else the first anywhere; `None` while no height is known.
pub(super) fn first_to_mark(desk: &Desk) -> Option<(usize, usize)> {
    let runs = &desk.job().runs;
    let chosen = desk.chosen.run;
    let in_order = (chosen..runs.len()).chain(0..chosen.min(runs.len()));
    let all: Vec<(usize, usize)> = in_order
        .filter_map(|at| Some((at, runs.get(at)?)))
        .flat_map(|(at, run)| posts(desk, &run.id).map(move |post| (at, post.n)))
        .collect();
    let is_open = |&&(at, n): &&(usize, usize)| {
        let run = runs.get(at);
        run.is_some_and(|run| !is_marked(desk, run, n))
    };
    let in_sight = (chosen, desk.chosen.post);
    let open = all.iter().filter(is_open);
    let first = open
        .clone()
        .find(|one| **one >= in_sight && one.0 == chosen);
    first
        .or_else(|| open.clone().next())
        .or(all.first())
        .copied()
}

/// Opens the page at the post to go on with, from the line of its run's own set-up.
pub(super) fn start(desk: &mut Desk) -> Then {
    let Some((run, post)) = first_to_mark(desk) else {
        desk.say("No height is known yet: sight the datum and the ground along a run.");
        return Then::Stay;
    };
    (desk.chosen.run, desk.chosen.post) = (run, post);
    let own = desk
        .job()
        .runs
        .get(run)
        .and_then(|run| desk.solution.boards.get(&run.id)?.setup.as_ref());
    let own = own.and_then(|id| place_of(desk, id));
    desk.chosen.setup = own.unwrap_or(desk.chosen.setup);
    caution::once(desk, &LASER);
    Then::Open(Page::Heights)
}

/// The same from the line of this set-up.
pub(super) fn start_from(desk: &mut Desk, setup: usize) -> Then {
    let then = start(desk);
    desk.chosen.setup = setup;
    then
}

fn place_of(desk: &Desk, id: &SetupId) -> Option<usize> {
    let mut setups = desk.job().levels.setups.iter();
    setups.position(|setup| setup.id == *id)
}

/// The set-up whose line is measured from, where its height is known.
pub(super) fn setup_in_sight(desk: &Desk) -> Option<(&SetupId, &SetupFix)> {
    let id = &desk.job().levels.setups.get(desk.chosen.setup)?.id;
    let fix = desk.solution.levels.as_ref()?.setups.get(id)?;
    Some((id, fix))
}

/// Goes to the next set-up with a known line, round and round.
fn next_setup(desk: &mut Desk) {
    let setups = &desk.job().levels.setups;
    let count = setups.len();
    let known = |at: &usize| {
        let id = setups.get(*at).map(|setup| &setup.id);
        let levels = desk.solution.levels.as_ref();
        id.zip(levels)
            .is_some_and(|(id, levels)| levels.setups.contains_key(id))
    };
    let round = (1..=count).map(|step| (desk.chosen.setup + step) % count.max(1));
    if let Some(next) = round.into_iter().find(known) {
        desk.chosen.setup = next;
    }
}

/// The posts with heights before and after the one in sight, in its run.
fn neighbours(desk: &Desk) -> (Option<usize>, Option<usize>) {
    let Some(run) = desk.job().runs.get(desk.chosen.run) else {
        return (None, None);
    };
    let here = desk.chosen.post;
    let before = posts(desk, &run.id).map(|post| post.n);
    let after = before.clone().find(|&n| n > here);
    (before.filter(|&n| n < here).last(), after)
}

/// The run and the post in sight, where anything can be marked on it.
pub(super) fn in_sight(desk: &Desk) -> Option<(&Run, &PostHeights)> {
    let run = desk.job().runs.get(desk.chosen.run)?;
    let post = posts(desk, &run.id).find(|post| post.n == desk.chosen.post)?;
    Some((run, post))
}

/// Notes that the post's heights are on it and goes to the next one.
fn tick(desk: &mut Desk) -> Then {
    let Some((run, post)) = in_sight(desk) else {
        return Then::Stay;
    };
    let (id, n) = (run.id.clone(), post.n);
    if !is_marked(desk, run, n) {
        let there = marked(desk.saved(), run, n).cloned();
        let value = Marked {
            run: id.clone(),
            post: u32::try_from(n).unwrap_or(u32::MAX),
            heights: true,
            ..there.unwrap_or_default()
        };
        if !desk.change(Edit::mark_post(desk.saved(), value)) {
            return Then::Stay;
        }
    }
    if let Some(next) = neighbours(desk).1 {
        desk.chosen.post = next;
        return Then::Stay;
    }
    let name = run_called(desk.job(), &id);
    desk.say(&format!("{name}: the last post is marked."));
    Then::Back
}
