//! The posts of the front run, and the one being marked out.

use super::{fact, list, row, said};
use slint::{Global, ModelRc, SharedString};
use tautmark_ui::{App, FrameVm, MarkOutVm, PostsVm, RowItem, StripBay, StripPost, Verdict};

pub fn posts(app: &App) {
    let vm = PostsVm::get(app);
    vm.set_runs(list(vec!["Front run".into(), "Side run".into()]));
    vm.set_run(0);
    let strip = [
        (0.0, true),
        (0.15, true),
        (0.37, true),
        (0.68, false),
        (1.0, false),
    ];
    vm.set_strip(list(
        strip
            .iter()
            .enumerate()
            .map(|(n, &(at, marked))| StripPost {
                at,
                marked,
                current: n == 3,
            })
            .collect(),
    ));
    let bays = [
        (0.075, "799"),
        (0.26, "gate"),
        (0.525, "1 650"),
        (0.84, "1 650"),
    ];
    vm.set_bays(list(
        bays.iter()
            .map(|&(at, text)| StripBay {
                share: 1.0,
                at,
                text: text.into(),
            })
            .collect(),
    ));
    let numbered = |n: &str, title, note, verdict, figure, tail| RowItem {
        lead: n.into(),
        ..row(title, note, verdict, figure, tail)
    };
    vm.set_posts(list(vec![
        numbered(
            "1",
            "on the shed end wall",
            "marked",
            Verdict::Good,
            "1",
            "± 2",
        ),
        numbered("2", "gate post", "marked", Verdict::Good, "800", "± 2"),
        numbered("3", "gate post", "+2, fine", Verdict::Good, "1 940", "± 4"),
        numbered("4", "line post", "to mark", Verdict::None, "3 590", "± 6"),
        numbered(
            "5",
            "corner post, on the bisector",
            "to mark",
            Verdict::None,
            "5 219",
            "± 8",
        ),
    ]));
    vm.set_mark_out("Mark out post 4".into());
}

pub fn mark_out(app: &App) {
    let vm = MarkOutVm::get(app);
    let (how, plain) =
        said("Tape from the **shed end wall**, along the front string, to the **near face**");
    vm.set_how(how);
    vm.set_how_plain(plain);
    vm.set_figure("3 590".into());
    vm.set_tail("± 6".into());
    let faces = ["Near face", "Centre", "Far face"].map(SharedString::from);
    vm.set_faces(ModelRc::from(faces));
    vm.set_face(0);
    vm.set_hole(fact("hole", "Hole centre, on the tape", "3 640", ""));
    vm.set_behind(fact("behind", "Behind the string", "125", ""));
    vm.set_bay(fact("bay", "Bay from post 3", "1 650", "clear 1 550"));
    vm.set_tapes(fact("tapes", "Two tapes: E, F", "4 016 · 4 842", ""));
    vm.set_caution("Before you dig: find out what is buried here.".into());
    vm.set_before("3".into());
    vm.set_after("5".into());
}

pub fn marking(app: &App) {
    FrameVm::get(app).set_title("Front · post 4 of 5".into());
}
