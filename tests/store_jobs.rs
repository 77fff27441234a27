//! Jobs on a disk: the list, the bin, what comes in and goes out, and what becomes of damage.

mod memory_disk;

use memory_disk::{Effect, Fault, MemoryDisk};
use std::io::ErrorKind;
use std::time::{Duration, SystemTime};
use tautmark::job::edit::{Change, Edit, Setting};
use tautmark::job::reading::Measure;
use tautmark::job::{EXAMPLE, Job, example, write};
use tautmark::store::{Access, Contents, JobKey, Jobs, OpenError, OpenJob, StoreNotice, ViewOnly};

fn title(text: &str) -> Edit {
    Edit::Set(Setting::Title(text.to_owned()))
}

/// A disk with the example on it, changed three times and closed.
fn changed() -> (MemoryDisk, Jobs, JobKey) {
    let disk = MemoryDisk::default();
    let jobs = Jobs::on(disk.clone());
    let mut open = jobs.start(example());
    for name in ["one", "two", "three"] {
        open.change(title(name)).expect("a title");
    }
    let key = open.key().clone();
    (disk, jobs, key)
}

fn file(key: &JobKey, name: &str) -> String {
    format!("jobs/{key}/{name}")
}

fn reopened(jobs: &Jobs, key: &JobKey) -> OpenJob {
    jobs.open(key).expect("the job opens")
}

#[test]
fn undo_reaches_back_past_a_restart() {
    let (_, jobs, key) = changed();
    let mut open = reopened(&jobs, &key);
    assert_eq!(open.undo(), Ok(Some("Title “three”".to_owned())));
    drop(open);
    let mut open = reopened(&jobs, &key);
    assert_eq!(open.job().title, "two");
    assert_eq!(open.redo(), Ok(Some("Title “three”".to_owned())));
    while open.undo().expect("can be changed").is_some() {}
    assert_eq!(*open.job(), example());
    assert_eq!(open.take_notices(), []);
}

#[test]
fn the_keystrokes_of_a_figure_stay_one_step_past_a_restart() {
    let (_, jobs, key) = changed();
    let mut open = reopened(&jobs, &key);
    for length in [3.0, 36.0, 365.0, 3651.0] {
        let mut value = open.job().readings[0].clone();
        if let Measure::Tape { length: slot, .. } = &mut value.what {
            *slot = Some(length);
        }
        let edit = Edit::Reading(Change::Replace { at: 0, value });
        open.amend(edit).expect("a figure");
    }
    drop(open);
    let mut open = reopened(&jobs, &key);
    assert_eq!(open.undo(), Ok(Some("Tape A to B 3\u{a0}651".to_owned())));
    assert_eq!(open.job().readings, example().readings);
}

#[test]
fn a_file_of_any_damage_comes_back_from_the_history() {
    let damage: [&[u8]; 5] = [
        b"",
        b"{",
        b"\xff\xfe",
        b"[]",
        b"{\"format\":\"something else\"}",
    ];
    for bytes in damage {
        let (disk, jobs, key) = changed();
        disk.put(&file(&key, "job.json"), bytes);
        let mut open = reopened(&jobs, &key);
        assert_eq!(open.take_notices(), [StoreNotice::RecoveredWhole]);
        assert_eq!(open.job().title, "three");
        assert_eq!(open.history().done().len(), 3);
        let aside = disk.bytes(&file(&key, "aside/000001.job.json"));
        assert_eq!(
            aside.as_deref(),
            Some(bytes),
            "the damaged file is kept as it was"
        );
        drop(open);
        let again = jobs.open(&key).expect("the job opens").take_notices();
        assert_eq!(again, []);
    }
}

#[test]
fn with_file_and_history_gone_the_last_good_copy_is_shown() {
    let (disk, jobs, key) = changed();
    reopened(&jobs, &key)
        .change(title("four"))
        .expect("a title");
    disk.put(&file(&key, "job.json"), b"not a job");
    disk.put(&file(&key, "history.jsonl"), b"not a history");
    let mut open = reopened(&jobs, &key);
    assert_eq!(open.take_notices(), [StoreNotice::RecoveredEarlier]);
    assert_eq!(open.job().title, "three");
    drop(open);
    let aside = |end: &str| {
        let inside = |path: &String| path.contains("/aside/") && path.ends_with(end);
        disk.bytes(&disk.paths().into_iter().find(inside)?)
    };
    assert_eq!(aside(".job.json").as_deref(), Some(&b"not a job"[..]));
    assert_eq!(
        aside(".history.jsonl").as_deref(),
        Some(&b"not a history"[..])
    );
}

