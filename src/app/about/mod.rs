//! About: a person reads what the program is, chooses how it looks by day and by night, and reads the
//! licences of what it is made of.

pub mod licences;

use crate::app::bridge::{Back, Bridge, Screen, Spec};
use crate::app::desk::{Desk, Then};
use crate::app::kit::row;
use licences::Part;
use slint::{ComponentHandle, Global, Model, ModelRc, VecModel};
use std::rc::Rc;
use tautmark_ui::{AboutVm, App, Page};

/// The page about the program.
pub struct About;

impl Screen for About {
    fn spec(&self) -> Spec {
        Spec::over(Page::About, Some("about"), Back::Page(Page::Jobs)).jobless()
    }

    fn wire(&self, app: &App, bridge: &Rc<Bridge>) {
        let vm = AboutVm::get(app);
        vm.set_version(env!("CARGO_PKG_VERSION").into());
        let at = bridge.clone();
        vm.on_theme_picked(move |_| at.show());
    }
}

/// The list of all licences.
pub struct LicenceList;

impl Screen for LicenceList {
    fn spec(&self) -> Spec {
        Spec::over(Page::Licences, Some("licences"), Back::Page(Page::About)).jobless()
    }

    fn wire(&self, app: &App, bridge: &Rc<Bridge>) {
        let (at, weak) = (bridge.clone(), app.as_weak());
        AboutVm::get(app).on_part_pressed(move |id| {
            if weak.upgrade().is_some_and(|app| show_part(&app, &id)) {
                at.act(|_| Then::Open(Page::Licence));
            }
        });
    }

    /// Lists the parts the first time that they are looked at.
    fn fill(&self, app: &App, _desk: &Desk) -> bool {
        let vm = AboutVm::get(app);
        if vm.get_parts().row_count() > 0 {
            return false;
        }
        let all = licences::all();
        let parts = all.parts.iter().enumerate();
        let rows =
            parts.map(|(at, part)| row(&at.to_string(), &title(part), &part.licence, "", ""));
        vm.set_parts(ModelRc::new(VecModel::from(rows.collect::<Vec<_>>())));
        false
    }
}

/// One licence.
pub struct OneLicence;

impl Screen for OneLicence {
    fn spec(&self) -> Spec {
        Spec::over(Page::Licence, None, Back::Page(Page::Licences))
    }
}

fn title(part: &Part) -> String {
    format!("{} {}", part.name, part.version)
        .trim_end()
        .to_owned()
}

/// Shows the licence of the part of this id; false where there is none.
fn show_part(app: &App, id: &str) -> bool {
    let all = licences::all();
    let part = id.parse().ok().and_then(|at: usize| all.parts.get(at));
    if let Some(part) = part {
        let vm = AboutVm::get(app);
        vm.set_part_title(title(part).into());
        vm.set_part_text(all.text_of(part).into());
    }
    part.is_some()
}
