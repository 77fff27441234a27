//! Mark heights: a person goes from post to post and marks on each, from one laser line, everything that
//! is fixed to it.

mod said;
mod sight;

use crate::app::bridge::{Bridge, PagePicture, Screen, Spec};
use crate::app::desk::{Desk, Then, caution};
use crate::app::kit::plan_of_run;
use crate::app::names::{marked, run_called};
use crate::cautions::LASER;
use crate::drawing::post_heights;
use crate::job::SetupId;
use crate::job::edit::{Edit, Setting};
use crate::job::model::{Marked, RailEdge, Show};
use said::{aloud, explain, facts, standing};
use sight::{in_sight, is_marked, posts, setup_in_sight};
use slint::Global;
use std::rc::Rc;
use tautmark_ui::{App, HeightsVm, Page, Place};

/// The page.
pub struct Heights;

impl Screen for Heights {
    fn spec(&self) -> Spec {
        Spec::inside(Place::Levels, Page::Heights, "heights")
    }

    fn wire(&self, app: &App, bridge: &Rc<Bridge>) {
        let vm = HeightsVm::get(app);
        vm.on_asked(bridge.does_with(explain));
        vm.on_caution_pressed(bridge.does(|desk| caution::open(desk, &[LASER])));
        vm.on_go_before(bridge.does(|desk| {
            if let Some(n) = neighbours(desk).0 {
                desk.chosen.post = n;
            }
            Then::Stay
        }));
        vm.on_pick_set_up(bridge.does(next_setup));
        vm.on_rail_edge_picked(bridge.does_at(pick_edge));
        vm.on_tick(bridge.does(tick));
    }

    fn title(&self, desk: &Desk) -> Option<String> {
        let run = desk.job().runs.get(desk.chosen.run)?;
        let name = run_called(desk.job(), &run.id);
        Some(format!("Post {} · {name}", desk.chosen.post))
    }

    fn fill(&self, app: &App, desk: &Desk) -> bool {
        let vm = HeightsVm::get(app);
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
        let job = desk.job();
        let edge = EDGES.iter().position(|edge| *edge == job.show.rail);
        let edge = edge.filter(|_| job.boards.rails.is_some());
        vm.set_rail_edge(edge.and_then(|at| i32::try_from(at).ok()).unwrap_or(-1));
        vm.set_caution(caution::line(&[LASER]));
        false
    }

    fn picture(&self, desk: &Desk) -> Option<PagePicture> {
        let setup = setup_in_sight(desk).map(|(id, _)| id);
        let run = desk.job().runs.get(desk.chosen.run);
        let own = run.and_then(|run| {
            let post = (&run.id, desk.chosen.post);
            post_heights(desk.job(), &desk.solution, post, setup, desk.view.aspect())
        });
        Some(PagePicture::or(own, || {
            PagePicture::Drawing(plan_of_run(desk, |_| {}))
        }))
    }

    fn aloud(&self, desk: &Desk) -> Option<String> {
        aloud(desk)
    }
}

/// What of a rail its heights can be of, from the top.
const EDGES: [RailEdge; 3] = [RailEdge::Top, RailEdge::Centre, RailEdge::Bottom];

/// Keeps with the job what of a rail its heights are of.
fn pick_edge(desk: &mut Desk, at: usize) -> Then {
    if let Some(&rail) = EDGES.get(at) {
        let show = Show {
            rail,
            ..desk.saved().show.clone()
        };
        desk.change(Edit::Set(Setting::Show(show)));
    }
    Then::Stay
}

/// The run (by its place) and post to go on with: the one in sight where it is still to be marked,
/// else the next in its run, else the first anywhere; `None` while no height is known.
pub fn first_to_mark(desk: &Desk) -> Option<(usize, usize)> {
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
pub fn start(desk: &mut Desk) -> Then {
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
    caution::once(desk, &[LASER]);
    Then::Open(Page::Heights)
}

/// The same from the line of this set-up.
pub fn start_from(desk: &mut Desk, setup: usize) -> Then {
    let then = start(desk);
    desk.chosen.setup = setup;
    then
}

fn place_of(desk: &Desk, id: &SetupId) -> Option<usize> {
    let mut setups = desk.job().levels.setups.iter();
    setups.position(|setup| setup.id == *id)
}

/// Goes to the next set-up with a known line, round and round.
fn next_setup(desk: &mut Desk) -> Then {
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
    Then::Stay
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
