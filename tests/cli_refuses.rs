//! What the program will not do: write over a job, pass on what could harm a terminal, hide a failure.

use std::fs;
use std::path::Path;
use std::process::{Command, Output, Stdio};
use tautmark::job;
use tempfile::TempDir;

fn run(args: &[&str]) -> Output {
    Command::new(env!("CARGO_BIN_EXE_tautmark"))
        .args(args)
        .stdin(Stdio::null())
        .output()
        .expect("the program runs")
}

fn code(output: &Output) -> i32 {
    output.status.code().expect("it ended by itself")
}

fn err(output: &Output) -> String {
    String::from_utf8(output.stderr.clone()).expect("UTF-8")
}

fn folder() -> TempDir {
    tempfile::tempdir().expect("a folder")
}

fn text(path: &Path) -> &str {
    path.to_str().expect("a plain path")
}

#[test]
fn another_job_is_written_over_only_by_force() {
    let folder = folder();
    let named = folder.path().join("mine.job.json");
    let unnamed = folder.path().join("mine.txt");
    for path in [&named, &unnamed] {
        fs::write(path, job::EXAMPLE).expect("written");
        for command in [&["demo"][..], &["sheet"], &["sheet", "--as", "pdf"]] {
            let args = [command, &["--out", text(path)]].concat();
            let output = run(&args);
            assert_eq!(code(&output), 2, "{args:?}");
            assert!(err(&output).contains("--force"), "{}", err(&output));
            assert_eq!(fs::read_to_string(path).expect("there"), job::EXAMPLE);
        }
    }
    // A spoilt job is somebody's work all the same.
    fs::write(&unnamed, "{\"format\": \"tautmark-job\", ").expect("written");
    assert_eq!(code(&run(&["demo", "--out", text(&unnamed)])), 2);
    assert_eq!(code(&run(&["sheet", "--out", text(&named), "--force"])), 0);
    assert_ne!(fs::read_to_string(&named).expect("there"), job::EXAMPLE);
    // A sheet is made anew without being asked.
    let sheet = folder.path().join("sheet.txt");
    for _ in 0..2 {
        assert_eq!(code(&run(&["sheet", "--out", text(&sheet)])), 0);
    }
    // Nothing is left beside them.
    assert_eq!(fs::read_dir(folder.path()).expect("a folder").count(), 3);
}

#[test]
fn the_job_of_the_command_is_kept_even_from_force() {
    let folder = folder();
    let path = folder.path().join("my.job.json");
    fs::write(&path, job::EXAMPLE).expect("written");
    let output = run(&["sheet", text(&path), "--out", text(&path), "--force"]);
    assert_eq!(code(&output), 2);
    assert_eq!(fs::read_to_string(&path).expect("there"), job::EXAMPLE);
}

#[test]
fn control_characters_reach_no_terminal_and_no_drawing() {
    let hostile = "tests/hard_use/control-characters.job.json";
    for args in [
        &["check", hostile][..],
        &["sheet", hostile],
        &["sheet", hostile, "--as", "svg"],
    ] {
        let output = run(args);
        assert_eq!(code(&output), 1, "{args:?}");
        assert!(output.stdout.is_empty());
        let said = err(&output);
        assert!(said.contains("U+0001") && said.contains("line 1"), "{said}");
        assert!(!said.trim_end().contains(char::is_control), "{said:?}");
    }
}

#[test]
fn signs_that_turn_letters_round_are_shown_as_what_they_are() {
    let folder = folder();
    let path = folder.path().join("turned.job.json");
    let turned = job::EXAMPLE.replacen("Orchard corner", "Orchard \u{202e}corner", 1);
    fs::write(&path, turned).expect("written");
    for form in ["text", "csv", "html", "svg", "dxf"] {
        let output = run(&["sheet", text(&path), "--as", form]);
        let shown = String::from_utf8(output.stdout).expect("UTF-8");
        assert!(!shown.contains('\u{202e}'), "{form}");
    }
    let output = run(&["check", text(&path)]);
    let said = String::from_utf8(output.stdout).expect("UTF-8");
    assert!(said.contains("Orchard [U+202E]corner"), "{said}");
}

#[test]
fn a_small_file_of_many_marks_is_answered_with_what_a_job_may_hold() {
    let output = run(&["check", "tests/hard_use/loose-500-marks.job.json"]);
    assert_eq!(code(&output), 1);
    let said = String::from_utf8(output.stdout).expect("UTF-8");
    assert!(
        said.contains("500 marks") && said.contains("at most"),
        "{said}"
    );
}

#[test]
fn a_column_is_counted_from_1() {
    let folder = folder();
    let path = folder.path().join("cut.json");
    for bytes in ["", "{\n", "[\n\n", "{\"format\":\n"] {
        fs::write(&path, bytes).expect("written");
        let said = err(&run(&["check", text(&path)]));
        assert!(said.contains("column 1:"), "{said}");
    }
}

/// The message names the file that was asked for, and none that nobody has seen.
#[test]
fn a_file_that_cannot_be_written_is_named_by_its_own_name() {
    let folder = folder();
    let path = folder.path().join("no such folder/sheet.txt");
    let said = err(&run(&["sheet", "--out", text(&path)]));
    assert!(said.contains("no such folder/sheet.txt"), "{said}");
    assert!(said.contains("there is no such folder"), "{said}");
    assert!(
        !said.contains("sheet/.") && !said.contains("folder/."),
        "{said}"
    );
}

/// A device that is always full stands for a full disk.
#[cfg(target_os = "linux")]
#[test]
fn help_that_cannot_be_written_is_a_failure() {
    for args in [&["--help"][..], &["--version"], &["sheet"], &["demo"]] {
        let full = fs::OpenOptions::new().write(true).open("/dev/full");
        let output = Command::new(env!("CARGO_BIN_EXE_tautmark"))
            .args(args)
            .stdin(Stdio::null())
            .stdout(full.expect("a device"))
            .stderr(Stdio::piped())
            .output()
            .expect("the program runs");
        assert_eq!(code(&output), 2, "{args:?}");
        assert!(
            err(&output).contains("cannot be written"),
            "{}",
            err(&output)
        );
    }
}
