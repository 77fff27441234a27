//! Is the laser telling the truth? Two pegs, read from the middle and from beside one of them.

use super::caution;
use super::field::{Field, Measure};
use super::form::{Form, FormContents, FormFigure, figure, heading, result};
use super::words::status;
use super::{Desk, Then};
use crate::cautions::LASER;
use crate::job::edit::{Edit, Setting};
use crate::job::model::Job;
use crate::laser::Laser;
use crate::length;
use crate::quick::laser_check::{AtPegs, PegCheck, TwoPegs, Verdict as Found, two_pegs};
use tautmark_ui::{KeySigns, Status, Verdict};

/// The page of the check.
pub(super) struct LaserCheck;

/// A figure of the check, in the order in which they are read.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Part {
    Base,
    MiddleA,
    MiddleB,
    DistA,
    DistB,
    SecondA,
    SecondB,
}

const PARTS: [Part; 7] = [
    Part::Base,
    Part::MiddleA,
    Part::MiddleB,
    Part::DistA,
    Part::DistB,
    Part::SecondA,
    Part::SecondB,
];

impl Part {
    /// Its name among the figures on the desk.
    fn name(self) -> &'static str {
        match self {
            Self::Base => "laser base",
            Self::MiddleA => "laser middle a",
            Self::MiddleB => "laser middle b",
            Self::DistA => "laser distance a",
            Self::DistB => "laser distance b",
            Self::SecondA => "laser second a",
            Self::SecondB => "laser second b",
        }
    }

    fn label(self) -> &'static str {
        match self {
            Self::Base => "Between the pegs",
            Self::MiddleA => "Peg A from the middle",
            Self::MiddleB => "Peg B from the middle",
            Self::DistA => "Laser to peg A",
            Self::DistB => "Laser to peg B",
            Self::SecondA => "Peg A from there",
            Self::SecondB => "Peg B from there",
        }
    }

    fn how(self) -> &'static str {
        match self {
            Self::Base => "Drive two pegs 15 m apart or more, about level.",
            Self::MiddleA | Self::MiddleB => "Laser midway; down from its line to the peg's top.",
            Self::DistA | Self::DistB => "Laser beside one peg, or just beyond it.",
            Self::SecondA | Self::SecondB => "Down from its line again, from the second place.",
        }
    }

    fn is_sight(self) -> bool {
        !matches!(self, Self::Base | Self::DistA | Self::DistB)
    }
}

fn value(desk: &Desk, part: Part) -> Option<f64> {
    desk.figures.get(part.name()).copied()
}

fn laser(job: &Job) -> Laser {
    Laser {
        accuracy: job.level.accuracy,
        reading: job.level.reading,
    }
}

/// What the readings come to; `None` until all are there.
fn checked(desk: &Desk) -> Option<Result<PegCheck, String>> {
    let at = |part| value(desk, part);
    let pegs = |a, b| {
        Some(AtPegs {
            a: at(a)?,
            b: at(b)?,
        })
    };
    let check = TwoPegs {
        base: at(Part::Base)?,
        middle: pegs(Part::MiddleA, Part::MiddleB)?,
        second: pegs(Part::SecondA, Part::SecondB)?,
        second_dist: pegs(Part::DistA, Part::DistB)?,
        higher: None,
    };
    Some(two_pegs(&check, laser(desk.job())).map_err(|why| why.to_string()))
}

/// What a check on this desk found, in a few words; `None` where none is done.
pub(super) fn found(desk: &Desk) -> Option<String> {
    let check = checked(desk)?.ok()?;
    Some(format!("out by {}", slope(&check)))
}

fn slope(check: &PegCheck) -> String {
    format!(
        "{:.2} ± {:.2} mm per m",
        check.slope.value.abs(),
        check.slope.pm
    )
}

fn verdict(found: Found) -> Verdict {
    match found {
        Found::Within => Verdict::Good,
        Found::Beyond => Verdict::Bad,
        Found::CannotTell { .. } => Verdict::Attention,
    }
}

fn standing(desk: &Desk) -> (Verdict, String) {
    match checked(desk) {
        Some(Ok(check)) => (verdict(check.verdict), check.verdict.text()),
        Some(Err(why)) => (Verdict::Attention, why),
        None => (
            Verdict::Note,
            "**From the middle both readings are wrong alike,** so that their difference is true; \
             from beside one peg the far one is wrong by more."
                .to_owned(),
        ),
    }
}

fn first_missing(desk: &Desk) -> Option<Part> {
    PARTS.into_iter().find(|part| value(desk, *part).is_none())
}

fn ask(desk: &mut Desk, part: Part) -> Then {
    let known = PARTS.map(|part| value(desk, part));
    desk.ask(Box::new(LaserFigure { part, known }));
    Then::Keypad
}

