//! The four starts, from nothing with typed figures: what is shown is what the core makes of the same
//! site written down by hand.

use slint::{Global, Model};
use tautmark::job::model::{Mark, Wall};
use tautmark::job::reading::{Measure, Reading};
use tautmark::job::{Job, MarkId};
use tautmark::length::{Unit, show};
use tautmark::solve;
use tautmark_app_tests::Hand;
use tautmark_ui::{FrameVm, WallsVm};

/// A site written down by hand: marks where they are about, and the tapes between them.
fn site(marks: &[(&str, f64, f64)], walls: &[[&str; 3]], tapes: &[(&str, &str, f64)]) -> Job {
    let mut job = Job::new("By hand");
    for &(id, x, y) in marks {
        job.marks.push(Mark {
            id: id.into(),
            rough: Some([x, y]),
            ..Mark::default()
        });
    }
    for &[id, from, to] in walls {
        job.walls.push(Wall {
            id: id.into(),
            from: from.into(),
            to: to.into(),
            ..Wall::default()
        });
    }
    for &(from, to, length) in tapes {
        job.readings.push(Reading::from(Measure::Tape {
            from: MarkId::from(from),
            to: MarkId::from(to),
            length: Some(length),
            drop: 0.0,
        }));
    }
    job
}

/// Starts a job, types its tapes in the order in which they are asked for, and compares.
fn reaches(start: &str, by_hand: &Job, status: &str) {
    let hand = Hand::with_no_job(412.0, 915.0);
    hand.press("New job");
    hand.press(start);
    for reading in &by_hand.readings {
        let Measure::Tape {
            from, to, length, ..
        } = &reading.what
        else {
            panic!("only tapes are asked for")
        };
        assert!(
            hand.sees(&format!("Tape, {from} to {to}")),
            "{:?}",
            hand.labels()
        );
        hand.keys(&format!("{:.0}", length.expect("a figure")));
        hand.press("Next");
    }
    let core = solve(by_hand);
    let shown = hand.bridge.look(|desk| desk.solution.clone());
    assert_eq!(shown.network, core.network);
    assert_eq!(shown.readings, core.readings);
    assert_eq!(shown.advice, core.advice);
    assert_eq!(shown.marks.len(), core.marks.len());
    for (id, mark) in &core.marks {
        let own = &shown.marks[id];
        assert!((own.x - mark.x).hypot(own.y - mark.y) < 1e-6, "{id}");
        assert!((own.pm - mark.pm).abs() < 1e-6, "{id}");
    }
    for (own, line) in shown.lines.values().zip(core.lines.values()) {
        assert!((own.bearing - line.bearing).abs() < 1e-9);
        assert!((own.x - line.x).hypot(own.y - line.y) < 1e-6);
    }
    assert_eq!(shown.lines.len(), core.lines.len());
    assert!(hand.says(status), "{status:?} in {:?}", hand.labels());
    let rows = WallsVm::get(&hand.app).get_readings();
    let figures: Vec<String> = rows.iter().map(|row| row.figure.to_string()).collect();
    let typed = by_hand
        .readings
        .iter()
        .filter_map(|reading| match reading.what {
            Measure::Tape { length, .. } => length.map(|mm| show(mm, Unit::Mm)),
            _ => None,
        });
    assert_eq!(figures, typed.collect::<Vec<_>>());
}

#[test]
fn two_walls_with_a_gap() {
    let job = site(
        &[
            ("A", 0.0, 0.0),
            ("B", 4000.0, 0.0),
            ("C", 9000.0, 3500.0),
            ("D", 10_000.0, 7000.0),
        ],
        &[["first", "A", "B"], ["second", "C", "D"]],
        &[
            ("A", "B", 3649.0),
            ("C", "D", 3801.0),
            ("B", "C", 7630.0),
            ("A", "C", 10_881.0),
            ("B", "D", 10_730.0),
            ("A", "D", 13_496.0),
        ],
    );
    reaches("Two walls, a gap between", &job, "Four marks, all fixed.");
}

