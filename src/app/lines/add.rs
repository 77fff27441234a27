//! A new string along a wall or through two marks, and a new corner of two strings.

use super::nail;
use crate::app::desk::{Desk, Menu, Then};
use crate::app::kit::choices;
use crate::job::edit::{Change, Edit};
use crate::job::model::{Corner, CornerPost, Line, Side, Station};
use crate::job::{LineId, MarkId, WallId, numbered};
use tautmark_ui::Page;

/// Asks what a new string is stretched along.
pub fn string(desk: &mut Desk) -> Then {
    let job = desk.saved();
    let walls = job.walls.iter();
    let menu = walls.fold(Menu::new("A new string"), |menu, wall| {
        let name = wall.called();
        let looking = format!("looking from {} to {}", wall.from, wall.to);
        let (left, right) = (wall.id.clone(), wall.id.clone());
        menu.row(format!("Left of {name}"), &looking, |desk| {
            off_wall(desk, left, Side::Left)
        })
        .row(format!("Right of {name}"), &looking, |desk| {
            off_wall(desk, right, Side::Right)
        })
    });
    let two = job.marks.len() > 1;
    let menu = menu.row_if(two, "Through two marks", "", first_mark);
    if menu.is_empty() {
        return desk
            .say("There is nothing to stretch a string along yet. Add marks and walls first.");
    }
    desk.offer(menu)
}

fn off_wall(desk: &mut Desk, wall: WallId, side: Side) -> Then {
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
    desk.ask(nail::off_wall(line, 0));
    Then::Ask(Page::Line)
}

fn first_mark(desk: &mut Desk) -> Then {
    let menu = choices::marks(desk, "From which mark?", &[], second_mark);
    desk.offer(menu)
}

fn second_mark(desk: &mut Desk, from: MarkId) -> Then {
    let title = format!("From {from} to which mark?");
    let but = [from.clone()];
    let menu = choices::marks(desk, title, &but, move |desk, to| {
        let marks = Some([from.clone(), to]);
        put_string(
            desk,
            Line {
                marks,
                ..Line::default()
            },
        );
        Then::Open(Page::Line)
    });
    desk.offer(menu)
}

fn put_string(desk: &mut Desk, line: Line) {
    let lines = &desk.saved().lines;
    let at = lines.len();
    let id = numbered("string ", at + 1, lines.iter().map(|line| line.id.as_str()));
    let value = Line {
        id: id.into(),
        ..line
    };
    if desk.change(Edit::Line(Change::Insert { at, value })) {
        desk.chosen.line = at;
    }
}

/// Asks which two strings cross.
pub fn corner(desk: &mut Desk) -> Then {
    let lines = &desk.saved().lines;
    let mut menu = Menu::new("A new corner");
    for first in lines {
        for second in lines.iter().filter(|second| second.id != first.id) {
            let title = format!("{}, then {}", first.called(), second.called());
            let ids = [first.id.clone(), second.id.clone()];
            menu = menu.row(title, "walking along the first, onto the second", |desk| {
                put_corner(desk, ids)
            });
        }
    }
    if menu.is_empty() {
        return desk.say("A corner needs two strings that cross. Add another string first.");
    }
    desk.offer(menu)
}

fn put_corner(desk: &mut Desk, lines: [LineId; 2]) -> Then {
    let corners = &desk.saved().corners;
    let at = corners.len();
    let id = numbered("X", at + 1, corners.iter().map(|corner| corner.id.as_str()));
    let value = Corner {
        id: id.into(),
        lines,
        post: Some(CornerPost::default()),
        ..Corner::default()
    };
    if desk.change(Edit::Corner(Change::Insert { at, value })) {
        desk.chosen.corner = at;
    }
    Then::Open(Page::Corner)
}
