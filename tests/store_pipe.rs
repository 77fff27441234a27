//! A pipe where a job's file should be. By itself: a program that is being started holds the locks of
//! every other test in its process for a moment.
#![cfg(unix)]

use std::fs;
use tautmark::job::edit::{Edit, Setting};
use tautmark::job::example;
use tautmark::store::Jobs;

fn title(text: &str) -> Edit {
    Edit::Set(Setting::Title(text.to_owned()))
}

#[test]
fn a_pipe_in_place_of_a_file_holds_nobody_up() {
    let folder = tempfile::tempdir().expect("a folder");
    let jobs = Jobs::in_folder(folder.path());
    let mut open = jobs.start(example());
    open.change(title("one")).expect("a title");
    let key = open.key().clone();
    drop(open);
    let own = folder
        .path()
        .join("jobs")
        .join(key.as_str())
        .join("job.json");
    fs::remove_file(&own).expect("removed");
    let made = std::process::Command::new("mkfifo").arg(&own).status();
    if !made.is_ok_and(|status| status.success()) {
        return;
    }
    assert_eq!(jobs.list().expect("a list").len(), 1);
    let mut open = jobs.open(&key).expect("from its history");
    assert_eq!(open.job().title, "one");
    // Nothing takes the place of what is no file of ours, and that is said.
    open.change(title("two")).expect("a title");
    open.settle();
    assert!(open.trouble().is_some());
}
