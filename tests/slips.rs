//! One misread tape on a real site, of every usual kind: it is found as well as a person would find
//! it who leaves each tape out by hand.

use tautmark::job::reading::Measure;
use tautmark::job::{self, Job};
use tautmark::{Solution, solve};

fn case(name: &str) -> Job {
    let path = format!("tests/cases/{name}.job.json");
    let text = std::fs::read_to_string(path).expect("a case");
    let mut job = job::read(&text).expect("a job").job;
    // Only the marks matter here.
    job.runs.clear();
    job.corners.clear();
    job.lines.clear();
    job
}

fn length(job: &mut Job, index: usize) -> Option<&mut f64> {
    match &mut job.readings[index].what {
        Measure::Tape { length, .. } | Measure::Offset { length, .. } => length.as_mut(),
        _ => None,
    }
}

/// What a whole length may be misread as: slips of 10, 100 and 1000, and neighbouring digits swapped.
fn misreadings(length: f64) -> Vec<f64> {
    let steps = [10.0, -10.0, 100.0, -100.0, 1000.0, -1000.0].map(|step| length + step);
    let digits: Vec<char> = format!("{length:.0}").chars().collect();
    let swaps = (1..digits.len()).map(|at| {
        let mut swapped = digits.clone();
        swapped.swap(at - 1, at);
        swapped
            .into_iter()
            .collect::<String>()
            .parse()
            .expect("digits")
    });
    let all = steps.into_iter().chain(swaps);
    all.filter(|&misread: &f64| misread > 0.0 && misread != length)
        .collect()
}

/// The sum that leaving the reading out by hand leaves.
fn by_hand(job: &Job, index: usize) -> Solution {
    let mut left_out = job.clone();
    left_out.readings[index].used = false;
    solve(&left_out)
}

#[test]
fn a_misread_tape_is_found_as_well_as_by_leaving_each_out_by_hand() {
    let (mut tried, mut well_checked, mut alone) = (0, 0, 0);
    for name in ["orchard-corner", "coal-yard-return"] {
        let right = case(name);
        let checked: Vec<f64> = solve(&right)
            .readings
            .iter()
            .map(|r| r.redundancy)
            .collect();
        for (index, &redundancy) in checked.iter().enumerate() {
            let mut job = right.clone();
            let Some(truth) = length(&mut job, index).copied() else {
                continue;
            };
            for misread in misreadings(truth) {
                *length(&mut job, index).expect("a length") = misread;
                let solution = solve(&job);
                let suspects = &solution.network.suspects;
                let largest = solution
                    .readings
                    .iter()
                    .map(|r| r.standardised)
                    .fold(0.0, f64::max);
                if largest <= 3.29 {
                    continue;
                }
                let hand = by_hand(&job, index).network.chi2;
                let said = format!("{name}, reading {index}: {truth} read as {misread}");
                let without = solution.network.chi2_without.expect("suspects were sought");
                assert!(without <= hand + 0.01, "{said}: {without}, by hand {hand}");
                if hand <= without + 3.84 {
                    assert!(suspects.contains(&index), "{said}: {suspects:?}");
                }
                tried += 1;
                // A tape is good to 2 mm or so: this is more than ten times that.
                if redundancy > 0.3 && (misread - truth).abs() > 30.0 {
                    well_checked += 1;
                    alone += usize::from(suspects[..] == [index]);
                }
            }
        }
    }
    assert!(tried > 150, "{tried}");
    assert!(
        well_checked > 50 && alone * 10 >= well_checked * 9,
        "{alone} of {well_checked}"
    );
}

