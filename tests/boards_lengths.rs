//! Lengths of gravel boards and rails where they meet posts that are turned, and one another:
//! worked by hand from the geometry.
//!
//! Run R1 goes 6000 along +x from P to X; run R2 turns 62° to the left there (the corner is 118°)
//! and goes 4000 to Q. Posts 100 by 100, their front faces on the strings, inside the corner.

mod fences;

use fences::job;
use serde_json::{Value, json};
use tautmark::boards::{LongPoint, PieceEnd, WhichEnd};
use tautmark::{Solution, solve};

fn corner(set: &str, side: &str, max: f64, boards: Value) -> Solution {
    let turn = 62.0_f64.to_radians();
    let q = [6000.0 + 4000.0 * turn.cos(), 4000.0 * turn.sin()];
    let run = |id: &str, line: &str, start: Value, end: Value| {
        json!({
            "id": id, "line": line, "side": side, "gap": 0, "start": start, "end": end,
            "post": { "width": 100, "depth": 100 }, "bays": { "max": max }
        })
    };
    let solution = solve(&job(json!({
        "marks": [
            { "id": "P", "rough": [0, 0] }, { "id": "X", "rough": [6000, 0] }, { "id": "Q", "rough": q }
        ],
        "readings": [
            { "kind": "tape", "from": "P", "to": "X", "length": 6000 },
            { "kind": "tape", "from": "X", "to": "Q", "length": 4000 },
            { "kind": "tape", "from": "P", "to": "Q", "length": q[0].hypot(q[1]) }
        ],
        "lines": [{ "id": "one", "marks": ["P", "X"] }, { "id": "two", "marks": ["X", "Q"] }],
        "corners": [{ "id": "C", "lines": ["one", "two"],
                      "post": { "width": 100, "depth": 100, "set": set } }],
        "runs": [
            run("R1", "one", json!({ "mark": "P" }), json!({ "corner": "C" })),
            run("R2", "two", json!({ "corner": "C" }), json!({ "mark": "Q" }))
        ],
        "boards": boards
    })));
    assert!((solution.corners["C"].angle - 118.0).abs() < 1e-6);
    solution
}

fn gravel(set: f64) -> Value {
    json!({ "gravel": { "height": 150, "thick": 22, "set": set } })
}

#[track_caller]
fn near(found: f64, wanted: f64) {
    assert!((found - wanted).abs() < 0.01, "{found}, not {wanted}");
}

fn only(ends: &[PieceEnd]) -> PieceEnd {
    assert_eq!(ends.len(), 1, "{ends:?}");
    ends[0]
}

/// On the bisector the post is turned 31°; its faces lean tan 31° = 0.60086 a mm of depth, so the
/// board's end, 22 thick, is cut 31° off square and its back edge is 13.219 shorter.
#[test]
fn a_board_that_meets_a_post_on_the_bisector() {
    let solution = corner("bisect", "left", 7000.0, gravel(39.0));
    let board = &solution.boards["R1"].gravel[0];
    // Centre at 6000 − 68.610·tan 31° = 5958.775, 68.610 off; at a depth of 39 its face is 40.540
    // before that, at 61 it is 53.759; the first post ends at 50.
    near(board.length, 5868.235);
    near(board.short, 5855.016);
    let end = only(&board.ends);
    assert_eq!((end.end, end.long_point), (WhichEnd::End, LongPoint::Front));
    near(end.off_square, 31.0);
    near(end.from_length, 59.0);
    near(end.long_to_short, 13.219);
    assert_eq!(end.corner, None);
    // The other run is the mirror image: it begins at the corner, and ends at 4000 − 50.
    let board = &solution.boards["R2"].gravel[0];
    near(board.length, 3868.235);
    let end = only(&board.ends);
    assert_eq!(
        (end.end, end.long_point),
        (WhichEnd::Start, LongPoint::Front)
    );
}

