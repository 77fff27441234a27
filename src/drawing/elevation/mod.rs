//! The elevation of a run: what stands on it, seen from the right of its direction. Running
//! readings across, heights up, both mm: nothing is stretched.
//!
//! ```text
//!   ▐▌┬┬┬┬┬┬┬┬┬▐▌          ▐▌
//!   ▐▌═════════▐▌   gate   ▐▌
//!   ─ ─ ─ ─ ─ ─ ─ ─ ─ ─ ─ ─ ─   laser line
//!   ▐▌▒▒▒▒▒▒▒▒▒▐▌____      ▐▌
//!   ▐▌‾‾‾‾‾‾‾‾‾▐▌    ‾‾‾‾‾‾▐▌   ground
//!   └┘         └┘          └┘   holes
//! ```

mod built;
mod figures;

use super::bounds::Vec2;
use super::model::{Drawing, Fill, LineStyle, Role, Target};
use super::pencil::{Pencil, upright};
use crate::Solution;
use crate::job::model::Foot;
use crate::job::{Job, RunId, SetupId};
use built::Built;

/// What an elevation shows.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct ElevationShow {
    /// The heights that are written at it.
    pub figures: Figures,
    /// The set-up whose laser line the figures are measured from; else the run's own.
    pub setup: Option<SetupId>,
    /// First and last post of the part to draw; else the whole run.
    pub posts: Option<[usize; 2]>,
    /// What the person has picked out.
    pub chosen: Option<Target>,
}

/// Which heights are written.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Figures {
    /// Gravel boards only.
    #[default]
    Boards,
    /// Boards, rails and post tops.
    All,
}

/// Draws the elevation of a run; none where the run is not set out. Where no ground has been
/// sighted, it is drawn level and marked as a guess, without heights.
#[must_use]
pub fn elevation(
    job: &Job,
    solution: &Solution,
    run: &RunId,
    show: &ElevationShow,
) -> Option<Drawing> {
    let built = Built::of(job, solution, run, show)?;
    let mut pencil = Pencil::default();
    ground(&built, &mut pencil);
    pales(&built, &mut pencil);
    boards(&built, show, &mut pencil);
    gates(&built, show, &mut pencil);
    posts(&built, show, &mut pencil);
    laser(&built, &mut pencil);
    figures::draw(&built, show, &mut pencil);
    let posts = built.posts.len();
    Some(pencil.done(format!("Elevation of run {run}: {posts} posts")))
}

fn ground(built: &Built, pencil: &mut Pencil) {
    let role = if built.is_sighted() {
        Role::Ground
    } else {
        Role::GuessedGround
    };
    let [left, right] = built.reach();
    let surface = built.surface(left, right);
    let deep = surface.iter().map(|at| at.y).fold(f64::INFINITY, f64::min)
        - built.job.hole.depth.max(0.0)
        - 80.0;
    let mut area = vec![Vec2::new(right, deep), Vec2::new(left, deep)];
    area.splice(0..0, surface.iter().copied());
    pencil.area(role, LineStyle::None, Fill::Plain, area);
    let line = match role {
        Role::Ground => LineStyle::Thick,
        _ => LineStyle::Dashed,
    };
    pencil.path(role, line, surface);
}

fn pales(built: &Built, pencil: &mut Pencil) {
    let Some(height) = built.pale_height() else {
        return;
    };
    for bay in built.bays() {
        let foot = bay.top;
        for at in built.pale_edges(&bay) {
            let (low, high) = (Vec2::new(at, foot), Vec2::new(at, foot + height));
            pencil.line(Role::Pale, LineStyle::Hair, low, high);
        }
        let ends = [bay.near, bay.far].map(|at| Vec2::new(at, foot + height));
        pencil.line(Role::Pale, LineStyle::Fine, ends[0], ends[1]);
    }
}

fn boards(built: &Built, show: &ElevationShow, pencil: &mut Pencil) {
    for bay in built.bays() {
        let target = Target::Bay {
            run: built.run.clone(),
            from: bay.from,
        };
        let chosen = show.chosen.as_ref() == Some(&target);
        for &rail in &bay.rails {
            let half = built.rail_height() / 2.0;
            let points = upright(bay.near, rail - half, bay.far, rail + half);
            pencil
                .area(Role::Rail, LineStyle::Hair, Fill::Plain, points)
                .of(target.clone())
                .chosen_if(chosen);
        }
        if built.job.boards.gravel.is_some() {
            let points = upright(bay.near, bay.bottom, bay.far, bay.top);
            pencil
                .area(Role::GravelBoard, LineStyle::Fine, Fill::Plain, points)
                .of(target)
                .chosen_if(chosen);
        }
    }
}

fn gates(built: &Built, show: &ElevationShow, pencil: &mut Pencil) {
    for gate in built.gates() {
        let target = Target::Gate {
            run: built.run.clone(),
            index: gate.index,
        };
        let chosen = show.chosen.as_ref() == Some(&target);
        let frame = upright(gate.near, gate.bottom, gate.far, gate.top);
        let brace = [frame[0], frame[2]];
        pencil
            .area(Role::Gate, LineStyle::Fine, Fill::None, frame)
            .of(target.clone())
            .chosen_if(chosen);
        pencil
            .line(Role::Gate, LineStyle::Hair, brace[0], brace[1])
            .of(target);
    }
}

fn posts(built: &Built, show: &ElevationShow, pencil: &mut Pencil) {
    for post in built.posts {
        let [foot, top] = built.post(post);
        let target = Target::Post {
            run: built.run.clone(),
            n: post.n,
        };
        let chosen = show.chosen.as_ref() == Some(&target);
        let half = built.job.hole.diameter.max(0.0) / 2.0;
        let ground = built.ground(post.centre);
        let hole = vec![
            Vec2::new(post.centre - half, ground),
            Vec2::new(post.centre - half, foot),
            Vec2::new(post.centre + half, foot),
            Vec2::new(post.centre + half, ground),
        ];
        if post.foot == Foot::Hole {
            pencil
                .path(Role::Hole, LineStyle::Dotted, hole)
                .of(target.clone());
        }
        let marked = built
            .job
            .marked
            .iter()
            .any(|one| one.run == *built.run && one.post as usize == post.n && one.done);
        let role = if marked { Role::DonePost } else { Role::Post };
        // White even when done: what matters here is on it and beside it.
        let role = if chosen { role } else { Role::Post };
        pencil
            .area(
                role,
                LineStyle::Plain,
                Fill::Plain,
                upright(post.near, foot, post.far, top),
            )
            .of(target)
            .chosen_if(chosen);
    }
}

fn laser(built: &Built, pencil: &mut Pencil) {
    let Some((setup, line)) = &built.laser else {
        return;
    };
    let [left, right] = built.reach();
    let ends = [left, right].map(|at| Vec2::new(at, *line));
    pencil
        .line(Role::LaserLine, LineStyle::Dashed, ends[0], ends[1])
        .of(Target::Setup(setup.clone()));
}
