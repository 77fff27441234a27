//! A figure with or without a fraction, before its unit is known.

use super::error::ParseErrorKind;
use super::fraction::{MM_PER_FOOT, MM_PER_INCH};
use super::measure::LengthMeasure;
use super::remedy::{improper, nearest_on_tape};
use super::scan::{Placed, Refused, ScannedFigure, Token};

/// What stands before a unit, and the bytes it covers.
#[derive(Clone, PartialEq, Eq, Debug)]
pub(super) struct Amount {
    size: Size,
    pub at: usize,
    pub end: usize,
}

#[derive(Clone, PartialEq, Eq, Debug)]
enum Size {
    Figure(ScannedFigure),
    Fraction {
        whole: Option<ScannedFigure>,
        numerator: u32,
        denominator: u32,
    },
}

/// The amount from token `index` on, and the index after it. Fractions are proper and divide by 2 to 64.
pub(super) fn amount(tokens: &[Placed], index: usize) -> Result<(Amount, usize), Refused> {
    let Some(first) = tokens.get(index) else {
        // Only reached past the last token, where callers have looked already.
        return Err((ParseErrorKind::NoFigure, 0, 0));
    };
    match &first.token {
        Token::Fraction(numerator, denominator) => {
            let amount = Amount::fraction(None, *numerator, *denominator, first.at, first)?;
            Ok((amount, index + 1))
        }
        Token::Figure(figure) => figure_or_mixed(tokens, index, first, figure),
        _ => Err((ParseErrorKind::NoFigure, first.at, first.end)),
    }
}

fn figure_or_mixed(
    tokens: &[Placed],
    index: usize,
    first: &Placed,
    figure: &ScannedFigure,
) -> Result<(Amount, usize), Refused> {
    let alone = Amount {
        size: Size::Figure(figure.clone()),
        at: first.at,
        end: first.end,
    };
    let stroke_at = |at: usize| {
        matches!(
            tokens.get(at),
            Some(Placed {
                token: Token::Stroke,
                ..
            })
        )
    };
    if stroke_at(index + 1) {
        return stroked(tokens, index, None, first.at);
    }
    match tokens.get(index + 1) {
        Some(
            fraction @ Placed {
                token: Token::Fraction(numerator, denominator),
                ..
            },
        ) => {
            let amount =
                Amount::fraction(Some(figure), *numerator, *denominator, first.at, fraction)?;
            Ok((amount, index + 2))
        }
        Some(Placed {
            token: Token::Figure(_),
            ..
        }) if stroke_at(index + 2) => stroked(tokens, index + 1, Some(figure), first.at),
        _ => Ok((alone, index + 1)),
    }
}

/// A numerator at `index`, the stroke after it, and a denominator.
fn stroked(
    tokens: &[Placed],
    index: usize,
    whole: Option<&ScannedFigure>,
    at: usize,
) -> Result<(Amount, usize), Refused> {
    let (Some(above), Some(stroke)) = (tokens.get(index), tokens.get(index + 1)) else {
        return Err((ParseErrorKind::NoFigure, at, at));
    };
    let Some(below) = tokens.get(index + 2) else {
        return Err((ParseErrorKind::Unfinished, above.at, stroke.end));
    };
    let (Token::Figure(numerator), Token::Figure(denominator)) = (&above.token, &below.token)
    else {
        return Err((ParseErrorKind::NoFigure, stroke.at, stroke.end));
    };
    if !numerator.is_whole() || !denominator.is_whole() {
        return Err((ParseErrorKind::FractionMisplaced, above.at, below.end));
    }
    // Figures too long for a u32 are no fraction of a tape whichever value stands for them.
    let number = |figure: &ScannedFigure| figure.whole.parse().unwrap_or(u32::MAX);
    let part = Placed {
        token: Token::Stroke,
        at: above.at,
        end: below.end,
    };
    let amount = Amount::fraction(whole, number(numerator), number(denominator), at, &part)?;
    Ok((amount, index + 3))
}

impl Amount {
    /// `part` is the fraction's own place.
    fn fraction(
        whole: Option<&ScannedFigure>,
        numerator: u32,
        denominator: u32,
        at: usize,
        part: &Placed,
    ) -> Result<Self, Refused> {
        if whole.is_some_and(|figure| !figure.is_whole()) {
            return Err((ParseErrorKind::FractionMisplaced, at, part.end));
        }
        if denominator > 0 && numerator >= denominator {
            let kind = improper(whole.is_some(), numerator, denominator);
            return Err((kind, part.at, part.end));
        }
        if !denominator.is_power_of_two() || !(2..=64).contains(&denominator) {
            let instead = nearest_on_tape(numerator, denominator);
            return Err((ParseErrorKind::Denominator { instead }, part.at, part.end));
        }
        let size = Size::Fraction {
            whole: whole.cloned(),
            numerator,
            denominator,
        };
        Ok(Self {
            size,
            at,
            end: part.end,
        })
    }