/// Square to the first line the post fills 5900 to 6000 of it. Seen along the second, its corners
/// lie at (0, 0), (88.295, 46.947), (41.348, 135.242) and (−46.947, 88.295).
#[test]
fn a_board_that_meets_a_post_square_to_the_first_line() {
    let solution = corner("first", "left", 7000.0, gravel(39.0));
    let board = &solution.boards["R1"].gravel[0];
    near(board.length, 5850.0);
    near(board.short, 5850.0);
    assert!(board.ends.is_empty());
    // From 39 to 61 behind the string the corner at 46.947 pokes into its end: 73.348 at the
    // front edge, 88.295 at the corner, 80.823 at the back.
    let board = &solution.boards["R2"].gravel[0];
    near(board.length, 3950.0 - 73.348);
    near(board.short, 3950.0 - 88.295);
    let end = only(&board.ends);
    assert_eq!(
        (end.end, end.long_point),
        (WhichEnd::Start, LongPoint::Front)
    );
    near(end.long_to_short, 80.823 - 73.348);
    let corner = end.corner.expect("a corner of the post pokes in");
    near(corner.behind, 7.947);
    near(corner.shorter, 88.295 - 73.348);
    // Farther back the board meets one face only, leaning 0.53171 a mm the other way.
    let solution = corner_behind();
    let board = &solution.boards["R2"].gravel[0];
    near(board.length, 3950.0 - (88.295 - 43.053 * 0.531_709));
    near(board.short, 3950.0 - (88.295 - 21.053 * 0.531_709));
    let end = only(&board.ends);
    assert_eq!((end.long_point, end.corner), (LongPoint::Back, None));
    near(end.off_square, 28.0);
}

fn corner_behind() -> Solution {
    corner("first", "left", 7000.0, gravel(68.0))
}

#[test]
fn a_board_that_meets_a_post_square_to_the_second_line() {
    let solution = corner("second", "left", 7000.0, gravel(39.0));
    near(solution.boards["R2"].gravel[0].length, 3850.0);
    let board = &solution.boards["R1"].gravel[0];
    near(board.length, 5950.0 - 73.348);
    near(board.short, 5950.0 - 88.295);
}

#[test]
fn without_a_word_the_post_stands_square_to_the_first_line() {
    let job =
        job(json!({ "corners": [{ "id": "C", "lines": ["a", "b"], "post": { "width": 90 } }] }));
    let post = job.corners[0].post.as_ref().expect("a post");
    assert_eq!(post.set, tautmark::job::model::PostSet::First);
}

#[test]
fn rails_take_a_seat_at_both_ends() {
    let rails = json!({ "rails": { "count": 2, "seat": 15, "thick": 40, "set": 30 } });
    let solution = corner("bisect", "left", 7000.0, rails);
    let rail = &solution.boards["R1"].rails[0];
    // At depths of 30 and 70 the face is 35.132 and 59.166 before the post's centre.
    near(rail.length, 5958.775 - 35.132 - 50.0 + 30.0);
    near(rail.short, 5958.775 - 59.166 - 50.0 + 30.0);
}

/// Four bays of 1487.5 over five posts: over the whole of the first post, from centre to centre,
/// and to the mitre with the other run's rail.
#[test]
fn rails_across_the_faces_of_five_posts_and_a_mitre() {
    let rails = json!({ "rails": { "count": 2, "thick": 40, "set": 0, "joint": "face" } });
    let solution = corner("first", "left", 1500.0, rails.clone());
    assert_eq!(solution.runs["R1"].posts.len(), 5);
    let rails_of = |run: &str| -> Vec<[f64; 2]> {
        let bays = solution.boards[run].rails.iter();
        bays.map(|bay| [bay.length, bay.short]).collect()
    };
    let wanted = [
        [1537.5, 1537.5],
        [1487.5, 1487.5],
        [1487.5, 1487.5],
        // Front edge to the crossing, back edge 40·tan 31° = 24.034 short of it.
        [1537.5, 1537.5 - 24.034],
    ];
    for (found, wanted) in rails_of("R1").iter().zip(wanted) {
        near(found[0], wanted[0]);
        near(found[1], wanted[1]);
    }
    let last = &solution.boards["R1"].rails[3];
    let end = only(&last.ends);
    assert_eq!((end.end, end.long_point), (WhichEnd::End, LongPoint::Front));
    near(end.off_square, 31.0);
    let first = &solution.boards["R2"].rails[0];
    assert_eq!(only(&first.ends).end, WhichEnd::Start);
    // With the posts outside the corner the rails run past the crossing: long point at the back.
    let outside = corner("first", "right", 1500.0, rails);
    let last = outside.boards["R1"].rails.last().expect("rails");
    let posts = &outside.runs["R1"].posts;
    let post = &posts[posts.len() - 2];
    near(last.length, 6000.0 + 24.034 - post.centre);
    assert_eq!(only(&last.ends).long_point, LongPoint::Back);
}

#[test]
fn the_cut_list_keeps_bevelled_pieces_apart_from_square_ones() {
    let solution = corner("bisect", "left", 1500.0, gravel(39.0));
    let bevelled = solution.cuts.iter().filter(|cut| !cut.ends.is_empty());
    assert_eq!(bevelled.map(|cut| cut.count).sum::<usize>(), 2);
    assert!(solution.cuts.iter().all(|cut| cut.short <= cut.length));
}
