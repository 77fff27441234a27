//! The frame: where the person is, the title, undo and redo, words at the foot of the page and over it.

use super::Bridge;
use super::screen::Screen;
use crate::app::desk::{Desk, Menu, Notice, Then};
use crate::app::kit::{patched, said};
use slint::Global;
use std::rc::Rc;
use tautmark_ui::{App, FormShape, FrameVm, Nav};

pub fn wire(app: &App, bridge: &Rc<Bridge>) {
    let vm = FrameVm::get(app);
    vm.on_undo(bridge.does(Desk::undo));
    vm.on_redo(bridge.does(Desk::redo));
    vm.on_snack_closed(bridge.does(|desk| {
        desk.snack = None;
        Then::Stay
    }));
    vm.on_snack_acted(bridge.does(|desk| {
        let action = desk.snack.take().and_then(|snack| snack.action);
        action.map_or(Then::Stay, |(_, act)| act(desk))
    }));
    vm.on_notice_acted(bridge.does(Desk::agree));
    vm.on_notice_closed(bridge.does(|desk| {
        desk.notice = None;
        Then::Stay
    }));
    vm.on_menu_picked(bridge.does_with(Desk::choose));
    vm.on_menu_closed(bridge.does(|desk| {
        desk.menu = None;
        Then::Stay
    }));
    vm.on_warning_pressed(bridge.does(Desk::explain_warning));
    vm.on_warning_answered(bridge.does(Desk::answer_warning));
    let nav = Nav::get(app);
    let at = bridge.clone();
    nav.on_go(move |place| at.act(|_| Then::Go(place)));
    let at = bridge.clone();
    nav.on_open(move |page| at.act(|_| Then::Open(page)));
    nav.on_back(bridge.does(|desk| {
        if desk.entry.is_none() {
            return Then::Back;
        }
        desk.leave_entry();
        Then::Stay
    }));
}

/// What the bridge knows of the page in sight.
pub struct InSight<'a> {
    pub screen: &'a dyn Screen,
    pub has_drawing: bool,
    pub can_go_back: bool,
}

pub fn fill(app: &App, desk: &Desk, sight: &InSight<'_>) {
    fill_nav(app, desk, sight);
    let screen = sight.screen;
    let vm = FrameVm::get(app);
    let title = screen.title(desk);
    vm.set_title(title.unwrap_or_else(|| desk.job().title.clone()).into());
    let history = desk.open().map(|open| open.history());
    vm.set_can_undo(history.is_some_and(|history| !history.done().is_empty()));
    vm.set_can_redo(history.is_some_and(|history| !history.undone().is_empty()));
    let snack = desk.snack.as_ref();
    vm.set_snack(snack.map_or("", |snack| snack.text.as_str()).into());
    vm.set_snack_undoable(snack.is_some_and(|snack| snack.undoable));
    let action = snack.and_then(|snack| snack.action.as_ref());
    vm.set_snack_action(action.map_or("", |(name, _)| name).into());
    let warning = desk.warning();
    let (text, action) = warning.map_or(("".into(), ""), |said| (said.text.into(), said.action));
    vm.set_warning(text);
    vm.set_warning_action(action.into());
    fill_notice(&vm, desk.notice.as_ref());
    fill_menu(&vm, desk.menu.as_ref());
}

fn fill_nav(app: &App, desk: &Desk, sight: &InSight<'_>) {
    let spec = sight.screen.spec();
    let nav = Nav::get(app);
    nav.set_page(desk.nav.page);
    nav.set_place(desk.nav.place);
    nav.set_covered(spec.place.is_none());
    nav.set_at_root(spec.is_root());
    nav.set_can_go_back(desk.entry.is_some() || sight.can_go_back);
    nav.set_form(match (sight.screen.form(), spec.place) {
        (None, _) => FormShape::None,
        (Some(_), Some(_)) => FormShape::Drawn,
        (Some(_), None) if sight.has_drawing => FormShape::Quick,
        (Some(_), None) => FormShape::Plain,
    });
    nav.set_entry(desk.entry.is_some());
}

/// What lies over the page keeps its words while it goes.
fn fill_notice(vm: &FrameVm<'_>, notice: Option<&Notice>) {
    vm.set_notice_open(notice.is_some());
    let Some(notice) = notice else { return };
    let (text, plain) = said(&notice.text);
    vm.set_notice_title(notice.title.as_str().into());
    vm.set_notice_text(text);
    vm.set_notice_plain(plain);
    let action = notice.action.as_ref();
    vm.set_notice_action(action.map_or("", |(name, _)| name.as_str()).into());
}

fn fill_menu(vm: &FrameVm<'_>, menu: Option<&Menu>) {
    vm.set_menu_open(menu.is_some());
    let Some(menu) = menu else { return };
    vm.set_menu_title(menu.title.as_str().into());
    vm.set_menu_items(patched(vm.get_menu_items(), menu.items()));
}
