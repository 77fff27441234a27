//! Runs and posts worked by hand on walls that meet squarely, or at a known angle.

use serde_json::{Value, json};
use tautmark::job::{self, Severity};
use tautmark::setout::PostKind;
use tautmark::{Solution, solve};

/// Two walls: “front” along x from A to B (6 m); “side” from C to D, 4 m long, at `angle` to it
/// (degrees), C being 10 m from A along the front's line. Exact tapes between all of them.
fn site(angle: f64) -> Value {
    let (sin, cos) = angle.to_radians().sin_cos();
    let marks = [
        ("A", [0.0, 0.0]),
        ("B", [6000.0, 0.0]),
        ("C", [10_000.0, 0.0]),
        ("D", [10_000.0 + 4000.0 * cos, 4000.0 * sin]),
    ];
    let mut readings = Vec::new();
    for (i, (from, a)) in marks.iter().enumerate() {
        for (to, b) in &marks[i + 1..] {
            let length = (a[0] - b[0]).hypot(a[1] - b[1]);
            readings.push(json!({ "kind": "tape", "from": from, "to": to, "length": length }));
        }
    }
    json!({
        "format": "tautmark-job", "version": 1, "title": "Square yard",
        "marks": marks.map(|(id, at)| json!({ "id": id, "rough": at })),
        "walls": [{ "id": "front", "from": "A", "to": "B" }, { "id": "side", "from": "C", "to": "D" }],
        "readings": readings,
        "lines": [
            { "id": "f", "wall": "front", "side": "right", "offsets": [{ "at": 0, "off": 0 }] },
            { "id": "s", "wall": "side", "side": "right", "offsets": [{ "at": 0, "off": 0 }] },
        ],
        "corners": [{ "id": "X", "lines": ["f", "s"], "post": { "width": 100, "depth": 100 } }],
        "runs": [run()],
    })
}

/// From mark B to the corner, 4 m, posts 100 by 100 touching the string on its left.
fn run() -> Value {
    json!({
        "id": "R1", "line": "f", "side": "left", "gap": 0,
        "start": { "mark": "B" }, "end": { "corner": "X" },
        "post": { "width": 100, "depth": 100 }, "bays": { "max": 1500, "fit": "equal" },
    })
}

fn solved(job: &Value) -> Solution {
    solve(&job::read(&job.to_string()).expect("the job opens").job)
}

fn centres(solution: &Solution, run: &str) -> Vec<f64> {
    let tenth = |mm: f64| (mm * 10.0).round() / 10.0;
    solution.runs[run]
        .posts
        .iter()
        .map(|post| tenth(post.centre))
        .collect()
}

fn errors(solution: &Solution) -> Vec<&str> {
    let errors = solution
        .problems
        .iter()
        .filter(|p| p.severity == Severity::Error);
    errors.map(|p| p.place.as_str()).collect()
}

#[test]
fn the_corner_post_sits_inside_a_square_corner() {
    let mut job = site(90.0);
    job["corners"][0]["post"]["set"] = json!("bisect");
    let solution = solved(&job);
    let corner = &solution.corners["X"];
    assert!((corner.angle - 90.0).abs() < 1e-6 && (corner.bevel - 45.0).abs() < 1e-6);
    let post = corner.post.expect("a run meets the corner");
    // On the bisector its diagonal lies along the strings: half the diagonal inside both.
    let half = 50.0 * 2f64.sqrt();
    assert!((post.x - (10_000.0 - half)).abs() < 1e-6 && (post.y - half).abs() < 1e-6);
    let last = solution.runs["R1"].posts.last().expect("posts");
    assert_eq!(last.kind, PostKind::Corner);
    assert!((last.far - 4000.0).abs() < 1e-6 && (last.off - half).abs() < 1e-6);
}

