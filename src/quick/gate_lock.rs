//! How thick is the gate at its lock, and what shaft passes through?
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

/// A face board thicker at one edge than at the other, mm.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct TaperedBoard {
    /// At its thin edge.
    pub thin: f64,
    /// At its thick edge.
    pub thick: f64,
    /// From edge to edge.
    pub width: f64,
}

/// A gate at the height of its lock, mm.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct GateAtLock {
    /// Thickness of the frame.
    pub frame: f64,
    /// The board on its face.
    pub board: TaperedBoard,
    /// From the board's thin edge to the middle of the lock.
    pub from_thin_edge: f64,
    /// How much longer than the stack the shaft must be, as its maker says.
    pub allowance: f64,
}

/// The thickness a lock meets.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct LockStack {
    /// Frame and board at the lock's height, mm, without the offcut.
    pub bare: f64,
    /// How far the bare face leans off the frame, degrees.
    pub face_angle: f64,
    /// Thickness of the turned offcut at the lock's height, mm.
    pub offcut: f64,
    /// Frame, board and turned offcut, mm: the same at every height.
    pub packed: f64,
    /// Shortest shaft that passes the packed stack, mm, allowance included.
    pub shortest_shaft: f64,
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

/// Frame, tapered board and an offcut of the same board turned thin edge to thick edge over it.
///
/// ```
/// use tautmark::quick::gate_lock::{GateAtLock, TaperedBoard, lock_stack};
/// let stack = lock_stack(GateAtLock {
///     frame: 45.0,
///     board: TaperedBoard { thin: 8.0, thick: 22.0, width: 150.0 },
///     from_thin_edge: 75.0,
///     allowance: 5.0,
/// })?;
/// assert_eq!((stack.bare, stack.packed, stack.shortest_shaft), (60.0, 75.0, 80.0));
/// # Ok::<(), tautmark::quick::gate_lock::LockError>(())
/// ```
///
/// # Errors
/// [`LockError`] for figures that cannot be or a lock beside its board.
pub fn lock_stack(gate: GateAtLock) -> Result<LockStack, LockError> {
    let frame = figure::length("frame", gate.frame)?;
    let thin = figure::length_or_nothing("thin edge", gate.board.thin)?;
    let thick = figure::length("thick edge", gate.board.thick)?;
    let width = figure::length("width of the board", gate.board.width)?;
    let at = figure::length_or_nothing("lock's distance from the thin edge", gate.from_thin_edge)?;
    let allowance = figure::length_or_nothing("allowance", gate.allowance)?;
    if thin > thick {
        return Err(LockError::EdgesChanged);
    }
    if at > width {
        return Err(LockError::BesideBoard { at, width });
    }
    let taper = (thick - thin) / width;
    let packed = frame + thin + thick;
    Ok(LockStack {
        bare: frame + thin + taper * at,
        face_angle: taper.atan().to_degrees(),
        offcut: thick - taper * at,
        packed,
        shortest_shaft: packed + allowance,
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    const GATE: GateAtLock = GateAtLock {
        frame: 45.0,
        board: TaperedBoard {
            thin: 8.0,
            thick: 22.0,
            width: 150.0,
        },
        from_thin_edge: 75.0,
        allowance: 0.0,
    };

    #[test]
    fn the_packed_stack_is_the_same_at_every_height() -> Result<(), LockError> {
        for from_thin_edge in [0.0, 30.0, 110.0, 150.0] {
            let stack = lock_stack(GateAtLock {
                from_thin_edge,
                ..GATE
            })?;
            assert_eq!(stack.packed, 75.0);
            assert!((stack.bare + stack.offcut - stack.packed).abs() < 1e-9);
            assert!((stack.face_angle - 5.332).abs() < 0.001);
        }
        Ok(())
    }

    #[test]
    fn a_board_of_one_thickness_leans_nowhere() -> Result<(), LockError> {
        let board = TaperedBoard {
            thin: 18.0,
            thick: 18.0,
            width: 150.0,
        };
        let stack = lock_stack(GateAtLock { board, ..GATE })?;
        assert_eq!((stack.bare, stack.face_angle), (63.0, 0.0));
        Ok(())
    }

    #[test]
    fn what_cannot_be_is_refused() {
        let board = TaperedBoard {
            thin: 22.0,
            thick: 8.0,
            width: 150.0,
        };
        assert_eq!(
            lock_stack(GateAtLock { board, ..GATE }),
            Err(LockError::EdgesChanged)
        );
        assert_eq!(
            lock_stack(GateAtLock {
                from_thin_edge: 160.0,
                ..GATE
            }),
            Err(LockError::BesideBoard {
                at: 160.0,
                width: 150.0
            })
        );
        assert!(
            lock_stack(GateAtLock {
                frame: f64::NAN,
                ..GATE
            })
            .is_err()
        );
        assert!(
            lock_stack(GateAtLock {
                allowance: -1.0,
                ..GATE
            })
            .is_err()
        );
    }
}