#[test]
fn with_nothing_left_to_read_nothing_is_touched() {
    let disk = MemoryDisk::default();
    disk.put("jobs/lost/job.json", b"{ \"format\": ");
    let jobs = Jobs::on(disk.clone());
    let key = JobKey::parse("lost").expect("a key");
    let error = jobs.open(&key).err().expect("it cannot be opened");
    assert!(error.to_string().contains("line 1, column"), "{error}");
    assert_eq!(
        disk.bytes("jobs/lost/job.json").as_deref(),
        Some(&b"{ \"format\": "[..])
    );
    let list = jobs.list().expect("the list");
    assert!(matches!(list[0].contents, Contents::Damaged));
}

#[test]
fn a_file_changed_by_something_else_is_taken_and_the_old_state_kept() {
    let (disk, jobs, key) = changed();
    let other = EXAMPLE.replace("Orchard corner screen", "From elsewhere");
    disk.put(&file(&key, "job.json"), other.as_bytes());
    let mut open = reopened(&jobs, &key);
    assert_eq!(open.take_notices(), [StoreNotice::HistoryStartsAfresh]);
    assert_eq!(open.job().title, "From elsewhere");
    open.change(title("and on")).expect("a title");
    drop(open);
    let copies = jobs.earlier(&key).expect("the copies");
    let titles: Vec<_> = copies
        .iter()
        .map(|(n, _)| {
            jobs.start_from_earlier(&key, *n)
                .expect("it can be read")
                .job()
                .title
                .clone()
        })
        .collect();
    assert!(
        titles.contains(&"three (as it was)".to_owned()),
        "{titles:?}"
    );
    assert!(
        titles.contains(&"From elsewhere (as it was)".to_owned()),
        "{titles:?}"
    );
}

#[test]
fn a_file_changed_while_it_is_open_becomes_a_job_of_its_own() {
    let (disk, jobs, key) = changed();
    let mut open = reopened(&jobs, &key);
    let other = EXAMPLE.replace("Orchard corner screen", "Theirs");
    disk.put(&file(&key, "job.json"), other.as_bytes());
    open.change(title("mine")).expect("a title");
    open.settle();
    assert_eq!(open.trouble(), None);
    assert_eq!(
        open.take_notices(),
        [StoreNotice::OtherVersionKept {
            title: "Theirs".into()
        }]
    );
    drop(open);
    let mut titles: Vec<_> = jobs
        .list()
        .expect("the list")
        .into_iter()
        .map(|e| e.title)
        .collect();
    titles.sort();
    assert_eq!(titles, ["Theirs", "mine"]);
    let theirs = jobs
        .send_out(&JobKey::parse("theirs").expect("a key"))
        .expect("its file");
    assert_eq!(theirs, other.as_bytes());
}

#[test]
fn a_newer_file_is_shown_and_never_written() {
    let disk = MemoryDisk::default();
    let jobs = Jobs::on(disk.clone());
    let newer = EXAMPLE.replace("\"version\": 1", "\"version\": 2");
    let key = jobs.bring_in(newer.as_bytes()).expect("it can be shown");
    let mut open = reopened(&jobs, &key);
    assert_eq!(open.access(), Access::View(ViewOnly::NewerVersion));
    let refused = open.change(title("no")).expect_err("it is only shown");
    assert!(refused.to_string().contains("newer version"));
    assert!(!open.retry() || open.trouble().is_none());
    drop(open);
    assert_eq!(
        disk.bytes(&file(&key, "job.json")).as_deref(),
        Some(newer.as_bytes())
    );
    assert!(matches!(
        jobs.rename(&key, "no"),
        Err(OpenError::ViewOnly(_))
    ));
    assert!(jobs.copy(&key).is_err());
}

#[test]
fn a_newer_file_that_cannot_be_shown_stays_as_it_is() {
    let disk = MemoryDisk::default();
    let jobs = Jobs::on(disk.clone());
    let newer = br#"{ "format": "tautmark-job", "version": 9, "title": ["one", "two"] }"#;
    assert!(matches!(
        jobs.bring_in(newer),
        Err(OpenError::Unreadable(_))
    ));
    disk.put("jobs/later/job.json", newer);
    let key = JobKey::parse("later").expect("a key");
    let error = jobs.open(&key).err().expect("it cannot be shown");
    assert!(error.to_string().contains("version 9"), "{error}");
    assert!(matches!(
        jobs.list().expect("the list")[0].contents,
        Contents::Newer
    ));
    assert_eq!(
        disk.bytes("jobs/later/job.json").as_deref(),
        Some(&newer[..])
    );
}

