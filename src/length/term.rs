//! One term of a sum: a figure and its unit, or feet and inches.

use super::amount::{Amount, amount, mm_of};
use super::error::ParseErrorKind;
use super::fraction::INCHES_PER_FOOT;
use super::measure::LengthMeasure;
use super::scan::{Placed, Refused, Token};
use super::show::show_typed;
use super::tokens::Tokens;
use super::{LARGEST_MM, Unit};

/// A value in millimetres and the bytes it was read from.
type PlacedLength = (f64, usize, usize);

/// Reads tokens term by term.
pub(super) struct Terms {
    tokens: Tokens,
    next: usize,
    unit: Unit,
}

impl Terms {
    pub(super) const fn new(tokens: Vec<Placed>, unit: Unit) -> Self {
        Self {
            tokens: Tokens(tokens),
            next: 0,
            unit,
        }
    }

    pub(super) const fn at_end(&self) -> bool {
        self.next >= self.tokens.0.len()
    }

    /// Refuses anything but a sign as the next token.
    pub(super) fn require_sign(&self) -> Result<(), Refused> {
        let Some(placed) = self.tokens.0.get(self.next) else {
            return Ok(());
        };
        let kind = match placed.token {
            Token::Plus | Token::Minus | Token::Hyphen => return Ok(()),
            Token::Stroke => ParseErrorKind::FractionMisplaced,
            Token::Measure(_) => ParseErrorKind::NoFigure,
            Token::Figure(_) | Token::Fraction(..) => ParseErrorKind::NoSign,
        };
        Err((kind, placed.at, placed.end))
    }

    /// The next term with the sign before it, if any; the place is the term's without the sign.
    pub(super) fn signed_term(&mut self) -> Result<PlacedLength, Refused> {
        let sign = self
            .tokens
            .0
            .get(self.next)
            .filter(|placed| is_sign(&placed.token))
            .cloned();
        if let Some(sign) = &sign {
            self.next += 1;
            match self.tokens.0.get(self.next) {
                None => return Err((ParseErrorKind::Unfinished, sign.at, sign.end)),
                Some(again) if is_sign(&again.token) => {
                    return Err((ParseErrorKind::TwoSigns, again.at, again.end));
                }
                Some(_) => {}
            }
        }
        let (mm, at, end) = self.term()?;
        let positive = sign.is_none_or(|sign| sign.token == Token::Plus);
        Ok((if positive { mm } else { -mm }, at, end))
    }

    fn term(&mut self) -> Result<PlacedLength, Refused> {
        let start = self.next;
        let (amount, next) = amount(&self.tokens.0, start)?;
        self.next = next;
        match self.tokens.measure_at(next) {
            Some((LengthMeasure::Foot, end)) => {
                self.next += 1;
                self.feet(&amount, end)
            }
            Some((LengthMeasure::Inch, end)) => {
                let Some(inches) = self.tokens.inches_at(start)? else {
                    return Err((ParseErrorKind::NoFigure, amount.at, end));
                };
                self.next = inches.next;
                Ok((
                    mm_of(&inches.amount, LengthMeasure::Inch)?,
                    amount.at,
                    inches.end,
                ))
            }
            Some((measure, end)) => {
                self.next += 1;
                Ok((mm_of(&amount, measure)?, amount.at, end))
            }
            None => self.bare(&amount),
        }
    }

    /// A figure with no unit after it.
    fn bare(&mut self, amount: &Amount) -> Result<PlacedLength, Refused> {
        if let Some(length) = self.joined(amount)? {
            return Ok(length);
        }
        let mm = match self.unit {
            Unit::Mm | Unit::M if amount.is_fraction() => {
                let instead = format!("{}\"", amount.written());
                // Refuses a fraction that would not do as inches either, with the better remedy.
                mm_of(amount, LengthMeasure::Inch)?;
                return Err((
                    ParseErrorKind::FractionNeedsInches { instead },
                    amount.at,
                    amount.end,
                ));
            }
            Unit::Mm => {
                amount.refuse_if_like_metres()?;
                mm_of(amount, LengthMeasure::Mm)?
            }
            Unit::M => mm_of(amount, LengthMeasure::M)?,
            Unit::FtIn(_) => mm_of(amount, LengthMeasure::Inch)?,
        };
        Ok((mm, amount.at, amount.end))
    }

