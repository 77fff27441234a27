//! Is the laser telling the truth? Two pegs, read from the middle and from beside one of them.

use crate::app::bridge::form::FormPage;
use crate::app::desk::entry::plain;
use crate::app::desk::{Desk, Then, caution};
use crate::app::kit::fields::{FormContents, FormFigure, figure, heading, result};
use crate::app::laser_figure::{Accuracy, LaserFigure, PARTS, Part};
use crate::cautions::LASER;
use crate::job::edit::{Edit, Setting};
use crate::job::model::Job;
use crate::laser::Laser;
use crate::length;
use crate::quick::laser_check::{AtPegs, PegCheck, TwoPegs, Verdict as Found, two_pegs};
use tautmark_ui::Verdict;

/// The page of the check.
pub(super) struct LaserCheck;

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

impl FormPage for LaserCheck {
    fn title(&self, _desk: &Desk) -> String {
        "Is the laser true?".to_owned()
    }

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
        let stated = format!("{} mm per m", plain(desk.job().level.accuracy));
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
        let mut contents = FormContents::new(rows).saying(verdict, &text);
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
