//! What marks, walls and strings are called, how they get another name, and how they go.

use super::menu::choice;
use super::{Desk, Menu, Then};
use crate::job::Job;
use crate::job::edit::{Change, Edit, Thing};
use tautmark_ui::{Page, Place};

/// What people call it: a wall or a string by its name where it has one.
pub(super) fn called(job: &Job, thing: &Thing) -> String {
    let name = match thing {
        Thing::Wall(id) => job
            .walls
            .iter()
            .find(|wall| wall.id == *id)
            .map(|wall| &wall.name),
        Thing::Line(id) => job
            .lines
            .iter()
            .find(|line| line.id == *id)
            .map(|line| &line.name),
        _ => None,
    };
    match name {
        Some(name) if !name.is_empty() => name.clone(),
        _ => thing.name().to_owned(),
    }
}

/// Gives the thing that is being renamed another name, as part of the latest step.
pub(super) fn rename(desk: &mut Desk, text: &str) {
    let name = text.trim();
    let Some(thing) = desk.renaming.clone() else {
        return;
    };
    if name.is_empty() || name == called(desk.saved(), &thing) {
        return;
    }
    if let Some(edit) = with_name(desk.saved(), &thing, name) {
        desk.amend(edit);
        return;
    }
    let to = name.to_owned();
    let edit = Edit::Rename {
        thing: thing.clone(),
        to,
    };
    if desk.amend(edit) {
        desk.renaming = Some(thing.renamed(name));
    }
}

/// The change of a name beside the id, for what has one.
fn with_name(job: &Job, thing: &Thing, name: &str) -> Option<Edit> {
    match thing {
        Thing::Wall(id) => {
            let at = job.walls.iter().position(|wall| wall.id == *id)?;
            let mut value = job.walls[at].clone();
            name.clone_into(&mut value.name);
            Some(Edit::Wall(Change::Replace { at, value }))
        }
        Thing::Line(id) => {
            let at = job.lines.iter().position(|line| line.id == *id)?;
            let mut value = job.lines[at].clone();
            name.clone_into(&mut value.name);
            Some(Edit::Line(Change::Replace { at, value }))
        }
        _ => None,
    }
}

/// Asks what to do with a thing: rename or delete it.
pub(super) fn about(desk: &mut Desk, thing: Thing) -> Then {
    let goes = crate::job::edit::dependents(desk.saved(), &thing).len();
    let with = match goes {
        0 => String::new(),
        n => format!("with {n} that refer to it"),
    };
    let mut rows = vec![choice("delete", "Delete it", with)];
    if !matches!(thing, Thing::Corner(_)) {
        rows.insert(
            0,
            choice("rename", "Rename it", "everything that names it follows"),
        );
    }
    let title = called(desk.saved(), &thing);
    desk.menu = Some(Menu::new(title, rows, move |desk, id| match id {
        "rename" => {
            desk.renaming = Some(thing);
            Then::Open(Page::Settings)
        }
        _ => delete(desk, thing),
    }));
    Then::Stay
}

fn delete(desk: &mut Desk, thing: Thing) -> Then {
    (desk.chosen.reading, desk.chosen.mark) = (None, None);
    let then = match thing {
        Thing::Line(_) | Thing::Corner(_) => Then::Go(Place::Lines),
        _ => Then::Stay,
    };
    desk.change_and_say(Edit::Remove(thing), "Deleted.");
    then
}