#[test]
fn three_marks_on_one_wall_share_what_does_not_close() {
    for sketched in [-200.0, 0.0, 30.0, 50.0, 400.0] {
        for (second, closes) in [(2498.0, 2.0), (2490.0, 10.0), (2400.0, 100.0)] {
            let text = format!(
                r#"{{"format":"tautmark-job","version":1,"title":"one wall",
                "marks":[{{"id":"A","rough":[0,0]}},{{"id":"B","rough":[4000,0]}},{{"id":"C","rough":[1500,{sketched}]}}],
                "walls":[{{"id":"w","from":"A","to":"B"}}],
                "readings":[{{"kind":"tape","from":"A","to":"B","length":4000}},
                {{"kind":"tape","from":"A","to":"C","length":1500}},
                {{"kind":"tape","from":"C","to":"B","length":{second}}}]}}"#
            );
            let solution = solve(&job::read(&text).expect("a job").job);
            // Read to 1 mm, and 0.1 mm/m of pull; a misclosure is shared as the variances are.
            let variance = |length: f64| 1.0 + (0.1 * length / 1000.0).powi(2);
            let [ab, ac, cb] = [4000.0, 1500.0, second].map(variance);
            let all = ab + ac + cb;
            let b = solution.marks["B"].x;
            assert!(
                (b - (4000.0 - closes * ab / all)).abs() < 1e-3,
                "{sketched}: {b}"
            );
            let chi2 = solution.network.chi2;
            assert!(
                (chi2 - closes * closes / all).abs() < 1e-6 * chi2,
                "{sketched}: {chi2}"
            );
        }
    }
}

#[test]
fn a_mark_on_one_tape_changes_nothing_else() {
    for name in ["orchard-corner", "coal-yard-return", "coal-yard-slip"] {
        let job = case(name);
        let alone = solve(&job);
        for mark in 0..job.marks.len() {
            let mut more = job.clone();
            let text = serde_json::json!({
                "format": "tautmark-job", "version": 1, "title": "a tape to nowhere",
                "marks": [{"id": "far", "rough": [700.0, 900.0]}],
                "readings": [{"kind": "tape", "from": job.marks[mark].id, "to": "far", "length": 1234.0}],
            });
            let extra = job::read(&text.to_string()).expect("a job").job;
            more.marks.extend(extra.marks);
            more.readings.extend(extra.readings);
            let solution = solve(&more);
            let said = format!("{name}, tape from {}", job.marks[mark].id);
            assert!(
                (solution.network.chi2 - alone.network.chi2).abs() < 1e-6,
                "{said}"
            );
            assert_eq!(solution.network.suspects, alone.network.suspects, "{said}");
            for (id, fix) in &alone.marks {
                let there = &solution.marks[id];
                assert!(
                    (there.x - fix.x).hypot(there.y - fix.y) < 1e-4,
                    "{said}: {id}"
                );
            }
            let last = solution.readings.last().expect("the tape to nowhere");
            assert!(
                last.residual.abs() < 1e-6 && last.redundancy < 1e-6,
                "{said}"
            );
        }
    }
}

/// Five marks; the tape from A to D is 10 too long, and D over the line from A to C would fit all.
#[test]
fn a_mark_stays_on_its_drawn_side_and_the_other_is_said() {
    let marks = [
        ("A", [0.0, 0.0]),
        ("B", [2671.0, -142.0]),
        ("C", [9858.0, 5360.0]),
        ("D", [11458.0, 8380.0]),
        ("K", [3647.0, 2316.0]),
    ];
    let tapes = [
        ("A", "B", 2913),
        ("A", "C", 11424),
        ("A", "D", 13972),
        ("A", "K", 4396),
        ("B", "C", 9054),
        ("B", "K", 2386),
        ("C", "D", 3052),
        ("C", "K", 7030),
        ("D", "K", 9622),
    ];
    let job = serde_json::json!({
        "format": "tautmark-job", "version": 1, "title": "a folded corner",
        "tape": {"reading": 1.0, "pull": 0.1},
        "walls": [{"id": "w", "from": "A", "to": "B"}],
        "marks": marks.map(|(id, rough)| serde_json::json!({"id": id, "rough": rough})),
        "readings": tapes.map(|(from, to, length)| serde_json::json!(
            {"kind": "tape", "from": from, "to": to, "length": length})),
    });
    let solution = solve(&job::read(&job.to_string()).expect("a job").job);
    let (c, d) = (&solution.marks["C"], &solution.marks["D"]);
    assert!(c.x * d.y - c.y * d.x > 0.0, "D is at {}, {}", d.x, d.y);
    assert!(!solution.network.agrees);
    assert!(solution.network.suspects.contains(&2));
    let said = solution.problems.iter().any(|problem| {
        problem
            .text
            .contains("on the other side of A to C from where it is drawn")
    });
    assert!(said, "{:?}", solution.problems);
}
