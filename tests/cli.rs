//! The program as a person runs it.

use std::fs;
use std::io::Write;
use std::path::{Path, PathBuf};
use std::process::{Command, Output, Stdio};
use tautmark::{job, solve};
use tempfile::TempDir;

fn run(args: &[&str]) -> Output {
    Command::new(env!("CARGO_BIN_EXE_tautmark"))
        .args(args)
        .stdin(Stdio::null())
        .output()
        .expect("the program runs")
}

fn run_with_input(args: &[&str], input: &[u8]) -> Output {
    let mut child = Command::new(env!("CARGO_BIN_EXE_tautmark"))
        .args(args)
        .stdin(Stdio::piped())
        .stdout(Stdio::piped())
        .stderr(Stdio::piped())
        .spawn()
        .expect("the program runs");
    let mut stdin = child.stdin.take().expect("its input");
    // The program may refuse before it has read all.
    let _ = stdin.write_all(input);
    drop(stdin);
    child.wait_with_output().expect("it ends")
}

fn code(output: &Output) -> i32 {
    output.status.code().expect("it ended by itself")
}

fn out(output: &Output) -> String {
    String::from_utf8(output.stdout.clone()).expect("UTF-8")
}

fn err(output: &Output) -> String {
    String::from_utf8(output.stderr.clone()).expect("UTF-8")
}

fn folder() -> TempDir {
    tempfile::tempdir().expect("a folder")
}

fn file(folder: &TempDir, name: &str, bytes: &[u8]) -> PathBuf {
    let path = folder.path().join(name);
    fs::write(&path, bytes).expect("written");
    path
}

fn text(path: &Path) -> &str {
    path.to_str().expect("a plain path")
}

fn case(name: &str) -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join(format!("tests/cases/{name}.job.json"))
}

fn example_with(change: impl FnOnce(&mut serde_json::Value)) -> Vec<u8> {
    let mut value = serde_json::from_str(job::EXAMPLE).expect("JSON");
    change(&mut value);
    value.to_string().into_bytes()
}

#[test]
fn the_example_sheet_holds_its_figures() {
    let output = run(&["sheet"]);
    assert_eq!(code(&output), 0, "{}", err(&output));
    let sheet = out(&output);
    for figure in [
        "Orchard corner screen",
        "104.29° ± 0.12°",
        "5\u{a0}402",
        "1\u{a0}579",
        "3\u{a0}640",
        "5\u{a0}290",
        "↑\u{a0}825",
        "↓\u{a0}615",
    ] {
        assert!(sheet.contains(figure), "{figure}");
    }
    assert_eq!(err(&output), "");
}

#[test]
fn json_is_what_solving_gives() {
    for (name, ending) in [
        ("orchard-corner", 0),
        ("coal-yard-slip", 1),
        ("stepped-side-run", 0),
    ] {
        let path = case(name);
        let output = run(&["sheet", text(&path), "--as", "json"]);
        assert_eq!(code(&output), ending);
        let shown: serde_json::Value = serde_json::from_slice(&output.stdout).expect("JSON");
        let opened = job::read(&fs::read_to_string(path).expect("a case")).expect("opens");
        let solved = serde_json::to_value(solve(&opened.job)).expect("JSON");
        assert_eq!(shown, solved, "{name}");
    }
}

#[test]
fn the_demo_is_the_example_and_a_job_to_start_from() {
    let output = run(&["demo"]);
    assert_eq!((code(&output), out(&output).as_str()), (0, job::EXAMPLE));
    let folder = folder();
    let path = folder.path().join("my.job.json");
    assert_eq!(code(&run(&["demo", "--out", text(&path)])), 0);
    assert_eq!(fs::read_to_string(&path).expect("written"), job::EXAMPLE);
    assert_eq!(code(&run(&["check", text(&path)])), 0);
}

#[test]
fn every_form_is_written_to_a_file_as_to_the_screen() {
    let folder = folder();
    for form in ["text", "json", "csv", "html", "message"] {
        let path = file(&folder, form, b"an older sheet");
        let written = run(&["sheet", "--as", form, "--out", text(&path)]);
        assert_eq!((code(&written), out(&written).as_str()), (0, ""));
        let screen = run(&["sheet", "--as", form]);
        let file = fs::read(&path).expect("written");
        assert!(!file.is_empty());
        assert_eq!(file, screen.stdout, "{form}");
    }
    let left = fs::read_dir(folder.path()).expect("a folder").count();
    assert_eq!(left, 5, "nothing else is left behind");
}

