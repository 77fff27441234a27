//! Where a run usually starts and ends, and on which side of a wall a fence usually goes.

use serde_json::{Value, json};
use tautmark::job::Job;
use tautmark::job::model::{End, Side};
use tautmark::setout::{marks_beside, usual_ends, usual_side};
use tautmark::{Solution, solve};

fn job(value: Value) -> Job {
    serde_json::from_value(value).expect("a job")
}

/// Marks where they are, tied by every tape between them.
fn site(marks: &[(&str, f64, f64)], walls: Value, lines: Value, corners: Value) -> Job {
    let rough: Vec<Value> = marks
        .iter()
        .map(|(id, x, y)| json!({ "id": id, "rough": [x, y] }))
        .collect();
    let pairs = (0..marks.len()).flat_map(|a| (0..a).map(move |b| (marks[b], marks[a])));
    let tapes: Vec<Value> = pairs
        .map(|(a, b)| {
            let length = (a.1 - b.1).hypot(a.2 - b.2);
            json!({ "kind": "tape", "from": a.0, "to": b.0, "length": length })
        })
        .collect();
    job(json!({
        "format": "tautmark-job", "version": 1, "title": "A gap",
        "marks": rough, "walls": walls, "readings": tapes, "lines": lines, "corners": corners
    }))
}

fn ends(job: &Job, solution: &Solution, line: usize) -> [String; 2] {
    usual_ends(job, solution.known(), &job.lines[line]).map(|end| match end {
        Some(End { wall: Some(id), .. }) => format!("wall {id}"),
        Some(End { mark: Some(id), .. }) => format!("mark {id}"),
        Some(End {
            corner: Some(id), ..
        }) => format!("corner {id}"),
        other => format!("{other:?}"),
    })
}

/// A first wall along the ground, 4 m, and a second one across the gap, square to it; a string in front
/// of each, and they cross at (9 000, −50).
fn gap(extra: &[(&str, f64, f64)], mut walls: Vec<Value>) -> Job {
    let mut marks = vec![
        ("A", 0.0, 0.0),
        ("B", 4000.0, 0.0),
        ("C", 9050.0, 3500.0),
        ("D", 9050.0, 7000.0),
    ];
    marks.extend(extra);
    let mut all = vec![
        json!({ "id": "first", "from": "A", "to": "B" }),
        json!({ "id": "second", "from": "C", "to": "D" }),
    ];
    all.append(&mut walls);
    let nail = json!([{ "at": 0, "off": 50 }, { "at": 3000, "off": 50 }]);
    site(
        &marks,
        json!(all),
        json!([
            { "id": "one", "wall": "first", "side": "right", "offsets": nail },
            { "id": "two", "wall": "second", "side": "left", "offsets": nail },
        ]),
        json!([{ "id": "X", "lines": ["one", "two"] }]),
    )
}

#[test]
fn a_run_goes_from_the_end_of_its_wall_to_the_corner_and_on_to_the_next_wall() {
    let job = gap(&[], Vec::new());
    let solution = solve(&job);
    assert_eq!(ends(&job, &solution, 0), ["mark B", "corner X"]);
    assert_eq!(ends(&job, &solution, 1), ["corner X", "mark C"]);
}

#[test]
fn it_ends_hard_against_a_wall_that_stands_there() {
    let walls = vec![json!({ "id": "return", "from": "E", "to": "B" })];
    let job = gap(&[("E", 4010.0, -1500.0)], walls);
    let solution = solve(&job);
    assert_eq!(ends(&job, &solution, 0), ["wall return", "corner X"]);
}

#[test]
fn a_wall_far_from_the_end_of_its_own_is_not_where_it_ends() {
    // Across the string, half way to the corner.
    let walls = vec![json!({ "id": "far", "from": "E", "to": "F" })];
    let job = gap(&[("E", 6500.0, -900.0), ("F", 6500.0, 900.0)], walls);
    let solution = solve(&job);
    assert_eq!(ends(&job, &solution, 0), ["mark B", "corner X"]);
}

#[test]
fn in_front_of_walls_that_meet_it_goes_from_the_corner_to_their_far_ends() {
    let nails = json!([{ "at": 0, "off": 500 }, { "at": 2000, "off": 500 }]);
    let job = site(
        &[("A", 0.0, 0.0), ("B", 4000.0, 0.0), ("C", 0.0, 3000.0)],
        json!([{ "id": "first", "from": "A", "to": "B" }, { "id": "second", "from": "A", "to": "C" }]),
        json!([
            { "id": "one", "wall": "first", "side": "left", "offsets": nails },
            { "id": "two", "wall": "second", "side": "right", "offsets": nails },
        ]),
        json!([{ "id": "X", "lines": ["one", "two"] }]),
    );
    let solution = solve(&job);
    assert_eq!(ends(&job, &solution, 0), ["corner X", "mark B"]);
    assert_eq!(ends(&job, &solution, 1), ["corner X", "mark C"]);
}

#[test]
fn without_a_corner_it_goes_along_what_it_is_stretched_along() {
    let mut job = gap(&[], Vec::new());
    job.corners.clear();
    let solution = solve(&job);
    assert_eq!(ends(&job, &solution, 0), ["mark A", "mark B"]);
    job.lines[0] = serde_json::from_value(json!({ "id": "one", "marks": ["B", "C"] })).expect("");
    let solution = solve(&job);
    // Its marks are the ends of walls, and it runs into them there.
    assert_eq!(ends(&job, &solution, 0), ["wall first", "wall second"]);
    job.walls.clear();
    job.lines.truncate(1);
    let solution = solve(&job);
    assert_eq!(ends(&job, &solution, 0), ["mark B", "mark C"]);
    job.readings.clear();
    let solution = solve(&job);
    assert_eq!(ends(&job, &solution, 0), ["None", "None"], "not settled");
}

#[test]
fn between_two_corners_it_goes_from_one_to_the_other() {
    let mut job = gap(&[], Vec::new());
    let third = json!({ "id": "three", "marks": ["D", "A"] });
    job.lines
        .push(serde_json::from_value(third).expect("a line"));
    let corner = json!({ "id": "Y", "lines": ["two", "three"] });
    job.corners
        .push(serde_json::from_value(corner).expect("a corner"));
    let solution = solve(&job);
    let [start, end] = ends(&job, &solution, 1);
    assert!(start != end && start.starts_with("corner") && end.starts_with("corner"));
}

#[test]
fn the_fence_goes_where_the_other_marks_are() {
    let job = gap(&[("P", 1000.0, -800.0)], Vec::new());
    let marks = solve(&job).marks;
    let wall = &job.walls[0];
    // Mirrored or not, C and D are on one side and P on the other.
    let beside = |side| marks_beside(&marks, wall, side).len();
    let both = [beside(Side::Left), beside(Side::Right)];
    assert_eq!(both.iter().sum::<usize>(), 3, "A and B are on the face");
    let most = if both[0] > both[1] {
        Side::Left
    } else {
        Side::Right
    };
    assert_eq!(usual_side(&marks, wall), Some(most));
    assert!(
        marks_beside(&marks, wall, most)
            .iter()
            .any(|id| id.as_str() == "C")
    );
    // One on either side: nobody can tell.
    let even = gap(&[("P", 1000.0, -800.0), ("Q", 2000.0, -700.0)], Vec::new());
    assert_eq!(usual_side(&solve(&even).marks, &even.walls[0]), None);
    assert_eq!(usual_side(&solve(&Job::new("")).marks, wall), None);
}
