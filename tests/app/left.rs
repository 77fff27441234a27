//! The app opens again where it was left.

use slint::Global;
use tautmark::job;
use tautmark::store::Jobs;
use tautmark_app_tests::{Hand, wait};
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
    hand.keys("50");
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
