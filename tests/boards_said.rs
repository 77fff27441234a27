//! Boards worked by hand, what is said of them, and bad input.

mod fences;

use fences::{cornered, job, level_ground, says, straight};
use proptest::prelude::*;
use serde_json::{Value, json};
use tautmark::boards::{CutPiece, Governs, MarkSide, MarkedThing, UpOrDown, height_marks};
use tautmark::job::example;
use tautmark::length::Unit;
use tautmark::solve;

fn near(a: f64, b: f64) {
    assert!((a - b).abs() < 0.05, "{a} is not {b}");
}

#[test]
fn heights_to_mark_on_post_4_of_the_example() {
    let solution = solve(&example());
    let line = solution.levels.as_ref().expect("levels").setups["S1"].line;
    let post = &solution.boards["R1"].posts[3];
    near(post.step.expect("a step"), -30.0);
    let wanted = [
        (MarkedThing::Top, MarkSide::Both, UpOrDown::Up, 1014.89),
        (MarkedThing::Rail(3), MarkSide::Before, UpOrDown::Up, 854.89),
        (MarkedThing::Rail(2), MarkSide::Before, UpOrDown::Up, 164.89),
        (
            MarkedThing::Rail(1),
            MarkSide::Before,
            UpOrDown::Down,
            525.11,
        ),
        (
            MarkedThing::Gravel,
            MarkSide::Before,
            UpOrDown::Down,
            585.11,
        ),
        (MarkedThing::Rail(3), MarkSide::After, UpOrDown::Up, 824.89),
        (MarkedThing::Rail(2), MarkSide::After, UpOrDown::Up, 134.89),
        (
            MarkedThing::Rail(1),
            MarkSide::After,
            UpOrDown::Down,
            555.11,
        ),
        (MarkedThing::Gravel, MarkSide::After, UpOrDown::Down, 615.11),
    ];
    let marks = height_marks(post, line);
    assert_eq!(marks.len(), wanted.len());
    for (mark, (what, side, way, by)) in marks.iter().zip(wanted) {
        assert_eq!((mark.what, mark.side, mark.way), (what, side, way));
        near(mark.by, by);
    }
    // The set-up's ±1.962, one reading of ±1.96, and ±1.171 for 0.3 mm per m over 3450 mm: g4, 5.2 m
    // from the set-up, is 1750 mm farther along the run.
    near(post.pm.expect("a ±"), 3.010);
}

#[test]
fn posts_concrete_and_bags_of_the_example() {
    let solution = solve(&example());
    let first = &solution.boards["R1"].posts[0];
    near(first.above.expect("known"), 1720.0);
    // It is fixed to the wall, 20 clear of the ground.
    near(first.length.expect("known"), 1700.0);
    assert_eq!((first.in_ground, first.litres), (None, None));
    let second = &solution.boards["R1"].posts[1];
    near(
        second.length.expect("known"),
        600.0 + second.above.expect("known"),
    );
    near(second.litres.expect("known"), 36.41);
    near(second.litres_dug.expect("known"), 47.01);
    assert_eq!(solution.buy.post_count, 8);
    // Six holes; 282.1 litres at 12 a bag is 23.5 bags.
    near(solution.buy.litres, 282.08);
    assert_eq!(solution.buy.bags, 24);
}

#[test]
fn both_rail_ends_at_the_corner_for_each_way_the_post_is_turned() {
    let theta: f64 = 104.2895;
    let (half, square) = (90.0 - theta / 2.0, (90.0 - theta).abs());
    for (set, first, second) in [
        ("bisect", half, half),
        ("first", 0.0, square),
        ("second", square, 0.0),
    ] {
        let mut job = example();
        job.corners[0].post = serde_json::from_value(json!({ "set": set })).expect("a post");
        job.boards.rails.as_mut().expect("rails").thick = Some(38.0);
        let solution = solve(&job);
        for (run, off) in [("R1", first), ("R2", second)] {
            let [end] = &solution.boards[run].ends[..] else {
                panic!("{set}: {run} has one end at the corner");
            };
            assert!((end.angle.abs() - theta).abs() < 0.005);
            assert!(
                (end.to_post.off_square.abs() - off).abs() < 0.005,
                "{set} {run}"
            );
            assert!((end.to_post.from_length - (90.0 - off)).abs() < 0.005);
            near(end.to_post.long_to_short, 38.0 * off.to_radians().tan());
            assert!((end.mitre.off_square - half).abs() < 0.005);
            assert!((end.mitre.from_length - theta / 2.0).abs() < 0.005);
        }
    }
}

