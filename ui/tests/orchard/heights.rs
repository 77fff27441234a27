//! Levels, heights and boards.

use super::{fact, list, row, status};
use slint::Global;
use tautmark_ui::{App, BoardsVm, CutListVm, FrameVm, HeightsVm, LevelsVm, RowItem, Verdict};

pub fn levels(app: &App) {
    let vm = LevelsVm::get(app);
    vm.set_status(status(
        Verdict::Good,
        "**Set-up 2 is 62 higher than set-up 1.** Two checks, closing to 1 mm; your laser explains up to 4.",
    ));
    let strong = |item: RowItem| RowItem {
        strong: true,
        ..item
    };
    vm.set_rows(list(vec![
        strong(row(
            "Set-up 1",
            "6 sights · line 413 above the datum",
            Verdict::None,
            "413",
            "± 2",
        )),
        strong(row(
            "Set-up 2",
            "6 sights · by the peg, g4 and the nail",
            Verdict::None,
            "475",
            "± 2",
        )),
        row(
            "Ground at the corner",
            "from both set-ups",
            Verdict::None,
            "−419",
            "± 3",
        ),
        row(
            "Is the laser true?",
            "not checked for this job",
            Verdict::None,
            "Check it",
            "",
        ),
    ]));
    vm.set_caution("Never look into the beam.".into());
    vm.set_can_mark(true);
}

/// The heights at post 4.
pub fn heights(app: &App) {
    FrameVm::get(app).set_title("Front · post 4 heights".into());
    let vm = HeightsVm::get(app);
    vm.set_status(status(
        Verdict::Note,
        "**Step here: 30 down** towards the corner. Measure from the laser line, in mm. Sure to ± 3.",
    ));
    vm.set_dig(fact("dig", "Dig out, shed side", "27", ""));
    vm.set_gap(fact("gap", "Gap under, corner side", "63", "more than 50"));
    vm.set_set_up("Set-up 1".into());
    vm.set_before("3".into());
    vm.set_after("5".into());
    vm.set_caution("Never look into the beam.".into());
}

pub fn boards(app: &App) {
    let vm = BoardsVm::get(app);
    vm.set_runs(list(vec!["Front run".into(), "Side run".into()]));
    vm.set_status(status(
        Verdict::Attention,
        "**Bay 4 to 5 leaves a 63 gap** at its low end; you accept 50. Step 60 there, or dig 13 more by post 4.",
    ));
    vm.set_gravel(fact(
        "gravel",
        "Gravel boards",
        "3",
        "steps of 30, 2 of them",
    ));
    vm.set_pales(fact(
        "pales",
        "Face boards",
        "34",
        "lap 24 to 25, all whole",
    ));
    vm.set_rails(fact("rails", "Rails", "9", "729 · 1 580 · 1 560"));
    vm.set_notch(fact(
        "notch",
        "Notch 15 of 100 leaves",
        "72 %",
        "in bending",
    ));
    vm.set_posts(fact("posts", "Posts at least", "2 340", "5 of them"));
    vm.set_concrete(fact("concrete", "Concrete", "182 L", "16 bags"));
    vm.set_caution("A notched post in the wind is a structural question.".into());
    let vm = CutListVm::get(app);
    vm.set_rows(list(vec![
        row(
            "Rails, both ends square",
            "3 of each bay, front run",
            Verdict::None,
            "729",
            "× 3",
        ),
        row(
            "Rails, one end at 37.9°",
            "saw set at 37.9 from square",
            Verdict::None,
            "1 580",
            "× 3",
        ),
        row(
            "Gravel boards",
            "front run, bay 1 to 2",
            Verdict::None,
            "699",
            "× 1",
        ),
        row(
            "Face boards",
            "150 wide, 1 600 long",
            Verdict::None,
            "1 600",
            "× 34",
        ),
    ]));
    vm.set_caution("Seal every cut end of treated timber.".into());
}
