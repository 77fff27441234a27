//! Job files spoilt in every way: each is refused with a line and column, or opened with its
//! problems named; what was opened is written and read again without loss; nothing panics.

use rand::rngs::StdRng;
use rand::{RngExt, SeedableRng};
use serde_json::{Map, Number, Value};
use tautmark::job::check::check;
use tautmark::job::{LARGEST_FILE, ReadError, read, write};

const CASES: [&str; 4] = [
    include_str!("cases/orchard-corner.job.json"),
    include_str!("cases/coal-yard-return.job.json"),
    include_str!("cases/coal-yard-slip.job.json"),
    include_str!("cases/stepped-side-run.job.json"),
];

/// What became of the files.
#[derive(Default)]
struct Tally {
    refused: usize,
    clean: usize,
    with_problems: usize,
}

impl Tally {
    /// Reads one file as the program would; `solved` as far as the set-out.
    fn take(&mut self, text: &str, solved: bool) {
        let opened = match read(text) {
            Ok(opened) => opened,
            Err(error) => {
                refusal_is_plain(&error, text);
                self.refused += 1;
                return;
            }
        };
        let written = write(&opened.job).expect("what was read can be written");
        let again = read(&written).expect("what was written can be read");
        assert!(
            again == opened,
            "written and read, it is another job:\n{text}\n{written}"
        );
        let problems = match solved {
            true => tautmark::solve(&opened.job).problems,
            false => check(&opened.job).1,
        };
        for problem in &problems {
            let told = [&problem.text, &problem.remedy]
                .iter()
                .all(|t| t.ends_with('.'));
            assert!(told, "{problem:?}");
        }
        match problems.is_empty() {
            true => self.clean += 1,
            false => self.with_problems += 1,
        }
    }
}

fn refusal_is_plain(error: &ReadError, text: &str) {
    let lines = text.lines().count() + 1;
    match error {
        ReadError::NotJson { line, reason, .. } | ReadError::NotAJob { line, reason, .. } => {
            // A value of the wrong shape as a whole has no line of its own.
            assert!(*line <= lines, "{error}");
            assert!(!reason.is_empty(), "{error}");
        }
        ReadError::NotText { line, .. } => assert!(*line <= lines, "{error}"),
        ReadError::TooLarge => assert!(text.len() as u64 > LARGEST_FILE, "{error}"),
        ReadError::TooNew { version } => assert!(*version > 1),
    }
}

/// Bytes changed, lost, doubled or moved, kept as text.
fn spoil_bytes(rng: &mut StdRng, text: &str) -> String {
    let mut bytes = text.as_bytes().to_vec();
    for _ in 0..rng.random_range(1..4) {
        let at = rng.random_range(0..bytes.len());
        let end = (at + rng.random_range(1..40)).min(bytes.len());
        match rng.random_range(0..6) {
            0 => bytes[at] = b"{}[]\",:0-9.eEtfn \n"[rng.random_range(0..18)],
            1 => bytes[at] = rng.random(),
            2 => drop(bytes.drain(at..end)),
            3 => {
                let part = bytes[at..end].to_vec();
                let to = rng.random_range(0..bytes.len());
                bytes.splice(to..to, part);
            }
            4 => bytes.truncate(at.max(1)),
            _ => bytes.insert(at, b"0123456789"[rng.random_range(0..10)]),
        }
    }
    String::from_utf8_lossy(&bytes).into_owned()
}

const FIGURES: [f64; 12] = [
    0.0,
    -0.0,
    -1.0,
    1e-320,
    1e308,
    -1e308,
    1e6,
    1e6 + 1.0,
    0.5,
    180.0,
    1e15,
    2.0,
];
const NAMES: [&str; 10] = [
    "",
    "A",
    "B",
    "E",
    "X",
    "R1",
    "front",
    "no such",
    "\u{0}",
    "ß\u{202e}",
];

/// A figure that should not stand there.
fn odd_figure(rng: &mut StdRng) -> Value {
    let figure = FIGURES[rng.random_range(0..FIGURES.len())];
    match rng.random_range(0..3) {
        0 => Value::from(rng.random_range(-1e4..1e4)),
        _ => Number::from_f64(figure).map_or(Value::Null, Value::Number),
    }
}

