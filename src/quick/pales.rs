//! How many overlapping pales finish on a whole board, and at what lap?
//!
//! ```text
//!   |<---------------- cover ---------------->|
//!   [======1======]        [======3======]
//!              [======2======]        [======4======]
//!   |<spacing>|
//!              |<->| lap
//! ```

use super::bays::{MOST, SharingError, least_whole};
use super::figure;

/// Pales over a stretch, the last one whole.
#[derive(Clone, Debug, PartialEq)]
pub struct PaleRow {
    /// The true lap, mm, never under the least asked for; none where one pale covers all.
    pub lap: Option<f64>,
    /// From one pale's near edge to the next one's, mm; none where one pale covers all.
    pub spacing: Option<f64>,
    /// Running readings of each pale's near edge, mm; its length is the number of pales.
    pub near: Vec<f64>,
}

impl PaleRow {
    /// How many pales.
    #[must_use]
    pub fn count(&self) -> usize {
        self.near.len()
    }

    /// How far, mm, the last pale would stand over the end if each were set with `rounded` mm of
    /// lap from the one before; less than 0 leaves a gap there.
    #[must_use]
    pub fn stepping_runs_over(&self, rounded: f64) -> f64 {
        self.lap
            .map_or(0.0, |lap| (lap - rounded) * (self.count() as f64 - 1.0))
    }
}

/// The fewest pales of `width` mm that cover `cover` mm with no lap under `least_lap` mm:
/// ⌈(cover − lap)/(width − lap)⌉.
///
/// ```
/// let row = tautmark::quick::pales::pales(1800.0, 125.0, 20.0)?;
/// assert_eq!(row.count(), 17);
/// assert!(row.lap.is_some_and(|lap| (lap - 20.3125).abs() < 1e-9));
/// # Ok::<(), tautmark::quick::bays::SharingError>(())
/// ```
///
/// # Errors
/// [`SharingError`] for figures that cannot be, a lap as wide as the pale, or over 10 000 pales.
pub fn pales(cover: f64, width: f64, least_lap: f64) -> Result<PaleRow, SharingError> {
    let cover = figure::length("width to cover", cover)?;
    let width = figure::length("width of a pale", width)?;
    let least_lap = figure::length_or_nothing("lap", least_lap)?;
    figure::length("part of a pale left showing by the lap", width - least_lap)?;
    let count = least_whole((cover - least_lap) / (width - least_lap));
    if count > MOST {
        return Err(SharingError::TooMany);
    }
    if count == 1 {
        return Ok(PaleRow {
            lap: None,
            spacing: None,
            near: vec![0.0],
        });
    }
    let steps = count as f64 - 1.0;
    let lap = (count as f64 * width - cover) / steps;
    let near = (0..count)
        .map(|i| (cover - width) * (i as f64 / steps))
        .collect();
    Ok(PaleRow {
        lap: Some(lap),
        spacing: Some(width - lap),
        near,
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_last_pale_ends_with_the_stretch() -> Result<(), SharingError> {
        let row = pales(3000.0, 125.0, 20.0)?;
        assert_eq!(row.count(), 29);
        assert!(
            row.near
                .last()
                .is_some_and(|last| (last + 125.0 - 3000.0).abs() < 1e-9)
        );
        // Setting each at 20 by a block of wood instead of by running marks.
        assert!((row.stepping_runs_over(20.0) - 65.0).abs() < 1e-9);
        Ok(())
    }

    #[test]
    fn a_narrow_stretch_takes_one() -> Result<(), SharingError> {
        let row = pales(110.0, 125.0, 20.0)?;
        assert_eq!((row.count(), row.lap), (1, None));
        assert_eq!(row.stepping_runs_over(20.0), 0.0);
        Ok(())
    }

    #[test]
    fn laps_that_leave_nothing_showing_are_refused() {
        assert!(pales(1800.0, 125.0, 125.0).is_err());
        assert!(pales(1800.0, 125.0, -1.0).is_err());
        assert!(pales(f64::NAN, 125.0, 20.0).is_err());
        assert_eq!(pales(1e7, 1.0, 0.5), Err(SharingError::TooMany));
    }
}
