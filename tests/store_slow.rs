//! A disk before a storage that takes its time: the storage ends up with what the disk holds,
//! whatever it refuses on the way.

use proptest::prelude::*;
use std::collections::BTreeMap;
use std::io::{self, ErrorKind};
use std::sync::{Arc, Mutex, MutexGuard};
use std::time::SystemTime;
use tautmark::job::edit::{Edit, Setting};
use tautmark::job::example;
use tautmark::store::slow::{FilePiece, HandedOver, Kept, SlowDisk, Storage};
use tautmark::store::{Cause, Disk, Files, Jobs};

#[derive(Default)]
struct Shelf {
    parts: BTreeMap<(String, u32), (Vec<u8>, SystemTime)>,
    waiting: Vec<(HandedOver, Kept)>,
    refuses: Option<ErrorKind>,
}

/// A storage that carries out what it was handed when it is told to; clones are the same storage.
#[derive(Clone, Default)]
struct Later(Arc<Mutex<Shelf>>);

impl Later {
    fn shelf(&self) -> MutexGuard<'_, Shelf> {
        self.0.lock().expect("no test panics while it holds it")
    }

    fn refuse(&self, kind: Option<ErrorKind>) {
        self.shelf().refuses = kind;
    }

    fn work(&self) {
        let waiting = std::mem::take(&mut self.shelf().waiting);
        for (handed, kept) in waiting {
            let said = self.carry_out(handed);
            kept(said);
        }
    }

    fn carry_out(&self, handed: HandedOver) -> io::Result<()> {
        let mut shelf = self.shelf();
        if let Some(kind) = shelf.refuses {
            return Err(kind.into());
        }
        let pieces = match handed {
            HandedOver::Step(pieces) => pieces,
            HandedOver::Everything(pieces) => {
                shelf.parts.clear();
                pieces
            }
        };
        for piece in pieces {
            match piece {
                FilePiece::Part {
                    path,
                    part,
                    bytes,
                    changed,
                } => _ = shelf.parts.insert((path, part), (bytes, changed)),
                FilePiece::Gone { path } => shelf.parts.retain(|(have, _), _| *have != path),
            }
        }
        Ok(())
    }

    /// The disk as it is when the program starts again.
    fn disk(&self) -> SlowDisk {
        let parts = self.shelf().parts.clone();
        let pieces = parts.into_iter().rev();
        let pieces = pieces.map(|((path, part), (bytes, changed))| FilePiece::Part {
            path,
            part,
            bytes,
            changed,
        });
        SlowDisk::of(pieces, self.clone())
    }
}

impl Storage for Later {
    fn keep(&self, handed: HandedOver, kept: Kept) {
        self.shelf().waiting.push((handed, kept));
    }
}

#[derive(Clone, Debug)]
enum Act {
    Write(String, Vec<u8>),
    Append(String, Vec<u8>),
    Rename(String, String),
    Remove(String),
    MakeFolder(String),
    RemoveFolder(String),
}

fn act() -> impl Strategy<Value = Act> {
    let folder = || prop::sample::select(vec!["a", "b", "a/c"]).prop_map(str::to_owned);
    let file =
        || (folder(), prop::sample::select(vec!["x", "y"])).prop_map(|(f, n)| format!("{f}/{n}"));
    let bytes = || prop::collection::vec(any::<u8>(), 0..4);
    prop_oneof![
        3 => (file(), bytes()).prop_map(|(path, bytes)| Act::Write(path, bytes)),
        3 => (file(), bytes()).prop_map(|(path, bytes)| Act::Append(path, bytes)),
        2 => (file(), file()).prop_map(|(from, to)| Act::Rename(from, to)),
        // Onto a folder that is there systems differ; the store never does it.
        1 => folder().prop_map(|from| Act::Rename(from, "z".to_owned())),
        1 => file().prop_map(Act::Remove),
        4 => folder().prop_map(Act::MakeFolder),
        1 => prop_oneof![folder(), Just("z".to_owned())].prop_map(Act::RemoveFolder),
    ]
}

fn carry_out(disk: &dyn Disk, act: &Act) -> Result<(), ErrorKind> {
    let said = match act {
        Act::Write(path, bytes) => disk.write(path, bytes),
        Act::Append(path, bytes) => disk.append(path, bytes),
        Act::Rename(from, to) if to == "z" => {
            // A missing folder is nothing to rename; one of that name goes first.
            let _ = disk.remove_folder(to);
            disk.rename(from, to)
        }
        Act::Rename(from, to) => disk.rename(from, to),
        Act::Remove(path) => disk.remove(path),
        Act::MakeFolder(path) => disk.make_folder(path),
        Act::RemoveFolder(path) => disk.remove_folder(path),
    };
    said.map_err(|error| error.kind())
}

/// Every file and folder of it.
fn all(disk: &dyn Disk, folder: &str, found: &mut BTreeMap<String, Option<Vec<u8>>>) {
    for name in disk.list(folder).unwrap_or_default() {
        let path = format!("{folder}/{name}");
        let bytes = disk.read(&path).ok();
        if bytes.is_none() {
            all(disk, &path, found);
        }
        found.insert(path, bytes);
    }
}

