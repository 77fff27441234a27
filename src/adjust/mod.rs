//! What do the readings say, how sure is it, and which reading is wrong?
//!
//! One least-squares core serves the tapes (marks in the plane) and the levels (heights):
//!
//! ```text
//!   parameters x   ──►  equations f(x)   ──►  residuals v = f(x) − observed
//!   A = ∂f/∂x / sd       N = AᵀA               Σ(v/sd)² → least
//!   Q = N⁻¹              r = 1 − (A Q Aᵀ)ᵢᵢ    w = |v| / (sd √r)
//! ```
//!
//! It knows nothing of jobs, ids or walls: parameters are plain indices, and the caller settles
//! the frame by holding some of them. The statistics are those of any adjustment textbook
//! (observation equations, a-priori standard deviations, data snooping after Baarda).
//!
//! ```
//! use tautmark::adjust::{adjust, At, Equation, Observation, Param, System};
//!
//! // A peg 3 m along and 4 m out from a nail, taped from two nails 3 m apart.
//! let (nail, end, peg) = (At::nth(0), At::nth(1), At::nth(2));
//! let tape = |from, to, value| Observation {
//!     equation: Equation::Distance { from, to },
//!     value,
//!     sd: 1.5,
//! };
//! let system = System {
//!     start: vec![0.0, 0.0, 2900.0, 0.0, 3200.0, 3900.0],
//!     held: vec![true, true, false, true, false, false],
//!     observations: vec![
//!         tape(nail, end, 3000.0),
//!         tape(nail, peg, 5000.0),
//!         tape(end, peg, 4000.0),
//!     ],
//! };
//! let adjustment = adjust(&system);
//! assert!((adjustment.x[4] - 3000.0).abs() < 1e-6);
//! assert!((adjustment.x[5] - 4000.0).abs() < 1e-6);
//! ```

pub mod advice;
pub mod misread;

mod adjustment;
mod cofactors;
mod descent;
mod equation;
mod factor;
mod fit;
mod grow;
mod left_out;
mod limit;
mod locus;
mod mark;
mod null_space;
mod order;
mod problem;
mod search;
mod sense;
mod sharpened;
mod sides;
mod suspects;
mod system;
mod worth;

pub use adjustment::{Adjustment, Fixity, adjust};
pub use equation::Equation;
pub use limit::{BAND_95, CHECKED, FINDABLE, SUSPICIOUS};
pub use mark::{At, Param};
pub use sides::{Crossing, Sides};
pub use suspects::{Prediction, Suspect, Suspicion, suspects};
pub use system::{Observation, System};
pub use worth::ReadingWorth;
