//! Every kind of bad input is named by its place in the file, in a person's words, with what to
//! do; the rest of the job is still solved. What is unknown is kept.

use serde_json::{Value, json};
use tautmark::job::{EXAMPLE, Job, Problem, ReadError, Severity, read, write};
use tautmark::solve;

fn value() -> Value {
    serde_json::from_str(EXAMPLE).expect("the example is JSON")
}

/// The example with the value at a place (as `/readings/0/length`) set to another.
fn with(place: &str, new: Value) -> Value {
    let mut value = value();
    let (parent, key) = place.rsplit_once('/').expect("a place in the file");
    if value.pointer(parent).is_none() {
        value[&parent[1..]] = json!({});
    }
    match value.pointer_mut(parent).expect("the place is there") {
        Value::Object(map) => drop(map.insert(key.to_owned(), new)),
        Value::Array(list) => list[key.parse::<usize>().expect("a number")] = new,
        _ => panic!("{place} is in no object"),
    }
    value
}

fn job(value: &Value) -> Job {
    read(&value.to_string()).expect("it opens").job
}

fn problems(value: &Value) -> Vec<Problem> {
    solve(&job(value)).problems
}

/// Asserts that the file is opened and this place named, with words that are none of the code's.
fn named(value: &Value, place: &str, severity: Severity) {
    let all = problems(value);
    let found = all.iter().find(|p| p.place == place);
    let found = found.unwrap_or_else(|| panic!("nothing said of {place}: {all:#?}"));
    assert_eq!(found.severity, severity, "{found:?}");
    assert!(
        found.text.len() > 10 && found.text.ends_with('.'),
        "{found:?}"
    );
    assert!(
        found.remedy.len() > 10 && found.remedy.ends_with('.'),
        "{found:?}"
    );
    for code in ["None", "Some(", "null", "::", "MarkId", "unwrap"] {
        assert!(
            !found.text.contains(code) && !found.remedy.contains(code),
            "{found:?}"
        );
    }
}

fn error(value: &Value, place: &str) {
    named(value, place, Severity::Error);
}

#[test]
fn the_example_has_no_problem() {
    let errors: Vec<_> = problems(&value())
        .into_iter()
        .filter(|p| p.severity == Severity::Error)
        .collect();
    assert_eq!(errors, []);
}

#[test]
fn lengths_below_nothing_or_beyond_all_measure() {
    for bad in [json!(-1), json!(0), json!(1e300), json!(-1e300)] {
        error(
            &with("/readings/0/length", bad.clone()),
            "readings[0].length",
        );
        error(
            &with("/runs/0/post/width", bad.clone()),
            "runs[0].post.width",
        );
        error(&with("/runs/0/bays/max", bad.clone()), "runs[0].bays.max");
        error(&with("/hole/depth", bad.clone()), "hole.depth");
        error(&with("/tape/reading", bad), "tape.reading");
    }
    let offset =
        json!({ "kind": "offset", "mark": "C", "wall": "shed", "side": "left", "length": -5 });
    error(&with("/readings/0", offset), "readings[0].length");
    error(
        &with("/runs/0/gates/0/clear", json!(-1040)),
        "runs[0].gates[0].clear",
    );
    error(
        &with("/boards/gravel/height", json!(-150)),
        "boards.gravel.height",
    );
}

#[test]
fn a_length_that_cannot_be_is_told_as_the_job_shows_lengths() {
    let told = |unit: &str, place: &str, figure: Value| {
        let mut value = with(place, figure);
        value["show"]["lengths"] = json!(unit);
        let found = problems(&value).into_iter();
        let found = found.filter(|one| one.severity == Severity::Error);
        found.map(|one| one.text).collect::<Vec<_>>()
    };
    let clearance = "/boards/gravel/clearance";
    assert_eq!(
        told("mm", clearance, json!(-6.4)),
        ["The clearance is −6\u{a0}mm; it cannot be negative."]
    );
    assert_eq!(
        told("ft-in", clearance, json!(-6.35)),
        ["The clearance is −1/4″; it cannot be negative."]
    );
    assert_eq!(
        told("ft-in", "/boards/rails/height", json!(1_219_200)),
        ["The rail's height is 4\u{a0}000′\u{a0}0″; it cannot be more than a kilometre."]
    );
    // A share is no length.
    assert_eq!(
        told("ft-in", "/hole/over", json!(-0.5)),
        ["The share a hole runs over is -0.5; it cannot be negative."]
    );
}

