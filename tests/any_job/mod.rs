//! Jobs of every kind, from a number: other sites, runs, gates, levels, boards, units and names.

pub mod drawn;

use crate::fences;
use crate::yards::{Tapes, gap_between_walls};
use rand::rngs::StdRng;
use rand::{RngExt, SeedableRng};
use serde_json::{Value, json};
use tautmark::job::reading::Measure;
use tautmark::job::{self, Job};
use tautmark::length::{InchPart, Unit};

/// The job of that number, always the same.
pub fn any_job(seed: u64) -> Job {
    let mut rng = StdRng::seed_from_u64(seed ^ 0x001a_be15);
    let mut job = match rng.random_range(0..10) {
        0..6 => gap_between_walls(seed, Tapes::Noisy).job,
        6..8 => fences::cornered(seed).job,
        _ => straight(&mut rng),
    };
    let units = [Unit::Mm, Unit::M, Unit::FEET, Unit::FtIn(InchPart::Eighth)];
    job.show.lengths = one_of(&mut rng, units);
    let mut file = serde_json::to_value(&job).expect("a job");
    if job.lines.len() > 1 && rng.random_bool(0.4) {
        third_run(&mut file, &mut rng);
    }
    for run in file["runs"].as_array_mut().into_iter().flatten() {
        on_a_run(run, &mut rng);
    }
    if rng.random_bool(0.75) {
        file["levels"] = levels(&job, &mut rng);
        file["boards"] = fences::boards(&mut rng);
    }
    ticked(&mut file, &mut rng);
    if rng.random_bool(0.3) {
        long_names(&mut file, &mut rng);
    }
    let mut job = job::read(&file.to_string()).expect("a job").job;
    misread(&mut job, &mut rng);
    job
}

fn one_of<T: Copy, const N: usize>(rng: &mut StdRng, all: [T; N]) -> T {
    all[rng.random_range(0..N)]
}

/// A long fence between two marks.
fn straight(rng: &mut StdRng) -> Job {
    let length = rng.random_range(3_000.0..60_000.0_f64).round();
    let empty = || json!([]);
    fences::straight(length, empty(), json!({}), json!({}))
}

/// A string between two marks of the site and a run on it.
fn third_run(file: &mut Value, rng: &mut StdRng) {
    let [from, to] = one_of(rng, [["A", "D"], ["E", "C"], ["F", "C"], ["B", "D"]]);
    let line = json!({ "id": "across", "name": "across the yard", "marks": [from, to] });
    let run = json!({
        "id": "R3", "line": "across", "side": "right", "gap": rng.random_range(0.0..60.0),
        "start": { "mark": from }, "end": { "mark": to },
    });
    for (list, thing) in [("lines", line), ("runs", run)] {
        if let Some(list) = file[list].as_array_mut() {
            list.push(thing);
        }
    }
}

/// Other posts, bays and gates, and how its ends stand.
fn on_a_run(run: &mut Value, rng: &mut StdRng) {
    run["name"] = one_of(rng, ["", "Front", "Meadow fence, lower side"]).into();
    let sizes = [75.0, 100.0, 125.0, 200.0];
    run["post"] = json!({ "width": one_of(rng, sizes), "depth": one_of(rng, sizes) });
    let fit = one_of(rng, ["equal", "full"]);
    run["bays"] = json!({ "max": rng.random_range(500.0..2600.0), "fit": fit });
    let gate = |rng: &mut StdRng| {
        let mut gate = json!({ "at": rng.random_range(200.0..6000.0), "clear": rng.random_range(700.0..3200.0) });
        if rng.random_bool(0.7) {
            gate["leaf"] = json!({});
            gate["lock"] = json!({});
        }
        gate
    };
    let gates = 0..one_of(rng, [0, 1, 1, 2]);
    run["gates"] = gates.map(|_| gate(rng)).collect();
    for end in ["start", "end"] {
        if run[end].get("mark").is_some() && rng.random_bool(0.5) {
            run[end]["foot"] = one_of(rng, ["wall", "plate"]).into();
        }
    }
}

/// Two or three set-ups with ground along the runs, and pegs between them.
fn levels(job: &Job, rng: &mut StdRng) -> Value {
    let mut points = Vec::new();
    let mut setups: Vec<Value> = Vec::new();
    for n in 0..rng.random_range(1..4_usize) {
        let mut sights = vec![json!({ "point": "nail", "down": rng.random_range(200.0..700.0) })];
        for run in &job.runs {
            for i in 0..rng.random_range(1..4) {
                let id = format!("{}{n}{i}", run.id);
                points
                    .push(json!({ "id": id, "run": run.id, "at": rng.random_range(0.0..6000.0) }));
                sights.push(json!({ "point": id, "down": rng.random_range(700.0..1500.0) }));
            }
        }
        sights.push(
            json!({ "point": "change point on the peg", "down": rng.random_range(-200.0..900.0) }),
        );
        setups.push(json!({ "id": format!("S{}", n + 1), "sights": sights }));
    }
    json!({ "datum": { "point": "nail", "height": 0 }, "points": points, "setups": setups })
}

/// Some posts are marked as done.
fn ticked(file: &mut Value, rng: &mut StdRng) {
    if rng.random_bool(0.3) {
        let done =
            (1..rng.random_range(2..6)).map(|n| json!({ "run": "R1", "post": n, "done": true }));
        file["marked"] = done.collect();
    }
}

/// Marks, walls and set-ups are called what people call them.
fn long_names(file: &mut Value, rng: &mut StdRng) {
    let names = [
        ("A", "Old barn corner"),
        ("C", "The peg by the lane"),
        ("F", "K2"),
        ("P", "P, the nail in the sleeper"),
        ("S1", "by the water butt"),
        ("front", "Front string along the shed"),
    ];
    for (short, long) in names {
        if rng.random_bool(0.6) {
            called(file, short, long);
        }
    }
    for wall in file["walls"].as_array_mut().into_iter().flatten() {
        wall["name"] = json!("The long north gable of the old threshing barn");
    }
}

fn called(value: &mut Value, short: &str, long: &str) {
    match value {
        Value::String(text) if text == short => long.clone_into(text),
        Value::Array(all) => all.iter_mut().for_each(|one| called(one, short, long)),
        Value::Object(all) => all.values_mut().for_each(|one| called(one, short, long)),
        _ => {}
    }
}

/// Now and then a tape is off by a lot, left out, or not there yet.
fn misread(job: &mut Job, rng: &mut StdRng) {
    if job.readings.len() < 6 {
        return;
    }
    let nth = rng.random_range(0..job.readings.len());
    match rng.random_range(0..10) {
        0 => {
            if let Measure::Tape { length, .. } = &mut job.readings[nth].what {
                *length = length.map(|mm| mm + 100.0);
            }
        }
        1 => job.readings[nth].used = false,
        2 => job.readings.truncate(nth.max(3)),
        _ => {}
    }
}
