//! What can be changed in a job? Every change is a value, applied in one place.
//!
//! ```text
//!   Edit ──apply──▶ Job          an error leaves the job as it was
//!     ▲               │
//!     └── the way back ┘         applied, it restores the job exactly
//! ```
//!
//! A job may hold what cannot be (a negative length, a reading of a mark that is not there):
//! [`super::check`] says so. Edits refuse only what the file could not hold or what would make two
//! things share one name.

mod apply;
mod change;
mod dependents;
mod described;
mod gone;
mod history;
mod label;
mod make;
mod names;
mod thing;

pub use apply::apply;
pub use change::Change;
pub use dependents::{Dependent, Fate, dependents};
pub use history::{History, Step};
pub use label::label;
pub use thing::Thing;

use super::model::reading::Reading;
use super::model::{
    Boards, Corner, Datum, Gate, Hole, Laser, Line, Mark, Marked, Pin, Point, Run, Setup, Show,
    Sight, Stock, StringLine, Tape, Tolerance, Wall,
};
use serde::{Deserialize, Serialize};
use thiserror::Error;

/// One change to a job. Lists are addressed by place (from 0), things with a name by their name.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(rename_all = "lowercase")]
#[allow(clippy::large_enum_variant)] // one edit exists at a time; a box would only be in the way
pub enum Edit {
    /// Another value for a part that is there once.
    Set(Setting),
    /// To the list of marks.
    Mark(Change<Mark>),
    /// To the list of walls.
    Wall(Change<Wall>),
    /// To the list of readings.
    Reading(Change<Reading>),
    /// To the list of string lines.
    Line(Change<Line>),
    /// To the list of corners.
    Corner(Change<Corner>),
    /// To the list of runs.
    Run(Change<Run>),
    /// A gate of the run at this place.
    Gate {
        /// Place of the run, from 0.
        run: usize,
        /// To that run's list of gates.
        change: Change<Gate>,
    },
    /// A pin of the run at this place.
    Pin {
        /// Place of the run, from 0.
        run: usize,
        /// To that run's list of pins.
        change: Change<Pin>,
    },
    /// To the list of points with a height.
    Point(Change<Point>),
    /// To the list of set-ups.
    Setup(Change<Setup>),
    /// A sight of the set-up at this place.
    Sight {
        /// Place of the set-up, from 0.
        setup: usize,
        /// To that set-up's list of sights.
        change: Change<Sight>,
    },
    /// To the list of posts ticked off.
    Marked(Change<Marked>),
    /// A new name, taken along to everything that refers to it.
    Rename {
        /// What is renamed, by its old name.
        thing: Thing,
        /// The new name, which nothing else of its kind has.
        to: String,
    },
    /// Removal, with everything that means nothing without it (see [`dependents`]).
    Remove(Thing),
    /// One step made of several; all of it happens or none.
    Many(Vec<Edit>),
    /// What was there before, put back as it was: the way back that [`apply`] gives.
    Restore(Vec<Edit>),
}

/// A part of the job that is there once, replaced as a whole.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(rename_all = "lowercase")]
#[allow(clippy::large_enum_variant)] // one edit exists at a time; a box would only be in the way
pub enum Setting {
    /// What the job is called.
    Title(String),
    /// What a person wrote about the site.
    Notes(String),
    /// The unit that lengths are shown in.
    Show(Show),
    /// What the tape can be held to.
    Tape(Tape),
    /// How well the strings are nailed.
    StringLine(StringLine),
    /// What the laser can be held to.
    Laser(Laser),
    /// What a post as built may be off.
    Tolerance(Tolerance),
    /// The post holes.
    Hole(Hole),
    /// The timber of every run.
    Boards(Boards),
    /// Lengths that the timber can be bought in.
    Stock(Stock),
    /// The point that heights count from; `None` takes it away.
    Datum(Option<Datum>),
}

/// Why an edit was refused. The job is as it was.
#[derive(Clone, Debug, Error, PartialEq, Eq)]
pub enum EditError {
    /// The list is shorter than that.
    #[error("There is no {kind} number {number} in this job. Choose one that is in the list.")]
    NoPlace {
        /// The trade's word for what the list holds.
        kind: &'static str,
        /// Which entry was meant, from 1.
        number: usize,
    },
    /// No thing has that name.
    #[error("There is no {kind} called “{name}” in this job. Choose one that is in the list.")]
    NoName {
        /// The trade's word for what was meant.
        kind: &'static str,
        /// The name that nothing has.
        name: String,
    },
    /// Another thing of its kind has that name already.
    #[error("There is a {kind} called “{name}” already. Choose another name.")]
    Taken {
        /// The trade's word for it.
        kind: &'static str,
        /// The name that is in use.
        name: String,
    },
    /// The name is empty.
    #[error("The {kind} has no name. Give it one.")]
    Nameless {
        /// The trade's word for it.
        kind: &'static str,
    },
    /// A control character in a text.
    #[error(
        "There is a character in this text that cannot be seen (U+{number:04X}). Delete it, or type the text anew."
    )]
    ControlCharacter {
        /// Its Unicode number.
        number: u32,
    },
    /// A figure that is not a number, or a key that stands twice.
    #[error(
        "The job file cannot hold this change: a figure in it is not a number. Enter it again."
    )]
    Unkeepable,
}
