//! The angle is not the one I want: which way does the string's end go, and how far?
//!
//! ```text
//!            new   old
//!             \    |
//!       close  \<--* string's end, `at` mm from the corner
//!       <--     \  |
//!                \ |        --> open
//!     first ______\|
//!     string     corner
//! ```

use super::corner::{CornerError, TapedCorner};
use super::figure::{self, Figure};
use super::triangle;

/// Which way the second string's end goes.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Swing {
    /// Away from the first string: the inside angle grows.
    Open,
    /// Towards the first string: the inside angle shrinks.
    Close,
    /// It already stands at the wanted angle.
    Stay,
}

/// How to bring the second string to the wanted angle.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct StringTurn {
    /// Which way.
    pub swing: Swing,
    /// How far the end moves, mm, never less than 0, kept at its distance from the corner.
    pub by: Figure,
    /// Change of the inside angle, degrees: more than 0 opens it.
    pub turn: Figure,
}

impl StringTurn {
    /// Whether the move is smaller than its own ±, so that the tapes cannot tell it from none.
    #[must_use]
    pub fn within_reading(&self) -> bool {
        self.by.value <= self.by.pm
    }
}

/// Turns the second string of a taped `corner` to `wanted` degrees by moving its end, `at` mm from
/// the corner along it: the chord 2 · at · sin(turn/2).
///
/// ```
/// use tautmark::quick::{Taped, corner::{CornerTapes, corner_by_tapes}};
/// use tautmark::quick::turn_string::{Swing, turn_string};
/// let corner = corner_by_tapes(&CornerTapes {
///     first: Taped::new(2000.0, 1.0),
///     second: Taped::new(2000.0, 1.0),
///     across: Taped::new(2905.0, 1.0),
/// })?;
/// let turn = turn_string(&corner, 90.0, 4000.0)?;
/// assert_eq!(turn.swing, Swing::Close);
/// assert!((turn.by.value - 220.0).abs() < 1.0);
/// # Ok::<(), tautmark::quick::corner::CornerError>(())
/// ```
///
/// # Errors
/// [`CornerError::Figure`] for an angle that is no corner or a distance of nothing.
pub fn turn_string(corner: &TapedCorner, wanted: f64, at: f64) -> Result<StringTurn, CornerError> {
    let wanted = figure::inside_angle("wanted angle", wanted)?;
    let at = figure::length("distance to the string's end", at)?;
    let turn = Figure {
        value: wanted - corner.angle.value,
        pm: corner.angle.pm,
    };
    let radians = turn.value.to_radians();
    let chord = triangle::across(at, at, radians.abs());
    let swing = if chord < 1e-6 {
        Swing::Stay
    } else if turn.value > 0.0 {
        Swing::Open
    } else {
        Swing::Close
    };
    let pm = at * (radians / 2.0).cos() * turn.pm.to_radians();
    Ok(StringTurn {
        swing,
        by: Figure { value: chord, pm },
        turn,
    })
}

#[cfg(test)]
mod tests {
    use super::super::Taped;
    use super::super::corner::{CornerTapes, across_for, corner_by_tapes};
    use super::*;

    fn corner_at(angle: f64) -> Result<TapedCorner, CornerError> {
        let across = across_for(3000.0, 3000.0, angle)?.wanted;
        let [first, second, across] = [3000.0, 3000.0, across].map(|l| Taped::new(l, 1.0));
        corner_by_tapes(&CornerTapes {
            first,
            second,
            across,
        })
    }

    #[test]
    fn a_degree_at_three_metres_is_52_mm() -> Result<(), CornerError> {
        let turn = turn_string(&corner_at(89.0)?, 90.0, 3000.0)?;
        assert_eq!(turn.swing, Swing::Open);
        assert!((turn.by.value - 52.36).abs() < 0.01);
        assert!(!turn.within_reading());
        Ok(())
    }

    #[test]
    fn a_move_under_its_own_uncertainty_is_said_to_be() -> Result<(), CornerError> {
        let turn = turn_string(&corner_at(90.02)?, 90.0, 3000.0)?;
        assert_eq!(turn.swing, Swing::Close);
        assert!(turn.within_reading());
        assert_eq!(
            turn_string(&corner_at(75.0)?, 75.0, 3000.0)?.swing,
            Swing::Stay
        );
        Ok(())
    }

    #[test]
    fn impossible_wishes_are_refused() -> Result<(), CornerError> {
        let corner = corner_at(90.0)?;
        for (wanted, at) in [
            (0.0, 3000.0),
            (180.0, 3000.0),
            (90.0, 0.0),
            (90.0, f64::INFINITY),
        ] {
            assert!(turn_string(&corner, wanted, at).is_err());
        }
        Ok(())
    }
}
