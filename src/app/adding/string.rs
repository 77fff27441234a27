//! A new string: in front of a wall, or through two marks.

use crate::app::desk::{Desk, Menu, Then};
use crate::app::kit::{capital, choices};
use crate::app::names::{front_of, side_of};
use crate::job::edit::{Change, Edit};
use crate::job::model::{Line, Side, Station, Wall};
use crate::job::usual::Usual;
use crate::job::{MarkId, WallId, numbered};
use crate::length;
use crate::setout::usual_side;
use tautmark_ui::Page;

/// Asks what a new string is stretched along.
pub fn ask(desk: &mut Desk) -> Then {
    let job = desk.saved();
    let walls = job.walls.iter();
    let menu = walls.fold(Menu::new("A new string"), |menu, wall| {
        let id = wall.id.clone();
        let between = format!("from {} to {}", wall.from, wall.to);
        match front_of(job, &wall.id) {
            None => menu.row(format!("Along {}", wall.called()), between, |desk| {
                off_wall(desk, id, None)
            }),
            Some(front) => [front, front.other()].into_iter().fold(menu, |menu, side| {
                let (title, id) = (side_of(job, wall, side), id.clone());
                menu.row(capital(&title), &between, move |desk| {
                    off_wall(desk, id, Some(side))
                })
            }),
        }
    });
    let two = job.marks.len() > 1;
    let menu = menu.row_if(two, "Through two marks", "", from_mark);
    if menu.is_empty() {
        return desk
            .say("There is nothing to stretch a string along yet. Add marks and walls first.");
    }
    desk.offer(menu)
}

/// Stretches a string along a wall, as far off it as is usual and with a nail at either end of the wall;
/// on the side where the other marks are, unless a side is given.
pub fn off_wall(desk: &mut Desk, wall: WallId, side: Option<Side>) -> Then {
    let job = desk.saved();
    let Some(there) = job.walls.iter().find(|one| one.id == wall) else {
        return Then::Stay;
    };
    let usual = usual_side(&desk.solution.marks, there);
    let line = Line {
        side: side.or(usual).or(Some(Side::Left)),
        offsets: Some(nails(desk, there)),
        wall: Some(wall),
        ..Line::default()
    };
    put(desk, line);
    Then::Open(Page::Stretch)
}

/// A nail at either end of a wall; one where its length is not known yet.
fn nails(desk: &Desk, wall: &Wall) -> Vec<Station> {
    let unit = desk.saved().show.lengths;
    let off = Usual::of(unit).string;
    let marks = &desk.solution.marks;
    let length = marks.get(&wall.from).zip(marks.get(&wall.to));
    let length = length.map(|(from, to)| (to.x - from.x).hypot(to.y - from.y));
    let places = [Some(0.0), length.map(|mm| length::rounded(mm, unit, 0))];
    let nail = |at: f64| Station {
        at: Some(at),
        off: Some(off),
        ..Station::default()
    };
    places.into_iter().flatten().map(nail).collect()
}

/// Asks for the two marks that a string goes through.
pub fn from_mark(desk: &mut Desk) -> Then {
    let menu = choices::marks(desk, "From which mark?", &[], to_mark);
    desk.offer(menu)
}

fn to_mark(desk: &mut Desk, from: MarkId) -> Then {
    let title = format!("From {from} to which mark?");
    let but = [from.clone()];
    let menu = choices::marks(desk, title, &but, move |desk, to| {
        let marks = Some([from.clone(), to]);
        put(
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

fn put(desk: &mut Desk, line: Line) {
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
