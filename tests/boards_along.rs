//! What is cut before the posts go in: marks along each post, bolts, notches, the gate's leaf, and
//! what all of it takes. Worked by hand.
//!
//! Ground at −500, gravel boards from −490 to −340, pales to 1260: the tops. Rails with centres 60,
//! 750 and 1440 above the boards, 75 high: 1502.5 to 1577.5, 812.5 to 887.5 and 122.5 to 197.5 from
//! the top.

mod fences;

use fences::{level_ground, says, straight};
use serde_json::{Value, json};
use tautmark::boards::{AlongPost, UpOrDown};
use tautmark::job::Job;
use tautmark::{Solution, solve};

fn boards() -> Value {
    json!({
        "gravel": { "height": 150, "clearance": 10, "dig": 0 },
        "rails": { "count": 3, "low": 60, "high": 1440, "seat": 15, "notch": 15, "height": 75 },
        "notches": [{ "rail": 1, "foot": "hole", "depth": 10 }, { "foot": "wall", "depth": 45 }],
        "fixings": { "wall": { "ends": 150, "most": 500, "clear": 30, "counterbore": 20, "embed": 90 } },
        "pales": { "width": 150, "lap": 20, "height": 1600 }
    })
}

/// 5000 from a wall across its start, whose post is fixed to it, to a mark.
fn from_a_wall(boards: Value) -> Job {
    let mut job = straight(5000.0, json!([]), level_ground(&[(0.0, -500.0)]), boards);
    let far = 3000.0_f64.hypot(5000.0);
    job.marks.push(mark("W", [0.0, 3000.0]));
    for (from, to, length) in [("P", "W", 3000.0), ("Q", "W", far)] {
        job.readings.push(part(
            json!({ "kind": "tape", "from": from, "to": to, "length": length }),
        ));
    }
    job.walls
        .push(part(json!({ "id": "house", "from": "P", "to": "W" })));
    job.runs[0].start = Some(part(json!({ "wall": "house", "foot": "wall" })));
    job
}

fn mark(id: &str, rough: [f64; 2]) -> tautmark::job::model::Mark {
    part(json!({ "id": id, "rough": rough }))
}

fn part<T: serde::de::DeserializeOwned>(value: Value) -> T {
    serde_json::from_value(value).expect("a part of a job")
}

fn said(marks: &[AlongPost]) -> Vec<(String, f64, f64, Option<f64>)> {
    let tenth = |mm: f64| (mm * 10.0).round() / 10.0;
    marks
        .iter()
        .map(|mark| {
            (
                mark.what.to_string(),
                tenth(mark.from),
                tenth(mark.to),
                mark.depth,
            )
        })
        .collect()
}

#[track_caller]
fn near(found: f64, wanted: f64) {
    assert!((found - wanted).abs() < 0.01, "{found}, not {wanted}");
}

fn row(what: &str, from: f64, to: f64, depth: Option<f64>) -> (String, f64, f64, Option<f64>) {
    (what.to_owned(), from, to, depth)
}

#[test]
fn a_wall_post_and_a_ground_post_of_one_fence() {
    let solution = solve(&from_a_wall(boards()));
    let posts = &solution.boards["R"].posts;
    // 1740 long. Bolts would be at 150, 630, 1110 and 1590; the first and the last meet the
    // housings of rails 3 and 1 and move inwards, 30 clear of them.
    assert_eq!(
        said(&posts[0].along),
        [
            row("rail 3", 122.5, 197.5, Some(45.0)),
            row("bolt 1", 227.5, 227.5, None),
            row("bolt 2", 630.0, 630.0, None),
            row("rail 2", 812.5, 887.5, Some(45.0)),
            row("bolt 3", 1110.0, 1110.0, None),
            row("bolt 4", 1472.5, 1472.5, None),
            row("rail 1", 1502.5, 1577.5, Some(45.0)),
            row("gravel board", 1600.0, 1740.0, None),
            row("ground", 1760.0, 1760.0, None),
        ]
        .map(|mut one| {
            if one.0 == "gravel board" {
                one.2 = 1750.0;
            }
            one
        })
    );
    let bolts = posts[0].bolts.as_ref().expect("bolts");
    assert_eq!(bolts.shaft, Some(170.0));
    assert_eq!(solution.buy.sundries.bolts, 4);
    // A post in the ground: the same heights on both sides, the lowest cut only 10 deep.
    let second: Vec<_> = said(&posts[1].along);
    assert_eq!(second[0], row("rail 3", 122.5, 197.5, Some(15.0)));
    assert_eq!(second[4], row("rail 1", 1502.5, 1577.5, Some(10.0)));
    assert_eq!(second.len(), 9);
    near(posts[1].length.expect("known"), 2360.0);
    near(posts[1].along[4].bending.expect("a share"), 0.81);
    near(posts[0].along[0].bending.expect("a share"), 0.3025);
    // The notch that governs is that of rail 1 at a post in the ground: 220 above it.
    let notch = solution.boards["R"].notch.as_ref().expect("notches");
    let worst = notch.worst.expect("heights are known");
    assert_eq!((worst.rail, worst.cut), (1, 10.0));
    near(worst.above_ground, 220.0);
    assert!(
        notch
            .caution
            .as_ref()
            .is_some_and(|said| said.contains("rail 1, 220\u{a0}mm above the ground at post 2"))
    );
}

