//! Files and folders held in memory, and the pieces of them that a slower storage keeps.

use std::collections::{BTreeMap, BTreeSet};
use std::io::{self, ErrorKind};
use std::time::SystemTime;

/// What a storage keeps of a tree, or drops. A folder's path ends in `/`.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum FilePiece {
    /// The bytes of one part of a file, parts counted from 0; a folder is one part without bytes.
    Part {
        /// Of the file, or of the folder with a `/` at its end.
        path: String,
        /// Which part, from 0.
        part: u32,
        /// What is in it.
        bytes: Vec<u8>,
        /// When the file was last changed.
        changed: SystemTime,
    },
    /// Every part of the file or folder goes.
    Gone {
        /// Of the file, or of the folder with a `/` at its end.
        path: String,
    },
}

struct File {
    bytes: Vec<u8>,
    parts: u32,
    changed: SystemTime,
}

/// All that a disk holds.
#[derive(Default)]
pub(super) struct Tree {
    files: BTreeMap<String, File>,
    folders: BTreeSet<String>,
}

fn missing<T>() -> io::Result<T> {
    Err(ErrorKind::NotFound.into())
}

fn whole(path: &str, bytes: &[u8], changed: SystemTime) -> FilePiece {
    FilePiece::Part {
        path: path.to_owned(),
        part: 0,
        bytes: bytes.to_vec(),
        changed,
    }
}

fn folder(path: &str) -> FilePiece {
    whole(&format!("{path}/"), &[], SystemTime::UNIX_EPOCH)
}

fn gone(path: impl Into<String>) -> FilePiece {
    FilePiece::Gone { path: path.into() }
}

fn parent(path: &str) -> &str {
    path.rsplit_once('/').map_or("", |(parent, _)| parent)
}

impl Tree {
    /// The tree that these pieces, in any order, make up. A part whose earlier one is missing ends
    /// its file: what follows a gap is worth nothing. A file is in its folder even where the
    /// folder's own piece is missing.
    pub(super) fn of(pieces: impl IntoIterator<Item = FilePiece>) -> Self {
        let mut tree = Self::default();
        let mut parts = BTreeMap::new();
        for piece in pieces {
            if let FilePiece::Part {
                path,
                part,
                bytes,
                changed,
            } = piece
            {
                parts.insert((path, part), (bytes, changed));
            }
        }
        for ((path, part), (bytes, changed)) in parts {
            match path.strip_suffix('/') {
                Some(folder) => _ = tree.folders.insert(folder.to_owned()),
                None => {
                    tree.add_folders_above(&path);
                    tree.put_part(path, part, &bytes, changed);
                }
            }
        }
        tree
    }

    fn add_folders_above(&mut self, path: &str) {
        let above = path.match_indices('/').map(|(at, _)| path[..at].to_owned());
        self.folders.extend(above);
    }

    fn put_part(&mut self, path: String, part: u32, bytes: &[u8], changed: SystemTime) {
        let file = self.files.entry(path).or_insert(File {
            bytes: Vec::new(),
            parts: 0,
            changed,
        });
        if file.parts == part {
            file.bytes.extend_from_slice(bytes);
            file.parts += 1;
            file.changed = file.changed.max(changed);
        }
    }

    /// The pieces that make up the whole tree.
    pub(super) fn pieces(&self) -> Vec<FilePiece> {
        let files = self.files.iter();
        let files = files.map(|(path, file)| whole(path, &file.bytes, file.changed));
        let folders = self.folders.iter().map(|path| folder(path));
        folders.chain(files).collect()
    }

    /// From here on every file is one part, as [`Tree::pieces`] gave it.
    pub(super) fn join_parts(&mut self) {
        for file in self.files.values_mut() {
            file.parts = 1;
        }
    }

    pub(super) fn read(&self, path: &str) -> io::Result<Vec<u8>> {
        let found = self.files.get(path);
        found.map_or_else(missing, |file| Ok(file.bytes.clone()))
    }

    pub(super) fn changed(&self, path: &str) -> io::Result<SystemTime> {
        let found = self.files.get(path);
        found.map_or_else(missing, |file| Ok(file.changed))
    }

