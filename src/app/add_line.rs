//! A new string along a wall or through two marks, and a new corner of two strings.

use super::menu::choice;
use super::nail_figure::{NailFigure, NailPart};
use super::{Desk, Menu, Then};
use crate::job::edit::{Change, Edit};
use crate::job::model::{Corner, CornerPost, Line, Side, Station};
use crate::job::{CornerId, Job, LineId};
use tautmark_ui::{Item, Page, Place};

/// Asks what a new string is stretched along.
pub(super) fn string(desk: &mut Desk) -> Then {
    let job = desk.saved();
    let mut choices = Vec::new();
    for (i, wall) in job.walls.iter().enumerate() {
        let name = wall.called();
        let looking = format!("looking from {} to {}", wall.from, wall.to);
        choices.push(choice(
            format!("left {i}"),
            format!("Left of {name}"),
            looking.clone(),
        ));
        choices.push(choice(
            format!("right {i}"),
            format!("Right of {name}"),
            looking,
        ));
    }
    if job.marks.len() > 1 {
        choices.push(choice("marks", "Through two marks", ""));
    }
    if choices.is_empty() {
        desk.say("There is nothing to stretch a string along yet. Add marks and walls first.");
        return Then::Stay;
    }
    desk.menu = Some(Menu::new("A new string", choices, |desk, id| {
        let Some((side, wall)) = id.split_once(' ') else {
            return first_mark(desk);
        };
        let side = if side == "left" {
            Side::Left
        } else {
            Side::Right
        };
        let wall = wall
            .parse()
            .ok()
            .and_then(|i: usize| desk.saved().walls.get(i));
        let Some(wall) = wall.map(|wall| wall.id.clone()) else {
            return Then::Stay;
        };
        let nail = Station {
            at: Some(0.0),
            ..Station::default()
        };
        put_string(
            desk,
            Line {
                wall: Some(wall),
                side: Some(side),
                offsets: Some(vec![nail]),
                ..Line::default()
            },
        );
        let line = desk.chosen.line;
        desk.ask(Box::new(NailFigure {
            line,
            nail: 0,
            part: NailPart::Off,
        }));
        Then::AskAt(Place::Lines, Page::Line)
    }));
    Then::Stay
}

fn first_mark(desk: &mut Desk) -> Then {
    let choices = mark_choices(desk.saved(), None);
    desk.menu = Some(Menu::new("From which mark?", choices, |desk, from| {
        let from = from.to_owned();
        let choices = mark_choices(desk.saved(), Some(&from));
        desk.menu = Some(Menu::new(
            format!("From {from} to which mark?"),
            choices,
            move |desk, to| {
                let marks = Some([from.as_str().into(), to.into()]);
                put_string(
                    desk,
                    Line {
                        marks,
                        ..Line::default()
                    },
                );
                Then::Open(Page::Line)
            },
        ));
        Then::Stay
    }));
    Then::Stay
}

/// The marks of a job to choose from, but for one.
pub(super) fn mark_choices(job: &Job, but: Option<&str>) -> Vec<Item> {
    let marks = job
        .marks
        .iter()
        .filter(|mark| Some(mark.id.as_str()) != but);
    marks
        .map(|mark| choice(mark.id.as_str(), mark.id.as_str(), mark.note.as_str()))
        .collect()
}

fn put_string(desk: &mut Desk, line: Line) {
    let at = desk.saved().lines.len();
    let taken = |id: &LineId| desk.saved().lines.iter().any(|line| line.id == *id);
    let id = (at + 1..)
        .map(|n| LineId::from(format!("string {n}")))
        .find(|id| !taken(id));
    let value = Line {
        id: id.unwrap_or_default(),
        ..line
    };
    if desk.change(Edit::Line(Change::Insert { at, value })) {
        desk.chosen.line = at;
    }
}

/// Asks which two strings cross.
pub(super) fn corner(desk: &mut Desk) -> Then {
    let lines = &desk.saved().lines;
    let mut choices = Vec::new();
    for (i, first) in lines.iter().enumerate() {
        for (k, second) in lines.iter().enumerate().filter(|(k, _)| *k != i) {
            let title = format!("{}, then {}", first.called(), second.called());
            choices.push(choice(
                format!("{i} {k}"),
                title,
                "walking along the first, onto the second",
            ));
        }
    }
    if choices.is_empty() {
        desk.say("A corner needs two strings that cross. Add another string first.");
        return Then::Stay;
    }
    desk.menu = Some(Menu::new("A new corner", choices, |desk, id| {
        let job = desk.saved();
        let line = |text: &str| Some(job.lines.get(text.parse::<usize>().ok()?)?.id.clone());
        let lines = id
            .split_once(' ')
            .and_then(|(a, b)| Some([line(a)?, line(b)?]));
        let Some(lines) = lines else {
            return Then::Stay;
        };
        let at = job.corners.len();
        let taken = |id: &CornerId| job.corners.iter().any(|corner| corner.id == *id);
        let id = (at + 1..)
            .map(|n| CornerId::from(format!("X{n}")))
            .find(|id| !taken(id));
        let value = Corner {
            id: id.unwrap_or_default(),
            lines,
            post: Some(CornerPost::default()),
            ..Corner::default()
        };
        if desk.change(Edit::Corner(Change::Insert { at, value })) {
            desk.chosen.corner = at;
            desk.chosen.diagonal = None;
        }
        Then::Open(Page::Corner)
    }));
    Then::Stay
}
