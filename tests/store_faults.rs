//! A disk that fails at any step of a save: nothing is lost, and the person is told.

mod memory_disk;

use memory_disk::{Effect, Fault, MemoryDisk};
use std::io::ErrorKind;
use tautmark::job::edit::{Edit, Setting};
use tautmark::job::{Job, example};
use tautmark::store::{Access, Cause, JobKey, Jobs, OpenJob, StoreNotice, Trouble, ViewOnly};

const KINDS: [ErrorKind; 4] = [
    ErrorKind::StorageFull,
    ErrorKind::Other,
    ErrorKind::PermissionDenied,
    ErrorKind::ReadOnlyFilesystem,
];
const EFFECTS: [Effect; 3] = [Effect::Nothing, Effect::Half, Effect::All];

fn title(text: String) -> Edit {
    Edit::Set(Setting::Title(text))
}

/// A disk with the example on it, changed once.
fn disk() -> (MemoryDisk, JobKey) {
    let disk = MemoryDisk::default();
    let mut open = Jobs::on(disk.clone()).start(example());
    open.change(title("before".into())).expect("a title");
    assert_eq!(open.trouble(), None);
    (disk, open.key().clone())
}

/// Everything a person does, one save each; gives the title after every step.
const STEPS: usize = 6;

fn act(open: &mut OpenJob, step: usize) {
    if step % 2 == 1 {
        open.settle();
    }
    match step {
        2 => drop(open.undo().expect("can be changed").expect("a step")),
        3 => drop(open.redo().expect("can be changed").expect("a step")),
        4 => open.amend(title("amended".into())).expect("a title"),
        _ => open
            .change(title(format!("title {step}")))
            .expect("a title"),
    }
}

/// Does it all; gives the first trouble that was told.
fn all(open: &mut OpenJob) -> Option<Trouble> {
    let mut told = open.trouble().cloned();
    for step in 0..STEPS {
        act(open, step);
        told = told.or(open.trouble().cloned());
    }
    open.settle();
    told.or(open.trouble().cloned())
}

/// How many disk steps the whole takes when nothing fails.
fn steps() -> usize {
    let (disk, key) = disk();
    let before = disk.steps();
    let mut open = Jobs::on(disk.clone()).open(&key).expect("the job opens");
    all(&mut open);
    disk.steps() - before
}

fn undone_to_the_start(mut open: OpenJob) -> Job {
    while open.undo().expect("can be changed").is_some() {}
    open.job().clone()
}

#[test]
fn a_failure_at_any_step_loses_nothing_and_is_told() {
    let mut told = 0;
    for from in 0..steps() {
        for kind in KINDS {
            for effect in EFFECTS {
                for length in [1, 2, 5, 1000] {
                    let (disk, key) = disk();
                    let jobs = Jobs::on(disk.clone());
                    let from = disk.steps() + from;
                    let until = from + length;
                    disk.fail(Some(Fault {
                        from,
                        until,
                        kind,
                        effect,
                    }));
                    let mut open = match jobs.open(&key) {
                        Ok(open) => open,
                        Err(error) => {
                            // Nothing could be read. It was said, and nothing was touched.
                            assert!(!error.to_string().is_empty());
                            disk.fail(None);
                            let open = jobs.open(&key).expect("the job opens");
                            assert_eq!(open.job().title, "before");
                            continue;
                        }
                    };
                    let afresh = open
                        .take_notices()
                        .contains(&StoreNotice::HistoryStartsAfresh);
                    let trouble = all(&mut open);
                    let wanted = open.job().clone();
                    assert_eq!(wanted.title, "title 5");
                    if let Some(trouble) = trouble {
                        told += 1;
                        assert!(trouble.unsaved().contains("in this window only"));
                        let cause = match kind {
                            ErrorKind::StorageFull => Cause::Full,
                            ErrorKind::PermissionDenied => Cause::NotAllowed,
                            ErrorKind::ReadOnlyFilesystem => Cause::ReadOnly,
                            _ => Cause::Faulty,
                        };
                        assert_eq!(trouble.cause, cause);
                    }
                    disk.fail(None);
                    let what = format!("{kind:?} {effect:?} at {from} for {length}");
                    assert!(open.retry(), "{what}: {:?}", open.trouble());
                    let steps = open.history().clone();
                    drop(open);
                    let again = jobs.open(&key).expect("the job opens");
                    assert!(*again.job() == wanted, "{what}: {}", again.job().title);
                    assert_eq!(again.history().done(), steps.done(), "{what}");
                    let start = undone_to_the_start(again);
                    if afresh {
                        let aside = |path: &String| {
                            path.contains("/aside/") && path.ends_with("history.jsonl")
                        };
                        assert_eq!(start.title, "before");
                        assert!(disk.paths().iter().any(aside), "{what}");
                    } else {
                        assert!(start == example(), "{what}: {}", start.title);
                    }
                }
            }
        }
    }
    assert!(told > 800, "told {told} times");
}