/// Whether the job is told that housings meet, and in which posts.
fn meet(job: &tautmark::job::Job) -> Option<String> {
    let problems = solve(job).problems;
    let met = problems
        .into_iter()
        .find(|p| p.text.contains("housings from two sides meet"));
    met.map(|p| p.text)
}

#[test]
fn housings_that_meet_inside_a_post_are_named() {
    // Three bays of 1733, posts 100 wide: 2 and 3 have rails from both sides.
    let fence = |notch: f64| {
        straight(
            5200.0,
            json!([]),
            level_ground(&[(0.0, 0.0)]),
            json!({
                "gravel": { "height": 150, "fit": "stepped" },
                "rails": { "count": 3, "low": 60, "high": 1440, "seat": 15, "notch": notch },
                "pales": { "width": 150, "lap": 20, "height": 1600 }
            }),
        )
    };
    assert_eq!(meet(&fence(49.0)), None);
    let said = meet(&fence(50.0)).expect("50 and 50 are the whole post");
    assert!(said.contains("In posts 2 and 3 of run “R”"), "{said}");

    // Rails that step by more than their height at a post pass over each other.
    let mut stepped = fence(50.0);
    stepped.levels = serde_json::from_value(level_ground(&[
        (0.0, 0.0),
        (1550.0, 0.0),
        (1650.0, -150.0),
        (3300.0, -150.0),
        (3400.0, -300.0),
    ]))
    .expect("levels");
    assert_eq!(meet(&stepped), None);
}

#[test]
fn housings_that_meet_in_a_corner_post_are_named_once() {
    // At a square corner each rail, 40 thick in the middle of its 100 post, keeps 30 from its faces:
    // a housing deeper than that runs into the other's.
    let corner = |notch: f64| {
        let mut job = job(json!({
            "marks": [
                { "id": "P", "rough": [0, 0] }, { "id": "X", "rough": [3000, 0] },
                { "id": "Q", "rough": [3000, 3000] }
            ],
            "readings": [
                { "kind": "tape", "from": "P", "to": "X", "length": 3000 },
                { "kind": "tape", "from": "X", "to": "Q", "length": 3000 },
                { "kind": "angle", "from": "P", "at": "X", "to": "Q", "degrees": 90.0, "sd": 0.1 }
            ],
            "lines": [{ "id": "one", "marks": ["P", "X"] }, { "id": "two", "marks": ["X", "Q"] }],
            "corners": [{ "id": "C", "lines": ["one", "two"] }],
            "runs": [
                { "id": "R1", "line": "one", "side": "left", "gap": 50,
                  "start": { "mark": "P" }, "end": { "corner": "C" }, "bays": { "max": 3000 } },
                { "id": "R2", "line": "two", "side": "left", "gap": 50,
                  "start": { "corner": "C" }, "end": { "mark": "Q" }, "bays": { "max": 3000 } }
            ],
            "boards": {
                "gravel": { "height": 150 },
                "rails": { "count": 3, "low": 60, "high": 1440, "seat": 15, "thick": 40, "notch": notch },
                "pales": { "width": 150, "lap": 20, "height": 1600 }
            }
        }));
        job.levels = serde_json::from_value(json!({
            "datum": { "point": "nail", "height": 0 },
            "points": [{ "id": "g", "run": "R1", "at": 0 }, { "id": "h", "run": "R2", "at": 0 }],
            "setups": [{ "id": "S", "sights": [
                { "point": "nail", "down": 0 }, { "point": "g", "down": 0 }, { "point": "h", "down": 0 }
            ] }]
        }))
        .expect("levels");
        job
    };
    assert_eq!(meet(&corner(29.0)), None);
    let said = meet(&corner(31.0)).expect("31 reaches the other rail");
    assert!(
        said.starts_with("In post 2 of run “R1” the rails"),
        "{said}"
    );
}

