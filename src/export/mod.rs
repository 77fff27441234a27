//! Drawings and the sheet for others to open: SVG, PDF and DXF.
//!
//! Everything here is made of the drawing model and the sheet's own text, so that no two of them
//! say different things. The same job gives the same bytes: no clock, no chance.

mod colours;
mod dxf;
mod pages;
mod pdf;
pub mod svg;

pub use dxf::dxf;
pub use pages::{Page, Paper, pages};
pub use pdf::{PdfError, pdf};

use crate::Solution;
use crate::drawing::{Detail, Drawing, PlanShow, Seen, Turn, plan};
use crate::job::Job;
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

/// Height that suits a drawing of this width on paper, pt.
#[must_use]
pub fn picture_height(drawing: &Drawing, width: f64, room: Room) -> f64 {
    // Words around what is drawn, pt, and the greatest share of the width.
    let (words, most) = match room {
        Room::Plan => (130.0, 0.68),
        Room::Strip => (70.0, 0.68),
        Room::Small => (70.0, 0.4),
    };
    let size = drawing.bounds.size();
    let own = (width - words).max(1.0) * size.y / size.x.max(1.0) + words;
    own.clamp(90.0, (width * most).max(90.0))
}