#[test]
fn posts_with_the_same_marks_are_cut_together() {
    let solution = solve(&from_a_wall(boards()));
    assert_eq!(solution.boards["R"].alike, [vec![1], vec![2, 3], vec![4]]);
}

#[test]
fn a_rail_is_shorter_where_its_housing_is_shallower_than_its_seat() {
    let solution = solve(&from_a_wall(boards()));
    let rails = &solution.boards["R"].rails;
    // The housing in the wall post takes the seat; 10 deep at a post in the ground loses 5.
    assert_eq!(rails[0].shorter, [5.0, 0.0, 0.0]);
    assert_eq!(rails[1].shorter, [10.0, 0.0, 0.0]);
    let cut = solution
        .cuts
        .iter()
        .find(|cut| (cut.length - rails[1].length + 10.0).abs() < 0.01);
    assert_eq!(cut.expect("cut by itself").count, 2);
}

#[test]
fn the_mark_to_bring_to_the_laser_line() {
    let solution = solve(&from_a_wall(boards()));
    let post = &solution.boards["R"].posts[1];
    // The line is at 0, 1260 below the top: rail 2's lower edge, at 887.5, is 372.5 above it, rail
    // 1's upper edge, at 1502.5, 242.5 below.
    let mark = post.to_laser(0.0).expect("it is marked");
    assert_eq!(mark.what.expect("a rail").to_string(), "rail 1");
    assert_eq!(mark.way, UpOrDown::Down);
    near(mark.by, 242.5);
    near(mark.from_top.expect("on the post"), 1260.0);
    assert_eq!(post.laser, Some(mark));
    // Above the top nothing can be marked on the post.
    let above = post.to_laser(1300.0).expect("its top");
    assert_eq!((above.what, above.from_top), (None, None));
    near(above.by, 40.0);
}

#[test]
fn marks_along_a_post_and_marks_on_it_are_the_same_heights_from_any_laser_line() {
    use tautmark::boards::{AlongWhat, MarkedThing, height_marks};
    let solution = solve(&tautmark::job::example());
    let levels = solution.levels.as_ref().expect("levelled");
    let mut compared = 0;
    for setup in levels.setups.values() {
        for post in solution.boards.values().flat_map(|run| &run.posts) {
            let top = post.top.expect("known");
            for standing in height_marks(post, setup.line) {
                let height = match standing.way {
                    UpOrDown::Up => setup.line + standing.by,
                    UpOrDown::Down => setup.line - standing.by,
                };
                let lying = post.along.iter().filter_map(|mark| {
                    let middle = top - f64::midpoint(mark.from, mark.to);
                    match (mark.what, standing.what) {
                        (AlongWhat::Rail(a), MarkedThing::Rail(b)) if a == b => Some(middle),
                        (AlongWhat::Gravel, MarkedThing::Gravel) => Some(top - mark.from),
                        _ => None,
                    }
                });
                if standing.what == MarkedThing::Top {
                    continue;
                }
                let apart = lying
                    .map(|one| (one - height).abs())
                    .fold(f64::INFINITY, f64::min);
                assert!(apart < 0.1, "post {}: {:?}", post.n, standing.what);
                compared += 1;
            }
        }
    }
    assert!(compared > 60, "{compared}");
}

fn with_gate(gate: Value) -> Solution {
    let ground = level_ground(&[(0.0, -500.0)]);
    solve(&straight(7200.0, json!([gate]), ground, boards()))
}

fn gate() -> Value {
    json!({
        "at": 900, "clear": 1000,
        "leaf": { "hinge": 15, "latch": 10, "ground": 60, "stile": 70, "thick": 38, "face": 16 },
        "lock": { "height": 1000, "backset": 60, "case": 110 }
    })
}

