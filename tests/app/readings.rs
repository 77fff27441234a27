//! Walls under a hand: every kind of reading, marks and walls, the tape that is advised, and the
//! drawing moved and shown whole again.

use slint::platform::WindowEvent;
use slint::{ComponentHandle, Global, LogicalPosition, Model};
use tautmark::job::edit::{Thing, dependents};
use tautmark::job::model::{Mark, Wall};
use tautmark::job::reading::{Measure, Reading};
use tautmark::job::{self, Job};
use tautmark::solve;
use tautmark_app_tests::{Hand, settle};
use tautmark_ui::{DrawingVm, EntryVm, FrameVm, Page, Place, Verdict, WallsVm};

fn press_all(hand: &Hand, labels: &[&str]) {
    for label in labels {
        hand.press(label);
    }
}

/// The figure of the last reading.
fn last(job: &Job) -> Option<f64> {
    match job.readings.last()?.what {
        Measure::Tape { length, .. } | Measure::Offset { length, .. } => length,
        Measure::Angle { degrees, .. } => degrees,
        _ => None,
    }
}

/// Adds a reading, changes it, leaves it out, uses it again and deletes it; then undoes all of it
/// step by step, and does it all again.
fn lives(before: Job, adding: &[&str], figures: Option<[&str; 2]>, title: &str) {
    let hand = Hand::on(before.clone());
    let mut steps = vec![before.clone()];
    hand.press("Add a reading");
    press_all(&hand, adding);
    if let Some([first, second]) = figures {
        assert_eq!(hand.saved().readings.len(), before.readings.len() + 1);
        steps.push(hand.saved());
        hand.enter(first);
        assert_eq!(last(&hand.saved()), first.parse().ok());
        steps.push(hand.saved());
        press_all(&hand, &[title, "Enter its figure"]);
        hand.enter(second);
        assert_eq!(last(&hand.saved()), second.parse().ok());
    }
    steps.push(hand.saved());
    let added = hand.saved();
    assert_eq!(added.readings.len(), before.readings.len() + 1);
    assert_eq!(hand.shown().marks, solve(&added).marks);
    press_all(&hand, &[title, "Leave it out"]);
    assert!(!hand.saved().readings.last().is_some_and(|last| last.used));
    let rows = WallsVm::get(&hand.app).get_readings();
    let row = rows.iter().find(|row| row.title == title);
    assert!(row.is_some_and(|row| row.left_out && row.note == "left out"));
    steps.push(hand.saved());
    press_all(&hand, &[title, "Use it again"]);
    assert_eq!(hand.saved(), added);
    steps.push(added);
    press_all(&hand, &[title, "Delete it"]);
    assert_eq!(hand.saved(), before);
    steps.push(before);
    for step in steps.iter().rev().skip(1) {
        hand.press("Undo");
        assert_eq!(hand.saved(), *step);
    }
    for step in &steps[1..] {
        hand.press("Redo");
        assert_eq!(hand.saved(), *step);
    }
}

#[test]
fn a_tape_lives() {
    let adding = ["A tape", "F", "E"];
    lives(job::example(), &adding, Some(["6587", "6588"]), "F to E");
}

#[test]
fn an_offset_lives() {
    let adding = ["An offset", "Potting shed front", "On its left", "C"];
    lives(
        job::example(),
        &adding,
        Some(["4251", "4252"]),
        "C off shed",
    );
}

#[test]
fn an_angle_lives() {
    let adding = ["An angle", "B", "A", "E"];
    let title = "Angle at B, A to E";
    lives(job::example(), &adding, Some(["90.2", "90"]), title);
}

#[test]
fn a_mark_on_a_string_lives() {
    let mut job = Job::new("Pegs in a row");
    for (id, x) in [("A", 0.0), ("B", 4000.0), ("C", 2000.0)] {
        job.marks.push(Mark {
            id: id.into(),
            rough: Some([x, 0.0]),
            ..Mark::default()
        });
    }
    for (from, to, length) in [("A", "B", 4000.0), ("A", "C", 2000.0), ("C", "B", 2000.0)] {
        job.readings.push(Reading::from(Measure::Tape {
            from: from.into(),
            to: to.into(),
            length: Some(length),
            drop: 0.0,
        }));
    }
    let adding = ["On a string", "C", "A", "B"];
    lives(job, &adding, None, "C on A to B");
}

