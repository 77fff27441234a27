//! A figure of a quick sum on the keypad.

use super::given::Given;
use super::settings;
use super::sum::{Input, Kind, Need, Sum};
use crate::app::desk::{Desk, Entered, FigureKind, Prompt, Then};
use crate::app::kit::words::status;
use crate::job::Job;
use crate::length::Unit;
use tautmark_ui::{KeySigns, Status, Verdict};

/// One figure, and what is there of all of them.
pub struct QuickFigure {
    sum: &'static Sum,
    input: &'static Input,
    unit: Unit,
    known: Vec<Option<f64>>,
}

/// Asks for a figure of a sum.
pub fn ask(desk: &mut Desk, sum: &'static Sum, key: &str) -> Then {
    let Some(input) = sum.input(key) else {
        return Then::Stay;
    };
    let known = sum.inputs.iter();
    let known = known
        .map(|one| desk.figures.get(one.key).copied())
        .collect();
    let unit = settings::unit(desk);
    desk.ask(Box::new(QuickFigure {
        sum,
        input,
        unit,
        known,
    }));
    Then::Keypad
}

impl QuickFigure {
    fn at(&self) -> usize {
        let same = |one: &Input| one.key == self.input.key;
        self.sum.inputs.iter().position(same).unwrap_or(0)
    }

    /// True for a figure that is typed in its turn, after the one before it.
    fn in_turn(input: &Input) -> bool {
        !matches!(input.kind, Kind::Choice(_)) && !matches!(input.need, Need::Usual(_))
    }
}

impl Prompt for QuickFigure {
    fn key(&self) -> String {
        self.input.key.to_owned()
    }

    fn title(&self, _job: &Job) -> String {
        format!("**{}**", self.input.label)
    }

    fn measure(&self) -> FigureKind {
        match self.input.kind {
            Kind::Length => FigureKind::Length,
            Kind::Down | Kind::Up => FigureKind::Signed(KeySigns::UpDown),
            Kind::Degrees => FigureKind::Degrees,
            Kind::Count | Kind::Choice(_) => FigureKind::Count,
            Kind::Number(unit) => FigureKind::Number(unit),
        }
    }

    fn value(&self, _job: &Job) -> Option<f64> {
        let usual = match self.input.need {
            Need::Usual(value) => Some(value),
            Need::Must | Need::May => None,
        };
        let value = self.known.get(self.at()).copied().flatten().or(usual)?;
        Some(if self.input.kind == Kind::Down {
            -value
        } else {
            value
        })
    }

    fn usually_negative(&self) -> bool {
        self.input.kind == Kind::Down
    }

    fn unit(&self, _job: &Job) -> Unit {
        self.unit
    }

    fn enter(&self, _job: &Job, _value: f64) -> Entered {
        Entered::Desk
    }

    fn entered(&self, desk: &mut Desk, value: f64) {
        let value = if self.input.kind == Kind::Down {
            -value
        } else {
            value
        };
        desk.figures.insert(self.input.key.to_owned(), value);
    }

    fn progress(&self, _job: &Job) -> Option<(usize, usize)> {
        let all = self.sum.inputs.iter().filter(|one| Self::in_turn(one));
        let at = all.clone().position(|one| one.key == self.input.key)?;
        Some((at + 1, all.count()))
    }

    fn next(&self, _job: &Job) -> Option<Box<dyn Prompt>> {
        let later = self.sum.inputs.iter().zip(&self.known).skip(self.at() + 1);
        let mut open = later.filter(|(input, known)| Self::in_turn(input) && known.is_none());
        let (input, _) = open.next()?;
        Some(Box::new(Self {
            sum: self.sum,
            input,
            unit: self.unit,
            known: self.known.clone(),
        }))
    }

    fn verdict(&self, desk: &Desk, typed: Option<f64>) -> Option<Status> {
        let given = Given::of(desk, self.sum);
        match (self.sum.work)(&given) {
            Some(Ok(answer)) => {
                let figure = [answer.figure.as_str(), answer.tail.as_str()];
                let figure = figure.join(" ");
                let text = format!("{} **{}**", answer.what, figure.trim());
                Some(match answer.verdict {
                    Verdict::None | Verdict::Note => status(Verdict::Note, &text),
                    Verdict::Good => status(Verdict::Good, &text),
                    verdict => status(verdict, &format!("{text}\n\n{}", answer.says)),
                })
            }
            Some(Err(refused)) => Some(status(Verdict::Attention, &refused.said(&given))),
            None if typed.is_none() => Some(status(Verdict::Note, self.input.how)),
            None => None,
        }
    }
}
