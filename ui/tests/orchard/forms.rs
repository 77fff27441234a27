//! Forms: a run, a job's settings, a quick sum.

use super::{list, status};
use slint::{Global, SharedString};
use tautmark_ui::{App, Field, FieldKind, FormVm, FrameVm, Verdict};

fn field(kind: FieldKind, label: &str, note: &str, value: &str) -> Field {
    Field {
        id: label.into(),
        kind,
        label: label.into(),
        note: note.into(),
        value: value.into(),
        ..Field::default()
    }
}

fn choice(label: &str, options: &[&str], chosen: i32) -> Field {
    let options = list(
        options
            .iter()
            .map(|&option| SharedString::from(option))
            .collect(),
    );
    Field {
        options,
        chosen,
        ..field(FieldKind::Choice, label, "", "")
    }
}

fn form(app: &App, title: &str, fields: Vec<Field>) {
    let vm = FormVm::get(app);
    vm.set_title(title.into());
    vm.set_status(status(Verdict::None, ""));
    vm.set_figure("".into());
    vm.set_fields(list(fields));
    vm.set_caution("".into());
    vm.set_primary("".into());
    vm.set_secondary("".into());
}

/// The front run being set up.
pub fn run(app: &App) {
    FrameVm::get(app).set_title("Front run".into());
    form(
        app,
        "Front run",
        vec![
            field(FieldKind::Heading, "From and to", "", ""),
            field(
                FieldKind::Pick,
                "Starts at",
                "where the string meets it",
                "shed end",
            ),
            field(FieldKind::Pick, "Ends at", "", "corner X"),
            choice(
                "Posts stand, looking along the string",
                &["Left", "Right"],
                0,
            ),
            field(FieldKind::Heading, "Posts and bays", "", ""),
            field(FieldKind::Figure, "String to post face", "", "75"),
            field(
                FieldKind::Figure,
                "Longest bay",
                "centre to centre",
                "1 900",
            ),
            choice("Bays", &["All equal", "Full, one short"], 0),
            field(
                FieldKind::Figure,
                "Gate opening",
                "from 900 on the tape",
                "1 040",
            ),
        ],
    );
    let vm = FormVm::get(app);
    vm.set_status(status(
        Verdict::Good,
        "**5 posts, bays of 1 650.** The gate stands between posts 2 and 3.",
    ));
    vm.set_primary("Add a gate".into());
    vm.set_secondary("Hold a post".into());
}

/// A job's own settings.
pub fn settings(app: &App) {
    form(
        app,
        "This job",
        vec![
            field(
                FieldKind::Text,
                "Name",
                "Name of the job",
                "Orchard corner screen",
            ),
            choice("Lengths in", &["mm", "m", "ft-in"], 0),
            choice("Tape class", &["I", "II", "III"], 1),
            field(
                FieldKind::Figure,
                "Laser, mm per m",
                "what the maker allows",
                "0.3",
            ),
            Field {
                checked: true,
                ..field(
                    FieldKind::Check,
                    "North is up",
                    "else the longest run lies level",
                    "",
                )
            },
        ],
    );
    FormVm::get(app).set_secondary("Delete this job".into());
}

/// A corner by three tapes, without a job.
pub fn quick(app: &App) {
    form(
        app,
        "Corner by 3 tapes",
        vec![
            field(FieldKind::Figure, "Along the first wall", "", "2 000"),
            field(FieldKind::Figure, "Along the second wall", "", "2 000"),
            field(FieldKind::Figure, "Across", "", "2 905"),
            field(
                FieldKind::Result,
                "Rail ends, saw set at",
                "from square",
                "43.43°",
            ),
        ],
    );
    let vm = FormVm::get(app);
    vm.set_figure("93.15°".into());
    vm.set_figure_tail("± 0.12".into());
    vm.set_figure_what("The corner".into());
    vm.set_primary("Keep in a job".into());
}
