//! The plan: marks, walls, tapes, strings, posts, holes and gates, seen from above.
//!
//! ```text
//!                         D ✛
//!                  ╱╱╱    ╱      walls hatched on the side away from the strings,
//!   E ✛           ╱╱╱    ╱       tapes dotted, strings drawn through,
//!  ╱╱╱│                 □        posts turned as they stand
//!  ╱╱╱│                 □
//! A ✛──✛ B─□──□───□────◇──
//! ```

mod dims;
mod posts;
mod readings;
mod site;
mod strings;
mod swings;
mod turn;
mod walls;

pub use turn::Turn;

use super::bounds::{Bounds, Vec2};
use super::model::{Drawing, Label, Rank, Role, Shape, Target};
use super::pencil::Pencil;
use crate::Solution;
use crate::job::{Job, MarkId, RunId};
use nalgebra::Rotation2;
use site::Site;

/// What a plan shows.
#[derive(Clone, Debug, PartialEq)]
pub struct PlanShow {
    /// Which way up it is.
    pub turn: Turn,
    /// How much of it is drawn.
    pub detail: Detail,
    /// Tapes, offsets and other readings.
    pub readings: Seen,
    /// String lines.
    pub strings: Seen,
    /// Posts, their holes and the gates between them.
    pub posts: Seen,
    /// What the person has picked out.
    pub chosen: Option<Target>,
    /// The tape or other reading that is being asked for.
    pub asked: Option<Asked>,
    /// The run at hand: the only one whose posts are numbered.
    pub run: Option<RunId>,
    /// The post at hand, with the running reading to it.
    pub post: Option<PostShow>,
    /// The two tapes that swing to the post at hand.
    pub swings: Seen,
    /// The run at hand fills the picture; what stands beyond is out of sight at first.
    pub close: bool,
}

impl Default for PlanShow {
    /// Everything that the job has, as on a screen that is wider than high.
    fn default() -> Self {
        Self {
            turn: Turn::Along([1.5, 1.0]),
            detail: Detail::Screen,
            readings: Seen::Shown,
            strings: Seen::Shown,
            posts: Seen::Shown,
            chosen: None,
            asked: None,
            run: None,
            post: None,
            swings: Seen::Hidden,
            close: false,
        }
    }
}

/// Whether a kind of thing is drawn.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Seen {
    /// It is drawn.
    Shown,
    /// It is left out.
    Hidden,
}

/// How much is drawn.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Detail {
    /// Walls, strings and posts without a word, for a list of jobs.
    Small,
    /// What fits a phone.
    Screen,
    /// With holes, names, running readings and dimensions, for paper.
    Sheet,
}

/// A reading that is being asked for.
#[derive(Clone, Debug, PartialEq)]
pub enum Asked {
    /// A tape between two marks, whether or not the job has it yet.
    Tape([MarkId; 2]),
    /// A reading of the job, by its place in the list.
    Reading(usize),
}

/// A post at hand, by its number in the plan's run.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct PostShow {
    /// From 1 at the run's start.
    pub n: usize,
    /// The part that the running reading goes to.
    pub face: Face,
}

/// The part of a post that a running reading goes to.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Face {
    /// The face nearer the run's start.
    #[default]
    Near,
    /// Its centre.
    Centre,
    /// The face nearer the run's end.
    Far,
}

/// Draws the plan of a job and its solution. What is not solved yet is left out; marks that can
/// still move stand where the sketch has them.
///
/// ```
/// use tautmark::drawing::{PlanShow, plan};
/// let job = tautmark::job::example();
/// let drawing = plan(&job, &tautmark::solve(&job), &PlanShow::default());
/// // The front run, the longest, lies level.
/// assert!(drawing.turn.abs() < 0.01);
/// ```
#[must_use]
pub fn plan(job: &Job, solution: &Solution, show: &PlanShow) -> Drawing {
    let site = Site::new(job, solution, show);
    let mut pencil = Pencil::default();
    if show.detail != Detail::Small {
        readings::draw(&site, &mut pencil);
    }
    walls::draw(&site, &mut pencil);
    if show.strings == Seen::Shown {
        strings::draw(&site, &mut pencil);
    }
    if show.posts == Seen::Shown {
        posts::draw(&site, &mut pencil);
    }
    if show.swings == Seen::Shown {
        swings::draw(&site, &mut pencil);
    }
    if show.detail != Detail::Small {
        marks(&site, &mut pencil);
        dims::draw(&site, &mut pencil);
    }
    let drawing = pencil.done(described(&site));
    Drawing {
        turn: site.turn,
        sight: show.close.then(|| run_at_hand(&site)).flatten(),
        ..drawing
    }
}

/// Around the posts of the run at hand and the ground that they are marked from.
fn run_at_hand(site: &Site) -> Option<Bounds> {
    /// At least so much round about, mm.
    const ROUND: f64 = 500.0;
    let run = site.solution.runs.get(site.show.run.as_ref()?)?;
    let posts = run.posts.iter().map(|post| Vec2::new(post.x, post.y));
    let posts = posts.map(|at| rotate(at, site.turn));
    Some(Bounds::around(posts).wider(ROUND.max(run.length / 20.0)))
}

fn marks(site: &Site, pencil: &mut Pencil) {
    let middle = site.middle();
    for mark in &site.job.marks {
        let Some(at) = site.mark(&mark.id) else {
            continue;
        };
        let loose = !site.solution.marks.contains_key(&mark.id);
        let role = if loose { Role::Sketch } else { Role::Mark };
        let target = Target::Mark(mark.id.clone());
        let chosen = site.is_chosen(&target) || site.is_asked_end(&mark.id);
        pencil
            .add(role, Shape::Cross(at))
            .of(target.clone())
            .chosen_if(chosen);
        if chosen {
            let ring = Shape::Ring { at, clear: 0.0 };
            pencil.add(role, ring).of(target.clone()).chosen_if(chosen);
        }
        let away = (at - middle).try_normalize(1e-6);
        let rank = if chosen { Rank::Now } else { Rank::Kept };
        let label = Label::near(
            at,
            mark.id.as_str(),
            away.unwrap_or(Vec2::new(-0.7, 0.7)),
            0.0,
        );
        pencil
            .label(role, label.rank(rank))
            .of(target)
            .chosen_if(chosen);
    }
}

fn described(site: &Site) -> String {
    let count = |n: usize, one: &str| format!("{n} {one}{}", if n == 1 { "" } else { "s" });
    let posts = site.solution.runs.values().map(|run| run.posts.len()).sum();
    format!(
        "Plan: {}, {}, {}, {}",
        count(site.job.marks.len(), "mark"),
        count(site.job.walls.len(), "wall"),
        count(site.solution.lines.len(), "string"),
        count(posts, "post"),
    )
}

/// Turns a point of the job's frame by so many degrees.
fn rotate(at: Vec2, degrees: f64) -> Vec2 {
    Rotation2::new(degrees.to_radians()) * at
}
