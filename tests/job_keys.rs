//! Every key of the contract, one by one: another figure changes what follows, and one that cannot be is
//! named at its part of the file.

use serde_json::{Value, json};
use tautmark::job::{EXAMPLE, Severity, read};
use tautmark::{Solution, solve};

/// The example with what it leaves out: a leaf and its lock, bolts and their shafts, turf to take up.
fn base() -> Value {
    let mut job: Value = serde_json::from_str(EXAMPLE).expect("the example is JSON");
    let gate = &mut job["runs"][0]["gates"][0];
    gate["leaf"] = json!({ "hinge": 15, "latch": 10, "ground": 60 });
    gate["lock"] = json!({ "height": 1000, "backset": 60, "case": 110 });
    job["boards"]["fixings"] = json!({ "wall": { "counterbore": 20, "embed": 90 } });
    job["boards"]["clear"] = json!({ "width": 300, "depth": 50, "bulk": 1.3 });
    job
}

fn with(place: &str, new: &Value) -> Value {
    let mut job = base();
    let mut at = &mut job;
    for key in place.split('/') {
        at = match key.parse::<usize>() {
            Ok(nth) => &mut at[nth],
            Err(_) => &mut at[key],
        };
    }
    *at = new.clone();
    job
}

/// What follows from a job; `None` where it is no job.
fn solved(job: &Value) -> Option<Solution> {
    Some(solve(&read(&job.to_string()).ok()?.job))
}

fn plain(solution: &Solution) -> Value {
    serde_json::to_value(solution).expect("a solution is JSON")
}

#[test]
fn another_figure_changes_what_follows() {
    let usual = plain(&solved(&base()).expect("a job"));
    let others: [(&str, Value); 67] = [
        ("tape/reading", json!(2.0)),
        ("tape/pull", json!(0.3)),
        ("string", json!({ "nail": 2.0 })),
        ("level/accuracy", json!(0.6)),
        ("level/reading", json!(2.0)),
        ("readings/0/length", json!(3651)),
        ("readings/0/use", json!(false)),
        ("readings/0/drop", json!(300)),
        ("lines/0/side", json!("left")),
        ("lines/0/reverse", json!(true)),
        ("lines/0/offsets/0/off", json!(60)),
        ("corners/0/post/set", json!("second")),
        ("corners/0/post/width", json!(120)),
        ("corners/0/post/depth", json!(120)),
        (
            "corners/0/checks",
            json!([{ "arms": [1500, 1500], "diagonal": 2369 }]),
        ),
        ("runs/0/side", json!("right")),
        ("runs/0/gap", json!(90)),
        ("runs/0/foot", json!("plate")),
        ("runs/0/start/foot", json!("plate")),
        ("runs/0/post/width", json!(120)),
        ("runs/0/post/depth", json!(120)),
        ("runs/0/bays/max", json!(1500)),
        ("runs/0/bays/fit", json!("full")),
        ("runs/0/gates/0/at", json!(1000)),
        ("runs/0/gates/0/clear", json!(1100)),
        ("runs/0/gates/0/leaf/hinge", json!(20)),
        ("runs/0/gates/0/leaf/latch", json!(20)),
        ("runs/0/gates/0/leaf/ground", json!(80)),
        ("runs/0/gates/0/leaf/hung", json!("end")),
        ("runs/0/gates/0/leaf/stile", json!(90)),
        ("runs/0/gates/0/leaf/thick", json!(45)),
        ("runs/0/gates/0/leaf/face", json!(20)),
        ("runs/0/gates/0/lock/height", json!(900)),
        ("runs/0/gates/0/lock/backset", json!(55)),
        ("runs/0/gates/0/lock/case", json!(95)),
        (
            "runs/0/gates/0/lock/offcut",
            json!({ "thin": 6, "width": 150, "from": 75 }),
        ),
        ("runs/0/pins", json!([{ "at": 3100 }])),
        ("hole/diameter", json!(350)),
        ("hole/depth", json!(700)),
        ("hole/bag", json!(10)),
        ("levels/datum/height", json!(100)),
        ("levels/setups/0/sights/0/down", json!(415)),
        ("levels/setups/0/sights/0/dist", json!(4000)),
        ("levels/setups/0/sights/0/use", json!(false)),
        ("boards/gravel/thick", json!(30)),
        ("boards/gravel/set", json!(5)),
        ("boards/gravel/joint", json!("face")),
        ("boards/gravel/height", json!(200)),
        ("boards/gravel/clearance", json!(20)),
        ("boards/gravel/dig", json!(60)),
        ("boards/gravel/fit", json!("level")),
        ("boards/gravel/step", json!(50)),
        ("boards/gravel/top", json!(-300)),
        ("boards/rails/count", json!(2)),
        ("boards/rails/low", json!(100)),
        ("boards/rails/high", json!(1400)),
        ("boards/rails/seat", json!(20)),
        ("boards/rails/notch", json!(20)),
        ("boards/rails/height", json!(90)),
        ("boards/rails/thick", json!(45)),
        ("boards/rails/set", json!(10)),
        ("boards/rails/joint", json!("face")),
        (
            "boards/notches",
            json!([{ "rail": 1, "foot": "hole", "depth": 10 }]),
        ),
        ("boards/fixings/wall/ends", json!(120)),
        ("boards/fixings/wall/embed", json!(80)),
        ("boards/clear/bulk", json!(1.5)),
        ("boards/pales/width", json!(120)),
    ];
    for (place, other) in others {
        let solution = solved(&with(place, &other)).unwrap_or_else(|| panic!("{place}: {other}"));
        let mut problems = solution.problems.iter();
        let refused = problems.find(|one| {
            one.severity == Severity::Error || one.text.contains("is not a key this program knows")
        });
        assert_eq!(refused, None, "{place}: {other}");
        assert_ne!(plain(&solution), usual, "{place}: {other} changes nothing");
    }
}

