//! One term of a sum: a figure and its unit, or feet and inches.

use super::amount::{Amount, amount, mm_of};
use super::error::ParseErrorKind;
use super::fraction::INCHES_PER_FOOT;
use super::measure::Measure;
use super::scan::{Placed, Refused, Token};
use super::show::show_typed;
use super::{LARGEST_MM, Unit};

/// A value in millimetres and the bytes it was read from.
type PlacedLength = (f64, usize, usize);

/// Reads tokens term by term.
pub(super) struct Terms {
    tokens: Vec<Placed>,
    next: usize,
    unit: Unit,
}

/// The inches that may follow feet.
struct Inches {
    amount: Amount,
    /// The index after them.
    next: usize,
    /// Where they end, with their mark.
    end: usize,
    marked: bool,
}

impl Terms {
    pub(super) const fn new(tokens: Vec<Placed>, unit: Unit) -> Self {
        Self {
            tokens,
            next: 0,
            unit,
        }
    }

    pub(super) const fn at_end(&self) -> bool {
        self.next >= self.tokens.len()
    }

    /// Refuses anything but a sign as the next token.
    pub(super) fn require_sign(&self) -> Result<(), Refused> {
        let Some(placed) = self.tokens.get(self.next) else {
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
            .get(self.next)
            .filter(|placed| is_sign(&placed.token))
            .cloned();
        if let Some(sign) = &sign {
            self.next += 1;
            match self.tokens.get(self.next) {
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
        let (amount, next) = amount(&self.tokens, self.next)?;
        self.next = next;
        match self.measure_at(next) {
            Some((Measure::Foot, end)) => {
                self.next += 1;
                self.feet(&amount, end)
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
                mm_of(amount, Measure::Inch)?;
                return Err((
                    ParseErrorKind::FractionNeedsInches { instead },
                    amount.at,
                    amount.end,
                ));
            }
            Unit::Mm => {
                amount.refuse_if_like_metres()?;
                mm_of(amount, Measure::Mm)?
            }
            Unit::M => mm_of(amount, Measure::M)?,
            Unit::FtIn => mm_of(amount, Measure::Inch)?,
        };
        Ok((mm, amount.at, amount.end))
    }

    /// Feet whose mark ends at `end`, with the inches that follow, if any.
    fn feet(&mut self, feet: &Amount, end: usize) -> Result<PlacedLength, Refused> {
        let feet_mm = mm_of(feet, Measure::Foot)?;
        let hyphened = self.tight_hyphen_at(self.next);
        let Some(inches) = self.inches_at(self.next + usize::from(hyphened))? else {
            return Ok((feet_mm, feet.at, end));
        };
        let inches_mm = mm_of(&inches.amount, Measure::Inch)?;
        let total = feet_mm + inches_mm;
        let instead = || show_typed(total, Unit::FtIn);
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
        self.refuse_hyphened_fraction(feet, &inches)?;
        self.next = inches.next;
        Ok((total, feet.at, inches.end))
    }

    /// Refuses `11' 9-5/16"`: the hyphen may join the fraction to its inches or take it away.
    fn refuse_hyphened_fraction(&self, feet: &Amount, inches: &Inches) -> Result<(), Refused> {
        if inches.marked || !inches.amount.is_whole() || !self.tight_hyphen_at(inches.next) {
            return Ok(());
        }
        match self.inches_at(inches.next + 1)? {
            Some(part) if part.amount.is_bare_fraction() => {
                let (feet_text, whole, fraction) = (
                    feet.written(),
                    inches.amount.written(),
                    part.amount.written(),
                );
                let one = format!("{feet_text}' {whole} {fraction}\"");
                let other = format!("{feet_text}' {whole}\" - {fraction}\"");
                Err((ParseErrorKind::Ambiguous { one, other }, feet.at, part.end))
            }
            _ => Ok(()),
        }
    }

    /// `11-9`: bare feet joined to inches by a hyphen; none where the hyphen can only take away.
    fn joined(&mut self, first: &Amount) -> Result<Option<PlacedLength>, Refused> {
        if !first.is_whole() || !self.tight_hyphen_at(self.next) {
            return Ok(None);
        }
        let Some(inches) = self.inches_at(self.next + 1)? else {
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
            return refused(format!("{a} {b}\""), format!("{a}' {b}\""));
        }
        let plain = !inches.marked && !inches.amount.is_fraction();
        if plain && self.unit != Unit::FtIn {
            return Ok(None);
        }
        let inches_mm = mm_of(&inches.amount, Measure::Inch)?;
        if inches.amount.value() >= INCHES_PER_FOOT {
            return Ok(None);
        }
        let as_feet = format!("{a}' {b}\"");
        match self.unit {
            Unit::Mm | Unit::M => refused(as_feet, format!("{a} - {b}\"")),
            Unit::FtIn if self.tight_hyphen_at(inches.next) => {
                refused(as_feet, format!("{a}\" - {b}\""))
            }
            Unit::FtIn => {
                self.next = inches.next;
                let feet_mm = mm_of(first, Measure::Foot)?;
                Ok(Some((feet_mm + inches_mm, first.at, inches.end)))
            }
        }
    }

    /// Inches from `index` on, with their mark or bare; none where there is no figure or it has
    /// another unit.
    fn inches_at(&self, index: usize) -> Result<Option<Inches>, Refused> {
        if !matches!(
            self.tokens.get(index),
            Some(Placed {
                token: Token::Figure(_) | Token::Fraction(..),
                ..
            })
        ) {
            return Ok(None);
        }
        let (amount, next) = amount(&self.tokens, index)?;
        Ok(match self.measure_at(next) {
            Some((Measure::Inch, end)) => Some(Inches {
                amount,
                next: next + 1,
                end,
                marked: true,
            }),
            Some(_) => None,
            None => Some(Inches {
                end: amount.end,
                amount,
                next,
                marked: false,
            }),
        })
    }

    fn measure_at(&self, index: usize) -> Option<(Measure, usize)> {
        match self.tokens.get(index) {
            Some(Placed {
                token: Token::Measure(measure),
                end,
                ..
            }) => Some((*measure, *end)),
            _ => None,
        }
    }

    /// Whether a keyboard hyphen stands at `index` with no space on either side.
    fn tight_hyphen_at(&self, index: usize) -> bool {
        let before = index
            .checked_sub(1)
            .and_then(|before| self.tokens.get(before));
        match (before, self.tokens.get(index), self.tokens.get(index + 1)) {
            (Some(before), Some(hyphen), Some(after)) => {
                hyphen.token == Token::Hyphen && before.end == hyphen.at && hyphen.end == after.at
            }
            _ => false,
        }
    }
}

const fn is_sign(token: &Token) -> bool {
    matches!(token, Token::Plus | Token::Minus | Token::Hyphen)
}
