//! Walls: what is there. A person tapes from mark to mark, sees what is loose and which tape to take
//! next, and puts right the reading that does not fit.

pub mod add;
mod cure;
pub mod figures;
pub mod standing;
mod sure;

use crate::app::adding::onward;
use crate::app::bridge::{Bridge, PagePicture, Screen, Spec};
use crate::app::desk::{Desk, Then};
use crate::app::kit::{capital, checked, patched, plan_of, row};
use crate::app::names::{is_missing, reading_title};
use crate::drawing::{Seen, Target};
use crate::job::reading::{Measure, Reading};
use crate::length::{self, Unit};
use crate::site::{ReadingFix, SuspectFix};
use cure::{about_reading, advised, cures};
use slint::Global;
use standing::{misfitting, standing};
use std::rc::Rc;
use sure::sureness;
use tautmark_ui::{App, Page, Place, Remedy, RowItem, Verdict, WallsVm};

/// The place.
pub struct WallsPlace;

impl Screen for WallsPlace {
    fn spec(&self) -> Spec {
        Spec::place(Place::Walls, Page::Walls, "walls")
    }

    fn wire(&self, app: &App, bridge: &Rc<Bridge>) {
        let vm = WallsVm::get(app);
        vm.on_remedied(bridge.does_with(|desk, id| cures(desk).1.press(desk, id)));
        vm.on_advised_pressed(bridge.does(cure::tape_advised));
        vm.on_settings_pressed(bridge.does(|_| Then::Open(Page::Settings)));
        vm.on_add_reading(bridge.does(add::what_to_add));
        vm.on_onward_pressed(bridge.does(onward::go));
        vm.on_reading_pressed(bridge.does_with(|desk, id| match id.parse() {
            Ok(index) => about_reading(desk, index),
            Err(_) => Then::Stay,
        }));
    }

    fn fill(&self, app: &App, desk: &Desk) -> bool {
        let vm = WallsVm::get(app);
        vm.set_status(standing(desk));
        let (likely, cures) = cures(desk);
        let mut cures = cures.items().into_iter().map(|cure| Remedy {
            id: cure.id,
            label: cure.title,
        });
        vm.set_cure(likely.then(|| cures.next()).flatten().unwrap_or_default());
        vm.set_others(patched(vm.get_others(), cures.collect()));
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
        let onward = match desk.saved().runs.is_empty() {
            true => onward::said(desk),
            false => String::new(),
        };
        vm.set_onward(onward.into());
        false
    }

    fn picture(&self, desk: &Desk) -> Option<PagePicture> {
        Some(PagePicture::Drawing(plan_of(desk, |show| {
            show.posts = Seen::Hidden;
            show.chosen = desk.chosen.target(desk.job());
        })))
    }

    /// A new mark is put where the plan is pressed, while one is asked for.
    fn drawing_pressed(&self, desk: &mut Desk, on: Option<&Target>, at: [f64; 2]) -> Then {
        if desk.placing {
            return add::place_mark(desk, at);
        }
        match on {
            Some(Target::Mark(id)) => add::mark_pressed(desk, id),
            Some(target) => desk.pick(target),
            None => Then::Stay,
        }
    }
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

fn reading_row(desk: &Desk, index: usize, reading: &Reading) -> RowItem {
    let unit = desk.job().show.lengths;
    let id = index.to_string();
    let figure = match &reading.what {
        Measure::Tape { length, .. } | Measure::Offset { length, .. } => {
            length.map_or_else(|| "—".to_owned(), |mm| length::show(mm, unit))
        }
        Measure::Angle { degrees, .. } => {
            degrees.map_or_else(|| "—".to_owned(), |degrees| format!("{degrees:.1}°"))
        }
        Measure::Inline { .. } | Measure::Other { .. } => String::new(),
    };
    let fix = desk.solution.readings.iter().find(|fix| fix.index == index);
    let (note, verdict) = reading_note(desk, reading, fix);
    let tail = fix
        .map(|_| sureness(desk.job(), reading))
        .unwrap_or_default();
    RowItem {
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

fn reading_note(desk: &Desk, reading: &Reading, fix: Option<&ReadingFix>) -> (String, Verdict) {
    let unit = desk.job().show.lengths;
    let angle = matches!(reading.what, Measure::Angle { .. });
    let say = |value: f64| match angle {
        true => format!("{:.1}°", value.abs()),
        false => length::fine_with_unit(value.abs(), unit, 1),
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
    if fix.least_slip.is_none() {
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
