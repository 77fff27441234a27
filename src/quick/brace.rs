//! How long is a gate's brace, and how is it cut?
//!
//! ```text
//!    hinge     ┌─┬────────────┬─┐  latch      It stands on the bottom of the hinge stile and
//!    stile     │ │          ╱ │ │  stile      carries the top of the latch stile, between the
//!              │ │       ╱    │ │             frame's inner edges.
//!              └─┴────────────┴─┘
//! ```

use super::figure::{self, FigureError};
use super::refusal::{Refusal, said_in_mm};
use crate::length::{Unit, show_with_unit};
use serde::Serialize;

/// A brace from the bottom of the hinge stile to the top of the latch stile, between the frame's
/// inner edges: mm, degrees.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct Brace {
    /// From inner corner to inner corner.
    pub length: f64,
    /// From the horizontal.
    pub angle: f64,
    /// Its cut along a ledge, on a saw that reads 0 for a square cut: 90 less the angle.
    #[serde(rename = "off square")]
    pub off_square: f64,
    /// Its cut along a stile, the same way: the angle itself.
    #[serde(rename = "off square to stile")]
    pub to_stile: f64,
}

/// Why there is no brace.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum BraceError {
    /// A figure that cannot be.
    Figure(FigureError),
    /// The frame leaves no room inside the leaf.
    NoRoom {
        /// Width of a member, mm.
        member: f64,
    },
}

impl Refusal for BraceError {
    fn figure(&self) -> Option<&'static str> {
        match self {
            Self::Figure(figure) => figure.figure(),
            Self::NoRoom { .. } => Some("width of a member"),
        }
    }

    fn said(&self, unit: Unit) -> String {
        match *self {
            Self::Figure(figure) => figure.said(unit),
            Self::NoRoom { member } => format!(
                "A width of a member of {} leaves no room inside the leaf. Type the width of one stile.",
                show_with_unit(member, unit)
            ),
        }
    }
}

said_in_mm!(BraceError);

/// The brace of a leaf `width` by `height` whose frame's members are `member` wide, all mm.
///
/// # Errors
/// A figure that cannot be, or a frame that leaves no room.
///
/// ```
/// use tautmark::quick::brace::brace;
///
/// // 3 by 4 inside the frame, 5 across it.
/// let brace = brace(1000.0, 1300.0, 50.0)?;
/// assert_eq!(brace.length, 1500.0);
/// assert!((brace.angle - 53.13).abs() < 0.01);
/// # Ok::<(), tautmark::quick::brace::BraceError>(())
/// ```
pub fn brace(width: f64, height: f64, member: f64) -> Result<Brace, BraceError> {
    let width = figure::length("width of the leaf", width)?;
    let height = figure::length("height of the leaf", height)?;
    let member = figure::length("width of a member", member)?;
    let [wide, tall] = [width - 2.0 * member, height - 2.0 * member];
    if wide <= 0.0 || tall <= 0.0 {
        return Err(BraceError::NoRoom { member });
    }
    let angle = tall.atan2(wide).to_degrees();
    Ok(Brace {
        length: wide.hypot(tall),
        angle,
        off_square: 90.0 - angle,
        to_stile: angle,
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_frame_without_room_is_refused_by_its_member() {
        let error = brace(300.0, 900.0, 150.0).expect_err("no room");
        assert_eq!(error.figure(), Some("width of a member"));
        assert!(error.to_string().contains("width of a member"));
    }

    #[test]
    fn both_cuts_make_a_right_angle() {
        let brace = brace(957.0, 1640.0, 70.0).expect("a brace");
        assert!((brace.off_square + brace.to_stile - 90.0).abs() < 1e-9);
    }
}
