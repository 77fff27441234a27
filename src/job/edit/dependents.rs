//! What goes with a thing that is removed?
//!
//! What means nothing without it goes too: a wall without its mark, a reading without its wall, a
//! string without its wall, a corner without its string, a sight without its point, a tick
//! without its run. What only stands there stays and asks again: a run without its string or its
//! end, a point without its mark or run, the heights without their datum.

use super::gone::Gone;
use super::names::{HoldsNames, declared};
use super::thing::Thing;
use super::{Change, Edit, EditError, Setting, described};
use crate::job::model::{End, Job};

/// Something that a removal touches besides the thing itself.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Dependent {
    /// Place in the file, such as `readings[3]`.
    pub place: String,
    /// What it is, in a person's words: “tape A to C 10 881”.
    pub what: String,
    /// Whether it goes or stays.
    pub fate: Fate,
}

/// What becomes of a dependent.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Fate {
    /// It goes too.
    Goes,
    /// It stays, and asks again for what it has lost.
    AsksAgain,
}

/// Everything that removing the thing would touch, in the order of the file; empty where nothing
/// refers to it.
#[must_use]
pub fn dependents(job: &Job, thing: &Thing) -> Vec<Dependent> {
    let mut all = Removal::of(job, thing).dependents;
    all.retain(|d| d.place != own_place(job, thing));
    all
}

/// The plain edits that remove the thing and settle its dependents.
pub(super) fn removal(job: &Job, thing: &Thing) -> Result<Vec<Edit>, EditError> {
    let removal = Removal::of(job, thing);
    if removal.edits.is_empty() || !(declared(job, thing, thing.name()) || is_point(thing)) {
        return Err(EditError::NoName {
            kind: thing.kind(),
            name: thing.name().to_owned(),
        });
    }
    Ok(removal.edits)
}

fn is_point(thing: &Thing) -> bool {
    matches!(thing, Thing::Point(_))
}

/// The place of the thing itself.
fn own_place(job: &Job, thing: &Thing) -> String {
    let (list, at) = match thing {
        Thing::Mark(id) => ("marks", job.marks.iter().position(|e| e.id == *id)),
        Thing::Wall(id) => ("walls", job.walls.iter().position(|e| e.id == *id)),
        Thing::Line(id) => ("lines", job.lines.iter().position(|e| e.id == *id)),
        Thing::Corner(id) => ("corners", job.corners.iter().position(|e| e.id == *id)),
        Thing::Run(id) => ("runs", job.runs.iter().position(|e| e.id == *id)),
        Thing::Point(id) => {
            let at = job.levels.points.iter().position(|e| e.id == *id);
            ("levels.points", at)
        }
        Thing::Setup(id) => {
            let at = job.levels.setups.iter().position(|e| e.id == *id);
            ("levels.setups", at)
        }
    };
    at.map_or_else(String::new, |at| format!("{list}[{at}]"))
}

/// A removal as it is put together: the plain edits, and what they touch.
struct Removal<'a> {
    job: &'a Job,
    gone: Gone,
    edits: Vec<Edit>,
    dependents: Vec<Dependent>,
}

impl<'a> Removal<'a> {
    fn of(job: &'a Job, thing: &Thing) -> Self {
        let mut removal = Removal {
            job,
            gone: Gone::start(job, thing),
            edits: Vec::new(),
            dependents: Vec::new(),
        };
        removal.lists();
        removal.runs();
        removal.points();
        removal.setups();
        let marked = described::marked;
        removal.list("marked", &job.marked, Edit::Marked, marked);
        removal
    }

    fn lists(&mut self) {
        let job = self.job;
        self.list("marks", &job.marks, Edit::Mark, described::mark);
        self.list("walls", &job.walls, Edit::Wall, described::wall);
        let unit = job.show.lengths;
        let reading = |r: &_| described::reading(r, unit);
        self.list("readings", &job.readings, Edit::Reading, reading);
        self.list("lines", &job.lines, Edit::Line, described::line);
        self.list("corners", &job.corners, Edit::Corner, described::corner);
    }