#[test]
fn the_gap_under_bay_4_to_5_is_said_with_what_closes_it() {
    let solution = solve(&example());
    assert!(says(
        &solution,
        "boards.gravel.gap",
        "bay 4 to 5 leaves a gap of 63\u{a0}mm under"
    ));
    let remedy = &solution
        .problems
        .iter()
        .find(|p| p.place == "boards.gravel.gap")
        .expect("it is said")
        .remedy;
    assert_eq!(
        remedy,
        "Step it 30\u{a0}mm further down, digging 42\u{a0}mm by post 4, or set it 13\u{a0}mm lower, digging 25\u{a0}mm by post 4."
    );
}

#[test]
fn lengths_are_told_in_the_jobs_own_unit() {
    let mut job = example();
    job.show.lengths = Unit::FEET;
    job.levels.setups[1].sights[5].down = Some(575.0);
    job.stock.rails = vec![1200.0];
    let problems = solve(&job).problems;
    assert!(problems.len() >= 3, "{problems:#?}");
    for problem in problems {
        let text = format!("{} {}", problem.text, problem.remedy);
        let metric = text.contains("\u{a0}mm") || text.contains(" mm");
        assert!(!metric, "{text}");
    }
}

#[test]
fn a_low_notch_is_cautioned_and_a_high_one_is_not() {
    let solution = solve(&example());
    let notch = solution.boards["R1"].notch.as_ref().expect("a notch");
    near(notch.bending, 0.7225);
    near(notch.section, 0.85);
    near(notch.mortised, 0.9966);
    // 153 of 1813 is less than 15 of 100: the face notch governs; a mortise there does not.
    let worst = notch.worst.expect("heights are known");
    assert_eq!((worst.post, worst.governs), (5, Governs::Notch));
    assert_eq!(worst.governs_mortised, Governs::Ground);
    assert!(says(
        &solution,
        "boards.rails.notch",
        "153\u{a0}mm above the ground at post 5"
    ));
    let mut high = example();
    let rails = high.boards.rails.as_mut().expect("rails");
    (rails.low, rails.notch) = (500.0, Some(5.0));
    let solution = solve(&high);
    assert!(!says(&solution, "boards.rails.notch", ""));
    let notch = solution.boards["R1"].notch.as_ref().expect("a notch");
    near(notch.bending, 0.9025);
    let mut through = example();
    through.boards.rails.as_mut().expect("rails").notch = Some(100.0);
    assert!(says(
        &solve(&through),
        "boards.rails.notch",
        "right through"
    ));
}

#[test]
fn a_gate_leaf_in_its_opening_and_over_its_ground() {
    let ground = level_ground(&[(0.0, -100.0), (5000.0, -300.0)]);
    let gate = |hung: &str| {
        json!([{ "at": 1500, "clear": 1000,
            "leaf": { "hinge": 15, "latch": 10, "ground": 60, "hung": hung } }])
    };
    let solution = solve(&straight(5000.0, gate("start"), ground.clone(), json!({})));
    let leaf = solution.boards["R"].gates[0];
    near(leaf.width, 975.0);
    near(leaf.ground.expect("known"), -160.0);
    near(leaf.bottom.expect("known"), -100.0);
    near(leaf.down.expect("known"), 100.0);
    near(leaf.fall.expect("known"), 40.0);
    assert!(says(
        &solution,
        "runs[0].gates[0].leaf.hung",
        "40\u{a0}mm higher"
    ));
    assert!(says(&solution, "runs[0].gates[0].leaf", "beside the line"));
    let low = solve(&straight(5000.0, gate("end"), ground, json!({})));
    assert!(!says(&low, "runs[0].gates[0].leaf.hung", ""));
}

