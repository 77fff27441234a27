//! What cures the reading that does not fit, the tape worth taking next, and what can be done with a
//! reading.

use super::add;
use super::figures::{figure_of, slope_of, with_length};
use super::sure::how_sure;
use crate::app::desk::{Desk, Menu, Rows, Then};
use crate::app::kit::{capital, row};
use crate::app::names::reading_title;
use crate::job::MarkId;
use crate::job::edit::{Change, Edit};
use crate::job::reading::{Measure, Reading};
use crate::length;

/// What cures the reading that does not fit, as rows to press; and whether the first of them is its
/// likeliest figure.
pub fn cures(desk: &Desk) -> (bool, Rows) {
    let mut rows = Rows::default();
    let [index] = desk.solution.network.suspects[..] else {
        return (false, rows);
    };
    let mut fixes = desk.solution.readings.iter();
    let fix = fixes.find(|fix| fix.index == index);
    let hint = fix.and_then(|fix| fix.suspect.as_ref()?.hint);
    if let Some(hint) = hint {
        let likely = length::show(hint.likely, desk.job().show.lengths);
        let was = row("", &format!("It was {likely}"), "", "", "");
        rows.push(was, move |desk| {
            let edit = with_length(desk.saved(), index, hint.likely);
            edit.map_or(Then::Stay, |edit| desk.change_and_say(edit, "Corrected."))
        });
    }
    let again = row("", "Tape it again", "", "", "");
    rows.push(again, move |desk| ask_reading(desk, index));
    rows.push(row("", "Leave it out", "", "", ""), move |desk| {
        let edit = Edit::use_reading(desk.saved(), index, false);
        edit.map_or(Then::Stay, |edit| {
            desk.change_and_say(edit, "Left out of the sums; it stays in the list.")
        })
    });
    (hint.is_some(), rows)
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
    desk.ask(figure_of(desk.saved(), index))
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
            move |desk| desk.ask(slope_of(index)),
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
            desk.explain("How sure it is", &words)
        })
        .row("Delete it", "", move |desk| {
            desk.chosen.reading = None;
            let edit = Edit::Reading(Change::Remove { at: index });
            desk.change_and_say(edit, "Reading deleted.")
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