#[test]
fn a_file_brought_in_goes_out_byte_for_byte_and_keeps_its_unknown_keys() {
    let (_, jobs, _) = changed();
    let text = EXAMPLE.replacen("{", "{ \"colour\": {\"of\": [1, 2.50]},", 1);
    let key = jobs.bring_in(text.as_bytes()).expect("it is a job");
    assert_eq!(jobs.send_out(&key).expect("its file"), text.as_bytes());
    let mut open = reopened(&jobs, &key);
    open.change(title("Changed")).expect("a title");
    let sent = jobs.send_out(&key).expect("its file");
    assert_eq!(
        sent,
        open.text().as_bytes(),
        "what goes out is never behind"
    );
    drop(open);
    let sent = String::from_utf8(jobs.send_out(&key).expect("its file")).expect("text");
    assert!(sent.contains("\"colour\""));
}

#[test]
fn what_is_no_job_is_not_brought_in() {
    let (disk, jobs, _) = changed();
    let before = disk.paths();
    for bytes in [&b"hello"[..], b"{}", b"\xff", b"[1]", b""] {
        let error = jobs.bring_in(bytes).expect_err("it is no job");
        assert!(error.to_string().contains("line 1, column"), "{error}");
    }
    assert_eq!(disk.paths(), before);
}

#[test]
fn a_file_that_cannot_be_written_is_not_half_brought_in() {
    let (disk, jobs, _) = changed();
    let before = disk.paths();
    let from = disk.steps() + 2;
    let fault = Fault {
        from,
        until: from + 1,
        kind: ErrorKind::StorageFull,
        effect: Effect::Half,
    };
    disk.fail(Some(fault));
    let error = jobs
        .bring_in(EXAMPLE.as_bytes())
        .expect_err("the disk is full");
    assert!(error.to_string().contains("full"), "{error}");
    assert_eq!(disk.paths(), before);
}

#[test]
fn a_deleted_job_comes_back_with_its_history() {
    let (_, jobs, key) = changed();
    let in_bin = jobs.delete(&key).expect("it is not open");
    assert!(jobs.list().expect("the list").is_empty());
    assert_eq!(jobs.bin().expect("the bin")[0].title, "three");
    let other = jobs.start(example());
    assert_ne!(*other.key(), key, "a binned job keeps its key");
    let back = jobs.restore(&in_bin).expect("it can be moved");
    let mut open = reopened(&jobs, &back);
    assert_eq!(open.job().title, "three");
    assert_eq!(open.undo(), Ok(Some("Title “three”".to_owned())));
}

#[test]
fn the_bin_is_emptied_of_what_is_old() {
    let (_, jobs, key) = changed();
    jobs.delete(&key).expect("it is not open");
    let deleted = jobs.bin().expect("the bin")[0].deleted.expect("its time");
    assert_eq!(jobs.empty_bin(deleted), Ok(0));
    assert_eq!(jobs.empty_bin(deleted + Duration::from_secs(1)), Ok(1));
    assert!(jobs.bin().expect("the bin").is_empty());
}

#[test]
fn jobs_of_one_title_have_folders_of_their_own() {
    let (_, jobs, _) = changed();
    let keys: Vec<_> = (0..3)
        .map(|_| jobs.start(Job::new("Side fence!")).key().to_string())
        .collect();
    assert_eq!(keys, ["side-fence", "side-fence-2", "side-fence-3"]);
    assert_eq!(jobs.start(Job::new("…")).key().as_str(), "job");
    assert_eq!(JobKey::parse("../elsewhere"), None);
    assert_eq!(JobKey::parse(""), None);
}

#[test]
fn a_copy_and_a_new_title_are_seen_in_the_list() {
    let (_, jobs, key) = changed();
    drop(jobs.copy(&key).expect("it can be read"));
    jobs.rename(&key, "Front fence").expect("it can be changed");
    let list = jobs.list().expect("the list");
    let titles: Vec<_> = list.iter().map(|e| e.title.as_str()).collect();
    assert_eq!(titles, ["Front fence", "three (copy)"]);
    assert_eq!(list[0].summary(), "6 marks, 13 readings, 2 runs");
    assert!(list[0].changed > list[1].changed);
    let mut open = reopened(&jobs, &key);
    assert_eq!(open.undo(), Ok(Some("Title “Front fence”".to_owned())));
}

