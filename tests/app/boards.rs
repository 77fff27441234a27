//! Boards, the cut list and the sizes as a person goes through them, with the figures of the core.

use slint::{Global, Model};
use tautmark::boards::{CutPiece, RunBoards, cut_together};
use tautmark::job::model::{Boards, Foot, Gravel};
use tautmark::job::{self, Job, Severity};
use tautmark::length::{Unit, show};
use tautmark::solve;
use tautmark_app_tests::Hand;
use tautmark_ui::{DrawingVm, FormVm, Page, Place};

fn boards(job: &Job, run: &str) -> RunBoards {
    solve(job)
        .boards
        .get(run)
        .cloned()
        .expect("a run with boards")
}

#[test]
fn a_run_shows_what_the_core_finds() {
    let hand = Hand::on(job::example());
    hand.press("Boards");
    hand.picture("live-boards");
    let solution = solve(&job::example());
    let first = &solution.boards["R1"];
    let mut problems = solution.problems.iter();
    let worst = problems
        .find(|one| one.severity == Severity::Warning && one.place == "boards.gravel.gap")
        .expect("the example leaves a gap that is too large");
    hand.must_say(&worst.text);
    hand.must_say(&worst.remedy);
    assert_eq!(hand.value("Gravel boards"), "3 two steps of 30");
    let pales: usize = first.pales.iter().map(|stretch| stretch.count).sum();
    assert!(hand.value("Pales").starts_with(&format!("{pales} lap")));
    let rails = first.rails.len() * 3;
    let lengths: Vec<String> = first
        .rails
        .iter()
        .map(|bay| show(bay.length, Unit::Mm))
        .collect();
    let value = format!("{rails} {}", lengths.join(" · "));
    assert_eq!(hand.value("Rails"), value);
    assert_eq!(hand.value("Notch 15 of 100 leaves"), "72 % in bending");
    let longest = first.posts.iter().filter_map(|post| post.length);
    let longest = longest.fold(0.0, f64::max);
    let value = format!("{} 5 of them", show(longest, Unit::Mm));
    assert_eq!(hand.value("Posts at least"), value);
    let concrete = hand.value("Concrete, all holes");
    assert!(concrete.starts_with(&format!("{:.0} litres", solution.buy.litres)));
    hand.press("Notch 15 of 100 leaves");
    hand.must_say("squared");
    hand.press("Close");
    hand.press("Run R2");
    let second = boards(&job::example(), "R2");
    let value = hand.value("Gravel boards");
    assert!(
        value.starts_with(&second.gravel.len().to_string()),
        "{value}"
    );
    assert!(!hand.says(&worst.text), "that is the other run's");
}

#[test]
fn the_cut_list_has_every_piece_of_the_core() {
    let hand = Hand::on(job::example());
    hand.press("Boards");
    hand.press("Cut list");
    assert!(hand.sees("Saw cuts"));
    hand.must_say("Cuts in treated timber.");
    hand.press("Close");
    hand.picture("live-cut-list");
    let solution = solve(&job::example());
    let rail = solution.cuts.iter().find(|cut| cut.item == CutPiece::Rail);
    let rail = rail.expect("rails are cut");
    let value = format!("{} × {}", show(rail.length, Unit::Mm), rail.count);
    assert_eq!(hand.value("Rails"), value);
    let gravel = solution
        .cuts
        .iter()
        .find(|cut| cut.item == CutPiece::Gravel);
    let gravel = gravel.expect("gravel boards are cut");
    let name = if gravel.count == 1 {
        "Gravel board"
    } else {
        "Gravel boards"
    };
    let value = format!("{} × {}", show(gravel.length, Unit::Mm), gravel.count);
    assert_eq!(hand.value(name), value);
    assert_eq!(
        hand.value("Bags of concrete"),
        solution.buy.bags.to_string()
    );
}

#[test]
fn a_size_typed_changes_the_boards() {
    let hand = Hand::on(job::example());
    hand.press("Boards");
    hand.press("Sizes");
    hand.picture("live-sizes");
    hand.press("Largest gap under it");
    hand.keys("70");
    hand.press("Next");
    let job = hand.saved();
    assert_eq!(job.boards.gravel.as_ref().map(|one| one.gap), Some(70.0));
    hand.press("Level");
    assert_eq!(
        hand.saved().boards.gravel.map(|one| one.fit),
        Some(job::model::BoardFit::Level)
    );
    hand.press("Rails: a length");
    hand.keys("3600");
    hand.press("Next");
    assert_eq!(hand.saved().stock.rails, [3600.0]);
}

#[test]
fn a_job_without_boards_asks_for_their_sizes() {
    let mut job = job::example();
    job.boards = Boards::default();
    let hand = Hand::on(job);
    hand.press("Boards");
    hand.picture("live-boards-empty");
    hand.must_say("Nothing chosen yet.");
    assert_eq!(hand.value("Gravel boards"), "0 none chosen");
    hand.press("Sizes");
    hand.press("Gravel boards");
    assert_eq!(hand.saved().boards.gravel, Some(Gravel::default()));
}

