//! How long one change takes until it is on the disk, in a job that has 2,000 behind it.

use std::path::Path;
use tautmark::job::edit::{Change, Edit};
use tautmark::job::example;
use tautmark::job::reading::Measure;
use tautmark::store::{Jobs, OpenJob};

fn main() {
    divan::main();
}

fn figure(open: &OpenJob, n: u32) -> Edit {
    let at = n as usize % 9;
    let mut value = open.job().readings[at].clone();
    if let Measure::Tape { length, .. } = &mut value.what {
        *length = Some(3000.0 + f64::from(n));
    }
    Edit::Reading(Change::Replace { at, value })
}

fn changed(open: &mut OpenJob, n: u32) {
    let edit = figure(open, n);
    open.change(edit).expect("a figure");
}

/// Jobs in memory (the program's own time) or in the system's folder for passing files.
fn jobs(on_disk: bool) -> (tempfile::TempDir, Jobs) {
    let memory = Path::new("/dev/shm");
    let folder = if on_disk || !memory.is_dir() {
        tempfile::tempdir()
    } else {
        tempfile::tempdir_in(memory)
    };
    let folder = folder.expect("a folder");
    let jobs = Jobs::in_folder(folder.path());
    (folder, jobs)
}

/// A job with 2,000 changes behind it: made in memory, then moved where it is wanted.
fn long_job(on_disk: bool) -> (tempfile::TempDir, OpenJob) {
    let (made, in_memory) = jobs(false);
    let mut open = in_memory.start(example());
    (0..2000).for_each(|n| changed(&mut open, n));
    let key = open.key().clone();
    drop(open);
    let (folder, jobs) = jobs(on_disk);
    let (from, to) = (made.path().join("jobs"), folder.path().join("jobs"));
    std::fs::create_dir_all(to.join(key.as_str())).expect("a folder");
    for name in ["job.json", "history.jsonl"] {
        let inside = Path::new(key.as_str()).join(name);
        std::fs::copy(from.join(&inside), to.join(&inside)).expect("a file");
    }
    let open = jobs.open(&key).expect("the job opens");
    (folder, open)
}

#[divan::bench(args = [false, true], sample_count = 200, sample_size = 1)]
fn change(bencher: divan::Bencher, on_disk: bool) {
    let (_folder, mut open) = long_job(on_disk);
    let mut n = 0;
    bencher.bench_local(|| {
        n += 1;
        changed(&mut open, n);
    });
    assert_eq!(open.trouble(), None);
}

#[divan::bench(args = [false, true], sample_count = 40, sample_size = 1)]
fn settle(bencher: divan::Bencher, on_disk: bool) {
    let (_folder, mut open) = long_job(on_disk);
    let mut n = 0;
    bencher.bench_local(|| {
        n += 1;
        changed(&mut open, n);
        open.settle();
    });
    assert_eq!(open.trouble(), None);
}

#[divan::bench(sample_count = 20, sample_size = 1)]
fn open(bencher: divan::Bencher) {
    let (folder, open) = long_job(false);
    let key = open.key().clone();
    drop(open);
    bencher.bench_local(|| Jobs::in_folder(folder.path()).open(&key).map(drop));
}