#[test]
fn lengths_are_shown_in_the_unit_asked_for() {
    let feet = out(&run(&["sheet", "--lengths", "ft-in"]));
    assert!(feet.contains("11′\u{a0}11\u{a0}5/16″"), "{feet}");
    let metres = out(&run(&["sheet", "--lengths", "m"]));
    assert!(metres.contains("3.640"), "{metres}");
}

#[test]
fn a_job_with_errors_ends_with_1_and_still_shows_the_rest() {
    let folder = folder();
    let bytes = example_with(|job| job["readings"][4]["to"] = "Z".into());
    let path = file(&folder, "wrong.job.json", &bytes);
    let output = run(&["sheet", text(&path)]);
    assert_eq!(code(&output), 1);
    let sheet = out(&output);
    assert!(
        sheet.contains("Gate opening from 900 to 1\u{a0}940"),
        "{sheet}"
    );
    let said = err(&output);
    for words in [
        "wrong.job.json",
        "readings[4].to",
        "There is no mark called “Z”.",
        "add it",
    ] {
        assert!(said.contains(words), "{words}: {said}");
    }
    let check = run(&["check", text(&path)]);
    assert_eq!(code(&check), 1);
    assert!(out(&check).contains("1 error."), "{}", out(&check));
    assert!(out(&check).contains("There is no mark called “Z”."));
}

#[test]
fn warnings_do_not_change_the_ending() {
    let folder = folder();
    let bytes = example_with(|job| {
        job["runs"][0]
            .as_object_mut()
            .expect("a run")
            .remove("bays");
    });
    let path = file(&folder, "no-bays.job.json", &bytes);
    let output = run(&["check", text(&path)]);
    assert_eq!(code(&output), 0, "{}", out(&output));
    assert!(out(&output).contains("no errors"), "{}", out(&output));
}

#[test]
fn a_misread_tape_ends_with_1() {
    let path = case("coal-yard-slip");
    let output = run(&["check", text(&path)]);
    assert_eq!(code(&output), 1);
    let said = out(&output);
    for words in [
        "1 error.",
        "Tape A to C",
        "6\u{a0}926",
        "two digits swapped",
    ] {
        assert!(said.contains(words), "{words}: {said}");
    }
}

#[test]
fn check_names_every_problem_of_the_example() {
    let said = out(&run(&["check"]));
    for problem in solve(&job::example()).problems {
        assert!(said.contains(&problem.text), "{}", problem.text);
        assert!(said.contains(&problem.remedy), "{}", problem.remedy);
    }
}

#[test]
fn what_is_not_a_job_is_refused_with_its_line_and_column() {
    let folder = folder();
    let refusals: [(&str, &[u8], &[&str]); 7] = [
        (
            "half.json",
            b"{\n \"format\": \"tautmark-job\",\n",
            &["line 3", "not JSON"],
        ),
        ("shop.json", b"{\n\"milk\": 2}", &["line 2", "not a job"]),
        (
            "other.json",
            b"{\"format\": \"x\", \"version\": 1, \"title\": \"\"}",
            &["format"],
        ),
        ("empty.json", b"", &["line 1", "not JSON"]),
        (
            "bytes.json",
            b"{\"title\":\n\"caf\xe9\"}",
            &["line 2, column 5", "UTF-8"],
        ),
        ("list.json", b"[1, 2, 3]", &["line 1", "not a job"]),
        (
            "newer.json",
            b"{\"format\": \"tautmark-job\", \"version\": 9, \"title\": 7}",
            &["version 9", "newer program"],
        ),
    ];
    for (name, bytes, words) in refusals {
        let path = file(&folder, name, bytes);
        for command in ["sheet", "check"] {
            let output = run(&[command, text(&path)]);
            assert_eq!(code(&output), 1, "{name}");
            assert_eq!(out(&output), "", "{name}");
            let said = err(&output);
            for word in words.iter().chain([&name]) {
                assert!(said.contains(word), "{name}: {word}: {said}");
            }
        }
        assert_eq!(fs::read(&path).expect("still there"), bytes);
    }
}

