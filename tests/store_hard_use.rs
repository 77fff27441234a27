//! Jobs on a disk that is used hard: folders taken away, files that are no files, jobs too large, and
//! jobs that end the program.

mod memory_disk;

use memory_disk::{Effect, Fault, MemoryDisk};
use std::fs;
use std::io::ErrorKind;
use std::path::Path;
use tautmark::job::edit::{Edit, EditError, Setting};
use tautmark::job::{EXAMPLE, Job, example, read};
use tautmark::store::{ChangeError, JobKey, Jobs, OpenError};
use tempfile::TempDir;

fn folder() -> TempDir {
    tempfile::tempdir().expect("a folder")
}

fn title(text: &str) -> Edit {
    Edit::Set(Setting::Title(text.to_owned()))
}

/// The example, changed once and closed, in a folder of files.
fn one_job(folder: &Path) -> (Jobs, JobKey) {
    let jobs = Jobs::in_folder(folder);
    let mut open = jobs.start(example());
    open.change(title("one")).expect("a title");
    let key = open.key().clone();
    (jobs, key)
}

#[test]
fn a_folder_that_was_taken_away_is_made_again_with_all_of_the_job() {
    let outer = folder();
    let data = outer.path().join("data");
    let (jobs, key) = one_job(&data);
    let mut open = jobs.open(&key).expect("it opens");
    for (at, gone) in [
        data.clone(),
        data.join("jobs"),
        data.join("jobs").join(key.as_str()),
    ]
    .iter()
    .enumerate()
    {
        fs::remove_dir_all(gone).expect("taken away");
        open.change(title(&format!("again {at}"))).expect("a title");
        assert_eq!(open.trouble(), None, "{}", gone.display());
        // The lock stands in the new folder.
        let other = Jobs::in_folder(&data).open(&key).expect("it opens");
        assert_eq!(other.job().title, format!("again {at}"));
        assert_ne!(other.access(), tautmark::store::Access::Change);
    }
    drop(open);
    let mut open = jobs.open(&key).expect("it opens");
    assert_eq!(open.take_notices(), []);
    while open.undo().expect("can be changed").is_some() {}
    assert_eq!(*open.job(), example());
}

#[test]
fn a_folder_put_back_is_gone_on_with() {
    let outer = folder();
    let (data, away) = (outer.path().join("data"), outer.path().join("away"));
    let (jobs, key) = one_job(&data);
    let mut open = jobs.open(&key).expect("it opens");
    fs::rename(&data, &away).expect("moved");
    // Where it was, something stands in the way.
    fs::write(&data, "").expect("written");
    open.change(title("two")).expect("a title");
    assert!(open.trouble().is_some());
    fs::remove_file(&data).expect("removed");
    fs::rename(&away, &data).expect("moved");
    assert!(open.retry(), "{:?}", open.trouble());
    drop(open);
    assert_eq!(jobs.open(&key).expect("it opens").job().title, "two");
}

#[test]
fn what_a_job_may_hold_is_said_before_it_is_kept() {
    let folder = folder();
    let jobs = Jobs::in_folder(folder.path());
    let text = fs::read("tests/hard_use/loose-500-marks.job.json").expect("a file");
    let refused = jobs.bring_in(&text).expect_err("it holds too much");
    assert!(matches!(refused, OpenError::TooMuch(_)), "{refused}");
    let said = refused.to_string();
    assert!(
        said.contains("500 marks") && said.contains("at most 150"),
        "{said}"
    );
    assert!(jobs.keys().expect("a list").is_empty());
}

#[test]
fn no_file_is_too_large_to_be_refused() {
    let folder = folder();
    let jobs = Jobs::in_folder(folder.path());
    let mut large = EXAMPLE.as_bytes().to_vec();
    large.resize((16 << 20) + 1, b' ');
    let refused = jobs.bring_in(&large).expect_err("it is too large");
    assert!(refused.to_string().contains("16 MB"), "{refused}");
    // In a job's own folder too, where its history has it.
    let (jobs, key) = one_job(folder.path());
    fs::write(
        folder
            .path()
            .join("jobs")
            .join(key.as_str())
            .join("job.json"),
        &large,
    )
    .expect("written");
    assert_eq!(
        jobs.open(&key).expect("from its history").job().title,
        "one"
    );
}

