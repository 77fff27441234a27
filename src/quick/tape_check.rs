//! Do my two tapes agree?
//!
//! ```text
//!   tape 1  |--------------------------|  9 998      over several lengths:
//!   tape 2  |---------------------------| 10 004     difference = zero + scale · length
//!
//!   a worn hook is a zero: the same at every length; a stretched tape is a scale
//! ```
//!
//! A scale cancels in angles, not in fits: one tape for the whole job.

use super::figure::{self, Figure, FigureError};
use super::refusal::{Refusal, said_in_mm};
use crate::length::{Unit, show_with_unit};
use crate::tape::TapeClass;

/// One length read with both tapes.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct BothTapes {
    /// What the first tape read, mm.
    pub first: f64,
    /// What the second tape read, mm.
    pub second: f64,
}

/// The two tapes.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct TwoTapeClasses {
    /// Class of the first tape.
    pub first: TapeClass,
    /// Class of the second tape.
    pub second: TapeClass,
    /// Standard deviation of one reading, mm.
    pub reading: f64,
}

/// What two tapes against each other show; more than 0, the first reads more.
#[derive(Clone, Debug, PartialEq)]
pub struct TapeCheck {
    /// For each length: first less second, mm, with the ± of reading alone.
    pub differences: Vec<Figure>,
    /// The largest difference both classes permit together at each length, mm.
    pub permitted: Vec<f64>,
    /// Whether all lengths are within what the classes permit.
    pub verdict: TapeVerdict,
    /// Scale and zero; none with lengths too alike to part them.
    pub parts: Option<Parts>,
}

/// The two ways in which tapes differ.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Parts {
    /// First less second, mm in each metre.
    pub scale: Figure,
    /// First less second at no length, mm: hook or end ring.
    pub zero: Figure,
}

/// Two tapes against what their classes permit.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum TapeVerdict {
    /// Surely within at every length.
    Within,
    /// Surely beyond at one length or more: one tape is damaged or misread.
    Beyond,
    /// Only careless reading or a longer length would tell.
    CannotTell,
}

impl TapeVerdict {
    /// What to do about it, as a sentence.
    #[must_use]
    pub fn text(self) -> &'static str {
        match self {
            Self::Within => {
                "The tapes agree as well as their classes promise. Still use one of them for the whole job."
            }
            Self::Beyond => {
                "The tapes differ by more than their classes permit. Read again; if it stays, leave out the one with the bent hook or the stretched blade."
            }
            Self::CannotTell => "It is too close to tell. Read again, over a longer length.",
        }
    }
}

/// Why tapes cannot be compared.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum TapeCheckError {
    /// A figure that cannot be.
    Figure(FigureError),
    /// Nothing was read.
    NoLengths,
    /// The two cannot be the same length.
    NotOneLength {
        /// First tape, mm.
        first: f64,
        /// Second tape, mm.
        second: f64,
    },
}

impl Refusal for TapeCheckError {
    fn figure(&self) -> Option<&'static str> {
        match self {
            Self::Figure(figure) => figure.figure(),
            Self::NoLengths | Self::NotOneLength { .. } => None,
        }
    }

    fn said(&self, unit: Unit) -> String {
        match *self {
            Self::Figure(figure) => figure.said(unit),
            Self::NoLengths => {
                "There is nothing to compare yet. Read one length with both tapes.".to_owned()
            }
            Self::NotOneLength { first, second } => format!(
                "{} and {} cannot be one length read twice. Read both tapes between \
                 the same two marks.",
                show_with_unit(first, unit),
                show_with_unit(second, unit),
            ),
        }
    }
}

said_in_mm!(TapeCheckError);

/// Compares two tapes over one length or several; scale and zero by least squares.
///
/// ```
/// use tautmark::tape::TapeClass;
/// use tautmark::quick::tape_check::{BothTapes, TapeVerdict, TwoTapeClasses, tape_check};
/// let tapes = TwoTapeClasses { first: TapeClass::II, second: TapeClass::II, reading: 0.5 };
/// let check = tape_check(&[BothTapes { first: 3010.0, second: 3000.0 }], tapes)?;
/// assert_eq!(check.verdict, TapeVerdict::Beyond);
/// # Ok::<(), tautmark::quick::tape_check::TapeCheckError>(())
/// ```
///
/// # Errors
/// [`TapeCheckError`] for figures that cannot be, no lengths, or two readings over a tenth apart.
pub fn tape_check(
    lengths: &[BothTapes],
    tapes: TwoTapeClasses,
) -> Result<TapeCheck, TapeCheckError> {
    let sd = figure::spread(tapes.reading)? * 2f64.sqrt();
    if lengths.is_empty() {
        return Err(TapeCheckError::NoLengths);
    }
    for &BothTapes { first, second } in lengths {
        figure::length("reading of the first tape", first)?;
        figure::length("reading of the second tape", second)?;
        if (first - second).abs() > 50.0 + 0.1 * first.min(second) {
            return Err(TapeCheckError::NotOneLength { first, second });
        }
    }
    let differences: Vec<Figure> = lengths
        .iter()
        .map(|l| Figure::new(l.first - l.second, sd))
        .collect();
    let permitted: Vec<f64> = lengths
        .iter()
        .map(|l| tapes.first.mpe(l.first) + tapes.second.mpe(l.second))
        .collect();
    let verdict = verdict(&differences, &permitted);
    Ok(TapeCheck {
        parts: parts(lengths, sd),
        differences,
        permitted,
        verdict,
    })
}

