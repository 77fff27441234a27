//! How posts stand: in holes, on plates, fixed to walls. Worked by hand.
//!
//! A run goes 5000 along +x from a house's end wall to a mark, its string at y = 0, its posts
//! 100 by 100 and their faces on the string at its left. The end wall begins at (0, `corner`),
//! where the house's front turns away from the fence, and goes on along +y.

mod fences;

use fences::{job, says};
use serde_json::{Value, json};
use tautmark::job::{Job, Severity};
use tautmark::{Solution, solve};

fn beside_a_house(corner: f64, start: Value, end: Value, run_foot: &str) -> Job {
    let marks = [
        ("P", [0.0, 0.0]),
        ("Q", [5000.0, 0.0]),
        ("B", [0.0, corner]),
        ("E", [0.0, 3000.0]),
        ("A", [-2000.0, corner]),
    ];
    let mut tapes = Vec::new();
    for (i, (from, a)) in marks.iter().enumerate() {
        for (to, b) in &marks[i + 1..] {
            let length = (a[0] - b[0]).hypot(a[1] - b[1]);
            if length > 0.0 {
                tapes.push(json!({ "kind": "tape", "from": from, "to": to, "length": length }));
            }
        }
    }
    let listed = marks.map(|(id, rough)| json!({ "id": id, "rough": rough }));
    job(json!({
        "marks": listed, "readings": tapes,
        "walls": [
            { "id": "house-end", "from": "B", "to": "E" }, { "id": "front", "from": "A", "to": "B" }
        ],
        "lines": [{ "id": "string", "marks": ["P", "Q"] }],
        "runs": [{
            "id": "R", "line": "string", "side": "left", "gap": 0, "foot": run_foot,
            "start": start, "end": end,
            "post": { "width": 100, "depth": 100 }, "bays": { "max": 1800, "fit": "equal" }
        }],
        "hole": { "diameter": 300, "depth": 600, "over": 0.25 },
        "levels": {
            "datum": { "point": "nail", "height": 0 },
            "points": [{ "id": "g", "run": "R", "at": 0 }],
            "setups": [{ "id": "S", "sights": [{ "point": "nail", "down": 0 }, { "point": "g", "down": 500 }] }]
        },
        "boards": {
            "gravel": { "height": 150, "clearance": 10, "dig": 0 },
            "pales": { "width": 150, "lap": 20, "height": 1600 }
        }
    }))
}

fn on_the_wall(corner: f64) -> Solution {
    let start = json!({ "wall": "house-end", "foot": "wall" });
    solve(&beside_a_house(
        corner,
        start,
        json!({ "mark": "Q" }),
        "hole",
    ))
}

#[track_caller]
fn near(found: Option<f64>, wanted: f64) {
    let found = found.expect("a figure");
    assert!((found - wanted).abs() < 0.01, "{found}, not {wanted}");
}

/// Ground at −500, board from −490 to −340, pales 1600 over that: every top is 1760 above ground.
#[test]
fn a_post_is_as_long_as_it_stands() {
    let solution = on_the_wall(-500.0);
    let posts = &solution.boards["R"].posts;
    near(posts[0].length, 1740.0);
    near(posts[1].length, 2360.0);
    assert_eq!((posts[0].litres_dug, posts[0].in_ground), (None, None));
    // π/4 · 300² · 600 = 42.41 litres, a quarter over is 53.01, less the post's 6.00.
    near(posts[1].litres_dug, 47.01);
    near(Some(solution.buy.litres), 47.014 * (posts.len() - 1) as f64);
    let plates = beside_a_house(
        -500.0,
        json!({ "wall": "house-end", "foot": "wall" }),
        json!({ "mark": "Q" }),
        "plate",
    );
    let solution = solve(&plates);
    near(solution.boards["R"].posts[1].length, 1750.0);
    assert_eq!((solution.buy.litres, solution.buy.bags), (0.0, 0));
}

#[test]
fn a_post_fixed_to_the_wall_has_no_hole_to_reach_under_it() {
    let start = json!({ "wall": "house-end" });
    let holes = solve(&beside_a_house(
        -500.0,
        start,
        json!({ "mark": "Q" }),
        "hole",
    ));
    let under = "The hole for post 1";
    assert!(says(&holes, "runs[0]", under));
    assert!(!says(&on_the_wall(-500.0), "runs[0]", under));
}

/// With the corner of the house at 60 behind the string, 40 of the post's 100 lie against it, and
/// bolts down its middle, at 50, would miss it by 10.
#[test]
fn how_much_of_a_post_bears_is_said_before_anyone_drills() {
    let solution = on_the_wall(60.0);
    near(solution.runs["R"].posts[0].bearing, 40.0);
    assert!(says(
        &solution,
        "runs[0].start.foot",
        "40\u{a0}mm lies against the wall"
    ));
    assert!(says(
        &solution,
        "runs[0].start.foot",
        "would miss the wall by 10\u{a0}mm"
    ));
    // Wholly on the wall, its bolts 70 from the corner, then 80.
    let solution = on_the_wall(-20.0);
    near(solution.runs["R"].posts[0].bearing, 100.0);
    assert!(says(
        &solution,
        "runs[0].start.foot",
        "70\u{a0}mm from the corner"
    ));
    let solution = on_the_wall(-30.0);
    assert!(
        !solution
            .problems
            .iter()
            .any(|p| p.place == "runs[0].start.foot")
    );
}

#[test]
fn a_wall_that_only_goes_on_past_a_mark_is_no_corner() {
    let mut job = beside_a_house(
        -20.0,
        json!({ "wall": "house-end", "foot": "wall" }),
        json!({ "mark": "Q" }),
        "hole",
    );
    job.walls.truncate(1);
    let solution = solve(&job);
    near(solution.runs["R"].posts[0].bearing, 100.0);
    assert!(
        !solution
            .problems
            .iter()
            .any(|p| p.place == "runs[0].start.foot")
    );
}

#[test]
fn a_wall_foot_where_no_wall_is_is_refused() {
    let refused = |job: Job, place: &str| {
        let solution = solve(&job);
        let problem = solution.problems.iter().find(|p| p.place == place);
        let problem = problem.unwrap_or_else(|| panic!("nothing said of {place}"));
        assert_eq!(problem.severity, Severity::Error);
        assert!(!problem.remedy.is_empty());
        assert!(!solution.runs["R"].posts.is_empty());
    };
    let wall = || json!({ "wall": "house-end" });
    let mark = json!({ "mark": "Q", "foot": "wall" });
    refused(
        beside_a_house(-500.0, wall(), mark, "hole"),
        "runs[0].end.foot",
    );
    let mark = json!({ "mark": "Q" });
    refused(beside_a_house(-500.0, wall(), mark, "wall"), "runs[0].foot");
}

#[test]
fn without_pales_the_posts_end_at_the_highest_rail_and_it_is_said() {
    let mut job = beside_a_house(
        -500.0,
        json!({ "wall": "house-end" }),
        json!({ "mark": "Q" }),
        "hole",
    );
    job.boards.pales = None;
    let bare = solve(&job);
    assert_eq!(bare.boards["R"].posts[1].length, None);
    assert!(says(&bare, "boards.pales", "no length yet"));
    job.boards.rails =
        serde_json::from_value(json!({ "count": 2, "low": 60, "high": 1440, "height": 80 })).ok();
    let railed = solve(&job);
    // 160 to the gravel board's top, 1440 + 40 to the rail's, 600 in the hole.
    near(railed.boards["R"].posts[1].length, 160.0 + 1480.0 + 600.0);
    assert!(says(&railed, "boards.pales", "highest rail"));
}
