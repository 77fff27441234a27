//! How the posts of a run stand: in holes, on plates, or fixed to the wall that an end is at.

use super::change::{Which, change};
use crate::app::desk::{Desk, Menu, Then};
use crate::app::kit::{FormRow, choice, small};
use crate::drawing::foot_small;
use crate::job::model::{Foot, Run};
use tautmark_ui::PaintedDrawing;

fn pictures(feet: &[Foot]) -> Vec<PaintedDrawing> {
    let drawn = feet.iter().map(|foot| small(&foot_small(*foot)));
    drawn.collect()
}

/// How every post of the run stands, but for those at its ends that stand another way.
pub fn of_run(at: usize, run: &Run) -> FormRow {
    let feet = [("In holes", Foot::Hole), ("On plates", Foot::Plate)];
    let there = run.foot.unwrap_or_default();
    let row = choice("The posts stand", feet, Some(there), move |desk, foot| {
        change(desk, at, |run| run.foot = Some(foot))
    });
    row.pictured(pictures(&[Foot::Hole, Foot::Plate]))
}

/// How the post at an end stands; only where that is at a wall.
pub fn of_end(at: usize, run: &Run, which: Which) -> Option<FormRow> {
    let end = which.of(run)?;
    end.wall.as_ref()?;
    let feet = [
        ("On the wall", Foot::Wall),
        ("In a hole", Foot::Hole),
        ("On a plate", Foot::Plate),
    ];
    let label = match which {
        Which::Start => "The first post stands",
        Which::End => "The last post stands",
    };
    let there = end.foot.or(run.foot).unwrap_or_default();
    let row = choice(label, feet, Some(there), move |desk, foot| {
        put(desk, at, which, foot)
    });
    Some(row.pictured(pictures(&[Foot::Wall, Foot::Hole, Foot::Plate])))
}

fn put(desk: &mut Desk, at: usize, which: Which, foot: Foot) -> Then {
    change(desk, at, |run| {
        if let Some(end) = which.of_mut(run) {
            end.foot = Some(foot);
        }
    })
}

/// Asks how the post stands at the end that was just tied to a wall.
pub fn ask(desk: &mut Desk, at: usize, which: Which) -> Then {
    let menu = Menu::new("How does the post at the wall stand?")
        .row(
            "Fixed to the wall",
            "no hole; its length and its bolts follow",
            move |desk| put(desk, at, which, Foot::Wall),
        )
        .row(
            "In a hole",
            "beside the wall, clear of its footing",
            move |desk| put(desk, at, which, Foot::Hole),
        )
        .row("On a plate", "", move |desk| {
            put(desk, at, which, Foot::Plate)
        });
    desk.offer(menu)
}
