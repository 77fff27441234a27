//! Invented fences with levels, for the tests of heights and boards.
#![allow(dead_code)] // each test file uses its own share

use rand::rngs::StdRng;
use rand::{RngExt, SeedableRng};
use serde_json::{Value, json};
use tautmark::Solution;
use tautmark::job::{Job, read};

/// Opens a job from the parts that matter to a test.
pub fn job(parts: Value) -> Job {
    let mut file = json!({ "format": "tautmark-job", "version": 1, "title": "test" });
    for (key, part) in parts.as_object().expect("parts by key") {
        file[key] = part.clone();
    }
    read(&file.to_string()).expect("the job opens").job
}

/// A straight run “R” of `length` mm between two marks, posts 100 by 100, bays up to 1800, with
/// these gates, levels and boards.
pub fn straight(length: f64, gates: Value, levels: Value, boards: Value) -> Job {
    job(json!({
        "marks": [{ "id": "P", "rough": [0, 0] }, { "id": "Q", "rough": [length, 0] }],
        "readings": [{ "kind": "tape", "from": "P", "to": "Q", "length": length }],
        "lines": [{ "id": "string", "marks": ["P", "Q"] }],
        "runs": [{
            "id": "R", "line": "string", "side": "left", "gap": 0,
            "start": { "mark": "P" }, "end": { "mark": "Q" },
            "post": { "width": 100, "depth": 100 }, "bays": { "max": 1800, "fit": "equal" },
            "gates": gates
        }],
        "levels": levels,
        "boards": boards
    }))
}

/// Levels from one set-up whose line is 0: ground points of run “R” at (running reading, height).
pub fn level_ground(points: &[(f64, f64)]) -> Value {
    let id = |i: usize| format!("g{i}");
    let listed = points
        .iter()
        .enumerate()
        .map(|(i, (at, _))| json!({ "id": id(i), "run": "R", "at": at }));
    let sights = points
        .iter()
        .enumerate()
        .map(|(i, (_, height))| json!({ "point": id(i), "down": -height }));
    let datum = json!({ "point": "nail", "down": 0 });
    json!({
        "datum": { "point": "nail", "height": 0 },
        "points": listed.collect::<Vec<_>>(),
        "setups": [{ "id": "S", "sights": std::iter::once(datum).chain(sights).collect::<Vec<_>>() }]
    })
}

/// The corner of the built-in example with other ground, other boards and two noisy set-ups.
pub struct Cornered {
    pub job: Job,
    /// Ground (running reading, height as sighted) of each run.
    pub ground: [Vec<(f64, f64)>; 2],
}

/// A corner fence from a seed.
pub fn cornered(seed: u64) -> Cornered {
    let mut rng = StdRng::seed_from_u64(seed);
    let mut job = tautmark::job::example();
    let lines = [400.0, rng.random_range(300.0..600.0)];
    let mut ground = [Vec::new(), Vec::new()];
    let mut points = Vec::new();
    let mut sights = [Vec::new(), Vec::new()];
    for (run, name, length) in [(0usize, "R1", 5400.0), (1, "R2", 4300.0)] {
        for i in 0..rng.random_range(1..6) {
            let at = rng.random_range(-100.0..length + 100.0);
            let height = rng.random_range(-900.0..-200.0);
            let id = format!("{}{i}", ["front", "side"][run]);
            points.push(json!({ "id": id, "run": name, "at": at }));
            sights[run].push(json!({ "point": id, "down": lines[run] - height }));
            ground[run].push((at, height));
        }
    }
    let mut carry = vec![("nail".to_owned(), 0.0)];
    for i in 0..rng.random_range(0..3) {
        carry.push((format!("peg{i}"), rng.random_range(-500.0..300.0)));
    }
    for (id, height) in carry {
        for setup in 0..2 {
            let slip = rng.random_range(-1.5..1.5);
            let dist = rng.random_range(2000.0..6000.0);
            let down = lines[setup] - height + slip;
            sights[setup].push(json!({ "point": id, "down": down, "dist": dist }));
        }
    }
    let [first, second] = sights;
    job.levels = part(json!({
        "datum": { "point": "nail", "height": 0 },
        "points": points,
        "setups": [{ "id": "S1", "sights": first }, { "id": "S2", "sights": second }]
    }));
    job.boards = part(boards(&mut rng));
    Cornered { job, ground }
}

fn part<T: serde::de::DeserializeOwned>(value: Value) -> T {
    serde_json::from_value(value).expect("a part of a job")
}

/// Boards, rails and pales that fit any run.
pub fn boards(rng: &mut StdRng) -> Value {
    let fit = ["level", "stepped"][rng.random_range(0..2)];
    let step = [json!(null), json!(0), json!(rng.random_range(5.0..80.0))];
    let rails = rng.random_range(1..5);
    let step = step[rng.random_range(0..3)].clone();
    json!({
        "gravel": {
            "height": rng.random_range(100.0..250.0), "clearance": rng.random_range(0.0..60.0),
            "dig": rng.random_range(0.0..80.0), "fit": fit, "step": step
        },
        "rails": { "count": rails, "low": 60, "high": rng.random_range(700.0..1500.0), "seat": 15 },
        "pales": {
            "width": rng.random_range(80.0..160.0), "lap": rng.random_range(0.0..30.0), "height": 1600
        }
    })
}

/// Whether a problem at a place says this.
pub fn says(solution: &Solution, place: &str, words: &str) -> bool {
    let mut problems = solution.problems.iter();
    problems.any(|p| p.place == place && p.text.contains(words) && !p.remedy.is_empty())
}
