//! The figures of a sum as they stand, with the one being typed among them.

use super::answer::{Stop, Value, Worked};
use super::input::{Input, Kind, Need};
use super::settings::Counts;
use crate::app::desk::Desk;
use crate::app::desk::entry::plain;
use crate::drawing::Tag;
use crate::job::model::Tape;
use crate::laser::LaserWorth;
use crate::length::Unit;
use crate::quick::{Figure, Refusal, Taped};

/// What a sum is worked out from.
pub struct Given<'a> {
    desk: &'a Desk,
    inputs: &'static [Input],
    pub unit: Unit,
    pub tape: Tape,
    pub laser: LaserWorth,
    /// The figure on the keypad, where it is one of this sum.
    asked: Option<&'static Input>,
    typed: Option<f64>,
}

impl<'a> Given<'a> {
    /// The figures of a sum on this desk.
    #[must_use]
    pub fn of(desk: &'a Desk, inputs: &'static [Input]) -> Self {
        Self::counting(desk, inputs, Counts::of_quick(desk))
    }

    /// The same, where it counts on something of its own.
    #[must_use]
    pub fn counting(desk: &'a Desk, inputs: &'static [Input], counts: Counts) -> Self {
        let key = desk
            .entry
            .as_ref()
            .map(|entry| entry.figure.key(desk.saved()));
        let asked = key.and_then(|key| inputs.iter().find(|input| input.key == key));
        let typed = asked.and_then(|input| Some(input.turned(desk.typed()?)));
        Self {
            desk,
            inputs,
            unit: counts.unit,
            tape: counts.tape,
            laser: counts.laser,
            asked,
            typed,
        }
    }

    /// The figure on the keypad, where it is one of this sum.
    #[must_use]
    pub fn asked(&self) -> Option<&'static Input> {
        self.asked
    }

    /// Whether the keypad asks for this figure.
    #[must_use]
    pub fn asks(&self, input: &Input) -> bool {
        self.asked.is_some_and(|asked| asked.key == input.key)
    }

    /// What was typed, mm, degrees or a number; `None` where nothing was.
    #[must_use]
    pub fn typed(&self, input: &Input) -> Option<f64> {
        let now = self.typed.filter(|_| self.asks(input));
        now.or_else(|| self.desk.figures.get(input.key).copied())
    }

    /// What was typed, or what is usual.
    #[must_use]
    pub fn maybe(&self, input: &Input) -> Option<f64> {
        self.typed(input).or_else(|| input.usual(self.unit))
    }

    /// The same, of a figure that the sum cannot do without.
    ///
    /// # Errors
    /// Where it is missing.
    pub fn get(&self, input: &Input) -> Result<f64, Stop> {
        self.maybe(input).ok_or(Stop::Missing)
    }

    /// A tape and how good it is.
    ///
    /// # Errors
    /// Where it is missing.
    pub fn taped(&self, input: &Input) -> Result<Taped, Stop> {
        let length = self.get(input)?;
        Ok(Taped::new(length, self.tape.sd(length)))
    }

    /// A whole number, where it is typed.
    ///
    /// # Errors
    /// Where it is less than one.
    pub fn maybe_count(&self, input: &Input) -> Result<Option<usize>, Stop> {
        match self.maybe(input) {
            // Fractions never get past the keypad.
            Some(value) if value >= 1.0 => Ok(Some(value.min(1e9) as usize)),
            Some(_) => Err(LessThanOne {
                called: input.called,
            }
            .into()),
            None => Ok(None),
        }
    }

    /// A whole number.
    ///
    /// # Errors
    /// Where it is missing or less than one.
    pub fn count(&self, input: &Input) -> Result<usize, Stop> {
        self.maybe_count(input)?.ok_or(Stop::Missing)
    }

    /// Which of a choice is picked, from 0.
    #[must_use]
    pub fn picked(&self, input: &Input) -> usize {
        self.maybe(input).unwrap_or_default().clamp(0.0, 10.0) as usize
    }

    /// The first figure that the sum cannot do without and that is not there.
    #[must_use]
    pub fn missing(&self) -> Option<&'static Input> {
        let mut open = self.inputs.iter().filter(|input| input.need == Need::Must);
        open.find(|input| self.typed(input).is_none())
    }

    /// A figure as it is shown: a length in the unit of Quick, an angle with its degrees.
    #[must_use]
    pub fn shown(&self, input: &Input) -> Option<String> {
        let value = self.maybe(input)?;
        Some(match input.kind {
            Kind::Length => self.say(Value::Length(value)),
            Kind::Down => self.way(value, "down", "up"),
            Kind::Up => self.way(value, "up", "down"),
            Kind::Degrees => format!("{}°", plain(value)),
            Kind::Count => format!("{value:.0}"),
            Kind::Number(unit) => format!("{} {unit}", plain(value)),
            Kind::Choice(options) => {
                let picked = options.get(self.picked(input));
                picked.copied().unwrap_or_default().to_owned()
            }
        })
    }

    fn way(&self, value: f64, positive: &'static str, negative: &'static str) -> String {
        let way = if value < 0.0 { negative } else { positive };
        self.say(Value::Way(value.abs(), way))
    }

    /// A figure in a sentence.
    #[must_use]
    pub fn say(&self, value: Value) -> String {
        value.show(self.unit)
    }

    /// What something comes to in each metre (of which `figure` is, mm) or in each foot.
    #[must_use]
    pub fn in_each(&self, figure: Figure) -> (&'static str, Figure) {
        if self.unit.is_feet() {
            ("In each foot", figure.scaled(0.3048))
        } else {
            ("In each metre", figure)
        }
    }

    /// A figure for the picture: as it is shown, or what it is called while it is empty.
    #[must_use]
    pub fn tag(&self, input: &Input) -> Tag<'static> {
        let text = self.shown(input).unwrap_or_else(|| input.called.to_owned());
        Tag {
            key: input.key,
            text,
        }
    }

    /// A tag that nothing is asked by.
    #[must_use]
    pub fn said(&self, text: impl Into<String>) -> Tag<'static> {
        Tag {
            key: "",
            text: text.into(),
        }
    }

    /// The main figure of an answer; `?` while there is none.
    #[must_use]
    pub fn found(&self, worked: &Worked) -> String {
        let figure = worked.as_ref().map(|answer| self.say(answer.value));
        figure.unwrap_or_else(|_| "?".to_owned())
    }
}

/// A number of things that is none.
#[derive(Debug, thiserror::Error)]
#[error("There must be at least one. Give a larger number.")]
struct LessThanOne {
    called: &'static str,
}

impl Refusal for LessThanOne {
    fn figure(&self) -> Option<&'static str> {
        Some(self.called)
    }
}
