//! The figures of a sum as they stand, with the one being typed among them.

use super::settings::{laser, tape, unit};
use super::sum::{Input, Kind, Need, Sum};
use crate::app::desk::Desk;
use crate::app::desk::entry::plain;
use crate::drawing::{Sketch, Tag};
use crate::job::model::Tape;
use crate::laser::Laser;
use crate::length::{self, Unit};
use crate::quick::{Figure, Taped};

/// What a sum is worked out from.
pub struct Given<'a> {
    desk: &'a Desk,
    sum: &'static Sum,
    pub unit: Unit,
    pub tape: Tape,
    pub laser: Laser,
    /// The figure on the keypad, where it is one of this sum.
    pub asked: Option<&'static str>,
    typed: Option<f64>,
}

impl<'a> Given<'a> {
    /// The figures of a sum on this desk.
    #[must_use]
    pub fn of(desk: &'a Desk, sum: &'static Sum) -> Self {
        let key = desk.entry.as_ref().map(|entry| entry.figure.key());
        let asked = key.and_then(|key| sum.input(&key));
        let typed = asked.and_then(|input| {
            let value = desk.typed()?;
            Some(if input.kind == Kind::Down {
                -value
            } else {
                value
            })
        });
        Self {
            desk,
            sum,
            unit: unit(desk),
            tape: tape(desk),
            laser: laser(desk),
            asked: asked.map(|input| input.key),
            typed,
        }
    }

    /// What was typed, mm, degrees or a number; `None` where nothing was.
    #[must_use]
    pub fn typed(&self, key: &str) -> Option<f64> {
        if self.asked == Some(key) && self.typed.is_some() {
            return self.typed;
        }
        self.desk.figures.get(key).copied()
    }

    /// What was typed, or what is usual.
    #[must_use]
    pub fn get(&self, key: &str) -> Option<f64> {
        let usual = || match self.sum.input(key)?.need {
            Need::Usual(value) => Some(value),
            Need::Must | Need::May => None,
        };
        self.typed(key).or_else(usual)
    }

    /// A tape and how good it is.
    #[must_use]
    pub fn taped(&self, key: &str) -> Option<Taped> {
        let length = self.get(key)?;
        Some(Taped::new(
            length,
            self.tape.class.sd(self.tape.reading, length),
        ))
    }

    /// A whole number.
    #[must_use]
    pub fn count(&self, key: &str) -> Option<usize> {
        let value = self.get(key)?;
        // Fractions never get past the keypad.
        Some(value.clamp(0.0, 1e9) as usize)
    }

    /// Which of a choice is picked, from 0.
    #[must_use]
    pub fn picked(&self, key: &str) -> usize {
        self.count(key).unwrap_or(0)
    }

    /// The first figure that the sum cannot do without and that is not there.
    #[must_use]
    pub fn missing(&self) -> Option<&'static Input> {
        let inputs = self.sum.inputs.iter();
        let mut open = inputs.filter(|input| input.need == Need::Must);
        open.find(|input| self.typed(input.key).is_none())
    }

    /// A figure as it is shown: a length in the unit of Quick, an angle with its degrees.
    #[must_use]
    pub fn shown(&self, input: &Input) -> Option<String> {
        let value = self.get(input.key)?;
        Some(match input.kind {
            Kind::Length => self.length(value),
            Kind::Down => way(self.length(value.abs()), value, "down", "up"),
            Kind::Up => way(self.length(value.abs()), value, "up", "down"),
            Kind::Degrees => format!("{}°", plain(value)),
            Kind::Count => format!("{value:.0}"),
            Kind::Number(unit) => format!("{} {unit}", plain(value)),
            Kind::Choice(options) => {
                let at = self.picked(input.key);
                options.get(at).copied().unwrap_or_default().to_owned()
            }
        })
    }

    /// A figure for the picture: as it is shown, or what it is called while it is empty.
    #[must_use]
    pub fn tag(&self, key: &'static str) -> Tag<'static> {
        let input = self.sum.input(key);
        let text = input.map_or_else(String::new, |input| {
            self.shown(input).unwrap_or_else(|| input.called.to_owned())
        });
        Tag { key, text }
    }

    /// A tag that nothing is asked by.
    #[must_use]
    pub fn said(&self, text: impl Into<String>) -> Tag<'static> {
        Tag {
            key: "",
            text: text.into(),
        }
    }

    /// An empty sheet for the picture.
    #[must_use]
    pub fn sheet(&self) -> Sketch<'static> {
        Sketch::new(self.asked)
    }

    /// A length, mm, in the unit of Quick.
    #[must_use]
    pub fn length(&self, mm: f64) -> String {
        length::show(mm, self.unit)
    }

    /// The same to a tenth of a millimetre, where it is no whole one.
    #[must_use]
    pub fn fine(&self, mm: f64) -> String {
        let whole = (mm - mm.round()).abs() < 0.05;
        length::show_fine(mm, self.unit, usize::from(!whole))
    }

    /// The ± of a length, with the unit's name where figures do not carry it.
    #[must_use]
    pub fn pm(&self, figure: Figure) -> String {
        let pm = length::show_pm(figure.pm, self.unit);
        match self.unit_name() {
            "" => pm,
            name => format!("{pm} {name}"),
        }
    }

    /// “mm”, “m”, or nothing: feet and inches carry their marks.
    #[must_use]
    pub fn unit_name(&self) -> &'static str {
        match self.unit {
            Unit::Mm => "mm",
            Unit::M => "m",
            Unit::FtIn => "",
        }
    }
}

fn way(length: String, value: f64, positive: &str, negative: &str) -> String {
    let way = if value < 0.0 { negative } else { positive };
    format!("{length} {way}")
}

/// Below this ±, degrees, an angle is told to a hundredth of a degree.
const FINE: f64 = 0.5;

/// An angle to a tenth of a degree, or finer where its ± asks for it.
#[must_use]
pub fn angle(degrees: f64, pm: f64) -> String {
    if pm < FINE {
        format!("{degrees:.2}°")
    } else {
        format!("{degrees:.1}°")
    }
}

/// The ± of an angle, never rounded to nothing.
#[must_use]
pub fn angle_pm(pm: f64) -> String {
    if pm < FINE {
        format!("±\u{a0}{:.2}°", pm.max(0.01))
    } else {
        format!("±\u{a0}{pm:.1}°")
    }
}
