//! The example jobs against results worked out by a separate program.
//!
//! Every figure of the expected results must be in ours: lengths to 0.05 mm, angles to 0.005°.

use serde_json::Value;
use std::{fs, path::Path};
use tautmark::{job, solve};

const LENGTH: f64 = 0.05;
const ANGLE: f64 = 0.005;

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

fn compare(expected: &Value, ours: &Value, place: &str, misses: &mut Vec<String>) {
    match (expected, ours) {
        (Value::Object(wanted), Value::Object(_)) => {
            for (key, value) in wanted {
                compare(value, &ours[key], &format!("{place}.{key}"), misses);
            }
        }
        (Value::Array(wanted), Value::Array(found)) if wanted.len() == found.len() => {
            for (i, (value, own)) in wanted.iter().zip(found).enumerate() {
                compare(value, own, &format!("{place}[{i}]"), misses);
            }
        }
        (Value::Number(wanted), Value::Number(found)) => {
            let (wanted, found) = (
                wanted.as_f64().unwrap_or(0.0),
                found.as_f64().unwrap_or(0.0),
            );
            let angle = ["angle", "turn", "bevel", "bearing", "rotation"]
                .iter()
                .any(|word| place.ends_with(word) || place.ends_with("angle pm"));
            // chi2 is a sum of squares of figures that are themselves only this near.
            let allowed = match angle {
                true => ANGLE,
                false if place.contains("chi2") => LENGTH.max(wanted * 1e-5),
                false => LENGTH,
            };
            let apart = (wanted - found).abs();
            if apart.is_nan() || apart > allowed {
                misses.push(format!("{place}: expected {wanted}, found {found}"));
            }
        }
        _ if expected == ours => {}
        _ => misses.push(format!("{place}: expected {expected}, found {ours}")),
    }
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
