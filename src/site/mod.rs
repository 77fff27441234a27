//! What is true, and where do the strings go? Marks, walls, string lines and their crossings.
//!
//! ```text
//!                     D
//!                    /      marks A B C D, walls A→B and C→D;
//!                   C       the frame: A is the origin, B lies on +x
//!                  ╱
//!   A ────────B   ╱         strings run beside the walls
//!   ─────────────X───       and cross at X
//! ```
//!
//! Bearings are degrees from +x, positive to the left; ± is the half width of the 95 % band.

mod fixes;

pub use fixes::{
    Advice, CornerFix, CornerPostFix, Diagonal, LineFix, MarkFix, NetworkFix, ReadingFix, Status,
    SuspectFix,
};
