//! What is looked at in each place, and what a press on the drawing picks out.

use super::{Desk, Then};
use crate::drawing::Target;
use crate::job::Job;
use crate::store::OpenJob;
use serde::{Deserialize, Serialize};

/// What a person is looking at in each place. Places in the file's lists, posts from 1.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(default)]
pub struct Chosen {
    /// The reading picked out on the plan.
    pub reading: Option<usize>,
    /// The mark picked out on the plan.
    pub mark: Option<usize>,
    /// The newest mark: what is pressed next is taped to it, while it is loose.
    pub tied: Option<usize>,
    /// The string looked at.
    pub line: usize,
    /// The corner looked at.
    pub corner: usize,
    /// The run looked at.
    pub run: usize,
    /// The post looked at.
    pub post: usize,
    /// The set-up of the laser looked at.
    pub setup: usize,
    /// The group of posts on the trestles.
    pub group: usize,
    /// The gate looked at, of all that have a leaf.
    pub gate: usize,
    /// The piece of the cut list that was pressed last.
    pub piece: Option<usize>,
    /// 0 near face, 1 centre, 2 far face.
    pub face: usize,
}

impl Default for Chosen {
    fn default() -> Self {
        Self {
            reading: None,
            mark: None,
            tied: None,
            line: 0,
            corner: 0,
            run: 0,
            post: 1,
            setup: 0,
            group: 0,
            gate: 0,
            piece: None,
            face: 0,
        }
    }
}

impl Chosen {
    /// The same with what no page could show put right. Lists may have become shorter since; the
    /// places look for that themselves.
    #[must_use]
    pub(crate) fn in_bounds(self) -> Self {
        Self {
            post: self.post.max(1),
            face: self.face.min(2),
            ..self
        }
    }

    /// The reading or mark that is picked out on the plan.
    #[must_use]
    pub fn target(&self, job: &Job) -> Option<Target> {
        let reading = self.reading.filter(|&at| at < job.readings.len());
        let mark = || {
            job.marks
                .get(self.mark?)
                .map(|mark| Target::Mark(mark.id.clone()))
        };
        reading.map(Target::Reading).or_else(mark)
    }
}

impl Desk {
    /// Picks out what was pressed on the drawing.
    pub fn pick(&mut self, target: &Target) -> Then {
        let job = self.open.as_ref().map_or(&self.empty, OpenJob::job);
        let chosen = &mut self.chosen;
        match target {
            Target::Reading(at) => (chosen.reading, chosen.mark) = (Some(*at), None),
            Target::Mark(id) => {
                chosen.mark = job.marks.iter().position(|mark| mark.id == *id);
                chosen.reading = None;
            }
            Target::Line(id) => {
                chosen.line = job
                    .lines
                    .iter()
                    .position(|line| line.id == *id)
                    .unwrap_or(chosen.line);
            }
            Target::Corner(id) => {
                let at = job.corners.iter().position(|corner| corner.id == *id);
                chosen.corner = at.unwrap_or(chosen.corner);
            }
            Target::Post { run, n } => {
                let at = job.runs.iter().position(|one| one.id == *run);
                (chosen.run, chosen.post) = (at.unwrap_or(chosen.run), *n);
            }
            Target::Gate { run, .. } | Target::Bay { run, .. } => {
                let at = job.runs.iter().position(|one| one.id == *run);
                chosen.run = at.unwrap_or(chosen.run);
            }
            Target::Wall(_) | Target::Setup(_) | Target::Point(_) => {}
        }
        Then::Stay
    }
}
