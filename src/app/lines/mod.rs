//! Lines: the strings and the corners. A person stretches strings off walls, and learns the angle
//! where two of them cross.

pub mod corner;
mod diagonal;
mod nail;
pub mod stretch;
pub mod string;

use crate::app::adding::{self, onward};
use crate::app::bridge::{Bridge, PagePicture, Screen, Spec};
use crate::app::desk::{Desk, Then};
use crate::app::kit::{angle_pm, patched, plan_of, row, silence, status, told};
use crate::app::names::{along, string_names};
use crate::drawing::{Seen, Target};
use crate::job::model::{Corner, Line};
use slint::Global;
use std::rc::Rc;
use tautmark_ui::{App, LinesVm, Page, Place, RowItem, Verdict};

/// The place.
pub struct LinesPlace;

impl Screen for LinesPlace {
    fn spec(&self) -> Spec {
        Spec::place(Place::Lines, Page::Lines, "lines")
    }

    fn wire(&self, app: &App, bridge: &Rc<Bridge>) {
        let vm = LinesVm::get(app);
        vm.on_string_pressed(bridge.does_with(|desk, id| match id.parse() {
            Ok(index) => {
                desk.chosen.line = index;
                Then::Open(Page::Line)
            }
            Err(_) => Then::Stay,
        }));
        vm.on_corner_pressed(bridge.does_with(|desk, id| match id.parse() {
            Ok(index) => {
                desk.chosen.corner = index;
                Then::Open(Page::Corner)
            }
            Err(_) => Then::Stay,
        }));
        vm.on_add_string(bridge.does(adding::string::ask));
        vm.on_add_corner(bridge.does(adding::corner::ask));
        vm.on_onward_pressed(bridge.does(onward::go));
    }

    fn fill(&self, app: &App, desk: &Desk) -> bool {
        let vm = LinesVm::get(app);
        let job = desk.job();
        let strings = job
            .lines
            .iter()
            .enumerate()
            .map(|(i, line)| string_row(desk, i, line))
            .collect();
        vm.set_strings(patched(vm.get_strings(), strings));
        let corners = job
            .corners
            .iter()
            .enumerate()
            .map(|(i, corner)| corner_row(desk, i, corner));
        vm.set_corners(patched(vm.get_corners(), corners.collect()));
        vm.set_onward(onward::said(desk).into());
        let problem = desk
            .solution
            .problems
            .iter()
            .find(|p| p.place.is_in("lines") || p.place.is_in("corners"));
        vm.set_status(match (problem, job.lines.is_empty()) {
            (Some(problem), _) => told(problem, Verdict::Attention),
            (None, true) => status(
                Verdict::Note,
                "**No string yet.** Stretch one along a wall, so many mm off it, or through two marks.",
            ),
            (None, false) => silence(),
        });
        false
    }

    fn picture(&self, desk: &Desk) -> Option<PagePicture> {
        Some(strings(desk, None))
    }
}

/// The plan of the strings, with one thing stressed.
fn strings(desk: &Desk, chosen: Option<Target>) -> PagePicture {
    PagePicture::Drawing(plan_of(desk, |show| {
        show.readings = Seen::Hidden;
        show.posts = Seen::Hidden;
        show.chosen = chosen;
    }))
}

fn string_row(desk: &Desk, index: usize, line: &Line) -> RowItem {
    let solved = desk.solution.lines.contains_key(&line.id);
    let note = match solved {
        true => along(desk.job(), line),
        false => format!("{}; waits for its marks", along(desk.job(), line)),
    };
    let nails = line.offsets.as_ref().map_or(0, Vec::len);
    let figure = match nails {
        0 => String::new(),
        1 => "1 nail".to_owned(),
        more => format!("{more} nails"),
    };
    RowItem {
        verdict: if solved {
            Verdict::None
        } else {
            Verdict::Attention
        },
        ..row(&index.to_string(), line.called(), &note, &figure, "")
    }
}

fn corner_row(desk: &Desk, index: usize, corner: &Corner) -> RowItem {
    let [first, second] = string_names(desk.job(), corner);
    let title = format!("{first} meets {second}");
    match desk.solution.corners.get(&corner.id) {
        Some(fix) => {
            let figure = format!("{:.1}°", fix.angle);
            let note = format!("saw set at {:.1}°", fix.bevel);
            row(
                &index.to_string(),
                &title,
                &note,
                &figure,
                &angle_pm(fix.angle_pm),
            )
        }
        None => RowItem {
            verdict: Verdict::Attention,
            ..row(&index.to_string(), &title, "not settled yet", "", "")
        },
    }
}
