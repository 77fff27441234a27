//! What can be done with a job of the list: open, rename, copy, go back to how it was, delete.

use super::ago::ago;
use super::open::{begin, open, take};
use super::{bin, title};
use crate::app::desk::{Desk, Menu, Then};
use crate::store::JobKey;
use std::time::SystemTime;
use tautmark_ui::Page;

/// Asks what to do with a job.
pub fn more(desk: &mut Desk, key: &JobKey) -> Then {
    if desk.is_open(key) {
        // What is on the desk may be ahead of its file and of its earlier copies.
        desk.settle();
    }
    let name = title_of(desk, key);
    let earlier = desk.jobs.earlier(key).unwrap_or_default();
    let of = || key.clone();
    let (opened, renamed, set, copied, before, deleted) = (of(), of(), of(), of(), of(), of());
    let menu = Menu::new(&name)
        .row("Open", "", move |desk| open(desk, &opened))
        .row("Rename", "", move |desk| title::ask(desk, renamed, &name))
        .row(
            "Name and settings",
            "unit, accuracy of tape and laser",
            move |desk| match open(desk, &set) {
                Then::Stay => Then::Stay,
                _ => Then::Open(Page::Settings),
            },
        )
        .row("Copy", "a second job with the same readings", move |desk| {
            copy(desk, &copied)
        })
        .row_if(
            !earlier.is_empty(),
            "As it was before",
            "opens an earlier copy as a job of its own",
            move |desk| which_earlier(desk, &before, &earlier),
        )
        .row("Delete", "it can be taken back", move |desk| {
            bin::delete(desk, &deleted)
        });
    desk.offer(menu)
}

fn title_of(desk: &Desk, key: &JobKey) -> String {
    if desk.is_open(key) {
        return desk.saved().title.clone();
    }
    let entry = desk.jobs.entry(key.clone());
    entry.map_or_else(|| key.to_string(), |entry| entry.title)
}

fn which_earlier(desk: &mut Desk, key: &JobKey, all: &[(u32, Option<SystemTime>)]) -> Then {
    let menu = all
        .iter()
        .fold(Menu::new("As it was"), |menu, &(number, when)| {
            let copy = format!("copy {number}");
            let key = key.clone();
            menu.row(when.map_or_else(|| copy.clone(), ago), &copy, move |desk| {
                let opened = desk.jobs.start_from_earlier(&key, number);
                take(desk, opened)
            })
        });
    desk.offer(menu)
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