    /// Takes out every entry in which a name of what goes stands, the last first.
    fn list<T: HoldsNames + Clone>(
        &mut self,
        list: &str,
        entries: &[T],
        edit: fn(Change<T>) -> Edit,
        what: impl Fn(&T) -> String,
    ) {
        let touched = |(_, entry): &(usize, &T)| self.gone.touches(*entry);
        let all: Vec<_> = entries.iter().enumerate().filter(touched).collect();
        let rows = all.iter().map(|(at, entry)| Dependent {
            place: format!("{list}[{at}]"),
            what: what(entry),
            fate: Fate::Goes,
        });
        self.dependents.extend(rows);
        let edits = all
            .iter()
            .rev()
            .map(|(at, _)| edit(Change::Remove { at: *at }));
        self.edits.extend(edits);
    }

    fn runs(&mut self) {
        let mut removed = Vec::new();
        for (at, run) in self.job.runs.iter().enumerate() {
            let place = format!("runs[{at}]");
            if self.gone.runs.contains(run.id.as_str()) {
                self.row(place, described::run(run), Fate::Goes);
                removed.push(Edit::Run(Change::Remove { at }));
                continue;
            }
            let mut left = run.clone();
            if self.gone.lines.contains(run.line.as_str()) {
                left.line = Default::default();
                let what = format!("{}: its string", described::run(run));
                self.row(format!("{place}.line"), what, Fate::AsksAgain);
            }
            for (key, end) in [("start", &mut left.start), ("end", &mut left.end)] {
                if end.as_ref().is_some_and(|end| self.gone.touches(end)) {
                    *end = end.take().and_then(without_place);
                    let what = format!("{}: its {key}", described::run(run));
                    self.row(format!("{place}.{key}"), what, Fate::AsksAgain);
                }
            }
            if left != *run {
                let value = left;
                self.edits.push(Edit::Run(Change::Replace { at, value }));
            }
        }
        self.edits.extend(removed.into_iter().rev());
    }

    fn points(&mut self) {
        let mut removed = Vec::new();
        for (at, point) in self.job.levels.points.iter().enumerate() {
            let place = format!("levels.points[{at}]");
            if self.gone.points.contains(point.id.as_str()) {
                self.row(place, described::point(point), Fate::Goes);
                removed.push(Edit::Point(Change::Remove { at }));
            } else if self.gone.touches(point) {
                let mut value = point.clone();
                let lost_run = value.run.take_if(|id| self.gone.runs.contains(id.as_str()));
                if lost_run.is_some() {
                    value.at = None;
                }
                value
                    .mark
                    .take_if(|id| self.gone.marks.contains(id.as_str()));
                let what = format!("{}: where it is", described::point(point));
                self.row(place, what, Fate::AsksAgain);
                self.edits.push(Edit::Point(Change::Replace { at, value }));
            }
        }
        self.edits.extend(removed.into_iter().rev());
        if self
            .job
            .levels
            .datum
            .as_ref()
            .is_some_and(|d| self.gone.touches(d))
        {
            let place = "levels.datum".to_owned();
            self.row(place, "the datum".to_owned(), Fate::AsksAgain);
            self.edits.push(Edit::Set(Setting::Datum(None)));
        }
    }

    fn setups(&mut self) {
        let mut removed = Vec::new();
        for (setup, entry) in self.job.levels.setups.iter().enumerate() {
            let place = format!("levels.setups[{setup}]");
            if self.gone.setups.contains(entry.id.as_str()) {
                self.row(place, described::setup(entry), Fate::Goes);
                removed.push(Edit::Setup(Change::Remove { at: setup }));
                continue;
            }
            let mut sights = Vec::new();
            for (at, sight) in entry.sights.iter().enumerate() {
                if self.gone.points.contains(sight.point.as_str()) {
                    let what = described::sight(sight, entry, self.job.show.lengths);
                    self.row(format!("{place}.sights[{at}]"), what, Fate::Goes);
                    let change = Change::Remove { at };
                    sights.push(Edit::Sight { setup, change });
                }
            }
            self.edits.extend(sights.into_iter().rev());
        }
        self.edits.extend(removed.into_iter().rev());
    }

    fn row(&mut self, place: String, what: String, fate: Fate) {
        self.dependents.push(Dependent { place, what, fate });
    }
}

/// An end without what it named; nothing at all unless it has keys to keep.
fn without_place(end: End) -> Option<End> {
    let left = End {
        extra: end.extra,
        ..End::default()
    };
    (!left.extra.is_empty()).then_some(left)
}