#[test]
fn a_figure_that_is_not_finite_is_refused_with_its_line() {
    for bad in ["NaN", "Infinity", "-Infinity", "1e999"] {
        let text = EXAMPLE.replacen("3649.0", bad, 1).replacen("3649", bad, 1);
        assert!(text.contains(bad));
        let refused = read(&text).expect_err("it is not JSON");
        let ReadError::NotJson { line, column, .. } = refused else {
            panic!("{refused:?}");
        };
        let at = text
            .lines()
            .position(|l| l.contains(bad))
            .expect("its line")
            + 1;
        assert_eq!(line, at, "{bad} at column {column}");
    }
}

#[test]
fn names_of_nothing() {
    let ghost = || json!("ghost");
    error(&with("/readings/0/from", ghost()), "readings[0].from");
    error(&with("/readings/3/to", ghost()), "readings[3].to");
    error(&with("/walls/0/to", ghost()), "walls[0].to");
    error(&with("/lines/0/wall", ghost()), "lines[0].wall");
    error(&with("/corners/0/lines/1", ghost()), "corners[0].lines[1]");
    error(&with("/runs/0/line", ghost()), "runs[0].line");
    error(
        &with("/runs/0/start", json!({ "wall": "ghost" })),
        "runs[0].start.wall",
    );
    error(
        &with("/runs/0/end", json!({ "corner": "ghost" })),
        "runs[0].end.corner",
    );
    error(
        &with("/runs/0/end", json!({ "mark": "ghost" })),
        "runs[0].end.mark",
    );
    error(
        &with("/levels/points/0/mark", ghost()),
        "levels.points[0].mark",
    );
    error(
        &with("/levels/points/1/run", ghost()),
        "levels.points[1].run",
    );
    error(
        &with(
            "/marked",
            json!([{ "run": "ghost", "post": 1, "done": true }]),
        ),
        "marked[0].run",
    );
    let offset =
        json!({ "kind": "offset", "mark": "C", "wall": "ghost", "side": "left", "length": 5 });
    error(&with("/readings/0", offset), "readings[0].wall");
    let inline = json!({ "kind": "inline", "mark": "C", "with": ["A", "ghost"] });
    error(&with("/readings/0", inline), "readings[0].with[1]");
    let angle = json!({ "kind": "angle", "from": "A", "at": "ghost", "to": "C", "degrees": 90 });
    error(&with("/readings/0", angle), "readings[0].at");
}

#[test]
fn one_name_twice() {
    error(&with("/marks/1/id", json!("A")), "marks[1].id");
    error(&with("/walls/1/id", json!("shed")), "walls[1].id");
    error(&with("/lines/1/id", json!("front")), "lines[1].id");
    error(&with("/runs/1/id", json!("R1")), "runs[1].id");
    error(
        &with("/levels/points/1/id", json!("nail")),
        "levels.points[1].id",
    );
    error(
        &with("/levels/setups/1/id", json!("S1")),
        "levels.setups[1].id",
    );
}

#[test]
fn one_mark_where_two_are_needed() {
    error(&with("/walls/0/to", json!("A")), "walls[0].to");
    error(&with("/readings/0/to", json!("A")), "readings[0].to");
    let line = json!({ "id": "front", "marks": ["A", "A"] });
    error(&with("/lines/0", line), "lines[0].marks");
    error(
        &with("/corners/0/lines", json!(["front", "front"])),
        "corners[0].lines",
    );
}

#[test]
fn a_drop_that_is_no_shorter_than_its_tape() {
    for drop in [3649.0, -3649.0, 1e5] {
        error(&with("/readings/0/drop", json!(drop)), "readings[0].drop");
    }
}

