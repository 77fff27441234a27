//! What a job may hold: as much as that is set out, one more is answered in words, and both at once.

use serde_json::{Value, json};
use tautmark::job::check::too_much;
use tautmark::job::{Job, Severity, read};
use tautmark::solve;

fn job(file: &Value) -> Job {
    read(&file.to_string()).expect("a job").job
}

fn many(count: usize, one: impl FnMut(usize) -> Value) -> Value {
    (0..count).map(one).collect()
}

/// Everything as often as it may be: marks in a field, each taped to those near it, a string and a
/// run from mark to mark.
fn full() -> Value {
    let at = |n: usize| [(n % 15) as f64 * 4000.0, (n / 15) as f64 * 4000.0];
    let name = |n: usize| format!("M{}", n % 150);
    let apart = |a: usize, b: usize| {
        let ([x, y], [u, v]) = (at(a % 150), at(b % 150));
        (x - u).hypot(y - v)
    };
    let tape = |n: usize| {
        let step = [1, 15, 16, 14, 2, 30, 31][n / 150 % 7];
        let length = apart(n, n + step).max(1.0);
        json!({"kind": "tape", "from": name(n), "to": name(n + step), "length": length})
    };
    json!({
        "format": "tautmark-job", "version": 1, "title": "full",
        "marks": many(150, |n| json!({"id": name(n), "rough": at(n)})),
        "walls": many(150, |n| json!({"id": format!("W{n}"), "from": name(n), "to": name(n + 1)})),
        "readings": many(1000, tape),
        "lines": many(150, |n| json!({"id": format!("L{n}"), "marks": [name(n), name(n + 15)]})),
        "corners": many(150, |n| json!({"id": format!("X{n}"), "lines": [format!("L{n}"), format!("L{}", (n + 1) % 150)]})),
        "runs": many(150, |n| json!({
            "id": format!("R{n}"), "line": format!("L{n}"), "side": "left",
            "start": {"mark": name(n)}, "end": {"length": 32.0 * 150.0},
            "post": {"width": 75, "depth": 75}, "bays": {"max": 150, "fit": "equal"}})),
        "levels": {
            "datum": {"point": "P0", "height": 0},
            "points": many(500, |n| json!({"id": format!("P{n}"), "run": format!("R{}", n % 150), "at": n})),
            "setups": many(100, |n| json!({"id": format!("S{n}"), "sights":
                many(10, |k| json!({"point": format!("P{}", (n * 5 + k).min(499)), "down": 400 + (n * 5 + k).min(499) - n * 5}))}))
        },
        "marked": many(5000, |n| json!({"run": format!("R{}", n % 150), "post": n / 150 + 1, "done": true})),
    })
}

#[test]
fn as_much_as_a_job_may_hold_is_set_out() {
    let job = job(&full());
    assert_eq!(too_much(&job), []);
    let solution = solve(&job);
    let posts: usize = solution.runs.values().map(|run| run.posts.len()).sum();
    assert_eq!(solution.marks.len(), 150);
    assert!((4900..=5000).contains(&posts), "{posts} posts");
}

#[test]
fn one_more_of_anything_is_named_with_what_a_job_may_hold() {
    let lists = [
        ("/marks", "150"),
        ("/walls", "150"),
        ("/readings", "1000"),
        ("/lines", "150"),
        ("/corners", "150"),
        ("/runs", "150"),
        ("/levels/points", "500"),
        ("/levels/setups", "100"),
    ];
    for (list, most) in lists {
        let mut file = full();
        let things = file.pointer_mut(list).and_then(Value::as_array_mut);
        let things = things.expect("a list");
        things.push(things[0].clone());
        let solution = solve(&job(&file));
        let place = list[1..].replace('/', ".");
        let found = solution
            .problems
            .iter()
            .find(|problem| problem.place == place);
        let found = found.unwrap_or_else(|| panic!("{list}: {:?}", solution.problems));
        assert_eq!(found.severity, Severity::Error);
        assert!(
            found.text.contains("at most") && found.text.contains(most),
            "{}",
            found.text
        );
        assert!(solution.marks.is_empty() && solution.runs.is_empty());
    }
}

#[test]
fn more_posts_than_a_job_may_hold_are_not_set_out() {
    let mut file = full();
    for run in file["runs"].as_array_mut().expect("runs") {
        run["bays"]["max"] = json!(76);
    }
    let solution = solve(&job(&file));
    let posts: usize = solution.runs.values().map(|run| run.posts.len()).sum();
    assert!(posts <= 5000, "{posts} posts");
    let said = solution
        .problems
        .iter()
        .filter(|problem| problem.text.contains("more than 5000 posts"));
    assert_eq!(said.count(), 1);
}

#[test]
fn a_name_with_a_line_break_in_it_is_named() {
    let mut file = full();
    file["marks"][3]["id"] = json!("two\nlines");
    let problems = solve(&job(&file)).problems;
    assert!(
        problems
            .iter()
            .any(|problem| problem.place == "marks[3].id"),
        "{problems:?}"
    );
}
