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

mod crossing;
mod diagonal;
mod fixes;
mod frame;
mod hidden;
mod line;
mod network;
mod propagate;
mod ray;
mod stakes;
mod trouble;

pub use crossing::{CrossedLines, run_at};
pub use diagonal::{diagonal_at, diagonals, round_arms, stretched};
pub use fixes::{
    CornerFix, CornerPostFix, Diagonal, EndMove, EndWay, LineFix, MarkFix, NetworkFix,
    NetworkStatus, NextTape, OtherSide, ReadingFix, StretchVerdict, StretchedFix, SuspectFix,
};
pub use frame::{SiteFrame, frame};
pub use line::{line_marks, line_ray};
pub use network::{PM, Plane};
pub use propagate::covariance;
pub use ray::{LEAST_TURN, Ray};
pub use stakes::{PlaceOf, Stakes};
pub use trouble::{misreading, reading_name};

use crate::job::Problems;
use crate::job::sound::{CornerIx, LineIx, Sound};

/// The strings of a job, by [`LineIx`] and [`CornerIx`]; `None` where the job does not settle one yet.
#[derive(Clone, Debug, Default)]
pub struct Strings {
    /// Where each string lies, by [`LineIx`].
    pub rays: Vec<Option<Ray>>,
    /// The same with its bow, by [`LineIx`].
    pub lines: Vec<Option<LineFix>>,
    /// Where two strings cross, by [`CornerIx`].
    pub crossings: Vec<Option<CrossedLines>>,
}

/// Lines and corners on the adjusted marks.
#[must_use]
pub fn strings(sound: &Sound, plane: &Plane, problems: &mut Problems) -> Strings {
    let mut strings = Strings::default();
    for i in 0..sound.lines.len() {
        let (ray, fix) = line::solve_line(sound, LineIx(i), plane, problems).unzip();
        strings.rays.push(ray);
        strings.lines.push(fix);
    }
    for i in 0..sound.corners.len() {
        let ix = CornerIx(i);
        strings.crossings.push(crossing::solve_corner(
            sound,
            ix,
            &strings.rays,
            plane,
            problems,
        ));
    }
    strings
}
