//! What is said of levels: how they close, what is missing, which sight looks wrong.

mod fences;

use fences::{job, says};
use serde_json::{Value, json};
use tautmark::job::example;
use tautmark::site::NetworkStatus;
use tautmark::{Solution, solve};

fn levels(levels: Value) -> Solution {
    solve(&job(json!({ "levels": levels })))
}

fn sight(point: &str, down: f64) -> Value {
    json!({ "point": point, "down": down })
}

#[test]
fn the_example_has_two_checks_closing_to_1_where_the_laser_explains_4() {
    let levels = solve(&example()).levels.expect("levels");
    let closure = levels.closure.expect("checks");
    assert_eq!(closure.checks, 2);
    // The ground at the corner: 832 and 895 against a step of 62 by the others.
    assert!((closure.closes - 1.0).abs() < 1e-9);
    assert!((closure.explained - 4.277).abs() < 1e-3);
    let second = &levels.setups["S2"];
    assert!((second.step - 62.370).abs() < 1e-3);
    assert!((1.0..3.0).contains(&second.step_pm));
    let steps: Vec<(&str, f64)> = levels
        .changes
        .iter()
        .map(|change| (change.point.as_str(), change.step))
        .collect();
    assert_eq!(steps, [("peg", 62.0), ("g4", 63.0), ("nail", 62.0)]);
}

#[test]
fn a_second_set_up_37_lower_is_37_lower_to_every_mark() {
    let solution = levels(json!({
        "datum": { "point": "nail", "height": 0 },
        "setups": [
            { "id": "S1", "sights": [sight("nail", 500.0), sight("peg", 837.0)] },
            { "id": "S2", "sights": [sight("peg", 800.0)] }
        ]
    }));
    let levels = solution.levels.expect("levels");
    assert!((levels.setups["S2"].step + 37.0).abs() < 1e-9);
    let down = |setup: &str| levels.down_from(&setup.into(), -200.0).expect("known");
    assert!((down("S1") - 700.0).abs() < 1e-9);
    assert!((down("S2") - 663.0).abs() < 1e-9);
    assert_eq!(levels.down_from(&"S3".into(), 0.0), None);
}

#[test]
fn nothing_at_all_is_no_levels() {
    assert!(levels(json!({})).levels.is_none());
}

#[test]
fn sights_without_a_datum() {
    let solution = levels(json!({ "setups": [{ "id": "S1", "sights": [sight("peg", 800.0)] }] }));
    assert!(says(&solution, "levels.datum", "no datum"));
    let levels = solution.levels.expect("levels");
    assert_eq!(
        (levels.status, levels.points.len()),
        (NetworkStatus::Loose, 0)
    );
    assert_eq!(levels.loose, ["S1", "peg"]);
}

#[test]
fn a_datum_that_nothing_sights() {
    let solution = levels(json!({
        "datum": { "point": "nail", "height": 20 },
        "setups": [{ "id": "S1", "sights": [sight("peg", 800.0)] }]
    }));
    assert!(says(
        &solution,
        "levels.datum.point",
        "“nail” is not sighted"
    ));
    assert_eq!(solution.levels.expect("levels").points["nail"].height, 20.0);
}

#[test]
fn set_ups_adrift_and_points_still_to_be_sighted() {
    let solution = levels(json!({
        "datum": { "point": "nail", "height": 0 },
        "points": [{ "id": "stone" }],
        "setups": [
            { "id": "S1", "sights": [sight("nail", 500.0), sight("peg", 837.0)] },
            { "id": "S2", "sights": [sight("post", 800.0), sight("step", 700.0)] },
            { "id": "S3", "sights": [] }
        ]
    }));
    assert!(says(&solution, "levels.setups[1]", "“S2”"));
    assert!(says(&solution, "levels.setups[2]", "no sights"));
    assert!(says(&solution, "levels.points[0]", "“stone”"));
    let levels = solution.levels.expect("levels");
    assert_eq!(levels.status, NetworkStatus::Loose);
    assert_eq!(levels.loose, ["S2", "S3", "stone", "post", "step"]);
    assert!((levels.points["peg"].height + 337.0).abs() < 1e-9);
}

