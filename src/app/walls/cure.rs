//! What cures the reading that does not fit, the tape worth taking next, and what can be done with a
//! reading.

use super::add;
use super::figures::{ReadingFigure, SlopeFigure, with_length};
use super::sure::how_sure;
use crate::app::desk::{Desk, Menu, Then};
use crate::app::kit::words::capital;
use crate::app::names::readings::reading_title;
use crate::job::MarkId;
use crate::job::edit::{Change, Edit};
use crate::job::reading::{Measure, Reading};
use crate::length;
use tautmark_ui::Remedy;

const LIKELY: &str = "likely";
const AGAIN: &str = "again";
const OUT: &str = "out";

/// The likeliest cure, where there is one, and the others.
pub fn cures(desk: &Desk) -> (Option<Remedy>, Vec<Remedy>) {
    let suspects = &desk.solution.network.suspects;
    let [only] = suspects.as_slice() else {
        return (None, Vec::new());
    };
    let unit = desk.job().show.lengths;
    let fix = desk.solution.readings.iter().find(|fix| fix.index == *only);
    let hint = fix.and_then(|fix| fix.suspect.as_ref()?.hint);
    let remedy = |id: &str, label: String| Remedy {
        id: id.into(),
        label: label.into(),
    };
    let likely = hint.map(|hint| {
        remedy(
            LIKELY,
            format!("It was {}", length::show(hint.likely, unit)),
        )
    });
    let others = vec![
        remedy(AGAIN, "Tape it again".to_owned()),
        remedy(OUT, "Leave it out".to_owned()),
    ];
    (likely, others)
}

/// Does what a cure of this id says.
pub fn cure(desk: &mut Desk, id: &str) -> Then {
    let Some(&index) = desk.solution.network.suspects.first() else {
        return Then::Stay;
    };
    match id {
        AGAIN => return ask_reading(desk, index),
        OUT => {
            if let Some(edit) = Edit::use_reading(desk.saved(), index, false) {
                desk.change_and_say(edit, "Left out of the sums; it stays in the list.");
            }
        }
        LIKELY => {
            let fix = desk.solution.readings.iter().find(|fix| fix.index == index);
            let hint = fix.and_then(|fix| fix.suspect.as_ref()?.hint);
            let edit = hint.and_then(|hint| with_length(desk.saved(), index, hint.likely));
            if let Some(edit) = edit {
                desk.change_and_say(edit, "Corrected.");
            }
        }
        _ => {}
    }
    Then::Stay
}

/// The tape worth taking next; `None` where a reading is to be put right first.
pub fn advised(desk: &Desk) -> Option<(MarkId, MarkId)> {
    let next = desk.solution.advice.as_ref()?;
    let one_wrong = desk.solution.network.suspects.len() == 1;
    (!one_wrong).then(|| (next.from.clone(), next.to.clone()))
}

/// Asks for the figure of the advised tape, which joins the list where it is not in it yet.
pub fn tape_advised(desk: &mut Desk) -> Then {
    let Some((from, to)) = advised(desk) else {
        return Then::Stay;
    };
    let waits = |reading: &Reading| match &reading.what {
        Measure::Tape {
            from: a,
            to: b,
            length: None,
            ..
        } => reading.used && ((a, b) == (&from, &to) || (a, b) == (&to, &from)),
        _ => false,
    };
    match desk.saved().readings.iter().position(waits) {
        Some(index) => ask_reading(desk, index),
        None => add::tape(desk, &[from, to]),
    }
}

fn ask_reading(desk: &mut Desk, index: usize) -> Then {
    let Some(reading) = desk.saved().readings.get(index) else {
        return Then::Stay;
    };
    if matches!(reading.what, Measure::Inline { .. } | Measure::Other { .. }) {
        return Then::Stay;
    }
    let figure = ReadingFigure::of(desk.saved(), index);
    desk.ask(Box::new(figure));
    Then::Keypad
}

/// Asks what to do with a reading.
pub fn about_reading(desk: &mut Desk, index: usize) -> Then {
    let Some(reading) = desk.saved().readings.get(index) else {
        return Then::Stay;
    };
    let figure = !matches!(reading.what, Measure::Inline { .. } | Measure::Other { .. });
    let tape = matches!(reading.what, Measure::Tape { .. });
    let used = reading.used;
    let menu = Menu::new(capital(&reading_title(reading)))
        .row_if(figure, "Enter its figure", "", move |desk| {
            ask_reading(desk, index)
        })
        .row_if(
            tape,
            "Taped on a slope",
            "how much higher one end was",
            move |desk| {
                desk.ask(Box::new(SlopeFigure { index }));
                Then::Keypad
            },
        )
        .row_if(
            used,
            "Leave it out",
            "it stays in the list and does not count",
            move |desk| use_reading(desk, index, false),
        )
        .row_if(!used, "Use it again", "", move |desk| {
            use_reading(desk, index, true)
        })
        .row("How sure it is", "where its ± comes from", move |desk| {
            let words = how_sure(desk, index);
            desk.explain("How sure it is", &words);
            Then::Stay
        })
        .row("Delete it", "", move |desk| {
            desk.chosen.reading = None;
            let edit = Edit::Reading(Change::Remove { at: index });
            desk.change_and_say(edit, "Reading deleted.");
            Then::Stay
        });
    (desk.chosen.reading, desk.chosen.mark) = (Some(index), None);
    desk.offer(menu)
}

fn use_reading(desk: &mut Desk, index: usize, used: bool) -> Then {
    if let Some(edit) = Edit::use_reading(desk.saved(), index, used) {
        desk.change(edit);
    }
    Then::Stay
}