/// 975 wide and 1700 high; between the frame's inner edges 835 by 1560.
#[test]
fn a_leaf_with_its_brace_and_lock() {
    let solution = with_gate(gate());
    let leaf = &solution.boards["R"].gates[0];
    near(leaf.height.expect("known"), 1700.0);
    near(leaf.ledge, 835.0);
    let brace = leaf.brace.expect("a brace");
    near(brace.length, 1769.41);
    near(brace.angle, 61.84);
    near(brace.off_square, 28.16);
    near(brace.to_stile, 61.84);
    let lock = leaf.lock.expect("a lock");
    assert_eq!((lock.from_edge, lock.packing), (60.0, Some(40.0)));
    assert_eq!((lock.off_stile, lock.off_seen), (25.0, 5.0));
    assert_eq!((lock.packing_to_centre, lock.shaft), (Some(50.0), 54.0));
    // Bottom at −440, so its centre is at 560 over a line at 0.
    near(lock.down.expect("known"), -560.0);
    assert_eq!(solution.buy.sundries.locks, 1);
    assert_eq!(solution.buy.sundries.hinges, 3);
}

/// The wall is at 0, its post fills 0 to 100, the opening 100 to 1100, the next post 1100 to 1200.
#[test]
fn a_gate_hard_against_the_wall_post() {
    let mut job = from_a_wall(boards());
    let mut gate = gate();
    gate.as_object_mut().expect("a gate").remove("at");
    gate["against"] = json!("start");
    gate["leaf"]["hung"] = json!("end");
    gate["leaf"]["opens"] = json!("behind");
    job.runs[0].gates = vec![part(gate)];
    let solution = solve(&job);
    let run = &solution.runs["R"];
    near(run.posts[0].far, 100.0);
    near(run.posts[1].near, 1100.0);
    // Three bays from 1150 to 5000.
    assert_eq!(run.posts.len(), 5);
    near(run.posts[2].centre, 1150.0 + 3850.0 / 3.0);
    let boards = &solution.boards["R"];
    near(boards.rails[0].length, 3850.0 / 3.0 - 100.0 + 30.0);
    let leaf = &boards.gates[0];
    assert_eq!((leaf.from, leaf.to, leaf.hung), (1, 2, 2));
    near(leaf.width, 975.0);
    // From −440 to the posts' tops at 1260.
    near(leaf.height.expect("known"), 1700.0);
    let brace = leaf.brace.expect("a brace");
    near(brace.length, (835.0_f64 * 835.0 + 1560.0 * 1560.0).sqrt());
    near(brace.off_square + brace.angle, 90.0);
    let lock = leaf.lock.expect("a lock");
    assert_eq!((lock.packing, lock.shaft), (Some(40.0), 54.0));
    near(lock.down.expect("known"), -560.0);
    // No rail meets the wall post: nothing but the ground and four bolts is marked on it.
    assert_eq!(
        said(&boards.posts[0].along),
        [
            row("bolt 1", 150.0, 150.0, None),
            row("bolt 2", 630.0, 630.0, None),
            row("bolt 3", 1110.0, 1110.0, None),
            row("bolt 4", 1590.0, 1590.0, None),
            row("ground", 1760.0, 1760.0, None),
        ]
    );
    // The wall is beside the opening, not in the swing.
    assert!(!says(
        &solution,
        "runs[0].gates[0].leaf.opens",
        "in the gate's swing"
    ));
}

/// Bolts down the wall posts have nowhere to go: said once, with both posts.
#[test]
fn the_same_is_said_of_several_posts_once() {
    let mut job = tautmark::job::example();
    let mut fixings = tautmark::job::model::Fixings::default();
    fixings.wall.ends = 900.0;
    job.boards.fixings = Some(fixings);
    let solution = solve(&job);
    let refused: Vec<_> = solution
        .problems
        .iter()
        .filter(|one| one.place == "boards.fixings.wall")
        .collect();
    assert_eq!(refused.len(), 1, "{refused:#?}");
    assert!(
        refused[0]
            .text
            .contains("post 1 of run “R1” and post 4 of run “R2”"),
        "{}",
        refused[0].text
    );
    assert!(refused[0].place.concerns_post(&"R1".into(), 1));
    assert!(refused[0].place.concerns_post(&"R2".into(), 4));
    assert!(!refused[0].place.concerns_post(&"R1".into(), 2));
    // Their other marks are there all the same, as deep as a wall post's are.
    let along = &solution.boards["R2"].posts[3].along;
    assert!(along.iter().any(|mark| mark.depth == Some(15.0)));
}

#[test]
fn a_turned_offcut_brings_a_tapered_board_parallel_where_it_is_asked_for() {
    let mut tapered = gate();
    tapered["lock"]["offcut"] = json!({ "thin": 6, "width": 150, "from": 75 });
    let solution = with_gate(tapered);
    let lock = solution.boards["R"].gates[0].lock.expect("a lock");
    // The board is 11 there; with its offcut 16 + 6 everywhere.
    assert_eq!((lock.offcut, lock.shaft), (Some(11.0), 60.0));
}

