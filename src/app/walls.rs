//! Walls: the readings, how they stand, and what cures the one that does not fit.

use super::reading_figure::{ReadingFigure, with_length};
use super::rows::patched;
use super::standing::{another_tape, misfitting, standing};
use super::words::{capital, checked, row};
use super::{Bridge, Desk, Then, add_reading};
use crate::job::edit::Edit;
use crate::job::reading::{Measure as Reading, Reading as Row};
use crate::job::{Job, MarkId};
use crate::length::{self, Unit};
use crate::site::{ReadingFix, SuspectFix};
use slint::Global;
use std::rc::Rc;
use tautmark_ui::{App, Item, Nav, Page, Place, Remedy, Verdict, WallsVm};

pub(super) fn wire(app: &App, bridge: &Rc<Bridge>) {
    let vm = WallsVm::get(app);
    let at = bridge.clone();
    vm.on_remedied(move |id| at.act(|desk| cure(desk, &id)));
    let at = bridge.clone();
    vm.on_advised_pressed(move || at.act(tape_advised));
    let at = bridge.clone();
    vm.on_settings_pressed(move || at.act(|_| Then::Open(Page::Settings)));
}

pub(super) fn fill(app: &App, desk: &Desk) {
    let nav = Nav::get(app);
    if (nav.get_page(), nav.get_place()) != (Page::Work, Place::Walls) {
        return;
    }
    let vm = WallsVm::get(app);
    vm.set_status(standing(desk));
    let (best, others) = cures(desk);
    vm.set_cure(best.unwrap_or_default());
    vm.set_others(patched(vm.get_others(), others));
    let next = advised(desk).map(|(from, to)| format!("Tape {from} to {to}"));
    vm.set_advised(next.unwrap_or_default().into());
    let network = &desk.solution.network;
    vm.set_advised_first(!network.loose.is_empty() || !network.suspects.is_empty());
    let mut readings: Vec<_> = desk.job().readings.iter().enumerate().collect();
    // What does not fit stands first, where it is seen.
    readings.sort_by_key(|(index, _)| !desk.solution.network.suspects.contains(index));
    let rows = readings.into_iter();
    let rows = rows.map(|(index, reading)| reading_row(desk, index, reading));
    vm.set_readings(patched(vm.get_readings(), rows.collect()));
    vm.set_settings(settings(desk).into());
}

/// What the job goes by, in a line.
fn settings(desk: &Desk) -> String {
    if desk.open().is_none() {
        return String::new();
    }
    let job = desk.job();
    let unit = match job.show.lengths {
        Unit::Mm => "mm",
        Unit::M => "m",
        Unit::FtIn(_) => "feet and inches",
    };
    format!("tape of class {}, lengths in {unit}", job.tape.class)
}

/// What a reading is of: “A to C”.
#[must_use]
pub fn reading_title(reading: &Row) -> String {
    match &reading.what {
        Reading::Tape { from, to, .. } => format!("{from} to {to}"),
        Reading::Offset { mark, wall, .. } => format!("{mark} off {wall}"),
        Reading::Inline { mark, with, .. } => format!("{mark} on {} to {}", with[0], with[1]),
        Reading::Angle { from, at, to, .. } => format!("angle at {at}, {from} to {to}"),
        Reading::Other { kind } => kind.clone(),
    }
}

fn reading_row(desk: &Desk, index: usize, reading: &Row) -> Item {
    let unit = desk.job().show.lengths;
    let id = index.to_string();
    let figure = match &reading.what {
        Reading::Tape { length, .. } | Reading::Offset { length, .. } => {
            length.map_or_else(|| "—".to_owned(), |mm| length::show(mm, unit))
        }
        Reading::Angle { degrees, .. } => {
            degrees.map_or_else(|| "—".to_owned(), |degrees| format!("{degrees:.1}°"))
        }
        Reading::Inline { .. } | Reading::Other { .. } => String::new(),
    };
    let fix = desk.solution.readings.iter().find(|fix| fix.index == index);
    let (note, verdict) = reading_note(desk, reading, fix);
    let tail = fix
        .map(|_| sureness(desk.job(), reading))
        .unwrap_or_default();
    Item {
        verdict,
        selected: desk.chosen.reading == Some(index),
        left_out: !reading.used,
        ..row(
            &id,
            &capital(&reading_title(reading)),
            &note,
            &figure,
            &tail,
        )
    }
}

/// Where the ± of a reading comes from, and how well the others check it, in a sentence or two.
pub(super) fn how_sure(desk: &Desk, index: usize) -> String {
    let job = desk.job();
    let Some(reading) = job.readings.get(index) else {
        return String::new();
    };
    let pm = sureness(job, reading);
    let own = match &reading.what {
        Reading::Angle { .. } => format!("{pm}, from how well an angle is read."),
        Reading::Inline { .. } | Reading::Other { .. } => {
            "From how well a mark is lined up on a string.".to_owned()
        }
        _ => format!(
            "{pm}, from how well one reading of the tape is taken, and from what pull, sag and heat change over its length.{}",
            another_tape(job, reading)
        ),
    };
    let fix = desk.solution.readings.iter().find(|fix| fix.index == index);
    let others = match fix {
        Some(fix) if fix.redundancy < 1e-6 => {
            " No other reading checks it: one more tape to either of its marks would.".to_owned()
        }
        Some(fix) => format!(
            " The other readings bear {:.0} in 100 of it: a slip shows the sooner, the more they bear.",
            100.0 * fix.redundancy
        ),
        None => String::new(),
    };
    own + &others
}

