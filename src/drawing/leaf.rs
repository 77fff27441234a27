//! A gate's leaf from behind: frame, brace and lock, with what they measure.

use super::bounds::Vec2;
use super::model::{Dimension, Drawing, Fill, Label, LineStyle, Rank, Role, Shape, Target};
use super::pencil::{Pencil, circle, upright};
use crate::Solution;
use crate::boards::GateLeaf;
use crate::job::{Job, RunId};
use crate::length::{Unit, show};

/// The leaf of a run's gate (its place in the run's list), its hinges at the left. `None` while its
/// height is not known.
#[must_use]
pub fn gate_leaf(job: &Job, solution: &Solution, run: &RunId, index: usize) -> Option<Drawing> {
    let boards = solution.boards.get(run)?;
    let leaf = boards.gates.iter().find(|leaf| leaf.index == index)?;
    let asked = job.runs.iter().find(|one| one.id == *run)?;
    let stile = asked.gates.get(index)?.leaf.as_ref()?.stile;
    let picture = Picture {
        unit: job.show.lengths,
        leaf,
        height: leaf.height?,
        stile,
    };
    let mut pencil = Pencil::default();
    picture.frame(&mut pencil, run, index);
    picture.brace(&mut pencil);
    picture.lock(&mut pencil);
    picture.sizes(&mut pencil);
    let hung = leaf.hung;
    Some(pencil.done(format!(
        "Gate leaf of run {run} from behind, hung on post {hung}"
    )))
}

struct Picture<'a> {
    unit: Unit,
    leaf: &'a GateLeaf,
    height: f64,
    stile: f64,
}

impl Picture<'_> {
    fn frame(&self, pencil: &mut Pencil, run: &RunId, index: usize) {
        let (wide, tall, stile) = (self.leaf.width, self.height, self.stile);
        let outline = upright(0.0, 0.0, wide, tall);
        pencil
            .area(Role::Gate, LineStyle::Thick, Fill::None, outline)
            .of(Target::Gate {
                run: run.clone(),
                index,
            });
        for member in [
            upright(0.0, 0.0, stile, tall),
            upright(wide - stile, 0.0, wide, tall),
            upright(stile, 0.0, wide - stile, stile),
            upright(stile, tall - stile, wide - stile, tall),
        ] {
            pencil.area(Role::Rail, LineStyle::Fine, Fill::Plain, member);
        }
        // Over the brace, where there is room.
        let at = Vec2::new(stile, tall * 0.86);
        let label = Label::near(at, "hinges", Vec2::new(1.0, 0.0), 0.0).small();
        pencil.label(Role::Text, label.rank(Rank::Usual));
    }

    fn brace(&self, pencil: &mut Pencil) {
        let Some(brace) = self.leaf.brace else { return };
        let (wide, tall, stile) = (self.leaf.width, self.height, self.stile);
        let [from, to] = [
            Vec2::new(stile, stile),
            Vec2::new(wide - stile, tall - stile),
        ];
        pencil.line(Role::Gate, LineStyle::Plain, from, to);
        let length = show(brace.length, self.unit);
        let along = (to - from).try_normalize(1e-9).unwrap_or_default();
        let reach = (to - from).norm() / 2.0;
        let label = Label::on((from + to) / 2.0, length, along, reach);
        pencil.label(Role::Text, label);
        let (angle, right) = (format!("{:.1}°", brace.angle), Vec2::new(1.0, 0.3));
        let inside = from + Vec2::new(stile, stile * 0.5);
        let label = Label::near(inside, angle, right, 0.0).small();
        pencil.label(Role::Text, label.rank(Rank::Usual));
    }

    fn lock(&self, pencil: &mut Pencil) {
        let Some(lock) = self.leaf.lock else { return };
        let edge = self.leaf.width;
        let centre = Vec2::new(edge - lock.from_edge, lock.height);
        if let Some(packing) = lock.packing {
            let [left, right] = [edge - self.stile - packing, edge - self.stile];
            let area = upright(left, lock.height - 90.0, right, lock.height + 90.0);
            pencil.area(Role::Post, LineStyle::Fine, Fill::Plain, area);
            let at = Vec2::new(left, lock.height + 90.0);
            let text = format!("packing {}", show(packing, self.unit));
            pencil.label(
                Role::Text,
                Label::near(at, text, Vec2::new(-1.0, 1.0), 0.0).small(),
            );
        }
        pencil.area(
            Role::Mark,
            LineStyle::Plain,
            Fill::None,
            circle(centre, 12.0),
        );
        self.dimension(
            pencil,
            [Vec2::new(edge, 0.0), Vec2::new(edge, lock.height)],
            Vec2::new(1.0, 0.0),
            lock.height,
        );
        self.dimension(
            pencil,
            [centre, Vec2::new(edge, lock.height)],
            Vec2::new(0.0, 1.0),
            lock.from_edge,
        );
    }

    fn sizes(&self, pencil: &mut Pencil) {
        let (wide, tall) = (self.leaf.width, self.height);
        let level = [Vec2::zeros(), Vec2::new(wide, 0.0)];
        self.dimension(pencil, level, Vec2::new(0.0, -1.0), wide);
        let up = [Vec2::zeros(), Vec2::new(0.0, tall)];
        self.dimension(pencil, up, Vec2::new(-1.0, 0.0), tall);
    }

    fn dimension(&self, pencil: &mut Pencil, [from, to]: [Vec2; 2], out: Vec2, mm: f64) {
        pencil.add(
            Role::Dimension,
            Shape::Dimension(Dimension {
                from,
                to,
                out,
                clear: self.leaf.width * 0.08,
                name: String::new(),
                text: show(mm, self.unit),
                rank: Rank::Main,
            }),
        );
    }
}
