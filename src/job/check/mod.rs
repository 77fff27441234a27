//! From a job as it is on disk to one whose every name is found and every figure possible.
//!
//! Whatever is wrong is named by its place in the file and left out; the rest goes on.

mod boards;
mod counts;
mod ends;
mod gates;
mod heights;
mod place;
mod plane;
mod runs;
mod settings;
mod stretched;
mod strings;
mod timber;

pub use counts::too_much;
pub use heights::USUAL_SIGHT;

use super::model::{Extra, Job};
use super::problem::{Problem, Problems};
use super::sound::Sound;
use crate::length::{Unit, show_with_unit};
use place::FilePlace;
use std::borrow::Borrow;
use std::collections::HashMap;
use std::hash::Hash;

/// The longest length that a job can hold, mm: one kilometre.
pub const LONGEST: f64 = 1_000_000.0;

/// Checks a job. What is sound comes back ready to be solved, with everything that is not. Of a job
/// that holds more than a job may ([`too_much`]) nothing is sound.
#[must_use]
pub fn check(job: &Job) -> (Sound, Vec<Problem>) {
    let too_much = too_much(job);
    if !too_much.is_empty() {
        let sound = Sound {
            unit: job.show.lengths,
            ..Sound::default()
        };
        return (sound, too_much);
    }
    let mut ledger = Ledger {
        problems: Problems::default(),
        unit: job.show.lengths,
    };
    ledger.unknown_keys(FilePlace::File, &job.extra);
    ledger.unknown_keys(FilePlace::File.key("show"), &job.show.extra);
    let mut sound = Sound {
        unit: job.show.lengths,
        ..Sound::default()
    };
    settings::settings(job, &mut sound, &mut ledger);
    let marks = plane::marks(job, &mut sound, &mut ledger);
    let walls = plane::walls(job, &marks, &mut sound, &mut ledger);
    plane::readings(job, &marks, &walls, &mut sound, &mut ledger);
    let lines = strings::lines(job, &marks, &walls, &mut sound, &mut ledger);
    let corners = strings::corners(job, &lines, &mut sound, &mut ledger);
    let names = ends::RunNames {
        marks: &marks,
        walls: &walls,
        lines: &lines,
        corners: &corners,
    };
    let runs = runs::runs(job, &names, &mut sound, &mut ledger);
    heights::levels(job, &marks, &runs, &mut sound, &mut ledger);
    boards::boards(job, &mut sound, &mut ledger);
    runs::marked(job, &runs, &mut sound, &mut ledger);
    (sound, ledger.problems.0)
}

/// Which names of one kind a file has, and where the sound ones went.
struct Named<Id, Ix> {
    found: HashMap<Id, Option<Ix>>,
}

impl<Id: Hash + Eq + Clone + Borrow<str>, Ix: Copy> Named<Id, Ix> {
    fn new() -> Self {
        Self {
            found: HashMap::new(),
        }
    }

    /// Notes a name; false where it is empty or taken already.
    fn claim(&mut self, id: &Id, kind: &str, place: FilePlace<'_>, ledger: &mut Ledger) -> bool {
        let text: &str = id.borrow();
        if text.is_empty() {
            ledger.problems.error(
                place.key("id"),
                format!("This {kind} has no name."),
                "Give it a short name of its own.",
            );
            return false;
        }
        if let Some(c) = text.chars().find(|c| c.is_control()) {
            ledger.problems.error(
                place.key("id"),
                format!(
                    "The name of this {kind} has a line break or a tab in it (U+{:04X}).",
                    u32::from(c)
                ),
                "Give it a name on one line.",
            );
            return false;
        }
        if self.found.contains_key::<Id>(id) {
            ledger.problems.error(
                place.key("id"),
                format!("Two {kind}s are called “{text}”; the second one is left out."),
                "Rename one of them.",
            );
            return false;
        }
        self.found.insert(id.clone(), None);
        true
    }

    fn settle(&mut self, id: &Id, at: Ix) {
        match self.found.get_mut::<Id>(id) {
            Some(found) => *found = Some(at),
            None => {
                self.found.insert(id.clone(), Some(at));
            }
        }
    }