#[test]
fn the_list_is_never_behind() {
    let (_, jobs, key) = changed();
    let mut open = reopened(&jobs, &key);
    open.change(title("four")).expect("a title");
    assert_eq!(jobs.list().expect("the list")[0].title, "four");
}

#[test]
fn a_dozen_earlier_copies_are_kept() {
    let (_, jobs, key) = changed();
    for n in 0..30 {
        reopened(&jobs, &key)
            .change(title(&format!("title {n}")))
            .expect("a title");
    }
    let copies = jobs.earlier(&key).expect("the copies");
    assert_eq!(copies.len(), 12);
    let latest = jobs
        .start_from_earlier(&key, copies[0].0)
        .expect("it can be read");
    assert_eq!(latest.job().title, "title 28 (as it was)");
}

#[test]
fn what_was_noted_is_there_at_the_next_start() {
    let jobs = Jobs::on(MemoryDisk::default());
    assert_eq!(jobs.remembered(), None);
    for text in ["posts 3", "levels"] {
        jobs.remember(text).expect("it can be written");
        assert_eq!(jobs.remembered().as_deref(), Some(text));
    }
}

/// On real files: two windows of one program, what the folder holds, and how much of it.
#[test]
fn two_thousand_changes_on_real_files_stay_small_and_can_all_be_undone() {
    let memory = std::path::Path::new("/dev/shm");
    let folder = if memory.is_dir() {
        tempfile::tempdir_in(memory)
    } else {
        tempfile::tempdir()
    };
    let folder = folder.expect("a folder");
    let jobs = Jobs::in_folder(folder.path());
    let mut open = jobs.start(example());
    for n in 0..2000_u32 {
        let mut value = open.job().readings[n as usize % 9].clone();
        if let Measure::Tape { length, .. } = &mut value.what {
            *length = Some(3000.0 + f64::from(n));
        }
        let at = n as usize % 9;
        open.change(Edit::Reading(Change::Replace { at, value }))
            .expect("a figure");
        if n % 3 == 0 {
            open.settle();
        }
        assert_eq!(open.trouble(), None);
    }
    let key = open.key().clone();
    let second = reopened(&jobs, &key);
    assert_eq!(second.access(), Access::View(ViewOnly::OpenElsewhere));
    assert_eq!(second.job(), open.job());
    drop((second, open));
    let size = bytes_in(folder.path());
    assert!(size < 20_000_000, "{size} bytes");
    let mut open = reopened(&jobs, &key);
    assert_eq!(open.access(), Access::Change);
    assert_eq!(open.history().done().len(), 2000);
    let sent = jobs.send_out(&key).expect("its file");
    assert_eq!(
        sent,
        write(open.job())
            .expect("a job can be written")
            .into_bytes()
    );
    while open.undo().expect("can be changed").is_some() {}
    assert_eq!(*open.job(), example());
    drop(open);
    let in_bin = jobs.delete(&key).expect("it is not open");
    assert_eq!(jobs.empty_bin(SystemTime::UNIX_EPOCH), Ok(0));
    jobs.restore(&in_bin).expect("it can be moved");
    assert_eq!(*reopened(&jobs, &key).job(), example());
}

fn bytes_in(folder: &std::path::Path) -> u64 {
    let entries = std::fs::read_dir(folder).expect("a folder");
    let size = |entry: std::fs::DirEntry| match entry.metadata().expect("an entry") {
        inside if inside.is_dir() => bytes_in(&entry.path()),
        file => file.len(),
    };
    entries.map(|entry| size(entry.expect("an entry"))).sum()
}

#[cfg(unix)]
#[test]
fn a_folder_that_may_not_be_written_is_told_at_once() {
    use std::os::unix::fs::PermissionsExt;
    let folder = tempfile::tempdir().expect("a folder");
    let locked = folder.path().join("locked");
    std::fs::create_dir(&locked).expect("a folder");
    std::fs::set_permissions(&locked, std::fs::Permissions::from_mode(0o500)).expect("permissions");
    let open = Jobs::in_folder(locked.join("deeper")).start(example());
    let may_anyway = std::fs::write(locked.join("try"), b"").is_ok();
    assert_eq!(open.trouble().is_none(), may_anyway);
    drop(open);
    std::fs::set_permissions(&locked, std::fs::Permissions::from_mode(0o700)).expect("permissions");
    let full = Jobs::in_folder("/dev/null/not-a-folder").start(example());
    assert!(full.trouble().is_some());
}