#[test]
fn a_tape_on_a_slope_lives() {
    let before = job::example();
    let hand = Hand::on(before.clone());
    press_all(&hand, &["B to C", "Taped on a slope"]);
    hand.enter("120");
    let drop = |job: &Job| match job.readings[4].what {
        Measure::Tape { drop, .. } => Some(drop),
        _ => None,
    };
    assert_eq!(drop(&hand.saved()), Some(120.0));
    hand.press("Undo");
    assert_eq!(hand.saved(), before);
}

#[test]
fn a_tape_that_cannot_close_is_named_and_kept() {
    let hand = Hand::with_no_job(360.0, 800.0);
    press_all(&hand, &["New job", "Two walls that meet"]);
    hand.enter("2000");
    hand.enter("2000");
    hand.keys("9000");
    let said = "One of A to B, A to C, B to C does not fit";
    assert!(hand.says(said), "{:?}", hand.labels());
    hand.picture("live-cannot-close");
    hand.press("Next");
    assert_eq!(last(&hand.saved()), Some(9000.0), "what was typed stays");
    assert!(hand.says(said), "{:?}", hand.labels());
}

/// The example with two figures of A to D swapped.
fn misread() -> Job {
    let mut job = job::example();
    if let Measure::Tape { length, .. } = &mut job.readings[5].what {
        *length = Some(13_946.0);
    }
    job
}

#[test]
fn no_figure_is_called_good_while_another_does_not_fit() {
    let hand = Hand::on(misread());
    assert_eq!(hand.shown().network.suspects, [5]);
    assert_eq!(hand.note("A to C"), "not judged while one does not fit");
    press_all(&hand, &["A to C", "Enter its figure"]);
    let verdict = |hand: &Hand| EntryVm::get(&hand.app).get_status().verdict;
    hand.keys("10881");
    let doubt = "It cannot be judged yet: A to D does not fit.";
    assert!(hand.says(doubt), "{:?}", hand.labels());
    assert_eq!(verdict(&hand), Verdict::Attention);
    for figure in ["10581", "11881", "10818"] {
        for _ in 0..5 {
            hand.press("Delete the last figure");
        }
        hand.keys(figure);
        assert!(!hand.shown().network.suspects.is_empty());
        assert_ne!(verdict(&hand), Verdict::Good, "{figure}");
    }
    hand.press("Leave this figure");
    hand.press("It was 13\u{a0}496");
    press_all(&hand, &["B to C", "Enter its figure"]);
    hand.keys("7630");
    assert_eq!(verdict(&hand), Verdict::Good);
}

#[test]
fn of_readings_that_cannot_be_told_apart_none_is_accused() {
    let hand = Hand::with_no_job(412.0, 915.0);
    press_all(&hand, &["New job", "Two walls, a gap between"]);
    for figure in ["4000", "4000", "3000", "5000", "5000", "3400"] {
        hand.enter(figure);
    }
    let suspects = hand.shown().network.suspects;
    assert!(suspects.len() > 1, "{suspects:?}");
    assert!(hand.note("A to D").starts_with("may be"));
    press_all(&hand, &["A to D", "Enter its figure"]);
    hand.keys("3400");
    assert!(hand.says("the others cannot tell which"));
    assert!(!hand.says("The other readings make this"));
}

