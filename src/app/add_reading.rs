//! Adding to what is measured: readings of every kind, marks and walls; and what can be done with
//! those that are there.

use super::add_line::mark_choices;
use super::menu::choice;
use super::reading_figure::{ReadingFigure, SlopeFigure};
use super::walls::{how_sure, reading_title};
use super::words::capital;
use super::{Bridge, Desk, Menu, Then, naming};
use crate::job::edit::{Change, Edit, Thing};
use crate::job::model::{Mark, Side, Wall};
use crate::job::reading::{ANGLE_SD, INLINE_SD, Measure};
use crate::job::{Job, MarkId, WallId};
use slint::Global;
use std::rc::Rc;
use tautmark_ui::{App, Item, WallsVm};

pub(super) fn wire(app: &App, bridge: &Rc<Bridge>) {
    let vm = WallsVm::get(app);
    let at = bridge.clone();
    vm.on_add_reading(move || at.act(what_to_add));
    let at = bridge.clone();
    vm.on_reading_pressed(move |id| {
        at.act(|desk| match id.parse() {
            Ok(index) => about_reading(desk, index),
            Err(_) => Then::Stay,
        });
    });
}

fn what_to_add(desk: &mut Desk) -> Then {
    let mut rows = Vec::new();
    if desk.saved().marks.len() > 1 {
        rows.push(choice("tape", "A tape", "from mark to mark"));
    }
    if !desk.saved().walls.is_empty() {
        rows.push(choice("offset", "An offset", "square off a wall to a mark"));
    }
    if desk.saved().marks.len() > 2 {
        rows.push(choice(
            "inline",
            "On a string",
            "a mark on the string between two others",
        ));
        rows.push(choice("angle", "An angle", "at a mark, between two others"));
    }
    rows.push(choice(
        "mark",
        "A mark",
        "a nail, a peg, a pencil cross: press the plan where it is",
    ));
    if desk.saved().marks.len() > 1 {
        rows.push(choice(
            "wall",
            "A wall",
            "a straight face through two marks",
        ));
    }
    if !desk.saved().marks.is_empty() {
        rows.push(choice(
            "change",
            "Marks and walls that are there",
            "rename or delete",
        ));
    }
    desk.menu = Some(Menu::new("Add", rows, |desk, id| match id {
        "tape" => marks_then(desk, &["From which mark?", "To which mark?"], tape),
        "offset" => offset_wall(desk),
        "inline" => marks_then(
            desk,
            &[
                "Which mark is on the string?",
                "From which mark?",
                "To which mark?",
            ],
            inline,
        ),
        "angle" => marks_then(
            desk,
            &["At which mark?", "From which mark?", "To which mark?"],
            angle,
        ),
        "wall" => marks_then(desk, &["From which mark?", "To which mark?"], wall),
        "mark" => {
            desk.placing = true;
            desk.say("Press the plan where the mark is.");
            Then::Stay
        }
        _ => what_is_there(desk),
    }));
    Then::Stay
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
    let mut rows = mark_choices(desk.saved(), None);
    rows.retain(|row| !picked.iter().any(|mark| mark.as_str() == row.id.as_str()));
    desk.menu = Some(Menu::new(*ask, rows, move |desk, id| {
        let mut picked = picked;
        picked.push(id.into());
        next_mark(desk, rest, picked, then)
    }));
    Then::Stay
}

fn put_reading(desk: &mut Desk, what: Measure) -> Then {
    let index = desk.saved().readings.len();
    let edit = Edit::add_reading(desk.saved(), what);
    if !desk.change(edit) {
        return Then::Stay;
    }
    desk.chosen.reading = Some(index);
    let field = ReadingFigure::of(desk.saved(), index);
    desk.ask(Box::new(field));
    Then::Keypad
}

/// Adds a tape between two marks, and asks for its figure.
pub(super) fn tape(desk: &mut Desk, marks: &[MarkId]) -> Then {
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
    desk.change_and_say(edit, "Taken: the mark is on that string.");
    Then::Stay
}

fn offset_wall(desk: &mut Desk) -> Then {
    let rows = wall_choices(desk.saved());
    desk.menu = Some(Menu::new("Off which wall?", rows, |desk, wall| {
        let wall = WallId::from(wall);
        let rows = vec![
            choice(
                "left",
                "On its left",
                "looking along it from its first mark",
            ),
            choice(
                "right",
                "On its right",
                "looking along it from its first mark",
            ),
        ];
        desk.menu = Some(Menu::new("On which side?", rows, move |desk, side| {
            let side = if side == "left" {
                Side::Left
            } else {
                Side::Right
            };
            let rows = mark_choices(desk.saved(), None);
            desk.menu = Some(Menu::new("To which mark?", rows, move |desk, mark| {
                let what = Measure::Offset {
                    mark: mark.into(),
                    wall,
                    side: Some(side),
                    length: None,
                };
                put_reading(desk, what)
            }));
            Then::Stay
        }));
        Then::Stay
    }));
    Then::Stay
}