#[test]
fn an_empty_job_has_no_boards_and_no_heights() {
    let hand = Hand::on(Job::new("Nothing yet"));
    hand.press("Boards");
    hand.must_say("No run yet.");
    assert_eq!(hand.value("Gravel boards"), "—");
    hand.press("Cut list");
    hand.press("Close");
    hand.must_say("Nothing to cut yet");
    hand.press("Levels");
    hand.picture("live-levels-empty");
    hand.must_say("Nothing levelled yet.");
}

#[test]
fn the_warning_of_one_named_run_is_not_told_of_another() {
    let mut job = job::example();
    for (run, name) in job.runs.iter_mut().zip(["Front", "Side"]) {
        name.clone_into(&mut run.name);
    }
    let solution = solve(&job);
    let mut problems = solution.problems.iter();
    let worst = problems
        .find(|one| one.severity == Severity::Warning && one.place == "boards.gravel.gap")
        .expect("the example leaves a gap that is too large");
    assert!(worst.text.contains("Front"), "{}", worst.text);
    let hand = Hand::on(job);
    hand.press("Boards");
    hand.must_say(&worst.text);
    hand.press("Side");
    assert!(!hand.says(&worst.text), "that is the other run's");
}

#[test]
fn posts_are_cut_on_trestles_group_by_group() {
    let hand = Hand::on(job::example());
    hand.press("Boards");
    hand.press("On the trestles");
    let groups: usize = ["R1", "R2"]
        .iter()
        .map(|run| cut_together(&hand.shown().boards, &(*run).into()).len())
        .sum();
    assert!(groups > 1);
    hand.picture("live-trestles");
    for n in 1..=groups {
        let last = n == groups;
        hand.press(if last { "Cut" } else { "Cut · next" });
    }
    assert_eq!(hand.here(), (Place::Boards, Page::Boards));
    let cut = hand.saved().marked.iter().filter(|one| one.cut).count();
    // The corner post is cut once, with the first of its runs.
    assert_eq!(cut, hand.shown().buy.post_count);
    hand.press("Undo");
    let after = hand.saved().marked.iter().filter(|one| one.cut).count();
    assert!(after < cut, "a group is one step");
}

#[test]
fn the_gates_page_has_its_leaf_its_brace_and_its_lock() {
    let mut job = job::example();
    let gate = &mut job.runs[0].gates[0];
    gate.leaf.get_or_insert_default();
    gate.lock = Some(job::model::Lock::default());
    let hand = Hand::on(job);
    let leaf = hand.shown().boards["R1"].gates[0];
    hand.press("Boards");
    hand.press("The gate");
    hand.picture("live-gate");
    let shown = |mm: f64| format!("{} mm", show(mm, Unit::Mm));
    assert_eq!(hand.value("Width of the leaf"), shown(leaf.width));
    let brace = leaf.brace.expect("its height is known");
    assert_eq!(hand.value("Length, corner to corner"), shown(brace.length));
    assert_eq!(
        hand.value("Saw set along the ledges"),
        format!("{:.1}° off square", brace.off_square)
    );
    let lock = leaf.lock.expect("a lock");
    let packing = lock.packing.expect("its case is wider than the stile");
    assert_eq!(hand.value("Packing beside the stile"), shown(packing));
}

#[test]
fn the_lowest_rail_is_notched_less_in_the_posts_in_holes() {
    let hand = Hand::on(job::example());
    hand.press("Boards");
    hand.press("Sizes");
    let before = hand.note("Rail 1, posts in holes");
    assert_eq!(before, "leaves 72 % in bending");
    hand.press("Rail 1, posts in holes");
    hand.enter("10");
    assert_eq!(
        hand.note("Rail 1, posts in holes"),
        "leaves 81 % in bending"
    );
    assert_eq!(hand.note("Rail 1, posts on a wall"), before);
    let boards = hand.saved().boards;
    assert_eq!(boards.notch(1, Foot::Hole), 10.0);
    assert_eq!(boards.notch(1, Foot::Wall), 15.0);
}

#[test]
fn how_rails_meet_the_posts_is_shown_in_two_pictures() {
    let hand = Hand::on(job::example());
    hand.press("Boards");
    hand.press("Sizes");
    hand.picture("live-sizes");
    let fields = FormVm::get(&hand.app).get_fields();
    let meets = fields
        .iter()
        .find(|field| field.label == "Rails meet the posts");
    assert_eq!(meets.expect("it is asked").pictures.row_count(), 2);
}

#[test]
fn what_is_cut_is_noted_and_its_piece_is_drawn() {
    let hand = Hand::on(job::example());
    hand.press("Boards");
    hand.press("Cut list");
    hand.press("Close");
    let rail = solve(&job::example())
        .cuts
        .into_iter()
        .find(|cut| cut.item == CutPiece::Rail)
        .expect("rails");
    hand.press("Rails");
    let done = hand.saved().stock.done;
    assert_eq!(done.len(), 1);
    assert!(done[0].is(CutPiece::Rail, rail.length));
    assert!(
        hand.note("Rails").starts_with("cut; "),
        "{}",
        hand.note("Rails")
    );
    hand.picture("live-cut-piece");
    let drawn = DrawingVm::get(&hand.app).get_drawing().description;
    assert!(drawn.contains(&show(rail.length, Unit::Mm)), "{drawn}");
    hand.press("Rails");
    assert!(
        hand.saved().stock.done.is_empty(),
        "pressed again, it is not"
    );
}
