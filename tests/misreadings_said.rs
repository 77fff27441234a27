//! What is said where readings contradict each other: in the length as it was read, as an error,
//! and never nothing.

use serde_json::{Value, json};
use tautmark::job::{self, Problem, Severity};
use tautmark::sheet::Sheet;
use tautmark::{Solution, solve};

/// Where the marks of an invented yard are, and how high, mm.
const MARKS: [(&str, [f64; 3]); 5] = [
    ("A", [0.0, 0.0, 0.0]),
    ("B", [5200.0, 0.0, 0.0]),
    ("C", [5000.0, 1900.0, 1500.0]),
    ("D", [700.0, 4100.0, 0.0]),
    ("E", [3100.0, 4600.0, 0.0]),
];

/// Every mark taped to every other on the slope, exactly, but for what `misread` makes of it.
fn yard(misread: impl Fn(&str, &str, f64) -> f64) -> Value {
    let mut readings = Vec::new();
    for (i, (from, a)) in MARKS.iter().enumerate() {
        for (to, b) in &MARKS[i + 1..] {
            let [x, y, drop] = [0, 1, 2].map(|k| b[k] - a[k]);
            let length = x.hypot(y).hypot(drop).round();
            readings.push(json!({
                "kind": "tape", "from": from, "to": to, "length": misread(from, to, length), "drop": drop
            }));
        }
    }
    json!({
        "format": "tautmark-job", "version": 1, "title": "Sloping yard",
        "marks": MARKS.map(|(id, at)| json!({ "id": id, "rough": [at[0], at[1]] })),
        "walls": [{ "id": "w", "from": "A", "to": "B" }],
        "readings": readings,
    })
}

fn solved(job: &Value) -> Solution {
    solve(&job::read(&job.to_string()).expect("the job opens").job)
}

fn errors(solution: &Solution) -> Vec<&Problem> {
    let all = solution.problems.iter();
    all.filter(|p| p.severity == Severity::Error).collect()
}

fn close(text: &str) -> String {
    text.split_whitespace().collect()
}

#[test]
fn a_slip_in_a_sloping_tape_is_told_in_the_length_as_read() {
    // A to C is √(5000² + 1900² + 1500²) = 5555.2 long on its slope, 5348.8 level.
    let wrong = |from: &str, to: &str, mm: f64| {
        if (from, to) == ("A", "C") {
            mm + 100.0
        } else {
            mm
        }
    };
    let solution = solved(&yard(wrong));
    let &[at] = &solution.network.suspects[..] else {
        panic!("{:?}", solution.network.suspects);
    };
    let suspect = solution.readings[at]
        .suspect
        .as_ref()
        .expect("the suspect's own row");
    assert!((suspect.predicted - 5555.2).abs() < 2.0, "{suspect:?}");
    assert!((suspect.slip - 100.0).abs() < 2.0, "{suspect:?}");
    assert_eq!(suspect.hint.map(|hint| hint.likely), Some(5555.0));
    let said = close(&errors(&solution)[0].text);
    assert!(said.contains("itsays5655.0,"), "{said}");
    assert!(said.contains("itwas5555mm"), "{said}");
}

#[test]
fn the_sheet_shows_a_sloping_tape_as_it_reads() {
    let file = yard(|_, _, mm| mm);
    let opened = job::read(&file.to_string()).expect("the job opens");
    let sheet = Sheet::new(&opened.job, &solve(&opened.job)).text();
    let row = sheet
        .lines()
        .find(|line| line.contains("A to C"))
        .expect("its row");
    let row = close(row);
    assert!(row.contains("5555") && !row.contains("534"), "{row}");
}

#[test]
fn a_drop_makes_its_tape_less_sure() {
    let flat = solved(&yard(|_, _, mm| mm));
    let mut steep = yard(|_, _, mm| mm);
    steep["level"] = json!({ "reading": 20.0 });
    let unsure = solved(&steep);
    // A to C falls 1500 over 5349: 20 mm on the drop is 5.6 mm on the level length.
    assert!(unsure.marks["C"].pm > 3.0 * flat.marks["C"].pm);
    assert!((unsure.marks["D"].pm / flat.marks["D"].pm - 1.0).abs() < 0.3);
}

#[test]
fn one_misread_tape_is_an_error() {
    let wrong = |from: &str, to: &str, mm: f64| {
        if (from, to) == ("B", "E") {
            mm + 90.0
        } else {
            mm
        }
    };
    let solution = solved(&yard(wrong));
    let errors = errors(&solution);
    assert_eq!(errors.len(), 1, "{errors:?}");
    assert!(errors[0].place.starts_with("readings[") && !errors[0].remedy.is_empty());
}

#[test]
fn two_misread_tapes_are_an_error_too() {
    let wrong = |from: &str, to: &str, mm: f64| match (from, to) {
        ("B", "E") => mm + 400.0,
        ("A", "D") => mm - 300.0,
        _ => mm,
    };
    let solution = solved(&yard(wrong));
    assert!(solution.network.more_than_one_wrong);
    let errors = errors(&solution);
    assert!(
        errors[0].text.starts_with("More than one reading is wrong"),
        "{errors:?}"
    );
    assert!(errors[0].remedy.contains("Tape "), "{errors:?}");
}

#[test]
fn misread_sights_are_an_error() {
    let file = json!({
        "format": "tautmark-job", "version": 1, "title": "Two set-ups",
        "levels": {
            "datum": { "point": "nail", "height": 0 },
            "points": [{ "id": "nail" }, { "id": "a" }, { "id": "b" }],
            "setups": [
                { "id": "S1", "sights": [
                    { "point": "nail", "down": 400 }, { "point": "a", "down": 650 }, { "point": "b", "down": 700 }
                ] },
                { "id": "S2", "sights": [
                    { "point": "nail", "down": 300 }, { "point": "a", "down": 550 }, { "point": "b", "down": 700 }
                ] }
            ]
        }
    });
    let solution = solved(&file);
    let errors = errors(&solution);
    assert_eq!(errors.len(), 1, "{errors:?}");
    assert!(errors[0].place.starts_with("levels.setups"), "{errors:?}");
}

#[test]
fn posts_without_pales_say_why_they_have_no_length() {
    let mut job = job::example();
    let missing = |solution: &Solution| {
        let posts = solution.boards.values().flat_map(|run| &run.posts);
        posts.filter(|post| post.length.is_none()).count()
    };
    let said = |solution: &Solution| {
        let mut problems = solution.problems.iter();
        problems.any(|p| p.place == "boards.pales" && p.text.contains("lengths of posts"))
    };
    let with = solve(&job);
    assert_eq!((missing(&with), said(&with)), (0, false));
    job.boards.pales = None;
    let without = solve(&job);
    // Where lengths are worked out some other way there is nothing to say.
    assert_eq!(missing(&without) > 0, said(&without));
}

#[test]
fn another_tape_is_in_no_weight() {
    let of_class = |class: &str| {
        let mut file = yard(|_, _, mm| mm);
        file["tape"] = json!({ "class": class });
        solved(&file)
    };
    assert_eq!(of_class("I").marks, of_class("III").marks);
    let of_pull = |pull: f64| {
        let mut file = yard(|_, _, mm| mm);
        file["tape"] = json!({ "pull": pull });
        solved(&file).marks["D"].pm
    };
    assert!(of_pull(1.0) > 1.5 * of_pull(0.0));
}