#[test]
fn what_cannot_be_made_is_refused_with_place_and_remedy() {
    let mut high = gate();
    high["lock"]["height"] = json!(1800);
    assert!(says(
        &with_gate(high),
        "runs[0].gates[0].lock.height",
        "1\u{a0}700\u{a0}mm high"
    ));
    let mut wide = gate();
    wide["leaf"]["stile"] = json!(490);
    assert!(says(
        &with_gate(wide),
        "runs[0].gates[0].leaf.stile",
        "no room"
    ));
    let refused = |change: fn(&mut Value), place: &str, words: &str| {
        let mut boards = boards();
        change(&mut boards);
        let solution = solve(&from_a_wall(boards));
        assert!(says(&solution, place, words), "{:#?}", solution.problems);
        assert!(!solution.boards["R"].posts[0].along.is_empty());
    };
    refused(
        |boards| boards["notches"][0]["depth"] = json!(100),
        "boards.notches[0].depth",
        "right through",
    );
    refused(
        |boards| boards["notches"][0]["rail"] = json!(4),
        "boards.notches[0].rail",
        "no rail 4",
    );
    refused(
        |boards| boards["rails"]["notch"] = json!(120),
        "boards.rails.notch",
        "right through",
    );
    refused(
        |boards| boards["fixings"]["wall"]["ends"] = json!(900),
        "boards.fixings.wall",
        "no room",
    );
    refused(
        |boards| boards["rails"]["high"] = json!(1700),
        "boards.rails.high",
        "above the top of the posts",
    );
}

#[test]
fn what_is_in_the_swing_of_a_gate_is_said() {
    let swings = |opens: &str| {
        let mut gate = gate();
        gate["leaf"]["opens"] = json!(opens);
        let ground = level_ground(&[(0.0, -500.0)]);
        let mut job = straight(7200.0, json!([gate]), ground, boards());
        // A wall 500 behind the string, across the swing.
        let wall = [("V", [600.0, 500.0]), ("W", [2000.0, 500.0])];
        for (id, at) in wall {
            job.marks.push(mark(id, at));
            for (from, x) in [("P", 0.0), ("Q", 7200.0)] {
                let length = (at[0] - x).hypot(at[1]);
                job.readings.push(part(
                    json!({ "kind": "tape", "from": from, "to": id, "length": length }),
                ));
            }
        }
        job.walls
            .push(part(json!({ "id": "shed", "from": "V", "to": "W" })));
        let solution = solve(&job);
        says(
            &solution,
            "runs[0].gates[0].leaf.opens",
            "Wall “shed” is in the gate's swing",
        )
    };
    assert!(swings("behind"));
    assert!(!swings("front"));
}

/// Five posts, four bays, twelve rails, 56 pales over 7300.
#[test]
fn screws_caps_and_what_comes_out_of_the_ground() {
    let mut with_strip = boards();
    with_strip["clear"] = json!({ "width": 300, "depth": 50, "bulk": 1.3 });
    let ground = level_ground(&[(0.0, -500.0)]);
    let solution = solve(&straight(7200.0, json!([]), ground, with_strip));
    let sundries = &solution.buy.sundries;
    assert_eq!(
        [
            sundries.screws.pales,
            sundries.screws.rails,
            sundries.screws.gravel
        ],
        [56 * 3, 12 * 2 * 2, 4 * 2 * 2]
    );
    assert_eq!((sundries.caps, sundries.bolts, sundries.hinges), (5, 0, 0));
    // Holes 53.01 each as dug; a strip of 7300 by 300 by 50 is 109.5 litres; no trench.
    assert!((sundries.spoil - (5.0 * 53.014 + 109.5) * 1.3).abs() < 0.05);
    near(sundries.strip, 7300.0);
    near(sundries.strip_area, 2.19);
}

#[test]
fn the_cut_list_says_which_post_comes_out_of_which_length() {
    let mut job = from_a_wall(boards());
    job.stock.posts = vec![2100.0, 2400.0, 3000.0];
    let posts = solve(&job).buy.posts;
    let short = posts
        .bars
        .iter()
        .find(|bar| bar.stock == 2100.0)
        .expect("one of 2100");
    assert_eq!((short.posts[0].run.as_str(), short.posts[0].from), ("R", 1));
    assert!(
        posts
            .bars
            .iter()
            .all(|bar| bar.posts.len() == bar.pieces.len())
    );
}