#[test]
fn a_figure_that_cannot_be_is_named_at_its_part_of_the_file() {
    let known = solved(&base()).expect("a job").problems;
    let none = || json!(0);
    let less = || json!(-1);
    let others: [(&str, &str, Vec<Value>); 52] = [
        ("tape/class", "tape.class", vec![json!("IV"), json!(2)]),
        ("tape/reading", "tape.reading", vec![less(), none()]),
        ("tape/pull", "tape.pull", vec![less()]),
        ("string", "string.nail", vec![json!({ "nail": -1 })]),
        ("level/accuracy", "level.accuracy", vec![less()]),
        (
            "tolerance",
            "tolerance.length",
            vec![json!({ "length": -1 })],
        ),
        (
            "readings/0/length",
            "readings[0].length",
            vec![less(), none()],
        ),
        ("readings/0/drop", "readings[0].drop", vec![json!(99_999)]),
        ("lines/0/offsets", "lines[0].offsets", vec![json!([])]),
        (
            "corners/0/post/width",
            "corners[0].post.width",
            vec![less(), none()],
        ),
        (
            "corners/0/checks",
            "corners[0].checks",
            vec![json!([{ "arms": [-1, 1500], "diagonal": 2582 }])],
        ),
        ("runs/0/gap", "runs[0].gap", vec![less()]),
        ("runs/0/foot", "runs[0].foot", vec![json!("wall")]),
        ("runs/0/end/foot", "runs[0].end.foot", vec![json!("wall")]),
        (
            "runs/0/post/depth",
            "runs[0].post.depth",
            vec![less(), none()],
        ),
        ("runs/0/bays/max", "runs[0].bays.max", vec![less(), none()]),
        (
            "runs/0/gates/0/at",
            "runs[0].gates[0].at",
            vec![json!(99_999)],
        ),
        (
            "runs/0/gates/0/clear",
            "runs[0].gates[0].clear",
            vec![less(), none()],
        ),
        (
            "runs/0/gates/0/leaf/hinge",
            "runs[0].gates[0].leaf.hinge",
            vec![less()],
        ),
        (
            "runs/0/gates/0/leaf/stile",
            "runs[0].gates[0].leaf.stile",
            vec![less(), json!(600)],
        ),
        (
            "runs/0/gates/0/leaf/thick",
            "runs[0].gates[0].leaf.thick",
            vec![less()],
        ),
        (
            "runs/0/gates/0/lock/height",
            "runs[0].gates[0].lock.height",
            vec![less(), json!(5000)],
        ),
        (
            "runs/0/gates/0/lock/case",
            "runs[0].gates[0].lock.case",
            vec![less(), json!(5000)],
        ),
        (
            "runs/0/gates/0/lock/offcut",
            "runs[0].gates[0].lock.offcut",
            vec![
                json!({ "thin": 60, "width": 150, "from": 75 }),
                json!({ "thin": 6, "width": 0, "from": 0 }),
            ],
        ),
        (
            "runs/0/pins",
            "runs[0].pins[0].at",
            vec![json!([{ "at": 99_999 }])],
        ),
        ("hole/diameter", "hole", vec![less(), none(), json!(40)]),
        ("hole/depth", "hole.depth", vec![less(), none()]),
        ("hole/bag", "hole.bag", vec![less(), none()]),
        (
            "levels/datum/point",
            "levels.datum.point",
            vec![json!("nowhere")],
        ),
        (
            "levels/points/1/at",
            "levels.points[1].at",
            vec![json!(-99_999)],
        ),
        (
            "boards/gravel/thick",
            "boards.gravel.thick",
            vec![less(), none(), json!(400)],
        ),
        (
            "boards/gravel/set",
            "boards.gravel.set",
            vec![less(), json!(90)],
        ),
        (
            "boards/gravel/clearance",
            "boards.gravel.clearance",
            vec![less()],
        ),
        ("boards/gravel/dig", "boards.gravel.dig", vec![less()]),
        ("boards/gravel/step", "boards.gravel.step", vec![less()]),
        (
            "boards/rails/count",
            "boards.rails.count",
            vec![json!(0), json!(90)],
        ),
        ("boards/rails/low", "boards.rails.high", vec![json!(9999)]),
        (
            "boards/rails/seat",
            "boards.rails.seat",
            vec![less(), json!(100)],
        ),
        (
            "boards/rails/notch",
            "boards.rails.notch",
            vec![less(), json!(100)],
        ),
        (
            "boards/rails/thick",
            "boards.rails.thick",
            vec![less(), none(), json!(400)],
        ),
        (
            "boards/rails/set",
            "boards.rails.set",
            vec![less(), json!(90)],
        ),
        (
            "boards/notches",
            "boards.notches[0]",
            vec![
                json!([{ "rail": 9, "depth": 10 }]),
                json!([{ "rail": 0, "depth": 10 }]),
                json!([{ "depth": 100 }]),
                json!([{ "depth": -1 }]),
            ],
        ),
        (
            "boards/fixings/wall/ends",
            "boards.fixings.wall",
            vec![less(), json!(5000)],
        ),
        (
            "boards/fixings/wall/most",
            "boards.fixings.wall.most",
            vec![less(), none()],
        ),
        (
            "boards/fixings/wall/clear",
            "boards.fixings.wall",
            vec![less(), json!(2000)],
        ),
        (
            "boards/fixings/wall/counterbore",
            "boards.fixings.wall.counterbore",
            vec![less(), json!(100)],
        ),
        (
            "boards/clear/bulk",
            "boards.clear.bulk",
            vec![less(), none(), json!(0.5)],
        ),
        ("boards/pales/width", "boards.pales", vec![less(), none()]),
        (
            "boards/pales/lap",
            "boards.pales.lap",
            vec![less(), json!(200)],
        ),
        (
            "boards/pales/height",
            "boards.pales.height",
            vec![less(), none()],
        ),
        (
            "marked",
            "marked[0].post",
            vec![json!([{ "run": "R1", "post": 99, "done": true }])],
        ),
        (
            "marked",
            "marked[0].measured",
            vec![json!([{ "run": "R1", "post": 3, "keep": true }])],
        ),
    ];
    for (place, told, values) in others {
        for value in values {
            let Some(solution) = solved(&with(place, &value)) else {
                // No job at all: refused with its line when it is read.
                continue;
            };
            let new = solution.problems.iter().filter(|one| !known.contains(one));
            let grave: Vec<_> = new.filter(|one| one.severity != Severity::Note).collect();
            assert!(
                grave.iter().any(|one| one.place.starts_with(told)),
                "{place}: {value} is told at {:?}",
                grave.iter().map(|one| &one.place).collect::<Vec<_>>()
            );
        }
    }
}
