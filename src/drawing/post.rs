//! One post with everything that is marked on it, measured from the laser line.
//!
//! ```text
//!    ▲ 855  ▐▌  ▲ 825
//!   ════════▐▌════════
//!   ─ ─ ─ ─ ▐▌ ─ ─ ─ ─   laser line
//!   ▒▒▒▒▒▒▒▒▐▌
//!    ▼ 585  ▐▌▒▒▒▒▒▒▒▒
//! ```

use super::bounds::Vec2;
use super::model::{Drawing, Fill, Label, LineStyle, Rank, Role, Target};
use super::pencil::{Pencil, upright};
use super::words::from_laser;
use crate::Solution;
use crate::boards::{BayAt, PostHeights};
use crate::job::{Job, RunId, SetupId};

const UP: Vec2 = Vec2::new(0.0, 1.0);
const LEVEL: Vec2 = Vec2::new(1.0, 0.0);
/// Below the ground, mm.
const UNDER: f64 = 150.0;

/// One post of a run with the rails and boards that meet it and their heights from a set-up's laser
/// line (the run's own where none is named), in a room of this width over height. None where the
/// post, the line or the heights are not known.
#[must_use]
pub fn post_heights(
    job: &Job,
    solution: &Solution,
    (run, n): (&RunId, usize),
    setup: Option<&SetupId>,
    aspect: f64,
) -> Option<Drawing> {
    let boards = solution.boards.get(run)?;
    let setup = setup.or(boards.setup.as_ref())?;
    let line = solution.levels.as_ref()?.setups.get(setup)?.line;
    let post = boards.posts.iter().find(|post| post.n == n)?;
    let fix = solution.runs.get(run)?;
    let width = fix.posts.iter().find(|post| post.n == n)?.size[0];
    let picture = Picture::new(job, post, line, width, aspect)?;
    let mut pencil = Pencil::default();
    picture.ground(&mut pencil);
    for (bay, side) in [(&post.before, -1.0), (&post.after, 1.0)] {
        if let Some(bay) = bay {
            picture.bay(bay, side, &mut pencil);
        }
    }
    picture.post(&mut pencil, run);
    picture.laser(&mut pencil, setup);
    Some(pencil.done(format!(
        "Post {n} with what is marked on it from the laser line"
    )))
}

struct Picture<'a> {
    job: &'a Job,
    heights: &'a PostHeights,
    line: f64,
    ground: f64,
    top: f64,
    /// Half the width of the post, mm.
    half: f64,
    /// Half the width of the picture, mm.
    reach: f64,
}

impl<'a> Picture<'a> {
    fn new(
        job: &'a Job,
        heights: &'a PostHeights,
        line: f64,
        width: f64,
        aspect: f64,
    ) -> Option<Self> {
        let ground = heights.ground?;
        let top = heights.top?;
        let tall = top.max(line) - ground.min(line) + 2.0 * UNDER;
        Some(Self {
            job,
            heights,
            line,
            ground,
            top,
            half: width / 2.0,
            reach: (tall * aspect.clamp(0.3, 3.0) / 2.0).max(3.0 * width),
        })
    }

    fn ground(&self, pencil: &mut Pencil) {
        let deep = self.ground - UNDER;
        let area = upright(-self.reach, deep, self.reach, self.ground);
        pencil.area(Role::Ground, LineStyle::None, Fill::Plain, area);
        let ends = [-self.reach, self.reach].map(|x| Vec2::new(x, self.ground));
        pencil.line(Role::Ground, LineStyle::Thick, ends[0], ends[1]);
    }

    /// Rails and board to one side, broken off at the picture's edge.
    fn bay(&self, bay: &BayAt, side: f64, pencil: &mut Pencil) {
        let (inner, outer) = (self.half * side, self.reach * side);
        let [left, right] = [inner.min(outer), inner.max(outer)];
        let middle = (inner + outer) / 2.0;
        let unit = self.job.show.lengths;
        let rails = self.job.boards.rails.as_ref();
        let edge = self.job.show.rail;
        let half = rails.map_or(0.0, |rails| rails.height) / 2.0;
        for &rail in &bay.rails {
            let area = upright(left, rail - half, right, rail + half);
            pencil.area(Role::Rail, LineStyle::Hair, Fill::Plain, area);
            let marked = rail + rails.map_or(0.0, |rails| rails.edge(edge));
            let text = from_laser(marked, self.line, unit);
            let text = format!("{text} {}", edge.name());
            let label = Label::near(Vec2::new(middle, rail), text, UP, half);
            let label = label.pointing(marked, self.line).rank(Rank::Now);
            // Feet, inches and fractions are long: large, they would leave no room for each other.
            let label = if unit.is_feet() { label } else { label.large() };
            pencil.label(Role::Text, label);
        }
        let area = upright(left, bay.bottom, right, bay.top);
        pencil.area(Role::GravelBoard, LineStyle::Fine, Fill::Plain, area);
        let text = format!("{} top", from_laser(bay.top, self.line, unit));
        let at = Vec2::new(middle, (bay.top + bay.bottom) / 2.0);
        let label = Label::on(at, text, LEVEL, (right - left) / 2.0);
        let label = label.pointing(bay.top, self.line);
        pencil.label(Role::Text, label.rank(Rank::Now));
    }

    fn post(&self, pencil: &mut Pencil, run: &RunId) {
        let area = upright(-self.half, self.ground - UNDER, self.half, self.top);
        pencil
            .area(Role::Post, LineStyle::Plain, Fill::Plain, area)
            .of(Target::Post {
                run: run.clone(),
                n: self.heights.n,
            });
        let text = from_laser(self.top, self.line, self.job.show.lengths);
        let label = Label::near(Vec2::new(0.0, self.top), format!("{text} top"), UP, 0.0);
        let label = label.pointing(self.top, self.line);
        pencil.label(Role::Text, label.rank(Rank::Main));
    }

    fn laser(&self, pencil: &mut Pencil, setup: &SetupId) {
        let ends = [-self.reach, self.reach].map(|x| Vec2::new(x, self.line));
        let target = Target::Setup(setup.clone());
        pencil
            .line(Role::LaserLine, LineStyle::Dashed, ends[0], ends[1])
            .of(target.clone());
        let at = Vec2::new(self.reach * 0.6, self.line);
        let label = Label::near(at, format!("laser, set-up {setup}"), UP, 0.0).small();
        pencil.label(Role::LaserLine, label).of(target);
    }
}
