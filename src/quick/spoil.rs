//! How much dug ground is there to be rid of, as it lies heaped?

use super::figure::{self, FigureError};

/// What is dug and taken up, mm.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Dug {
    /// How many holes.
    pub holes: u32,
    /// Across a hole.
    pub diameter: f64,
    /// From the ground down.
    pub depth: f64,
    /// Length of the strip that is cleared; 0 where none is.
    pub strip: f64,
    /// Its width.
    pub strip_width: f64,
    /// Thickness of the turf or slabs taken up.
    pub strip_depth: f64,
}

/// Litres as it lies heaped: the holes with the share `over` that they run over (0.25 is a usual
/// figure), and the strip, times `bulk`, how many times its room dug ground takes loose.
///
/// # Errors
/// A figure that cannot be.
///
/// ```
/// use tautmark::quick::spoil::{Dug, spoil};
///
/// let dug = Dug {
///     holes: 0,
///     diameter: 300.0,
///     depth: 600.0,
///     strip: 10_000.0,
///     strip_width: 300.0,
///     strip_depth: 50.0,
/// };
/// // 10 m by 0.3 by 0.05 is 150 litres in place.
/// assert_eq!(spoil(dug, 0.25, 1.3)?, 195.0);
/// # Ok::<(), tautmark::quick::FigureError>(())
/// ```
pub fn spoil(dug: Dug, over: f64, bulk: f64) -> Result<f64, FigureError> {
    let diameter = figure::length("hole diameter", dug.diameter)?;
    let depth = figure::length("hole depth", dug.depth)?;
    let strip = figure::length_or_nothing("length of the strip", dug.strip)?;
    let width = figure::length_or_nothing("width of the strip", dug.strip_width)?;
    let thick = figure::length_or_nothing("thickness taken up", dug.strip_depth)?;
    let over = figure::length_or_nothing("share for over-digging", over)?;
    let bulk = figure::length("times it swells", bulk)?;
    let hole = std::f64::consts::PI / 4.0 * diameter * diameter * depth;
    let holes = f64::from(dug.holes) * hole * (1.0 + over);
    Ok((holes + strip * width * thick) * bulk / 1e6)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn six_holes_by_hand() {
        let dug = Dug {
            holes: 6,
            diameter: 300.0,
            depth: 600.0,
            strip: 0.0,
            strip_width: 300.0,
            strip_depth: 0.0,
        };
        // π/4 · 0.3² · 0.6 is 42.41 litres; a quarter over, six of them, swollen by 1.3: 413.5.
        let litres = spoil(dug, 0.25, 1.3).expect("litres");
        assert!((litres - 413.5).abs() < 0.1, "{litres}");
        assert!(spoil(Dug { depth: -1.0, ..dug }, 0.25, 1.3).is_err());
    }
}