#[test]
fn what_cannot_be_opened_or_written_ends_with_2() {
    let folder = folder();
    let missing = folder.path().join("nowhere.job.json");
    let output = run(&["sheet", text(&missing)]);
    assert_eq!(code(&output), 2);
    assert!(err(&output).contains("nowhere.job.json"));
    assert!(err(&output).contains("Check its name and place"));

    let output = run(&["check", text(folder.path())]);
    assert_eq!(code(&output), 2);
    assert!(err(&output).contains("folder"), "{}", err(&output));

    let out_of_reach = folder.path().join("no such folder/sheet.txt");
    let output = run(&["sheet", "--out", text(&out_of_reach)]);
    assert_eq!(code(&output), 2);
    assert!(err(&output).contains("--out"), "{}", err(&output));

    let output = run(&["sheet", "--out", text(folder.path())]);
    assert_eq!(code(&output), 2);
}

#[test]
fn bad_arguments_end_with_2_and_help_with_0() {
    for args in [
        &["sheet", "--as", "poem"][..],
        &["sheet", "--lengths", "cubits"],
        &["sheet", "one", "two"],
        &["dig"],
        &["--deep"],
        &["demo", "--out"],
    ] {
        let output = run(args);
        assert_eq!(code(&output), 2, "{args:?}");
        assert!(!output.stderr.is_empty());
        assert!(output.stdout.is_empty());
    }
    for args in [&["--help"][..], &["sheet", "--help"], &["--version"]] {
        let output = run(args);
        assert_eq!(code(&output), 0, "{args:?}");
        assert!(!output.stdout.is_empty());
    }
}

#[test]
fn the_job_itself_is_never_written_over() {
    let folder = folder();
    let path = file(&folder, "my.job.json", job::EXAMPLE.as_bytes());
    let round_about = folder.path().join(".").join("my.job.json");
    for out in [&path, &round_about] {
        let output = run(&["sheet", text(&path), "--as", "json", "--out", text(out)]);
        assert_eq!(code(&output), 2);
        assert!(err(&output).contains("left as it is"), "{}", err(&output));
    }
    assert_eq!(fs::read_to_string(&path).expect("there"), job::EXAMPLE);
}

#[test]
fn a_refused_job_leaves_an_older_sheet_alone() {
    let folder = folder();
    let job = file(&folder, "bad.json", b"{");
    let sheet = file(&folder, "sheet.txt", b"the older sheet");
    let output = run(&["sheet", text(&job), "--out", text(&sheet)]);
    assert_eq!(code(&output), 1);
    assert_eq!(fs::read(&sheet).expect("there"), b"the older sheet");
}

#[test]
fn a_dash_reads_standard_input() {
    let output = run_with_input(&["sheet", "-"], job::EXAMPLE.as_bytes());
    assert_eq!(code(&output), 0);
    assert_eq!(output.stdout, run(&["sheet"]).stdout);
    let output = run_with_input(&["check", "-"], b"no job");
    assert_eq!(code(&output), 1);
    assert!(
        err(&output).contains("standard input: line 1"),
        "{}",
        err(&output)
    );
}

#[test]
fn a_file_too_large_for_a_job_is_refused() {
    let mut bytes = job::EXAMPLE.as_bytes().to_vec();
    bytes.resize(16 * 1024 * 1024 + 1, b' ');
    let folder = folder();
    let path = file(&folder, "large.job.json", &bytes);
    let output = run(&["check", text(&path)]);
    assert_eq!(code(&output), 1);
    assert!(err(&output).contains("16 MB"), "{}", err(&output));
    bytes.pop();
    let path = file(&folder, "just.job.json", &bytes);
    assert_eq!(code(&run(&["check", text(&path)])), 0);
}

#[test]
fn a_reader_that_stops_is_no_error() {
    let mut child = Command::new(env!("CARGO_BIN_EXE_tautmark"))
        .args(["sheet", "--as", "json"])
        .stdin(Stdio::null())
        .stdout(Stdio::piped())
        .stderr(Stdio::piped())
        .spawn()
        .expect("the program runs");
    drop(child.stdout.take());
    let output = child.wait_with_output().expect("it ends");
    assert_eq!(code(&output), 0);
    assert_eq!(err(&output), "");
}

