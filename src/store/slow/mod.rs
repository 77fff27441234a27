//! A disk held in memory, in front of a storage that takes its time, such as a browser's.
//!
//! A step is done at once in memory and handed on whole; the storage keeps steps in their order and
//! says later whether it could. When it could not, every further step fails with its reason until
//! the storage has taken the whole tree afresh, so that a person is told and nothing is lost.

mod tree;

pub use tree::FilePiece;

use super::disk::{Disk, DiskLock};
use crate::clock;
use std::collections::BTreeSet;
use std::io::{self, ErrorKind};
use std::sync::{Arc, Mutex, MutexGuard, PoisonError};
use std::time::SystemTime;
use tree::Tree;

/// What is handed to a storage. All of it is kept or none, after all that was handed over before.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum HandedOver {
    /// What one step changed, to be carried out in this order.
    Step(Vec<FilePiece>),
    /// All there is, in place of whatever the storage holds.
    Everything(Vec<FilePiece>),
}

/// Told once, when the storage has kept what it was handed, or why it could not.
pub type Kept = Box<dyn FnOnce(io::Result<()>) + Send>;

/// A storage that keeps pieces of files and says later whether it could.
pub trait Storage: Send + Sync {
    /// Begins to keep this. `kept` may be told before this returns.
    fn keep(&self, handed: HandedOver, kept: Kept);
}

/// The disk in memory. Only one of them may stand before a storage at a time.
pub struct SlowDisk(Arc<Shared>);

/// Tells the disk that its storage has lost what it had kept.
pub struct Alarm(Arc<Shared>);

struct Shared {
    state: Mutex<State>,
    storage: Box<dyn Storage>,
}

#[derive(Default)]
struct State {
    tree: Tree,
    locks: BTreeSet<String>,
    /// Why the storage lags behind the tree.
    failed: Option<ErrorKind>,
    /// The whole tree has been handed over and not answered for.
    mending: bool,
}

struct Held(Arc<Shared>, String);

impl Drop for Held {
    fn drop(&mut self) {
        self.0.state().locks.remove(&self.1);
    }
}

impl Shared {
    /// Each step leaves the state whole, whatever became of the thread that took it.
    fn state(&self) -> MutexGuard<'_, State> {
        self.state.lock().unwrap_or_else(PoisonError::into_inner)
    }
}

impl Alarm {
    /// The storage holds nothing any more, for this reason: the whole tree is handed over at once,
    /// and every step fails until it is kept.
    pub fn storage_lost(&self, why: ErrorKind) {
        self.0.state().failed = Some(why);
        mend(&self.0);
    }
}

/// Hands the whole tree over, unless that has been done and not answered yet.
fn mend(shared: &Arc<Shared>) {
    let mut now = shared.state();
    if std::mem::replace(&mut now.mending, true) {
        return;
    }
    let pieces = now.tree.pieces();
    now.tree.join_parts();
    drop(now);
    let told = Arc::clone(shared);
    let kept = move |said: io::Result<()>| {
        let mut now = told.state();
        now.mending = false;
        now.failed = said.err().map(|error| error.kind());
    };
    shared
        .storage
        .keep(HandedOver::Everything(pieces), Box::new(kept));
}

impl SlowDisk {
    /// The disk that the storage's pieces, in any order, make up.
    #[must_use]
    pub fn of(
        pieces: impl IntoIterator<Item = FilePiece>,
        storage: impl Storage + 'static,
    ) -> Self {
        let state = State {
            tree: Tree::of(pieces),
            ..State::default()
        };
        Self(Arc::new(Shared {
            state: Mutex::new(state),
            storage: Box::new(storage),
        }))
    }

    /// For whoever hears that the storage has been emptied.
    #[must_use]
    pub fn alarm(&self) -> Alarm {
        Alarm(Arc::clone(&self.0))
    }

    fn state(&self) -> MutexGuard<'_, State> {
        self.0.state()
    }

    fn step(&self, what: impl FnOnce(&mut Tree) -> io::Result<Vec<FilePiece>>) -> io::Result<()> {
        self.kept()?;
        let pieces = what(&mut self.state().tree)?;
        let told = Arc::clone(&self.0);
        let kept = move |said: io::Result<()>| {
            if let Err(error) = said {
                told.state().failed = Some(error.kind());
            }
        };
        self.0
            .storage
            .keep(HandedOver::Step(pieces), Box::new(kept));
        Ok(())
    }
}

impl Disk for SlowDisk {
    fn read(&self, path: &str) -> io::Result<Vec<u8>> {
        self.state().tree.read(path)
    }

    fn changed(&self, path: &str) -> io::Result<SystemTime> {
        self.state().tree.changed(path)
    }

    fn write(&self, path: &str, bytes: &[u8]) -> io::Result<()> {
        self.step(|tree| tree.write(path, bytes, clock::now()))
    }

    fn append(&self, path: &str, bytes: &[u8]) -> io::Result<()> {
        self.step(|tree| tree.append(path, bytes, clock::now()))
    }

    fn rename(&self, from: &str, to: &str) -> io::Result<()> {
        self.step(|tree| tree.rename(from, to))
    }

    fn remove(&self, path: &str) -> io::Result<()> {
        self.step(|tree| tree.remove(path))
    }

    fn make_folder(&self, path: &str) -> io::Result<()> {
        self.step(|tree| tree.make_folder(path))
    }

    fn remove_folder(&self, path: &str) -> io::Result<()> {
        self.step(|tree| tree.remove_folder(path))
    }

    fn list(&self, path: &str) -> io::Result<Vec<String>> {
        self.state().tree.list(path)
    }

    fn lock(&self, path: &str) -> io::Result<Option<DiskLock>> {
        let got = self.state().locks.insert(path.to_owned());
        let held = || Box::new(Held(Arc::clone(&self.0), path.to_owned())) as DiskLock;
        Ok(got.then(held))
    }

    fn kept(&self) -> io::Result<()> {
        let Some(kind) = self.state().failed else {
            return Ok(());
        };
        mend(&self.0);
        Err(kind.into())
    }
}
