//! The example jobs against results worked out by a separate program.
//!
//! Every figure of the expected results must be in ours: lengths to 0.05 mm, angles to 0.005°.

mod agree;

use agree::compare;
use serde_json::Value;
use std::{fs, path::Path};
use tautmark::{job, solve};

fn case(name: &str) {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/cases");
    let text = |end: &str| fs::read_to_string(folder.join(format!("{name}.{end}.json")));
    let opened = job::read(&text("job").expect("the case is there")).expect("the case opens");
    let ours = serde_json::to_value(solve(&opened.job)).expect("a solution is JSON");
    let expected: Value =
        serde_json::from_str(&text("expected").expect("its results are there")).expect("JSON");
    let mut misses = Vec::new();
    compare(&expected, &ours, "", &mut misses);
    assert!(misses.is_empty(), "{name}:\n{}", misses.join("\n"));
}

#[test]
fn orchard_corner() {
    case("orchard-corner");
}

#[test]
fn coal_yard_return() {
    case("coal-yard-return");
}

#[test]
fn coal_yard_slip() {
    case("coal-yard-slip");
}

#[test]
fn stepped_side_run() {
    case("stepped-side-run");
}

#[test]
fn the_built_in_example_is_the_orchard_corner() {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/cases");
    let text = fs::read_to_string(folder.join("orchard-corner.job.json")).expect("it is there");
    assert_eq!(text, job::EXAMPLE);
}
