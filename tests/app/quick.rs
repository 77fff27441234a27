//! Quick sums as a person types them, without a job: each gives the figure that is known for it.

use tautmark::job;
use tautmark::length::{InchPart, Unit, show};
use tautmark::solve;
use tautmark_app_tests::Hand;

/// A no-break space between thousands.
const NB: &str = "\u{a0}";

/// Opens a sum from the list of all of them, with no job on the desk.
fn sum(title: &str) -> Hand {
    let hand = Hand::with_no_job(412.0, 915.0);
    hand.press("All quick sums");
    hand.press(title);
    hand
}

/// Types the figures that a sum asks for, one after the other; `d` and `u` press Down and Up.
fn type_all(hand: &Hand, first: &str, figures: &[&str]) {
    hand.press(&format!("Next: {first}"));
    for figure in figures {
        for key in figure.chars() {
            match key {
                'd' => hand.press("Down"),
                'u' => hand.press("Up"),
                key => hand.press(&key.to_string()),
            }
        }
        hand.press("Next");
    }
    // Figures that the sum can do without.
    if hand.sees("Leave this figure") {
        hand.press("Leave this figure");
    }
}

#[test]
fn every_sum_is_in_the_list_and_opens_with_nothing_typed() {
    let hand = Hand::with_no_job(412.0, 915.0);
    hand.press("All quick sums");
    for title in [
        "Corner by three tapes",
        "Is it square?",
        "Point by two tapes",
        "Tapes to a point",
        "Tape on a slope",
        "Sag of a tape or line",
        "Do my two tapes agree?",
        "Tape for an angle",
        "Turn a string",
        "Diagonal of a rectangle",
        "Equal spaces",
        "Equal gaps",
        "Concrete for the holes",
        "Level round a corner",
        "Check the laser",
        "Check the laser on one wall",
        "Check the spirit level",
        "Steps down a fall",
        "Sloping rail",
        "Rail ends at a corner",
        "Pales and their lap",
        "Notch in a post",
        "Gate leaf",
        "Ground under a gate",
        "Brace of a gate",
        "Gate at its lock",
        "Dug ground to be rid of",
        "Bolts on a wall post",
        "Screws for a fence",
    ] {
        hand.press(title);
        assert!(
            hand.labels()
                .iter()
                .any(|label| label.starts_with("Next: ")),
            "{title} asks for its first figure"
        );
        hand.press("Back");
        assert!(hand.sees("Quick sums"), "back to the list from {title}");
    }
    hand.press("Back");
    assert!(hand.sees("Jobs"));
}

#[test]
fn a_wall_corner_from_two_metres_along_each_wall() {
    let hand = Hand::with_no_job(412.0, 915.0);
    hand.press("Corner by three tapes");
    hand.press("Next: First leg");
    hand.keys("2000");
    hand.press("Next");
    hand.keys("2000");
    hand.press("Next");
    hand.keys("2905");
    hand.must_say("Inside angle 93.15°");
    hand.press("Next");
    hand.press("Leave this figure");
    assert_eq!(hand.value("Inside angle"), format!("93.15° ±{NB}0.12°"));
    assert_eq!(hand.value("Mitre, saw set at"), "43.4°");
    assert_eq!(hand.value("Not square by"), "3.15°");
    hand.press("Back");
    assert!(hand.sees("Jobs"), "back to where it was opened");
    hand.press("Corner by three tapes");
    assert_eq!(hand.value("Across"), format!("2{NB}905"), "nothing is lost");
    hand.press("Back");
    hand.press("All quick sums");
    hand.press("I");
    hand.press("Corner by three tapes");
    assert_eq!(hand.value("Inside angle"), format!("93.15° ±{NB}0.12°"));
}

#[test]
fn three_tapes_taken_for_a_right_angle() {
    let hand = sum("Corner by three tapes");
    type_all(&hand, "First leg", &["1000", "1500", "2000"]);
    assert!(hand.value("Inside angle").starts_with("104.48°"));
}

#[test]
fn what_cannot_close_is_said_beside_its_figure_and_kept() {
    let hand = sum("Corner by three tapes");
    type_all(&hand, "First leg", &["2000", "2000", "4100"]);
    hand.must_say("cannot close");
    assert!(hand.note("Across").contains("100\u{a0}mm longer"));
    assert_eq!(hand.value("Across"), format!("4{NB}100"));
    hand.press("Start again");
    assert_eq!(hand.value("Across"), "—");
    hand.press("Bring them back");
    assert_eq!(hand.value("Across"), format!("4{NB}100"));
}

