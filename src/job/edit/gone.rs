//! What goes with a thing: by name, as far as a removal spreads.

use super::names::{HoldsNames, Name};
use super::thing::Thing;
use crate::job::model::Job;
use std::collections::BTreeSet;

/// Names of what goes, by kind.
#[derive(Default)]
pub(super) struct Gone {
    pub(super) marks: BTreeSet<String>,
    pub(super) walls: BTreeSet<String>,
    pub(super) lines: BTreeSet<String>,
    pub(super) corners: BTreeSet<String>,
    pub(super) runs: BTreeSet<String>,
    pub(super) points: BTreeSet<String>,
    pub(super) setups: BTreeSet<String>,
}

impl Gone {
    pub(super) fn has(&self, name: &Name<'_>) -> bool {
        match name {
            Name::Mark(id) => self.marks.contains(id.as_str()),
            Name::Wall(id) => self.walls.contains(id.as_str()),
            Name::Line(id) => self.lines.contains(id.as_str()),
            Name::Corner(id) => self.corners.contains(id.as_str()),
            Name::Run(id) => self.runs.contains(id.as_str()),
            Name::Point(id) => self.points.contains(id.as_str()),
            Name::Setup(id) => self.setups.contains(id.as_str()),
        }
    }

    /// True where any name in the entry is gone.
    pub(super) fn touches<T: HoldsNames + Clone>(&self, entry: &T) -> bool {
        let mut touched = false;
        let mut entry = entry.clone();
        entry.names(&mut |name| touched |= self.has(&name));
        touched
    }

    pub(super) fn start(job: &Job, thing: &Thing) -> Self {
        let mut gone = Gone::default();
        let name = thing.name().to_owned();
        let list = match thing {
            Thing::Mark(_) => &mut gone.marks,
            Thing::Wall(_) => &mut gone.walls,
            Thing::Line(_) => &mut gone.lines,
            Thing::Corner(_) => &mut gone.corners,
            Thing::Run(_) => &mut gone.runs,
            Thing::Point(_) => &mut gone.points,
            Thing::Setup(_) => &mut gone.setups,
        };
        list.insert(name);
        gone.spread(job);
        gone
    }

    /// The names of the entries in which a name of what goes stands.
    fn touched<T: HoldsNames + Clone>(&self, list: &[T], name: fn(&T) -> &str) -> Vec<String> {
        let touched = list.iter().filter(|entry| self.touches(*entry));
        touched.map(|entry| name(entry).to_owned()).collect()
    }

    /// Marks take their walls, marks and walls their strings, strings their corners.
    fn spread(&mut self, job: &Job) {
        let walls = self.touched(&job.walls, |wall| wall.id.as_str());
        self.walls.extend(walls);
        let lines = self.touched(&job.lines, |line| line.id.as_str());
        self.lines.extend(lines);
        let corners = self.touched(&job.corners, |corner| corner.id.as_str());
        self.corners.extend(corners);
    }
}
