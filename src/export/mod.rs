//! Drawings and the sheet for others to open: SVG, PDF and DXF.
//!
//! Everything here is made of the drawing model and the sheet's own text, so that no two of them
//! say different things. The same job gives the same bytes: no clock, no chance.

mod dxf;
mod form;
mod pages;
mod pdf;

pub use dxf::dxf;
pub use form::{Form, FormError, Subject};
pub use pages::{Paper, SheetPage, pages};
pub use pdf::{PdfError, pdf};

use crate::Solution;
use crate::cautions::IN_ONE_LINE;
use crate::drawing::{
    Detail, Drawing, ElevationShow, Figures, PlanShow, Seen, Turn, corner as corner_of, elevation,
    gate_leaf, plan, svg_over, trestles,
};
use crate::job::{CornerId, Job, RunId};

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

/// A drawing on its own, the usual caution under it.
fn on_its_own(drawing: &Drawing) -> String {
    svg_over(drawing, DRAWING, IN_ONE_LINE)
}

/// The plan with dimensions and running readings, as SVG.
#[must_use]
pub fn svg_plan(job: &Job, solution: &Solution) -> String {
    on_its_own(&plan_for(job, solution, DRAWING))
}

/// A run from the side with every height, as SVG; none where it is not set out.
#[must_use]
pub fn svg_run(job: &Job, solution: &Solution, run: &RunId) -> Option<String> {
    let show = ElevationShow {
        figures: Figures::All,
        ..ElevationShow::default()
    };
    let drawing = elevation(job, solution, run, &show)?;
    Some(on_its_own(&drawing))
}

/// The posts that are cut together with one of a run, on trestles, as SVG; none while they have no
/// marks.
#[must_use]
pub fn svg_trestles(job: &Job, solution: &Solution, run: &RunId, n: usize) -> Option<String> {
    let drawing = trestles(job, solution, run, Some(n))?;
    Some(on_its_own(&drawing))
}

/// The leaf of a run's gate as SVG; none while its height is not known.
#[must_use]
pub fn svg_gate(job: &Job, solution: &Solution, run: &RunId, index: usize) -> Option<String> {
    let drawing = gate_leaf(job, solution, run, index)?;
    Some(on_its_own(&drawing))
}

/// A corner with the longest of its check diagonals, as SVG; none where it is not known.
#[must_use]
pub fn svg_corner(job: &Job, solution: &Solution, corner: &CornerId) -> Option<String> {
    let checks = &solution.corners.get(corner)?.check;
    let arm = checks.iter().map(|check| check.arm).fold(0.0, f64::max);
    let drawing = corner_of(job, solution, corner, arm)?;
    Some(on_its_own(&drawing))
}