fn verdict(differences: &[Figure], permitted: &[f64]) -> TapeVerdict {
    let mut pairs = differences.iter().zip(permitted);
    if pairs
        .clone()
        .any(|(d, limit)| d.value.abs() - d.pm > *limit)
    {
        TapeVerdict::Beyond
    } else if pairs.all(|(d, limit)| d.value.abs() + d.pm <= *limit) {
        TapeVerdict::Within
    } else {
        TapeVerdict::CannotTell
    }
}

/// Straight line through the differences over the length.
fn parts(lengths: &[BothTapes], sd: f64) -> Option<Parts> {
    let n = lengths.len() as f64;
    let centre = lengths.iter().map(|l| l.second).sum::<f64>() / n;
    let mean = lengths.iter().map(|l| l.first - l.second).sum::<f64>() / n;
    let spread: f64 = lengths.iter().map(|l| (l.second - centre).powi(2)).sum();
    // Under a metre of spread the line only follows the reading errors.
    if spread.sqrt() < 1000.0 / 2f64.sqrt() {
        return None;
    }
    let scale = lengths
        .iter()
        .map(|l| (l.second - centre) * (l.first - l.second))
        .sum::<f64>()
        / spread;
    Some(Parts {
        scale: Figure::new(1000.0 * scale, 1000.0 * sd / spread.sqrt()),
        zero: Figure::new(
            mean - scale * centre,
            sd * (1.0 / n + centre * centre / spread).sqrt(),
        ),
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    const TAPES: TwoTapeClasses = TwoTapeClasses {
        first: TapeClass::II,
        second: TapeClass::II,
        reading: 0.5,
    };

    fn read(lengths: &[(f64, f64)]) -> Result<TapeCheck, TapeCheckError> {
        let lengths: Vec<BothTapes> = lengths
            .iter()
            .map(|&(first, second)| BothTapes { first, second })
            .collect();
        tape_check(&lengths, TAPES)
    }

    #[test]
    fn a_bent_hook_is_a_zero_and_a_stretched_blade_a_scale() -> Result<(), TapeCheckError> {
        let check = read(&[(1003.0, 1000.0), (5005.0, 5000.0), (9007.0, 9000.0)])?;
        let Some(parts) = check.parts else {
            panic!("8 m of spread part scale and zero")
        };
        assert!((parts.scale.value - 0.5).abs() < 1e-9);
        assert!((parts.zero.value - 2.5).abs() < 1e-9);
        // 1003 counts as two metres for the first tape, 1000 as one for the second.
        assert!(
            check
                .permitted
                .first()
                .is_some_and(|limit| (limit - 1.2).abs() < 1e-12)
        );
        assert_eq!(check.verdict, TapeVerdict::Beyond);
        Ok(())
    }

    #[test]
    fn good_tapes_pass_and_near_ones_cannot_be_told() -> Result<(), TapeCheckError> {
        assert_eq!(read(&[(10_001.0, 10_000.0)])?.verdict, TapeVerdict::Within);
        let near = read(&[(10_005.0, 10_000.0)])?;
        assert_eq!((near.verdict, near.parts), (TapeVerdict::CannotTell, None));
        Ok(())
    }

    #[test]
    fn readings_of_two_different_lengths_are_refused() {
        assert_eq!(
            read(&[(3000.0, 5000.0)]),
            Err(TapeCheckError::NotOneLength {
                first: 3000.0,
                second: 5000.0
            })
        );
        assert_eq!(read(&[]), Err(TapeCheckError::NoLengths));
        assert!(read(&[(f64::NAN, 5000.0)]).is_err());
        assert!(read(&[(0.0, 0.0)]).is_err());
    }
}
