//! The readings, and the strings off the walls.

use super::{fact, list, row, said, status};
use slint::Global;
use tautmark_ui::{App, CornerVm, LinesVm, Remedy, RowItem, StringVm, Verdict, WallsVm};

pub fn walls(app: &App) {
    let vm = WallsVm::get(app);
    vm.set_status(status(
        Verdict::Good,
        "**Six marks, all fixed.** 13 readings, 4 more than needed, and they agree. A slip under 18 mm in C to D \
         would not show: **tape B to F** to tighten it.",
    ));
    vm.set_cure(Remedy::default());
    vm.set_others(list(vec![]));
    vm.set_readings(list(vec![
        row(
            "A to C",
            "checked: 0.1 mm over the rest",
            Verdict::None,
            "10 881",
            "± 2",
        ),
        row(
            "B to C",
            "checked: 1.0 mm under the rest",
            Verdict::None,
            "7 630",
            "± 2",
        ),
        row(
            "A to D",
            "checked: 0.1 mm over the rest",
            Verdict::None,
            "13 496",
            "± 2",
        ),
        RowItem {
            selected: true,
            ..row(
                "C to D",
                "checked: 0.4 mm under the rest",
                Verdict::None,
                "3 801",
                "± 2",
            )
        },
        RowItem {
            left_out: true,
            ..row("B to D", "left out", Verdict::None, "10 762", "")
        },
        row(
            "Mark P off the potting shed front, to the left",
            "nothing checks it",
            Verdict::Attention,
            "420",
            "± 3",
        ),
    ]));
}

/// The place with a reading that does not fit.
pub fn misread(app: &App) {
    let vm = WallsVm::get(app);
    vm.set_status(status(
        Verdict::Bad,
        "**A to D does not fit.** You have 13 945. The other twelve readings agree among themselves and make it \
         **13 495 ± 9**. Two digits swapped?",
    ));
    vm.set_cure(Remedy {
        id: "likely".into(),
        label: "It was 13 495".into(),
    });
    vm.set_others(list(vec![
        Remedy {
            id: "again".into(),
            label: "Tape it again".into(),
        },
        Remedy {
            id: "out".into(),
            label: "Leave it out".into(),
        },
    ]));
    vm.set_readings(list(vec![
        row(
            "A to D",
            "does not fit: 450 too long",
            Verdict::Bad,
            "13 945",
            "± 2",
        ),
        row(
            "B to D",
            "checked: 1.2 mm over the rest",
            Verdict::None,
            "10 726",
            "± 2",
        ),
        row(
            "C to D",
            "checked: 0.4 mm under the rest",
            Verdict::None,
            "3 801",
            "± 2",
        ),
    ]));
}

pub fn lines(app: &App) {
    let vm = LinesVm::get(app);
    vm.set_status(status(
        Verdict::Good,
        "**Two strings, one corner.** Stretch the front string first.",
    ));
    vm.set_strings(list(vec![
        row(
            "Front string",
            "50 off the shed front at A and at B",
            Verdict::None,
            "50",
            "50",
        ),
        row(
            "Side string",
            "40 off the house wall at C, 62 at D",
            Verdict::None,
            "40",
            "62",
        ),
    ]));
    vm.set_corners(list(vec![row(
        "Front meets side",
        "not square by 14.3°",
        Verdict::None,
        "104.3°",
        "± 0.1",
    )]));
    string(app);
    let vm = CornerVm::get(app);
    vm.set_about(status(
        Verdict::None,
        "**Front** string meets **side** string",
    ));
    vm.set_angle(fact("angle", "Angle between them", "104.3°", "± 0.1"));
    vm.set_square(fact("square", "Not square by", "14.3°", "255 mm per m"));
    vm.set_bevel(fact(
        "bevel",
        "Rail ends, saw set at",
        "37.9°",
        "from square",
    ));
    vm.set_place(fact("place", "From mark B, along front", "5 402", "± 8"));
    let (check, plain) =
        said("Check it: mark **1 500** on each string. The tape between the marks must read");
    vm.set_check(check);
    vm.set_check_plain(plain);
    vm.set_diagonal("2 369".into());
    vm.set_diagonal_tail("± 3 mm".into());
    vm.set_found(status(Verdict::None, ""));
}

fn string(app: &App) {
    let vm = StringVm::get(app);
    vm.set_about(status(
        Verdict::None,
        "**Front string**, off the potting shed front, on its right side",
    ));
    vm.set_nails(list(vec![
        row("At A, 0 along the wall", "nail", Verdict::None, "50", "off"),
        row(
            "1 825 along the wall",
            "wall stands 4 proud",
            Verdict::None,
            "46",
            "off",
        ),
        row(
            "At B, 3 650 along the wall",
            "nail",
            Verdict::None,
            "50",
            "off",
        ),
    ]));
    vm.set_bow(status(
        Verdict::Attention,
        "**The wall is bowed by 4** at its middle; the string is straight.",
    ));
}
