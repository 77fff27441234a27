//! The keypad: what has been typed so far, and what it comes to.

use super::{Desk, Draft, FigureKind, Prompt};
use crate::job::Job;
use crate::length::{self, Unit, keys};
use tautmark_ui::{KeySigns, KeyUnits};

/// A figure being typed.
pub struct KeypadEntry {
    /// What is asked for.
    pub figure: Box<dyn Prompt>,
    /// As typed; empty shows what the job has.
    pub text: String,
    /// The sign key pressed, where the figure has a direction.
    pub negative: bool,
    /// It is as it was left, typed and not entered: the next figure takes its place, ⌫ goes on with it.
    pub as_left: bool,
    /// The person was asked whether it is meant, and said so.
    pub sure: bool,
    unit: Unit,
}

/// What the typed text comes to.
#[derive(Clone, Debug, PartialEq)]
pub enum Typed {
    /// No key pressed yet.
    Nothing,
    /// Not complete yet; nothing wrong so far.
    GoOn,
    /// A figure: mm, degrees or a number.
    Value(f64),
    /// Cannot be read; the sentence says why.
    Wrong(String),
}

impl KeypadEntry {
    /// Asks for a figure; what was typed for it before and not entered is there again.
    #[must_use]
    pub fn new(figure: Box<dyn Prompt>, job: &Job, draft: Option<Draft>) -> Self {
        let unit = figure.unit(job);
        let usual = figure.usually_negative();
        let negative = figure.value(job).map_or(usual, |value| value < 0.0);
        let as_left = draft.is_some();
        let draft = draft.unwrap_or(Draft {
            text: String::new(),
            negative,
        });
        Self {
            figure,
            text: draft.text,
            negative: draft.negative,
            as_left,
            sure: false,
            unit,
        }
    }

    /// One key: the sign keys turn the figure, every other one is of its text.
    pub fn key(&mut self, key: &str) {
        self.sure = false;
        match key {
            "up" | "left" => self.negative = false,
            "down" | "right" => self.negative = true,
            "back" => keys::take_back(&mut self.text),
            "clear" => self.text.clear(),
            // A sum goes on from what is there; anything else is a new figure.
            "+" | "-" => keys::press(&mut self.text, key),
            key => {
                if self.as_left {
                    self.text.clear();
                }
                keys::press(&mut self.text, key);
            }
        }
        self.as_left &= matches!(key, "up" | "left" | "down" | "right");
    }

    /// What is asked before a figure is entered that can hardly be meant.
    #[must_use]
    pub fn question(&self, desk: &Desk, value: f64) -> Option<String> {
        /// Longer than any tape that people pull, mm.
        const LONG: f64 = 100_000.0;
        let own = self.figure.question(desk, value);
        own.or_else(|| {
            let said = length::show_with_unit(value.abs(), self.unit);
            (self.is_length() && value.abs() > LONG).then(|| {
                let most = length::show_with_unit(LONG, self.unit);
                format!("**{said}** is longer than {most}. Was every figure meant?")
            })
        })
    }

    fn is_length(&self) -> bool {
        matches!(
            self.figure.measure(),
            FigureKind::Length | FigureKind::FineLength | FigureKind::Signed(_)
        )
    }

    /// What the text comes to, in mm, degrees or as a number.
    #[must_use]
    pub fn typed(&self) -> Typed {
        if self.text.trim().is_empty() {
            return Typed::Nothing;
        }
        let value = match self.figure.measure() {
            FigureKind::Length | FigureKind::FineLength | FigureKind::Signed(_) => {
                match length::parse(&self.text, self.unit) {
                    Ok(mm) => mm,
                    Err(_) if length::prefix_ok(&self.text, self.unit) => return Typed::GoOn,
                    Err(error) => return Typed::Wrong(error.to_string()),
                }
            }
            FigureKind::Degrees | FigureKind::Number(_) => match sum(&self.text) {
                Some(value) => value,
                None => return Typed::GoOn,
            },
            FigureKind::Count => match sum(&self.text) {
                Some(value) if value.fract() == 0.0 => value,
                Some(_) => return Typed::Wrong("This must be a whole number.".to_owned()),
                None => return Typed::GoOn,
            },
        };
        let turned = matches!(self.figure.measure(), FigureKind::Signed(_)) && self.negative;
        Typed::Value(if turned { -value } else { value })
    }

