//! What can be chosen in Levels: a point to sight, a datum, and what to do with a thing that is
//! there.

use super::Menu;
use super::level_names::{free_name, place_of, run_called};
use super::level_status::use_sight;
use super::menu::choice;
use super::point_figure::{DatumHeight, NewGround};
use super::sight::{SightDist, SightDown, ask, sight as sight_at};
use super::{Desk, Then, caution, heights};
use crate::cautions::LASER;
use crate::job::PointId;
use crate::job::edit::{Change, Edit, Setting, Thing};
use crate::job::model::{Datum, Job, Point, Setup};
use tautmark_ui::Item;

fn offer(
    desk: &mut Desk,
    title: &str,
    rows: Vec<Item>,
    pick: impl FnOnce(&mut Desk, &str) -> Then + 'static,
) -> Then {
    desk.menu = Some(Menu::new(title, rows, pick));
    Then::Stay
}

/// Puts the laser down at a new place; it is the set-up in sight from now on.
pub(super) fn new_setup(desk: &mut Desk) -> Then {
    if add_setup(desk) {
        caution::once(desk, &LASER);
    }
    Then::Stay
}

/// Adds a set-up at the end of the list and looks at it; false where nothing can be changed.
pub(super) fn add_setup(desk: &mut Desk) -> bool {
    let setups = &desk.saved().levels.setups;
    let at = setups.len();
    let name = free_name("S", setups.iter().map(|setup| setup.id.as_str()));
    let value = Setup {
        id: name.as_str().into(),
        ..Setup::default()
    };
    let done = desk.change(Edit::Setup(Change::Insert { at, value }));
    if done {
        desk.chosen.setup = at;
    }
    done
}

/// Asks which point to sight from the set-up in sight.
pub(super) fn add_sight(desk: &mut Desk) -> Then {
    if desk.saved().levels.setups.is_empty() && !add_setup(desk) {
        return Then::Stay;
    }
    let last = desk.saved().levels.setups.len() - 1;
    let setup = desk.chosen.setup.min(last);
    desk.chosen.setup = setup;
    let Some(there) = desk.saved().levels.setups.get(setup) else {
        return Then::Stay;
    };
    let title = format!("Sight from set-up {}", there.id);
    let datum = desk.saved().levels.datum.is_none();
    let datum = datum.then(|| choice("datum", "The datum", "what every height is counted from"));
    let points = points_to_sight(desk.saved(), setup);
    let rows = datum.into_iter().chain(points).collect();
    offer(desk, &title, rows, move |desk, id| {
        sight_what(desk, setup, id)
    })
}

/// Points not sighted from this set-up: the datum, then what other set-ups saw, then the rest; and
/// new ones.
fn points_to_sight(job: &Job, setup: usize) -> Vec<Item> {
    let levels = &job.levels;
    let sees = |setup: &Setup, id: &PointId| setup.sights.iter().any(|one| one.point == *id);
    let is_datum = |id: &PointId| levels.datum.as_ref().is_some_and(|d| d.point == *id);
    let here = levels.setups.get(setup);
    let mut points: Vec<(u8, Item)> = levels
        .points
        .iter()
        .filter(|point| !here.is_some_and(|here| sees(here, &point.id)))
        .map(|point| {
            let elsewhere = levels.setups.iter().any(|one| sees(one, &point.id));
            let (order, what) = match (is_datum(&point.id), elsewhere) {
                (true, _) => (0, "the datum"),
                (false, true) => (1, "sighted from another set-up"),
                (false, false) => (2, "not sighted yet"),
            };
            let place = place_of(job, point);
            let note = if place.is_empty() {
                what.to_owned()
            } else {
                format!("{what}; {place}")
            };
            let id = format!("point {}", point.id);
            (order, choice(&id, point.id.as_str(), &note))
        })
        .collect();
    points.sort_by_key(|(order, _)| *order);
    let ground = job.runs.iter().map(|run| {
        let title = format!("New ground point on {}", run_called(job, &run.id));
        choice(
            format!("ground {}", run.id),
            &title,
            "by its running reading",
        )
    });
    let other = choice(
        "other",
        "New fixed point",
        "a peg or a nail, to carry the level",
    );
    let points = points.into_iter().map(|(_, item)| item);
    points.chain(ground).chain([other]).collect()
}

