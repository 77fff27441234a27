//! A disk in memory of which any step can be made to fail, in whole or half way.

#![allow(dead_code)] // each test file uses its own part of the disk

use std::collections::{BTreeMap, BTreeSet};
use std::io::{self, ErrorKind};
use std::sync::{Arc, Mutex, MutexGuard};
use std::time::{Duration, SystemTime};
use tautmark::store::{Disk, DiskLock};

/// What a failing step does to the disk before it fails.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Effect {
    Nothing,
    Half,
    All,
}

/// Steps `from..until` (counted from the start) fail.
#[derive(Clone, Copy, Debug)]
pub struct Fault {
    pub from: usize,
    pub until: usize,
    pub kind: ErrorKind,
    pub effect: Effect,
}

#[derive(Default)]
struct State {
    files: BTreeMap<String, (Vec<u8>, u64)>,
    folders: BTreeSet<String>,
    locks: BTreeSet<String>,
    steps: usize,
    fault: Option<Fault>,
}

/// The disk; clones are the same disk.
#[derive(Clone, Default)]
pub struct MemoryDisk(Arc<Mutex<State>>);

struct HeldLock(MemoryDisk, String);

impl Drop for HeldLock {
    fn drop(&mut self) {
        self.0.state().locks.remove(&self.1);
    }
}

impl MemoryDisk {
    fn state(&self) -> MutexGuard<'_, State> {
        self.0
            .lock()
            .expect("no test panics while it holds the disk")
    }

    /// A disk of its own with the same files and no locks: what is there after a power cut.
    pub fn after_power_cut(&self) -> Self {
        let now = self.state();
        let files = now.files.clone();
        let folders = now.folders.clone();
        Self(Arc::new(Mutex::new(State {
            files,
            folders,
            ..State::default()
        })))
    }

    pub fn fail(&self, fault: Option<Fault>) {
        self.state().fault = fault;
    }

    pub fn steps(&self) -> usize {
        self.state().steps
    }

    pub fn paths(&self) -> Vec<String> {
        self.state().files.keys().cloned().collect()
    }

    pub fn bytes(&self, path: &str) -> Option<Vec<u8>> {
        self.state().files.get(path).map(|(bytes, _)| bytes.clone())
    }

    pub fn put(&self, path: &str, bytes: &[u8]) {
        let mut state = self.state();
        add_folders(&mut state, path);
        let time = state.steps as u64;
        state.files.insert(path.to_owned(), (bytes.to_vec(), time));
    }

    pub fn take(&self, path: &str) {
        self.state().files.remove(path);
    }

    /// Counts a step; gives what it may do and then what it says.
    fn step(&self) -> (MutexGuard<'_, State>, Effect, io::Result<()>) {
        let mut state = self.state();
        let step = state.steps;
        state.steps += 1;
        let fault = state.fault.filter(|f| (f.from..f.until).contains(&step));
        match fault {
            Some(fault) => (state, fault.effect, Err(fault.kind.into())),
            None => (state, Effect::All, Ok(())),
        }
    }
}

fn add_folders(state: &mut State, path: &str) {
    for (at, _) in path.match_indices('/') {
        state.folders.insert(path[..at].to_owned());
    }
}

fn parent(path: &str) -> &str {
    path.rsplit_once('/').map_or("", |(parent, _)| parent)
}

fn missing<T>() -> io::Result<T> {
    Err(ErrorKind::NotFound.into())
}

impl Disk for MemoryDisk {
    fn read(&self, path: &str) -> io::Result<Vec<u8>> {
        let (state, _, said) = self.step();
        said?;
        state
            .files
            .get(path)
            .map_or_else(missing, |(bytes, _)| Ok(bytes.clone()))
    }

    fn changed(&self, path: &str) -> io::Result<SystemTime> {
        let (state, _, said) = self.step();
        said?;
        let at = |(_, time): &(Vec<u8>, u64)| SystemTime::UNIX_EPOCH + Duration::from_secs(*time);
        state
            .files
            .get(path)
            .map_or_else(missing, |file| Ok(at(file)))
    }

    fn write(&self, path: &str, bytes: &[u8]) -> io::Result<()> {
        let (mut state, effect, said) = self.step();
        if !state.folders.contains(parent(path)) {
            return missing();
        }
        let time = state.steps as u64;
        let part = match effect {
            Effect::Nothing => return said,
            Effect::Half => &bytes[..bytes.len() / 2],
            Effect::All => bytes,
        };
        state.files.insert(path.to_owned(), (part.to_vec(), time));
        said
    }

    fn append(&self, path: &str, bytes: &[u8]) -> io::Result<()> {
        let (mut state, effect, said) = self.step();
        if !state.folders.contains(parent(path)) {
            return missing();
        }
        let time = state.steps as u64;
        let part = match effect {
            Effect::Nothing => return said,
            Effect::Half => &bytes[..bytes.len() / 2],
            Effect::All => bytes,
        };
        let file = state.files.entry(path.to_owned()).or_default();
        file.0.extend_from_slice(part);
        file.1 = time;
        said
    }

    fn rename(&self, from: &str, to: &str) -> io::Result<()> {
        let (mut state, effect, said) = self.step();
        if effect != Effect::All {
            return said;
        }
        if let Some(file) = state.files.remove(from) {
            state.files.insert(to.to_owned(), file);
            return said;
        }
        if !state.folders.remove(from) {
            return missing();
        }
        let inside = format!("{from}/");
        let moved = |path: &String| {
            path.strip_prefix(&inside)
                .map(|rest| format!("{to}/{rest}"))
        };
        let files = std::mem::take(&mut state.files).into_iter();
        state.files = files
            .map(|(path, file)| (moved(&path).unwrap_or(path), file))
            .collect();
        let folders = std::mem::take(&mut state.folders).into_iter();
        state.folders = folders.map(|path| moved(&path).unwrap_or(path)).collect();
        state.folders.insert(to.to_owned());
        said
    }

    fn remove(&self, path: &str) -> io::Result<()> {
        let (mut state, effect, said) = self.step();
        if effect == Effect::All && state.files.remove(path).is_none() {
            return missing();
        }
        said
    }

    fn make_folder(&self, path: &str) -> io::Result<()> {
        let (mut state, effect, said) = self.step();
        if state.folders.contains(path) {
            return Err(ErrorKind::AlreadyExists.into());
        }
        if effect == Effect::All {
            add_folders(&mut state, path);
            state.folders.insert(path.to_owned());
        }
        said
    }

    fn remove_folder(&self, path: &str) -> io::Result<()> {
        let (mut state, effect, said) = self.step();
        if effect == Effect::All {
            let inside = format!("{path}/");
            state.files.retain(|file, _| !file.starts_with(&inside));
            state
                .folders
                .retain(|folder| folder != path && !folder.starts_with(&inside));
        }
        said
    }

    fn list(&self, path: &str) -> io::Result<Vec<String>> {
        let (state, _, said) = self.step();
        said?;
        if !state.folders.contains(path) {
            return missing();
        }
        let inside = format!("{path}/");
        let all = state.files.keys().chain(&state.folders);
        let names = all.filter_map(|p| p.strip_prefix(&inside)?.split('/').next());
        let names: BTreeSet<_> = names.map(str::to_owned).collect();
        Ok(names.into_iter().collect())
    }

    fn lock(&self, path: &str) -> io::Result<Option<DiskLock>> {
        let (mut state, _, said) = self.step();
        said?;
        let got = state.locks.insert(path.to_owned());
        Ok(got.then(|| Box::new(HeldLock(self.clone(), path.to_owned())) as DiskLock))
    }
}
