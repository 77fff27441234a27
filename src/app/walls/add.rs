//! Adding to what is measured: readings of every kind, marks and walls.

use super::figures::figure_of;
use crate::app::desk::{Desk, Menu, Then};
use crate::app::kit::choices;
use crate::app::renaming;
use crate::drawing::Target;
use crate::job::edit::{Change, Edit, Thing};
use crate::job::model::{Mark, Side, Wall};
use crate::job::reading::{ANGLE_SD, INLINE_SD, Measure, Reading};
use crate::job::{MarkId, WallId, first_free, numbered};

/// Asks what to add.
pub fn what_to_add(desk: &mut Desk) -> Then {
    let job = desk.saved();
    let (marks, walls) = (job.marks.len(), job.walls.len());
    let ends: &[&str] = &["From which mark?", "To which mark?"];
    let on_string: &[&str] = &[
        "Which mark is on the string?",
        "From which mark?",
        "To which mark?",
    ];
    let at_mark: &[&str] = &["At which mark?", "From which mark?", "To which mark?"];
    let menu = Menu::new("Add")
        .row_if(marks > 1, "A tape", "from mark to mark", |desk| {
            marks_then(desk, ends, tape)
        })
        .row_if(
            walls > 0,
            "An offset",
            "square off a wall to a mark",
            offset,
        )
        .row_if(
            marks > 2,
            "On a string",
            "a mark on the string between two others",
            |desk| marks_then(desk, on_string, inline),
        )
        .row_if(
            marks > 2,
            "An angle",
            "at a mark, between two others",
            |desk| marks_then(desk, at_mark, angle),
        )
        .row(
            "A mark",
            "a nail, a peg, a pencil cross: press the plan where it is",
            |desk| {
                desk.placing = true;
                desk.say("Press the plan where the mark is.")
            },
        )
        .row_if(
            marks > 1,
            "A wall",
            "a straight face through two marks",
            |desk| marks_then(desk, ends, wall),
        )
        .row_if(
            marks > 0,
            "Marks and walls that are there",
            "rename or delete",
            what_is_there,
        );
    desk.offer(menu)
}

type WithMarks = fn(&mut Desk, &[MarkId]) -> Then;

/// Asks for one mark after the other, then does something with them.
fn marks_then(desk: &mut Desk, asks: &'static [&'static str], then: WithMarks) -> Then {
    next_mark(desk, asks, Vec::new(), then)
}

fn next_mark(
    desk: &mut Desk,
    asks: &'static [&'static str],
    picked: Vec<MarkId>,
    then: WithMarks,
) -> Then {
    let Some((ask, rest)) = asks.split_first() else {
        return then(desk, &picked);
    };
    let but = picked.clone();
    let menu = choices::marks(desk, *ask, &but, move |desk, mark| {
        let mut picked = picked.clone();
        picked.push(mark);
        next_mark(desk, rest, picked, then)
    });
    desk.offer(menu)
}

fn put_reading(desk: &mut Desk, what: Measure) -> Then {
    let index = desk.saved().readings.len();
    let edit = Edit::add_reading(desk.saved(), what);
    if !desk.change(edit) {
        return Then::Stay;
    }
    desk.chosen.reading = Some(index);
    desk.ask(figure_of(desk.saved(), index))
}

/// Adds a tape between two marks, and asks for its figure.
pub fn tape(desk: &mut Desk, marks: &[MarkId]) -> Then {
    let [from, to] = marks else { return Then::Stay };
    let (from, to) = (from.clone(), to.clone());
    put_reading(
        desk,
        Measure::Tape {
            from,
            to,
            length: None,
            drop: 0.0,
        },
    )
}

/// A mark pressed on the plan. The second one after another begins the tape between them, or picks it
/// out where it is there; so does the first one while the newest mark is loose.
pub fn mark_pressed(desk: &mut Desk, id: &MarkId) -> Then {
    let job = desk.saved();
    let loose = &desk.solution.network.loose;
    let mark = |at: Option<usize>| at.and_then(|at| job.marks.get(at)).map(|mark| &mark.id);
    let newest = mark(desk.chosen.tied).filter(|id| loose.contains(id));
    let first = mark(desk.chosen.mark).or(newest).cloned();
    let Some(first) = first.filter(|first| first != id) else {
        let alone = job.marks.len() < 2;
        desk.pick(&Target::Mark(id.clone()));
        return match alone {
            true => Then::Stay,
            false => desk.say(&format!("Mark {id}. Press another mark to tape to it.")),
        };
    };
    let between = |reading: &Reading| match &reading.what {
        Measure::Tape { from, to, .. } => {
            (from == &first && to == id) || (from == id && to == &first)
        }
        _ => false,
    };
    let there = job.readings.iter().position(between);
    desk.chosen.mark = None;
    match there {
        Some(at) => desk.pick(&Target::Reading(at)),
        None => tape(desk, &[first, id.clone()]),
    }
}

