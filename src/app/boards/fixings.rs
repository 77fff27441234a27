//! Bolts on a wall, screws, and the strip to clear before digging.

use super::figures::size;
use crate::app::desk::FigureKind;
use crate::app::kit::{FormRow, KeypadFigure, Slot, heading};
use crate::job::model::{Clearing, Fixings, Foot, Job, WallBolts};

fn of_bolts(label: &str, slot: fn(&mut WallBolts) -> &mut dyn Slot) -> KeypadFigure {
    size(label, move |boards| {
        Some(slot(&mut boards.fixings.get_or_insert_default().wall))
    })
    .told_at("boards.fixings")
}

fn of_screws(label: &str, slot: fn(&mut Fixings) -> &mut u32) -> KeypadFigure {
    let screws = size(label, move |boards| {
        Some(slot(boards.fixings.get_or_insert_default()) as &mut dyn Slot)
    });
    screws.of_kind(FigureKind::Count).told_at("boards.fixings")
}

fn of_strip(label: &str, slot: fn(&mut Clearing) -> &mut f64) -> KeypadFigure {
    let strip = size(label, move |boards| {
        Some(slot(boards.clear.get_or_insert_default()) as &mut dyn Slot)
    });
    strip.told_at("boards.clear")
}

/// Bolts where a post is on a wall; screws and the strip for every job.
pub fn rows(job: &Job) -> Vec<FormRow> {
    let mut rows = Vec::new();
    let on_wall = |foot: Option<Foot>| foot == Some(Foot::Wall);
    let mut ends = job
        .runs
        .iter()
        .flat_map(|run| [&run.start, &run.end])
        .flatten();
    if ends.any(|end| on_wall(end.foot)) {
        rows.push(heading("Bolts on a wall"));
        rows.extend(bolts().map(|figure| figure.row(job)));
    }
    rows.push(heading("Screws"));
    rows.extend(screws().map(|figure| figure.row(job)));
    rows.push(heading("Strip to clear before digging"));
    rows.extend(strip().map(|figure| figure.row(job)));
    rows
}

fn bolts() -> [KeypadFigure; 5] {
    [
        of_bolts("From each end of the post", |wall| &mut wall.ends),
        of_bolts("Farthest between two", |wall| &mut wall.most),
        of_bolts("Clear of a notch", |wall| &mut wall.clear),
        of_bolts("Head sunk into the post", |wall| &mut wall.counterbore)
            .noted("depth of the counterbore; leave it where the head stands proud"),
        of_bolts("Depth in the wall", |wall| &mut wall.embed)
            .noted("from the fixing’s own sheet; the bolt’s length follows"),
    ]
}

fn screws() -> [KeypadFigure; 3] {
    [
        of_screws("To a pale and rail", |fixings| &mut fixings.pale),
        of_screws("To a rail’s end", |fixings| &mut fixings.rail),
        of_screws("To a gravel board’s end", |fixings| &mut fixings.gravel),
    ]
}

fn strip() -> [KeypadFigure; 3] {
    [
        of_strip("Width of the strip", |clear| &mut clear.width),
        of_strip("Turf or slabs, thickness", |clear| &mut clear.depth)
            .noted("0 where nothing is taken up"),
        of_strip("Dug ground swells to", |clear| &mut clear.bulk)
            .of_kind(FigureKind::Number("times"))
            .noted("its room in place"),
    ]
}
