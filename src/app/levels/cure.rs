//! What cures the one sight that does not fit.

use super::figures::SightDown;
use super::sights::with_sight;
use super::standing::only_suspect;
use crate::app::desk::{Desk, Then};
use crate::app::kit::words::row;
use crate::app::names::points::said_down;
use tautmark_ui::Item;

pub const LIKELY: &str = "likely";
pub const AGAIN: &str = "again";
pub const OUT: &str = "out";

/// What cures the one sight that does not fit, as rows to press.
pub fn cures(desk: &Desk) -> Vec<Item> {
    let Some(accused) = only_suspect(desk) else {
        return Vec::new();
    };
    let unit = desk.job().show.lengths;
    let hint = accused.fix.suspect.as_ref().and_then(|one| one.hint);
    let likely = hint.map(|hint| {
        let title = format!("It was {}", said_down(hint.likely, unit));
        row(LIKELY, &title, "", "", "")
    });
    let again = row(AGAIN, "Sight it again", "", "", "");
    let out = row(OUT, "Leave it out", "it stays in the list", "", "");
    likely.into_iter().chain([again, out]).collect()
}

/// Does what a row of [`cures`] says.
pub fn cure(desk: &mut Desk, id: &str) -> Then {
    let Some(accused) = only_suspect(desk) else {
        return Then::Stay;
    };
    let (setup, at) = accused.fix.place;
    let hint = accused.fix.suspect.as_ref().and_then(|one| one.hint);
    match id {
        AGAIN => {
            desk.ask(Box::new(SightDown { setup, at }));
            return Then::Keypad;
        }
        OUT => use_sight(desk, setup, at, false),
        LIKELY => {
            let edit = hint.and_then(|hint| {
                let likely = Some(hint.likely);
                with_sight(desk.saved(), setup, at, |sight| sight.down = likely)
            });
            if let Some(edit) = edit {
                desk.change_and_say(edit, "Corrected.");
            }
        }
        _ => {}
    }
    Then::Stay
}

/// Leaves a sight out of the sums, or uses it again.
pub fn use_sight(desk: &mut Desk, setup: usize, at: usize, used: bool) {
    let text = if used {
        "Used again."
    } else {
        "Left out of the sums; it stays in the list."
    };
    if let Some(edit) = with_sight(desk.saved(), setup, at, |sight| sight.used = used) {
        desk.change_and_say(edit, text);
    }
}