#[test]
fn a_corner_post_square_to_the_first_line_touches_both_strings() {
    for angle in [40.0f64, 75.0, 120.0, 150.0] {
        let mut job = site(angle);
        job["corners"][0]["post"]["set"] = json!("first");
        job["runs"].as_array_mut().expect("runs").push(json!({
            "id": "R2", "line": "s", "side": "left", "gap": 20,
            "start": { "corner": "X" }, "end": { "mark": "D" },
            "post": { "width": 100, "depth": 100 }, "bays": { "max": 1500, "fit": "equal" },
        }));
        let solution = solved(&job);
        let post = solution.corners["X"].post.expect("runs meet the corner");
        assert!(post.rotation.abs() < 1e-6);
        assert!(
            (post.y - 50.0).abs() < 1e-6,
            "{angle}: touches the first string"
        );
        // Its nearest corner is 20 from the second string.
        let (sin, cos) = angle.to_radians().sin_cos();
        let nearest = [(-50.0, -50.0), (50.0, -50.0), (50.0, 50.0), (-50.0, 50.0)]
            .map(|(a, b)| (post.x + a - 10_000.0) * -sin + (post.y + b) * cos)
            .into_iter()
            .fold(f64::INFINITY, f64::min);
        assert!(
            (nearest - 20.0).abs() < 1e-6,
            "{angle}: {nearest} from the second string"
        );
        let of_run = &solution.runs["R2"].posts[0];
        assert!((of_run.x - post.x).abs() < 1e-9 && (of_run.y - post.y).abs() < 1e-9);
    }
}

#[test]
fn equal_bays_run_from_centre_to_centre() {
    let mut job = site(90.0);
    job["runs"][0]["end"] = json!({ "length": 4000 });
    assert_eq!(centres(&solved(&job), "R1"), [0.0, 1333.3, 2666.7, 4000.0]);
    job["runs"][0]["bays"] = json!({ "max": 1500, "fit": "full" });
    assert_eq!(centres(&solved(&job), "R1"), [0.0, 1500.0, 3000.0, 4000.0]);
    job["runs"][0]["bays"] = json!({ "max": 2000, "fit": "equal" });
    assert_eq!(centres(&solved(&job), "R1"), [0.0, 2000.0, 4000.0]);
}

#[test]
fn two_gates_share_a_post_and_a_gate_hangs_on_the_first() {
    let mut job = site(90.0);
    job["runs"][0]["end"] = json!({ "length": 4000 });
    job["runs"][0]["gates"] = json!([{ "at": 50, "clear": 900 }, { "at": 1050, "clear": 1000 }]);
    let solution = solved(&job);
    assert!(errors(&solution).is_empty(), "{:?}", solution.problems);
    let run = &solution.runs["R1"];
    // Post 1 to 50; gate to 950; post 950 to 1050; gate to 2050; post; then one bay of 1900 halved.
    assert_eq!(
        centres(&solution, "R1"),
        [0.0, 1000.0, 2100.0, 3050.0, 4000.0]
    );
    assert_eq!(
        run.gates.iter().map(|g| (g.from, g.to)).collect::<Vec<_>>(),
        [(1, 2), (2, 3)]
    );
    assert_eq!(run.posts[1].clear, Some(900.0));
    assert_eq!(run.posts[2].clear, Some(1000.0));
    assert_eq!(run.posts[1].kind, PostKind::Gate);
    assert_eq!(run.posts[0].kind, PostKind::End);
}

#[test]
fn a_gate_may_close_against_the_last_post() {
    let mut job = site(90.0);
    job["runs"][0]["end"] = json!({ "length": 4000 });
    job["runs"][0]["gates"] = json!([{ "at": 2950, "clear": 1000 }]);
    let solution = solved(&job);
    assert!(errors(&solution).is_empty());
    assert_eq!(centres(&solution, "R1"), [0.0, 1450.0, 2900.0, 4000.0]);
}