#[test]
fn gaps_that_leave_no_gate() {
    let gates = json!([{ "at": 1500, "clear": 600, "leaf": { "hinge": 400, "latch": 300 } }]);
    let solution = solve(&straight(5000.0, gates, json!({}), json!({})));
    assert!(solution.boards["R"].gates.is_empty());
    assert!(says(&solution, "runs[0].gates[0].leaf", "leave nothing"));
}

#[test]
fn pales_from_the_trade_notes() {
    // 125 boards, 20 of lap at least: 1.8 m takes 17 at 20.31; 3.0 m takes 29 at 22.32.
    for (cover, count, lap) in [(1800.0, 17, 20.3125), (3000.0, 29, 22.3214)] {
        let boards = json!({ "pales": { "width": 125, "lap": 20 } });
        // Posts of 100 stand half over each end.
        let solution = solve(&straight(cover - 100.0, json!([]), json!({}), boards));
        let stretch = solution.boards["R"].pales[0];
        assert_eq!(stretch.count, count);
        near(stretch.lap, lap);
    }
}

#[test]
fn one_pale_covers_a_narrow_stretch() {
    let boards = json!({ "pales": { "width": 500, "lap": 20 } });
    let solution = solve(&straight(300.0, json!([]), json!({}), boards));
    let stretch = solution.boards["R"].pales[0];
    assert_eq!((stretch.count, stretch.lap), (1, 0.0));
    near(stretch.trim.expect("too wide"), 100.0);
    assert_eq!(stretch.marks().count(), 1);
}

#[test]
fn a_run_without_ground_says_so_and_the_other_goes_on() {
    let mut job = example();
    job.levels
        .points
        .retain(|point| point.run.as_ref().is_none_or(|run| run.as_str() != "R2"));
    for setup in &mut job.levels.setups {
        setup
            .sights
            .retain(|sight| !["g5", "g6"].contains(&sight.point.as_str()));
    }
    let solution = solve(&job);
    assert!(says(&solution, "runs[1]", "No ground on run “R2”"));
    let (first, second) = (&solution.boards["R1"], &solution.boards["R2"]);
    assert!(first.gravel.iter().all(|board| board.top.is_some()));
    assert!(
        second
            .gravel
            .iter()
            .all(|board| board.top.is_none() && board.length > 0.0)
    );
    assert!(
        second
            .rails
            .iter()
            .all(|bay| bay.down.is_empty() && bay.length > 0.0)
    );
    assert_eq!(second.setup, None);
}

#[test]
fn lengths_do_not_wait_for_levels() {
    let mut job = example();
    job.levels = Default::default();
    let solution = solve(&job);
    assert!(says(&solution, "levels", "nothing has been levelled"));
    let kinds: Vec<CutPiece> = solution.cuts.iter().map(|cut| cut.item).collect();
    for item in [CutPiece::Gravel, CutPiece::Rail, CutPiece::Pale] {
        assert!(kinds.contains(&item));
    }
    assert!(
        !kinds.contains(&CutPiece::Post),
        "post lengths need heights"
    );
    assert_eq!((solution.buy.post_count, solution.buy.bags), (8, 24));
}

#[test]
fn a_ground_point_off_the_end_and_stock_too_short() {
    let ground = level_ground(&[(0.0, -100.0), (9000.0, -300.0)]);
    let mut job = straight(
        5000.0,
        json!([]),
        ground,
        json!({ "rails": { "count": 2 } }),
    );
    job.stock.rails = vec![1200.0];
    let solution = solve(&job);
    assert!(says(
        &solution,
        "levels.points[1].at",
        "“g1” at 9\u{a0}000\u{a0}mm"
    ));
    assert!(says(
        &solution,
        "stock.rails",
        "1\u{a0}597\u{a0}mm, of 1\u{a0}200\u{a0}mm"
    ));
    assert_eq!(solution.buy.rails.too_long.len(), 6);
}