    /// The thing of this name; says so where the file has none. Where the file has it but it was
    /// left out, that has been said already.
    fn find(&self, id: &Id, kind: &str, place: FilePlace<'_>, ledger: &mut Ledger) -> Option<Ix> {
        match self.found.get::<Id>(id) {
            Some(at) => *at,
            None => {
                let text: &str = id.borrow();
                let said = if text.is_empty() {
                    format!("No {kind} is named here.")
                } else {
                    format!("There is no {kind} called “{text}”.")
                };
                ledger.problems.error(
                    place,
                    said,
                    format!("Name {kind} that is in the job, or add it.", kind = a(kind)),
                );
                None
            }
        }
    }
}

fn a(kind: &str) -> String {
    format!("a {kind}")
}

/// Problems, with the checks on single figures that every part needs.
struct Ledger {
    problems: Problems,
    /// What the job shows lengths in.
    unit: Unit,
}

/// A figure of the file, with how it is told where it cannot be.
#[derive(Clone, Copy)]
struct Figure<'a> {
    place: FilePlace<'a>,
    value: f64,
    what: &'a str,
    /// mm, shown as the job shows lengths; else a share, a count or litres.
    is_length: bool,
}

impl<'a> Figure<'a> {
    fn length(place: FilePlace<'a>, value: f64, what: &'a str) -> Self {
        Self {
            place,
            value,
            what,
            is_length: true,
        }
    }

    fn number(place: FilePlace<'a>, value: f64, what: &'a str) -> Self {
        Self {
            is_length: false,
            ..Self::length(place, value, what)
        }
    }
}

impl Ledger {
    fn unknown_keys(&mut self, place: FilePlace<'_>, extra: &Extra) {
        for key in extra.keys() {
            self.problems.note(
                place.key(key),
                format!("“{key}” is not a key this program knows here."),
                "It is kept in the file and does nothing; check its spelling.",
            );
        }
    }

    /// A length that must be more than nothing.
    fn positive(&mut self, place: FilePlace<'_>, value: f64, what: &str) -> Option<f64> {
        self.positive_of(Figure::length(place, value, what))
    }

    /// A figure that must be more than nothing.
    fn positive_of(&mut self, figure: Figure<'_>) -> Option<f64> {
        self.held(figure, figure.value > 0.0, "must be more than 0")
    }

    /// A length that may be nothing but not less.
    fn not_negative(&mut self, place: FilePlace<'_>, value: f64, what: &str) -> Option<f64> {
        self.not_negative_of(Figure::length(place, value, what))
    }

    /// A figure that may be nothing but not less.
    fn not_negative_of(&mut self, figure: Figure<'_>) -> Option<f64> {
        self.held(figure, figure.value >= 0.0, "cannot be negative")
    }

    /// A length of either sign.
    fn any(&mut self, place: FilePlace<'_>, value: f64, what: &str) -> Option<f64> {
        self.held(Figure::length(place, value, what), true, "")
    }

    /// A figure that is possible and holds what it must.
    fn held(&mut self, figure: Figure<'_>, holds: bool, must: &str) -> Option<f64> {
        let Figure {
            place, value, what, ..
        } = figure;
        if !value.is_finite() {
            self.problems.error(
                place,
                format!("The {what} is not a number."),
                format!("Enter the {what} again."),
            );
            return None;
        }
        if value.abs() > LONGEST {
            let most = match figure.is_length {
                true => "cannot be more than a kilometre",
                false => "cannot be as much",
            };
            self.refuse(figure, most);
            return None;
        }
        if !holds {
            self.refuse(figure, must);
        }
        holds.then_some(value)
    }

    fn refuse(&mut self, figure: Figure<'_>, must: &str) {
        let Figure {
            place, value, what, ..
        } = figure;
        let shown = match figure.is_length {
            true => show_with_unit(value, self.unit),
            false => value.to_string(),
        };
        self.problems.error(
            place,
            format!("The {what} is {shown}; it {must}."),
            format!("Enter the {what} again."),
        );
    }

    /// A figure that is still to come counts as missing, not as wrong.
    fn given(&mut self, place: FilePlace<'_>, value: Option<f64>, what: &str) -> Option<f64> {
        if value.is_none() {
            self.problems.warning(
                place,
                format!("The {what} is still missing."),
                format!("Enter the {what}."),
            );
        }
        value
    }
}
