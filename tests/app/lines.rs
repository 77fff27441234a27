//! Lines under a hand: strings off walls and through marks, nails, bow, corners and their check.

use slint::{Global, Model};
use tautmark::job;
use tautmark::job::model::Side;
use tautmark::job::reading::Measure;
use tautmark::solve;
use tautmark_app_tests::Hand;
use tautmark_ui::{Page, Place, WallsVm};

#[test]
fn a_string_goes_through_two_marks() {
    let hand = Hand::on(job::example());
    hand.press("Strings");
    hand.press("Add a string");
    hand.press("Through two marks");
    hand.press("B");
    hand.press("D");
    let job = hand.saved();
    let line = job.lines.last().expect("a string");
    let marks = line.marks.as_ref().expect("through marks");
    assert_eq!(marks.each_ref().map(|mark| mark.as_str()), ["B", "D"]);
    assert_eq!(hand.here(), (Place::Lines, Page::Line));
    let (fix, b, d) = (
        &hand.shown().lines[&line.id],
        &hand.shown().marks["B"],
        &hand.shown().marks["D"],
    );
    let bearing = (d.y - b.y).atan2(d.x - b.x).to_degrees();
    assert!(
        (fix.bearing - bearing).abs() < 1e-6,
        "{} and {bearing}",
        fix.bearing
    );
    assert!(!hand.sees("Add a nail"), "it is not off a wall");
    assert!(hand.reaches("Reverse it"));
}

#[test]
fn a_string_off_a_wall_is_nailed_and_tells_the_bow() {
    let hand = Hand::on(job::example());
    hand.press("Strings");
    hand.press("front");
    hand.press("Add a nail");
    hand.enter("1800");
    hand.enter("58");
    let job = hand.saved();
    let nails = job.lines[0].offsets.as_ref().expect("nails");
    assert_eq!((nails[2].at, nails[2].off), (Some(1800.0), Some(58.0)));
    assert!(
        hand.says("The wall bows: the nails are up to"),
        "{:?}",
        hand.shown().lines["front"]
    );
    hand.press("1\u{a0}800 along the wall");
    hand.press("Delete the nail");
    assert_eq!(hand.saved().lines, job::example().lines);
}

#[test]
fn a_new_string_runs_beside_a_wall() {
    let hand = Hand::on(job::example());
    hand.press("Strings");
    hand.press("Add a string");
    // Its first string says which side is its front.
    hand.press("Behind the Garden wall");
    hand.picture("live-stretch");
    hand.press("String off the wall");
    hand.must_say("Square off its face");
    hand.enter("200");
    hand.press("Second nail, along the wall");
    assert!(hand.says("Along the wall's face from mark C to the nail."));
    hand.enter("3600");
    let line = hand.saved().lines.last().cloned().expect("a string");
    let other = job::example().lines[1].side.expect("a side").other();
    let nails: Vec<_> = (line.offsets.iter().flatten())
        .map(|nail| (nail.at, nail.off))
        .collect();
    assert_eq!(line.side, Some(other));
    let wanted = [(Some(0.0), Some(200.0)), (Some(3600.0), Some(200.0))];
    assert_eq!(nails, wanted);
    assert!(hand.shown().lines.contains_key(&line.id));
    // The side in a picture, by the marks that a person sees there.
    hand.press("The other side");
    assert_eq!(hand.saved().lines[2].side, Some(other.other()));
    hand.press("Where A, B and E are");
    assert_eq!(hand.saved().lines[2].side, Some(other));
    hand.press("Delete this string");
    assert_eq!(hand.saved().lines, job::example().lines);
}

#[test]
fn a_string_beside_a_wall_that_bows_gets_another_nail() {
    let mut job = job::example();
    job.lines[0].offsets.as_mut().expect("nails").truncate(1);
    let hand = Hand::on(job);
    hand.press("Strings");
    hand.press("front");
    assert!(hand.says("One nail: taken as parallel to the wall."));
    hand.press("Add a nail");
    assert!(hand.says("Along the wall's face from mark A to the nail."));
    hand.enter("1800");
    assert!(
        hand.says("Square off the wall's face to the string, in front of the Potting shed front.")
    );
    hand.enter("50");
    assert!(!hand.says("One nail"), "{:?}", hand.labels());
}

