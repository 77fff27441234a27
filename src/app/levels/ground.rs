//! The ground at the posts of a run, one sight after the other, as it is typed.

use super::datum::new_point_name;
use super::figures::{down, sight_dist};
use super::points::add_ground;
use super::sights::add_sight;
use crate::app::desk::FigureOf;
use crate::app::kit::KeypadFigure;
use crate::app::names::run_called;
use crate::job::RunId;
use crate::job::edit::Edit;
use crate::length;
use std::rc::Rc;

/// The ground at one post after the other, from where it is marked on the run's tape: each is a new
/// point, sighted from one set-up.
#[derive(Clone)]
pub struct AtPosts {
    pub run: RunId,
    pub setup: usize,
    /// Number of each post, and its centre's running reading, mm.
    pub posts: Rc<[(usize, f64)]>,
}

impl AtPosts {
    /// Asks for the ground at the post of this place in the list; the next one comes after it.
    #[must_use]
    pub fn ask(&self, k: usize) -> Option<KeypadFigure> {
        let (n, at) = *self.posts.get(k)?;
        let (setup, run, of) = (self.setup, self.run.clone(), self.run.clone());
        let figure = KeypadFigure::new(
            format!("ground at post {n} of {run}"),
            |_| None,
            move |job, value| {
                let id = new_point_name(job, "g");
                let sighted = add_sight(job, setup, id.clone(), -value)?;
                let point = add_ground(job, id, run.clone(), at);
                Some(Edit::Many(vec![point, sighted]))
            },
        );
        let (posts, rest) = (self.posts.len(), self.clone());
        let figure = down(figure)
            .of(FigureOf::Setup(setup))
            .titled(move |job| format!("Ground at **post {n}**, {}", run_called(job, &of)))
            .hinted(move |desk| {
                let at = length::show_with_unit(at, desk.job().show.lengths);
                format!("Measure from the laser line down to the ground at {at} on the run's tape.")
            })
            .progress(move |_| Some((k + 1, posts)))
            .then(move |job| {
                let sights = job.levels.setups.get(setup)?.sights.len();
                let rest = rest.clone();
                let distance = sight_dist(setup, sights.checked_sub(1)?);
                Some(distance.then(move |_| rest.ask(k + 1)))
            });
        Some(figure)
    }
}