#[test]
fn a_file_of_nothing_but_things_is_refused_before_it_fills_the_memory() {
    for filling in ["{},", "[],", "1,", "\"\","] {
        let mut text = String::from(r#"{"format":"tautmark-job","version":1,"title":"","x":["#);
        text.push_str(&filling.repeat((15 << 20) / filling.len()));
        text.push_str("1]}");
        let said = read(&text).expect_err("it holds too much").to_string();
        assert!(said.contains("more than any job"), "{said}");
    }
}

/// What one person measures is no other's to read.
#[cfg(unix)]
#[test]
fn files_and_folders_are_for_their_owner_alone() {
    use std::os::unix::fs::PermissionsExt;
    let outer = folder();
    let data = outer.path().join("some/where/data");
    let (jobs, _) = one_job(&data);
    jobs.remember("here").expect("noted");
    let mut left = vec![outer.path().join("some")];
    let mut files = 0;
    while let Some(at) = left.pop() {
        let mode = fs::metadata(&at).expect("there").permissions().mode() & 0o777;
        if at.is_dir() {
            assert_eq!(mode, 0o700, "{}", at.display());
            left.extend(
                fs::read_dir(&at)
                    .expect("a folder")
                    .map(|one| one.expect("one").path()),
            );
        } else {
            files += 1;
            assert_eq!(mode, 0o600, "{}", at.display());
        }
    }
    assert!(files >= 4);
}

#[test]
fn a_file_that_the_disk_does_not_give_comes_from_its_history() {
    let folder = folder();
    let (jobs, key) = one_job(folder.path());
    let own = folder.path().join("jobs").join(key.as_str());
    fs::remove_file(own.join("job.json")).expect("removed");
    fs::create_dir(own.join("job.json")).expect("a folder in its place");
    assert_eq!(
        jobs.open(&key).expect("from its history").job().title,
        "one"
    );
    fs::remove_file(own.join("history.jsonl")).expect("removed");
    let refused = jobs.open(&key).err().expect("nothing can be read");
    assert!(matches!(refused, OpenError::Disk(_)), "{refused}");
}

#[test]
fn a_file_that_could_not_be_written_whole_is_under_no_proper_name() {
    for kind in [ErrorKind::StorageFull, ErrorKind::Other] {
        let disk = MemoryDisk::default();
        let jobs = Jobs::on(disk.clone());
        for step in 0..40 {
            disk.fail(Some(Fault {
                from: disk.steps() + step,
                until: usize::MAX,
                kind,
                effect: Effect::Half,
            }));
            let _ = jobs.bring_in(EXAMPLE.as_bytes());
            let mut open = jobs.start(example());
            let _ = open.change(title("one"));
            open.settle();
            drop(open);
            disk.fail(None);
            for name in disk.paths() {
                if name.ends_with(".json") {
                    let bytes = disk.bytes(&name).expect("there");
                    let text = String::from_utf8(bytes).expect("text");
                    assert!(read(&text).is_ok(), "{name} is half there");
                }
            }
        }
    }
}

#[test]
fn a_job_that_did_not_open_is_known_at_the_next_start() {
    let folder = folder();
    let (jobs, key) = one_job(folder.path());
    assert_eq!(jobs.not_opened(), []);
    jobs.note_opening(&key).expect("noted");
    // The program ends here; this is the next one.
    let jobs = Jobs::in_folder(folder.path());
    assert_eq!(jobs.not_opened(), std::slice::from_ref(&key));
    assert!(!jobs.send_out(&key).expect("it can be sent out").is_empty());
    jobs.note_opened(&key);
    assert_eq!(jobs.not_opened(), []);
    jobs.note_opening(&key).expect("noted");
    jobs.delete(&key).expect("it can be deleted");
    assert_eq!(jobs.not_opened(), []);
}

#[test]
fn a_row_is_kept_until_its_job_changes() {
    let folder = folder();
    let (jobs, key) = one_job(folder.path());
    assert_eq!(jobs.row(&key), None);
    let entry = jobs.entry(key.clone()).expect("a job");
    let as_of = entry.as_of.expect("it can be read");
    jobs.keep_row(&key, &as_of, "5 marks\nagree").expect("kept");
    assert_eq!(jobs.row(&key).as_deref(), Some("5 marks\nagree"));
    let mut open = jobs.open(&key).expect("it opens");
    open.change(title("two")).expect("a title");
    assert_eq!(jobs.row(&key), None);
    drop(open);
    // What was made of an earlier state is not taken for the later one.
    jobs.keep_row(&key, &as_of, "5 marks").expect("kept");
    assert_eq!(jobs.row(&key), None);
}

#[test]
fn a_text_with_a_control_character_is_not_taken() {
    let folder = folder();
    let jobs = Jobs::in_folder(folder.path());
    let mut open = jobs.start(Job::new("bell \u{7}"));
    assert_eq!(open.job().title, "bell [U+0007]");
    let refused = open.change(title("escape \u{1b}[31m"));
    let expected = ChangeError::Edit(EditError::ControlCharacter { number: 0x1b });
    assert_eq!(refused, Err(expected));
    open.change(Edit::Set(Setting::Notes("two\nlines".to_owned())))
        .expect("notes");
    let key = open.key().clone();
    drop(open);
    assert_eq!(jobs.open(&key).expect("it opens").job().notes, "two\nlines");
}

#[test]
fn a_newer_programs_job_is_shown_with_that_notice_alone() {
    let folder = folder();
    let (jobs, key) = one_job(folder.path());
    let own = folder
        .path()
        .join("jobs")
        .join(key.as_str())
        .join("job.json");
    let text = fs::read_to_string(&own).expect("there");
    fs::write(&own, text.replacen("\"version\": 1", "\"version\": 2", 1)).expect("written");
    let mut open = jobs.open(&key).expect("it opens");
    assert_ne!(open.access(), tautmark::store::Access::Change);
    assert_eq!(open.take_notices(), []);
}
