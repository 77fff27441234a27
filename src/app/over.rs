//! What is laid over the page: a few words, or a few things to choose from.

use super::words::said;
use super::{Desk, Then};
use slint::{Global, ModelRc, VecModel};
use tautmark_ui::{App, FrameVm, Item};

/// A few things to choose from over the page, and what choosing one (by its row's id) does.
pub struct Menu {
    pub title: String,
    pub rows: Vec<Item>,
    pub pick: Box<dyn FnOnce(&mut Desk, &str) -> Then>,
}

/// What the words and choices that lie over the page do. They are laid once and may be closed
/// without the desk being told, so that what they do is kept apart from what is to be laid.
#[derive(Default)]
pub(super) struct Over {
    pub action: Option<Box<dyn FnOnce(&mut Desk)>>,
    pub pick: Option<Box<dyn FnOnce(&mut Desk, &str) -> Then>>,
}

/// Lays the words and the choices that the desk has for it over the page, once: closing them needs
/// no answer.
pub(super) fn lay_over(app: &App, desk: &mut Desk) {
    let vm = FrameVm::get(app);
    if let Some(notice) = desk.notice.take() {
        let (text, plain) = said(&notice.text);
        vm.set_notice_title(notice.title.into());
        vm.set_notice_text(text);
        vm.set_notice_plain(plain);
        let (name, action) = notice.action.unzip();
        vm.set_notice_action(name.unwrap_or_default().into());
        desk.over.action = action;
        vm.set_notice_open(true);
    }
    if let Some(menu) = desk.menu.take() {
        vm.set_menu_title(menu.title.into());
        vm.set_menu_items(ModelRc::new(VecModel::from(menu.rows)));
        desk.over.pick = Some(menu.pick);
        vm.set_menu_open(true);
    }
}
