//! The frame: title, undo and redo, words at the foot of the page and over it.

use super::{Bridge, Desk, Then, form};
use slint::Global;
use std::rc::Rc;
use tautmark_ui::{App, FrameVm, Nav, Page};

pub(super) fn wire(app: &App, bridge: &Rc<Bridge>) {
    let vm = FrameVm::get(app);
    let at = bridge.clone();
    vm.on_undo(move || {
        at.act(|desk| {
            desk.undo();
            Then::Stay
        })
    });
    let at = bridge.clone();
    vm.on_redo(move || {
        at.act(|desk| {
            desk.redo();
            Then::Stay
        })
    });
    let at = bridge.clone();
    vm.on_snack_closed(move || {
        at.act(|desk| {
            desk.snack = None;
            Then::Stay
        })
    });
    let at = bridge.clone();
    vm.on_notice_acted(move || {
        at.act(|desk| {
            if let Some(act) = desk.over.action.take() {
                act(desk);
            }
            Then::Stay
        })
    });
    let at = bridge.clone();
    vm.on_menu_picked(move |id| {
        at.act(|desk| match desk.over.pick.take() {
            Some(pick) => pick(desk, &id),
            None => Then::Stay,
        })
    });
    let at = bridge.clone();
    vm.on_warning_pressed(move || at.act(Desk::explain_warning));
    let at = bridge.clone();
    vm.on_warning_answered(move || at.act(Desk::answer_warning));
    let at = bridge.clone();
    Nav::get(app).on_moved(move || at.moved());
}

pub(super) fn fill(app: &App, desk: &Desk) {
    let vm = FrameVm::get(app);
    let page = Nav::get(app).get_page();
    let title = form::title(page, desk);
    vm.set_title(title.unwrap_or_else(|| desk.job().title.clone()).into());
    // Hands are full while marking out: the figure stays in sight.
    let marking = matches!(page, Page::MarkOut | Page::Heights);
    desk.device.keep_awake(marking);
    let history = desk.open().map(|open| open.history());
    vm.set_can_undo(history.is_some_and(|history| !history.done().is_empty()));
    vm.set_can_redo(history.is_some_and(|history| !history.undone().is_empty()));
    vm.set_snack(
        desk.snack
            .as_ref()
            .map(|snack| snack.text.as_str())
            .unwrap_or_default()
            .into(),
    );
    vm.set_snack_undoable(desk.snack.as_ref().is_some_and(|snack| snack.undoable));
    let warning = desk.warning();
    let (text, action) = warning.map_or(("".into(), ""), |said| (said.text.into(), said.action));
    vm.set_warning(text);
    vm.set_warning_action(action.into());
    Nav::get(app).set_has_job(desk.open().is_some());
}