/// ± of one reading by itself, 95 %.
fn sureness(job: &Job, reading: &Row) -> String {
    match &reading.what {
        Reading::Tape {
            length: Some(mm), ..
        }
        | Reading::Offset {
            length: Some(mm), ..
        } => {
            let sd = job.tape.sd(*mm);
            length::show_pm(crate::site::PM * sd, job.show.lengths)
        }
        Reading::Angle { sd, .. } => format!("±\u{a0}{:.1}°", crate::site::PM * sd),
        _ => String::new(),
    }
}

fn reading_note(desk: &Desk, reading: &Row, fix: Option<&ReadingFix>) -> (String, Verdict) {
    let unit = desk.job().show.lengths;
    let angle = matches!(reading.what, Reading::Angle { .. });
    let say = |value: f64| match angle {
        true => format!("{:.1}°", value.abs()),
        false => length::show_fine(value.abs(), unit, 1),
    };
    let Some(fix) = fix else {
        let note = match (reading.used, is_missing(reading)) {
            (false, _) => "left out",
            (true, true) => "not read yet",
            (true, false) => "cannot be used; see the sheet",
        };
        return (
            note.to_owned(),
            if reading.used {
                Verdict::Attention
            } else {
                Verdict::None
            },
        );
    };
    if let Some(SuspectFix { slip, .. }) = &fix.suspect {
        let way = if *slip > 0.0 { "too long" } else { "too short" };
        let by = say(*slip);
        // Of several that could be the wrong one, none is accused.
        return match misfitting(desk) {
            Some(_) => (format!("does not fit: {by} {way}"), Verdict::Bad),
            None => (format!("may be {by} {way}"), Verdict::Attention),
        };
    }
    if fix.redundancy < 1e-6 {
        return ("nothing checks it".to_owned(), Verdict::None);
    }
    if !desk.solution.network.suspects.is_empty() {
        return (
            "not judged while one does not fit".to_owned(),
            Verdict::None,
        );
    }
    (checked(fix.residual, say), Verdict::None)
}

pub(super) fn is_missing(reading: &Row) -> bool {
    matches!(
        &reading.what,
        Reading::Tape { length: None, .. }
            | Reading::Offset { length: None, .. }
            | Reading::Angle { degrees: None, .. }
    )
}

fn cures(desk: &Desk) -> (Option<Remedy>, Vec<Remedy>) {
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
            "likely",
            format!("It was {}", length::show(hint.likely, unit)),
        )
    });
    let others = vec![
        remedy("again", "Tape it again".to_owned()),
        remedy("out", "Leave it out".to_owned()),
    ];
    (likely, others)
}

fn cure(desk: &mut Desk, id: &str) -> Then {
    let Some(&index) = desk.solution.network.suspects.first() else {
        return Then::Stay;
    };
    match id {
        "again" => return ask_reading(desk, index),
        "out" => {
            if let Some(edit) = Edit::use_reading(desk.saved(), index, false) {
                desk.change_and_say(edit, "Left out of the sums; it stays in the list.");
            }
        }
        _ => {
            let fix = desk.solution.readings.iter().find(|fix| fix.index == index);
            let hint = fix.and_then(|fix| fix.suspect.as_ref()?.hint);
            let edit = hint.and_then(|hint| with_length(desk.saved(), index, hint.likely));
            if let Some(edit) = edit {
                desk.change_and_say(edit, "Corrected.");
            }
        }
    }
    Then::Stay
}

/// The tape worth taking next; `None` where a reading is to be put right first.
fn advised(desk: &Desk) -> Option<(MarkId, MarkId)> {
    let next = desk.solution.advice.as_ref()?;
    let one_wrong = desk.solution.network.suspects.len() == 1;
    (!one_wrong).then(|| (next.from.clone(), next.to.clone()))
}

/// Asks for the figure of the advised tape, which joins the list where it is not in it yet.
fn tape_advised(desk: &mut Desk) -> Then {
    let Some((from, to)) = advised(desk) else {
        return Then::Stay;
    };
    let waits = |reading: &Row| match &reading.what {
        Reading::Tape {
            from: a,
            to: b,
            length: None,
            ..
        } => reading.used && ((a, b) == (&from, &to) || (a, b) == (&to, &from)),
        _ => false,
    };
    match desk.saved().readings.iter().position(waits) {
        Some(index) => ask_reading(desk, index),
        None => add_reading::tape(desk, &[from, to]),
    }
}

fn ask_reading(desk: &mut Desk, index: usize) -> Then {
    let Some(reading) = desk.saved().readings.get(index) else {
        return Then::Stay;
    };
    if matches!(reading.what, Reading::Inline { .. } | Reading::Other { .. }) {
        return Then::Stay;
    }
    let field = ReadingFigure::of(desk.saved(), index);
    desk.ask(Box::new(field));
    Then::Keypad
}