#[test]
fn marks_and_walls_are_added_and_taken_back() {
    let before = job::example();
    let hand = Hand::on(before.clone());
    press_all(&hand, &["Add a reading", "A mark"]);
    hand.tap_plan(90.0, 60.0);
    let with_mark = hand.saved();
    assert_eq!(with_mark.marks.len(), before.marks.len() + 1);
    press_all(&hand, &["Add a reading", "A wall", "B", "G"]);
    let with_wall = hand.saved();
    let wall = with_wall.walls.last().expect("a wall");
    assert_eq!((wall.from.as_str(), wall.to.as_str()), ("B", "G"));
    hand.press("Undo");
    assert_eq!(hand.saved(), with_mark);
    hand.press("Undo");
    assert_eq!(hand.saved(), before);
    press_all(&hand, &["Redo", "Redo"]);
    assert_eq!(hand.saved(), with_wall);
}

#[test]
fn marks_and_walls_are_renamed_and_what_names_them_follows() {
    let before = job::example();
    let hand = Hand::on(before.clone());
    let there = ["Add a reading", "Marks and walls that are there"];
    press_all(&hand, &there);
    press_all(&hand, &["Mark F", "Rename it"]);
    hand.write("Name", "peg 9");
    hand.press("Back");
    assert!(
        hand.saved()
            .marks
            .iter()
            .any(|mark| mark.id.as_str() == "peg 9")
    );
    assert_eq!(hand.value("B to peg 9"), "7\u{a0}481 ±\u{a0}2\u{a0}mm");
    press_all(&hand, &there);
    press_all(&hand, &["Potting shed front", "Rename it"]);
    hand.write("Name", "Shed");
    hand.press("Back");
    let wall = |job: &Job| job.walls.first().map(|wall: &Wall| wall.name.clone());
    assert_eq!(wall(&hand.saved()).as_deref(), Some("Shed"));
    press_all(&hand, &["Undo", "Undo"]);
    assert_eq!(hand.saved(), before);
    assert!(!dependents(&before, &Thing::Mark("F".into())).is_empty());
    press_all(&hand, &there);
    press_all(&hand, &["Mark F", "Delete it"]);
    // What goes with it is said before it goes.
    hand.must_say("Goes too:");
    hand.must_say("Tape B to F");
    assert_eq!(hand.saved(), before);
    hand.press("Delete all of it");
    assert!(hand.saved().readings.len() < before.readings.len());
    hand.press("Undo");
    assert_eq!(hand.saved(), before);
}

/// Presses a mark on the plan, where its name stands.
fn press_mark(hand: &Hand, name: &str) {
    let labels = DrawingVm::get(&hand.app).get_drawing().labels;
    let label = labels.iter().find(|label| label.text == name);
    let label = label.unwrap_or_else(|| panic!("mark {name} is drawn"));
    hand.tap_plan(label.x, label.y);
}

#[test]
fn two_marks_pressed_on_the_plan_begin_a_tape() {
    let before = job::example();
    let hand = Hand::on(before.clone());
    press_mark(&hand, "A");
    hand.must_say("Mark A. Press another mark to tape to it.");
    press_mark(&hand, "D");
    assert_eq!(hand.saved(), before, "A to D is there: it is picked out");
    let picked = hand.bridge.look(|desk| desk.chosen.reading);
    let there = picked.map(|at| before.readings[at].what.clone());
    assert!(
        matches!(&there, Some(Measure::Tape { from, to, .. })
            if from.as_str() == "A" && to.as_str() == "D"),
        "{there:?}"
    );
    press_mark(&hand, "E");
    press_mark(&hand, "F");
    hand.enter("6631");
    assert_eq!(hand.saved().readings.len(), before.readings.len() + 1);
    assert_eq!(last(&hand.saved()), Some(6631.0));
    assert_eq!(hand.value("E to F"), "6\u{a0}631 ±\u{a0}2\u{a0}mm");
}