impl Form for LaserCheck {
    fn contents(&self, desk: &Desk) -> FormContents {
        let unit = desk.job().show.lengths;
        let mut rows = Vec::new();
        for part in PARTS {
            match part {
                Part::Base => rows.push(heading("Two pegs")),
                Part::DistA => rows.push(heading("From a second place")),
                _ => {}
            }
            let said =
                value(desk, part).map_or_else(|| "—".to_owned(), |mm| length::show(mm, unit));
            rows.push(figure(part.name(), part.label(), part.how(), &said));
        }
        rows.push(heading("The laser"));
        let stated = format!(
            "{} mm per m",
            super::entry::plain(desk.job().level.accuracy)
        );
        let note = "a limit either way, on its label";
        rows.push(figure("accuracy", "Stated accuracy", note, &stated));
        let check = checked(desk).and_then(Result::ok);
        if let Some(check) = &check {
            let said = |mm: f64| length::show_fine(mm, unit, 1);
            let note = "what a true laser would read there";
            let (a, b) = (check.true_second.a, check.true_second.b);
            rows.push(result(
                "true a",
                "Peg A from there, true",
                note,
                &said(a),
                "",
            ));
            rows.push(result(
                "true b",
                "Peg B from there, true",
                note,
                &said(b),
                "",
            ));
        }
        let (verdict, text) = standing(desk);
        let mut contents = FormContents::new("Is the laser true?", rows).saying(verdict, &text);
        contents.figure = check.as_ref().map(|check| FormFigure {
            what: "The laser is out by".to_owned(),
            figure: format!("{:.2}", check.slope.value.abs()),
            tail: format!("± {:.2} mm per m", check.slope.pm),
        });
        contents.caution = LASER.short.to_owned();
        contents.primary = match (first_missing(desk), &check) {
            (Some(part), _) => format!("Next: {}", part.label()),
            (None, Some(check)) if check.verdict == Found::Beyond => {
                format!("Count on {:.1} mm per m", kept(check))
            }
            _ => String::new(),
        };
        contents
    }

    fn pressed(&self, desk: &mut Desk, id: &str) -> Then {
        if id == "accuracy" {
            desk.ask(Box::new(Accuracy));
            return Then::Keypad;
        }
        match PARTS.into_iter().find(|part| part.name() == id) {
            Some(part) => ask(desk, part),
            None => self.figure_asked(desk),
        }
    }

    fn figure_asked(&self, desk: &mut Desk) -> Then {
        desk.explain(
            "How far the laser is out",
            "The height between the pegs as read from the second place, less that read from the \
             middle, over the difference of the two distances; sights twice as long halve its ±.",
        );
        Then::Stay
    }

    fn caution_pressed(&self, desk: &mut Desk) -> Then {
        caution::open(desk, &LASER)
    }

    fn primary(&self, desk: &mut Desk) -> Then {
        if let Some(part) = first_missing(desk) {
            return ask(desk, part);
        }
        if let Some(Ok(check)) = checked(desk) {
            let accuracy = kept(&check);
            let level = crate::job::model::Laser {
                accuracy,
                ..desk.saved().level.clone()
            };
            let text = format!("Every ± counts on {accuracy:.1} mm per m now.");
            desk.change_and_say(Edit::Set(Setting::Laser(level)), &text);
        }
        Then::Stay
    }
}

/// What the job counts on from now: the slope found, to a tenth.
fn kept(check: &PegCheck) -> f64 {
    (check.slope.value.abs() * 10.0).ceil() / 10.0
}

/// One figure of the check, kept on the desk.
struct LaserFigure {
    part: Part,
    known: [Option<f64>; 7],
}

impl LaserFigure {
    fn at(&self) -> usize {
        PARTS
            .iter()
            .position(|part| *part == self.part)
            .unwrap_or(0)
    }
}

impl Field for LaserFigure {
    fn key(&self) -> String {
        self.part.name().to_owned()
    }

    fn title(&self, _job: &Job) -> String {
        format!("**{}**", self.part.label())
    }

    fn measure(&self) -> Measure {
        if self.part.is_sight() {
            Measure::Signed(KeySigns::UpDown)
        } else {
            Measure::Length
        }
    }

    fn value(&self, _job: &Job) -> Option<f64> {
        let there = self.known.get(self.at()).copied().flatten();
        if self.part.is_sight() {
            return there.map(|down| -down);
        }
        there
    }

    fn usually_negative(&self) -> bool {
        self.part.is_sight()
    }

    fn edit(&self, _job: &Job, _value: f64) -> Option<Edit> {
        None
    }

    fn entered(&self, desk: &mut Desk, value: f64) {
        let value = if self.part.is_sight() { -value } else { value };
        desk.figures.insert(self.part.name(), value);
    }

    fn progress(&self, _job: &Job) -> Option<(usize, usize)> {
        Some((self.at() + 1, PARTS.len()))
    }

    fn next(&self, _job: &Job) -> Option<Box<dyn Field>> {
        let later = PARTS.into_iter().zip(self.known).skip(self.at() + 1);
        let (part, _) = later.into_iter().find(|(_, known)| known.is_none())?;
        let known = self.known;
        Some(Box::new(Self { part, known }))
    }

    fn verdict(&self, _desk: &Desk, typed: Option<f64>) -> Option<Status> {
        typed
            .is_none()
            .then(|| status(Verdict::Note, self.part.how()))
    }
}

/// The laser's stated accuracy.
struct Accuracy;

impl Field for Accuracy {
    fn key(&self) -> String {
        "laser accuracy".to_owned()
    }

    fn title(&self, _job: &Job) -> String {
        "**Stated accuracy** of the laser".to_owned()
    }

    fn measure(&self) -> Measure {
        Measure::Number("mm per m")
    }

    fn value(&self, job: &Job) -> Option<f64> {
        Some(job.level.accuracy)
    }

    fn edit(&self, job: &Job, value: f64) -> Option<Edit> {
        let level = crate::job::model::Laser {
            accuracy: value,
            ..job.level.clone()
        };
        Some(Edit::Set(Setting::Laser(level)))
    }
}