#[test]
fn gates_that_do_not_fit() {
    let past_the_end = json!([{ "at": 900, "clear": 90_000 }]);
    error(&with("/runs/0/gates", past_the_end), "runs[0].gates[0].at");
    let starts_past_the_end = json!([{ "at": 90_000, "clear": 1000 }]);
    error(
        &with("/runs/0/gates", starts_past_the_end),
        "runs[0].gates[0].at",
    );
    let over_another = json!([{ "at": 900, "clear": 1040 }, { "at": 1500, "clear": 800 }]);
    error(&with("/runs/0/gates", over_another), "runs[0].gates[1].at");
    let over_a_pinned_post = json!([{ "at": 1400 }]);
    let all = problems(&with("/runs/0/pins", over_a_pinned_post));
    let said = all
        .iter()
        .any(|p| p.severity == Severity::Error && p.place.starts_with("runs[0]."));
    assert!(said, "{all:#?}");
}

#[test]
fn a_corner_of_lines_that_do_not_cross() {
    let parallel = json!({ "id": "side", "wall": "shed", "side": "right", "offsets": [{ "at": 0, "off": 900 }] });
    let all = problems(&with("/lines/1", parallel));
    let said = all.iter().find(|p| p.place.starts_with("corners[0]"));
    let said = said.unwrap_or_else(|| panic!("{all:#?}"));
    assert_eq!(said.severity, Severity::Error);
    assert!(said.text.contains("parallel"), "{said:?}");
}

#[test]
fn a_gap_under_nothing() {
    error(&with("/runs/0/gap", json!(-75)), "runs[0].gap");
}

#[test]
fn offsets_that_give_no_string() {
    error(&with("/lines/0/offsets", json!([])), "lines[0].offsets");
    let behind = with("/lines/0/offsets/0/off", json!(-50));
    error(&behind, "lines[0].offsets[0].off");
    let one_place = json!([{ "at": 5, "off": 50 }, { "at": 5, "off": 60 }]);
    error(&with("/lines/0/offsets", one_place), "lines[0].offsets");
}

#[test]
fn angles_and_kinds_that_are_none() {
    let angle = json!({ "kind": "angle", "from": "A", "at": "B", "to": "C", "degrees": 190 });
    error(&with("/readings/0", angle), "readings[0].degrees");
    error(
        &with("/readings/0", json!({ "kind": "pacing", "steps": 12 })),
        "readings[0].kind",
    );
}

#[test]
fn what_is_not_a_job_is_refused_with_line_and_column() {
    let cases = [
        ("", 1),
        ("hello", 1),
        (
            "{\n \"format\": \"tautmark-job\",\n \"version\": 1,\n \"title\": \"t\"\n",
            5,
        ),
        (
            "{\n \"format\": \"something\",\n \"version\": 1, \"title\": \"t\"\n}",
            2,
        ),
        (
            "{\n \"format\": \"tautmark-job\",\n \"version\": 0, \"title\": \"t\"\n}",
            3,
        ),
        (
            "{\n \"format\": \"tautmark-job\",\n \"version\": 1,\n \"title\": 7\n}",
            4,
        ),
        (
            "{\n \"format\": \"tautmark-job\", \"version\": 1, \"title\": \"t\",\n \"marks\": {}\n}",
            3,
        ),
    ];
    for (text, at) in cases {
        match read(text).expect_err("it is no job") {
            ReadError::NotJson { line, column, .. } | ReadError::NotAJob { line, column, .. } => {
                assert_eq!(line, at, "{text}");
                assert!((1..=text.len().max(1)).contains(&column), "{text}");
            }
            other => panic!("{other:?}"),
        }
    }
}

#[test]
fn a_wrong_shape_is_refused_by_its_place() {
    let wrong = [
        ("/readings/0/length", json!("long"), "readings[0]"),
        ("/marks/2/rough", json!([1]), "marks[2].rough"),
        ("/runs/1/bays/fit", json!("loose"), "runs[1].bays.fit"),
        ("/lines/0/side", json!("above"), "lines[0].side"),
        ("/tape/class", json!("IV"), "tape.class"),
    ];
    for (place, new, expected) in wrong {
        let text = serde_json::to_string_pretty(&with(place, new)).expect("it is JSON");
        match read(&text).expect_err("it has the wrong shape") {
            ReadError::NotAJob { line, place, .. } => {
                assert!(place.starts_with(expected), "{place} is not {expected}");
                assert!(
                    line > 1 || place.starts_with("tape"),
                    "{place} at line {line}"
                );
            }
            other => panic!("{other:?}"),
        }
    }
}

