//! Strings as stretched: what the tape across a corner must read, and what it means if it does not.

use serde_json::{Value, json};
use tautmark::job::{self, Problem, Severity};
use tautmark::site::{EndWay, StretchVerdict, diagonal_at, round_arms};
use tautmark::{Solution, solve};

/// A front wall of 6 m and a side wall 4 m long that turns by `turn` degrees, exactly taped; a string
/// along each, a run along each, and the corner where they cross, 4 m from either run's other end.
fn yard(turn: f64, checks: Value) -> Value {
    let (sin, cos) = turn.to_radians().sin_cos();
    let marks = [
        ("A", [0.0, 0.0]),
        ("B", [6000.0, 0.0]),
        ("C", [10_000.0 + 4000.0 * cos, 4000.0 * sin]),
        ("D", [10_000.0 + 8000.0 * cos, 8000.0 * sin]),
    ];
    let mut readings = Vec::new();
    for (i, (from, a)) in marks.iter().enumerate() {
        for (to, b) in &marks[i + 1..] {
            let length = (a[0] - b[0]).hypot(a[1] - b[1]);
            readings.push(json!({ "kind": "tape", "from": from, "to": to, "length": length }));
        }
    }
    let run = |id: &str, line: &str, start: Value, end: Value| {
        json!({
            "id": id, "line": line, "side": "left", "gap": 0, "start": start, "end": end,
            "post": { "width": 100, "depth": 100 }, "bays": { "max": 1500, "fit": "equal" },
        })
    };
    let corner = json!({ "corner": "X" });
    json!({
        "format": "tautmark-job", "version": 1, "title": "Turned yard",
        "marks": marks.map(|(id, at)| json!({ "id": id, "rough": at })),
        "walls": [{ "id": "front", "from": "A", "to": "B" }, { "id": "side", "from": "C", "to": "D" }],
        "readings": readings,
        "lines": [
            { "id": "f", "wall": "front", "side": "right", "offsets": [{ "at": 0, "off": 0 }] },
            { "id": "s", "wall": "side", "side": "right", "offsets": [{ "at": 0, "off": 0 }] },
        ],
        "corners": [{ "id": "X", "lines": ["f", "s"], "checks": checks }],
        "runs": [
            run("R1", "f", json!({ "mark": "B" }), corner.clone()),
            run("R2", "s", corner, json!({ "mark": "C" })),
        ],
    })
}

fn solved(job: &Value) -> Solution {
    solve(&job::read(&job.to_string()).expect("the job opens").job)
}

/// The tape across with arms of 1.5 and 2 m at this angle: law of cosines.
fn across(angle: f64) -> f64 {
    let (a, b) = (1500.0f64, 2000.0f64);
    (a * a + b * b - 2.0 * a * b * angle.to_radians().cos()).sqrt()
}

fn checked(angle: f64) -> Value {
    json!([{ "arms": [1500, 2000], "diagonal": across(angle) }])
}

fn named<'a>(solution: &'a Solution, place: &str) -> Vec<&'a Problem> {
    solution
        .problems
        .iter()
        .filter(|p| p.place == place)
        .collect()
}

fn close(text: &str) -> String {
    text.split_whitespace().collect()
}

#[test]
fn the_angle_as_stretched_and_its_pm() {
    let solution = solved(&yard(75.0, checked(105.0)));
    let check = &solution.corners["X"].checks[0];
    assert!((check.angle - 105.0).abs() < 1e-6);
    assert_eq!(
        (check.verdict, &check.end_move),
        (StretchVerdict::Within, &None)
    );
    // By hand, 1 mm and 0.1 mm per m on each of the three: dθ = (c dc − (a − b cos θ) da − (b − a cos θ) db)/(a b sin θ).
    let (cos, sin) = (105f64.to_radians().cos(), 105f64.to_radians().sin());
    let sd = |l: f64| 1f64.hypot(l / 10_000.0);
    let c = across(105.0);
    let parts = [
        c * sd(c),
        (1500.0 - 2000.0 * cos) * sd(1500.0),
        (2000.0 - 1500.0 * cos) * sd(2000.0),
    ];
    let whole = parts.iter().map(|p| p * p).sum::<f64>().sqrt() / (1500.0 * 2000.0 * sin);
    assert!(
        (check.pm - 1.96 * whole.to_degrees()).abs() < 1e-6,
        "{}",
        check.pm
    );
    assert!(named(&solution, "corners[0].checks[0].diagonal").is_empty());
}

#[test]
fn a_string_that_is_a_little_out_is_told_which_way_to_go() {
    for (angle, way, words) in [
        (107.0, EndWay::Towards, "towardsstring“f”"),
        (103.0, EndWay::Away, "awayfromstring“f”"),
    ] {
        let solution = solved(&yard(75.0, checked(angle)));
        let end = solution.corners["X"].checks[0]
            .end_move
            .clone()
            .expect("a move");
        assert_eq!((end.line.as_str(), end.way), ("s", way));
        // The far end of the second string, 4 m off: 2 · 4000 · sin(1°).
        assert!(
            (end.at - 4000.0).abs() < 0.5 && (end.by - 139.62).abs() < 0.05,
            "{end:?}"
        );
        let said = named(&solution, "corners[0].checks[0].diagonal");
        assert_eq!(said.len(), 1);
        let remedy = close(&said[0].remedy);
        assert!(
            remedy.contains(words) && remedy.contains("140mm"),
            "{remedy}"
        );
    }
}

