//! What gap leaves equal spaces between posts, pickets or balusters of one width?
//!
//! ```text
//!   flush at the ends             gaps at the ends
//!   #   #   #   #   #             |  #  #  #  #  |
//!   |<-- length --->|             |<-- length -->|
//!   one gap less than items       one gap more than items
//! ```

use super::bays::{MOST, SharingError, least_whole};
use super::figure;

/// What stands at the two ends of the length.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Ends {
    /// An item, flush with each end.
    Flush,
    /// A gap at each end, as wide as the others.
    Gap,
}

/// Items of one width with equal gaps.
#[derive(Clone, Debug, PartialEq)]
pub struct Gaps {
    /// Each gap, mm, face to face.
    pub gap: f64,
    /// How many gaps there are.
    pub gaps: usize,
    /// From one item's near edge to the next one's, mm.
    pub spacing: f64,
    /// Running readings of each item's near edge, mm, all from the start of the length.
    pub near: Vec<f64>,
}

impl Gaps {
    /// How far, mm, stepping with a gap of `rounded` mm would run over the length at the last
    /// item or gap; less than 0 falls short.
    #[must_use]
    pub fn stepping_runs_over(&self, rounded: f64) -> f64 {
        self.gaps as f64 * (rounded - self.gap)
    }
}

/// The equal gap of `count` items, each `width` mm, over `length` mm.
///
/// ```
/// use tautmark::quick::gaps::{Ends, equal_gaps};
/// let row = equal_gaps(1000.0, 100.0, 4, Ends::Flush)?;
/// assert_eq!(row.gap, 200.0);
/// assert_eq!(row.near, [0.0, 300.0, 600.0, 900.0]);
/// # Ok::<(), tautmark::quick::bays::SharingError>(())
/// ```
///
/// # Errors
/// [`SharingError`] for figures that cannot be, too few items, or items that do not fit.
pub fn equal_gaps(length: f64, width: f64, count: usize, ends: Ends) -> Result<Gaps, SharingError> {
    let length = figure::length("length", length)?;
    let width = figure::length("width", width)?;
    let least = match ends {
        Ends::Flush => 2,
        Ends::Gap => 1,
    };
    if count < least {
        return Err(SharingError::TooFew { least });
    }
    if count > MOST {
        return Err(SharingError::TooMany);
    }
    let open = length - count as f64 * width;
    if open < 0.0 {
        return Err(SharingError::TooWide { over: -open });
    }
    let gaps = match ends {
        Ends::Flush => count - 1,
        Ends::Gap => count + 1,
    };
    let gap = open / gaps as f64;
    let (start, last) = match ends {
        Ends::Flush => (0.0, length - width),
        Ends::Gap => (gap, length - width - gap),
    };
    let steps = (count - 1).max(1) as f64;
    let near = (0..count)
        .map(|i| start + (last - start) * (i as f64 / steps))
        .collect();
    Ok(Gaps {
        gap,
        gaps,
        spacing: gap + width,
        near,
    })
}

/// The fewest items of `width` mm over `length` mm that leave no gap over `widest` mm.
///
/// ```
/// use tautmark::quick::gaps::{Ends, fewest_items};
/// let row = fewest_items(2000.0, 50.0, 100.0, Ends::Gap)?;
/// assert_eq!(row.near.len(), 13);
/// assert!(row.gap <= 100.0);
/// # Ok::<(), tautmark::quick::bays::SharingError>(())
/// ```
///
/// # Errors
/// As [`equal_gaps`]; too wide also when one item more would no longer fit.
pub fn fewest_items(
    length: f64,
    width: f64,
    widest: f64,
    ends: Ends,
) -> Result<Gaps, SharingError> {
    let length = figure::length("length", length)?;
    let width = figure::length("width", width)?;
    let widest = figure::length_or_nothing("widest gap", widest)?;
    let count = match ends {
        Ends::Flush => least_whole((length + widest) / (width + widest)).max(2),
        Ends::Gap => least_whole((length - widest) / (width + widest)),
    };
    equal_gaps(length, width, count, ends)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn gaps_at_the_ends_count_too() -> Result<(), SharingError> {
        let row = equal_gaps(1000.0, 100.0, 4, Ends::Gap)?;
        assert_eq!((row.gap, row.gaps, row.spacing), (120.0, 5, 220.0));
        assert_eq!(row.near, [120.0, 340.0, 560.0, 780.0]);
        assert_eq!(equal_gaps(1000.0, 100.0, 1, Ends::Gap)?.near, [450.0]);
        Ok(())
    }

    #[test]
    fn one_item_less_would_leave_too_wide_a_gap() -> Result<(), SharingError> {
        for ends in [Ends::Flush, Ends::Gap] {
            let row = fewest_items(2437.0, 45.0, 90.0, ends)?;
            assert!(row.gap <= 90.0);
            assert!(equal_gaps(2437.0, 45.0, row.near.len() - 1, ends)?.gap > 90.0);
        }
        Ok(())
    }

    #[test]
    fn items_that_do_not_fit_are_refused() {
        assert_eq!(
            equal_gaps(1000.0, 300.0, 4, Ends::Flush),
            Err(SharingError::TooWide { over: 200.0 })
        );
        assert_eq!(
            equal_gaps(1000.0, 300.0, 1, Ends::Flush),
            Err(SharingError::TooFew { least: 2 })
        );
        assert_eq!(
            equal_gaps(1e7, 0.02, MOST + 1, Ends::Gap),
            Err(SharingError::TooMany)
        );
        assert!(equal_gaps(f64::NAN, 300.0, 4, Ends::Gap).is_err());
        assert!(fewest_items(1000.0, 300.0, -1.0, Ends::Gap).is_err());
    }
}
