//! The Sheet place: what is on the set-out sheet, and the files it can be had as.

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

/// Writes one form of the sheet where this system keeps a person's documents, and says where.
#[cfg(not(any(target_arch = "wasm32", target_os = "android")))]
fn save(desk: &Desk, form: &str) -> String {
    let sheet = Sheet::new(desk.job(), &desk.solution);
    let text = match form {
        "html" => sheet.html(),
        "txt" => sheet.text(),
        "csv" => sheet.csv(),
        _ => desk.open().map(|open| open.text()).unwrap_or_default(),
    };
    let folder = directories::UserDirs::new().map(|dirs| {
        dirs.document_dir()
            .unwrap_or_else(|| dirs.home_dir())
            .to_owned()
    });
    let Some(folder) = folder else {
        return "This system names no folder for documents. Use “tautmark sheet” on the command line.".to_owned();
    };
    let name: String = desk
        .job()
        .title
        .chars()
        .map(|c| {
            if c.is_alphanumeric() {
                c.to_ascii_lowercase()
            } else {
                '-'
            }
        })
        .collect();
    let name = if name.trim_matches('-').is_empty() {
        "job".to_owned()
    } else {
        name
    };
    // Never over a file that is there.
    let free = (1..).map(|n| match n {
        1 => folder.join(format!("{name}.{form}")),
        n => folder.join(format!("{name}-{n}.{form}")),
    });
    let Some(path) = free.into_iter().find(|path| !path.exists()) else {
        return String::new();
    };
    match std::fs::write(&path, text) {
        Ok(()) => format!("Saved as {}", path.display()),
        Err(why) => format!(
            "It could not be saved in {} ({why}). Free some space or make the folder writable.",
            folder.display()
        ),
    }
}

/// Here there is no folder of documents to write to.
#[cfg(any(target_arch = "wasm32", target_os = "android"))]
fn save(_desk: &Desk, _form: &str) -> String {
    "Saving is not possible on this device yet.".to_owned()
}
