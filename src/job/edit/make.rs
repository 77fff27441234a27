//! Edits that people make every day, made from the job as it is.

use super::{Change, Edit};
use crate::job::ids::MarkId;
use crate::job::model::{Job, Mark, Marked};
use crate::job::reading::Reading;

impl Edit {
    /// Adds a reading at the end of the list.
    #[must_use]
    pub fn add_reading(job: &Job, value: impl Into<Reading>) -> Self {
        let at = job.readings.len();
        let value = value.into();
        Edit::Reading(Change::Insert { at, value })
    }

    /// Uses the reading at this place, or leaves it out; `None` where there is no such reading.
    #[must_use]
    pub fn use_reading(job: &Job, at: usize, used: bool) -> Option<Self> {
        let mut value = job.readings.get(at)?.clone();
        value.used = used;
        Some(Edit::Reading(Change::Replace { at, value }))
    }

    /// Adds a mark at a place on the sketch, mm.
    #[must_use]
    pub fn add_mark(job: &Job, id: MarkId, rough: [f64; 2]) -> Self {
        let value = Mark {
            id,
            rough: Some(rough),
            ..Mark::default()
        };
        let at = job.marks.len();
        Edit::Mark(Change::Insert { at, value })
    }

    /// Moves a mark on the sketch, mm; `None` where there is no such mark.
    #[must_use]
    pub fn move_mark(job: &Job, id: &MarkId, rough: [f64; 2]) -> Option<Self> {
        let at = job.marks.iter().position(|mark| mark.id == *id)?;
        let mut value = job.marks.get(at)?.clone();
        value.rough = Some(rough);
        Some(Edit::Mark(Change::Replace { at, value }))
    }

    /// Notes what is known of a post as built, in place of what was noted of it before.
    #[must_use]
    pub fn mark_post(job: &Job, value: Marked) -> Self {
        let same = |m: &Marked| m.run == value.run && m.post == value.post;
        Edit::Marked(match job.marked.iter().position(same) {
            Some(at) => Change::Replace { at, value },
            None => Change::Insert {
                at: job.marked.len(),
                value,
            },
        })
    }

    /// The same for several posts, in one step.
    #[must_use]
    pub fn mark_posts(job: &Job, values: Vec<Marked>) -> Self {
        // Each new one goes behind those that are put in before it.
        let mut fresh = job.marked.len();
        let edits = values
            .into_iter()
            .map(|value| match Self::mark_post(job, value) {
                Edit::Marked(Change::Insert { value, .. }) => {
                    let at = fresh;
                    fresh += 1;
                    Edit::Marked(Change::Insert { at, value })
                }
                edit => edit,
            });
        Edit::Many(edits.collect())
    }
}
