//! Boards: what goes on the posts. A person chooses sizes, sees each run from the front with what is in
//! its way, and takes the cut list.

pub mod cut_list;
mod facts;
mod figures;
mod fixings;
pub mod gate;
mod notches;
pub mod sizes;
pub mod trestles;

use crate::app::bridge::{Bridge, PagePicture, Screen, Spec};
use crate::app::desk::{Desk, Rows, Then, caution, run_in_sight};
use crate::app::kit::{patched, plan_of_run, row, silence, status, told, verdict_of};
use crate::app::names::{run_called, runs_to_choose};
use crate::boards::RunBoards;
use crate::cautions::NOTCH;
use crate::drawing::{ElevationShow, elevation};
use crate::job::Problem;
use crate::job::model::Run;
use crate::length;
use facts::{boards_in_sight, explain, facts};
use slint::Global;
use std::rc::Rc;
use tautmark_ui::{App, BoardsVm, Page, Place, Status, Verdict};

/// The place.
pub struct BoardsPlace;

impl Screen for BoardsPlace {
    fn spec(&self) -> Spec {
        Spec::place(Place::Boards, Page::Boards, "boards")
    }

    fn wire(&self, app: &App, bridge: &Rc<Bridge>) {
        let vm = BoardsVm::get(app);
        vm.on_run_picked(bridge.does_at(|desk, index| {
            (desk.chosen.run, desk.chosen.post) = (index, 1);
            Then::Stay
        }));
        vm.on_asked(bridge.does_with(explain));
        vm.on_caution_pressed(bridge.does(|desk| caution::open(desk, &[NOTCH])));
        vm.on_sizes(bridge.does(|_| Then::Open(Page::Sizes)));
        vm.on_cut_list(bridge.does(cut_list::open));
        vm.on_further_pressed(bridge.does_with(|desk, id| further(desk).press(desk, id)));
    }

    fn fill(&self, app: &App, desk: &Desk) -> bool {
        let vm = BoardsVm::get(app);
        let (runs, at) = runs_to_choose(desk);
        vm.set_runs(patched(vm.get_runs(), runs));
        vm.set_run(at);
        let sight = run_in_sight(desk);
        vm.set_status(standing(desk, sight));
        vm.set_chosen(chosen(desk));
        vm.set_further(patched(vm.get_further(), further(desk).items()));
        let [gravel, pales, rails, notch, posts, concrete] = facts(desk, boards_in_sight(desk));
        vm.set_gravel(gravel);
        vm.set_pales(pales);
        vm.set_rails(rails);
        vm.set_notch(notch);
        vm.set_posts(posts);
        vm.set_concrete(concrete);
        let notched = boards_in_sight(desk).is_some_and(|boards| boards.notch.is_some());
        let caution = if notched { NOTCH.short } else { "" };
        vm.set_caution(caution.into());
        false
    }

    fn picture(&self, desk: &Desk) -> Option<PagePicture> {
        Some(front(desk))
    }
}

/// What is made on trestles and on the bench, each on a page of its own.
fn further(desk: &Desk) -> Rows {
    let mut rows = Rows::default();
    if let Some(groups) = trestles::standing(desk) {
        rows.push(row("", "On the trestles", &groups, "", ""), trestles::open);
    }
    if let Some(leaf) = gate::standing(desk) {
        rows.push(row("", "The gate", &leaf, "", ""), gate::open);
    }
    rows
}

/// The run in sight from the front; the plan until it is set out.
fn front(desk: &Desk) -> PagePicture {
    let run = desk.job().runs.get(desk.chosen.run);
    let show = ElevationShow::default();
    let own = run.and_then(|run| elevation(desk.job(), &desk.solution, &run.id, &show));
    PagePicture::or(own, || PagePicture::Drawing(plan_of_run(desk, |_| {})))
}

fn chosen(desk: &Desk) -> bool {
    let boards = &desk.job().boards;
    boards.gravel.is_some() || boards.rails.is_some() || boards.pales.is_some()
}

/// The worst thing about the run's boards with its remedy, or that nothing is.
fn standing(desk: &Desk, sight: Option<(usize, &Run)>) -> Status {
    let Some((at, run)) = sight else {
        let text = "**No run yet.** Set one up under Posts: its boards follow from it.";
        return status(Verdict::Note, text);
    };
    if !chosen(desk) {
        let text = "**Nothing chosen yet.** Give the sizes of gravel boards, rails and pales.";
        return status(Verdict::Note, text);
    }
    let Some(built) = desk.solution.boards.get(&run.id) else {
        let text = format!(
            "**{} is not set out yet,** so nothing is known of its boards. See Posts.",
            run_called(desk.job(), &run.id)
        );
        return status(Verdict::Attention, &text);
    };
    if let Some(problem) = worst(desk, at, run) {
        return told(problem, verdict_of(problem.severity));
    }
    good(desk, built)
}

fn good(desk: &Desk, built: &RunBoards) -> Status {
    let digs = built.gravel.iter().filter_map(|board| board.dig);
    let Some(most) = digs.reduce(f64::max) else {
        return silence();
    };
    let unit = desk.job().show.lengths;
    let most = length::show_with_unit(most, unit);
    let text = format!("**Nothing in the way.** The most to dig out for a gravel board is {most}.");
    status(Verdict::Good, &text)
}

/// The worst problem that touches this run's boards; of equals the first.
fn worst<'a>(desk: &'a Desk, at: usize, run: &Run) -> Option<&'a Problem> {
    let problems = desk.solution.problems.iter();
    problems
        .filter(|problem| is_about(desk, problem, at, run))
        .min_by_key(|problem| problem.severity)
}

/// True for a problem of this run's boards, or of all boards alike.
fn is_about(desk: &Desk, problem: &Problem, at: usize, run: &Run) -> bool {
    let place = &problem.place;
    let own = place.entry_of("runs") == Some(at);
    // What else is wrong with the run itself is told under Posts.
    let no_ground = *place == format!("runs[{at}]") && !has_ground(desk, run);
    let leaf = own && place.contains(".gates[") && place.contains(".leaf");
    let everywhere = place.is_in("boards") || place.is_in("stock");
    let heights = *place == "levels" || *place == "levels.datum";
    let its_own = place.concerns_all_runs() || place.concerns_run(&run.id);
    no_ground || leaf || ((everywhere || heights) && its_own)
}

fn has_ground(desk: &Desk, run: &Run) -> bool {
    let boards = desk.solution.boards.get(&run.id);
    boards.is_some_and(|boards| !boards.ground.is_empty())
}