#[test]
fn the_advised_tape_is_one_press_away() {
    let hand = Hand::with_no_job(360.0, 800.0);
    press_all(&hand, &["New job", "Two walls, a gap between"]);
    for figure in ["5200", "4079", "4254", "9144", "7580", "11459"] {
        hand.enter(figure);
    }
    press_all(&hand, &["Add a reading", "A mark"]);
    hand.tap_plan(70.0, 40.0);
    assert!(hand.says("Mark E. Press the marks you tape it from."));
    // Two tapes that reach a place from wherever they are advised.
    for figure in ["5797", "6712"] {
        let next = hand.shown().advice.expect("a tape that fixes it");
        let name = format!("Tape {} to {}", next.from, next.to);
        assert!(hand.reaches(&name), "{:?}", hand.labels());
        hand.press(&name);
        hand.enter(figure);
    }
    assert!(hand.shown().network.loose.is_empty());
    assert_eq!(hand.saved().readings.len(), 8);
}

#[test]
fn a_new_mark_is_named_where_it_is_put_down() {
    let hand = Hand::on(job::example());
    press_all(&hand, &["Add a reading", "A mark"]);
    hand.tap_plan(70.0, 40.0);
    let newest = |hand: &Hand| hand.saved().marks.last().map(|mark| mark.id.to_string());
    assert_eq!(newest(&hand).as_deref(), Some("G"));
    hand.press("Name it");
    for name in ["g", "ga", "gate peg"] {
        hand.write("Name", name);
    }
    hand.press("Back");
    assert_eq!(newest(&hand).as_deref(), Some("gate peg"));
    // It is the one that is taped to, until it is fixed.
    press_mark(&hand, "A");
    assert!(hand.sees("Tape, gate peg to A"), "{:?}", hand.labels());
    hand.enter("2400");
    press_mark(&hand, "B");
    hand.enter("3100");
    assert!(hand.shown().network.loose.is_empty());
    press_mark(&hand, "A");
    hand.must_say("Mark A. Press another mark to tape to it.");
}

#[test]
fn the_advised_tape_that_waits_for_its_figure_is_asked_for_and_not_added_again() {
    let hand = Hand::with_no_job(360.0, 800.0);
    press_all(&hand, &["New job", "Two walls that meet"]);
    hand.enter("2000");
    hand.enter("2000");
    press_all(&hand, &["Leave this figure", "Tape B to C"]);
    hand.enter("2905");
    assert_eq!(hand.saved().readings.len(), 3);
    assert_eq!(last(&hand.saved()), Some(2905.0));
}

#[test]
fn the_wheel_enlarges_the_drawing_and_one_press_shows_it_whole() {
    let hand = Hand::on(job::example());
    let places = |hand: &Hand| -> Vec<(f32, f32)> {
        let labels = DrawingVm::get(&hand.app).get_drawing().labels;
        labels.iter().map(|label| (label.x, label.y)).collect()
    };
    let (whole, fit) = (places(&hand), "Show the whole drawing");
    assert!(!hand.sees(fit));
    hand.app
        .window()
        .dispatch_event(WindowEvent::PointerScrolled {
            position: LogicalPosition::new(200.0, 180.0),
            delta_x: 0.0,
            delta_y: 60.0,
        });
    settle();
    assert_ne!(places(&hand), whole);
    assert!(hand.reaches(fit));
    hand.press(fit);
    assert_eq!(places(&hand), whole);
    assert!(!hand.sees(fit));
}

#[test]
fn what_was_said_goes_with_the_next_thing_done() {
    let hand = Hand::on(job::example());
    let said = |hand: &Hand| FrameVm::get(&hand.app).get_snack().to_string();
    press_all(&hand, &["B to F", "Delete it"]);
    assert_eq!(said(&hand), "Reading deleted.");
    assert!(
        hand.reaches("Add a reading"),
        "nothing lies over what comes next"
    );
    hand.press("Undo");
    assert!(said(&hand).starts_with("Undone"), "{}", said(&hand));
    hand.press("Strings");
    assert_eq!(said(&hand), "");
    press_all(&hand, &["Walls", "B to F", "Delete it"]);
    assert_eq!(said(&hand), "Reading deleted.");
    press_all(&hand, &["A to C", "Leave it out"]);
    assert_eq!(said(&hand), "");
    press_all(
        &hand,
        &["A to E", "Delete it", "A to D", "Enter its figure"],
    );
    assert_eq!(said(&hand), "", "it does not lie over the keys");
}