#[test]
fn the_tape_across_for_an_angle() {
    let hand = sum("Tape for an angle");
    type_all(&hand, "First leg", &["4000", "3000"]);
    assert_eq!(
        hand.value("The tape across must read"),
        format!("5{NB}000 mm")
    );
    assert_eq!(hand.value("1 mm on the tape turns it"), "0.024°");
    hand.press("Angle wanted");
    hand.keys("100");
    hand.press("Next");
    assert_eq!(
        hand.value("The tape across must read"),
        format!("5{NB}401 mm")
    );
}

#[test]
fn a_string_is_turned_square() {
    let hand = sum("Turn a string");
    type_all(&hand, "First leg", &["2000", "2000", "2905", "4000"]);
    let value = hand.value("Close it: move the end towards the first string by");
    assert!(value.starts_with("220"), "{value}");
}

#[test]
fn a_trapezium_with_equal_diagonals_is_not_square() {
    let hand = Hand::with_no_job(412.0, 915.0);
    hand.press("All quick sums");
    hand.press("ft in");
    // Read to the half inch between pegs.
    hand.press("Typical error of a tape reading");
    hand.keys("0.25");
    hand.press("Next");
    hand.press("Is it square?");
    // 9 ft, 15 ft, 8 ft, 15 ft, and 206.5 in twice; a bare figure is inches.
    let sides = ["108", "180", "96", "180", "206.5", "206.5"];
    type_all(&hand, "Side A to B", &sides);
    hand.must_say("equal diagonals alone do not make it square");
    assert!(hand.sees("Make opposite sides equal first; each diagonal is then"));
    hand.press("Back");
    hand.press("Diagonal of a rectangle");
    type_all(&hand, "One side", &["108", "180"]);
    // 209.91 in to the nearest sixteenth.
    let known = show(209.91 * 25.4, Unit::FEET);
    assert_eq!(hand.value("Both diagonals must read"), known);
}

#[test]
fn a_point_by_two_tapes_and_back() {
    let hand = sum("Point by two tapes");
    type_all(&hand, "Between the marks", &["5000", "3000", "4000"]);
    assert!(
        hand.value("Square off the base")
            .starts_with(&format!("2{NB}400"))
    );
    assert!(
        hand.value("Along it from the first mark")
            .starts_with(&format!("1{NB}800"))
    );
    let hand = std::thread::spawn(|| {
        let hand = sum("Tapes to a point");
        type_all(&hand, "Between the marks", &["5000", "1800", "2400"]);
        assert_eq!(hand.value("From the first mark"), format!("3{NB}000 mm"));
        assert_eq!(hand.value("From the second mark"), format!("4{NB}000 mm"));
    });
    hand.join().expect("the tapes lead back to the point");
}

#[test]
fn bays_of_about_seven_point_seven_feet() {
    let hand = Hand::with_no_job(412.0, 915.0);
    hand.press("All quick sums");
    hand.press("ft in");
    hand.press("Equal spaces");
    hand.press("Next: Length to fill");
    hand.keys("1200");
    hand.press("Next");
    hand.keys("92.4");
    hand.press("Next");
    hand.press("Leave this figure");
    let size = tautmark::length::show_fine(7.692_307_7 * 304.8, Unit::FEET, 1);
    assert_eq!(hand.value("13 bays, each centre to centre"), size);
    assert_eq!(hand.value("Posts"), "14");
    hand.press("Or so many bays");
    hand.keys("14");
    hand.press("Next");
    let size = tautmark::length::show_fine(7.142_857 * 304.8, Unit::FEET, 1);
    assert_eq!(hand.value("14 bays, each centre to centre"), size);
}

