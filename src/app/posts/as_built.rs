//! What was really built: the two figures that are typed, and how a post stands.

use crate::app::desk::{Desk, FigureKind, Focus, Prompt, run_fix};
use crate::app::kit::words::status;
use crate::app::names::things::{marked, the, zero_name};
use crate::job::Job;
use crate::job::edit::Edit;
use crate::job::model::{Marked, Run};
use crate::length::{self, Unit};
use crate::setout::{AsBuilt, Post, RunFix, Verdict as Built, as_built};
use tautmark_ui::{Status, Verdict};

/// How a post stands against its place; `None` where the run has no such post.
#[must_use]
pub fn stands(job: &Job, fix: &RunFix, one: &Marked) -> Option<AsBuilt> {
    as_built(fix, one, &job.tolerance)
}

/// “+2”, or “+2 along, −3 across”.
#[must_use]
pub fn deviation(job: &Job, built: &AsBuilt) -> String {
    let by = |mm| length::signed(mm, job.show.lengths);
    match (built.along, built.across) {
        (Some(along), Some(across)) => format!("{} along, {} across", by(along), by(across)),
        (Some(along), None) => by(along),
        (None, Some(across)) => format!("{} across", by(across)),
        (None, None) => String::new(),
    }
}

/// Whether a post may stay, and if not which way it must move and by how much; `None` where
/// nothing was measured of it.
#[must_use]
pub fn verdict(job: &Job, run: &Run, built: &AsBuilt) -> Option<Status> {
    let unit = job.show.lengths;
    let zero = the(&zero_name(job, run));
    let along = built.along.map(|by| along_words(by, unit, &zero));
    let across = built.across.map(|by| across_words(by, unit));
    let text: Vec<String> = [along, across].into_iter().flatten().collect();
    let text = text.join(" ");
    let limit = length::show_pm(job.tolerance.length, unit);
    Some(match built.verdict {
        Built::Unmeasured => return None,
        Built::Within => status(
            Verdict::Good,
            &format!("**In tolerance ({limit}).** {text}"),
        ),
        Built::Out => status(
            Verdict::Bad,
            &format!("**Out of tolerance ({limit}).** {text}"),
        ),
    })
}

fn along_words(by: f64, unit: Unit, zero: &str) -> String {
    let amount = length::show_with_unit(by.abs(), unit);
    if by.abs() < 0.5 {
        "Right on its place along the string.".to_owned()
    } else if by > 0.0 {
        format!("It stands {amount} too far along: **move it {amount} back towards {zero}.**")
    } else {
        format!("It stands {amount} short: **move it {amount} on, away from {zero}.**")
    }
}

fn across_words(by: f64, unit: Unit) -> String {
    let amount = length::show_with_unit(by.abs(), unit);
    if by.abs() < 0.5 {
        "Right behind the string.".to_owned()
    } else if by > 0.0 {
        format!(
            "It is {amount} too far behind the string: **move it {amount} towards the string.**"
        )
    } else {
        format!("It is {amount} too near the string: **move it {amount} away from the string.**")
    }
}

/// Which of the two figures of a post as built.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Way {
    /// Running reading of its centre.
    Along,
    /// Its centre behind the string.
    Across,
}

/// A post as built, one figure of it.
pub struct BuiltFigure {
    /// Place of the run in the file.
    pub run: usize,
    /// From 1.
    pub post: usize,
    pub way: Way,
}

impl BuiltFigure {
    fn known(&self, job: &Job) -> Option<Marked> {
        let run = job.runs.get(self.run)?;
        marked(job, run, self.post).cloned()
    }

    /// What is known of the post with this figure in it; a post that is measured is there.
    fn with(&self, job: &Job, value: f64) -> Option<Marked> {
        let run = job.runs.get(self.run)?;
        let mut one = self.known(job).unwrap_or(Marked {
            run: run.id.clone(),
            post: u32::try_from(self.post).ok()?,
            ..Marked::default()
        });
        one.done = true;
        match self.way {
            Way::Along => one.measured = Some(value),
            Way::Across => one.off = Some(value),
        }
        Some(one)
    }
}

impl Prompt for BuiltFigure {
    fn key(&self) -> String {
        format!("built {} {} {:?}", self.run, self.post, self.way)
    }

    fn title(&self, job: &Job) -> String {
        let run = job.runs.get(self.run);
        let zero = run.map_or_else(String::new, |run| the(&zero_name(job, run)));
        match self.way {
            Way::Along => format!("Post {} as built, **its centre from {zero}**", self.post),
            Way::Across => format!(
                "Post {} as built, **its centre behind the string**",
                self.post
            ),
        }
    }

    fn measure(&self) -> FigureKind {
        FigureKind::Length
    }

    fn value(&self, job: &Job) -> Option<f64> {
        let one = self.known(job)?;
        match self.way {
            Way::Along => one.measured,
            Way::Across => one.off,
        }
    }

    fn edit(&self, job: &Job, value: f64) -> Option<Edit> {
        Some(Edit::mark_post(job, self.with(job, value)?))
    }

    fn progress(&self, _job: &Job) -> Option<(usize, usize)> {
        Some(match self.way {
            Way::Along => (1, 2),
            Way::Across => (2, 2),
        })
    }

    fn next(&self, _job: &Job) -> Option<Box<dyn Prompt>> {
        (self.way == Way::Along).then(|| -> Box<dyn Prompt> {
            Box::new(Self {
                way: Way::Across,
                ..*self
            })
        })
    }

    fn verdict(&self, desk: &Desk, typed: Option<f64>) -> Option<Status> {
        let job = desk.job();
        let unit = job.show.lengths;
        let run = job.runs.get(self.run)?;
        let fix = run_fix(desk, run)?;
        let post = fix.posts.get(self.post.checked_sub(1)?)?;
        let planned = match self.way {
            Way::Along => post.centre,
            Way::Across => post.off,
        };
        let Some(typed) = typed else {
            let planned = length::show(planned, unit);
            return Some(match self.way {
                Way::Along => status(
                    Verdict::Note,
                    &format!("Planned **{planned}**. Tape to the middle of the post as it stands."),
                ),
                Way::Across => status(
                    Verdict::Note,
                    &format!(
                        "Planned **{planned}**, square off the string. Leave it if you did not measure it."
                    ),
                ),
            });
        };
        if self.way == Way::Along && near_face_taped(post, typed) {
            return Some(status(
                Verdict::Attention,
                "Half a post off its place: is this a face of the post? Tape to its **centre**.",
            ));
        }
        verdict(job, run, &stands(job, fix, &self.with(job, typed)?)?)
    }

    fn focus(&self, _job: &Job) -> Focus {
        Focus::Post(self.run, self.post)
    }
}

/// True where a reading is within a hand's slip of the near or the far face.
fn near_face_taped(post: &Post, reading: f64) -> bool {
    let half = (post.far - post.near) / 2.0;
    half > 20.0 && ((reading - post.centre).abs() - half).abs() < 6.0
}
