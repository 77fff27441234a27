//! What comes of a sum. Figures stay values here; this is the one place that shows them.

use crate::length::{self, Unit};
use crate::quick::{Figure, Refusal};
use crate::volume;
use tautmark_ui::Verdict;

/// What comes of a sum: an answer, or why there is none.
pub type Worked = Result<Answer, Stop>;

/// Why a sum has no answer.
pub enum Stop {
    /// Figures are still missing.
    Missing,
    /// Figures that cannot all be.
    Refused(Box<dyn Refusal>),
}

impl<E: Refusal + 'static> From<E> for Stop {
    fn from(error: E) -> Self {
        Self::Refused(Box::new(error))
    }
}

/// A figure that comes out.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Value {
    /// A length, mm.
    Length(f64),
    /// A length, mm, to a tenth of a millimetre where it is no whole one.
    Fine(f64),
    /// A length, mm, with the way it goes.
    Way(f64, &'static str),
    /// Degrees, with so many decimals.
    Degrees(f64, usize),
    /// Degrees, as finely as their ± (the second) asks for.
    Angle(f64, f64),
    /// A plain number, with so many decimals.
    Number(f64, usize),
    /// A volume, litres, with so many decimals; one more where it is cubic feet.
    Volume(f64, usize),
    Count(usize),
    /// A share of one, in hundredths.
    Share(f64),
    Words(&'static str),
}

/// What follows a figure.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Tail {
    /// The unit of lengths.
    Unit,
    /// The ± of a length, with its unit.
    Pm(Figure),
    /// The ± of an angle, degrees.
    AnglePm(f64),
    /// The ± of a slope, mm per m.
    SlopePm(f64),
    /// A volume, litres, with its unit.
    Litres(f64),
    /// The unit of volumes.
    VolumeUnit,
    Words(&'static str),
}

impl From<&'static str> for Tail {
    fn from(words: &'static str) -> Self {
        Self::Words(words)
    }
}

/// Below this ±, degrees, an angle is told to a hundredth of a degree.
const FINE: f64 = 0.5;

impl Value {
    /// As it is read, lengths in `unit`.
    #[must_use]
    pub fn show(self, unit: Unit) -> String {
        match self {
            Self::Length(mm) => length::show(mm, unit),
            Self::Fine(mm) => {
                let whole = (mm - mm.round()).abs() < 0.05;
                length::show_fine(mm, unit, usize::from(!whole))
            }
            Self::Way(mm, way) => format!("{} {way}", length::show(mm, unit)),
            Self::Degrees(degrees, decimals) => format!("{degrees:.decimals$}°"),
            Self::Angle(degrees, pm) if pm < FINE => format!("{degrees:.2}°"),
            Self::Angle(degrees, _) => format!("{degrees:.1}°"),
            Self::Number(number, decimals) => format!("{number:.decimals$}"),
            Self::Volume(litres, decimals) => {
                volume::figure(litres, unit, decimals + usize::from(unit.is_feet()))
            }
            Self::Count(count) => count.to_string(),
            Self::Share(share) => format!("{:.0} %", share * 100.0),
            Self::Words(words) => words.to_owned(),
        }
    }
}

impl Tail {
    /// As it is read, lengths in `unit`.
    #[must_use]
    pub fn show(self, unit: Unit) -> String {
        match self {
            Self::Unit => unit.name().to_owned(),
            Self::Pm(figure) => length::show_pm_with_unit(figure.pm, unit),
            // Never rounded to nothing.
            Self::AnglePm(pm) if pm < FINE => format!("±\u{a0}{:.2}°", pm.max(0.01)),
            Self::AnglePm(pm) => format!("±\u{a0}{pm:.1}°"),
            Self::SlopePm(pm) => format!("±\u{a0}{pm:.2} mm per m"),
            Self::Litres(litres) => volume::said(litres, unit),
            Self::VolumeUnit => volume::name(unit).to_owned(),
            Self::Words(words) => words.to_owned(),
        }
    }
}

/// What comes out: one main figure, others, and what is to be said of them.
#[derive(Debug)]
pub struct Answer {
    /// What the main figure is.
    pub what: String,
    pub value: Value,
    pub tail: Tail,
    pub rows: Vec<AnswerRow>,
    pub verdict: Verdict,
    pub says: String,
}

/// A further figure that comes out.
#[derive(Debug)]
pub struct AnswerRow {
    pub label: String,
    pub note: String,
    pub value: Value,
    pub tail: Tail,
}

impl Answer {
    /// An answer with its main figure and what follows it.
    pub fn new(what: impl Into<String>, value: Value, tail: impl Into<Tail>) -> Self {
        Self {
            what: what.into(),
            value,
            tail: tail.into(),
            rows: Vec::new(),
            verdict: Verdict::None,
            says: String::new(),
        }
    }

    /// With another figure.
    pub fn row(mut self, label: impl Into<String>, value: Value, tail: impl Into<Tail>) -> Self {
        self.rows.push(AnswerRow {
            label: label.into(),
            note: String::new(),
            value,
            tail: tail.into(),
        });
        self
    }

    /// With a line under the latest figure.
    pub fn noted(mut self, note: impl Into<String>) -> Self {
        if let Some(row) = self.rows.last_mut() {
            row.note = note.into();
        }
        self
    }

    /// With the first `most` marks from one end, each shown by `value` and named by its number.
    pub fn marks(
        self,
        marks: &[f64],
        most: usize,
        value: fn(f64) -> Value,
        name: impl Fn(usize) -> String,
    ) -> Self {
        let marks = marks.iter().take(most).enumerate();
        marks.fold(self, |answer, (n, at)| {
            answer.row(name(n + 1), value(*at), Tail::Unit)
        })
    }

    /// With a sentence more; the gravest of all is the verdict.
    pub fn says(mut self, verdict: Verdict, text: impl AsRef<str>) -> Self {
        if !self.says.is_empty() {
            self.says.push_str("\n\n");
        }
        self.says.push_str(text.as_ref());
        if grave(verdict) > grave(self.verdict) {
            self.verdict = verdict;
        }
        self
    }
}

fn grave(verdict: Verdict) -> u8 {
    match verdict {
        Verdict::None => 0,
        Verdict::Note => 1,
        Verdict::Good => 2,
        Verdict::Attention => 3,
        Verdict::Bad => 4,
    }
}
