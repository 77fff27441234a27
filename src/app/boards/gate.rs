//! The gate: its leaf, brace and lock in one picture, with every figure and what to buy for it.

use super::front;
use crate::app::bridge::{FormScreen, PagePicture, Spec};
use crate::app::desk::{Desk, Then};
use crate::app::kit::{FormButton, FormContents, FormRow, heading, result};
use crate::app::names::{run_called, said_down};
use crate::boards::{GateLeaf, LockFix};
use crate::cautions::{GATE, SAWING};
use crate::drawing;
use crate::job::model::Run;
use crate::length::{self, Unit};
use crate::quick::brace::Brace;
use tautmark_ui::{Page, Place, Verdict};

/// The page.
pub static GATE_PAGE: FormScreen = FormScreen {
    title: |desk| {
        let gate = in_sight(desk);
        gate.map_or_else(
            || "The gate".to_owned(),
            |gate| {
                let run = run_called(desk.job(), &gate.run.id);
                format!("Gate, posts {} to {} · {run}", gate.made.from, gate.made.to)
            },
        )
    },
    picture: |desk| {
        let leaf = in_sight(desk).and_then(|gate| {
            let (job, solution) = (desk.job(), &desk.solution);
            drawing::gate_leaf(job, solution, &gate.run.id, gate.made.index)
        });
        Some(leaf.map_or_else(|| front(desk), PagePicture::Drawing))
    },
    ..FormScreen::new(Spec::inside(Place::Boards, Page::Gate, "gate"), contents)
};

/// A gate that has a leaf.
struct Hanging<'a> {
    run: &'a Run,
    made: &'a GateLeaf,
}

fn all(desk: &Desk) -> Vec<Hanging<'_>> {
    let runs = desk.job().runs.iter();
    let gates = runs.flat_map(|run| {
        let boards = desk.solution.boards.get(&run.id);
        let made = boards.into_iter().flat_map(|boards| &boards.gates);
        made.filter_map(move |made| {
            run.gates.get(made.index)?.leaf.as_ref()?;
            Some(Hanging { run, made })
        })
    });
    gates.collect()
}

fn in_sight(desk: &Desk) -> Option<Hanging<'_>> {
    let mut all = all(desk);
    let last = all.len().checked_sub(1)?;
    Some(all.swap_remove(desk.chosen.gate.min(last)))
}

/// The leaf of the gate in a line; `None` where the job has no leaf.
#[must_use]
pub fn standing(desk: &Desk) -> Option<String> {
    let all = all(desk);
    let unit = desk.job().show.lengths;
    let first = all.first()?;
    let leaf = size(first.made, unit);
    Some(match all.len() {
        1 => format!("leaf {leaf}"),
        n => format!("{n} gates, the first {leaf}"),
    })
}

/// “1 015 by 1 640 mm”; the width alone while the height is not known.
fn size(made: &GateLeaf, unit: Unit) -> String {
    match made.height {
        Some(height) => format!(
            "{} by {}",
            length::show(made.width, unit),
            length::show_with_unit(height, unit)
        ),
        None => format!("{} wide", length::show_with_unit(made.width, unit)),
    }
}

/// Opens the first gate.
pub fn open(desk: &mut Desk) -> Then {
    desk.chosen.gate = 0;
    Then::Open(Page::Gate)
}

fn contents(desk: &Desk) -> FormContents {
    let Some(gate) = in_sight(desk) else {
        let text = "**No gate has a leaf yet.** Give its gaps where the run is set up.";
        return FormContents::new(Vec::new()).saying(Verdict::Note, text);
    };
    let unit = desk.job().show.lengths;
    let mut rows = leaf_rows(&gate, unit);
    rows.extend(
        gate.made
            .brace
            .iter()
            .flat_map(|brace| brace_rows(brace, unit)),
    );
    rows.extend(gate.made.lock.iter().flat_map(|lock| lock_rows(lock, unit)));
    rows.extend(buy_rows(&gate));
    let mut contents = FormContents::new(rows);
    contents.cautions = &[GATE, SAWING];
    if desk.chosen.gate + 1 < all(desk).len() {
        contents.primary = Some(FormButton::new("The next gate", |desk| {
            desk.chosen.gate += 1;
            Then::Stay
        }));
    }
    if desk.chosen.gate > 0 {
        contents.secondary = Some(FormButton::new("The gate before", |desk| {
            desk.chosen.gate = desk.chosen.gate.saturating_sub(1);
            Then::Stay
        }));
    }
    let text = "**Measure the opening at the top, the middle and the bottom** before you make the \
                leaf, and use the least.";
    contents.saying(Verdict::None, text)
}

