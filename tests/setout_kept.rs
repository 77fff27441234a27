//! Posts that are kept where they stand, and openings hard against an end: worked by hand on a run
//! of 7200 with posts 100 wide and bays up to 1800.

mod fences;

use fences::{level_ground, says, straight};
use serde_json::{Value, json};
use tautmark::job::Severity;
use tautmark::{Solution, solve};

fn kept(gates: Value, marked: Value) -> Solution {
    let boards = json!({
        "gravel": { "height": 150, "clearance": 10 }, "rails": { "count": 2, "seat": 15 },
        "pales": { "width": 150, "lap": 20, "height": 1600 }
    });
    let mut job = straight(7200.0, gates, level_ground(&[(0.0, -500.0)]), boards);
    job.marked = serde_json::from_value(marked).expect("posts marked as done");
    solve(&job)
}

fn keep(post: usize, measured: f64) -> Value {
    json!([{ "run": "R", "post": post, "done": true, "measured": measured, "keep": true }])
}

#[track_caller]
fn centres(solution: &Solution, wanted: &[f64]) {
    let posts = &solution.runs["R"].posts;
    let found: Vec<f64> = posts.iter().map(|post| post.centre).collect();
    assert_eq!(found.len(), wanted.len(), "{found:?}");
    for (found, wanted) in found.iter().zip(wanted) {
        assert!((found - wanted).abs() < 0.01, "{found}, not {wanted}");
    }
}

#[test]
fn bays_boards_and_rails_are_fitted_to_a_post_7_out() {
    let solution = kept(json!([]), keep(3, 3607.0));
    centres(&solution, &[0.0, 1803.5, 3607.0, 5403.5, 7200.0]);
    let boards = &solution.boards["R"];
    let lengths: Vec<f64> = boards.gravel.iter().map(|board| board.length).collect();
    for (found, wanted) in lengths.iter().zip([1703.5, 1703.5, 1696.5, 1696.5]) {
        assert!((found - wanted).abs() < 0.01, "{lengths:?}");
    }
    assert!((boards.rails[1].length - 1733.5).abs() < 0.01);
    assert!(solution.runs["R"].posts[2].kept);
    assert!(!solution.runs["R"].posts[1].kept);
    // Not kept, the same reading moves nothing.
    let marked = json!([{ "run": "R", "post": 3, "done": true, "measured": 3607 }]);
    centres(
        &kept(json!([]), marked),
        &[0.0, 1800.0, 3600.0, 5400.0, 7200.0],
    );
}

#[test]
fn a_kept_gate_post_changes_the_opening_and_the_leaf() {
    let gates = json!([{ "at": 900, "clear": 1000, "leaf": { "hinge": 15, "latch": 10 } }]);
    let third = (7200.0 - 1957.0) / 3.0;
    let solution = kept(gates, keep(3, 1957.0));
    centres(
        &solution,
        &[
            0.0,
            850.0,
            1957.0,
            1957.0 + third,
            1957.0 + 2.0 * third,
            7200.0,
        ],
    );
    let gate = &solution.runs["R"].gates[0];
    assert!((gate.near - 900.0).abs() < 0.01 && (gate.far - 1907.0).abs() < 0.01);
    assert!((solution.boards["R"].gates[0].width - 982.0).abs() < 0.01);
}

#[test]
fn an_opening_hard_against_an_end_needs_no_post_there() {
    let start = json!([{ "against": "start", "clear": 1000 }]);
    let solution = kept(start.clone(), json!([]));
    // From the first post's far face at 50; the next post from 1050 to 1150.
    let gate = &solution.runs["R"].gates[0];
    assert_eq!((gate.from, gate.to), (1, 2));
    assert!((gate.near - 50.0).abs() < 0.01 && (gate.far - 1050.0).abs() < 0.01);
    assert!((solution.runs["R"].posts[1].centre - 1100.0).abs() < 0.01);
    let end = kept(json!([{ "against": "end", "clear": 1000 }]), json!([]));
    let posts = &end.runs["R"].posts;
    assert!((posts[posts.len() - 2].centre - 6100.0).abs() < 0.01);
    // A first post that is kept takes the opening with it.
    let moved = kept(start, keep(1, 7.0));
    let gate = &moved.runs["R"].gates[0];
    assert!((gate.near - 57.0).abs() < 0.01 && (gate.far - 1057.0).abs() < 0.01);
    assert!((moved.runs["R"].posts[1].centre - 1107.0).abs() < 0.01);
}

#[test]
fn a_kept_corner_post_is_one_post_for_both_runs() {
    let mut job = tautmark::job::example();
    let planned = solve(&job);
    let (one, two) = (&planned.runs["R1"].posts[4], &planned.runs["R2"].posts[0]);
    job.marked = serde_json::from_value(json!([
        { "run": "R1", "post": 5, "measured": one.centre + 6.0, "keep": true },
        { "run": "R2", "post": 1, "measured": two.centre - 4.0, "keep": true }
    ]))
    .expect("posts marked as done");
    let solution = solve(&job);
    let (first, second) = (&solution.runs["R1"].posts[4], &solution.runs["R2"].posts[0]);
    assert!((first.x - second.x).hypot(first.y - second.y) < 1e-6);
    assert!((first.centre - one.centre - 6.0).abs() < 1e-6);
    assert!((second.centre - two.centre + 4.0).abs() < 1e-6);
    assert!(second.kept);
    // Measured on one run alone, it keeps its distance from that run's string.
    job.marked.truncate(1);
    let solution = solve(&job);
    let first = &solution.runs["R1"].posts[4];
    assert!((first.off - one.off).abs() < 1e-6);
    assert!((solution.runs["R2"].posts[0].x - first.x).abs() < 1e-6);
}

#[test]
fn what_cannot_be_kept_is_refused() {
    let refused = kept(json!([]), keep(3, 100.0));
    assert!(says(&refused, "marked[0].measured", "no room"));
    centres(&refused, &[0.0, 1800.0, 3600.0, 5400.0, 7200.0]);
    let marked = json!([{ "run": "R", "post": 3, "keep": true }]);
    assert!(says(
        &kept(json!([]), marked),
        "marked[0].measured",
        "kept where it stands"
    ));
    let long = kept(json!([]), keep(2, 1850.0));
    assert!(says(
        &long,
        "runs[0].bays.max",
        "because of a post that is kept"
    ));
}

#[test]
fn an_opening_against_a_post_that_does_not_exist_is_refused() {
    for (gate, words) in [
        (
            json!({ "against": "post 9", "clear": 1000 }),
            "no post “post 9”",
        ),
        (
            json!({ "against": "end", "at": 900, "clear": 1000 }),
            "both",
        ),
    ] {
        let solution = kept(json!([gate]), json!([]));
        let mut problems = solution.problems.iter();
        let found = problems.find(|p| p.place == "runs[0].gates[0].against");
        let found = found.expect("it is named");
        assert!(found.text.contains(words) && found.severity == Severity::Error);
    }
}
