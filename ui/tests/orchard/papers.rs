//! The list of jobs, the sheet, and what is laid over a page.

use super::{drawings, list, row, said, status, unbroken};
use slint::Global;
use tautmark_ui::{AboutVm, App, FrameVm, JobRow, JobsVm, QuickRow, SheetVm, Verdict};

pub fn jobs(app: &App) {
    let vm = JobsVm::get(app);
    let job = |id: &str, title: &str, note: &str, verdict, remark: &str| JobRow {
        id: id.into(),
        title: title.into(),
        note: note.into(),
        verdict,
        remark: unbroken(remark).into(),
        plan: drawings::thumb(),
    };
    vm.set_jobs(list(vec![
        job(
            "1",
            "Orchard corner screen",
            "2 runs, 8 posts, 3 marked out · today 14:20",
            Verdict::None,
            "",
        ),
        job(
            "2",
            "Coal-yard return",
            "1 reading does not fit · yesterday",
            Verdict::Bad,
            "A to C: 6 926 or 6 296?",
        ),
        job(
            "3",
            "Stepped side run",
            "1 mark loose · 12 May",
            Verdict::Attention,
            "tape B to Q next",
        ),
    ]));
    let quick = [
        "Corner by 3 tapes",
        "Is it square?",
        "Point by 2 tapes",
        "Equal spaces",
        "Level round a corner",
        "Check the laser",
    ];
    vm.set_quick(list(
        quick
            .iter()
            .map(|&label| QuickRow {
                id: label.into(),
                label: label.into(),
            })
            .collect(),
    ));
}

pub fn papers(app: &App) {
    AboutVm::get(app).set_version("0.1.0".into());
    let note = "SIL Open Font License 1.1";
    let typeface = row("B612, the typeface", note, Verdict::None, "", "");
    AboutVm::get(app).set_parts(list(vec![typeface]));
    let vm = SheetVm::get(app);
    vm.set_page("Page 1 of 4".into());
    vm.set_has_after(true);
    vm.set_papers(list(vec!["A4".into(), "Letter".into()]));
    vm.set_status(status(
        Verdict::Good,
        "**Complete.** Plan, two elevations, tables and cautions on 4 pages.",
    ));
    vm.set_forms(list(vec![
        row("PDF", "to print or to send", Verdict::None, "4 pages", ""),
        row("SVG", "the drawings alone", Verdict::None, "3 files", ""),
        row(
            "CSV",
            "the tables, for a spreadsheet",
            Verdict::None,
            "",
            "",
        ),
        row("Plain text", "to send in a message", Verdict::None, "", ""),
        row(
            "The job itself",
            "to open on another device",
            Verdict::None,
            "",
            "",
        ),
    ]));
}

/// A whole caution over the page.
pub fn notice(app: &App) {
    super::posts::marking(app);
    let vm = FrameVm::get(app);
    let (text, plain) = said(
        "Assume that pipes and cables are there. **Get the plans, locate, and dig trial holes by hand** with a \
         spade: plans can be half a metre out, and a clear scan proves nothing.",
    );
    vm.set_notice_title("Before you dig".into());
    vm.set_notice_text(text);
    vm.set_notice_plain(plain);
    vm.set_notice_open(true);
}

/// Something just deleted.
pub fn snack(app: &App) {
    let vm = FrameVm::get(app);
    vm.set_snack("Reading B to D deleted".into());
    vm.set_snack_undoable(true);
}

/// What can be done with a job.
pub fn menu(app: &App) {
    let vm = FrameVm::get(app);
    vm.set_menu_title("Coal-yard return".into());
    vm.set_menu_items(list(vec![
        row("Rename", "", Verdict::None, "", ""),
        row("Copy", "with all its readings", Verdict::None, "", ""),
        row("Delete", "can be undone", Verdict::None, "", ""),
    ]));
    vm.set_menu_open(true);
}
