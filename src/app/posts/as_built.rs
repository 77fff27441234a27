//! What was really built: the two figures that are typed, and how a post stands.

use crate::app::desk::{Desk, FigureOf, Focus, run_fix};
use crate::app::kit::{KeypadFigure, status};
use crate::app::names::{marked, the, zero_name};
use crate::job::Job;
use crate::job::edit::Edit;
use crate::job::model::{Marked, Run};
use crate::length::{self, Unit};
use crate::setout::{AsBuilt, BuiltVerdict as Built, Post, RunFix, as_built};
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
    let limit = length::show_pm_with_unit(job.tolerance.length, unit);
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

/// The post of a run as built: the run's place in the file, and the post from 1.
#[derive(Clone, Copy)]
struct OfPost {
    run: usize,
    post: usize,
}

/// One of its two figures.
type Slot = fn(&mut Marked) -> &mut Option<f64>;

impl OfPost {
    fn known(self, job: &Job) -> Option<Marked> {
        marked(job, job.runs.get(self.run)?, self.post).cloned()
    }

    /// What is known of the post with this figure in it; a post that is measured is there.
    fn with(self, job: &Job, slot: Slot, value: f64) -> Option<Marked> {
        let fresh = Marked {
            run: job.runs.get(self.run)?.id.clone(),
            post: u32::try_from(self.post).ok()?,
            ..Marked::default()
        };
        let mut one = self.known(job).unwrap_or(fresh);
        one.done = true;
        *slot(&mut one) = Some(value);
        Some(one)
    }

    fn planned(self, desk: &Desk) -> Option<&Post> {
        let fix = run_fix(desk, desk.job().runs.get(self.run)?)?;
        fix.post(self.post)
    }

    fn figure(self, what: &str, number: usize, slot: Slot) -> KeypadFigure {
        let there = move |job: &Job| *slot(&mut self.known(job)?);
        KeypadFigure::new(what, there, move |job, value| {
            Some(Edit::mark_post(job, self.with(job, slot, value)?))
        })
        .of(FigureOf::Post(self.run, self.post))
        .progress(move |_| Some((number, 2)))
        .stressing(Focus::Post(self.run, self.post))
    }

    fn judge(self, desk: &Desk, slot: Slot, typed: f64) -> Option<Status> {
        let job = desk.job();
        let run = job.runs.get(self.run)?;
        let one = self.with(job, slot, typed)?;
        verdict(job, run, &stands(job, run_fix(desk, run)?, &one)?)
    }
}

/// Where the post stands along the string, taped to the face (`name`) that the person marks by; `to_centre`
/// is from there to its centre, mm. How far it is off the string comes next.
pub fn along(run: usize, post: usize, name: &str, to_centre: f64) -> KeypadFigure {
    let of = OfPost { run, post };
    let slot: Slot = |one| &mut one.measured;
    let named = name.to_lowercase();
    let taped = named.clone();
    let there = move |job: &Job| Some(of.known(job)?.measured? - to_centre);
    of.figure("along", 1, slot)
        .reading(there)
        .off_by(to_centre)
        .titled(move |job| {
            let run = job.runs.get(run);
            let zero = run.map_or_else(String::new, |run| the(&zero_name(job, run)));
            format!("Post {post} as built, **its {named} from {zero}**")
        })
        .hinted(move |desk| {
            let planned = planned(desk, of, |post| post.centre - to_centre);
            planned.map_or_else(String::new, |planned| {
                format!("Planned **{planned}**. Tape to the {taped} of the post as it stands.")
            })
        })
        .judged(move |desk, typed| {
            let centre = typed + to_centre;
            if near_face_taped(of.planned(desk)?, centre) {
                let text = "Half a post off its place: was it taped to another face, or to the \
                            centre?";
                return Some(status(Verdict::Attention, text));
            }
            of.judge(desk, slot, centre)
        })
        .followed_by(&across(run, post))
}

/// How far the post's centre is behind the string.
fn across(run: usize, post: usize) -> KeypadFigure {
    let of = OfPost { run, post };
    let slot: Slot = |one| &mut one.off;
    of.figure("across", 2, slot)
        .titled(move |_| format!("Post {post} as built, **its centre behind the string**"))
        .hinted(move |desk| {
            let planned = planned(desk, of, |post| post.off);
            planned.map_or_else(String::new, |planned| {
                format!(
                    "Planned **{planned}**, square off the string. Leave it if you did not \
                     measure it."
                )
            })
        })
        .judged(move |desk, typed| of.judge(desk, slot, typed))
}

fn planned(desk: &Desk, of: OfPost, figure: impl Fn(&Post) -> f64) -> Option<String> {
    let planned = figure(of.planned(desk)?);
    Some(length::show(planned, desk.job().show.lengths))
}

/// True where a reading is within a hand's slip of the near or the far face.
fn near_face_taped(post: &Post, reading: f64) -> bool {
    let half = (post.far - post.near) / 2.0;
    half > 20.0 && ((reading - post.centre).abs() - half).abs() < 6.0
}
