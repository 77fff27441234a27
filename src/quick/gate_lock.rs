//! How thick is the gate at its lock, what shaft passes through, and does its stile take the lock's case?
//!
//! ```text
//!   frame | board           frame | board | offcut turned over
//!   ######|\                ######|\     /|
//!   ######| \               ######| \   / |     thick edge against thin edge:
//!   ######|  \   lock       ######|  \ /  |     the face is parallel again and
//!   ######|   \             ######|   \   |     the stack the same at every height
//! ```

use super::figure::{self, FigureError};
use super::refusal::{Refusal, said_in_mm};
use crate::length::{Unit, show_with_unit};

/// A gate at the height of its lock, mm.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct GateAtLock {
    /// Thickness of the frame.
    pub frame: f64,
    /// Thickness of the board on its face, 0 where there is none; of a tapered board, at its thick edge.
    pub face: f64,
    /// How the board tapers; `None` where it is of one thickness.
    pub taper: Option<Taper>,
}

/// A face board that is thinner at one edge, where its lock sits, mm.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Taper {
    /// Thickness of its thin edge.
    pub thin: f64,
    /// From its thin edge to its thick one.
    pub width: f64,
    /// From its thin edge to the middle of the lock.
    pub from_thin_edge: f64,
    /// Whether an offcut of the same board, turned over, lies under the lock.
    pub packed: bool,
}

/// The thickness a lock meets.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct LockStack {
    /// Frame and board at the middle of the lock, mm, without an offcut.
    pub bare: f64,
    /// How far the bare face leans off the frame, degrees.
    pub face_angle: f64,
    /// Thickness of the turned offcut at the middle of the lock, mm; `None` without one.
    pub offcut: Option<f64>,
    /// All that the shaft passes through, mm; with an offcut it is the same at every height.
    pub through: f64,
}

/// A lock on its stile, mm.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct LockOnStile {
    /// Width of the stile.
    pub stile: f64,
    /// Width of the lock's case.
    pub case: f64,
    /// From the leaf's edge to the case.
    pub edge: f64,
    /// From the leaf's edge to the spindle.
    pub backset: f64,
}

/// What a lock's case asks for beside its stile, and where its handle then sits, mm.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct LockSeat {
    /// Width of the piece beside the stile that carries the rest of the case; `None` where the stile
    /// carries all of it.
    pub packing: Option<f64>,
    /// How far the spindle is from the middle of the stile, away from the edge.
    pub off_stile: f64,
    /// How far the spindle is from the middle of stile and packing, away from the edge.
    pub off_seen: f64,
    /// Packing with which the spindle is in the middle of stile and packing; `None` where the stile
    /// alone is wider.
    pub packing_to_centre: Option<f64>,
}

/// Why a lock has no stack.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum LockError {
    /// A figure that cannot be.
    Figure(FigureError),
    /// Thin edge thicker than the thick one.
    EdgesChanged,
    /// The lock is beside the board.
    BesideBoard {
        /// Where the lock is, mm.
        at: f64,
        /// The board's width, mm.
        width: f64,
    },
}

impl Refusal for LockError {
    fn figure(&self) -> Option<&'static str> {
        match self {
            Self::Figure(figure) => figure.figure(),
            Self::EdgesChanged => Some("thin edge"),
            Self::BesideBoard { .. } => Some("lock's distance from the thin edge"),
        }
    }

    fn said(&self, unit: Unit) -> String {
        match *self {
            Self::Figure(figure) => figure.said(unit),
            Self::EdgesChanged => {
                "The thin edge is thicker than the thick one. Change the two figures over."
                    .to_owned()
            }
            Self::BesideBoard { at, width } => format!(
                "The lock at {} from the thin edge is beyond a board {} wide. \
                 Measure on the board the lock goes through.",
                show_with_unit(at, unit),
                show_with_unit(width, unit),
            ),
        }
    }
}

said_in_mm!(LockError);