    /// The figure in large: what is being typed, or what the job has, or a dash; and what follows
    /// it in small: the rest of a sum with its total, or the unit.
    #[must_use]
    pub fn shown(&self, job: &Job) -> (String, String) {
        if self.text.is_empty() {
            let there = self
                .figure
                .value(job)
                .map(f64::abs)
                .map(|value| self.show(value));
            return (there.unwrap_or_else(|| "—".to_owned()), self.unit_name());
        }
        if self.is_length()
            && let Ok(sum) = length::parse_sum(&self.text, self.unit)
        {
            if !sum.is_single() {
                return (sum.show_first(self.unit), sum.show_rest(self.unit));
            }
            let read = sum.show(self.unit);
            if self.unit.is_feet() && said_otherwise(&self.text, &read) {
                return (self.typed_so_far(), format!("= {read}"));
            }
        }
        (grouped(&self.typed_so_far(), self.unit), self.unit_name())
    }

    /// What the keys made of it, a fraction one space behind its inches.
    fn typed_so_far(&self) -> String {
        let text = self.text.replace(" \u{a0}", "\u{a0}");
        text.trim_start().to_owned()
    }

    /// The smallest part of an inch that the figure is told in, as its keys say it.
    #[must_use]
    pub fn part(&self) -> &'static str {
        match self.unit {
            Unit::FtIn(part) => part.name(),
            Unit::Mm | Unit::M => "",
        }
    }

    fn show(&self, value: f64) -> String {
        match self.figure.measure() {
            FigureKind::Length | FigureKind::FineLength | FigureKind::Signed(_) => {
                length::show(value, self.unit)
            }
            FigureKind::Degrees | FigureKind::Number(_) => plain(value),
            FigureKind::Count => format!("{value:.0}"),
        }
    }

    fn unit_name(&self) -> String {
        match self.figure.measure() {
            FigureKind::Length | FigureKind::FineLength | FigureKind::Signed(_) => {
                match self.unit {
                    Unit::Mm => "mm",
                    Unit::M => "m",
                    Unit::FtIn(_) => "",
                }
            }
            FigureKind::Degrees => "°",
            FigureKind::Count => "",
            FigureKind::Number(unit) => unit,
        }
        .to_owned()
    }

    /// Which extra keys the pad shows.
    #[must_use]
    pub fn keys(&self) -> (KeyUnits, KeySigns) {
        let measure = self.figure.measure();
        let units = match (self.is_length(), self.unit) {
            (true, Unit::FtIn(_)) => KeyUnits::FeetInches,
            _ => KeyUnits::Plain,
        };
        let signs = match measure {
            FigureKind::Signed(signs) => signs,
            _ => KeySigns::None,
        };
        (units, signs)
    }
}

/// Whether feet and inches as typed look different from what they are read as, marks and spaces aside.
fn said_otherwise(typed: &str, read: &str) -> bool {
    let told = |c: &char| c.is_ascii_digit() || matches!(c, '.' | '/' | '-' | '−');
    !typed.chars().filter(told).eq(read.chars().filter(told))
}

/// Digits in threes while they are typed, as they will be shown; anything else as it is.
fn grouped(text: &str, unit: Unit) -> String {
    let digits = text.chars().all(|c| c.is_ascii_digit());
    if unit != Unit::Mm || !digits || text.len() < 4 || text.starts_with('0') {
        return text.to_owned();
    }
    let head = text.len() % 3;
    let mut out = text[..head].to_owned();
    for start in (head..text.len()).step_by(3) {
        if !out.is_empty() {
            out.push('\u{a0}');
        }
        out.push_str(&text[start..start + 3]);
    }
    out
}

/// A number without needless noughts.
#[must_use]
pub fn plain(value: f64) -> String {
    let text = format!("{value:.3}");
    text.trim_end_matches('0').trim_end_matches('.').to_owned()
}

/// A sum of plain numbers, as typed on the keys.
fn sum(text: &str) -> Option<f64> {
    let mut total = 0.0;
    let mut sign = 1.0;
    let mut open = true;
    for word in text
        .replace('−', " − ")
        .replace('+', " + ")
        .split_whitespace()
    {
        match word {
            "+" | "−" if !open || total == 0.0 => {
                sign = if word == "+" { 1.0 } else { -1.0 };
                open = true;
            }
            number if open => {
                total += sign * number.replace(',', ".").parse::<f64>().ok()?;
                open = false;
            }
            _ => return None,
        }
    }
    (!open).then_some(total)
}
