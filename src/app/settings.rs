//! The job's own settings: its title, its unit, how good tape and laser are; and new names for
//! marks and walls.

use crate::app::bridge::form::FormPage;
use crate::app::bridge::screen::{Back, Screen, Spec};
use crate::app::desk::{Desk, FigureKind, Then};
use crate::app::kit::fields::{FormContents, choice, heading, text};
use crate::app::kit::setting_figure::{Set, SettingFigure};
use crate::app::names::things::thing_called;
use crate::app::renaming;
use crate::job::edit::{Edit, Setting};
use crate::job::model::Show;
use crate::length::Unit;
use crate::tape::TapeClass;
use tautmark_ui::{Page, Verdict};

const UNITS: [Unit; 3] = [Unit::Mm, Unit::M, Unit::FtIn];
const CLASSES: [TapeClass; 3] = [TapeClass::I, TapeClass::II, TapeClass::III];

/// The form of [`tautmark_ui::Page::Settings`].
pub struct Settings;

impl Screen for Settings {
    fn spec(&self) -> Spec {
        Spec::over(Page::Settings, Some("settings"), Back::Place)
    }

    fn form(&self) -> Option<&dyn FormPage> {
        Some(self)
    }

    fn leave(&self, desk: &mut Desk) {
        desk.renaming = None;
    }
}

impl FormPage for Settings {
    fn title(&self, desk: &Desk) -> String {
        match &desk.renaming {
            Some(thing) => format!(
                "Rename {} {}",
                thing.kind(),
                thing_called(desk.job(), thing)
            ),
            None => "Name and settings".to_owned(),
        }
    }

    fn contents(&self, desk: &Desk) -> FormContents {
        let job = desk.job();
        if let Some(thing) = &desk.renaming {
            let name = thing_called(job, thing);
            let rows = vec![text("name", "Name", "a short name of its own", &name)];
            return FormContents::new(rows).saying(Verdict::None, "Whatever refers to it follows.");
        }
        let unit = UNITS.iter().position(|unit| *unit == job.show.lengths);
        let class = CLASSES.iter().position(|class| *class == job.tape.class);
        FormContents::new(vec![
            text(
                "title",
                "Name of the job",
                "what the job is called",
                &job.title,
            ),
            choice("unit", "Lengths in", &["mm", "m", "ft in"], unit),
            heading("Tape"),
            choice(
                "class",
                "Accuracy class, printed on the tape",
                &["I", "II", "III"],
                class,
            ),
            TAPE_READING.row(job),
            heading("Laser"),
            LASER_ACCURACY.row(job),
            LASER_READING.row(job),
        ])
    }

    fn pressed(&self, desk: &mut Desk, id: &str) -> Then {
        let figures = [&TAPE_READING, &LASER_ACCURACY, &LASER_READING];
        let Some(figure) = figures.into_iter().find(|figure| figure.key == id) else {
            return Then::Stay;
        };
        desk.ask(Box::new(figure));
        Then::Keypad
    }

    fn picked(&self, desk: &mut Desk, id: &str, index: usize) -> Then {
        let job = desk.saved();
        let edit = match id {
            "unit" => UNITS.get(index).map(|&lengths| {
                Setting::Show(Show {
                    lengths,
                    ..job.show.clone()
                })
            }),
            "class" => CLASSES.get(index).map(|&class| {
                let mut tape = job.tape.clone();
                tape.class = class;
                Setting::Tape(tape)
            }),
            _ => None,
        };
        if let Some(edit) = edit {
            desk.change(Edit::Set(edit));
        }
        Then::Stay
    }

    fn edited(&self, desk: &mut Desk, _id: &str, text: &str) -> Then {
        if desk.renaming.is_some() {
            renaming::rename(desk, text);
        } else {
            desk.amend(Edit::Set(Setting::Title(text.to_owned())));
        }
        Then::Stay
    }
}

/// How well the tape is read.
static TAPE_READING: SettingFigure = SettingFigure {
    key: "setting TapeReading",
    title: "One tape reading, **standard deviation**",
    label: "One reading, standard deviation",
    note: "a pencil mark 0.5 to 1, a nail in a peg 2, rough brick 2 to 3 mm",
    kind: FigureKind::FineLength,
    get: |job| Some(job.tape.reading),
    set: Set::Tape(|tape, value| tape.reading = value),
    place: "",
};

/// How good the laser is said to be.
static LASER_ACCURACY: SettingFigure = SettingFigure {
    key: "setting LaserAccuracy",
    title: "Laser, **stated accuracy**",
    label: "Stated accuracy, mm per m",
    note: "the limit on its data sheet",
    kind: FigureKind::Number("mm per m"),
    get: |job| Some(job.level.accuracy),
    set: Set::Laser(|laser, value| laser.accuracy = value),
    place: "",
};

/// How well the laser is read.
static LASER_READING: SettingFigure = SettingFigure {
    key: "setting LaserReading",
    title: "One sight, **standard deviation**",
    label: "One sight, standard deviation",
    note: "",
    kind: FigureKind::FineLength,
    get: |job| Some(job.level.reading),
    set: Set::Laser(|laser, value| laser.reading = value),
    place: "",
};