    /// Feet whose mark ends at `end`, with the inches that follow, if any.
    fn feet(&mut self, feet: &Amount, end: usize) -> Result<PlacedLength, Refused> {
        let feet_mm = mm_of(feet, LengthMeasure::Foot)?;
        let hyphened = self.tokens.tight_hyphen_at(self.next);
        let Some(inches) = self.tokens.inches_at(self.next + usize::from(hyphened))? else {
            return Ok((feet_mm, feet.at, end));
        };
        let inches_mm = mm_of(&inches.amount, LengthMeasure::Inch)?;
        let total = feet_mm + inches_mm;
        let instead = || show_typed(total, Unit::FEET);
        if total > LARGEST_MM {
            return Ok((total, feet.at, inches.end));
        }
        if inches.amount.value() >= INCHES_PER_FOOT {
            // 11'-14" cannot be feet and inches, so the hyphen takes away.
            return if hyphened {
                Ok((feet_mm, feet.at, end))
            } else {
                Err((
                    ParseErrorKind::Inches { instead: instead() },
                    inches.amount.at,
                    inches.end,
                ))
            };
        }
        if !feet.is_whole() {
            return Err((
                ParseErrorKind::FeetNotWhole { instead: instead() },
                feet.at,
                inches.end,
            ));
        }
        self.next = inches.next;
        Ok((total, feet.at, inches.end))
    }

    /// `11-9`: bare feet joined to inches by a hyphen; none where the hyphen can only take away.
    fn joined(&mut self, first: &Amount) -> Result<Option<PlacedLength>, Refused> {
        if !first.is_whole() || !self.tokens.tight_hyphen_at(self.next) {
            return Ok(None);
        }
        let Some(inches) = self.tokens.inches_at(self.next + 1)? else {
            return Ok(None);
        };
        let (a, b) = (first.written(), inches.amount.written());
        let refused = |one: String, other: String| {
            Err((
                ParseErrorKind::Ambiguous { one, other },
                first.at,
                inches.end,
            ))
        };
        if inches.amount.is_bare_fraction() {
            // 9-5/16: inches and their fraction, as a carpenter writes them.
            return if inches.marked || self.unit.is_feet() {
                self.next = inches.next;
                let whole = first.with_fraction(&inches.amount);
                Ok(Some((
                    mm_of(&whole, LengthMeasure::Inch)?,
                    first.at,
                    inches.end,
                )))
            } else {
                refused(format!("{a} {b}\""), format!("{a}' {b}\""))
            };
        }
        let plain = !inches.marked && !inches.amount.is_fraction();
        if plain && self.unit != Unit::FEET {
            return Ok(None);
        }
        let inches_mm = mm_of(&inches.amount, LengthMeasure::Inch)?;
        if inches.amount.value() >= INCHES_PER_FOOT {
            return Ok(None);
        }
        let as_feet = format!("{a}' {b}\"");
        match self.unit {
            Unit::Mm | Unit::M => refused(as_feet, format!("{a} - {b}\"")),
            Unit::FtIn(_) if self.tokens.tight_hyphen_at(inches.next) => {
                refused(as_feet, format!("{a}\" - {b}\""))
            }
            Unit::FtIn(_) => {
                self.next = inches.next;
                let feet_mm = mm_of(first, LengthMeasure::Foot)?;
                Ok(Some((feet_mm + inches_mm, first.at, inches.end)))
            }
        }
    }
}

const fn is_sign(token: &Token) -> bool {
    matches!(token, Token::Plus | Token::Minus | Token::Hyphen)
}
