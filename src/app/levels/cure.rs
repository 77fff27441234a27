//! What cures the one sight that does not fit.

use super::figures::sight_down;
use super::sights::with_sight;
use super::standing::only_suspect;
use crate::app::desk::{Desk, Rows, Then};
use crate::app::kit::row;
use crate::app::names::said_down;

/// What cures the one sight that does not fit, as rows to press.
pub fn cures(desk: &Desk, rows: &mut Rows) {
    let Some(accused) = only_suspect(desk) else {
        return;
    };
    let (setup, at) = accused.fix.place;
    if let Some(hint) = accused.fix.suspect.as_ref().and_then(|one| one.hint) {
        let unit = desk.job().show.lengths;
        let title = format!("It was {}", said_down(hint.likely, unit));
        rows.push(row("", &title, "", "", ""), move |desk| {
            let likely = Some(hint.likely);
            let edit = with_sight(desk.saved(), setup, at, |sight| sight.down = likely);
            edit.map_or(Then::Stay, |edit| desk.change_and_say(edit, "Corrected."))
        });
    }
    let again = row("", "Sight it again", "", "", "");
    rows.push(again, move |desk| desk.ask(sight_down(setup, at)));
    let out = row("", "Leave it out", "it stays in the list", "", "");
    rows.push(out, move |desk| use_sight(desk, setup, at, false));
}

/// Leaves a sight out of the sums, or uses it again.
pub fn use_sight(desk: &mut Desk, setup: usize, at: usize, used: bool) -> Then {
    let text = if used {
        "Used again."
    } else {
        "Left out of the sums; it stays in the list."
    };
    let edit = with_sight(desk.saved(), setup, at, |sight| sight.used = used);
    edit.map_or(Then::Stay, |edit| desk.change_and_say(edit, text))
}