#[test]
fn pickets_pales_falls_and_holes() {
    let cases: [(&str, &str, &[&str], &str, &str); 5] = [
        // 12 pickets of 5.5 in in 96 in, flush: 2.727 in.
        (
            "Equal gaps",
            "Length to fill",
            &["2438.4", "139.7", "70", "12"],
            "12 pieces, the gap between them",
            "69.3 mm",
        ),
        (
            "Pales and their lap",
            "Width to cover",
            &["1800", "125", "20"],
            "True lap",
            "20.3 mm",
        ),
        (
            "Pales and their lap",
            "Width to cover",
            &["3000", "125", "20"],
            "Pales",
            "29",
        ),
        (
            "Steps down a fall",
            "Fall from start to end",
            &["609.6", "4", "2438.4"],
            "The ground slopes at",
            "3.58°",
        ),
        // A hole of 8 by 24 in round a 5.5 in post: 7.87 L.
        (
            "Concrete for the holes",
            "Across the hole",
            &["203.2", "609.6", "26"],
            "One hole as drawn",
            "7.87 litres",
        ),
    ];
    for (title, first, figures, what, known) in cases {
        let tried = std::thread::spawn(move || {
            let hand = sum(title);
            if title.starts_with("Concrete") {
                hand.press("Post, square");
                hand.keys("139.7");
                hand.press("Next");
                hand.press("Leave this figure");
            }
            type_all(&hand, first, figures);
            assert_eq!(hand.value(what), known, "{title}");
        });
        tried.join().expect("the known figure");
    }
}

#[test]
fn a_level_is_carried_round_a_corner() {
    let hand = Hand::with_no_job(412.0, 915.0);
    hand.press("Level round a corner");
    type_all(&hand, "Datum from the first place", &["400", "612", "575"]);
    let value = hand.value("The second line is lower by");
    assert!(value.starts_with("37 ±"), "{value}");
    hand.must_say("measure 37 less down");
    hand.press("A mark under the first line");
    hand.keys("900");
    hand.press("Next");
    assert!(
        hand.value("That mark from the second line")
            .starts_with("863 down")
    );
    hand.press("Datum from the second");
    hand.keys("363");
    hand.press("Next");
    hand.must_say("The levels close.");
}

#[test]
fn a_level_that_dips_is_found_by_two_pegs() {
    let hand = Hand::with_no_job(412.0, 915.0);
    hand.press("Check the laser");
    let figures = ["50000", "1283", "860", "55000", "5000", "1612", "1219"];
    type_all(&hand, "Between the pegs", &figures);
    let what = "The line dips away from the laser by";
    assert_eq!(hand.value(what), format!("0.60 ±{NB}0.08 mm per m"));
    assert_eq!(hand.value("Peg A, second place, true"), format!("1{NB}645"));
    assert_eq!(hand.value("Peg B, second place, true"), format!("1{NB}222"));
    hand.press("Keep in a job");
    hand.press("Back");
    hand.press("All quick sums");
    assert_eq!(hand.value("Laser's stated accuracy, mm per m"), "0.6");
}

#[test]
fn the_rest_give_what_the_core_gives() {
    let cases: [(&str, &str, &[&str], &str, &str); 11] = [
        (
            "Diagonal of a rectangle",
            "One side",
            &["3000", "4000"],
            "Both diagonals must read",
            "5\u{a0}000 mm",
        ),
        (
            "Tape on a slope",
            "The tape reads",
            &["10000", "500"],
            "The tape reads too long by",
            "12.5 mm",
        ),
        (
            "Sag of a tape or line",
            "Length between its ends",
            &["10000"],
            "Its middle hangs by",
            "2.9 mm",
        ),
        (
            "Do my two tapes agree?",
            "First tape",
            &["3010", "3000"],
            "They differ by",
            "10 ±\u{a0}3\u{a0}mm",
        ),
        (
            "Check the laser on one wall",
            "Laser to the wall",
            &["20000", "d24"],
            "The line climbs away from the laser by",
            "0.60 ±\u{a0}0.07 mm per m",
        ),
        (
            "Check the spirit level",
            "Packing, first way round",
            &["6", "2"],
            "The level is out by",
            "2 ±\u{a0}0.7\u{a0}mm",
        ),
        (
            "Sloping rail",
            "Between the posts, level",
            &["1800", "240"],
            "Rail, face to face",
            "1\u{a0}816 mm",
        ),
        (
            "Rail ends at a corner",
            "Angle inside the corner",
            &["93.15"],
            "Mitre, saw set at",
            "43.4° from square",
        ),
        (
            "Notch in a post",
            "Depth of the post",
            &["100", "20"],
            "It leaves, in bending",
            "64 % of the post",
        ),
        (
            "Gate leaf",
            "Opening at the top",
            &["1042", "1040", "1037"],
            "Width of the leaf",
            "1\u{a0}012 mm",
        ),
        (
            "Gate at its lock",
            "Thickness of the frame",
            &["45", "22"],
            "Shortest shaft",
            "72 mm",
        ),
    ];
    for (title, first, figures, what, known) in cases {
        let tried = std::thread::spawn(move || {
            let hand = sum(title);
            type_all(&hand, first, figures);
            assert_eq!(hand.value(what), known, "{title}");
        });
        tried.join().expect("the known figure");
    }
}

