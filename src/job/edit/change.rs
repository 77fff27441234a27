//! A change to one list of the job.

use super::EditError;
use super::thing::ListItem;
use serde::{Deserialize, Serialize};

/// A change to one list; places count from 0.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(rename_all = "lowercase")]
pub enum Change<T> {
    /// Puts a new entry before the one at this place (at the list's length: at the end).
    Insert {
        /// From 0, to the list's length.
        at: usize,
        /// The new entry.
        value: T,
    },
    /// Another value for the entry. A new name leaves what refers to the old one as it is;
    /// [`super::Edit::Rename`] takes that along.
    Replace {
        /// The entry that is replaced.
        at: usize,
        /// What takes its place.
        value: T,
    },
    /// Takes the entry out.
    Remove {
        /// The entry that goes.
        at: usize,
    },
    /// Takes the entry out and puts it in again so that it ends at place `to`.
    Move {
        /// Where it is now.
        from: usize,
        /// Where it is afterwards.
        to: usize,
    },
}

impl<T> Change<T> {
    /// The place it is about, after the change.
    #[must_use]
    pub fn place(&self) -> usize {
        match self {
            Change::Insert { at, .. } | Change::Replace { at, .. } | Change::Remove { at } => *at,
            Change::Move { to, .. } => *to,
        }
    }
}

/// Whether the names in a change are looked at, or taken as they were.
#[derive(Clone, Copy, PartialEq, Eq)]
pub(super) enum NameCheck {
    Checked,
    AsTheyWere,
}

/// Changes the list and gives the way back.
pub(super) fn change<T: ListItem>(
    list: &mut Vec<T>,
    change: &Change<T>,
    names: NameCheck,
) -> Result<Change<T>, EditError> {
    match change {
        Change::Insert { at, value } => {
            if *at > list.len() {
                return Err(no_place::<T>(*at));
            }
            if names == NameCheck::Checked {
                free(list, value, None)?;
            }
            list.insert(*at, value.clone());
            Ok(Change::Remove { at: *at })
        }
        Change::Replace { at, value } => {
            let old = list.get(*at).ok_or_else(|| no_place::<T>(*at))?;
            if names == NameCheck::Checked && old.name() != value.name() {
                free(list, value, Some(*at))?;
            }
            let slot = list.get_mut(*at).ok_or_else(|| no_place::<T>(*at))?;
            let value = std::mem::replace(slot, value.clone());
            Ok(Change::Replace { at: *at, value })
        }
        Change::Remove { at } => {
            if *at >= list.len() {
                return Err(no_place::<T>(*at));
            }
            let value = list.remove(*at);
            Ok(Change::Insert { at: *at, value })
        }
        Change::Move { from, to } => {
            for place in [from, to] {
                if *place >= list.len() {
                    return Err(no_place::<T>(*place));
                }
            }
            let value = list.remove(*from);
            list.insert(*to, value);
            Ok(Change::Move {
                from: *to,
                to: *from,
            })
        }
    }
}

/// Refuses an empty name and one that another entry has.
fn free<T: ListItem>(list: &[T], value: &T, own: Option<usize>) -> Result<(), EditError> {
    let Some(name) = value.name() else {
        return Ok(());
    };
    let kind = T::KIND;
    if name.is_empty() {
        return Err(EditError::Nameless { kind });
    }
    let taken = |(i, other): (usize, &T)| Some(i) != own && other.name() == Some(name);
    if list.iter().enumerate().any(taken) {
        return Err(EditError::Taken {
            kind,
            name: name.to_owned(),
        });
    }
    Ok(())
}

fn no_place<T: ListItem>(at: usize) -> EditError {
    EditError::NoPlace {
        kind: T::KIND,
        number: at.saturating_add(1),
    }
}
