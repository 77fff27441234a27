//! What can be done with a job of the list: open, rename, copy, go back to how it was, delete.

use super::ago::ago;
use super::jobs::{begin, open, take};
use super::menu::choice;
use super::{Desk, Menu, Then, bin, retitle};
use crate::store::JobKey;
use std::time::SystemTime;
use tautmark_ui::Page;

/// Asks what to do with a job.
pub(super) fn more(desk: &mut Desk, key: &JobKey) -> Then {
    if desk.is_open(key) {
        // What is on the desk may be ahead of its file and of its earlier copies.
        desk.settle();
    }
    let title = title_of(desk, key);
    let earlier = desk.jobs.earlier(key).unwrap_or_default();
    let mut choices = vec![
        choice("open", "Open", ""),
        choice("rename", "Rename", ""),
        choice(
            "settings",
            "Name and settings",
            "unit, accuracy of tape and laser",
        ),
        choice("copy", "Copy", "a second job with the same readings"),
    ];
    if !earlier.is_empty() {
        choices.push(choice(
            "earlier",
            "As it was before",
            "opens an earlier copy as a job of its own",
        ));
    }
    choices.push(choice("delete", "Delete", "it can be taken back"));
    let (key, name) = (key.clone(), title.clone());
    desk.menu = Some(Menu::new(title, choices, move |desk, id| match id {
        "open" => open(desk, &key),
        "rename" => retitle::ask(desk, key, &name),
        "settings" => match open(desk, &key) {
            Then::Stay => Then::Stay,
            _ => Then::Open(Page::Settings),
        },
        "copy" => copy(desk, &key),
        "earlier" => which_earlier(desk, key, &earlier),
        _ => delete(desk, &key),
    }));
    Then::Stay
}

fn title_of(desk: &Desk, key: &JobKey) -> String {
    if desk.is_open(key) {
        return desk.saved().title.clone();
    }
    let entry = desk.jobs.entry(key.clone());
    entry.map_or_else(|| key.to_string(), |entry| entry.title)
}

fn which_earlier(desk: &mut Desk, key: JobKey, all: &[(u32, Option<SystemTime>)]) -> Then {
    let rows = all.iter().map(|(number, when)| {
        let when = when.map_or_else(|| format!("copy {number}"), ago);
        choice(number.to_string(), when, format!("copy {number}"))
    });
    desk.menu = Some(Menu::new("As it was", rows.collect(), move |desk, id| {
        let Ok(number) = id.parse() else {
            return Then::Stay;
        };
        let opened = desk.jobs.start_from_earlier(&key, number);
        take(desk, opened)
    }));
    Then::Stay
}

fn copy(desk: &mut Desk, key: &JobKey) -> Then {
    if desk.is_open(key) {
        // What is on the desk is newer than any file of it may be.
        let mut job = desk.saved().clone();
        job.title = format!("{} (copy)", job.title);
        return begin(desk, job);
    }
    let opened = desk.jobs.copy(key);
    take(desk, opened)
}

fn delete(desk: &mut Desk, key: &JobKey) -> Then {
    let mut unsaved = desk.open.iter().chain(&desk.aside);
    if unsaved.any(|open| open.key() == key && open.trouble().is_some()) {
        let words = desk.unsaved().unwrap_or_default();
        desk.explain("It cannot be deleted now", &words);
        return Then::Stay;
    }
    if desk.is_open(key) {
        desk.put_away();
    }
    match desk.jobs.delete(key) {
        Ok(binned) => {
            let choices = vec![
                choice("back", "Take it back", "puts the job in the list again"),
                choice("gone", "Leave it deleted", "it stays in the bin"),
            ];
            desk.menu = Some(Menu::new("Deleted", choices, move |desk, id| match id {
                "back" => bin::take_back(desk, &binned),
                _ => Then::Stay,
            }));
        }
        Err(why) => desk.say(&why.to_string()),
    }
    Then::Stay
}
