//! The app opens again where it was left.

use slint::Global;
use tautmark::job;
use tautmark::store::Jobs;
use tautmark_app_tests::{Hand, settle, wait};
use tautmark_ui::{MarkOutVm, Page, Place, Theme, ThemeMode};

#[test]
fn it_opens_on_the_screen_and_post_where_it_was_left() {
    let hand = Hand::on(job::example());
    hand.press("Posts");
    hand.press("Run R2");
    hand.press("3 line post");
    let chosen = hand.bridge.look(|desk| desk.chosen.clone());
    assert_eq!((chosen.run, chosen.post), (1, 3));
    assert_eq!(hand.here(), (Place::Posts, Page::MarkOut));
    let figure = MarkOutVm::get(&hand.app).get_figure();
    wait(2);
    let hand = hand.again();
    assert_eq!(hand.here(), (Place::Posts, Page::MarkOut));
    assert_eq!(hand.bridge.look(|desk| desk.chosen.clone()), chosen);
    assert_eq!(MarkOutVm::get(&hand.app).get_figure(), figure);
}

#[test]
fn the_light_that_was_chosen_stays() {
    let hand = Hand::on(job::example());
    hand.go(Place::Walls, Page::About);
    hand.press("Night");
    wait(2);
    let hand = hand.again();
    assert_eq!(Theme::get(&hand.app).get_mode(), ThemeMode::Night);
    assert_eq!(hand.here().1, Page::About);
}

#[test]
fn what_was_typed_and_not_entered_is_there_after_a_start() {
    let hand = Hand::with_no_job(412.0, 915.0);
    hand.press("New job");
    hand.press("One wall");
    hand.keys("36");
    wait(2);
    let hand = hand.again();
    hand.press("A to B");
    hand.press("Enter its figure");
    hand.must_say("Typed before, not entered.");
    // ⌫ goes on with it.
    hand.press("Delete the last figure");
    hand.keys("650");
    hand.press("Next");
    let readings = hand.bridge.look(|desk| desk.saved().readings.clone());
    let text = format!("{readings:?}");
    assert!(text.contains("3650"), "{text}");
}

#[test]
fn whatever_was_noted_it_starts() {
    let hand = Hand::on(job::example());
    let key = hand
        .bridge
        .look(|desk| desk.open().expect("a job").key().to_string());
    let far = format!(
        r#"{{"place":"posts","page":"PAGE","job":"{key}","chosen":{{"line":99,"corner":99,"run":99,
        "post":99,"setup":99,"face":99,"reading":99,"mark":99,"arm":-1,"diagonal":1e300}}}}"#
    );
    let pages = [
        "work", "settings", "sheet", "line", "corner", "run", "mark-out", "carry", "laser",
        "heights", "sizes", "cut-list", "quick", "bin", "licences",
    ];
    let mut notes: Vec<String> = pages.iter().map(|page| far.replace("PAGE", page)).collect();
    notes.extend(
        [
            "",
            "null",
            "[]",
            "{\"page\":\"corner\"}",
            "{\"job\":\"gone\"}",
        ]
        .map(str::to_owned),
    );
    let mut hand = hand;
    for note in notes {
        hand.bridge
            .look(|desk| desk.jobs.remember(&note))
            .expect("it can be noted");
        hand = hand.again();
        assert!(!hand.labels().is_empty(), "{note}");
    }
}

#[test]
fn a_first_start_shows_the_list_of_jobs() {
    let folder = tempfile::tempdir().expect("a folder");
    assert_eq!(Jobs::in_folder(folder.path()).remembered(), None);
    let hand = Hand::with_no_job(412.0, 915.0).again();
    assert_eq!(hand.here().1, Page::Jobs);
    assert!(hand.sees("Open the example"));
}

#[test]
fn a_name_half_typed_is_there_after_a_start() {
    let hand = Hand::on(job::example());
    hand.go(Place::Walls, Page::Jobs);
    hand.press("Copy, rename or delete Orchard corner screen");
    hand.press("Rename");
    hand.write("Name of the job", "Orchard gate");
    wait(2);
    let hand = hand.again();
    assert_eq!(hand.here().1, Page::Rename);
    assert_eq!(hand.value("Name of the job"), "Orchard gate");
    hand.press("Rename");
    assert!(hand.sees("Orchard gate"), "{:?}", hand.labels());
    assert_eq!(hand.saved().title, "Orchard gate");
}

#[test]
fn a_figure_of_a_quick_sum_is_kept_as_it_is_entered_and_the_next_while_it_is_typed() {
    let hand = Hand::with_no_job(412.0, 915.0);
    let kept = |hand: &Hand| hand.bridge.look(|desk| desk.jobs.remembered());
    hand.press("Corner by three tapes");
    hand.press("Next: First leg");
    hand.keys("7253");
    hand.press("Next");
    let text = kept(&hand).expect("it is noted");
    assert!(text.contains("7253"), "{text}");
    // Keys that come faster than once a second do not put off what is being typed.
    for key in ["1", "8", "4", "6"] {
        hand.press(key);
        settle();
    }
    let text = kept(&hand).expect("it is noted");
    assert!(text.contains("\"18"), "{text}");
}

#[test]
fn a_job_that_the_program_stopped_on_is_left_alone_until_somebody_says_so() {
    let hand = Hand::on(job::example());
    wait(2);
    hand.bridge.look(|desk| {
        let key = desk.open().expect("a job").key();
        desk.jobs.note_opening(key).expect("it can be noted");
    });
    let hand = hand.again();
    assert_eq!(hand.here().1, Page::Jobs);
    assert!(hand.bridge.look(|desk| desk.open().is_none()));
    hand.must_say("The app stopped while it opened a job");
    hand.press("Close");
    hand.must_say("did not open");
    hand.press("Orchard corner screen");
    hand.press("Send its file out");
    hand.press("Orchard corner screen");
    hand.press("Open it again");
    assert_eq!(hand.saved(), job::example());
    let hand = hand.again();
    assert_eq!(hand.saved(), job::example(), "it opens by itself again");
}

#[test]
fn the_list_shows_what_was_kept_of_a_job_until_it_changes() {
    let hand = Hand::on(job::example());
    hand.go(Place::Walls, Page::Jobs);
    wait(2);
    let kept = |hand: &Hand| {
        hand.bridge.look(|desk| {
            let key = desk.open().expect("a job").key().clone();
            desk.jobs.row(&key)
        })
    };
    let before = kept(&hand).expect("the row is kept");
    assert!(before.contains("Orchard corner screen"));
    assert!(before.contains("strokes"));
    // What is kept is what is shown at the next start.
    let shown = hand.labels();
    let hand = hand.again();
    assert_eq!(hand.labels(), shown);
    assert_eq!(kept(&hand), Some(before));
    hand.go(Place::Walls, Page::Walls);
    hand.press("A to C");
    hand.press("Enter its figure");
    hand.keys("10300");
    hand.press("Next");
    wait(2);
    assert_eq!(kept(&hand), None, "it is of the job as it was");
    hand.go(Place::Walls, Page::Jobs);
    wait(2);
    assert!(kept(&hand).is_some());
}