#[test]
fn two_walls_that_meet() {
    let job = site(
        &[("A", 0.0, 0.0), ("B", 4000.0, 0.0), ("C", 0.0, 3000.0)],
        &[["first", "A", "B"], ["second", "A", "C"]],
        &[("A", "B", 2000.0), ("A", "C", 2000.0), ("B", "C", 2905.0)],
    );
    reaches("Two walls that meet", &job, "Three marks, all fixed.");
}

#[test]
fn one_wall() {
    let job = site(
        &[("A", 0.0, 0.0), ("B", 4000.0, 0.0)],
        &[["wall", "A", "B"]],
        &[("A", "B", 3650.0)],
    );
    reaches("One wall", &job, "Two marks, all fixed.");
}

#[test]
fn pegs_and_marks_only() {
    let job = site(
        &[("A", 0.0, 0.0), ("B", 4000.0, 0.0), ("C", 2000.0, 3000.0)],
        &[],
        &[("A", "B", 4000.0), ("B", "C", 5000.0), ("A", "C", 3000.0)],
    );
    reaches("Pegs and marks only", &job, "Three marks, all fixed.");
}

/// From the last tape of a start to the posts: what comes next is pressed, what is asked is answered.
/// Returns how many posts stand.
fn goes_on_to_posts(start: &str, tapes: &[&str], answers: &[&str]) -> usize {
    let hand = Hand::with_no_job(360.0, 800.0);
    hand.press("New job");
    hand.press(start);
    for tape in tapes {
        hand.enter(tape);
    }
    let before = hand.taps();
    let mut answers = answers.iter();
    let taps = loop {
        let taps = hand.taps() - before;
        assert!(taps <= 25, "{taps} taps and no posts: {:?}", hand.labels());
        let labels = hand.labels();
        let mut next = labels.iter().filter(|label| label.starts_with("Next: "));
        if FrameVm::get(&hand.app).get_menu_open() {
            hand.press(answers.next().expect("an answer to what is asked"));
        } else if let Some(label) = next.next() {
            hand.press(label);
        } else {
            hand.press("See the posts");
            break hand.taps() - before;
        }
        let name = start.replace([' ', ','], "-");
        hand.picture(&format!("live-onward-{name}-{taps}"));
    };
    assert_eq!(answers.next(), None, "all of it is asked");
    println!("{start}: {taps} taps from the last tape to the posts");
    assert!(hand.sees("Mark out post 1"), "{:?}", hand.labels());
    let job = hand.saved();
    assert_eq!(job.lines.len(), job.runs.len(), "a run on every string");
    hand.shown().runs.values().map(|run| run.posts.len()).sum()
}

#[test]
fn each_start_goes_on_to_its_posts() {
    let gap = ["3649", "3801", "7630", "10881", "10730", "13496"];
    let corner = "Yes, this is the corner";
    // A post on a wall is asked about where the run meets one.
    let posts = goes_on_to_posts("Two walls, a gap between", &gap, &[corner]);
    assert!(posts > 6, "{posts} posts");
    let met = ["2000", "2000", "2905"];
    let posts = goes_on_to_posts("Two walls that meet", &met, &[corner]);
    assert!(posts > 3, "{posts} posts");
    assert_eq!(goes_on_to_posts("One wall", &["3650"], &[]), 4);
    let pegs = ["4000", "5000", "3000"];
    let posts = goes_on_to_posts("Pegs and marks only", &pegs, &["A", "B"]);
    assert_eq!(posts, 4);
}

#[test]
fn the_way_on_is_left_at_any_step() {
    let hand = Hand::with_no_job(412.0, 915.0);
    hand.press("New job");
    hand.press("One wall");
    hand.enter("3650");
    hand.press("Next: a string along the wall");
    hand.press("Delete this string");
    assert!(hand.saved().lines.is_empty());
    hand.press("Walls");
    hand.press("Next: a string along the wall");
    // Open ground is on the other side, and one Undo takes the string back.
    let side = hand.saved().lines[0].side.expect("a side");
    hand.press("Right, A to B");
    assert_ne!(hand.saved().lines[0].side, Some(side));
    hand.press("Undo");
    hand.press("Undo");
    assert!(hand.saved().lines.is_empty());
    hand.must_say("This string is not along a wall.");
}