#[test]
fn a_gate_that_strikes_is_said_to() {
    let hand = sum("Ground under a gate");
    type_all(
        &hand,
        "Gap under the leaf at the hinge",
        &["50", "15", "42", "0"],
    );
    assert_eq!(hand.value("Least clearance"), "8 mm");
    hand.must_say("Hang it 22 higher");
}

#[test]
fn a_corner_is_kept_as_a_job_of_its_own() {
    let hand = sum("Corner by three tapes");
    type_all(&hand, "First leg", &["2000", "2000", "2905"]);
    hand.press("Keep in a job");
    let job = hand.saved();
    let solution = solve(&job);
    assert_eq!(
        (job.marks.len(), job.walls.len(), job.readings.len()),
        (3, 2, 3)
    );
    assert!(solution.network.loose.is_empty());
    let (b, c) = (&solution.marks["B"], &solution.marks["C"]);
    let angle = (c.y.atan2(c.x) - b.y.atan2(b.x)).to_degrees().abs();
    assert!((angle - 93.15).abs() < 0.005, "{angle}");
    assert!(hand.sees("Walls"));
}

#[test]
fn a_tapered_face_and_its_packing_are_off_until_chosen() {
    let hand = sum("Gate at its lock");
    type_all(&hand, "Thickness of the frame", &["45", "22", "95"]);
    assert_eq!(hand.value("Shortest shaft"), "72 mm");
    assert_eq!(hand.value("Packing beside the stile"), "25 mm");
    hand.press("Tapered");
    hand.must_say("The board tapers: its thin edge is wanted too.");
    for (row, figure) in [
        ("Tapered board, thin edge", "8"),
        ("Tapered board, width", "150"),
        ("Thin edge to the lock", "75"),
    ] {
        hand.press(row);
        hand.enter(figure);
        if hand.sees("Leave this figure") {
            hand.press("Leave this figure");
        }
    }
    assert_eq!(hand.value("Shortest shaft"), "65 mm");
    hand.press("Turned offcut");
    assert_eq!(hand.value("The turned offcut there"), "15 mm");
    assert_eq!(hand.value("Shortest shaft"), "80 mm");
    hand.picture("live-quick-lock");
}

#[test]
fn a_lock_is_kept_with_a_gate_of_the_open_job() {
    let hand = beside_the_example("Gate at its lock");
    type_all(&hand, "Thickness of the frame", &["45", "18", "95"]);
    hand.press("Keep in a job");
    hand.press("Gate 1 of Run R1");
    let gate = hand.saved().runs[0].gates[0].clone();
    let (leaf, lock) = (gate.leaf.expect("a leaf"), gate.lock.expect("a lock"));
    assert_eq!((leaf.thick, leaf.face, leaf.stile), (45.0, 18.0, 70.0));
    assert_eq!((lock.backset, lock.case, lock.offcut), (60.0, 95.0, None));
    hand.press("Undo");
    assert_eq!(hand.saved(), job::example());
}

#[test]
fn what_is_kept_with_a_gate_says_so_where_there_is_none() {
    let hand = sum("Brace of a gate");
    type_all(&hand, "Width of the leaf", &["932", "1600"]);
    hand.press("Keep in a job");
    hand.must_say("It is kept with a gate");
}