#[test]
fn runs_that_differ_about_the_ground_at_their_corner() {
    let mut job = example();
    assert!(says(
        &solve(&job),
        "runs[1].start.corner",
        "30\u{a0}mm apart"
    ));
    let at_corner = json!({ "id": "g4b", "run": "R2", "at": 110 });
    job.levels
        .points
        .push(serde_json::from_value(at_corner).expect("a point"));
    let sight = json!({ "point": "g4b", "down": 893, "dist": 2500 });
    job.levels.setups[1]
        .sights
        .push(serde_json::from_value(sight).expect("a sight"));
    assert!(!says(&solve(&job), "runs[1].start.corner", ""));
}

#[test]
fn a_post_too_big_for_its_hole() {
    let mut job = example();
    job.hole.diameter = 120.0;
    let solution = solve(&job);
    assert!(says(&solution, "hole", "concrete"));
    assert!(
        solution.boards["R1"]
            .posts
            .iter()
            .all(|post| post.litres.is_none())
    );
    assert_eq!(solution.buy.bags, 0);
}

/// Whether any figure in there failed to be a number.
fn has_gap(value: &Value) -> bool {
    match value {
        Value::Null => true,
        Value::Array(values) => values.iter().any(has_gap),
        Value::Object(parts) => parts
            .iter()
            .any(|(key, value)| key != "hint" && has_gap(value)),
        _ => false,
    }
}

fn figure() -> impl Strategy<Value = f64> {
    prop_oneof![
        -2000.0..4000.0f64,
        prop::sample::select(vec![
            0.0,
            -0.0,
            1e-300,
            1e-3,
            1e6,
            -1e6,
            1e300,
            f64::NAN,
            f64::INFINITY,
            f64::NEG_INFINITY
        ]),
    ]
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(300))]

    #[test]
    fn no_figure_makes_it_panic_or_give_what_is_no_number(
        seed in 0..50u64,
        figures in prop::collection::vec(figure(), 24),
        fit_stepped in any::<bool>(),
    ) {
        let mut job = cornered(seed).job;
        let mut next = figures.into_iter();
        let mut take = |keep: &mut f64| {
            if let Some(figure) = next.next() {
                *keep = figure;
            }
        };
        let gravel = job.boards.gravel.as_mut().expect("gravel boards");
        for keep in [
            &mut gravel.height, &mut gravel.clearance, &mut gravel.dig, &mut gravel.gap
        ] {
            take(keep);
        }
        if fit_stepped {
            take(gravel.step.get_or_insert(30.0));
        } else {
            take(gravel.top.get_or_insert(0.0));
        }
        let rails = job.boards.rails.as_mut().expect("rails");
        for keep in [&mut rails.low, &mut rails.seat, rails.notch.get_or_insert(1.0)] {
            take(keep);
        }
        take(rails.thick.get_or_insert(40.0));
        let pales = job.boards.pales.as_mut().expect("pales");
        for keep in [&mut pales.width, &mut pales.lap, &mut pales.height] {
            take(keep);
        }
        for keep in [&mut job.hole.diameter, &mut job.hole.depth, &mut job.hole.bag] {
            take(keep);
        }
        for setup in &mut job.levels.setups {
            if let Some(sight) = setup.sights.first_mut() {
                take(sight.down.get_or_insert(0.0));
                take(sight.dist.get_or_insert(0.0));
            }
        }
        if let Some(point) = job.levels.points.first_mut() {
            take(point.at.get_or_insert(0.0));
        }
        take(&mut job.level.accuracy);
        take(&mut job.level.reading);
        job.stock.rails = vec![0.0];
        job.stock.rails.iter_mut().for_each(&mut take);
        let solution = solve(&job);
        let json = serde_json::to_value(&solution).expect("a solution is JSON");
        for part in ["levels", "boards", "cuts", "buy"] {
            prop_assert!(!json.get(part).is_some_and(has_gap), "{part}: {}", json[part]);
        }
    }
}

#[test]
fn an_empty_job_has_empty_boards() {
    let solution = solve(&job(json!({})));
    assert!(solution.boards.is_empty() && solution.cuts.is_empty());
    assert_eq!(solution.buy.bags, 0);
}
