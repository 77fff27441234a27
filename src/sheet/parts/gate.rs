//! The gate: its leaf, its brace and its lock.

use super::super::document::{Cell, Section};
use super::{SheetDesk, pictures};
use crate::boards::{GateLeaf, LockFix};
use crate::cautions::GATE;
use crate::job::model::{Gate, Leaf, Opens};
use crate::job::{RunId, with_kind};
use crate::quick::brace::Brace;

pub fn section(desk: &SheetDesk<'_>) -> Option<Section> {
    let mut section = Section::new("The gate");
    for run in &desk.job.runs {
        let Some(boards) = desk.solution.boards.get(&run.id) else {
            continue;
        };
        for made in &boards.gates {
            let gate = run.gates.get(made.index);
            let Some((gate, leaf)) = gate.and_then(|gate| Some((gate, gate.leaf.as_ref()?))) else {
                continue;
            };
            if section.blocks.is_empty() {
                section.caution(GATE);
            }
            of_gate(desk, &run.id, gate, leaf, made, &mut section);
        }
    }
    (!section.blocks.is_empty()).then_some(section)
}

fn of_gate(
    desk: &SheetDesk<'_>,
    run: &RunId,
    gate: &Gate,
    leaf: &Leaf,
    made: &GateLeaf,
    section: &mut Section,
) {
    section.heading(format!(
        "{}, between posts {} and {}",
        super::super::phrase::sentence(&with_kind("run", run.as_str())),
        made.from,
        made.to
    ));
    let high = made.height.map_or_else(String::new, |height| {
        format!(" and {} high", desk.full(height))
    });
    let opens = match leaf.opens {
        Some(Opens::Front) => " It opens in front of the string.",
        Some(Opens::Behind) => " It opens behind the string.",
        None => "",
    };
    section.say(format!(
        "Leaf {} wide{high}, hung on post {}.{opens} Measure the opening at the top, middle and \
         bottom before making it, and use the least.",
        desk.full(made.width),
        made.hung
    ));
    section.pictures(
        pictures::of_leaf(desk, run, made.index)
            .into_iter()
            .collect(),
    );
    let mut list = vec![format!(
        "Frame of members {} wide and {} thick: ledges {} between the stiles.",
        desk.full(leaf.stile),
        desk.full(leaf.thick),
        desk.full(made.ledge)
    )];
    list.extend(made.brace.as_ref().map(|brace| brace_line(desk, brace)));
    if let (Some(lock), Some(_)) = (&made.lock, &gate.lock) {
        list.extend(lock_lines(desk, lock, leaf));
    }
    section.list(list);
}

fn brace_line(desk: &SheetDesk<'_>, brace: &Brace) -> String {
    format!(
        "Brace {} from the bottom of the hinge stile to the top of the latch stile, inner corner to \
         inner corner, at {:.2}° from the horizontal: cut {:.2}° off square along the ledges, \
         {:.2}° along the stiles.",
        desk.full(brace.length),
        brace.angle,
        brace.off_square,
        brace.to_stile
    )
}

fn lock_lines(desk: &SheetDesk<'_>, lock: &LockFix, leaf: &Leaf) -> Vec<String> {
    let level = lock.down.map_or_else(String::new, |down| {
        format!(
            " ({} from the laser line)",
            Cell::Down(down).shown(desk.unit)
        )
    });
    let mut list = vec![format!(
        "Lock {} above the leaf's bottom{level}, spindle {} from the leaf's edge.",
        desk.full(lock.height),
        desk.full(lock.from_edge)
    )];
    if let Some(packing) = lock.packing {
        list.push(format!(
            "Its case is wider than the stile: pack {} beside the stile, away from the edge, as \
             thick as the frame.",
            desk.full(packing)
        ));
    }
    list.push(handle(desk, lock, leaf));
    let offcut = lock.offcut.map_or_else(String::new, |offcut| {
        format!(
            ", with an offcut of the face board turned over under the lock, {} thick there",
            desk.full(offcut)
        )
    });
    list.push(format!(
        "The shaft passes through {}{offcut}; what the handles need comes on top.",
        desk.full(lock.shaft)
    ));
    list
}

/// Where the handle sits, and what it costs to have it in the middle.
fn handle(desk: &SheetDesk<'_>, lock: &LockFix, leaf: &Leaf) -> String {
    let off = |mm: f64| {
        if mm.abs() < 0.5 {
            "in the middle".to_owned()
        } else {
            format!("{} off the middle", desk.full(mm.abs()))
        }
    };
    let mut said = format!(
        "The handle is {} of stile and packing, and {} of the stile alone.",
        off(lock.off_seen),
        off(lock.off_stile)
    );
    if let Some(packing) = lock
        .packing_to_centre
        .filter(|_| lock.off_seen.abs() >= 0.5)
    {
        said.push_str(&format!(
            " Packing of {} brings it to the middle of what is seen.",
            desk.full(packing)
        ));
    }
    if lock.off_stile.abs() >= 0.5 {
        said.push_str(&format!(
            " In the middle of the stile it needs a lock whose spindle is {} from the edge.",
            desk.full(leaf.stile / 2.0)
        ));
    }
    said
}
