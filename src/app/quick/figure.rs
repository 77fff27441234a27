//! A figure of a quick sum on the keypad.

use super::answer::Stop;
use super::given::Given;
use super::input::{Input, Kind};
use super::settings::Counts;
use super::sum::QuickSum;
use crate::app::desk::{Desk, Entered, FigureKind, Prompt, Then};
use crate::app::kit::status;
use crate::job::Job;
use crate::length::Unit;
use tautmark_ui::{KeySigns, Status, Verdict};

/// One figure, and what is there of all of them.
pub struct QuickFigure {
    sum: &'static QuickSum,
    input: &'static Input,
    counts: fn(&Desk) -> Counts,
    unit: Unit,
    known: Vec<Option<f64>>,
}

/// Asks for a figure of a sum that counts on this.
pub fn ask(
    desk: &mut Desk,
    sum: &'static QuickSum,
    input: &'static Input,
    counts: fn(&Desk) -> Counts,
) -> Then {
    let known = sum.inputs.iter();
    let known = known
        .map(|one| desk.figures.get(one.key).copied())
        .collect();
    let unit = counts(desk).unit;
    desk.ask(QuickFigure {
        sum,
        input,
        counts,
        unit,
        known,
    })
}

impl QuickFigure {
    fn at(&self) -> usize {
        let same = |one: &Input| one.key == self.input.key;
        self.sum.inputs.iter().position(same).unwrap_or(0)
    }
}

impl Prompt for QuickFigure {
    fn key(&self, _job: &Job) -> String {
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
        let known = self.known.get(self.at()).copied().flatten();
        let value = known.or_else(|| self.input.usual(self.unit))?;
        Some(self.input.turned(value))
    }

    fn usually_negative(&self) -> bool {
        self.input.kind == Kind::Down
    }

    fn unit(&self, _job: &Job) -> Unit {
        self.unit
    }

    fn enter(&self, _job: &Job, value: f64) -> Entered {
        let (key, value) = (self.input.key.to_owned(), self.input.turned(value));
        Entered::Desk(Box::new(move |desk| {
            desk.figures.insert(key, value);
        }))
    }

    fn emptied(&mut self, desk: &mut Desk) {
        desk.figures.remove(self.input.key);
        let at = self.at();
        if let Some(known) = self.known.get_mut(at) {
            *known = None;
        }
    }

    fn progress(&self, _job: &Job) -> Option<(usize, usize)> {
        let all = self.sum.inputs.iter().filter(|one| one.in_turn());
        let at = all.clone().position(|one| one.key == self.input.key)?;
        Some((at + 1, all.count()))
    }

    fn next(&self, _job: &Job) -> Option<Box<dyn Prompt>> {
        let later = self.sum.inputs.iter().zip(&self.known).skip(self.at() + 1);
        let mut open = later.filter(|(input, known)| input.in_turn() && known.is_none());
        let (input, _) = open.next()?;
        Some(Box::new(Self {
            sum: self.sum,
            input,
            counts: self.counts,
            unit: self.unit,
            known: self.known.clone(),
        }))
    }

    fn verdict(&self, desk: &Desk, typed: Option<f64>) -> Option<Status> {
        let given = Given::counting(desk, self.sum.inputs, (self.counts)(desk));
        match (self.sum.work)(&given) {
            Ok(answer) => {
                let figure = [given.say(answer.value), answer.tail.show(given.unit)];
                let text = format!("{} **{}**", answer.what, figure.join(" ").trim());
                Some(match answer.verdict {
                    Verdict::None | Verdict::Note => status(Verdict::Note, &text),
                    Verdict::Good => status(Verdict::Good, &text),
                    verdict => status(verdict, &format!("{text}\n\n{}", answer.says)),
                })
            }
            Err(Stop::Refused(why)) => Some(status(Verdict::Attention, &why.said(given.unit))),
            Err(Stop::Missing) if typed.is_none() => {
                Some(status(Verdict::Note, self.input.hint(given.unit)))
            }
            Err(Stop::Missing) => None,
        }
    }
}