fn sight_what(desk: &mut Desk, setup: usize, id: &str) -> Then {
    let (kind, rest) = id.split_once(' ').unwrap_or((id, ""));
    match kind {
        "point" => ask(desk, setup, rest.into()),
        "datum" => choose_datum(desk, Some(setup)),
        "ground" => {
            let point = new_point_name(desk.saved(), "g");
            let run = rest.into();
            desk.ask(Box::new(NewGround { run, point, setup }));
            Then::Keypad
        }
        _ => match add_point(desk, "peg") {
            Some(point) => ask(desk, setup, point),
            None => Then::Stay,
        },
    }
}

fn new_point_name(job: &Job, stem: &str) -> PointId {
    let points = job.levels.points.iter();
    free_name(stem, points.map(|point| point.id.as_str())).into()
}

/// Adds a point that only its name tells apart.
pub(super) fn add_point(desk: &mut Desk, stem: &str) -> Option<PointId> {
    let id = new_point_name(desk.saved(), stem);
    let at = desk.saved().levels.points.len();
    let value = Point {
        id: id.clone(),
        ..Point::default()
    };
    desk.change(Edit::Point(Change::Insert { at, value }))
        .then_some(id)
}

/// Asks which point carries the level on from this set-up, and sights it.
pub(super) fn choose_change_point(desk: &mut Desk, setup: usize) -> Then {
    let job = desk.saved();
    let is_datum = |id: &PointId| job.levels.datum.as_ref().is_some_and(|d| d.point == *id);
    let points = job.levels.points.iter();
    let points = points.filter(|point| !is_datum(&point.id)).map(|point| {
        let id = format!("point {}", point.id);
        choice(&id, point.id.as_str(), place_of(job, point))
    });
    let other = choice("other", "New fixed point", "a peg or a nail");
    let rows: Vec<Item> = points.chain([other]).collect();
    offer(desk, "Change point", rows, move |desk, id| {
        sight_what(desk, setup, id)
    })
}

/// Chooses the datum, or says its height.
pub(super) fn datum(desk: &mut Desk) -> Then {
    if desk.saved().levels.datum.is_none() {
        return choose_datum(desk, None);
    }
    let rows = vec![
        choice("height", "Its height", "what the datum counts as"),
        choice("other", "Another point", ""),
    ];
    offer(desk, "The datum", rows, |desk, id| {
        if id == "other" {
            return choose_datum(desk, None);
        }
        desk.ask(Box::new(DatumHeight));
        Then::Keypad
    })
}

/// Asks which point is the datum, points that are there and the marks that are no point yet, and then
/// for the sight of it from a set-up.
pub(super) fn choose_datum(desk: &mut Desk, sight_from: Option<usize>) -> Then {
    let job = desk.saved();
    let points = job.levels.points.iter();
    let points = points.map(|point| {
        let id = format!("point {}", point.id);
        choice(&id, point.id.as_str(), place_of(job, point))
    });
    let is_point = |id: &str| {
        let mut points = job.levels.points.iter();
        points.any(|point| point.mark.as_ref().is_some_and(|mark| mark.as_str() == id))
    };
    let marks = job.marks.iter().filter(|mark| !is_point(mark.id.as_str()));
    let marks = marks.map(|mark| {
        let title = format!("Mark {}", mark.id);
        choice(format!("mark {}", mark.id), &title, "")
    });
    let other = choice("other", "New fixed point", "a nail that will not move");
    let rows: Vec<Item> = points.chain(marks).chain([other]).collect();
    offer(
        desk,
        "What heights are counted from",
        rows,
        move |desk, id| {
            let (kind, rest) = id.split_once(' ').unwrap_or((id, ""));
            let point = match kind {
                "point" => Some(PointId::from(rest)),
                "mark" => add_mark_point(desk, rest),
                _ => add_point(desk, "nail"),
            };
            let Some(point) = point else {
                return Then::Stay;
            };
            make_datum(desk, point.clone());
            sight_from.map_or(Then::Stay, |setup| ask(desk, setup, point))
        },
    )
}