fn shown(label: &str, mm: f64, unit: Unit, why: &'static str) -> FormRow {
    let explain = move |desk: &mut Desk| desk.explain("Where it comes from", why);
    result(label, &length::show(mm, unit), unit.name(), explain)
}

fn leaf_rows(gate: &Hanging<'_>, unit: Unit) -> Vec<FormRow> {
    let made = gate.made;
    let opening = "From face to face of the two gate posts.";
    let width = "The opening less the gaps at the hinges and at the latch.";
    let height = "From its bottom, the gap over the highest ground on the line of the opening, to \
                  the lower of the two posts’ tops.";
    let ledge = "The leaf’s width less both stiles.";
    let mut rows = vec![
        heading(&format!("Leaf, hung on post {}", made.hung)),
        shown("Opening", made.clear, unit, opening),
        shown("Width of the leaf", made.width, unit, width),
    ];
    rows.extend(
        made.height
            .map(|mm| shown("Height of the leaf", mm, unit, height)),
    );
    if let Some(down) = made.down {
        let down = said_down(down, unit);
        let explain = move |desk: &mut Desk| desk.explain("Where it comes from", height);
        rows.push(result(
            "Its bottom, from the laser line",
            &down,
            "",
            explain,
        ));
    }
    rows.push(shown("Ledges, between the stiles", made.ledge, unit, ledge));
    rows
}

const BRACE: &str = "From the bottom of the hinge stile to the top of the latch stile, inner \
                     corner to inner corner: it carries the latch side down to the hinges.";

fn brace_rows(brace: &Brace, unit: Unit) -> Vec<FormRow> {
    let explain = |desk: &mut Desk| desk.explain("Where it comes from", BRACE);
    let degrees =
        |label: &str, degrees: f64| result(label, &format!("{degrees:.1}°"), "off square", explain);
    vec![
        heading("Brace, from the foot of the hinge side"),
        shown("Length, corner to corner", brace.length, unit, BRACE),
        degrees("Saw set along the ledges", brace.off_square),
        degrees("Saw set along the stiles", brace.to_stile),
    ]
}

fn lock_rows(lock: &LockFix, unit: Unit) -> Vec<FormRow> {
    let seen = "With packing as wide as this, the handle is in the middle of stile and packing as \
                they are seen.";
    let packing = "The lock’s case is wider than the stile: a piece beside it, as thick as the \
                   frame, carries the rest.";
    let shaft = "Through frame and face, and the turned offcut where there is one; what the handles \
                 need comes on top.";
    let offcut = "The offcut of the tapered board, turned over under the lock, as thick as this at \
                  the lock.";
    let placed = "From the leaf’s bottom, and from its latch edge.";
    let mut rows = vec![
        heading("Lock"),
        shown("Centre above the leaf’s bottom", lock.height, unit, placed),
        shown("Spindle from the leaf’s edge", lock.from_edge, unit, placed),
    ];
    let rest = [
        ("Packing beside the stile", lock.packing, packing),
        (
            "Packing that centres the handle",
            lock.packing_to_centre,
            seen,
        ),
        ("Turned offcut under it", lock.offcut, offcut),
        ("Shaft passes through", Some(lock.shaft), shaft),
    ];
    rows.extend(
        rest.into_iter()
            .filter_map(|(label, mm, why)| Some(shown(label, mm?, unit, why))),
    );
    rows
}

/// What is bought for this gate alone.
fn buy_rows(gate: &Hanging<'_>) -> Vec<FormRow> {
    let explain = |desk: &mut Desk| {
        desk.explain(
            "What to buy for it",
            "Two hinges to a leaf, three to a tall one, as long and as strong as its weight needs: their maker says. The \
             lock where the job has one. Frame, ledges and brace are in no cut list: cut them to the \
             opening as it is measured.",
        )
    };
    let count = |label: &str, n: usize| result(label, &n.to_string(), "", explain);
    let mut rows = vec![
        heading("To buy for it"),
        count("Hinges", gate.made.hinges()),
    ];
    if gate.made.lock.is_some() {
        rows.push(count("Lock with its handles", 1));
    }
    rows
}