    /// A whole figure with the bare fraction `part` behind it.
    pub(super) fn with_fraction(&self, part: &Self) -> Self {
        match (&self.size, &part.size) {
            (
                Size::Figure(whole),
                Size::Fraction {
                    whole: None,
                    numerator,
                    denominator,
                },
            ) => Self {
                size: Size::Fraction {
                    whole: Some(whole.clone()),
                    numerator: *numerator,
                    denominator: *denominator,
                },
                at: self.at,
                end: part.end,
            },
            _ => self.clone(),
        }
    }

    /// In whatever unit it has.
    pub(super) fn value(&self) -> f64 {
        match &self.size {
            Size::Figure(figure) => figure.value(),
            Size::Fraction {
                whole,
                numerator,
                denominator,
            } => {
                let whole = whole.as_ref().map_or(0.0, ScannedFigure::value);
                whole + f64::from(*numerator) / f64::from(*denominator)
            }
        }
    }

    /// A figure without decimals or a fraction.
    pub(super) const fn is_whole(&self) -> bool {
        matches!(&self.size, Size::Figure(figure) if figure.is_whole())
    }

    pub(super) const fn is_fraction(&self) -> bool {
        matches!(self.size, Size::Fraction { .. })
    }

    /// A fraction with no whole figure before it.
    pub(super) const fn is_bare_fraction(&self) -> bool {
        matches!(self.size, Size::Fraction { whole: None, .. })
    }

    /// The amount in the plainest spelling that reads the same.
    pub(super) fn written(&self) -> String {
        match &self.size {
            Size::Figure(figure) => figure.with_point(),
            Size::Fraction {
                whole: Some(figure),
                numerator,
                denominator,
            } => {
                format!("{} {numerator}/{denominator}", figure.with_point())
            }
            Size::Fraction {
                whole: None,
                numerator,
                denominator,
            } => format!("{numerator}/{denominator}"),
        }
    }

    /// Refuses `3.412` where millimetres are meant: nobody tapes a thousandth of one.
    pub(super) fn refuse_if_like_metres(&self) -> Result<(), Refused> {
        if let Size::Figure(figure) = &self.size
            && let Some((mark, digits)) = &figure.decimals
            && digits.len() >= 3
            && figure.whole.len() <= 3
            && !(*mark == ',' && figure.could_be_thousands())
        {
            let value = figure.with_point();
            let kind = ParseErrorKind::Ambiguous {
                one: format!("{value} m"),
                other: format!("{value} mm"),
            };
            return Err((kind, self.at, self.end));
        }
        Ok(())
    }
}

impl ScannedFigure {
    /// `1,250`: the mark may be a decimal mark or part thousands.
    fn could_be_thousands(&self) -> bool {
        !self.spaced
            && (1..=3).contains(&self.whole.len())
            && !self.whole.starts_with('0')
            && self
                .decimals
                .as_ref()
                .is_some_and(|(_, digits)| digits.len() == 3)
    }
}

/// The amount in millimetres.
pub(super) fn mm_of(amount: &Amount, measure: LengthMeasure) -> Result<f64, Refused> {
    let (factor, name) = match measure {
        LengthMeasure::Mm => (1.0, " mm"),
        LengthMeasure::Cm => (10.0, " cm"),
        LengthMeasure::M => (1000.0, " m"),
        LengthMeasure::Foot => (MM_PER_FOOT, "'"),
        LengthMeasure::Inch => (MM_PER_INCH, "\""),
    };
    match &amount.size {
        Size::Figure(figure) => {
            let comma = matches!(figure.decimals, Some((',', _)));
            if comma && measure != LengthMeasure::M && figure.could_be_thousands() {
                let point = figure.with_point();
                let kind = ParseErrorKind::Ambiguous {
                    one: format!("{}{name}", point.replace('.', "")),
                    other: format!("{point}{name}"),
                };
                return Err((kind, amount.at, amount.end));
            }
            Ok(figure.value() * factor)
        }
        Size::Fraction { .. } => {
            if !matches!(measure, LengthMeasure::Foot | LengthMeasure::Inch) {
                return Err((ParseErrorKind::FractionMisplaced, amount.at, amount.end));
            }
            Ok(amount.value() * factor)
        }
    }
}