/// A point at a mark, called as the mark is where that name is free.
fn add_mark_point(desk: &mut Desk, mark: &str) -> Option<PointId> {
    let points = &desk.saved().levels.points;
    let names = points.iter().map(|point| point.id.as_str());
    let name = if names.clone().any(|name| name == mark) {
        free_name(mark, names)
    } else {
        mark.to_owned()
    };
    let id = PointId::from(name);
    let value = Point {
        id: id.clone(),
        mark: Some(mark.into()),
        ..Point::default()
    };
    let at = points.len();
    desk.change(Edit::Point(Change::Insert { at, value }))
        .then_some(id)
}

fn make_datum(desk: &mut Desk, point: PointId) {
    let there = desk.saved().levels.datum.clone().unwrap_or_default();
    let datum = Datum { point, ..there };
    desk.change(Edit::Set(Setting::Datum(Some(datum))));
}

/// What can be done with the set-up in sight.
pub(super) fn setup(desk: &mut Desk, at: usize) -> Then {
    let Some(setup) = desk.saved().levels.setups.get(at) else {
        return Then::Stay;
    };
    let id = setup.id.clone();
    let rows = vec![
        choice("sight", "Add a sight", ""),
        choice("heights", "Mark heights from here", ""),
        choice("sure", "How sure it is", "where its ± comes from"),
        choice("remove", "Take it off the list", "with its sights"),
    ];
    offer(desk, &format!("Set-up {id}"), rows, move |desk, choice| {
        match choice {
            "sight" => return add_sight(desk),
            "sure" => {
                desk.explain(
                    "How sure it is",
                    "From every sight that ties this line to the datum, all adjusted at once: each \
                     is as good as the laser is stated to be over its distance, and as it is read. \
                     One more point seen from here and from another set-up makes it surer.",
                );
                return Then::Stay;
            }
            "heights" => return heights::start_from(desk, at),
            _ => {}
        }
        desk.change_and_say(Edit::Remove(Thing::Setup(id)), "Taken off the list.");
        desk.chosen.setup = at.saturating_sub(1);
        Then::Stay
    })
}

/// What can be done with a sight; one without a figure is asked for at once.
pub(super) fn sight(desk: &mut Desk, setup: usize, at: usize) -> Then {
    let Some(sight) = sight_at(desk.saved(), setup, at) else {
        return Then::Stay;
    };
    if sight.down.is_none() {
        desk.ask(Box::new(SightDown { setup, at }));
        return Then::Keypad;
    }
    let used = sight.used;
    let title = format!("Sight of {}", sight.point);
    let out = if used { "Leave it out" } else { "Use it again" };
    let rows = vec![
        choice("again", "Sight it again", "the figure from the laser line"),
        choice("dist", "Distance", "from the laser"),
        choice("use", out, ""),
        choice("remove", "Take it off the list", ""),
    ];
    offer(desk, &title, rows, move |desk, choice| {
        match choice {
            "again" => desk.ask(Box::new(SightDown { setup, at })),
            "dist" => desk.ask(Box::new(SightDist { setup, at })),
            "use" => {
                use_sight(desk, setup, at, !used);
                return Then::Stay;
            }
            _ => {
                let change = Change::Remove { at };
                desk.change_and_say(Edit::Sight { setup, change }, "Taken off the list.");
                return Then::Stay;
            }
        }
        Then::Keypad
    })
}

/// What can be done with a point.
pub(super) fn point(desk: &mut Desk, id: PointId) -> Then {
    let setups = &desk.saved().levels.setups;
    let setup = desk.chosen.setup.min(setups.len().saturating_sub(1));
    let from = setups.get(setup).map(|setup| setup.id.clone());
    let sight = from.map(|from| choice("sight", format!("Sight it from set-up {from}"), ""));
    let datum = choice("datum", "Make it the datum", "heights are counted from it");
    let remove = choice("remove", "Take it off the list", "with its sights");
    let sure = choice("sure", "How sure it is", "where its ± comes from");
    let rows = sight.into_iter().chain([datum, sure, remove]).collect();
    let title = format!("Point {id}");
    offer(desk, &title, rows, move |desk, choice| {
        match choice {
            "sight" => return ask(desk, setup, id),
            "datum" => make_datum(desk, id),
            "sure" => desk.explain(
                "How sure it is",
                "From the sights of it and of all that carries the level here from the datum, \
                 adjusted at once. Sighted once more, from nearer by or from another set-up, it \
                 is surer.",
            ),
            _ => desk.change_and_say(Edit::Remove(Thing::Point(id)), "Taken off the list."),
        }
        Then::Stay
    })
}