#[test]
fn a_power_cut_at_any_step_leaves_the_last_change_said_to_be_saved() {
    for from in 0..steps() {
        for effect in EFFECTS {
            let (disk, key) = disk();
            let from = disk.steps() + from;
            let kind = ErrorKind::Other;
            disk.fail(Some(Fault {
                from,
                until: usize::MAX,
                kind,
                effect,
            }));
            let mut titles = vec!["before".to_owned()];
            let mut saved = 0;
            if let Ok(mut open) = Jobs::on(disk.clone()).open(&key) {
                for step in 0..STEPS {
                    act(&mut open, step);
                    titles.push(open.job().title.clone());
                    if open.trouble().is_none() {
                        saved = titles.len() - 1;
                    }
                }
            }
            let jobs = Jobs::on(disk.after_power_cut());
            let open = jobs.open(&key).expect("the job opens");
            let found = &open.job().title;
            assert_eq!(open.access(), Access::Change);
            assert!(
                titles[saved..].contains(found),
                "{found} after {titles:?}, saved {saved}"
            );
            assert_eq!(open.trouble(), None);
            let start = undone_to_the_start(open);
            assert!(start == example(), "{effect:?} at {from}: {}", start.title);
        }
    }
}

#[test]
fn a_new_job_on_a_full_disk_is_kept_once_there_is_space() {
    let disk = MemoryDisk::default();
    let full = Fault {
        from: 0,
        until: usize::MAX,
        kind: ErrorKind::StorageFull,
        effect: Effect::Nothing,
    };
    disk.fail(Some(full));
    let jobs = Jobs::on(disk.clone());
    let mut open = jobs.start(Job::new("Side fence"));
    assert_eq!(open.trouble().map(|t| t.cause), Some(Cause::Full));
    open.change(title("Side fence and gate".into()))
        .expect("a title");
    assert!(!open.retry());
    disk.fail(None);
    assert!(open.retry());
    let key = open.key().clone();
    drop(open);
    let again = jobs.open(&key).expect("the job opens");
    assert_eq!(again.job().title, "Side fence and gate");
    assert_eq!(again.history().done().len(), 1);
}

#[test]
fn a_second_window_shows_the_job_and_does_not_change_it() {
    let (disk, key) = disk();
    let jobs = Jobs::on(disk.clone());
    let mut first = jobs.open(&key).expect("the job opens");
    let mut second = jobs.open(&key).expect("the job opens");
    assert_eq!(second.access(), Access::View(ViewOnly::OpenElsewhere));
    let refused = second
        .change(title("mine".into()))
        .expect_err("it is only shown");
    assert!(refused.to_string().contains("another window"));
    assert!(jobs.delete(&key).is_err());
    first.change(title("first's".into())).expect("a title");
    drop(first);
    drop(second);
    let third = jobs.open(&key).expect("the job opens");
    assert_eq!(
        (third.access(), third.job().title.as_str()),
        (Access::Change, "first's")
    );
}
