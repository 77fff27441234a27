//! Who refers to whom: every name that stands in an entry of the job.

use super::thing::{ListItem, Thing};
use super::{Change, Edit, EditError, Setting};
use crate::job::ids::{CornerId, LineId, MarkId, PointId, RunId, SetupId, WallId};
use crate::job::model::{Corner, Datum, End, Job, Line, Mark, Marked, Point, Run, Setup, Wall};
use crate::job::reading::{Measure, Reading};

/// A name as it stands in an entry.
pub(super) enum Name<'a> {
    Mark(&'a mut MarkId),
    Wall(&'a mut WallId),
    Line(&'a mut LineId),
    Corner(&'a mut CornerId),
    Run(&'a mut RunId),
    Point(&'a mut PointId),
    Setup(&'a mut SetupId),
}

impl Name<'_> {
    /// Gives it another name if it is this thing's; says whether it did.
    fn rename(self, thing: &Thing, to: &str) -> bool {
        fn swap<I: PartialEq + From<String>>(slot: &mut I, of: &I, to: &str) -> bool {
            let same = slot == of;
            if same {
                *slot = I::from(to.to_owned());
            }
            same
        }
        match (self, thing) {
            (Name::Mark(slot), Thing::Mark(of)) => swap(slot, of, to),
            (Name::Wall(slot), Thing::Wall(of)) => swap(slot, of, to),
            (Name::Line(slot), Thing::Line(of)) => swap(slot, of, to),
            (Name::Corner(slot), Thing::Corner(of)) => swap(slot, of, to),
            (Name::Run(slot), Thing::Run(of)) => swap(slot, of, to),
            (Name::Point(slot), Thing::Point(of)) => swap(slot, of, to),
            (Name::Setup(slot), Thing::Setup(of)) => swap(slot, of, to),
            _ => false,
        }
    }
}

/// An entry in which names stand, its own among them.
pub(super) trait HoldsNames {
    fn names(&mut self, see: &mut dyn FnMut(Name<'_>));
}

impl HoldsNames for Mark {
    fn names(&mut self, see: &mut dyn FnMut(Name<'_>)) {
        see(Name::Mark(&mut self.id));
    }
}

impl HoldsNames for Wall {
    fn names(&mut self, see: &mut dyn FnMut(Name<'_>)) {
        see(Name::Wall(&mut self.id));
        see(Name::Mark(&mut self.from));
        see(Name::Mark(&mut self.to));
    }
}

impl HoldsNames for Reading {
    fn names(&mut self, see: &mut dyn FnMut(Name<'_>)) {
        match &mut self.what {
            Measure::Tape { from, to, .. } => {
                see(Name::Mark(from));
                see(Name::Mark(to));
            }
            Measure::Offset { mark, wall, .. } => {
                see(Name::Mark(mark));
                see(Name::Wall(wall));
            }
            Measure::Inline { mark, with, .. } => {
                see(Name::Mark(mark));
                with.iter_mut().for_each(|id| see(Name::Mark(id)));
            }
            Measure::Angle { from, at, to, .. } => {
                see(Name::Mark(from));
                see(Name::Mark(at));
                see(Name::Mark(to));
            }
            Measure::Other { .. } => {}
        }
    }
}

impl HoldsNames for Line {
    fn names(&mut self, see: &mut dyn FnMut(Name<'_>)) {
        see(Name::Line(&mut self.id));
        self.wall.iter_mut().for_each(|id| see(Name::Wall(id)));
        let marks = self.marks.iter_mut().flatten();
        marks.for_each(|id| see(Name::Mark(id)));
    }
}

impl HoldsNames for Corner {
    fn names(&mut self, see: &mut dyn FnMut(Name<'_>)) {
        see(Name::Corner(&mut self.id));
        self.lines.iter_mut().for_each(|id| see(Name::Line(id)));
    }
}

impl HoldsNames for End {
    fn names(&mut self, see: &mut dyn FnMut(Name<'_>)) {
        self.wall.iter_mut().for_each(|id| see(Name::Wall(id)));
        self.corner.iter_mut().for_each(|id| see(Name::Corner(id)));
        self.mark.iter_mut().for_each(|id| see(Name::Mark(id)));
    }
}

impl HoldsNames for Run {
    fn names(&mut self, see: &mut dyn FnMut(Name<'_>)) {
        see(Name::Run(&mut self.id));
        see(Name::Line(&mut self.line));
        let ends = self.start.iter_mut().chain(self.end.iter_mut());
        ends.for_each(|end| end.names(see));
    }
}

impl HoldsNames for Point {
    fn names(&mut self, see: &mut dyn FnMut(Name<'_>)) {
        see(Name::Point(&mut self.id));
        self.run.iter_mut().for_each(|id| see(Name::Run(id)));
        self.mark.iter_mut().for_each(|id| see(Name::Mark(id)));
    }
}

impl HoldsNames for Setup {
    fn names(&mut self, see: &mut dyn FnMut(Name<'_>)) {
        see(Name::Setup(&mut self.id));
        let sights = self.sights.iter_mut();
        sights.for_each(|sight| see(Name::Point(&mut sight.point)));
    }
}

impl HoldsNames for Datum {
    fn names(&mut self, see: &mut dyn FnMut(Name<'_>)) {
        see(Name::Point(&mut self.point));
    }
}

impl HoldsNames for Marked {
    fn names(&mut self, see: &mut dyn FnMut(Name<'_>)) {
        see(Name::Run(&mut self.run));
    }
}

/// The plain edits that give a thing another name, here and wherever it stands.
pub(super) fn renaming(job: &Job, thing: &Thing, to: &str) -> Result<Vec<Edit>, EditError> {
    let kind = thing.kind();
    if thing.name().is_empty() || to.is_empty() {
        return Err(EditError::Nameless { kind });
    }
    if thing.name() == to {
        return Ok(Vec::new());
    }
    if declared(job, thing, to) {
        let name = to.to_owned();
        return Err(EditError::Taken { kind, name });
    }
    let name = thing.name().to_owned();
    // A point may be sighted without being listed.
    if !matches!(thing, Thing::Point(_)) && !declared(job, thing, &name) {
        return Err(EditError::NoName { kind, name });
    }
    let renamed = Renamed { thing, to };
    let mut edits = Vec::new();
    renamed.list(&job.marks, Edit::Mark, &mut edits);
    renamed.list(&job.walls, Edit::Wall, &mut edits);
    renamed.list(&job.readings, Edit::Reading, &mut edits);
    renamed.list(&job.lines, Edit::Line, &mut edits);
    renamed.list(&job.corners, Edit::Corner, &mut edits);
    renamed.list(&job.runs, Edit::Run, &mut edits);
    renamed.list(&job.levels.points, Edit::Point, &mut edits);
    renamed.list(&job.levels.setups, Edit::Setup, &mut edits);
    renamed.list(&job.marked, Edit::Marked, &mut edits);
    if let Some(datum) = job.levels.datum.as_ref().and_then(|d| renamed.entry(d)) {
        edits.push(Edit::Set(Setting::Datum(Some(datum))));
    }
    if edits.is_empty() {
        return Err(EditError::NoName { kind, name });
    }
    Ok(edits)
}

/// True where a thing of this kind has that name.
pub(super) fn declared(job: &Job, kind: &Thing, name: &str) -> bool {
    fn any<T: ListItem>(list: &[T], name: &str) -> bool {
        list.iter().any(|entry| entry.name() == Some(name))
    }
    match kind {
        Thing::Mark(_) => any(&job.marks, name),
        Thing::Wall(_) => any(&job.walls, name),
        Thing::Line(_) => any(&job.lines, name),
        Thing::Corner(_) => any(&job.corners, name),
        Thing::Run(_) => any(&job.runs, name),
        Thing::Point(_) => any(&job.levels.points, name),
        Thing::Setup(_) => any(&job.levels.setups, name),
    }
}

struct Renamed<'a> {
    thing: &'a Thing,
    to: &'a str,
}

impl Renamed<'_> {
    /// The entry under the new name, where the old one stands in it.
    fn entry<T: HoldsNames + Clone>(&self, entry: &T) -> Option<T> {
        let mut entry = entry.clone();
        let mut changed = false;
        entry.names(&mut |name| changed |= name.rename(self.thing, self.to));
        changed.then_some(entry)
    }

    fn list<T: HoldsNames + Clone>(
        &self,
        list: &[T],
        edit: fn(Change<T>) -> Edit,
        edits: &mut Vec<Edit>,
    ) {
        for (at, entry) in list.iter().enumerate() {
            if let Some(value) = self.entry(entry) {
                edits.push(edit(Change::Replace { at, value }));
            }
        }
    }
}
