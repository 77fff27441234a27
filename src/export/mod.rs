//! Drawings and the sheet for others to open: SVG, PDF and DXF.
//!
//! Everything here is made of the drawing model and the sheet's own text, so that no two of them
//! say different things. The same job gives the same bytes: no clock, no chance.

mod colours;
pub mod svg;

use crate::Solution;
use crate::drawing::{Detail, Drawing, PlanShow, Seen, Turn, plan};
use crate::job::Job;

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
