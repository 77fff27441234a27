//! A job near what a job may hold, or just over it: set out, or answered with what it may hold.
#![no_main]

use libfuzzer_sys::fuzz_target;
use serde_json::{Value, json};
use tautmark::job::check::too_much;

/// Marks, readings, strings and runs, each in 256ths of a little more than it may be, and what they
/// are made of.
type Shape<'a> = ([u8; 4], &'a [u8]);

fuzz_target!(|shape: Shape<'_>| {
    let ([marks, readings, lines, runs], stuff) = shape;
    let count = |share: u8, most: usize| usize::from(share) * (most + 2) / 255;
    let mut stuff = stuff.iter().cycle().copied();
    let mut next = || stuff.next().unwrap_or(7);
    let marks = count(marks, 150).max(2);
    let places: Vec<Value> = (0..marks)
        .map(|n| json!({"id": format!("M{n}"), "rough": [i32::from(next()) * 97, i32::from(next()) * 89]}))
        .collect();
    let mut name = |salt: usize| format!("M{}", (usize::from(next()) + salt) % marks);
    let taken: Vec<Value> = (0..count(readings, 1000))
        .map(|n| json!({"kind": "tape", "from": name(n), "to": name(n / 2 + 1), "length": 500 + 37 * (n % 600)}))
        .collect();
    let strings: Vec<Value> = (0..count(lines, 150))
        .map(|n| json!({"id": format!("L{n}"), "marks": [name(n), name(n + 1)]}))
        .collect();
    let stretches: Vec<Value> = (0..count(runs, 150))
        .map(|n| {
            let line = format!("L{}", n % strings.len().max(1));
            json!({"id": format!("R{n}"), "line": line, "start": {"mark": name(n)},
                   "end": {"length": 1000 * (n + 1)}, "bays": {"max": 300 + 10 * (n % 90)}})
        })
        .collect();
    let file = json!({"format": "tautmark-job", "version": 1, "title": "many",
        "marks": places, "walls": [{"id": "w", "from": "M0", "to": "M1"}],
        "readings": taken, "lines": strings, "runs": stretches});
    let opened = tautmark::job::read(&file.to_string()).expect("a job");
    let solution = tautmark::solve(&opened.job);
    if !too_much(&opened.job).is_empty() {
        assert!(solution.marks.is_empty() && solution.runs.is_empty());
    }
    let posts: usize = solution.runs.values().map(|run| run.posts.len()).sum();
    assert!(posts <= 5000);
});