#[test]
fn a_string_is_moved_renamed_and_deleted_and_all_of_it_is_undone() {
    let hand = Hand::on(job::example());
    hand.press("Strings");
    hand.press("front");
    let more = "Rename, move or delete this string";
    hand.press(more);
    hand.press("To the other side of the wall");
    assert_eq!(hand.saved().lines[0].side, Some(Side::Left));
    hand.press(more);
    hand.press("Rename or delete it");
    hand.press("Rename it");
    for name in ["S", "St", "Street"] {
        hand.write("Name", name);
    }
    hand.press("Back");
    hand.press("Strings");
    hand.press("Street");
    hand.press(more);
    hand.press("Rename or delete it");
    hand.press("Delete it");
    hand.must_say("Stays, but needs another:");
    hand.press("Delete all of it");
    assert_eq!(hand.here(), (Place::Lines, Page::Lines));
    assert_eq!(hand.saved().lines.len(), 1);
    for _ in 0..3 {
        hand.press("Undo");
    }
    assert_eq!(hand.saved(), job::example());
}

#[test]
fn a_corner_tells_both_settings_of_the_saw_and_where_each_figure_comes_from() {
    let hand = Hand::on(job::example());
    hand.press("Strings");
    hand.press("front meets side");
    let fix = &hand.shown().corners["X"];
    let saw = hand.value("Rail ends, saw set at");
    assert!(saw.contains(&format!("{:.1}°", fix.bevel)), "{saw}");
    assert!(
        saw.contains(&format!("{:.1}° from the length", 90.0 - fix.bevel)),
        "{saw}"
    );
    for figure in [
        "Angle between them",
        "Not square by",
        "Rail ends, saw set at",
        "Length of run R1",
    ] {
        hand.press(figure);
        assert!(hand.sees("Where it comes from"), "{figure}");
        hand.press("Close");
    }
    hand.press("Check it: mark 3\u{a0}000 on each string. The tape between the marks must read");
    assert!(hand.says("From the angle between the strings"));
}

#[test]
fn other_arms_make_another_diagonal() {
    let hand = Hand::on(job::example());
    hand.press("Strings");
    hand.press("front meets side");
    hand.press("Choose other arms");
    hand.enter("2000");
    let half = (hand.shown().corners["X"].angle / 2.0).to_radians();
    let across = 2.0 * 2000.0 * half.sin();
    let value = hand
        .value("Check it: mark 2\u{a0}000 on each string. The tape between the marks must read");
    let digits: String = value
        .chars()
        .take_while(|c| *c != '±')
        .filter(char::is_ascii_digit)
        .collect();
    assert_eq!(digits, format!("{across:.0}"));
    hand.press("Choose other arms");
    hand.keys("5");
    assert!(
        hand.says("Take arms between 100\u{a0}mm and 30\u{a0}000\u{a0}mm."),
        "{:?}",
        hand.labels()
    );
}

#[test]
fn what_a_diagonal_reads_is_told_against_what_it_must() {
    let hand = Hand::on(job::example());
    hand.press("Strings");
    hand.press("front meets side");
    let checks = hand.shown().corners["X"].check.clone();
    let three = checks.iter().find(|check| check.arm == 3000.0);
    let must = three.expect("arms of three metres").diagonal.round();
    for (off, told) in [
        (0.0, "this is the same, "),
        (-7.0, "this is 7\u{a0}mm shorter, "),
        (9.0, "this is 9\u{a0}mm longer, "),
    ] {
        hand.press("Type what it reads");
        hand.keys(&format!("{:.0}", must + off));
        hand.must_say(told);
        hand.press("Leave this figure");
    }
}

#[test]
fn a_corner_is_deleted_and_made_again() {
    let hand = Hand::on(job::example());
    hand.press("Strings");
    hand.press("front meets side");
    hand.press("Delete this corner");
    hand.press("Delete it");
    hand.press("Delete all of it");
    assert!(hand.saved().corners.is_empty());
    hand.press("Undo");
    assert_eq!(hand.saved(), job::example());
}

#[test]
fn how_sure_a_reading_is_opens_its_reason() {
    let hand = Hand::on(job::example());
    hand.press("A to C");
    hand.press("How sure it is");
    assert!(
        hand.says("how well one reading of the tape"),
        "{:?}",
        hand.labels()
    );
    assert!(!hand.says("another tape"), "it is not the longest");
}

#[test]
fn the_misread_tape_stands_first() {
    let mut job = job::example();
    let Measure::Tape { length, .. } = &mut job.readings[5].what else {
        panic!("A to D is a tape")
    };
    *length = Some(13_946.0);
    let hand = Hand::on(job);
    let first = WallsVm::get(&hand.app).get_readings().row_data(0);
    let row = first.expect("readings");
    assert_eq!((row.id.as_str(), row.title.as_str()), ("5", "A to D"));
    assert!(row.note.starts_with("does not fit"), "{}", row.note);
    assert_eq!(solve(&hand.saved()).network.suspects, [5]);
}