#[test]
fn gates_that_do_not_fit_are_named_and_left_out() {
    for (gate, why) in [
        (json!({ "at": 3500, "clear": 900 }), "runs past the end"),
        (
            json!({ "at": 20, "clear": 900 }),
            "runs over the first post",
        ),
        (
            json!({ "at": 100, "clear": 900 }),
            "leaves no room for its own post",
        ),
        (
            json!({ "at": 2900, "clear": 1000 }),
            "leaves no room before the last post",
        ),
        (json!({ "at": 9000, "clear": 900 }), "is beyond the end"),
    ] {
        let mut job = site(90.0);
        job["runs"][0]["end"] = json!({ "length": 4000 });
        job["runs"][0]["gates"] = json!([{ "at": 1000, "clear": 900 }, gate]);
        if why.contains("first post") || why.contains("own post") {
            job["runs"][0]["gates"][0]["at"] = json!(2000);
        }
        let solution = solved(&job);
        assert_eq!(errors(&solution), ["runs[0].gates[1].at"], "{why}");
        assert_eq!(solution.runs["R1"].gates.len(), 1, "{why}");
    }
}

#[test]
fn a_gate_wider_than_its_run_is_told_how_much_room_there_is() {
    let mut job = site(90.0);
    job["runs"][0]["gates"] = json!([{ "at": 1000, "clear": 90_000 }]);
    let solution = solved(&job);
    assert_eq!(errors(&solution), ["runs[0].gates[0].at"]);
    let mut problems = solution.problems.iter();
    let problem = problems.find(|problem| problem.place == "runs[0].gates[0].at");
    let remedy = &problem.expect("it is named").remedy;
    assert!(remedy.starts_with("Make it narrower"), "{remedy}");
    assert!(!remedy.contains('−'), "{remedy}");
}

#[test]
fn a_gate_over_another_gate_is_named() {
    let mut job = site(90.0);
    job["runs"][0]["end"] = json!({ "length": 4000 });
    job["runs"][0]["gates"] = json!([{ "at": 1000, "clear": 900 }, { "at": 1500, "clear": 900 }]);
    assert_eq!(errors(&solved(&job)), ["runs[0].gates[1].at"]);
}

#[test]
fn pins_hold_their_place_and_bays_fill_round_them() {
    let mut job = site(90.0);
    job["runs"][0]["end"] = json!({ "length": 4000 });
    job["runs"][0]["pins"] = json!([{ "at": 3100 }]);
    assert_eq!(
        centres(&solved(&job), "R1"),
        [0.0, 1033.3, 2066.7, 3100.0, 4000.0]
    );
    job["runs"][0]["gates"] = json!([{ "at": 2900, "clear": 500 }]);
    assert_eq!(errors(&solved(&job)), ["runs[0].pins[0].at"]);
    job["runs"][0]["pins"] = json!([{ "at": 5000 }]);
    assert_eq!(errors(&solved(&job)), ["runs[0].pins[0].at"]);
}

#[test]
fn a_reversed_line_counts_from_its_other_end_and_swaps_sides() {
    let mut job = site(90.0);
    job["runs"][0]["end"] = json!({ "length": 4000 });
    job["runs"][0]["side"] = json!("right");
    job["lines"][0]["reverse"] = json!(true);
    let solution = solved(&job);
    assert!((solution.lines["f"].bearing.abs() - 180.0).abs() < 1e-9);
    let posts = &solution.runs["R1"].posts;
    assert!((posts[1].x - (6000.0 - 4000.0 / 3.0)).abs() < 1e-6);
    assert!(
        (posts[1].y - 50.0).abs() < 1e-6,
        "right of a line pointing back is up"
    );
}