/// A value that should not stand there, of any kind.
fn odd_value(rng: &mut StdRng) -> Value {
    match rng.random_range(0..8) {
        0 => Value::Null,
        1 => Value::Bool(rng.random()),
        2 => Value::from(NAMES[rng.random_range(0..NAMES.len())]),
        3 => Value::Array(vec![]),
        4 => Value::Object(Map::new()),
        5 => Value::from(u64::MAX),
        6 => Value::from(vec![1.0, 2.0]),
        _ => odd_figure(rng),
    }
}

/// Changes one place somewhere in a value.
fn spoil_value(rng: &mut StdRng, value: &mut Value) {
    match value {
        Value::Object(map) if !map.is_empty() && rng.random_bool(0.93) => {
            let at = rng.random_range(0..map.len());
            let key = map.keys().nth(at).cloned().unwrap_or_default();
            match rng.random_range(0..12) {
                0 => drop(map.remove(&key)),
                1 => drop(map.insert(format!("{key}x"), odd_value(rng))),
                _ => map
                    .values_mut()
                    .nth(at)
                    .into_iter()
                    .for_each(|v| spoil_value(rng, v)),
            }
        }
        Value::Array(list) if !list.is_empty() && rng.random_bool(0.93) => {
            let at = rng.random_range(0..list.len());
            match rng.random_range(0..8) {
                0 => drop(list.remove(at)),
                1 => list.push(list[at].clone()),
                2 => list.swap(0, at),
                _ => spoil_value(rng, &mut list[at]),
            }
        }
        // What is of the right kind gets further than what is not.
        Value::Number(n) if rng.random_bool(0.5) => {
            let by = [-1.0, 0.0, 0.1, 1.001, 10.0, 1000.0][rng.random_range(0..6)];
            *value = Value::from(n.as_f64().unwrap_or(1.0) * by);
        }
        Value::Number(_) if rng.random_bool(0.9) => *value = odd_figure(rng),
        Value::String(text) if rng.random_bool(0.9) => {
            *text = NAMES[rng.random_range(0..NAMES.len())].to_owned();
        }
        other => *other = odd_value(rng),
    }
}

#[test]
fn files_with_spoilt_bytes() {
    let mut rng = StdRng::seed_from_u64(31);
    let mut tally = Tally::default();
    for n in 0..60_000 {
        let text = spoil_bytes(&mut rng, CASES[n % CASES.len()]);
        tally.take(&text, n % 20 == 0);
    }
    let opened = tally.clean + tally.with_problems;
    assert!(
        tally.refused > 10_000 && opened > 1_000,
        "refused {}, opened {opened}",
        tally.refused
    );
}

#[test]
fn files_with_spoilt_values() {
    let mut rng = StdRng::seed_from_u64(32);
    let mut tally = Tally::default();
    let cases = CASES.map(|text| serde_json::from_str::<Value>(text).expect("the case is JSON"));
    for n in 0..40_000 {
        let mut value = cases[n % cases.len()].clone();
        for _ in 0..rng.random_range(1..4) {
            spoil_value(&mut rng, &mut value);
        }
        tally.take(&value.to_string(), n % 8 == 0);
    }
    let (refused, opened) = (tally.refused, tally.with_problems);
    assert!(
        refused > 5_000 && opened > 10_000,
        "refused {refused}, opened {opened}"
    );
}

#[test]
fn random_text_and_deep_nests() {
    let mut rng = StdRng::seed_from_u64(33);
    let mut tally = Tally::default();
    for _ in 0..2_000 {
        let length = rng.random_range(0..300);
        let bytes: Vec<u8> = (0..length).map(|_| rng.random()).collect();
        tally.take(&String::from_utf8_lossy(&bytes), true);
    }
    for opener in [
        "[",
        "{\"a\":",
        "{\"format\":\"tautmark-job\",\"version\":1,\"title\":\"t\",\"x\":[[",
    ] {
        tally.take(&opener.repeat(100_000), true);
    }
    assert_eq!(tally.refused, 2_003);
}
