//! The bin: a job is deleted into it, to be taken back or deleted for good.

use super::ago::ago;
use crate::app::bridge::{Back, Bridge, Screen, Spec};
use crate::app::desk::{Desk, Menu, Then};
use crate::app::kit::{capital, counted, patched, row, silence, status};
use crate::store::{Binned, JobKey};
use slint::Global;
use std::rc::Rc;
use std::time::Duration;
use tautmark_ui::{App, BinVm, Page, RowItem, Verdict};

/// The page.
pub struct Bin;

impl Screen for Bin {
    fn spec(&self) -> Spec {
        Spec::over(Page::Bin, Some("bin"), Back::Page(Page::Jobs)).jobless()
    }

    fn wire(&self, app: &App, bridge: &Rc<Bridge>) {
        let vm = BinVm::get(app);
        vm.on_pressed(bridge.does_with(about));
        vm.on_empty_pressed(bridge.does(ask_to_empty));
    }

    fn fill(&self, app: &App, desk: &Desk) -> bool {
        let vm = BinVm::get(app);
        let (all, said) = match desk.jobs.bin() {
            Ok(all) if all.is_empty() => (
                all,
                status(
                    Verdict::None,
                    "**Nothing is deleted.** A deleted job waits here until you take it back or delete it for good.",
                ),
            ),
            Ok(all) => (all, silence()),
            Err(why) => (Vec::new(), status(Verdict::Attention, &why.to_string())),
        };
        vm.set_status(said);
        vm.set_full(!all.is_empty());
        vm.set_jobs(patched(vm.get_jobs(), all.iter().map(binned_row).collect()));
        false
    }
}

fn binned_row(binned: &Binned) -> RowItem {
    let when = binned.deleted.map(ago).unwrap_or_default();
    let note = format!("deleted {when}");
    row(binned.key.as_str(), &binned.title, note.trim_end(), "", "")
}

fn about(desk: &mut Desk, id: &str) -> Then {
    let all = desk.jobs.bin().unwrap_or_default();
    let Some(binned) = all.into_iter().find(|one| one.key.as_str() == id) else {
        return Then::Stay;
    };
    let back = "puts the job in the list again";
    let menu = Menu::new(binned.title).row("Take it back", back, move |desk| {
        take_back(desk, &binned.key)
    });
    desk.offer(menu)
}

/// Deletes a job, and offers to take it back.
pub fn delete(desk: &mut Desk, key: &JobKey) -> Then {
    let mut unsaved = desk.open.iter().chain(&desk.aside);
    if unsaved.any(|open| open.key() == key && open.trouble().is_some()) {
        let words = desk.unsaved().unwrap_or_default();
        return desk.explain("It cannot be deleted now", &words);
    }
    if desk.is_open(key) {
        desk.put_away();
    }
    match desk.jobs.delete(key) {
        Ok(binned) => {
            let menu = Menu::new("Deleted")
                .row(
                    "Take it back",
                    "puts the job in the list again",
                    move |desk| take_back(desk, &binned),
                )
                .row("Leave it deleted", "it stays in the bin", |_| Then::Stay);
            desk.offer(menu)
        }
        Err(why) => desk.say(&why.to_string()),
    }
}

/// Puts a deleted job in the list again.
pub fn take_back(desk: &mut Desk, key: &JobKey) -> Then {
    match desk.jobs.restore(key) {
        Ok(_) => desk.say("It is in the list of jobs again."),
        Err(why) => desk.say(&why.to_string()),
    }
}

fn ask_to_empty(desk: &mut Desk) -> Then {
    let count = desk.jobs.bin().unwrap_or_default().len();
    if count == 0 {
        return Then::Stay;
    }
    let jobs = capital(&counted(count, "deleted job", "deleted jobs"));
    let goes = if count == 1 { "goes" } else { "go" };
    let text = format!("{jobs} {goes} for good, with every earlier copy. This cannot be undone.");
    desk.ask_first("Empty the bin?", text, "Delete for good", empty)
}

fn empty(desk: &mut Desk) -> Then {
    // All that is there now, whatever its clock said when it was deleted.
    let after_all = crate::clock::now() + Duration::from_secs(100 * 365 * 86_400);
    match desk.jobs.empty_bin(after_all) {
        Ok(count) => {
            let gone = capital(&counted(count, "job", "jobs"));
            desk.say(&format!("{gone} deleted for good."))
        }
        Err(why) => desk.say(&why.to_string()),
    }
}