/// Frame and face board, and where the board tapers an offcut of it turned thin edge to thick edge over it.
///
/// ```
/// use tautmark::quick::gate_lock::{GateAtLock, Taper, lock_stack};
/// let taper = Taper { thin: 8.0, width: 150.0, from_thin_edge: 75.0, packed: true };
/// let stack = lock_stack(GateAtLock { frame: 45.0, face: 22.0, taper: Some(taper) })?;
/// assert_eq!((stack.bare, stack.offcut, stack.through), (60.0, Some(15.0), 75.0));
/// let even = lock_stack(GateAtLock { frame: 45.0, face: 22.0, taper: None })?;
/// assert_eq!(even.through, 67.0);
/// # Ok::<(), tautmark::quick::gate_lock::LockError>(())
/// ```
///
/// # Errors
/// [`LockError`] for figures that cannot be or a lock beside its board.
pub fn lock_stack(gate: GateAtLock) -> Result<LockStack, LockError> {
    let frame = figure::length_or_nothing("frame", gate.frame)?;
    let face = figure::length_or_nothing("face board", gate.face)?;
    let Some(taper) = gate.taper else {
        return Ok(LockStack {
            bare: frame + face,
            face_angle: 0.0,
            offcut: None,
            through: frame + face,
        });
    };
    let thin = figure::length_or_nothing("thin edge", taper.thin)?;
    let width = figure::length("width of the board", taper.width)?;
    let at = figure::length_or_nothing("lock's distance from the thin edge", taper.from_thin_edge)?;
    if thin > face {
        return Err(LockError::EdgesChanged);
    }
    if at > width {
        return Err(LockError::BesideBoard { at, width });
    }
    let slope = (face - thin) / width;
    let bare = frame + thin + slope * at;
    let offcut = taper.packed.then_some(face - slope * at);
    Ok(LockStack {
        bare,
        face_angle: slope.atan().to_degrees(),
        offcut,
        through: bare + offcut.unwrap_or(0.0),
    })
}

/// What the case asks for beside its stile.
///
/// ```
/// use tautmark::quick::gate_lock::{LockOnStile, lock_seat};
/// let seat = lock_seat(LockOnStile { stile: 70.0, case: 110.0, edge: 0.0, backset: 60.0 });
/// assert_eq!((seat.packing, seat.packing_to_centre), (Some(40.0), Some(50.0)));
/// assert_eq!((seat.off_stile, seat.off_seen), (25.0, 5.0));
/// ```
#[must_use]
pub fn lock_seat(lock: LockOnStile) -> LockSeat {
    let more_than_none = |wide: f64| Some(wide).filter(|wide| *wide > 0.0);
    let packing = more_than_none(lock.edge + lock.case - lock.stile);
    let seen = lock.stile + packing.unwrap_or(0.0);
    LockSeat {
        packing,
        off_stile: lock.backset - lock.stile / 2.0,
        off_seen: lock.backset - seen / 2.0,
        packing_to_centre: more_than_none(2.0 * lock.backset - lock.stile),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    const TAPER: Taper = Taper {
        thin: 8.0,
        width: 150.0,
        from_thin_edge: 75.0,
        packed: true,
    };

    fn stack(face: f64, taper: Taper) -> Result<LockStack, LockError> {
        lock_stack(GateAtLock {
            frame: 45.0,
            face,
            taper: Some(taper),
        })
    }

    #[test]
    fn the_packed_stack_is_the_same_at_every_height() -> Result<(), LockError> {
        for from_thin_edge in [0.0, 30.0, 110.0, 150.0] {
            let taper = Taper {
                from_thin_edge,
                ..TAPER
            };
            let packed = stack(22.0, taper)?;
            assert!((packed.through - 75.0).abs() < 1e-9);
            assert!((packed.face_angle - 5.332).abs() < 0.001);
            let bare = stack(
                22.0,
                Taper {
                    packed: false,
                    ..taper
                },
            )?;
            assert_eq!((bare.offcut, bare.through), (None, packed.bare));
        }
        Ok(())
    }

    #[test]
    fn a_board_of_one_thickness_leans_nowhere() -> Result<(), LockError> {
        let even = lock_stack(GateAtLock {
            frame: 45.0,
            face: 18.0,
            taper: None,
        })?;
        assert_eq!((even.bare, even.face_angle), (63.0, 0.0));
        let thin = stack(
            18.0,
            Taper {
                thin: 18.0,
                packed: false,
                ..TAPER
            },
        )?;
        assert_eq!(thin, even);
        Ok(())
    }

    #[test]
    fn a_case_that_its_stile_carries_asks_for_no_packing() {
        let seat = lock_seat(LockOnStile {
            stile: 95.0,
            case: 80.0,
            edge: 15.0,
            backset: 45.0,
        });
        assert_eq!((seat.packing, seat.packing_to_centre), (None, None));
        assert_eq!((seat.off_stile, seat.off_seen), (-2.5, -2.5));
    }

    #[test]
    fn what_cannot_be_is_refused() {
        assert_eq!(stack(7.0, TAPER), Err(LockError::EdgesChanged));
        let (at, width) = (160.0, 150.0);
        let beside = Taper {
            from_thin_edge: at,
            ..TAPER
        };
        assert_eq!(
            stack(22.0, beside),
            Err(LockError::BesideBoard { at, width })
        );
        let no_width = Taper {
            width: 0.0,
            from_thin_edge: 0.0,
            ..TAPER
        };
        assert!(stack(22.0, no_width).is_err());
        assert!(stack(f64::NAN, TAPER).is_err());
    }
}
