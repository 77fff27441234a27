//! What a step was, in a person's words, for the undo button.

use super::dependents::dependents;
use super::described::{self, corner, line, mark, marked, point, reading, run, setup, sight, wall};
use super::{Change, Edit, Setting, Thing};
use crate::job::model::{Job, Marked};
use crate::job::reading::Reading;
use crate::length::show;

/// What the edit does to this job, as a short line: “Tape A to C 10 881”. `job` is as it was before.
#[must_use]
pub fn label(job: &Job, edit: &Edit) -> String {
    let unit = job.show.lengths;
    let text = match edit {
        Edit::Set(setting) => set(setting),
        Edit::Mark(c) => changed(c, &job.marks, mark),
        Edit::Wall(c) => changed(c, &job.walls, wall),
        Edit::Reading(c) => taken(c, job),
        Edit::Line(c) => changed(c, &job.lines, line),
        Edit::Corner(c) => changed(c, &job.corners, corner),
        Edit::Run(c) => changed(c, &job.runs, run),
        Edit::Gate { run: at, change } => {
            let entries = job.runs.get(*at).map_or(&[][..], |run| &run.gates);
            changed(change, entries, |gate| described::gate(gate, unit))
        }
        Edit::Pin { run: at, change } => {
            let entries = job.runs.get(*at).map_or(&[][..], |run| &run.pins);
            changed(change, entries, |pin| described::pin(pin, unit))
        }
        Edit::Point(c) => changed(c, &job.levels.points, point),
        Edit::Setup(c) => changed(c, &job.levels.setups, setup),
        Edit::Sight { setup: at, change } => match job.levels.setups.get(*at) {
            Some(from) => changed(change, &from.sights, |s| sight(s, from, unit)),
            None => "sight".to_owned(),
        },
        Edit::Marked(c) => stands(c, job),
        Edit::Rename { thing, to } => {
            format!("rename {} {} to {to}", thing.kind(), thing.name())
        }
        Edit::Remove(thing) => remove(job, thing),
        Edit::Many(edits) | Edit::Restore(edits) => several(job, edits),
    };
    capital(&text)
}

fn set(setting: &Setting) -> String {
    match setting {
        Setting::Title(title) => format!("title “{title}”"),
        Setting::Notes(_) => "notes".to_owned(),
        Setting::Show(_) => "how lengths are shown".to_owned(),
        Setting::Tape(_) => "tape's accuracy".to_owned(),
        Setting::StringLine(_) => "how well nails are set".to_owned(),
        Setting::Laser(_) => "laser's accuracy".to_owned(),
        Setting::Tolerance(_) => "tolerances".to_owned(),
        Setting::Hole(_) => "post holes".to_owned(),
        Setting::Boards(_) => "boards".to_owned(),
        Setting::Stock(_) => "lengths to buy".to_owned(),
        Setting::Datum(Some(datum)) => format!("datum {}", datum.point),
        Setting::Datum(None) => "no datum".to_owned(),
    }
}

/// The value that is there after the change, or the one that goes.
fn changed<T>(change: &Change<T>, list: &[T], what: impl Fn(&T) -> String) -> String {
    match change {
        Change::Insert { value, .. } => format!("add {}", what(value)),
        Change::Replace { value, .. } => what(value),
        Change::Remove { at } => match list.get(*at) {
            Some(value) => format!("delete {}", what(value)),
            None => "delete".to_owned(),
        },
        Change::Move { from, .. } => match list.get(*from) {
            Some(value) => format!("move {}", what(value)),
            None => "move".to_owned(),
        },
    }
}

/// A reading goes in as what it says; leaving it out or using it again is said as such.
fn taken(change: &Change<Reading>, job: &Job) -> String {
    let what = |r: &Reading| reading(r, job.show.lengths);
    match change {
        Change::Insert { value, .. } => what(value),
        Change::Replace { at, value } => match (job.readings.get(*at), value.used) {
            (Some(old), false) if old.used => format!("leave out {}", what(value)),
            (Some(old), true) if !old.used => format!("use {} again", what(value)),
            _ => what(value),
        },
        _ => changed(change, &job.readings, what),
    }
}

/// What became of a post: the first that differs from what was known of it.
fn stands(change: &Change<Marked>, job: &Job) -> String {
    let (old, new) = match change {
        Change::Insert { value, .. } => (None, value),
        Change::Replace { at, value } => (job.marked.get(*at), value),
        Change::Remove { .. } | Change::Move { .. } => return changed(change, &job.marked, marked),
    };
    let fresh = Marked::default();
    let old = old.unwrap_or(&fresh);
    let post = marked(new);
    let figure = |mm: Option<f64>| match mm {
        Some(mm) => format!("{post} measured: {}", show(mm, job.show.lengths)),
        None => format!("{post} not measured"),
    };
    if old.done != new.done {
        let not = if new.done { "" } else { "not " };
        format!("{post} {not}marked")
    } else if old.heights != new.heights {
        let not = if new.heights { "" } else { "not " };
        format!("heights {not}marked on {post}")
    } else if old.cut != new.cut {
        let not = if new.cut { "" } else { "not " };
        format!("{post} {not}cut")
    } else if old.keep != new.keep {
        let way = if new.keep {
            "kept where it stands"
        } else {
            "no longer kept"
        };
        format!("{post} {way}")
    } else if old.off != new.off {
        figure(new.off)
    } else {
        figure(new.measured)
    }
}

fn remove(job: &Job, thing: &Thing) -> String {
    let with = dependents(job, thing).len();
    let name = format!("delete {} {}", thing.kind(), thing.name());
    match with {
        0 => name,
        1 => format!("{name} and 1 thing with it"),
        _ => format!("{name} and {with} things with it"),
    }
}

fn several(job: &Job, edits: &[Edit]) -> String {
    match edits {
        [] => "nothing".to_owned(),
        [one] => label(job, one),
        [first, rest @ ..] => format!("{} and {} more", label(job, first), rest.len()),
    }
}

fn capital(text: &str) -> String {
    let mut letters = text.chars();
    letters.next().map_or_else(String::new, |first| {
        first.to_uppercase().chain(letters).collect()
    })
}