#[test]
fn a_run_against_its_lines_direction_counts_from_its_own_start() {
    let mut job = site(90.0);
    job["runs"][0]["start"] = json!({ "corner": "X" });
    job["runs"][0]["end"] = json!({ "mark": "B" });
    let run = &solved(&job).runs["R1"];
    assert!((run.length - 4000.0).abs() < 1e-6);
    assert_eq!(run.posts[0].kind, PostKind::Corner);
    assert!((run.posts[0].near - 0.0).abs() < 1e-6);
    let last = run.posts.last().expect("posts");
    assert!((last.centre - 4000.0).abs() < 1e-6);
    assert!((last.x - 6000.0).abs() < 1e-6 && (last.y - 50.0).abs() < 1e-6);
}

#[test]
fn a_post_stands_hard_against_a_wall_that_leans_either_way() {
    for angle in [80.0f64, 100.0] {
        let mut job = site(angle);
        job["runs"][0]["end"] = json!({ "wall": "side" });
        let run = &solved(&job).runs["R1"];
        let last = run.posts.last().expect("posts");
        let lean = 100.0 / angle.to_radians().tan();
        assert!((last.wedge.expect("a wall post") - lean.abs()).abs() < 1e-6);
        // The wall comes nearer with depth where it leans in.
        let touches = 4000.0 + lean.min(0.0);
        assert!((last.far - touches).abs() < 1e-6, "{angle}: {}", last.far);
    }
}

#[test]
fn parallel_lines_never_meet() {
    let mut job = site(90.0);
    job["lines"][1] =
        json!({ "id": "s", "wall": "front", "side": "left", "offsets": [{ "at": 0, "off": 700 }] });
    let solution = solved(&job);
    assert_eq!(errors(&solution), ["corners[0].lines"]);
    assert!(solution.corners.is_empty());
    let waiting = solution
        .problems
        .iter()
        .find(|p| p.place == "runs[0]")
        .expect("the run waits");
    assert_eq!(waiting.severity, Severity::Warning);
}

#[test]
fn bow_of_a_wall_is_each_nails_distance_from_the_straight_string() {
    let mut job = site(90.0);
    job["lines"][0]["offsets"] = json!([
        { "at": 0, "off": 50 }, { "at": 3000, "off": 56 }, { "at": 6000, "off": 50 },
    ]);
    let line = &solved(&job).lines["f"];
    let bow = line.bow.as_ref().expect("three nails");
    for (found, known) in bow.iter().zip([-2.0, 4.0, -2.0]) {
        assert!((found - known).abs() < 1e-9, "{bow:?}");
    }
}

#[test]
fn a_loose_mark_leaves_the_rest_standing() {
    let mut job = site(90.0);
    // C is off the base's line, so that two tapes hold it.
    job["marks"][2]["rough"] = json!([9000, 3000]);
    let readings = job["readings"].as_array_mut().expect("readings");
    readings.retain(|r| r["from"] != "D" && r["to"] != "D");
    readings.push(json!({ "kind": "tape", "from": "C", "to": "D", "length": 4000 }));
    for reading in readings.iter_mut() {
        if reading["from"] == "A" && reading["to"] == "C" {
            reading["length"] = json!(9000f64.hypot(3000.0));
        } else if reading["from"] == "B" && reading["to"] == "C" {
            reading["length"] = json!(3000f64.hypot(3000.0));
        }
    }
    job["lines"][1] = json!({ "id": "s", "marks": ["B", "C"] });
    let solution = solved(&job);
    assert_eq!(solution.network.loose, ["D".into()]);
    assert!((solution.marks["C"].x - 9000.0).abs() < 1e-6);
    assert!(!solution.marks.contains_key("D"));
    assert!(solution.sketch.contains_key("D"));
    assert!((solution.corners["X"].angle - 135.0).abs() < 1e-6);
}

#[test]
fn holes_that_meet_and_a_hole_under_a_wall_are_warnings() {
    let mut job = site(90.0);
    job["runs"][0]["end"] = json!({ "wall": "side" });
    job["runs"][0]["gates"] = json!([{ "at": 200, "clear": 900 }]);
    let solution = solved(&job);
    assert!(errors(&solution).is_empty(), "{:?}", solution.problems);
    let texts: Vec<&str> = solution.problems.iter().map(|p| p.text.as_str()).collect();
    assert!(
        texts.iter().any(|t| t.contains("run into each other")),
        "{texts:?}"
    );
    assert!(
        texts.iter().any(|t| t.contains("under the line of")),
        "{texts:?}"
    );
}

