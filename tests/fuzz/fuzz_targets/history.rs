//! A history and a job file of any bytes in a job's folder: opened, changed and opened again, or
//! refused; never a panic, and the change is never lost.
#![no_main]

use libfuzzer_sys::fuzz_target;
use tautmark::job::edit::{Edit, Setting};
use tautmark::store::{Access, JobKey, Jobs};

fuzz_target!(|files: (&[u8], &[u8])| {
    let memory = std::path::Path::new("/dev/shm");
    let folder = if memory.is_dir() {
        tempfile::tempdir_in(memory)
    } else {
        tempfile::tempdir()
    };
    let folder = folder.expect("a folder");
    let inside = folder.path().join("jobs").join("job");
    std::fs::create_dir_all(&inside).expect("a folder");
    std::fs::write(inside.join("job.json"), files.0).expect("a file");
    std::fs::write(inside.join("history.jsonl"), files.1).expect("a file");
    let jobs = Jobs::in_folder(folder.path());
    let key = JobKey::parse("job").expect("a key");
    let Ok(mut open) = jobs.open(&key) else {
        return;
    };
    if open.access() != Access::Change {
        return;
    }
    let title = Edit::Set(Setting::Title("changed".to_owned()));
    open.change(title).expect("a title");
    assert_eq!(open.trouble(), None);
    drop(open);
    let again = jobs.open(&key).expect("it was saved");
    assert_eq!(again.job().title, "changed");
});