fn wall(desk: &mut Desk, marks: &[MarkId]) -> Then {
    let [from, to] = marks else { return Then::Stay };
    let at = desk.saved().walls.len();
    let taken = |id: &WallId| desk.saved().walls.iter().any(|wall| wall.id == *id);
    let id = (at + 1..)
        .map(|n| WallId::from(format!("wall {n}")))
        .find(|id| !taken(id));
    let value = Wall {
        id: id.unwrap_or_default(),
        from: from.clone(),
        to: to.clone(),
        ..Wall::default()
    };
    desk.change_and_say(Edit::Wall(Change::Insert { at, value }), "A new wall.");
    Then::Stay
}

/// Puts a new mark where the plan was pressed, `at` in the solution's frame, mm. The other marks'
/// places on the sketch are brought into that frame too, so that the sketch stays one picture.
pub(super) fn place_mark(desk: &mut Desk, at: [f64; 2]) -> Then {
    desk.placing = false;
    let job = desk.saved();
    let mut edits: Vec<Edit> = desk
        .solution
        .sketch
        .iter()
        .filter_map(|(id, rough)| Edit::move_mark(job, id, *rough))
        .collect();
    let taken = |id: &MarkId| job.marks.iter().any(|mark| mark.id == *id);
    let letters = ('A'..='Z').map(|letter| MarkId::from(letter.to_string()));
    let numbers = (1..).map(|n| MarkId::from(format!("M{n}")));
    let id = letters
        .chain(numbers)
        .find(|id| !taken(id))
        .unwrap_or_default();
    let value = Mark {
        id: id.clone(),
        rough: Some(at),
        ..Mark::default()
    };
    edits.push(Edit::Mark(Change::Insert {
        at: job.marks.len(),
        value,
    }));
    desk.change_and_say(Edit::Many(edits), &format!("Mark {id}. Now tape to it."));
    Then::Stay
}

fn wall_choices(job: &Job) -> Vec<Item> {
    let walls = job.walls.iter().map(|wall| {
        let name = wall.called();
        choice(
            wall.id.as_str(),
            name,
            format!("{} to {}", wall.from, wall.to),
        )
    });
    walls.collect()
}

/// What can be done with a reading.
fn about_reading(desk: &mut Desk, index: usize) -> Then {
    let Some(reading) = desk.saved().readings.get(index) else {
        return Then::Stay;
    };
    let title = capital(&reading_title(reading));
    let figure = !matches!(reading.what, Measure::Inline { .. } | Measure::Other { .. });
    let tape = matches!(reading.what, Measure::Tape { .. });
    let mut rows = Vec::new();
    if figure {
        rows.push(choice("figure", "Enter its figure", ""));
    }
    if tape {
        rows.push(choice(
            "slope",
            "Taped on a slope",
            "how much higher one end was",
        ));
    }
    rows.push(if reading.used {
        choice(
            "out",
            "Leave it out",
            "it stays in the list and does not count",
        )
    } else {
        choice("in", "Use it again", "")
    });
    rows.push(choice("sure", "How sure it is", "where its ± comes from"));
    rows.push(choice("delete", "Delete it", ""));
    desk.chosen.reading = Some(index);
    desk.chosen.mark = None;
    desk.menu = Some(Menu::new(title, rows, move |desk, id| match id {
        "figure" => {
            let field = ReadingFigure::of(desk.saved(), index);
            desk.ask(Box::new(field));
            Then::Keypad
        }
        "sure" => {
            let words = how_sure(desk, index);
            desk.explain("How sure it is", &words);
            Then::Stay
        }
        "slope" => {
            desk.ask(Box::new(SlopeFigure { index }));
            Then::Keypad
        }
        "delete" => {
            desk.chosen.reading = None;
            desk.change_and_say(
                Edit::Reading(Change::Remove { at: index }),
                "Reading deleted.",
            );
            Then::Stay
        }
        used => {
            if let Some(edit) = Edit::use_reading(desk.saved(), index, used == "in") {
                desk.change(edit);
            }
            Then::Stay
        }
    }));
    Then::Stay
}

fn what_is_there(desk: &mut Desk) -> Then {
    let job = desk.saved();
    let marks = job.marks.iter().map(|mark| {
        let title = format!("Mark {}", mark.id);
        choice(format!("mark {}", mark.id), title, mark.note.as_str())
    });
    let walls = wall_choices(job).into_iter().map(|row| Item {
        id: format!("wall {}", row.id).into(),
        ..row
    });
    let rows = marks.chain(walls).collect();
    desk.menu = Some(Menu::new("Marks and walls", rows, |desk, id| {
        let Some((kind, name)) = id.split_once(' ') else {
            return Then::Stay;
        };
        let thing = match kind {
            "mark" => Thing::Mark(name.into()),
            _ => Thing::Wall(name.into()),
        };
        naming::about(desk, thing)
    }));
    Then::Stay
}
