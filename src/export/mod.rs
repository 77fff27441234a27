//! Drawings and the sheet for others to open: SVG, PDF and DXF.
//!
//! Everything here is made of the drawing model and the sheet's own text, so that no two of them
//! say different things. The same job gives the same bytes: no clock, no chance.

mod colours;
mod dxf;
mod form;
mod pages;
mod pdf;
pub mod svg;

pub use dxf::dxf;
pub use form::{Form, FormError, Subject};
pub use pages::{Page, Paper, pages};
pub use pdf::{PdfError, pdf};

use crate::Solution;
use crate::drawing::{
    Detail, Drawing, ElevationShow, Figures, PlanShow, Seen, Turn, corner as corner_of, elevation,
    gate_leaf, plan, trestles,
};
use crate::job::{CornerId, Job, RunId};
use crate::sheet::Room;

/// Width and height of a drawing on its own, pt: A4 on its side.
const DRAWING: [f64; 2] = [842.0, 595.0];

/// The plan as it is drawn on paper of this shape.
fn plan_for(job: &Job, solution: &Solution, size: [f64; 2]) -> Drawing {
    let show = PlanShow {
        turn: Turn::Along(size),
        detail: Detail::Sheet,
        readings: Seen::Hidden,
        ..PlanShow::default()
    };
    plan(job, solution, &show)
}

/// The plan with dimensions and running readings, as SVG.
#[must_use]
pub fn svg_plan(job: &Job, solution: &Solution) -> String {
    svg::svg(&plan_for(job, solution, DRAWING), DRAWING)
}

/// A run from the side with every height, as SVG; none where it is not set out.
#[must_use]
pub fn svg_run(job: &Job, solution: &Solution, run: &RunId) -> Option<String> {
    let show = ElevationShow {
        figures: Figures::All,
        ..ElevationShow::default()
    };
    let drawing = elevation(job, solution, run, &show)?;
    Some(svg::svg(&drawing, DRAWING))
}

/// The posts that are cut together with one of a run, on trestles, as SVG; none while they have no
/// marks.
#[must_use]
pub fn svg_trestles(job: &Job, solution: &Solution, run: &RunId, n: usize) -> Option<String> {
    let drawing = trestles(job, solution, run, Some(n))?;
    Some(svg::svg(&drawing, DRAWING))
}

/// The leaf of a run's gate as SVG; none while its height is not known.
#[must_use]
pub fn svg_gate(job: &Job, solution: &Solution, run: &RunId, index: usize) -> Option<String> {
    let drawing = gate_leaf(job, solution, run, index)?;
    Some(svg::svg(&drawing, DRAWING))
}

/// A corner with the longest of its check diagonals, as SVG; none where it is not known.
#[must_use]
pub fn svg_corner(job: &Job, solution: &Solution, corner: &CornerId) -> Option<String> {
    let checks = &solution.corners.get(corner)?.check;
    let arm = checks.iter().map(|check| check.arm).fold(0.0, f64::max);
    let drawing = corner_of(job, solution, corner, arm)?;
    Some(svg::svg(&drawing, DRAWING))
}

/// Height that suits a drawing of this width on paper, pt.
#[must_use]
pub fn picture_height(drawing: &Drawing, width: f64, room: Room) -> f64 {
    // Words around what is drawn, pt, and the greatest share of the width.
    let (words, most) = match room {
        Room::Plan => (130.0, 0.6),
        Room::Strip => (70.0, 0.68),
        Room::Band => (70.0, 0.36),
        Room::Small => (50.0, 0.62),
    };
    let size = drawing.bounds.size();
    let own = (width - words).max(1.0) * size.y / size.x.max(1.0) + words;
    own.clamp(90.0, (width * most).max(90.0))
}
