//! The levels: every set-up's line and what was sighted from it, heights to one scale, places only
//! in order.
//!
//! ```text
//!               ─ ─ ─┬─ ─ ─ ─ set-up 2
//!   ─ ─ ─┬─ ─ ─ ─    │
//!    │  ╱│╲  │      ╱│╲  │
//!   nail     peg         g5
//! ```

use super::bounds::Vec2;
use super::model::{Drawing, Label, LineStyle, Rank, Role, Shape, Target, WordsPlace};
use super::pencil::Pencil;
use crate::Solution;
use crate::job::{Job, PointId, SetupId};
use crate::length::show;
use indexmap::IndexMap;

const UP: Vec2 = Vec2::new(0.0, 1.0);

/// Draws what was sighted from where; none where no height is known. `aspect`: width over height of
/// the room.
#[must_use]
pub fn levels(job: &Job, solution: &Solution, aspect: f64) -> Option<Drawing> {
    let scene = Scene::new(job, solution, aspect)?;
    let mut pencil = Pencil::default();
    scene.setups(&mut pencil);
    scene.points(&mut pencil);
    let (setups, points) = (scene.lines.len(), scene.points.len());
    Some(pencil.done(format!("Levels: {setups} set-ups, {points} points")))
}

/// Where everything stands, mm: across only in order, up true.
struct Scene<'a> {
    job: &'a Job,
    /// Line heights.
    lines: IndexMap<&'a SetupId, f64>,
    /// Places and heights.
    points: IndexMap<&'a PointId, Vec2>,
    sights: Vec<(&'a SetupId, &'a PointId)>,
    /// Between neighbours.
    pitch: f64,
}

impl<'a> Scene<'a> {
    fn new(job: &'a Job, solution: &'a Solution, aspect: f64) -> Option<Self> {
        let levels = solution.levels.as_ref()?;
        let lines: IndexMap<_, _> = levels
            .setups
            .iter()
            .map(|(id, fix)| (id, fix.line))
            .collect();
        let order = order(job);
        let known = order
            .iter()
            .filter(|id| levels.points.contains_key::<PointId>(id));
        let known: Vec<&PointId> = known.copied().collect();
        let heights = known
            .iter()
            .filter_map(|id| levels.points.get::<PointId>(id));
        let all = heights.map(|fix| fix.height).chain(lines.values().copied());
        let (low, high) = all.fold((f64::INFINITY, f64::NEG_INFINITY), |(low, high), at| {
            (low.min(at), high.max(at))
        });
        if known.is_empty() || !(high - low).is_finite() {
            return None;
        }
        let wide = (high - low).max(100.0) * aspect.clamp(0.5, 4.0);
        let pitch = wide / known.len() as f64;
        let place = |(at, id): (usize, &'a PointId)| {
            let height = levels.points.get(id)?.height;
            Some((id, Vec2::new(pitch * at as f64, height)))
        };
        let points = known.into_iter().enumerate().filter_map(place).collect();
        let sights = levels
            .sights
            .iter()
            .map(|sight| (&sight.setup, &sight.point));
        Some(Self {
            job,
            lines,
            points,
            sights: sights.collect(),
            pitch,
        })
    }

    fn setups(&self, pencil: &mut Pencil) {
        for (&setup, &line) in &self.lines {
            let seen = self.sights.iter().filter(|(from, _)| *from == setup);
            let places = seen.filter_map(|(_, point)| self.points.get(point).map(|at| at.x));
            let (left, right) = places.fold((f64::INFINITY, f64::NEG_INFINITY), |(l, r), x| {
                (l.min(x), r.max(x))
            });
            if !(right - left).is_finite() {
                continue;
            }
            let ends = [left - self.pitch * 0.4, right + self.pitch * 0.4];
            let ends = ends.map(|x| Vec2::new(x, line));
            let target = Target::Setup(setup.clone());
            pencil
                .line(Role::LaserLine, LineStyle::Dashed, ends[0], ends[1])
                .of(target.clone());
            let at = Vec2::new((left + right) / 2.0, line);
            let label = Label::near(at, format!("set-up {setup}"), UP, 0.0);
            pencil.label(Role::LaserLine, label).of(target);
        }
    }

    fn points(&self, pencil: &mut Pencil) {
        let datum = self.job.levels.datum.as_ref().map(|datum| &datum.point);
        for (&id, &at) in &self.points {
            let target = Target::Point(id.clone());
            let from = self.sights.iter().filter(|(_, point)| *point == id);
            let lines = from.filter_map(|(setup, _)| self.lines.get(setup));
            let (low, high) = lines.fold((at.y, at.y), |(low, high), line| {
                (low.min(*line), high.max(*line))
            });
            let staff = [low, high].map(|height| Vec2::new(at.x, height));
            pencil
                .line(Role::Mark, LineStyle::Plain, staff[0], staff[1])
                .of(target.clone());
            pencil.add(Role::Mark, Shape::Dot(at)).of(target.clone());
            let is_datum = datum == Some(id);
            let name = if is_datum {
                format!("{id}, datum")
            } else {
                id.to_string()
            };
            let rank = if is_datum { Rank::Main } else { Rank::Usual };
            let out = if low < at.y { UP } else { -UP };
            let label = Label::near(at, name, out, 0.0).rank(rank);
            pencil.label(Role::Text, label).of(target.clone());
            self.downs(id, at, pencil, &target);
        }
    }

    /// How far down from each line that it was sighted from.
    fn downs(&self, id: &PointId, at: Vec2, pencil: &mut Pencil, target: &Target) {
        let mut lines: Vec<f64> = (self.sights.iter())
            .filter(|(_, point)| *point == id)
            .filter_map(|(setup, _)| self.lines.get(setup).copied())
            .collect();
        lines.sort_by(f64::total_cmp);
        let mut low = at.y;
        for line in lines {
            let middle = Vec2::new(at.x, (low + line) / 2.0);
            let (along, out) = (UP, Vec2::new(1.0, 0.0));
            let reach = (line - low).abs() / 2.0;
            low = line;
            let text = show(line - at.y, self.job.show.lengths);
            let label = Label {
                place: WordsPlace::Clear { along, out, reach },
                ..Label::near(middle, text, out, 0.0)
            };
            pencil
                .label(Role::Quiet, label.small().rank(Rank::Many))
                .of(target.clone());
        }
    }
}

/// Points in the order in which the work met them: by set-up, points that a later set-up sights
/// again last of their set-up, so that they stand between the two.
fn order(job: &Job) -> Vec<&PointId> {
    let mut order: Vec<&PointId> = Vec::new();
    for (at, setup) in job.levels.setups.iter().enumerate() {
        let later = &job.levels.setups[at + 1..];
        let again = |id: &PointId| {
            later
                .iter()
                .any(|setup| setup.sights.iter().any(|sight| sight.point == *id))
        };
        let mut points: Vec<&PointId> = setup.sights.iter().map(|sight| &sight.point).collect();
        points.sort_by_key(|id| again(id));
        for id in points {
            if !order.contains(&id) {
                order.push(id);
            }
        }
    }
    order
}
