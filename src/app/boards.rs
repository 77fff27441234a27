//! Boards: what goes on the posts of the run in sight, and what is in its way.

use super::board_facts::{explain, facts};
use super::level_names::run_called;
use super::rows::patched;
use super::run_names::{run_in_sight, run_name};
use super::words::{silence, status};
use super::{Bridge, Desk, Then, caution};
use crate::boards::RunBoards;
use crate::cautions::NOTCH;
use crate::job::model::Run;
use crate::job::{Problem, Severity};
use crate::length;
use slint::{Global, SharedString};
use std::rc::Rc;
use tautmark_ui::{App, BoardsVm, Nav, Page, Place, Status, Verdict};

pub(super) fn wire(app: &App, bridge: &Rc<Bridge>) {
    let vm = BoardsVm::get(app);
    let at = bridge.clone();
    vm.on_run_picked(move |index| {
        at.act(|desk| {
            if let Ok(index) = usize::try_from(index) {
                desk.chosen.run = index;
                desk.chosen.post = 1;
            }
            Then::Stay
        });
    });
    let at = bridge.clone();
    vm.on_asked(move |id| at.act(|desk| explain(desk, &id)));
    let at = bridge.clone();
    vm.on_caution_pressed(move || at.act(|desk| caution::open(desk, &NOTCH)));
    let at = bridge.clone();
    vm.on_sizes(move || at.act(|_| Then::Open(Page::Sizes)));
    let at = bridge.clone();
    vm.on_cut_list(move || at.act(super::cut_list::open));
}

pub(super) fn fill(app: &App, desk: &Desk) {
    let nav = Nav::get(app);
    if nav.get_place() != Place::Boards || nav.get_page() != Page::Work {
        return;
    }
    let vm = BoardsVm::get(app);
    let names = desk.job().runs.iter();
    let names: Vec<SharedString> = names.map(|run| run_name(run).into()).collect();
    vm.set_runs(patched(vm.get_runs(), names));
    let sight = run_in_sight(desk);
    let at = sight.and_then(|(at, _)| i32::try_from(at).ok());
    vm.set_run(at.unwrap_or(0));
    vm.set_status(standing(desk, sight));
    vm.set_chosen(chosen(desk));
    let facts = facts(desk, boards_in_sight(desk));
    vm.set_gravel(facts.gravel);
    vm.set_pales(facts.pales);
    vm.set_rails(facts.rails);
    vm.set_notch(facts.notch);
    vm.set_posts(facts.posts);
    vm.set_concrete(facts.concrete);
    let notched = boards_in_sight(desk).is_some_and(|boards| boards.notch.is_some());
    let caution = if notched { NOTCH.short } else { "" };
    vm.set_caution(caution.into());
}

/// The boards of the run in sight.
pub(super) fn boards_in_sight(desk: &Desk) -> Option<&RunBoards> {
    let (_, run) = run_in_sight(desk)?;
    desk.solution.boards.get(&run.id)
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
        let verdict = match problem.severity {
            Severity::Error => Verdict::Bad,
            Severity::Warning => Verdict::Attention,
            Severity::Note => Verdict::Note,
        };
        let text = format!("**{}** {}", problem.text, problem.remedy);
        return status(verdict, &text);
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
    let place = problem.place.as_str();
    let own = format!("runs[{at}]");
    // What else is wrong with the run itself is told under Posts.
    let no_ground = place == own && !has_ground(desk, run);
    let leaf = place.starts_with(&format!("{own}.gates")) && place.contains(".leaf");
    if no_ground || leaf {
        return true;
    }
    let everywhere = ["boards", "stock"]
        .iter()
        .any(|part| place.starts_with(part));
    let heights = place == "levels" || place == "levels.datum";
    let names = |run: &Run| problem.text.contains(&format!("“{}”", run.id));
    let others = || {
        desk.job()
            .runs
            .iter()
            .any(|one| one.id != run.id && names(one))
    };
    (everywhere || heights) && (names(run) || !others())
}

fn has_ground(desk: &Desk, run: &Run) -> bool {
    let boards = desk.solution.boards.get(&run.id);
    boards.is_some_and(|boards| !boards.ground.is_empty())
}
