//! The tokens of a text, looked at by their places: what unit, hyphen or inches stand there.

use super::amount::{Amount, amount};
use super::measure::LengthMeasure;
use super::scan::{Placed, Refused, Token};

/// The tokens of a text.
pub(super) struct Tokens(pub Vec<Placed>);

/// The inches that may follow feet.
pub(super) struct Inches {
    pub amount: Amount,
    /// The index after them.
    pub next: usize,
    /// Where they end, with their mark.
    pub end: usize,
    pub marked: bool,
}

impl Tokens {
    /// Inches from `index` on, with their mark or bare; none where there is no figure or it has
    /// another unit.
    pub(super) fn inches_at(&self, index: usize) -> Result<Option<Inches>, Refused> {
        if !matches!(
            self.0.get(index),
            Some(Placed {
                token: Token::Figure(_) | Token::Fraction(..),
                ..
            })
        ) {
            return Ok(None);
        }
        let (amount, next) = amount(&self.0, index)?;
        let inches = match self.measure_at(next) {
            Some((LengthMeasure::Inch, end)) => Inches {
                amount,
                next: next + 1,
                end,
                marked: true,
            },
            Some(_) => return Ok(None),
            None => Inches {
                end: amount.end,
                amount,
                next,
                marked: false,
            },
        };
        self.with_its_fraction(inches).map(Some)
    }

    /// The inches with the fraction that follows their mark, `9" 5/16`, or a hyphen, `9-5/16`.
    fn with_its_fraction(&self, inches: Inches) -> Result<Inches, Refused> {
        let hyphened = self.tight_hyphen_at(inches.next);
        let at = inches.next + usize::from(hyphened);
        if !inches.amount.is_whole() || inches.marked == hyphened || !self.fraction_starts_at(at) {
            return Ok(inches);
        }
        let (part, next) = amount(&self.0, at)?;
        let (next, end, marked) = match self.measure_at(next) {
            Some((LengthMeasure::Inch, end)) => (next + 1, end, true),
            Some(_) => return Ok(inches),
            None => (next, part.end, inches.marked),
        };
        Ok(Inches {
            amount: inches.amount.with_fraction(&part),
            next,
            end,
            marked,
        })
    }

    /// Whether a fraction with no whole figure before it stands at `index`.
    fn fraction_starts_at(&self, index: usize) -> bool {
        let token = |index: usize| self.0.get(index).map(|placed| &placed.token);
        match token(index) {
            Some(Token::Fraction(..)) => true,
            Some(Token::Figure(_)) => token(index + 1) == Some(&Token::Stroke),
            _ => false,
        }
    }

    /// The unit at `index`, and where it ends.
    pub(super) fn measure_at(&self, index: usize) -> Option<(LengthMeasure, usize)> {
        match self.0.get(index) {
            Some(Placed {
                token: Token::Measure(measure),
                end,
                ..
            }) => Some((*measure, *end)),
            _ => None,
        }
    }

    /// Whether a keyboard hyphen stands at `index` with no space on either side.
    pub(super) fn tight_hyphen_at(&self, index: usize) -> bool {
        let before = index.checked_sub(1).and_then(|before| self.0.get(before));
        match (before, self.0.get(index), self.0.get(index + 1)) {
            (Some(before), Some(hyphen), Some(after)) => {
                hyphen.token == Token::Hyphen && before.end == hyphen.at && hyphen.end == after.at
            }
            _ => false,
        }
    }
}
