//! Is the laser of the open job telling the truth? The quick sum of two pegs, by what the job counts on.

use super::quick::laser::{TWO_PEGS, checked, count_in_job, counted_on};
use super::quick::{Counts, Given, ask_counting, contents, laser_check};
use crate::app::bridge::form::FormPage;
use crate::app::bridge::screen::{Picture, Screen, Spec};
use crate::app::desk::entry::plain;
use crate::app::desk::{Desk, FigureKind, Prompt, Then, caution};
use crate::app::kit::fields::{FormContents, figure, heading};
use crate::cautions::LASER;
use crate::job::Job;
use crate::job::edit::{Edit, Setting};
use crate::job::model::Laser;
use crate::quick::laser_check::{PegCheck, Verdict as Found};
use tautmark_ui::{Page, Place};

/// The page of the check.
pub(super) struct LaserCheck;

const ACCURACY: &str = "laser accuracy";

fn given(desk: &Desk) -> Given<'_> {
    Given::counting(desk, TWO_PEGS.inputs, Counts::of_job(desk))
}

/// What a check on this desk found, in a few words; `None` where none is done.
pub(super) fn found(desk: &Desk) -> Option<String> {
    let slope = checked(&given(desk)).ok()?.slope;
    Some(format!(
        "out by {:.2} ± {:.2} mm per m",
        slope.value.abs(),
        slope.pm
    ))
}

/// The check of a laser that is out by more than the job counts on.
fn beyond(desk: &Desk) -> Option<PegCheck> {
    let check = checked(&given(desk)).ok()?;
    (check.verdict == Found::Beyond).then_some(check)
}

impl Screen for LaserCheck {
    fn spec(&self) -> Spec {
        Spec::inside(Place::Levels, Page::Laser, "laser")
    }

    fn form(&self) -> Option<&dyn FormPage> {
        Some(self)
    }

    fn picture(&self, desk: &Desk) -> Option<Picture> {
        Some(Picture::Drawing(laser_check(desk)))
    }
}

impl FormPage for LaserCheck {
    fn title(&self, _desk: &Desk) -> String {
        "Is the laser true?".to_owned()
    }

    fn contents(&self, desk: &Desk) -> FormContents {
        let mut contents = contents(&TWO_PEGS, &given(desk));
        let stated = format!("{} mm per m", plain(desk.job().level.accuracy));
        let note = "a limit either way, on its label";
        contents.rows.push(heading("The laser"));
        contents
            .rows
            .push(figure(ACCURACY, "Stated accuracy", note, &stated));
        if let Some(check) = beyond(desk) {
            contents.primary = format!("Count on {:.1} mm per m", counted_on(&check));
        }
        contents
    }

    fn pressed(&self, desk: &mut Desk, id: &str) -> Then {
        if id == ACCURACY {
            desk.ask(Box::new(Accuracy));
            return Then::Keypad;
        }
        match TWO_PEGS.input(id) {
            Some(input) => ask_counting(desk, &TWO_PEGS, input.key, Counts::of_job),
            None => self.figure_asked(desk),
        }
    }

    fn figure_asked(&self, desk: &mut Desk) -> Then {
        desk.explain("How far the laser is out", TWO_PEGS.why);
        Then::Stay
    }

    fn caution_pressed(&self, desk: &mut Desk) -> Then {
        caution::open(desk, &LASER)
    }

    fn primary(&self, desk: &mut Desk) -> Then {
        if let Some(missing) = given(desk).missing() {
            return ask_counting(desk, &TWO_PEGS, missing.key, Counts::of_job);
        }
        if let Some(check) = beyond(desk) {
            count_in_job(desk, counted_on(&check));
        }
        Then::Stay
    }
}

/// The laser's stated accuracy.
struct Accuracy;

impl Prompt for Accuracy {
    fn key(&self) -> String {
        ACCURACY.to_owned()
    }

    fn title(&self, _job: &Job) -> String {
        "**Stated accuracy** of the laser".to_owned()
    }

    fn measure(&self) -> FigureKind {
        FigureKind::Number("mm per m")
    }

    fn value(&self, job: &Job) -> Option<f64> {
        Some(job.level.accuracy)
    }

    fn edit(&self, job: &Job, value: f64) -> Option<Edit> {
        let level = Laser {
            accuracy: value,
            ..job.level.clone()
        };
        Some(Edit::Set(Setting::Laser(level)))
    }
}