#[test]
fn bolts_spoil_and_screws_are_kept_as_the_jobs_own() {
    let hand = beside_the_example("Bolts on a wall post");
    type_all(&hand, "Length of the post", &["1700"]);
    hand.press("From each end to its nearest bolt");
    hand.enter("120");
    hand.press("Keep in a job");
    hand.press(&job::example().title);
    let wall = hand.saved().boards.fixings.expect("fixings").wall;
    assert_eq!((wall.ends, wall.most), (120.0, 500.0));

    let hand = beside_the_example("Dug ground to be rid of");
    type_all(&hand, "Number of holes", &["3", "9000"]);
    hand.press("Turf or slabs, thickness");
    hand.enter("80");
    hand.press("Keep in a job");
    hand.press("A new job");
    let clear = hand.saved().boards.clear.expect("a strip");
    assert_eq!((clear.width, clear.depth), (300.0, 80.0));

    let hand = beside_the_example("Screws for a fence");
    type_all(&hand, "Pales", &["60", "4"]);
    hand.press("Rails under each pale");
    hand.enter("2");
    hand.press("Keep in a job");
    hand.press(&job::example().title);
    let boards = hand.saved().boards;
    assert_eq!(boards.rails.expect("rails").count, 2);
    assert_eq!(boards.fixings.expect("fixings").rail, 2);
}

/// The built-in example open, and a sum from the list of jobs.
fn beside_the_example(title: &str) -> Hand {
    let hand = Hand::on(job::example());
    let job = job::example().title;
    hand.press(&job);
    if !hand.sees(title) {
        hand.press("All quick sums");
    }
    hand.press(title);
    hand
}

#[test]
fn a_point_is_kept_between_two_marks_of_the_open_job() {
    let hand = beside_the_example("Point by two tapes");
    let before = hand.saved();
    let solution = solve(&before);
    let apart = |a: &str, b: &str| {
        let (a, b) = (&solution.marks[a], &solution.marks[b]);
        (a.x - b.x).hypot(a.y - b.y)
    };
    let base = format!("{:.0}", apart("A", "B"));
    type_all(&hand, "Between the marks", &[&base, "3000", "4000"]);
    hand.press("Keep in a job");
    hand.press("Mark A");
    hand.press("Mark B");
    let after = hand.saved();
    assert_eq!(after.marks.len(), before.marks.len() + 1);
    assert_eq!(after.readings.len(), before.readings.len() + 3);
    let made = solve(&after);
    assert!(made.network.loose.is_empty() && made.network.suspects.is_empty());
    let new = &made.marks[&after.marks[before.marks.len()].id];
    let a = &made.marks["A"];
    assert!(((new.x - a.x).hypot(new.y - a.y) - 3000.0).abs() < 1.0);
    hand.press("Undo");
    assert_eq!(
        hand.saved(),
        before,
        "kept in one step that is taken back at once"
    );
}

#[test]
fn equal_spaces_become_the_bays_of_a_run() {
    let hand = beside_the_example("Equal spaces");
    hand.press("Next: Length to fill");
    hand.keys("5240");
    hand.press("Next");
    hand.keys("1200");
    hand.press("Next");
    hand.press("Leave this figure");
    hand.press("Keep in a job");
    hand.press("Run R1");
    let job = hand.saved();
    assert_eq!(job.runs[0].bays.as_ref().map(|bays| bays.max), Some(1200.0));
    assert!(hand.sees("Mark out post 1"));
}

#[test]
fn equal_spaces_make_a_run_of_their_own() {
    let hand = sum("Equal spaces");
    type_all(&hand, "Length to fill", &["9200", "1900"]);
    hand.press("Keep in a job");
    let solution = solve(&hand.saved());
    let posts = &solution.runs["R1"].posts;
    let at: Vec<f64> = posts.iter().map(|post| post.centre.round()).collect();
    assert_eq!(at, [0.0, 1840.0, 3680.0, 5520.0, 7360.0, 9200.0]);
}

#[test]
fn so_many_equal_spaces_are_kept_without_a_longest_one() {
    let hand = sum("Equal spaces");
    hand.press("Length to fill");
    hand.keys("9200");
    hand.press("Next");
    hand.press("Leave this figure");
    hand.press("Or so many bays");
    hand.enter("5");
    hand.press("Keep in a job");
    let solution = solve(&hand.saved());
    assert_eq!(solution.runs["R1"].posts.len(), 6);
}

#[test]
fn a_carried_level_becomes_set_ups_and_sights() {
    let hand = sum("Level round a corner");
    type_all(&hand, "Datum from the first place", &["400", "612", "575"]);
    hand.press("Keep in a job");
    let levels = solve(&hand.saved()).levels.expect("levels");
    assert!((levels.setups["S2"].step + 37.0).abs() < 1e-6);
    assert!((levels.setups["S1"].line - 400.0).abs() < 1e-6);
}