fn angle(desk: &mut Desk, marks: &[MarkId]) -> Then {
    let [at, from, to] = marks else {
        return Then::Stay;
    };
    let (from, at, to) = (from.clone(), at.clone(), to.clone());
    put_reading(
        desk,
        Measure::Angle {
            from,
            at,
            to,
            degrees: None,
            sd: ANGLE_SD,
        },
    )
}

fn inline(desk: &mut Desk, marks: &[MarkId]) -> Then {
    let [mark, from, to] = marks else {
        return Then::Stay;
    };
    let what = Measure::Inline {
        mark: mark.clone(),
        with: [from.clone(), to.clone()],
        sd: INLINE_SD,
    };
    let edit = Edit::add_reading(desk.saved(), what);
    desk.change_and_say(edit, "Taken: the mark is on that string.")
}

fn offset(desk: &mut Desk) -> Then {
    let menu = choices::walls(desk, "Off which wall?", offset_side);
    desk.offer(menu)
}

fn offset_side(desk: &mut Desk, wall: WallId) -> Then {
    let looking = "looking along it from its first mark";
    let other = wall.clone();
    let menu = Menu::new("On which side?")
        .row("On its left", looking, move |desk| {
            offset_mark(desk, wall, Side::Left)
        })
        .row("On its right", looking, move |desk| {
            offset_mark(desk, other, Side::Right)
        });
    desk.offer(menu)
}

fn offset_mark(desk: &mut Desk, wall: WallId, side: Side) -> Then {
    let menu = choices::marks(desk, "To which mark?", &[], move |desk, mark| {
        let what = Measure::Offset {
            mark,
            wall: wall.clone(),
            side: Some(side),
            length: None,
        };
        put_reading(desk, what)
    });
    desk.offer(menu)
}

fn wall(desk: &mut Desk, marks: &[MarkId]) -> Then {
    let [from, to] = marks else { return Then::Stay };
    let walls = &desk.saved().walls;
    let at = walls.len();
    let id = numbered("wall ", at + 1, walls.iter().map(|wall| wall.id.as_str()));
    let value = Wall {
        id: id.into(),
        from: from.clone(),
        to: to.clone(),
        ..Wall::default()
    };
    desk.change_and_say(Edit::Wall(Change::Insert { at, value }), "A new wall.")
}

/// Puts a new mark where the plan was pressed, `at` in the solution's frame, mm. The other marks'
/// places on the sketch are brought into that frame too, so that the sketch stays one picture.
pub fn place_mark(desk: &mut Desk, at: [f64; 2]) -> Then {
    desk.placing = false;
    let job = desk.saved();
    let mut edits: Vec<Edit> = desk
        .solution
        .sketch
        .iter()
        .filter_map(|(id, rough)| Edit::move_mark(job, id, *rough))
        .collect();
    let letters = ('A'..='Z').map(String::from);
    let numbers = (1..).map(|n| format!("M{n}"));
    let id = first_free(letters.chain(numbers), |id| {
        job.marks.iter().any(|mark| mark.id.as_str() == id)
    });
    let value = Mark {
        id: id.as_str().into(),
        rough: Some(at),
        ..Mark::default()
    };
    edits.push(Edit::Mark(Change::Insert {
        at: job.marks.len(),
        value,
    }));
    let at = job.marks.len();
    if !desk.change(Edit::Many(edits)) {
        return Then::Stay;
    }
    desk.say_undoable(&format!("Mark {id}. Press the marks you tape it from."));
    desk.chosen.tied = Some(at);
    desk.offer_beside("Name it", |desk| {
        let newest = desk.saved().marks.last().map(|mark| mark.id.clone());
        newest.map_or(Then::Stay, |id| renaming::ask(desk, Thing::Mark(id)))
    })
}

fn what_is_there(desk: &mut Desk) -> Then {
    let job = desk.saved();
    let marks = job
        .marks
        .iter()
        .fold(Menu::new("Marks and walls"), |menu, mark| {
            let thing = Thing::Mark(mark.id.clone());
            menu.row(format!("Mark {}", mark.id), &mark.note, |desk| {
                renaming::about(desk, thing)
            })
        });
    let menu = job.walls.iter().fold(marks, |menu, wall| {
        let thing = Thing::Wall(wall.id.clone());
        let note = format!("{} to {}", wall.from, wall.to);
        menu.row(wall.called(), note, |desk| renaming::about(desk, thing))
    });
    desk.offer(menu)
}