#[test]
fn a_newer_version_opens_to_be_shown() {
    let opened = read(&with("/version", json!(2)).to_string()).expect("its shape is known");
    assert!(opened.read_only);
    assert_eq!(opened.job.version, 2);
    assert!(!read(EXAMPLE).expect("it opens").read_only);
    let shapeless = json!({ "format": "tautmark-job", "version": 3, "title": {} });
    assert_eq!(
        read(&shapeless.to_string()),
        Err(ReadError::TooNew { version: 3 })
    );
}

/// A key put into every object of the file is there when it is written again, and noted.
#[test]
fn unknown_keys_are_kept_everywhere() {
    let mut value = value();
    let marked = json!([{ "run": "R1", "post": 1, "done": true }]);
    let inline =
        json!({ "kind": "inline", "mark": "F", "with": ["C", "D"], "sd": 500.0, "use": false });
    let angle =
        json!({ "kind": "angle", "from": "A", "at": "B", "to": "E", "degrees": 100.0, "sd": 30.0 });
    let offset = json!({ "kind": "offset", "mark": "C", "wall": "shed", "side": "left", "length": 1.0, "use": false });
    value["marked"] = marked;
    value["stock"] = json!({ "rails": [3600.0], "kerf": 3.0 });
    value["tolerance"] = json!({ "length": 5.0, "level": 3.0 });
    value["runs"][0]["pins"] = json!([{ "at": 3800.0 }]);
    value["runs"][0]["gates"][0]["leaf"] =
        json!({ "hinge": 15.0, "latch": 10.0, "ground": 60.0, "hung": "start" });
    if let Some(readings) = value["readings"].as_array_mut() {
        readings.extend([inline, angle, offset]);
    }
    let mut places = Vec::new();
    add_key(&mut value, String::new(), &mut places);
    assert!(places.len() > 60, "{places:?}");
    let opened = job(&value);
    let written: Value =
        serde_json::from_str(&write(&opened).expect("it can be written")).expect("it is JSON");
    for place in &places {
        let kept = written.pointer(&format!("{place}/colour of it"));
        assert_eq!(kept, Some(&json!({ "is": [1, 2.5, null] })), "{place}");
    }
    let again = job(&written);
    assert_eq!(again, opened);
    let notes: Vec<_> = problems(&value)
        .into_iter()
        .filter(|p| p.text.contains("colour of it"))
        .collect();
    assert_eq!(notes.len(), places.len(), "each is noted once: {notes:#?}");
    assert!(notes.iter().all(|p| p.severity == Severity::Note));
}

fn add_key(value: &mut Value, place: String, places: &mut Vec<String>) {
    match value {
        Value::Object(map) => {
            for (key, inside) in map.iter_mut() {
                add_key(inside, format!("{place}/{key}"), places);
            }
            map.insert("colour of it".to_owned(), json!({ "is": [1, 2.5, null] }));
            places.push(place);
        }
        Value::Array(list) => {
            for (i, inside) in list.iter_mut().enumerate() {
                add_key(inside, format!("{place}/{i}"), places);
            }
        }
        _ => {}
    }
}

#[test]
fn figures_are_written_as_they_were_read() {
    for figure in [0.1 + 0.2, 1e-7, 123_456.789_012_345_67, 5e-324, 3650.0] {
        let opened = job(&with("/readings/0/length", json!(figure)));
        let again = read(&write(&opened).expect("it can be written"))
            .expect("it opens")
            .job;
        assert_eq!(again, opened, "{figure}");
    }
}

#[test]
fn a_bad_part_leaves_the_rest_solved() {
    let solution = solve(&job(&with("/runs/1/line", json!("ghost"))));
    assert_eq!(solution.runs["R1"].posts.len(), 5);
    let solution = solve(&job(&with("/readings/12/length", json!(-1))));
    assert_eq!(solution.marks.len(), 6);
}
