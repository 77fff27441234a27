//! The Sheet place: what is on the set-out sheet, and the files it can be had as.

use super::device::{Handed, Way};
use super::rows::patched;
use super::words::{row, status};
use super::{Bridge, Desk, Then};
use crate::job::Severity;
use crate::sheet::Sheet;
use slint::Global;
use std::rc::Rc;
use tautmark_ui::{App, Nav, Page, SheetVm, Verdict};

pub(super) fn wire(app: &App, bridge: &Rc<Bridge>) {
    let at = bridge.clone();
    SheetVm::get(app).on_form_pressed(move |id| {
        at.act(|desk| {
            let said = save(desk, &id);
            desk.say(&said);
            Then::Stay
        });
    });
}

pub(super) fn fill(app: &App, desk: &Desk) {
    if Nav::get(app).get_page() != Page::Sheet {
        return;
    }
    let vm = SheetVm::get(app);
    let sheet = Sheet::new(desk.job(), &desk.solution);
    let wrong = desk
        .solution
        .problems
        .iter()
        .filter(|p| p.severity != Severity::Note)
        .count();
    vm.set_status(match wrong {
        0 => status(
            Verdict::Good,
            "**Nothing is in the way.** Save the sheet and print it.",
        ),
        1 => status(
            Verdict::Attention,
            "**One thing to look at;** it stands first on the sheet.",
        ),
        n => status(
            Verdict::Attention,
            &format!("**{n} things to look at;** they stand first on the sheet."),
        ),
    });
    let parts = sheet
        .sections
        .iter()
        .map(|section| row("", &section.heading, "", "", ""));
    vm.set_contents(patched(vm.get_contents(), parts.collect()));
    let forms = [
        ("html", "A page to print", "opens in any browser"),
        (
            "txt",
            "Plain text",
            "the same, for a message or a small printer",
        ),
        ("csv", "Tables", "for a spreadsheet"),
        ("job.json", "The job itself", "to open on another device"),
    ];
    let forms = forms.map(|(id, title, note)| row(id, title, note, "", ""));
    vm.set_forms(patched(vm.get_forms(), forms.into()));
}

/// Makes one form of the sheet and hands it to the person; the words say where it went, or why not.
fn save(desk: &Desk, form: &str) -> String {
    let sheet = || Sheet::new(desk.job(), &desk.solution);
    let (media_type, bytes) = match form {
        "html" => ("text/html", sheet().html().into_bytes()),
        "txt" => ("text/plain", sheet().text().into_bytes()),
        "csv" => ("text/csv", sheet().csv().into_bytes()),
        _ => (
            "application/json",
            desk.open()
                .map(|open| open.text())
                .unwrap_or_default()
                .into_bytes(),
        ),
    };
    let file = Handed {
        name: format!("{}.{form}", file_name(&desk.job().title)),
        media_type,
        bytes,
    };
    let way = desk.device.ways().first().copied().unwrap_or(Way::Save);
    desk.device.hand_over(&file, way).unwrap_or_else(|why| why)
}

/// A title as the name of a file on any system: letters, digits and dashes.
fn file_name(title: &str) -> String {
    let letter = |c: char| if c.is_alphanumeric() { c } else { '-' };
    let name: String = title.to_lowercase().chars().map(letter).collect();
    match name.trim_matches('-') {
        "" => "job".to_owned(),
        name => name.to_owned(),
    }
}