#[test]
fn a_bay_in_the_wrong_unit_is_refused_without_hanging() {
    let mut job = site(90.0);
    job["runs"][0]["bays"]["max"] = json!(0.0015);
    let solution = solved(&job);
    assert_eq!(errors(&solution), ["runs[0].bays.max"]);
    assert!(solution.runs.is_empty());
}

#[test]
fn a_post_that_is_marked_out_and_no_longer_there_is_named() {
    let mut job = site(90.0);
    job["marked"] = json!([{ "run": "R1", "post": 4, "done": true }]);
    let named = |job: &Value| -> Vec<String> {
        let problems = solved(job).problems.into_iter();
        problems
            .filter(|p| p.place == "marked[0].post")
            .map(|p| p.text)
            .collect()
    };
    assert!(named(&job).is_empty());
    job["runs"][0]["bays"]["max"] = json!(2100);
    assert_eq!(
        named(&job),
        ["Post 4 of run “R1” is marked out, but the run has 3 posts now."]
    );
}

/// Gates on the 4 m run from B to the corner, whose last post starts at 3900.
fn gated(gates: Value) -> Solution {
    let mut job = site(90.0);
    job["corners"][0]["post"]["set"] = json!("first");
    job["runs"][0]["gates"] = gates;
    solved(&job)
}

/// A sentence without its spaces, wide or narrow.
fn close(text: &str) -> String {
    text.split_whitespace().collect()
}

#[test]
fn gates_that_overlap_are_refused_with_place_and_remedy() {
    // The first is hung on the corner post, so that only a post at its near edge stands before it.
    let solution = gated(json!([
        { "at": 2860, "clear": 1040 }, { "at": 3080, "clear": 700 }, { "at": 1000, "clear": 1000 }
    ]));
    assert_eq!(errors(&solution), ["runs[0].gates[1].at"]);
    let problem = &solution
        .problems
        .iter()
        .find(|p| p.place == "runs[0].gates[1].at")
        .expect("named");
    let (text, remedy) = (close(&problem.text), close(&problem.remedy));
    assert!(
        text.contains("3080mmto3780mm") && text.contains("2860mmto3900mm"),
        "{text}"
    );
    assert!(remedy.contains("Enditat2760mm"), "{remedy}");
    assert_eq!(solution.runs["R1"].gates.len(), 2);
}

#[test]
fn a_gate_inside_another_starts_behind_it_where_there_is_room() {
    let solution = gated(json!([{ "at": 500, "clear": 1200 }, { "at": 700, "clear": 800 }]));
    let problem = solution
        .problems
        .iter()
        .find(|p| p.place == "runs[0].gates[1].at")
        .expect("named");
    let remedy = close(&problem.remedy);
    assert!(remedy.contains("Startitat1800mm"), "{remedy}");
}

#[test]
fn gates_that_share_a_post_are_not_in_each_others_way() {
    let solution = gated(json!([{ "at": 500, "clear": 1000 }, { "at": 1600, "clear": 1000 }]));
    assert_eq!(errors(&solution), [""; 0]);
    assert_eq!(solution.runs["R1"].gates.len(), 2);
}

