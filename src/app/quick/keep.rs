//! Keeping what was typed: in the open job, where it can be taken back, or in a new one.

use super::given::Given;
use super::input::Input;
use super::settings::Counts;
use crate::app::desk::{Desk, Menu, Then};
use crate::app::jobs::open;
use crate::app::names::run_name;
use crate::job::edit::{Change, Edit, apply};
use crate::job::model::{Gate, Mark, Wall};
use crate::job::reading::Reading;
use crate::job::{Job, MarkId};
use std::rc::Rc;
use tautmark_ui::Place;

/// Asks what has to be asked, and keeps the figures of a sum.
pub type Keep = fn(&mut Desk, &'static [Input]) -> Then;

/// The change that puts the figures into a job; `None` where they do not suffice.
pub type Put = Box<dyn Fn(&Given<'_>, &Job) -> Option<Edit>>;

/// Where figures are kept, and what is said of it.
#[derive(Clone, Copy)]
pub struct KeptIn {
    /// Title of a new job.
    pub title: &'static str,
    /// What is said where the open job takes them.
    pub said: &'static str,
    /// The place that shows them.
    pub place: Place,
}

/// Puts the figures into a gate.
pub type PutInGate = fn(&Given<'_>, &mut Gate);

/// Asks for a gate of the open job, and puts the figures into it.
pub fn into_a_gate(
    desk: &mut Desk,
    inputs: &'static [Input],
    said: &'static str,
    put: PutInGate,
) -> Then {
    let runs = desk.open().map(|open| open.job().runs.clone());
    let runs = runs.unwrap_or_default();
    let kept = KeptIn {
        title: "",
        said,
        place: Place::Boards,
    };
    let mut menu = Menu::new("For which gate?");
    for (run, there) in runs.iter().enumerate() {
        for at in 0..there.gates.len() {
            let label = format!("Gate {} of {}", at + 1, run_name(there));
            menu = menu.row(&label, "it can be taken back", move |desk| {
                let edit: Put = Box::new(move |given, job| {
                    let mut value = job.runs.get(run)?.gates.get(at)?.clone();
                    put(given, &mut value);
                    let change = Change::Replace { at, value };
                    Some(Edit::Gate { run, change })
                });
                into_open(desk, inputs, &kept, &edit)
            });
        }
    }
    if runs.iter().all(|run| run.gates.is_empty()) {
        let text = "It is kept with a gate, and the open job has none. Open a job, add a gate to its \
                    run under Posts, Run details, and come back: nothing typed is lost.";
        return desk.explain("No gate to keep it with", text);
    }
    desk.offer(menu)
}

/// Asks for the open job or a new one, and puts the figures there.
pub fn into_a_job(desk: &mut Desk, inputs: &'static [Input], kept: KeptIn, edit: Put) -> Then {
    let Some(open) = desk.open() else {
        return into_new(desk, inputs, &kept, &edit);
    };
    let edit = Rc::new(edit);
    let other = edit.clone();
    let menu = Menu::new("Keep it where?")
        .row(
            &open.job().title,
            "the open job; it can be taken back",
            move |desk| into_open(desk, inputs, &kept, &edit),
        )
        .row("A new job", kept.title, move |desk| {
            into_new(desk, inputs, &kept, &other)
        });
    desk.offer(menu)
}

/// Puts the figures into the open job.
pub fn into_open(desk: &mut Desk, inputs: &'static [Input], kept: &KeptIn, edit: &Put) -> Then {
    let made = edit(&Given::of(desk, inputs), desk.saved());
    let Some(made) = made else { return Then::Stay };
    desk.change_and_say(made, kept.said);
    Then::Go(kept.place)
}

/// Begins a job with the figures, the unit and the instruments that they were worked out with.
pub fn into_new(desk: &mut Desk, inputs: &'static [Input], kept: &KeptIn, edit: &Put) -> Then {
    let Counts { unit, tape, laser } = Counts::of_quick(desk);
    let mut job = Job::begun_in(unit, kept.title);
    job.tape = tape;
    job.level.accuracy = laser.accuracy;
    job.level.reading = laser.reading;
    let made = edit(&Given::of(desk, inputs), &job);
    if made.is_none_or(|made| apply(&mut job, &made).is_err()) {
        desk.say("These figures make no job. Look at them again.");
        return Then::Stay;
    }
    open::begin(desk, job);
    Then::Go(kept.place)
}

/// New marks for a job: names that are free, beside what is on its sketch already.
pub struct NewMarks<'a> {
    job: &'a Job,
    made: Vec<Mark>,
    /// To the right of everything on the sketch, mm.
    corner: [f64; 2],
}

impl<'a> NewMarks<'a> {
    /// Room for marks beside those of the job.
    #[must_use]
    pub fn beside(job: &'a Job) -> Self {
        let roughs = || job.marks.iter().filter_map(|mark| mark.rough);
        let right = roughs().map(|at| at[0]).fold(f64::NEG_INFINITY, f64::max);
        let low = roughs().map(|at| at[1]).fold(f64::INFINITY, f64::min);
        let corner = if right.is_finite() && low.is_finite() {
            [right + 2000.0, low]
        } else {
            [0.0, 0.0]
        };
        Self {
            job,
            made: Vec::new(),
            corner,
        }
    }

    /// A mark at a place of its own, mm from the corner of the room for new ones.
    pub fn at(&mut self, x: f64, y: f64) -> MarkId {
        self.exactly([self.corner[0] + x, self.corner[1] + y])
    }

    /// A mark at a place of the job's sketch, mm.
    pub fn exactly(&mut self, rough: [f64; 2]) -> MarkId {
        let id = self.free();
        self.made.push(Mark {
            id: id.clone(),
            rough: Some(rough),
            ..Mark::default()
        });
        id
    }

    /// The first letter, then M1, M2, …, that no mark is called yet.
    fn free(&self) -> MarkId {
        let taken = |id: &MarkId| {
            let all = self.job.marks.iter().chain(&self.made);
            all.clone().any(|mark| mark.id == *id)
        };
        let letters = ('A'..='Z').map(|letter| MarkId::from(letter.to_string()));
        let numbers = (1..).map(|n| MarkId::from(format!("M{n}")));
        let mut names = letters.chain(numbers);
        names.find(|id| !taken(id)).unwrap_or_default()
    }

    /// The edits that add them.
    #[must_use]
    pub fn edits(self) -> Vec<Edit> {
        let from = self.job.marks.len();
        let made = self.made.into_iter().enumerate();
        made.map(|(n, value)| {
            Edit::Mark(Change::Insert {
                at: from + n,
                value,
            })
        })
        .collect()
    }
}

/// The edits that add readings at the end of a job's list.
#[must_use]
pub fn readings(job: &Job, readings: Vec<Reading>) -> Vec<Edit> {
    let from = job.readings.len();
    let all = readings.into_iter().enumerate();
    all.map(|(n, value)| {
        Edit::Reading(Change::Insert {
            at: from + n,
            value,
        })
    })
    .collect()
}

/// The edits that add walls through two marks each.
#[must_use]
pub fn walls(job: &Job, walls: &[[&MarkId; 2]]) -> Vec<Edit> {
    let from = job.walls.len();
    let made = walls.iter().enumerate().map(|(n, [a, b])| {
        let value = Wall {
            id: format!("{a}-{b}").into(),
            from: (*a).clone(),
            to: (*b).clone(),
            ..Wall::default()
        };
        Edit::Wall(Change::Insert {
            at: from + n,
            value,
        })
    });
    made.collect()
}
