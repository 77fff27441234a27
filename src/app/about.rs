//! What the program says of itself, how it looks, and the licences of what it is made of.

use super::licences::{self, Part};
use super::words::row;
use super::{Bridge, Desk, Then};
use slint::{Global, Model, ModelRc, VecModel};
use std::rc::Rc;
use tautmark_ui::{AboutVm, App, Nav, Page};

pub(super) fn wire(app: &App, bridge: &Rc<Bridge>) {
    let vm = AboutVm::get(app);
    vm.set_version(env!("CARGO_PKG_VERSION").into());
    let at = bridge.clone();
    vm.on_theme_picked(move |_| at.show());
    let (at, weak) = (bridge.clone(), slint::ComponentHandle::as_weak(app));
    vm.on_part_pressed(move |id| {
        if let Some(app) = weak.upgrade() {
            show_part(&app, &id);
            at.act(|_: &mut Desk| Then::Open(Page::Licence));
        }
    });
}

/// Lists the parts the first time that they are looked at.
pub(super) fn fill(app: &App) {
    let vm = AboutVm::get(app);
    if Nav::get(app).get_page() != Page::Licences || vm.get_parts().row_count() > 0 {
        return;
    }
    let all = licences::all();
    let rows = all.parts.iter().enumerate();
    let rows = rows.map(|(at, part)| row(&at.to_string(), &title(part), &part.licence, "", ""));
    vm.set_parts(ModelRc::new(VecModel::from(rows.collect::<Vec<_>>())));
}

fn title(part: &Part) -> String {
    format!("{} {}", part.name, part.version)
        .trim_end()
        .to_owned()
}

fn show_part(app: &App, id: &str) {
    let all = licences::all();
    let part = id.parse().ok().and_then(|at: usize| all.parts.get(at));
    if let Some(part) = part {
        let vm = AboutVm::get(app);
        vm.set_part_title(title(part).into());
        vm.set_part_text(all.text_of(part).into());
    }
}
