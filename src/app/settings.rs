//! The job's own settings: its title, its unit, how good tape and laser are; and new names for
//! marks and walls.

use crate::app::bridge::{Back, FormScreen, Spec};
use crate::app::desk::{Desk, FigureKind, Then};
use crate::app::kit::{
    FormContents, KeypadFigure, class_row, heading, laser_accuracy, text, unit_rows,
};
use crate::app::names::thing_called;
use crate::app::renaming;
use crate::job::Job;
use crate::job::edit::{Edit, Setting, Thing};
use crate::job::model::{Show, Tape};
use tautmark_ui::{Page, Verdict};

/// The form of [`tautmark_ui::Page::Settings`].
pub static SETTINGS: FormScreen = FormScreen {
    title: |desk| match &desk.renaming {
        Some(thing) => format!(
            "Rename {} {}",
            thing.kind(),
            thing_called(desk.job(), thing)
        ),
        None => "Name and settings".to_owned(),
    },
    leave: |desk| desk.renaming = None,
    ..FormScreen::new(
        Spec::over(Page::Settings, Some("settings"), Back::Place),
        contents,
    )
};

fn contents(desk: &Desk) -> FormContents {
    let job = desk.job();
    match &desk.renaming {
        Some(thing) => new_name(job, thing),
        None => settings(job),
    }
}

fn new_name(job: &Job, thing: &Thing) -> FormContents {
    let name = thing_called(job, thing);
    let row = text("Name", "a short name of its own", &name, renaming::rename);
    FormContents::new(vec![row]).saying(
        Verdict::None,
        "Walls, readings and strings that use it are renamed with it.",
    )
}

fn settings(job: &Job) -> FormContents {
    let title = text(
        "Name of the job",
        "what the job is called",
        &job.title,
        |desk, text| {
            desk.amend(Edit::Set(Setting::Title(text.to_owned())));
            Then::Stay
        },
    );
    let mut contents = FormContents::new(vec![title]);
    contents.extend(unit_rows(
        job.show.lengths,
        |desk, unit| set(desk, |job| Setting::Show(job.show.turned_to(unit))),
        |desk, part| {
            set(desk, |job| {
                Setting::Show(Show {
                    lengths: job.show.lengths.to_part(part),
                    ..job.show.clone()
                })
            })
        },
    ));
    let class = class_row(job.tape.class, |desk, class| {
        set(desk, |job| {
            Setting::Tape(Tape {
                class,
                ..job.tape.clone()
            })
        })
    });
    contents.extend([
        heading("Tape"),
        class,
        tape_reading().row(job),
        heading("Laser"),
        laser_accuracy("Stated accuracy, mm per m")
            .titled(|_| "Laser, **stated accuracy**".to_owned())
            .noted("the limit on its data sheet")
            .row(job),
        laser_reading().row(job),
    ]);
    contents
}

fn set(desk: &mut Desk, setting: impl FnOnce(&Job) -> Setting) -> Then {
    let setting = setting(desk.saved());
    desk.change(Edit::Set(setting));
    Then::Stay
}

/// How well the tape is read.
fn tape_reading() -> KeypadFigure {
    KeypadFigure::kept(
        "Typical error of a reading",
        |job| Some(job.tape.clone()),
        |tape| Some(&mut tape.reading),
        |tape| Edit::Set(Setting::Tape(tape)),
    )
    .titled(|_| "**Typical error** of a tape reading".to_owned())
    .of_kind(FigureKind::FineLength)
    .noted("a pencil mark 0.5 to 1, a nail in a peg 2, rough brick 2 to 3 mm")
}

/// How well the laser is read.
fn laser_reading() -> KeypadFigure {
    KeypadFigure::kept(
        "Typical error of a sight",
        |job| Some(job.level.clone()),
        |laser| Some(&mut laser.reading),
        |laser| Edit::Set(Setting::Laser(laser)),
    )
    .titled(|_| "**Typical error** of a sight".to_owned())
    .of_kind(FigureKind::FineLength)
}
