//! From an empty list of jobs to a solved job, with every figure typed on the keypad.

use slint::Global;
use tautmark::job::reading::Measure;
use tautmark::job::{self, Job};
use tautmark::solve;
use tautmark_app_tests::Hand;
use tautmark_ui::CornerVm;

fn lengths(job: &Job) -> Vec<Option<f64>> {
    let length = |reading: &job::reading::Reading| match reading.what {
        Measure::Tape { length, .. } => length,
        _ => None,
    };
    job.readings.iter().map(length).collect()
}

/// Types figures one after the other, each entered with Next.
fn type_all(hand: &Hand, figures: &[&str]) {
    for figure in figures {
        hand.keys(figure);
        hand.press("Next");
    }
}

#[test]
fn two_walls_with_a_gap_are_taped_from_nothing() {
    let hand = Hand::with_no_job(412.0, 915.0);
    hand.press("New job");
    hand.press("Two walls, a gap between");
    // A 4-3-5 pair of triangles: B at 4 m, C 3 m square off B, D 4 m on from C along the wall.
    type_all(&hand, &["4000", "4000", "3000", "5000", "5000", "3000"]);
    let job = hand.saved();
    assert_eq!(
        lengths(&job),
        [4000.0, 4000.0, 3000.0, 5000.0, 5000.0, 3000.0].map(Some)
    );
    let solution = hand.shown();
    assert_eq!(solution.marks, solve(&job).marks);
    assert!(solution.network.loose.is_empty());
    assert_eq!(solution.network.redundancy, 1);
    let agrees = |label: &String| label.starts_with("Four marks, all fixed.");
    assert!(hand.labels().iter().any(agrees), "{:?}", hand.labels());
}

#[test]
fn two_walls_that_meet_give_their_angle() {
    let hand = Hand::with_no_job(412.0, 915.0);
    hand.press("New job");
    hand.press("Two walls that meet");
    type_all(&hand, &["2000", "2000", "2905"]);
    let solution = hand.shown();
    let (b, c) = (&solution.marks["B"], &solution.marks["C"]);
    let angle = (c.y.atan2(c.x) - b.y.atan2(b.x)).to_degrees().abs();
    assert!((angle - 93.15).abs() < 0.01, "{angle}");
}

#[test]
fn one_wall_and_free_marks_start_too() {
    for (start, figures, fixed) in [
        ("One wall", &["3650"][..], 2),
        ("Pegs and marks only", &["4000", "5000", "3000"][..], 3),
    ] {
        std::thread::spawn(move || {
            let hand = Hand::with_no_job(360.0, 800.0);
            hand.press("New job");
            hand.press(start);
            type_all(&hand, figures);
            assert_eq!(hand.shown().marks.len(), fixed, "{start}");
        })
        .join()
        .expect("the start works");
    }
}

#[test]
fn a_sum_adds_the_tapes_case() {
    let hand = Hand::with_no_job(412.0, 915.0);
    hand.press("New job");
    hand.press("One wall");
    hand.keys("3574");
    hand.press("Plus");
    type_all(&hand, &["76"]);
    assert_eq!(lengths(&hand.saved()), [Some(3650.0)]);
}

#[test]
fn a_swapped_tape_is_corrected_from_its_hint() {
    let mut job = job::example();
    let Measure::Tape { length, .. } = &mut job.readings[5].what else {
        panic!("A to D is a tape")
    };
    assert_eq!(*length, Some(13_496.0));
    *length = Some(13_946.0);
    let hand = Hand::on(job);
    assert_eq!(hand.shown().network.suspects, [5]);
    hand.picture("live-misread");
    hand.press("It was 13\u{a0}496");
    assert_eq!(lengths(&hand.saved())[5], Some(13_496.0));
    assert!(hand.shown().network.suspects.is_empty());
}

#[test]
fn a_reading_left_out_is_taken_back_in() {
    let hand = Hand::on(job::example());
    hand.press("B to F");
    hand.press("Leave it out");
    assert!(!hand.saved().readings[12].used);
    hand.press("B to F");
    hand.press("Use it again");
    assert!(hand.saved().readings[12].used);
}

#[test]
fn everything_is_undone_back_to_nothing_and_redone() {
    let hand = Hand::with_no_job(412.0, 915.0);
    hand.press("New job");
    hand.press("Two walls that meet");
    let start = hand.saved();
    type_all(&hand, &["2000", "2000", "2905"]);
    let end = hand.saved();
    for _ in 0..3 {
        hand.press("Undo");
    }
    assert_eq!(hand.saved(), start);
    for _ in 0..3 {
        hand.press("Redo");
    }
    assert_eq!(hand.saved(), end);
}

#[test]
fn what_was_typed_and_left_is_there_again() {
    let hand = Hand::with_no_job(412.0, 915.0);
    hand.press("New job");
    hand.press("One wall");
    hand.keys("36");
    hand.press("Leave this figure");
    assert_eq!(lengths(&hand.saved()), [None]);
    hand.press("A to B");
    hand.press("Enter its figure");
    hand.must_say("Typed before, not entered.");
    hand.press("Delete the last figure");
    hand.keys("650");
    hand.press("Next");
    assert_eq!(lengths(&hand.saved()), [Some(3650.0)]);
}

#[test]
fn a_corner_shows_its_diagonal_and_what_a_reading_of_it_means() {
    let hand = Hand::on(job::example());
    hand.press("Strings");
    hand.picture("live-lines");
    hand.press("front meets side");
    let fix = &hand.shown().corners["X"];
    assert_eq!(
        hand.value("Angle between them"),
        format!("{:.1}° ±\u{a0}0.1°", fix.angle)
    );
    hand.picture("live-corner");
    hand.press("Choose other arms");
    hand.enter("1500");
    hand.press("Type what it reads");
    hand.keys("2400");
    hand.press("Next");
    let found = CornerVm::get(&hand.app).get_found().plain;
    assert!(
        found.contains("wider") && found.contains("Move the far end of string “side”"),
        "{found}"
    );
}

#[test]
fn where_nothing_checks_the_tapes_it_says_what_would() {
    let hand = Hand::with_no_job(412.0, 860.0);
    hand.press("New job");
    hand.press("Two walls that meet");
    for figure in ["3500", "2800", "4741"] {
        hand.enter(figure);
    }
    hand.must_say("nothing checks them. Tape one again from the start, or one more mark");
    hand.press("Add a reading");
    hand.press("A tape");
    hand.press("B");
    hand.press("C");
    hand.enter("4742");
    assert!(!hand.says("Tape one again"), "{:?}", hand.labels());
    hand.must_say("1 more than needed, and they agree.");
}
