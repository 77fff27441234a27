//! The keypad: keys in, the figure and what it comes to out.

use super::Bridge;
use crate::app::desk::{Desk, Entered, Then, Typed};
use crate::app::kit::{said, silence, status};
use slint::Global;
use std::rc::Rc;
use tautmark_ui::{App, EntryVm, Verdict};

pub fn wire(app: &App, bridge: &Rc<Bridge>) {
    let vm = EntryVm::get(app);
    vm.on_key(bridge.does_with(|desk, key| {
        desk.key(key);
        Then::Stay
    }));
    vm.on_next_pressed(bridge.does(|desk| {
        desk.enter();
        Then::Keypad
    }));
    vm.on_extra_pressed(bridge.does(further));
}

/// Goes on to the figure that belongs to this one. What is typed so far is entered first.
fn further(desk: &mut Desk) -> Then {
    let entry = desk.entry.as_ref();
    let figure = entry.and_then(|entry| entry.figure.extra(desk.job()));
    if let Some((_, figure)) = figure {
        if desk.typed().is_some() {
            desk.enter();
        }
        return desk.ask_for(figure);
    }
    Then::Keypad
}

pub fn fill(app: &App, desk: &Desk) {
    let Some(entry) = &desk.entry else { return };
    let vm = EntryVm::get(app);
    let job = desk.saved();
    let (title, plain) = said(&entry.figure.title(job));
    vm.set_title(title);
    vm.set_title_plain(plain);
    let progress = entry.figure.progress(job);
    let progress = progress
        .map(|(n, of)| format!("{n} of {of}"))
        .unwrap_or_default();
    vm.set_progress(progress.into());
    let (figure, tail) = entry.shown(job);
    vm.set_figure(figure.into());
    vm.set_tail(tail.into());
    let (units, signs) = entry.keys();
    vm.set_units(units);
    vm.set_part(entry.part().into());
    vm.set_signs(signs);
    vm.set_sign(if entry.negative { -1 } else { 1 });
    let extra = entry
        .figure
        .extra(job)
        .map(|(name, _)| name)
        .unwrap_or_default();
    vm.set_extra(extra.into());
    let typed = entry.typed();
    vm.set_next_enabled(!matches!(typed, Typed::Wrong(_) | Typed::GoOn));
    vm.set_status(match typed {
        Typed::Value(_) | Typed::GoOn if entry.as_left => status(
            Verdict::Note,
            "**Typed before, not entered.** Next enters it, ⌫ goes on with it, a new figure takes its place.",
        ),
        Typed::Wrong(why) => status(Verdict::Attention, &why),
        Typed::GoOn => status(
            Verdict::Note,
            "Not a whole figure yet: type on, or take a key back.",
        ),
        Typed::Nothing => entry.figure.verdict(desk, None).unwrap_or_else(silence),
        Typed::Value(value) => match entry.figure.enter(job, value) {
            Entered::Refused(why) => status(Verdict::Attention, &why),
            _ => entry
                .figure
                .verdict(desk, Some(value))
                .unwrap_or_else(silence),
        },
    });
}