#[test]
fn the_unit_of_a_sum_is_that_of_the_open_job() {
    let mut job = job::example();
    job.show.lengths = Unit::FEET;
    let hand = Hand::on(job);
    hand.press(&job::example().title);
    hand.press("All quick sums");
    hand.press("Diagonal of a rectangle");
    type_all(&hand, "One side", &["36", "48"]);
    assert_eq!(
        hand.value("Both diagonals must read"),
        show(1524.0, Unit::FEET)
    );
}

#[test]
fn a_number_of_bays_that_is_none_is_refused() {
    let hand = sum("Equal spaces");
    type_all(&hand, "Length to fill", &["9000", "1800", "0"]);
    assert!(hand.note("Or so many bays").contains("at least one"));
    hand.press("Or so many bays");
    hand.press("Minus");
    hand.keys("2");
    hand.press("Next");
    assert!(hand.note("Or so many bays").contains("at least one"));
    // With nothing typed, taking back takes the figure itself away.
    hand.press("Or so many bays");
    hand.press("Delete the last figure");
    hand.press("Leave this figure");
    assert_eq!(hand.value("Or so many bays"), "—");
    assert!(hand.sees("5 bays, each centre to centre"));
}

#[test]
fn a_post_that_leans_by_nearly_its_height_is_refused() {
    let hand = sum("Gate leaf");
    type_all(
        &hand,
        "Opening at the top",
        &["1042", "1040", "1037", "1500"],
    );
    assert!(hand.note("Hinge post leans by").contains("fallen over"));
}

#[test]
fn a_typed_minus_is_not_dropped() {
    let hand = sum("Diagonal of a rectangle");
    hand.press("Next: One side");
    hand.press("Minus");
    hand.keys("3000");
    hand.press("Next");
    hand.keys("4000");
    hand.press("Next");
    assert!(hand.note("One side").contains("more than 0"));
}

#[test]
fn ten_foot_two_and_a_half_is_keyed_as_it_is_said() {
    let hand = Hand::with_no_job(412.0, 915.0);
    hand.press("All quick sums");
    hand.press("ft in");
    hand.press("Diagonal of a rectangle");
    hand.press("Next: One side");
    for key in ["1", "0", "ft", "2", "1/2"] {
        hand.press(key);
    }
    hand.press("Next");
    hand.press("Leave this figure");
    let known = show(122.5 * 25.4, Unit::FEET);
    assert_eq!(hand.value("One side"), known);
    // The fraction key is taken back in one press.
    hand.press("One side");
    for key in ["1", "0", "ft", "2", "1/2", "Delete the last figure"] {
        hand.press(key);
    }
    hand.press("Next");
    hand.press("Leave this figure");
    assert_eq!(hand.value("One side"), show(122.0 * 25.4, Unit::FEET));
}

#[test]
fn what_is_usual_is_native_and_rounded_to_the_persons_own_part() {
    let hand = Hand::with_no_job(412.0, 915.0);
    hand.press("All quick sums");
    hand.press("ft in");
    hand.press("1/8");
    hand.press("Gate leaf");
    assert_eq!(hand.value("Gap at the hinges"), "3/4″");
    assert_eq!(hand.value("Gap at the latch"), "1/2″");
    type_all(&hand, "Opening at the top", &["41.1", "41", "41.2"]);
    // 41 less 1 1/4 in.
    let known = show(39.75 * 25.4, Unit::FtIn(InchPart::Eighth));
    assert_eq!(hand.value("Width of the leaf"), known);
}

#[test]
fn stepping_a_rounded_bay_is_worked_with_the_figure_shown() {
    let hand = Hand::with_no_job(412.0, 915.0);
    hand.press("All quick sums");
    hand.press("ft in");
    hand.press("Equal spaces");
    // 100 ft in 13 bays is 7 ft 8 4/13 in, shown as 8 5/16: over by 13 times 1/208 in, a sixteenth.
    type_all(&hand, "Length to fill", &["1200", "92.4"]);
    let [bay, over] = [92.3125, 0.0625].map(|inches| show(inches * 25.4, Unit::FEET));
    hand.must_say(&format!(
        "Stepping {bay} bay by bay would end {over} too far"
    ));
}
