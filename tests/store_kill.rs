//! The program is killed at random moments while it saves. After each the job opens and holds the
//! last change that was acknowledged, or a later one, and its history leads back.

use rand::rngs::StdRng;
use rand::{RngExt, SeedableRng};
use std::io::{BufRead, BufReader, Read, Write};
use std::path::Path;
use std::process::{Child, Command, Stdio};
use tautmark::job::edit::{Edit, Setting};
use tautmark::job::example;
use tautmark::store::{Access, JobKey, Jobs, OpenJob};

const ROUNDS: usize = 500;
/// So many rounds with one job, then a new one: a long history is slow to open.
const JOB_LASTS: usize = 25;
const EDITOR: &str = "edit-until-killed";

/// A test of its own making: it starts itself again as the program that is killed.
fn main() {
    let mut words = std::env::args().skip(1);
    match (words.next(), words.next(), words.next()) {
        (Some(word), Some(folder), Some(key)) if word == EDITOR => edit(&folder, &key),
        (Some(filter), ..) if !filter.starts_with('-') && !"store_kill".contains(&filter) => {}
        (Some(list), ..) if list == "--list" => println!("store_kill: test"),
        _ => kill_and_look(),
    }
}

fn note(number: u64) -> Edit {
    Edit::Set(Setting::Notes(number.to_string()))
}

/// The number in the notes goes up with each change, whatever way it is made.
fn number(open: &OpenJob) -> u64 {
    open.job().notes.parse().unwrap_or(0)
}

/// Changes the job for ever; says each number once it is saved.
fn edit(folder: &str, key: &str) {
    let key = JobKey::parse(key).expect("a key");
    let mut open = Jobs::in_folder(folder).open(&key).expect("the job opens");
    assert_eq!(open.access(), Access::Change);
    let mut out = std::io::stdout().lock();
    for next in number(&open) + 1.. {
        match next % 5 {
            1 => open.amend(note(next)).expect("a note"),
            2 => {
                // There and back again, so that undoing and redoing are cut short as well.
                open.undo().expect("can be changed");
                open.redo().expect("can be changed");
                open.change(note(next)).expect("a note");
            }
            _ => open.change(note(next)).expect("a note"),
        }
        if next % 7 == 0 {
            open.settle();
        }
        assert_eq!(open.trouble(), None);
        writeln!(out, "{next}")
            .and_then(|()| out.flush())
            .expect("the other end is there");
    }
}

fn start(folder: &Path, key: &JobKey) -> Child {
    Command::new(std::env::current_exe().expect("this test is a program"))
        .args([EDITOR.as_ref(), folder.as_os_str(), key.as_str().as_ref()])
        .stdout(Stdio::piped())
        .spawn()
        .expect("this test can start itself")
}

/// Lets it save a few changes, kills it somewhere in the next, and gives the last it said.
fn run_and_kill(folder: &Path, key: &JobKey, rng: &mut StdRng) -> u64 {
    let mut child = start(folder, key);
    let mut said = BufReader::new(child.stdout.take().expect("its output is piped"));
    let mut last = String::new();
    for _ in 0..rng.random_range(1..12) {
        last.clear();
        said.read_line(&mut last).expect("it speaks");
    }
    for _ in 0..rng.random_range(0..200_000) {
        std::hint::spin_loop();
    }
    child.kill().expect("it can be killed");
    child.wait().expect("it has ended");
    let mut rest = String::new();
    said.read_to_string(&mut rest).expect("it spoke text");
    let whole = rest.rfind('\n').map_or("", |end| &rest[..end]);
    let last = whole.lines().last().unwrap_or(&last);
    last.trim().parse().expect("it said a number")
}

fn kill_and_look() {
    // A killed program leaves what it wrote, flushed or not: memory does, and is quicker.
    let memory = Path::new("/dev/shm");
    let folder = match memory.is_dir() {
        true => tempfile::tempdir_in(memory),
        false => tempfile::tempdir(),
    };
    let folder = folder.expect("a folder");
    let jobs = Jobs::in_folder(folder.path());
    let mut key = jobs.start(example()).key().clone();
    let mut rng = StdRng::seed_from_u64(9);
    let mut ahead = 0;
    for round in 0..ROUNDS {
        let said = run_and_kill(folder.path(), &key, &mut rng);
        let mut open = jobs.open(&key).expect("the job opens");
        let found = number(&open);
        // An undo that was cut short shows the number before; it had not been said to be undone.
        let next_undoes = (said + 1) % 5 == 2;
        let before = open.history().undone().len();
        assert!(
            found >= said || (next_undoes && before == 1),
            "round {round}: {said} was said to be saved, {found} is there"
        );
        if found < said {
            open.redo().expect("can be changed").expect("a step");
            assert!(number(&open) >= said);
        }
        assert_eq!(open.take_notices(), []);
        assert_eq!(open.trouble(), None);
        ahead += u64::from(found > said);
        if round % JOB_LASTS == JOB_LASTS - 1 {
            while open.undo().expect("can be changed").is_some() {}
            assert!(
                *open.job() == example(),
                "round {round}: the history leads elsewhere"
            );
            key = jobs.start(example()).key().clone();
        }
    }
    println!("killed {ROUNDS} times: nothing lost; {ahead} times the job was one change ahead");
}
