//! The job's own settings: its title, its unit, how good tape and laser are; and new names for
//! marks and walls.

use super::field::{Field, Measure};
use super::form::{Form, FormContents, choice, figure, heading, text};
use super::{Desk, Then, naming};
use crate::job::Job;
use crate::job::edit::{Edit, Setting};
use crate::job::model::Show;
use crate::length::{self, Part as Parts, Unit};
use crate::tape::TapeClass;
use tautmark_ui::Verdict;

const CLASSES: [TapeClass; 3] = [TapeClass::I, TapeClass::II, TapeClass::III];

/// The form of [`tautmark_ui::Page::Settings`].
pub(super) struct Settings;

impl Form for Settings {
    fn title(&self, desk: &Desk) -> String {
        match &desk.renaming {
            Some(thing) => format!(
                "Rename {} {}",
                thing.kind(),
                naming::called(desk.job(), thing)
            ),
            None => "Name and settings".to_owned(),
        }
    }

    fn contents(&self, desk: &Desk) -> FormContents {
        let job = desk.job();
        if let Some(thing) = &desk.renaming {
            let name = naming::called(job, thing);
            let rows = vec![text("name", "Name", "a short name of its own", &name)];
            return FormContents::new(rows).saying(Verdict::None, "Whatever refers to it follows.");
        }
        let class = CLASSES.iter().position(|class| *class == job.tape.class);
        let reading = length::show_spread(job.tape.reading, job.show.lengths);
        let laser = length::show_spread(job.level.reading, job.show.lengths);
        let accuracy = super::entry::plain(job.level.accuracy);
        let mut rows = vec![
            text(
                "title",
                "Name of the job",
                "what the job is called",
                &job.title,
            ),
            choice(
                "unit",
                "Lengths in",
                &["mm", "m", "ft in"],
                Some(job.show.lengths.place()),
            ),
        ];
        if let Some(part) = job.show.lengths.part() {
            let at = Parts::ALL.iter().position(|one| *one == part);
            let names = Parts::ALL.map(Parts::name);
            rows.push(choice("part", "Smallest part of an inch", &names, at));
        }
        rows.extend([
            heading("Tape"),
            choice(
                "class",
                "Accuracy class, printed on the tape",
                &["I", "II", "III"],
                class,
            ),
            figure(
                "reading",
                "One reading, standard deviation",
                "a pencil mark 0.5 to 1, a nail in a peg 2, rough brick 2 to 3 mm",
                &reading,
            ),
            heading("Laser"),
            figure(
                "accuracy",
                "Stated accuracy, mm per m",
                "the limit on its data sheet",
                &accuracy,
            ),
            figure("sight", "One sight, standard deviation", "", &laser),
        ]);
        FormContents::new(rows)
    }

    fn pressed(&self, desk: &mut Desk, id: &str) -> Then {
        let part = match id {
            "reading" => Part::TapeReading,
            "accuracy" => Part::LaserAccuracy,
            _ => Part::LaserReading,
        };
        desk.ask(Box::new(SettingFigure(part)));
        Then::Keypad
    }

    fn picked(&self, desk: &mut Desk, id: &str, index: usize) -> Then {
        let job = desk.saved();
        let edit = match id {
            "unit" => Unit::ALL
                .get(index)
                .map(|&unit| Setting::Show(job.show.turned_to(unit))),
            "part" => Parts::ALL.get(index).map(|&part| {
                Setting::Show(Show {
                    lengths: job.show.lengths.to_part(part),
                    ..job.show.clone()
                })
            }),
            _ => CLASSES.get(index).map(|&class| {
                let mut tape = job.tape.clone();
                tape.class = class;
                Setting::Tape(tape)
            }),
        };
        if let Some(edit) = edit {
            desk.change(Edit::Set(edit));
        }
        Then::Stay
    }

    fn edited(&self, desk: &mut Desk, _id: &str, text: &str) -> Then {
        if desk.renaming.is_some() {
            naming::rename(desk, text);
        } else {
            desk.amend(Edit::Set(Setting::Title(text.to_owned())));
        }
        Then::Stay
    }
}

#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Part {
    TapeReading,
    LaserAccuracy,
    LaserReading,
}

/// How good the tape or the laser is.
struct SettingFigure(Part);

impl Field for SettingFigure {
    fn key(&self) -> String {
        format!("setting {:?}", self.0)
    }

    fn title(&self, _job: &Job) -> String {
        match self.0 {
            Part::TapeReading => "One tape reading, **standard deviation**",
            Part::LaserAccuracy => "Laser, **stated accuracy**",
            Part::LaserReading => "One sight, **standard deviation**",
        }
        .to_owned()
    }

    fn measure(&self) -> Measure {
        match self.0 {
            Part::LaserAccuracy => Measure::Number("mm per m"),
            Part::TapeReading | Part::LaserReading => Measure::Length,
        }
    }

    fn value(&self, job: &Job) -> Option<f64> {
        Some(match self.0 {
            Part::TapeReading => job.tape.reading,
            Part::LaserAccuracy => job.level.accuracy,
            Part::LaserReading => job.level.reading,
        })
    }

    fn edit(&self, job: &Job, value: f64) -> Option<Edit> {
        let (mut tape, mut laser) = (job.tape.clone(), job.level.clone());
        Some(Edit::Set(match self.0 {
            Part::TapeReading => {
                tape.reading = value;
                Setting::Tape(tape)
            }
            Part::LaserAccuracy => {
                laser.accuracy = value;
                Setting::Laser(laser)
            }
            Part::LaserReading => {
                laser.reading = value;
                Setting::Laser(laser)
            }
        }))
    }
}