    pub(super) fn list(&self, path: &str) -> io::Result<Vec<String>> {
        if !self.folders.contains(path) {
            return missing();
        }
        let inside = format!("{path}/");
        let all = self.files.keys().chain(&self.folders);
        let names = all.filter_map(|path| path.strip_prefix(&inside)?.split('/').next());
        let names: BTreeSet<_> = names.collect();
        Ok(names.into_iter().map(str::to_owned).collect())
    }

    fn has_parent(&self, path: &str) -> bool {
        let parent = parent(path);
        parent.is_empty() || self.folders.contains(parent)
    }

    pub(super) fn write(
        &mut self,
        path: &str,
        bytes: &[u8],
        now: SystemTime,
    ) -> io::Result<Vec<FilePiece>> {
        if !self.has_parent(path) {
            return missing();
        }
        let file = File {
            bytes: bytes.to_vec(),
            parts: 1,
            changed: now,
        };
        self.files.insert(path.to_owned(), file);
        Ok(vec![gone(path), whole(path, bytes, now)])
    }

    pub(super) fn append(
        &mut self,
        path: &str,
        bytes: &[u8],
        now: SystemTime,
    ) -> io::Result<Vec<FilePiece>> {
        let Some(file) = self.files.get_mut(path) else {
            return self.write(path, bytes, now);
        };
        let part = file.parts;
        file.bytes.extend_from_slice(bytes);
        file.parts += 1;
        file.changed = now;
        Ok(vec![FilePiece::Part {
            path: path.to_owned(),
            part,
            bytes: bytes.to_vec(),
            changed: now,
        }])
    }

    pub(super) fn rename(&mut self, from: &str, to: &str) -> io::Result<Vec<FilePiece>> {
        if !self.has_parent(to) {
            return missing();
        }
        if self.files.contains_key(from) {
            return Ok(self.rename_file(from, to));
        }
        if !self.folders.remove(from) {
            return missing();
        }
        self.folders.insert(to.to_owned());
        let mut pieces = vec![gone(format!("{from}/")), folder(to)];
        let inside = format!("{from}/");
        let moved = |path: &String| {
            let rest = path.strip_prefix(&inside)?;
            Some((path.clone(), format!("{to}/{rest}")))
        };
        let folders: Vec<_> = self.folders.iter().filter_map(moved).collect();
        for (old, new) in folders {
            self.folders.remove(&old);
            pieces.extend([gone(format!("{old}/")), folder(&new)]);
            self.folders.insert(new);
        }
        let files: Vec<_> = self.files.keys().filter_map(moved).collect();
        for (old, new) in files {
            pieces.extend(self.rename_file(&old, &new));
        }
        Ok(pieces)
    }

    fn rename_file(&mut self, from: &str, to: &str) -> Vec<FilePiece> {
        let Some(mut file) = self.files.remove(from) else {
            return Vec::new();
        };
        file.parts = 1;
        let piece = whole(to, &file.bytes, file.changed);
        self.files.insert(to.to_owned(), file);
        vec![gone(from), gone(to), piece]
    }

    pub(super) fn remove(&mut self, path: &str) -> io::Result<Vec<FilePiece>> {
        match self.files.remove(path) {
            Some(_) => Ok(vec![gone(path)]),
            None => missing(),
        }
    }

    pub(super) fn make_folder(&mut self, path: &str) -> io::Result<Vec<FilePiece>> {
        if self.folders.contains(path) || self.files.contains_key(path) {
            return Err(ErrorKind::AlreadyExists.into());
        }
        let above = path.match_indices('/').map(|(at, _)| &path[..at]);
        let new = above
            .chain([path])
            .filter(|path| self.folders.insert((*path).to_owned()));
        Ok(new.map(folder).collect())
    }

    pub(super) fn remove_folder(&mut self, path: &str) -> io::Result<Vec<FilePiece>> {
        if !self.folders.remove(path) {
            return missing();
        }
        let inside = format!("{path}/");
        let mut pieces = vec![gone(inside.clone())];
        self.files.retain(|file, _| {
            let goes = file.starts_with(&inside);
            if goes {
                pieces.push(gone(file.as_str()));
            }
            !goes
        });
        self.folders.retain(|folder| {
            let goes = folder.starts_with(&inside);
            if goes {
                pieces.push(gone(format!("{folder}/")));
            }
            !goes
        });
        Ok(pieces)
    }
}
