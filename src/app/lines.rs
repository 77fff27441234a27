//! Lines: the strings and the corners.

use super::rows::patched;
use super::words::{row, silence, status};
use super::{Bridge, Desk, Then, add_line, corner_page, string_page};
use crate::job::Job;
use crate::job::model::{Corner, Line, Side};
use slint::Global;
use std::rc::Rc;
use tautmark_ui::{App, Item, LinesVm, Nav, Page, Place, Verdict};

pub(super) fn wire(app: &App, bridge: &Rc<Bridge>) {
    let vm = LinesVm::get(app);
    let at = bridge.clone();
    vm.on_string_pressed(move |id| {
        at.act(|desk| match id.parse() {
            Ok(index) => {
                desk.chosen.line = index;
                Then::Open(Page::Line)
            }
            Err(_) => Then::Stay,
        })
    });
    let at = bridge.clone();
    vm.on_corner_pressed(move |id| {
        at.act(|desk| match id.parse() {
            Ok(index) => {
                desk.chosen.corner = index;
                desk.chosen.diagonal = None;
                Then::Open(Page::Corner)
            }
            Err(_) => Then::Stay,
        })
    });
    let at = bridge.clone();
    vm.on_add_string(move || at.act(add_line::string));
    let at = bridge.clone();
    vm.on_add_corner(move || at.act(add_line::corner));
}

pub(super) fn fill(app: &App, desk: &Desk) {
    let nav = Nav::get(app);
    if nav.get_place() != Place::Lines {
        return;
    }
    match nav.get_page() {
        Page::Line => string_page::fill(app, desk),
        Page::Corner => corner_page::fill(app, desk),
        _ => fill_lists(app, desk),
    }
}

fn fill_lists(app: &App, desk: &Desk) {
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
    let problem = desk
        .solution
        .problems
        .iter()
        .find(|p| p.place.starts_with("lines[") || p.place.starts_with("corners["));
    vm.set_status(match (problem, job.lines.is_empty()) {
        (Some(problem), _) => status(
            Verdict::Attention,
            &format!("**{}** {}", problem.text, problem.remedy),
        ),
        (None, true) => status(
            Verdict::Note,
            "**No string yet.** Stretch one along a wall, so many mm off it, or through two marks.",
        ),
        (None, false) => silence(),
    });
}

pub(super) fn along(job: &Job, line: &Line) -> String {
    match (&line.wall, &line.marks) {
        (Some(id), _) => {
            let wall = job.walls.iter().find(|wall| wall.id == *id);
            let name = wall.map_or(id.as_str(), |wall| wall.called());
            let side = match line.side {
                Some(Side::Right) => "right of",
                _ => "left of",
            };
            format!("{side} {name}")
        }
        (None, Some([from, to])) => format!("through {from} and {to}"),
        (None, None) => "not placed yet".to_owned(),
    }
}

fn string_row(desk: &Desk, index: usize, line: &Line) -> Item {
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
    Item {
        verdict: if solved {
            Verdict::None
        } else {
            Verdict::Attention
        },
        ..row(&index.to_string(), line.called(), &note, &figure, "")
    }
}

pub(super) fn names(job: &Job, corner: &Corner) -> [String; 2] {
    corner.lines.each_ref().map(|id| {
        let line = job.lines.iter().find(|line| line.id == *id);
        line.map_or(id.as_str(), Line::called).to_owned()
    })
}

fn corner_row(desk: &Desk, index: usize, corner: &Corner) -> Item {
    let [first, second] = names(desk.job(), corner);
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
        None => Item {
            verdict: Verdict::Attention,
            ..row(&index.to_string(), &title, "not settled yet", "", "")
        },
    }
}

/// ± of an angle, degrees; never less than the last digit shows.
pub(super) fn angle_pm(pm: f64) -> String {
    format!("±\u{a0}{:.1}", pm.max(0.05))
}