#[cfg(not(feature = "app"))]
#[test]
fn told_nothing_it_shows_the_example() {
    let output = run(&[]);
    assert_eq!(code(&output), 0);
    assert_eq!(output.stdout, run(&["sheet"]).stdout);
}

#[test]
fn spoilt_files_end_with_0_or_1_and_words() {
    let whole = job::EXAMPLE.as_bytes();
    let folder = folder();
    let mut spoilt: Vec<Vec<u8>> = Vec::new();
    for n in 0..20 {
        let at = (n * 7919 + 13) % whole.len();
        spoilt.push(whole[..at].to_vec());
        let mut bytes = whole.to_vec();
        bytes[at] = b"{}[]\",:0-e"[n % 10];
        spoilt.push(bytes);
    }
    for value in [
        "-5",
        "0",
        "1e300",
        "1e-300",
        "null",
        "\"x\"",
        "[]",
        "123456789012345678901234567890",
    ] {
        spoilt.push(job::EXAMPLE.replace("3649", value).into_bytes());
        spoilt.push(job::EXAMPLE.replace("1040", value).into_bytes());
    }
    spoilt.push(example_with(|job| {
        for mark in job["marks"].as_array_mut().expect("marks") {
            mark["id"] = "A".into();
        }
    }));
    spoilt.push(vec![b'['; 200_000]);
    for (n, bytes) in spoilt.iter().enumerate() {
        let path = file(&folder, "spoilt.job.json", bytes);
        let output = run(&["sheet", text(&path), "--as", "csv"]);
        let ending = code(&output);
        assert!(ending == 0 || ending == 1, "case {n} ended with {ending}");
        assert_eq!(
            ending == 1,
            !output.stderr.is_empty(),
            "case {n}: {}",
            err(&output)
        );
        assert!(!err(&output).contains("panicked"), "case {n}");
    }
}

#[test]
fn each_drawing_can_be_had_by_its_name() {
    let mut drawings = Vec::new();
    for of in ["plan", "R1", "R2", "X"] {
        let output = run(&["sheet", "--as", "svg", "--of", of]);
        assert_eq!(code(&output), 0, "{}", err(&output));
        let svg = out(&output);
        assert!(svg.starts_with("<svg"), "{of}");
        assert!(!drawings.contains(&svg), "{of} is one of the others");
        drawings.push(svg);
    }
    let output = run(&["sheet", "--as", "svg", "--of", "R9"]);
    assert_eq!(code(&output), 2);
    let said = err(&output);
    assert!(
        said.contains("“R9”") && said.contains("plan, R1, R2, X"),
        "{said}"
    );
}

#[test]
fn pages_are_for_the_paper_that_is_usual_with_the_unit() {
    let size = |args: &[&str]| {
        let bytes = run(args).stdout;
        let text = String::from_utf8_lossy(&bytes).into_owned();
        let at = text.find("/MediaBox").expect("a page has a size");
        text[at..].split(']').next().unwrap_or_default().to_owned()
    };
    let pages = ["sheet", "--as", "pdf"];
    assert!(size(&pages).contains("595"));
    assert!(size(&["sheet", "--as", "pdf", "--lengths", "ft-in"]).contains("612"));
    let chosen = [
        "sheet",
        "--as",
        "pdf",
        "--lengths",
        "ft-in",
        "--paper",
        "a4",
    ];
    assert!(size(&chosen).contains("595"));
}

/// Started as from a menu, where there is no desktop to open a window on.
#[cfg(all(feature = "app", target_os = "linux"))]
#[test]
fn without_a_display_it_says_so_and_gives_the_sheet() {
    let home = folder();
    let output = Command::new(env!("CARGO_BIN_EXE_tautmark"))
        .env_remove("DISPLAY")
        .env_remove("WAYLAND_DISPLAY")
        .env_remove("WAYLAND_SOCKET")
        .env("HOME", home.path())
        .env("XDG_DATA_HOME", home.path())
        .stdin(Stdio::null())
        .output()
        .expect("the program runs");
    assert_eq!(code(&output), 2, "{}", err(&output));
    assert!(
        err(&output).contains("The window cannot be opened"),
        "{}",
        err(&output)
    );
    assert_eq!(out(&output), out(&run(&["sheet"])));
}
