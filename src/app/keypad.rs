//! The keypad: keys in, the figure and what it comes to out.

use super::entry::Typed;
use super::words::{said, silence, status};
use super::{Bridge, Desk, Then};
use slint::Global;
use std::rc::Rc;
use tautmark_ui::{App, EntryVm, Nav, Verdict};

pub(super) fn wire(app: &App, bridge: &Rc<Bridge>) {
    let vm = EntryVm::get(app);
    let at = bridge.clone();
    vm.on_key(move |key| {
        at.act(|desk| {
            desk.key(&key);
            Then::Stay
        })
    });
    let at = bridge.clone();
    vm.on_next_pressed(move || {
        at.act(|desk| {
            desk.enter();
            Then::Keypad
        })
    });
    let at = bridge.clone();
    vm.on_extra_pressed(move || {
        at.act(|desk| {
            let further = desk
                .entry
                .as_ref()
                .and_then(|entry| entry.field.extra(desk.job()))
                .map(|(_, field)| field);
            if let Some(field) = further {
                // What is typed so far is entered first: the further figure belongs to it.
                if desk.typed().is_some() {
                    desk.enter();
                }
                desk.ask(field);
            }
            Then::Keypad
        })
    });
    let at = bridge.clone();
    Nav::get(app).on_entry_left(move || {
        at.act(|desk| {
            desk.leave_entry();
            Then::Stay
        })
    });
}

pub(super) fn fill(app: &App, desk: &Desk) {
    let Some(entry) = &desk.entry else { return };
    let vm = EntryVm::get(app);
    let job = desk.saved();
    let (title, plain) = said(&entry.field.title(job));
    vm.set_title(title);
    vm.set_title_plain(plain);
    let progress = entry.field.progress(job);
    let progress = progress
        .map(|(n, of)| format!("{n} of {of}"))
        .unwrap_or_default();
    vm.set_progress(progress.into());
    let (figure, tail) = entry.shown(job);
    vm.set_figure(figure.into());
    vm.set_tail(tail.into());
    let (units, signs) = entry.keys();
    vm.set_units(units);
    vm.set_signs(signs);
    vm.set_sign(if entry.negative { -1 } else { 1 });
    let extra = entry
        .field
        .extra(job)
        .map(|(name, _)| name)
        .unwrap_or_default();
    vm.set_extra(extra.into());
    let typed = entry.typed();
    vm.set_next_enabled(!matches!(typed, Typed::Wrong(_) | Typed::GoOn));
    vm.set_status(match typed {
        Typed::Wrong(why) => status(Verdict::Attention, &why),
        Typed::GoOn => status(
            Verdict::Note,
            "Not a whole figure yet: type on, or take a key back.",
        ),
        Typed::Nothing => entry.field.verdict(desk, None).unwrap_or_else(silence),
        Typed::Value(value) => entry
            .field
            .verdict(desk, Some(value))
            .unwrap_or_else(silence),
    });
}
