//! What a sum asks for.

use crate::length::Unit;

/// One figure of a sum.
#[derive(Clone, Copy)]
pub struct Input {
    /// Where it is kept; also tells it in the picture.
    pub key: &'static str,
    pub label: &'static str,
    /// How it is taken: where lengths are metric, and in feet and inches.
    pub how: [&'static str; 2],
    /// What a refusal and the empty picture call it.
    pub called: &'static str,
    pub kind: Kind,
    pub need: Need,
}

/// How a figure is typed.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Kind {
    /// A length, mm.
    Length,
    /// A length on two keys for up and down, mm; down is positive.
    Down,
    /// A length on two keys for up and down, mm; up is positive.
    Up,
    Degrees,
    Count,
    /// A number with a unit of its own.
    Number(&'static str),
    /// One of a few, from 0.
    Choice(&'static [&'static str]),
}

/// Whether a sum can do without a figure.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Need {
    Must,
    May,
    /// This is taken until something else is typed: where lengths are metric, and in feet and inches.
    Usual {
        metric: f64,
        feet: f64,
    },
}

impl Input {
    const fn new(key: &'static str, label: &'static str, kind: Kind) -> Self {
        Self {
            key,
            label,
            how: ["", ""],
            called: label,
            kind,
            need: Need::Must,
        }
    }

    /// A length.
    pub const fn length(key: &'static str, label: &'static str) -> Self {
        Self::new(key, label, Kind::Length)
    }

    /// A sight: down from a laser line.
    pub const fn down(key: &'static str, label: &'static str) -> Self {
        Self::new(key, label, Kind::Down)
    }

    /// A height: up from somewhere.
    pub const fn up(key: &'static str, label: &'static str) -> Self {
        Self::new(key, label, Kind::Up)
    }

    /// An angle.
    pub const fn degrees(key: &'static str, label: &'static str) -> Self {
        Self::new(key, label, Kind::Degrees)
    }

    /// How many.
    pub const fn count(key: &'static str, label: &'static str) -> Self {
        Self::new(key, label, Kind::Count)
    }

    /// A number with a unit of its own.
    pub const fn number(key: &'static str, label: &'static str, unit: &'static str) -> Self {
        Self::new(key, label, Kind::Number(unit))
    }

    /// One of a few; the first until another is picked.
    pub const fn choice(
        key: &'static str,
        label: &'static str,
        options: &'static [&'static str],
    ) -> Self {
        let mut input = Self::new(key, label, Kind::Choice(options));
        input.need = Need::Usual {
            metric: 0.0,
            feet: 0.0,
        };
        input
    }

    /// With how it is taken.
    pub const fn how(self, how: &'static str) -> Self {
        self.how_natively(how, how)
    }

    /// With words of its own where lengths are feet and inches.
    pub const fn how_natively(mut self, metric: &'static str, feet: &'static str) -> Self {
        self.how = [metric, feet];
        self
    }

    /// How it is taken, in the words of that unit.
    pub const fn hint(&self, unit: Unit) -> &'static str {
        let [metric, feet] = self.how;
        if unit.is_feet() { feet } else { metric }
    }

    /// With what a refusal and the empty picture call it.
    pub const fn called(mut self, called: &'static str) -> Self {
        self.called = called;
        self
    }

    /// With a figure that is taken until another is typed.
    pub const fn usually(self, value: f64) -> Self {
        self.natively(value, value)
    }

    /// With one of its own where lengths are feet and inches; all lengths are mm.
    pub const fn natively(mut self, metric: f64, feet: f64) -> Self {
        self.need = Need::Usual { metric, feet };
        self
    }

    /// A figure as it is kept from what the keys give, or the other way: there up is positive.
    pub fn turned(&self, value: f64) -> f64 {
        match self.kind {
            Kind::Down => -value,
            _ => value,
        }
    }

    /// What is taken until another is typed; none where it must be typed.
    pub const fn usual(&self, unit: Unit) -> Option<f64> {
        match self.need {
            Need::Usual { feet, .. } if unit.is_feet() => Some(feet),
            Need::Usual { metric, .. } => Some(metric),
            Need::Must | Need::May => None,
        }
    }

    /// True for a figure that is typed in its turn, after the one before it.
    pub const fn in_turn(&self) -> bool {
        !matches!(self.kind, Kind::Choice(_)) && !matches!(self.need, Need::Usual { .. })
    }

    /// One that the sum can do without.
    pub const fn may(mut self) -> Self {
        self.need = Need::May;
        self
    }
}
