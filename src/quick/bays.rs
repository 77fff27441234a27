//! Into how many equal bays does a length go, and where is each post, all from one end?
//!
//! ```text
//!     0      1      2      3        marks: running readings on one tape pulled once
//!     |------|------|------|
//!     <-size->                      never bay by bay: a rounded bay adds its slip every time
//! ```

use super::figure::{self, FigureError};
use super::refusal::{Refusal, said_in_mm};
use crate::length::{Unit, show_with_unit};

/// Most bays or items worth listing one by one.
pub(super) const MOST: usize = 10_000;

/// Why a length cannot be shared out.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum SharingError {
    /// A figure that cannot be.
    Figure(FigureError),
    /// Too few to share anything between.
    TooFew {
        /// The least number that works.
        least: usize,
    },
    /// More than anyone would build.
    TooMany,
    /// The items are wider than the length.
    TooWide {
        /// What is too much, mm.
        over: f64,
    },
}

impl Refusal for SharingError {
    fn figure(&self) -> Option<&'static str> {
        match self {
            Self::Figure(figure) => figure.figure(),
            _ => None,
        }
    }

    fn said(&self, unit: Unit) -> String {
        match *self {
            Self::Figure(figure) => figure.said(unit),
            Self::TooFew { least } => {
                format!("At least {least} are needed here. Give a larger number.")
            }
            Self::TooMany => {
                "That makes over 10 000 of them. Check the figures and their units.".to_owned()
            }
            Self::TooWide { over } => format!(
                "They do not fit: together they are {} wider than the length. \
                 Take fewer, or narrower ones.",
                show_with_unit(over, unit),
            ),
        }
    }
}

said_in_mm!(SharingError);

/// Where posts stand at the ends of a row of bays.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum PostsAt {
    /// A post at each end: one more than bays.
    BothEnds,
    /// The far end is a wall or another run's post: as many as bays.
    StartOnly,
    /// Both ends are walls: one less than bays.
    NeitherEnd,
    /// The row closes on itself: as many as bays.
    Loop,
}

/// A length shared into equal bays.
#[derive(Clone, Debug, PartialEq)]
pub struct EqualBays {
    /// Each bay, mm, centre to centre.
    pub size: f64,
    /// Running readings of all bay ends, mm, from 0 to the whole length.
    pub marks: Vec<f64>,
}

impl EqualBays {
    /// How many bays.
    #[must_use]
    pub fn count(&self) -> usize {
        self.marks.len().saturating_sub(1)
    }

    /// Running readings of the posts, mm; its length is the number of posts.
    #[must_use]
    pub fn posts(&self, at: PostsAt) -> &[f64] {
        let but_last = self.marks.split_last().map_or(&[][..], |(_, rest)| rest);
        match at {
            PostsAt::BothEnds => &self.marks,
            PostsAt::StartOnly | PostsAt::Loop => but_last,
            PostsAt::NeitherEnd => but_last.split_first().map_or(&[][..], |(_, rest)| rest),
        }
    }

    /// How far, mm, stepping bay by bay with a `rounded` size would run over the length at the
    /// last mark, which is what the last bay then lacks; less than 0 falls short.
    #[must_use]
    pub fn stepping_runs_over(&self, rounded: f64) -> f64 {
        self.count() as f64 * (rounded - self.size)
    }
}

/// The fewest equal bays in `length` mm that are none longer than `longest` mm.
///
/// ```
/// use tautmark::quick::bays::{PostsAt, equal_bays};
/// let bays = equal_bays(9200.0, 1900.0)?;
/// assert_eq!((bays.count(), bays.size), (5, 1840.0));
/// assert_eq!(bays.posts(PostsAt::BothEnds).len(), 6);
/// assert_eq!(bays.marks, [0.0, 1840.0, 3680.0, 5520.0, 7360.0, 9200.0]);
/// # Ok::<(), tautmark::quick::bays::SharingError>(())
/// ```
///
/// # Errors
/// [`SharingError`] for figures that cannot be or more than 10 000 bays.
pub fn equal_bays(length: f64, longest: f64) -> Result<EqualBays, SharingError> {
    let length = figure::length("length", length)?;
    let longest = figure::length("longest bay", longest)?;
    bays_of(length, least_whole(length / longest))
}

/// `length` mm in exactly `count` equal bays.
///
/// ```
/// let bays = tautmark::quick::bays::bays_of(9200.0, 4)?;
/// assert_eq!(bays.size, 2300.0);
/// # Ok::<(), tautmark::quick::bays::SharingError>(())
/// ```
///
/// # Errors
/// [`SharingError`] for a length of nothing, no bays, or more than 10 000.
pub fn bays_of(length: f64, count: usize) -> Result<EqualBays, SharingError> {
    let length = figure::length("length", length)?;
    match count {
        0 => Err(SharingError::TooFew { least: 1 }),
        1..=MOST => Ok(EqualBays {
            size: length / count as f64,
            marks: (0..=count)
                .map(|i| length * (i as f64 / count as f64))
                .collect(),
        }),
        _ => Err(SharingError::TooMany),
    }
}

/// The least whole number not under `ratio`, at least 1; a hair over a whole number, as rounding
/// leaves it, is that number.
pub(super) fn least_whole(ratio: f64) -> usize {
    (ratio - 1e-9).ceil().max(1.0) as usize
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_length_that_goes_exactly_is_not_given_another_bay() -> Result<(), SharingError> {
        assert_eq!(equal_bays(5700.0, 1900.0)?.count(), 3);
        assert_eq!(equal_bays(3.0 * 1866.6, 1866.6)?.count(), 3);
        assert_eq!(equal_bays(5701.0, 1900.0)?.count(), 4);
        assert_eq!(equal_bays(500.0, 1900.0)?.count(), 1);
        Ok(())
    }

    #[test]
    fn posts_follow_from_what_the_ends_are() -> Result<(), SharingError> {
        let bays = bays_of(6000.0, 3)?;
        assert_eq!(bays.posts(PostsAt::BothEnds), [0.0, 2000.0, 4000.0, 6000.0]);
        assert_eq!(bays.posts(PostsAt::StartOnly), [0.0, 2000.0, 4000.0]);
        assert_eq!(bays.posts(PostsAt::Loop).len(), 3);
        assert_eq!(bays.posts(PostsAt::NeitherEnd), [2000.0, 4000.0]);
        assert!(bays_of(6000.0, 1)?.posts(PostsAt::NeitherEnd).is_empty());
        Ok(())
    }

    #[test]
    fn what_cannot_be_shared_is_refused() {
        assert_eq!(bays_of(6000.0, 0), Err(SharingError::TooFew { least: 1 }));
        assert_eq!(equal_bays(1e7, 0.02), Err(SharingError::TooMany));
        for bad in [0.0, -1.0, f64::NAN, f64::INFINITY] {
            assert!(equal_bays(bad, 1900.0).is_err());
            assert!(equal_bays(6000.0, bad).is_err());
        }
    }
}
