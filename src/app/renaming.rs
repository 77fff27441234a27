//! How marks, walls and strings get another name, and how they go.

use crate::app::desk::{Desk, Menu, Then};
use crate::app::kit::{capital, counted};
use crate::app::names::thing_called;
use crate::job::Job;
use crate::job::edit::{Change, Edit, Fate, Thing, dependents};
use tautmark_ui::{Page, Place};

/// Gives the thing that is being renamed another name, as part of the latest step.
pub fn rename(desk: &mut Desk, text: &str) -> Then {
    let name = text.trim();
    let Some(thing) = desk.renaming.clone() else {
        return Then::Stay;
    };
    if name.is_empty() || name == thing_called(desk.saved(), &thing) {
        return Then::Stay;
    }
    if let Some(edit) = with_name(desk.saved(), &thing, name) {
        desk.amend(edit);
        return Then::Stay;
    }
    let to = name.to_owned();
    let edit = Edit::Rename {
        thing: thing.clone(),
        to,
    };
    if desk.amend(edit) {
        desk.renaming = Some(thing.renamed(name));
    }
    Then::Stay
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

/// Asks for another name of a thing.
pub fn ask(desk: &mut Desk, thing: Thing) -> Then {
    desk.renaming = Some(thing);
    Then::Open(Page::Settings)
}

/// Asks what to do with a thing: rename or delete it.
pub fn about(desk: &mut Desk, thing: Thing) -> Then {
    let with = match dependents(desk.saved(), &thing).len() {
        0 => String::new(),
        n => format!(
            "with {}",
            counted(n, "thing that uses it", "things that use it")
        ),
    };
    let named = !matches!(thing, Thing::Corner(_));
    let other = thing.clone();
    let follows = "everything that uses it keeps working";
    let menu = Menu::new(thing_called(desk.saved(), &thing))
        .row_if(named, "Rename it", follows, |desk| ask(desk, other))
        .row("Delete it", with, |desk| delete(desk, thing, gone));
    desk.offer(menu)
}

/// Nothing that is gone is looked at any more.
fn gone(desk: &mut Desk, thing: &Thing) -> Then {
    (desk.chosen.reading, desk.chosen.mark) = (None, None);
    match thing {
        Thing::Line(_) | Thing::Corner(_) => Then::Go(Place::Lines),
        _ => Then::Stay,
    }
}

/// Deletes a thing. Where others go with it, or then wait for another, they are listed before.
pub fn delete(
    desk: &mut Desk,
    thing: Thing,
    then: impl FnOnce(&mut Desk, &Thing) -> Then + 'static,
) -> Then {
    let touched = dependents(desk.saved(), &thing);
    let does = move |desk: &mut Desk, thing: Thing| {
        if desk.change(Edit::Remove(thing.clone())) {
            let then = then(desk, &thing);
            desk.say_undoable("Deleted.");
            return then;
        }
        Then::Stay
    };
    if touched.is_empty() {
        return does(desk, thing);
    }
    let title = format!("Delete {}?", thing_called(desk.saved(), &thing));
    let list = |fate: Fate| {
        let those = touched.iter().filter(|one| one.fate == fate);
        those.map(|one| capital(&one.what)).collect::<Vec<_>>()
    };
    let parts = [
        ("Goes too:", list(Fate::Goes)),
        ("Stays, but needs another:", list(Fate::AsksAgain)),
    ];
    let parts = parts.into_iter().filter(|(_, those)| !those.is_empty());
    let parts = parts.map(|(what, those)| format!("**{what}** {}.", those.join("; ")));
    let text = parts.collect::<Vec<_>>().join("\n\n");
    desk.ask_first(title, text, "Delete all of it", move |desk| {
        does(desk, thing)
    })
}