fn contents(disk: &dyn Disk) -> BTreeMap<String, Option<Vec<u8>>> {
    let mut found = BTreeMap::new();
    for folder in ["a", "b", "z"] {
        if disk.list(folder).is_ok() {
            found.insert(folder.to_owned(), None);
        }
        all(disk, folder, &mut found);
    }
    found
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(96))]

    #[test]
    fn it_does_what_a_folder_of_files_does_and_the_storage_keeps_it(
        acts in prop::collection::vec(act(), 1..40),
        refused in prop::collection::vec(0..40_usize, 0..4),
    ) {
        let folder = tempfile::tempdir().expect("a folder");
        let files = Files::in_folder(folder.path());
        let storage = Later::default();
        let disk = storage.disk();
        for (at, act) in acts.iter().enumerate() {
            storage.refuse(refused.contains(&at).then_some(ErrorKind::StorageFull));
            let mut said = carry_out(&disk, act);
            storage.work();
            storage.refuse(None);
            if said == Err(ErrorKind::StorageFull) {
                // Asked again, the disk hands over all of it; then the same step is possible.
                let _ = disk.kept();
                storage.work();
                said = carry_out(&disk, act);
                storage.work();
            }
            prop_assert_eq!(said, carry_out(&files, act), "{:?}", act);
        }
        let _ = disk.kept();
        storage.work();
        prop_assert_eq!(disk.kept().map_err(|error| error.kind()), Ok(()));
        prop_assert_eq!(contents(&disk), contents(&files));
        prop_assert_eq!(contents(&storage.disk()), contents(&files));
    }
}

fn title(text: &str) -> Edit {
    Edit::Set(Setting::Title(text.to_owned()))
}

#[test]
fn a_job_and_its_history_are_there_when_the_page_opens_again() {
    let storage = Later::default();
    let mut open = Jobs::on(storage.disk()).start(example());
    open.change(title("Changed")).expect("a title");
    let key = open.key().clone();
    storage.work();
    let mut open = Jobs::on(storage.disk()).open(&key).expect("it is there");
    assert_eq!(open.job().title, "Changed");
    assert_eq!(open.undo(), Ok(Some("Title “Changed”".to_owned())));
    assert_eq!(*open.job(), example());
}

#[test]
fn a_storage_that_refuses_is_told_of_and_catches_up() {
    let storage = Later::default();
    let mut open = Jobs::on(storage.disk()).start(example());
    let key = open.key().clone();
    storage.work();
    storage.refuse(Some(ErrorKind::QuotaExceeded));
    open.change(title("In memory only")).expect("a title");
    assert_eq!(open.trouble(), None, "the storage has not answered");
    storage.work();
    open.settle();
    assert_eq!(open.trouble().map(|t| t.cause), Some(Cause::Full));
    storage.work();
    open.settle();
    assert!(open.trouble().is_some(), "it still refuses");
    storage.refuse(None);
    storage.work();
    open.settle();
    storage.work();
    assert_eq!(open.trouble(), None);
    let again = Jobs::on(storage.disk()).open(&key).expect("it is there");
    assert_eq!(again.job().title, "In memory only");
}

#[test]
fn a_file_ends_where_a_part_of_it_is_missing() {
    let storage = Later::default();
    let disk = storage.disk();
    disk.make_folder("a").expect("a folder");
    for text in ["one ", "two ", "three"] {
        disk.append("a/x", text.as_bytes()).expect("appended");
    }
    storage.work();
    storage.shelf().parts.remove(&("a/x".to_owned(), 1));
    assert_eq!(
        storage.disk().read("a/x").ok().as_deref(),
        Some("one ".as_bytes())
    );
}

#[test]
fn a_storage_that_was_emptied_gets_everything_again_at_once() {
    let storage = Later::default();
    let disk = storage.disk();
    let alarm = disk.alarm();
    disk.make_folder("a").expect("a folder");
    disk.write("a/x", b"entered").expect("written");
    storage.work();
    storage.shelf().parts.clear();
    alarm.storage_lost(ErrorKind::ConnectionReset);
    assert!(disk.kept().is_err(), "what is typed now is not kept yet");
    storage.work();
    assert!(disk.kept().is_ok());
    let again = storage.disk();
    assert_eq!(again.read("a/x").ok().as_deref(), Some(&b"entered"[..]));
}

#[test]
fn a_file_is_found_where_the_piece_of_its_folder_is_gone() {
    let storage = Later::default();
    let disk = storage.disk();
    disk.make_folder("a/c").expect("folders");
    disk.write("a/c/x", b"entered").expect("written");
    storage.work();
    storage
        .shelf()
        .parts
        .retain(|(path, _), _| !path.ends_with('/'));
    let again = storage.disk();
    assert_eq!(again.list("a").expect("its folder"), ["c"]);
    assert_eq!(again.list("a/c").expect("its folder"), ["x"]);
}
