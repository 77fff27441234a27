//! What can be chosen in Levels: a point to sight, a datum, and what to do with a thing that is
//! there.

use super::cure::use_sight;
use super::datum::{choose_datum, is_datum, make_datum, new_peg, new_point_name};
use super::figures::{ask, sight_dist, sight_down};
use super::ground::AtPosts;
use super::heights;
use super::points::new_ground;
use super::sights::sight as sight_at;
use crate::app::desk::{Desk, Menu, Then, caution, run_fix};
use crate::app::kit::counted;
use crate::app::names::{place_of, run_called};
use crate::app::renaming;
use crate::cautions::LASER;
use crate::job::edit::{Change, Edit, Thing};
use crate::job::model::{Job, Run, Setup};
use crate::job::{PointId, free_name};
use crate::length;

/// Puts the laser down at a new place; it is the set-up in sight from now on.
pub fn new_setup(desk: &mut Desk) -> Then {
    if add_setup(desk) {
        caution::once(desk, &[LASER]);
    }
    Then::Stay
}

/// Adds a set-up at the end of the list and looks at it; false where nothing can be changed.
pub fn add_setup(desk: &mut Desk) -> bool {
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
pub fn add_sight(desk: &mut Desk) -> Then {
    if desk.saved().levels.setups.is_empty() && !add_setup(desk) {
        return Then::Stay;
    }
    let last = desk.saved().levels.setups.len() - 1;
    let setup = desk.chosen.setup.min(last);
    desk.chosen.setup = setup;
    let Some(there) = desk.saved().levels.setups.get(setup) else {
        return Then::Stay;
    };
    let no_datum = desk.saved().levels.datum.is_none();
    let menu = Menu::new(format!("Sight from set-up {}", there.id)).row_if(
        no_datum,
        "The datum",
        "what every height is counted from",
        move |desk| choose_datum(desk, Some(setup)),
    );
    let menu = points_to_sight(menu, desk.saved(), setup);
    let runs = desk.saved().runs.iter();
    let menu = runs.fold(menu, |menu, run| {
        let posts = AtPosts {
            run: run.id.clone(),
            setup,
            posts: without_ground(desk, run).into(),
        };
        let title = format!(
            "The ground at each post of {}",
            run_called(desk.saved(), &run.id)
        );
        let count = counted(posts.posts.len(), "post", "posts");
        let menu = menu.row_if(!posts.posts.is_empty(), title, count, move |desk| {
            posts.ask(0).map_or(Then::Stay, |figure| desk.ask(figure))
        });
        let id = run.id.clone();
        let title = format!("New ground point on {}", run_called(desk.saved(), &run.id));
        menu.row(title, "by its running reading", move |desk| {
            let point = new_point_name(desk.saved(), "g");
            desk.ask(new_ground(id, point, setup))
        })
    });
    let menu = menu.row(
        "New fixed point",
        "a peg or a nail, to carry the level",
        move |desk| new_peg(desk, setup),
    );
    desk.offer(menu)
}

/// The posts of a run that no ground point is near, each with its centre on the run's tape.
fn without_ground(desk: &Desk, run: &Run) -> Vec<(usize, f64)> {
    /// So near its centre, the ground is the post's, mm.
    const NEAR: f64 = 250.0;
    let job = desk.saved();
    let points = job.levels.points.iter();
    let there: Vec<f64> = points
        .filter(|point| point.run.as_ref() == Some(&run.id))
        .filter_map(|point| point.at)
        .collect();
    let posts = run_fix(desk, run).map_or(&[][..], |fix| &fix.posts);
    let open = posts.iter().filter(|post| {
        let near = |at: &f64| (at - post.centre).abs() <= NEAR;
        !there.iter().any(near)
    });
    let unit = job.show.lengths;
    open.map(|post| (post.n, length::rounded(post.centre, unit, 0)))
        .collect()
}

/// Points not sighted from this set-up: the datum, then what other set-ups saw, then the rest.
fn points_to_sight(menu: Menu, job: &Job, setup: usize) -> Menu {
    let levels = &job.levels;
    let sees = |setup: &Setup, id: &PointId| setup.sights.iter().any(|one| one.point == *id);
    let here = levels.setups.get(setup);
    let points = levels.points.iter();
    let points = points.filter(|point| !here.is_some_and(|here| sees(here, &point.id)));
    let mut points: Vec<_> = points
        .map(|point| {
            let elsewhere = levels.setups.iter().any(|one| sees(one, &point.id));
            let (order, what) = match (is_datum(job, &point.id), elsewhere) {
                (true, _) => (0, "the datum"),
                (false, true) => (1, "sighted from another set-up"),
                (false, false) => (2, "not sighted yet"),
            };
            (order, what, point)
        })
        .collect();
    points.sort_by_key(|(order, ..)| *order);
    points.into_iter().fold(menu, |menu, (_, what, point)| {
        let id = point.id.clone();
        let place = place_of(job, point);
        let note = match place.as_str() {
            "" => what.to_owned(),
            place => format!("{what}; {place}"),
        };
        menu.row(point.id.as_str(), note, move |desk| ask(desk, setup, id))
    })
}

/// What can be done with the set-up in sight.
pub fn setup(desk: &mut Desk, at: usize) -> Then {
    let Some(setup) = desk.saved().levels.setups.get(at) else {
        return Then::Stay;
    };
    let id = setup.id.clone();
    let menu = Menu::new(format!("Set-up {id}"))
        .row("Add a sight", "", add_sight)
        .row("Mark heights from here", "", move |desk| {
            heights::start_from(desk, at)
        })
        .row("How sure it is", "where its ± comes from", |desk| {
            desk.explain(
                "How sure it is",
                "From every sight that ties this line to the datum, all adjusted at once: each \
                 is as good as the laser is stated to be over its distance, and as it is read. \
                 One more point seen from here and from another set-up makes it more certain.",
            )
        })
        .row("Delete it", "with its sights", move |desk| {
            renaming::delete(desk, Thing::Setup(id), move |desk, _| {
                desk.chosen.setup = at.saturating_sub(1);
                Then::Stay
            })
        });
    desk.offer(menu)
}

/// What can be done with a sight; one without a figure is asked for at once.
pub fn sight(desk: &mut Desk, setup: usize, at: usize) -> Then {
    let Some(sight) = sight_at(desk.saved(), setup, at) else {
        return Then::Stay;
    };
    let again = move |desk: &mut Desk| desk.ask(sight_down(setup, at));
    if sight.down.is_none() {
        return again(desk);
    }
    let used = sight.used;
    let out = if used { "Leave it out" } else { "Use it again" };
    let menu = Menu::new(format!("Sight of {}", sight.point))
        .row("Sight it again", "the figure from the laser line", again)
        .row("Distance", "from the laser", move |desk| {
            desk.ask(sight_dist(setup, at))
        })
        .row(out, "", move |desk| use_sight(desk, setup, at, !used))
        .row("Delete it", "", move |desk| {
            let change = Change::Remove { at };
            desk.change_and_say(Edit::Sight { setup, change }, "Deleted.")
        });
    desk.offer(menu)
}

/// What can be done with a point.
pub fn point(desk: &mut Desk, id: PointId) -> Then {
    let setups = &desk.saved().levels.setups;
    let setup = desk.chosen.setup.min(setups.len().saturating_sub(1));
    let mut menu = Menu::new(format!("Point {id}"));
    if let Some(from) = setups.get(setup) {
        let id = id.clone();
        let title = format!("Sight it from set-up {}", from.id);
        menu = menu.row(title, "", move |desk| ask(desk, setup, id));
    }
    let datum = id.clone();
    let menu = menu
        .row("Make it the datum", "heights are counted from it", |desk| {
            make_datum(desk, datum);
            Then::Stay
        })
        .row("How sure it is", "where its ± comes from", |desk| {
            desk.explain(
                "How sure it is",
                "From the sights of it and of all that carries the level here from the datum, \
                 adjusted at once. Sighted once more, from nearer by or from another set-up, its \
                 ± is smaller.",
            )
        })
        .row("Delete it", "with its sights", |desk| {
            renaming::delete(desk, Thing::Point(id), |_, _| Then::Stay)
        });
    desk.offer(menu)
}