#[test]
fn one_further_off_than_a_fifth_of_the_turn_is_asked_about() {
    // A turn of 75°: 15° off is the most that is turned into an order.
    let solution = solved(&yard(75.0, checked(105.0 + 15.5)));
    let check = &solution.corners["X"].checks[0];
    assert_eq!(
        (check.verdict, &check.end_move),
        (StretchVerdict::Asked, &None)
    );
    let said = named(&solution, "corners[0].checks[0].arms");
    assert!(
        said.len() == 1 && said[0].remedy.contains("Were other arms marked"),
        "{said:?}"
    );
    let nearer = solved(&yard(75.0, checked(105.0 + 14.5)));
    assert_eq!(nearer.corners["X"].checks[0].verdict, StretchVerdict::Move);
}

#[test]
fn the_string_that_is_tied_to_marks_stays() {
    let mut job = yard(75.0, checked(107.0));
    job["lines"][1] = json!({ "id": "s", "marks": ["C", "D"] });
    let end = solved(&job).corners["X"].checks[0]
        .end_move
        .clone()
        .expect("a move");
    assert_eq!((end.line.as_str(), end.other.as_str()), ("f", "s"));
}

#[test]
fn checks_that_cannot_be_are_named() {
    let problems = |check: Value| {
        let solution = solved(&yard(75.0, json!([check])));
        let here = solution
            .problems
            .iter()
            .filter(|p| p.place.starts_with("corners[0].checks"));
        here.map(|p| (p.place.to_string(), p.severity))
            .collect::<Vec<_>>()
    };
    let at = |key: &str| format!("corners[0].checks[0].{key}");
    let error = Severity::Error;
    assert_eq!(
        problems(json!({ "arms": [0, 2000], "diagonal": 2500 })),
        [(at("arms[0]"), error)]
    );
    assert_eq!(
        problems(json!({ "arms": [1500, -1], "diagonal": 2500 })),
        [(at("arms[1]"), error)]
    );
    assert_eq!(
        problems(json!({ "arms": [1500, 2000], "diagonal": 9000 })),
        [(at("diagonal"), error)]
    );
    assert_eq!(
        problems(json!({ "arms": [1500, 2000] })),
        [(at("diagonal"), Severity::Warning)]
    );
    assert_eq!(
        problems(json!({ "arms": [1500, 2000], "diagonal": across(105.0), "who": "me" })),
        [(at("who"), Severity::Note)]
    );
}

#[test]
fn a_check_is_kept_when_the_job_is_written() {
    let job = job::read(&yard(75.0, checked(105.0)).to_string())
        .expect("the job opens")
        .job;
    let again = job::read(&job::write(&job).expect("it writes"))
        .expect("it opens again")
        .job;
    assert_eq!(job.corners[0].checks, again.corners[0].checks);
    assert_eq!(job.corners[0].checks.len(), 1);
}

#[test]
fn arms_are_round_in_the_jobs_own_unit_and_fit_on_the_runs() {
    let arms = |unit: &str, length: f64| {
        let mut job = yard(75.0, json!([]));
        job["show"] = json!({ "lengths": unit });
        job["runs"][0]["start"] = json!({ "corner": "X" });
        job["runs"][0]["end"] = json!({ "length": length });
        let solution = solved(&job);
        let check = &solution.corners["X"].check;
        check.iter().map(|one| one.arm).collect::<Vec<_>>()
    };
    assert_eq!(arms("mm", 3900.0), [1000.0, 1500.0, 2000.0, 3000.0]);
    assert_eq!(arms("m", 1700.0), [1000.0, 1500.0]);
    assert_eq!(arms("mm", 870.0), [800.0]);
    let feet: Vec<f64> = arms("ft-in", 2000.0).iter().map(|mm| mm / 304.8).collect();
    assert_eq!(feet, [3.0, 4.0, 6.0]);
    assert!((round_arms(tautmark::length::Unit::FEET)[3] - 3048.0).abs() < 1e-9);
}

#[test]
fn a_check_diagonal_is_as_sure_as_its_arms_are_marked() {
    let solution = solved(&yard(90.0, json!([])));
    let mut corner = solution.corners["X"].clone();
    corner.angle_pm = 0.0;
    let check = diagonal_at(&job::example().tape, &corner, 2000.0);
    // By hand: arms of 2 m marked to √(1 + 0.2²), each bearing sin 45° on the diagonal, and 2828 mm
    // taped to √(1 + 0.2828²): 1.96 √(2 · 0.5 · 1.04 + 1.08) = 2.854.
    assert!((check.pm - 2.854).abs() < 0.001, "{}", check.pm);
}