/// Two set-ups tied by four points; the last sight of the second says `down`, true 862.
fn tied(down: f64) -> Solution {
    let down = json!({ "point": "d", "down": down });
    levels(json!({
        "datum": { "point": "nail", "height": 0 },
        "setups": [
            { "id": "S1", "sights": [sight("nail", 500.0), sight("a", 700.0), sight("b", 650.0), sight("d", 812.0)] },
            { "id": "S2", "sights": [sight("nail", 550.0), sight("a", 750.0), sight("b", 700.0), down] },
            { "id": "S3", "sights": [sight("nail", 520.0), sight("d", 832.0), sight("a", 720.0)] }
        ]
    }))
}

#[test]
fn a_misread_sight_is_named_with_its_likely_cause() {
    for (down, words) in [
        (826.0, "Two digits swapped? It may have been 862 down"),
        (872.0, "A slip of 10?"),
        (762.0, "A slip of 100?"),
        (1862.0, "A slip of 1000?"),
        (-862.0, "Up taken for down?"),
        (
            905.0,
            "wrong by 43\u{a0}mm: it says 905 down, the others make it 862 down.",
        ),
    ] {
        let solution = tied(down);
        let levels = solution.levels.as_ref().expect("levels");
        assert_eq!(levels.suspects, [7], "{down}");
        assert!(
            says(&solution, "levels.setups[1].sights[3].down", words),
            "{down}: {:?}",
            solution.problems
        );
        let suspect = levels.sights[7]
            .suspect
            .as_ref()
            .expect("what the others make it");
        assert!((suspect.predicted - 862.0).abs() < 1e-6);
        assert!((suspect.slip - (down - 862.0)).abs() < 1e-6);
    }
    let solution = tied(862.0);
    assert!(
        solution
            .levels
            .as_ref()
            .expect("levels")
            .suspects
            .is_empty()
    );
    assert!(solution.problems.is_empty());
}

#[test]
fn with_one_check_none_is_accused() {
    let solution = levels(json!({
        "datum": { "point": "nail", "height": 0 },
        "setups": [
            { "id": "S1", "sights": [sight("nail", 500.0), sight("peg", 837.0)] },
            { "id": "S2", "sights": [sight("nail", 550.0), sight("peg", 787.0)] }
        ]
    }));
    let levels = solution.levels.as_ref().expect("levels");
    assert_eq!(levels.suspects, [0, 1, 2, 3]);
    assert!(says(
        &solution,
        "levels.setups[0].sights[0].down",
        "any one of these"
    ));
}

#[test]
fn two_slips_are_more_than_one() {
    let solution = levels(json!({
        "datum": { "point": "nail", "height": 0 },
        "setups": [
            { "id": "S1", "sights": [sight("nail", 500.0), sight("a", 700.0), sight("b", 650.0), sight("d", 812.0)] },
            { "id": "S2", "sights": [sight("nail", 550.0), sight("a", 850.0), sight("b", 900.0), sight("d", 862.0)] }
        ]
    }));
    assert!(
        solution
            .levels
            .as_ref()
            .expect("levels")
            .more_than_one_wrong
    );
    assert!(
        solution
            .problems
            .iter()
            .any(|p| p.text.contains("more than one is wrong"))
    );
}

#[test]
fn sights_out_of_balance_across_the_only_change_point() {
    let at =
        |point: &str, down: f64, dist: f64| json!({ "point": point, "down": down, "dist": dist });
    let carried = |near: f64| {
        levels(json!({
            "datum": { "point": "nail", "height": 0 },
            "setups": [
                { "id": "S1", "sights": [at("nail", 500.0, 3000.0), at("peg", 837.0, 14_000.0)] },
                { "id": "S2", "sights": [at("peg", 787.0, near)] }
            ]
        }))
    };
    // 0.3 mm per m over 14 − 2 m.
    assert!(says(
        &carried(2000.0),
        "levels.setups[1].sights[0].dist",
        "can put the heights out by 3.6\u{a0}mm, and no other sight shows it"
    ));
    assert!(carried(12_000.0).problems.is_empty());
}
