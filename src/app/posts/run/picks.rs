//! What a run is tied to, picked from a list: its string, its start and its end.

use super::change::{Which, change};
use super::feet;
use super::figures::end_length;
use crate::app::desk::{Desk, Menu, Then};
use crate::app::kit::capital;
use crate::app::names::{string_name, the, wall_name};
use crate::job::model::End;
use crate::setout::walls_met;

/// Asks which string the run at this place in the file follows.
pub fn ask_string(desk: &mut Desk, at: usize) -> Then {
    let job = desk.job();
    let lines = job.lines.iter();
    let menu = lines.fold(Menu::new("Which string does it follow?"), |menu, line| {
        let id = line.id.clone();
        menu.row(capital(&string_name(job, &line.id)), "", move |desk| {
            change(desk, at, |run| run.line = id)
        })
    });
    desk.offer(menu)
}

/// Asks where the run starts or ends: corners of the run's string first, then walls, then marks, and a
/// length for an end.
pub fn ask_end(desk: &mut Desk, at: usize, which: Which) -> Then {
    let job = desk.job();
    let Some(run) = job.runs.get(at) else {
        return Then::Stay;
    };
    let mut menu = Menu::new(match which {
        Which::Start => "Where does it start?",
        Which::End => "Where does it end?",
    });
    let own = |lines: &[_; 2]| lines.contains(&run.line);
    for corner in job.corners.iter().filter(|corner| own(&corner.lines)) {
        let [first, second] = corner.lines.each_ref().map(|id| string_name(job, id));
        let end = End {
            corner: Some(corner.id.clone()),
            ..End::default()
        };
        menu = menu.row(
            format!("Corner {}", corner.id),
            format!("where {first} and {second} cross"),
            move |desk| put_end(desk, at, which, end),
        );
    }
    for wall in walls_met(
        job,
        &desk.solution.marks,
        desk.solution.lines.get(&run.line),
    ) {
        let end = End {
            wall: Some(wall.id.clone()),
            ..End::default()
        };
        menu = menu.row(
            capital(&the(&wall_name(job, &wall.id))),
            "hard against it, where the string meets it",
            move |desk| put_end(desk, at, which, end),
        );
    }
    for mark in &job.marks {
        let end = End {
            mark: Some(mark.id.clone()),
            ..End::default()
        };
        menu = menu.row(
            format!("Mark {}", mark.id),
            "dropped square onto the string",
            move |desk| put_end(desk, at, which, end),
        );
    }
    let menu = menu.row_if(
        which == Which::End,
        "At a length from the start",
        "measured along the string",
        move |desk| desk.ask(end_length(at)),
    );
    desk.offer(menu)
}

/// Ties an end to a place; at a wall, how its post stands is asked at once.
fn put_end(desk: &mut Desk, at: usize, which: Which, mut end: End) -> Then {
    let at_wall = end.wall.is_some();
    let then = change(desk, at, |run| {
        let place = which.of_mut(run);
        end.extra = place.take().unwrap_or_default().extra;
        *place = Some(end);
    });
    if at_wall {
        return feet::ask(desk, at, which);
    }
    then
}
