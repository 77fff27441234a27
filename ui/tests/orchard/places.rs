//! What each place shows of the orchard corner.

use super::{drawings, fact, list, row, said, status, unbroken};
use slint::{Global, SharedString};
use tautmark_ui::{
<<<<<<< HEAD
    AboutVm, App, BoardsVm, CornerVm, CutListVm, EntryVm, FrameVm, HeightsVm, Item, JobRow, JobsVm,
    KeySigns, KeyUnits, LevelsVm, LinesVm, MarkOutVm, PostsVm, QuickRow, Remedy, SheetVm, StringVm,
    StripBay, StripPost, Verdict, WallsVm,
=======
    AboutVm, App, BoardsVm, CornerVm, CutListVm, EntryVm, Field, FieldKind, FormVm, FrameVm,
    HeightsVm, Item, JobRow, JobsVm, KeySigns, KeyUnits, LevelsVm, LinesVm, MarkOutVm, PostsVm,
    QuickRow, Remedy, SheetVm, StringVm, StripBay, StripPost, Verdict, WallsVm,
>>>>>>> uikit
};

/// Fills every place as on a good day: nothing misread, nothing over the page.
pub fn fill(app: &App) {
    frame(app);
    walls(app);
    lines(app);
    posts(app);
    mark_out(app);
    levels(app);
    boards(app);
    jobs(app);
    papers(app);
}

fn frame(app: &App) {
    let vm = FrameVm::get(app);
    vm.set_title("Orchard corner screen".into());
    vm.set_can_undo(true);
    vm.set_can_redo(false);
    vm.set_snack("".into());
    vm.set_notice_open(false);
    vm.set_menu_open(false);
}

fn walls(app: &App) {
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
        Item {
            selected: true,
            ..row(
                "C to D",
                "checked: 0.4 mm under the rest",
                Verdict::None,
                "3 801",
                "± 2",
            )
        },
        Item {
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

/// A tape on the keypad.
pub fn reading(app: &App) {
    let vm = EntryVm::get(app);
    let (title, plain) = said("Tape, **A to C**");
    vm.set_title(title);
    vm.set_title_plain(plain);
    vm.set_progress("9 of 13".into());
    vm.set_figure("10 808".into());
    vm.set_tail("+ 76 = 10 884".into());
    vm.set_status(status(
        Verdict::Good,
        "The other readings make this **10 881 ± 6**: it fits.",
    ));
    vm.set_units(KeyUnits::Plain);
    vm.set_signs(KeySigns::None);
    vm.set_extra("Slope".into());
    vm.set_next("Next".into());
    vm.set_next_enabled(true);
}

/// The longest figure in feet and inches.
pub fn reading_feet(app: &App) {
    reading(app);
    let vm = EntryVm::get(app);
    vm.set_units(KeyUnits::FeetInches);
    vm.set_figure("35′ 8 13/16″".into());
    vm.set_tail("+ 3″ = 35′ 11 13/16″".into());
    vm.set_status(status(
        Verdict::Attention,
        "The other readings make this **35′ 8 3/8″ ± 1/4″**: 7/16″ too long. Check the hook and the slope.",
    ));
}

/// A sight that can be up or down.
pub fn reading_sight(app: &App) {
    reading(app);
    let vm = EntryVm::get(app);
    let (title, plain) = said("Set-up 2, down to **g4**");
    vm.set_title(title);
    vm.set_title_plain(plain);
    vm.set_progress("4 of 6".into());
    vm.set_figure("1 075".into());
    vm.set_tail("mm down".into());
    vm.set_signs(KeySigns::UpDown);
    vm.set_sign(-1);
    vm.set_extra("".into());
    vm.set_status(status(
        Verdict::None,
        "From the laser line down to the ground by post 4.",
    ));
}

fn lines(app: &App) {
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

fn posts(app: &App) {
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
                at,
                text: text.into(),
            })
            .collect(),
    ));
    let numbered = |n: &str, title, note, verdict, figure, tail| Item {
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

fn mark_out(app: &App) {
    let vm = MarkOutVm::get(app);
    let (how, plain) =
        said("Tape from the **shed end wall**, along the front string, to the **near face**");
    vm.set_how(how);
    vm.set_how_plain(plain);
    vm.set_figure("3 590".into());
    vm.set_tail("± 6".into());
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

fn levels(app: &App) {
    let vm = LevelsVm::get(app);
    vm.set_status(status(
        Verdict::Good,
        "**Set-up 2 is 62 higher than set-up 1.** Two checks, closing to 1 mm; your laser explains up to 4.",
    ));
    let strong = |item: Item| Item {
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

fn boards(app: &App) {
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

fn jobs(app: &App) {
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

fn papers(app: &App) {
    AboutVm::get(app).set_version("0.1.0".into());
    let licences: SharedString = "Typeface B612, under the SIL Open Font License 1.1.".into();
    AboutVm::get(app).set_licences(licences);
    let vm = SheetVm::get(app);
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
    marking(app);
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
