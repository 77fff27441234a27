//! Points to choose: the datum, the point that carries the level on, and new ones.

use super::figures::ask;
use super::points::datum_height;
use crate::app::desk::{Desk, Menu, Then};
use crate::app::names::place_of;
use crate::job::edit::{Change, Edit, Setting};
use crate::job::model::{Datum, Job, Point};
use crate::job::{MarkId, PointId, free_name};

/// True for the point that heights are counted from.
#[must_use]
pub fn is_datum(job: &Job, id: &PointId) -> bool {
    let datum = job.levels.datum.as_ref();
    datum.is_some_and(|datum| datum.point == *id)
}

/// Adds a point that only its name tells apart, and asks for the sight of it.
pub fn new_peg(desk: &mut Desk, setup: usize) -> Then {
    match add_point(desk, "peg") {
        Some(point) => ask(desk, setup, point),
        None => Then::Stay,
    }
}

/// The first name of this stem that no point has.
pub fn new_point_name(job: &Job, stem: &str) -> PointId {
    let points = job.levels.points.iter();
    free_name(stem, points.map(|point| point.id.as_str())).into()
}

fn add_point(desk: &mut Desk, stem: &str) -> Option<PointId> {
    let value = Point {
        id: new_point_name(desk.saved(), stem),
        ..Point::default()
    };
    put_point(desk, value)
}

fn put_point(desk: &mut Desk, value: Point) -> Option<PointId> {
    let at = desk.saved().levels.points.len();
    let id = value.id.clone();
    desk.change(Edit::Point(Change::Insert { at, value }))
        .then_some(id)
}

/// Asks which point carries the level on from this set-up, and sights it.
pub fn choose_change_point(desk: &mut Desk, setup: usize) -> Then {
    let job = desk.saved();
    let points = job.levels.points.iter();
    let points = points.filter(|point| !is_datum(job, &point.id));
    let menu = points.fold(Menu::new("Change point"), |menu, point| {
        let id = point.id.clone();
        menu.row(point.id.as_str(), place_of(job, point), move |desk| {
            ask(desk, setup, id)
        })
    });
    let menu = menu.row("New fixed point", "a peg or a nail", move |desk| {
        new_peg(desk, setup)
    });
    desk.offer(menu)
}

/// Chooses the datum, or says its height.
pub fn datum(desk: &mut Desk) -> Then {
    if desk.saved().levels.datum.is_none() {
        return choose_datum(desk, None);
    }
    let menu = Menu::new("The datum")
        .row("Its height", "what the datum counts as", |desk| {
            desk.ask(datum_height())
        })
        .row("Another point", "", |desk| choose_datum(desk, None));
    desk.offer(menu)
}

/// Asks which point is the datum, points that are there and the marks that are no point yet, and then
/// for the sight of it from a set-up.
pub fn choose_datum(desk: &mut Desk, sight_from: Option<usize>) -> Then {
    let job = desk.saved();
    let points = job.levels.points.iter();
    let menu = Menu::new("What heights are counted from");
    let menu = points.clone().fold(menu, |menu, point| {
        let id = point.id.clone();
        menu.row(point.id.as_str(), place_of(job, point), move |desk| {
            make_datum_and_sight(desk, Some(id), sight_from)
        })
    });
    let is_point = |id: &MarkId| points.clone().any(|point| point.mark.as_ref() == Some(id));
    let marks = job.marks.iter().filter(|mark| !is_point(&mark.id));
    let menu = marks.fold(menu, |menu, mark| {
        let id = mark.id.clone();
        menu.row(format!("Mark {}", mark.id), "", move |desk| {
            let point = add_mark_point(desk, id);
            make_datum_and_sight(desk, point, sight_from)
        })
    });
    let menu = menu.row(
        "New fixed point",
        "a nail that will not move",
        move |desk| {
            let point = add_point(desk, "nail");
            make_datum_and_sight(desk, point, sight_from)
        },
    );
    desk.offer(menu)
}

fn make_datum_and_sight(
    desk: &mut Desk,
    point: Option<PointId>,
    sight_from: Option<usize>,
) -> Then {
    let Some(point) = point else {
        return Then::Stay;
    };
    make_datum(desk, point.clone());
    sight_from.map_or(Then::Stay, |setup| ask(desk, setup, point))
}

/// A point at a mark, called as the mark is where that name is free.
fn add_mark_point(desk: &mut Desk, mark: MarkId) -> Option<PointId> {
    let points = &desk.saved().levels.points;
    let names = points.iter().map(|point| point.id.as_str());
    let name = if names.clone().any(|name| name == mark.as_str()) {
        free_name(mark.as_str(), names)
    } else {
        mark.to_string()
    };
    let value = Point {
        id: PointId::from(name),
        mark: Some(mark),
        ..Point::default()
    };
    put_point(desk, value)
}

/// Counts heights from this point.
pub fn make_datum(desk: &mut Desk, point: PointId) {
    let there = desk.saved().levels.datum.clone().unwrap_or_default();
    let datum = Datum { point, ..there };
    desk.change(Edit::Set(Setting::Datum(Some(datum))));
}