#[test]
fn posts_are_not_trusted_while_a_reading_does_not_fit() {
    let hand = Hand::on(misread());
    let doubt = "A to D does not fit: put it right in Walls first";
    hand.press("Posts");
    assert!(hand.says(doubt), "{:?}", hand.labels());
    hand.press("Mark out post 1");
    hand.press("Close");
    assert!(hand.says(doubt), "{:?}", hand.labels());
    hand.go(Place::Walls, Page::Walls);
    hand.press("It was 13\u{a0}496");
    hand.press("Posts");
    assert!(!hand.says("does not fit"), "{:?}", hand.labels());
}

/// Beside the keypad of a wide screen the other places can be pressed.
#[test]
fn a_figure_left_half_typed_for_another_place_does_not_stand_as_entered() {
    let hand = Hand::on_screen(job::example(), 1280.0, 800.0);
    let before = hand.value("A to C");
    hand.press("A to C");
    hand.press("Enter its figure");
    hand.keys("9999");
    hand.press("Strings");
    hand.press("Walls");
    assert_eq!(hand.value("A to C"), before);
    assert_eq!(hand.saved(), job::example());
    hand.press("A to C");
    hand.press("Enter its figure");
    hand.must_say("9\u{a0}999");
}

/// Asks for the figure of a reading that is in the list.
fn ask(hand: &Hand, reading: &str) {
    press_all(hand, &[reading, "Enter its figure"]);
}

fn length_of(hand: &Hand, from: &str, to: &str) -> Option<f64> {
    let readings = hand.saved().readings;
    let mut lengths = readings.iter().filter_map(|one| match &one.what {
        Measure::Tape {
            from: a,
            to: b,
            length,
            ..
        } if (a.as_str(), b.as_str()) == (from, to) => *length,
        _ => None,
    });
    lengths.next()
}

#[test]
fn a_half_typed_tape_is_there_again_and_a_new_figure_takes_its_place() {
    let hand = Hand::on(job::example());
    ask(&hand, "A to C");
    hand.keys("33");
    hand.press("Leave this figure");
    ask(&hand, "A to C");
    hand.must_say("Typed before, not entered.");
    hand.keys("10881");
    hand.press("Next");
    assert_eq!(length_of(&hand, "A", "C"), Some(10_881.0));
    // ⌫ goes on with what was left.
    ask(&hand, "A to C");
    hand.keys("10887");
    hand.press("Leave this figure");
    ask(&hand, "A to C");
    hand.press("Delete the last figure");
    hand.keys("2");
    hand.press("Next");
    assert_eq!(length_of(&hand, "A", "C"), Some(10_882.0));
}

#[test]
fn a_half_typed_tape_stays_with_its_tape_when_another_is_deleted() {
    let hand = Hand::on(job::example());
    ask(&hand, "B to C");
    hand.keys("76");
    hand.press("Leave this figure");
    press_all(&hand, &["A to C", "Delete it"]);
    // What stands in the deleted one's place has nothing of it.
    for reading in ["A to B", "C to D", "B to D"] {
        ask(&hand, reading);
        assert!(!hand.says("Typed before"), "{reading}");
        hand.press("Leave this figure");
    }
    ask(&hand, "B to C");
    hand.must_say("Typed before, not entered.");
    hand.press("Leave this figure");
    // It goes with its tape.
    press_all(&hand, &["B to C", "Delete it"]);
    hand.press("Undo");
    ask(&hand, "B to C");
    assert!(!hand.says("Typed before"));
}

#[test]
fn a_figure_that_can_hardly_be_meant_is_asked_about_and_not_refused() {
    let hand = Hand::on(job::example());
    ask(&hand, "A to C");
    let before = length_of(&hand, "A", "C");
    hand.keys("333316");
    hand.press("Next");
    hand.must_say("longest other tape");
    assert_eq!(length_of(&hand, "A", "C"), before);
    hand.press("Enter it");
    assert_eq!(length_of(&hand, "A", "C"), Some(333_316.0));
}