/// A run along the side, its gate hung on the corner post that was placed with the front's run, and
/// a run across whose first post stands in that gate.
#[test]
fn a_post_in_a_gate_on_a_shared_corner_post_is_named() {
    let mut job = site(90.0);
    job["corners"][0]["post"]["set"] = json!("first");
    job["marks"].as_array_mut().expect("marks").extend([
        json!({ "id": "M", "rough": [9950, 700] }),
        json!({ "id": "N", "rough": [7000, 700] }),
    ]);
    let truth = [
        ("A", [0.0, 0.0]),
        ("B", [6000.0, 0.0]),
        ("C", [10_000.0, 0.0]),
    ];
    for (id, at) in [("M", [9950.0, 700.0]), ("N", [7000.0, 700.0f64])] {
        for (from, to) in truth {
            let length = (at[0] - to[0]).hypot(at[1] - to[1]);
            job["readings"]
                .as_array_mut()
                .expect("readings")
                .push(json!({ "kind": "tape", "from": from, "to": id, "length": length }));
        }
    }
    let across = json!({ "id": "across", "marks": ["M", "N"] });
    job["lines"].as_array_mut().expect("lines").push(across);
    let side = |gate_clear: f64| {
        json!({
            "id": "R2", "line": "s", "side": "left", "gap": 0,
            "start": { "corner": "X" }, "end": { "mark": "D" },
            "post": { "width": 100, "depth": 100 }, "bays": { "max": 1500, "fit": "equal" },
            "gates": [{ "at": 100, "clear": gate_clear }]
        })
    };
    let third = json!({
        "id": "R3", "line": "across", "side": "left", "gap": 0,
        "start": { "mark": "M" }, "end": { "mark": "N" },
        "post": { "width": 100, "depth": 100 }, "bays": { "max": 1500, "fit": "equal" },
    });
    let in_gate = |clear: f64| {
        let mut job = job.clone();
        job["runs"]
            .as_array_mut()
            .expect("runs")
            .extend([side(clear), third.clone()]);
        let solution = solved(&job);
        let named = |p: &&job::Problem| p.text.contains("stands in the gate opening of run “R2”");
        let found: Vec<_> = solution.problems.iter().filter(named).cloned().collect();
        assert_eq!(
            solution.runs["R2"].gates.len(),
            1,
            "{:?}",
            solution.problems
        );
        found
    };
    let found = in_gate(1000.0);
    assert_eq!(found.len(), 1, "{found:?}");
    assert!(found[0].text.starts_with("Post 1 of run “R3”") && !found[0].remedy.is_empty());
    assert_eq!(in_gate(400.0).len(), 0);
}

/// What is wrong is said once, with every post that it is said of.
#[test]
fn holes_of_several_posts_are_said_once() {
    let mut job = site(90.0);
    job["runs"][0]["bays"]["max"] = json!(250);
    let solution = solved(&job);
    let posts = solution.runs["R1"].posts.len();
    assert!(posts > 10);
    let meet = solution
        .problems
        .iter()
        .filter(|one| one.text.contains("run into each other"));
    let meet: Vec<_> = meet.collect();
    assert_eq!(meet.len(), 1, "{meet:#?}");
    assert!(meet[0].text.contains("posts 1, 2, 3") && meet[0].text.contains("of run “R1”"));
    for n in 1..=posts {
        assert!(meet[0].place.concerns_post(&"R1".into(), n), "post {n}");
    }
    // Two runs along one wall: each hole under it, one warning.
    let mut job = site(90.0);
    job["lines"][0]["offsets"] = json!([{ "at": 0, "off": 100 }]);
    job["runs"][0]["start"] = json!({ "mark": "A" });
    job["hole"] = json!({ "diameter": 400 });
    let solution = solved(&job);
    let under = solution
        .problems
        .iter()
        .filter(|one| one.text.contains("under the line of “front”"));
    let under: Vec<_> = under.collect();
    assert_eq!(under.len(), 1, "{under:#?}");
    // Their centres are 50 in front of the wall, so that each reaches 150 under it.
    assert!(
        under[0].text.starts_with("The holes for posts 1, 2"),
        "{}",
        under[0].text
    );
    assert!(
        under[0].text.contains("reach up to 150\u{a0}mm"),
        "{}",
        under[0].text
    );
}
