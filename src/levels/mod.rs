//! What level? Set-ups of the laser, the heights they carry round a corner, and whether they close.
//!
//! ```text
//!                                 ─ ─ ─ ─ ─ ─┬─ ─ ─ ─ ─ ─ ─   line of set-up 2
//!   ─ ─┬─ ─ ─ ─ ─ ─ ─ ─ ─ ─ ─ ─ ┬ ─ ─        │  step = line 2 − line 1
//!      │ down         line of   │ down       │ down
//!    datum            set-up 1  │            │
//!                            change point    ground
//!
//!   height(point) = line(set-up) − down
//! ```
//!
//! The datum is held; every set-up's line and every other point is worked out by least squares
//! from all sights together. Heights mm, up positive; ± is the half width of the 95 % band.

mod closure;
mod fixes;
mod network;
mod report;

pub use fixes::{ChangePoint, Closure, LevelsFix, PointFix, SetupFix, SightFix};

use crate::job::Problems;
use crate::job::sound::Sound;

pub(crate) use crate::adjust::BAND_95 as BAND;

/// Heights of every set-up's line and every point that the sights tie to the datum, mm; none where
/// there is neither a datum nor a sight. What keeps the rest from being known goes to `problems`.
///
/// ```
/// use tautmark::job::{Problems, check::check, example};
/// use tautmark::levels::levels;
///
/// let (sound, _) = check(&example());
/// let fix = levels(&sound, &mut Problems::default()).expect("the example has levels");
/// assert!((fix.setups["S2"].step - 62.37).abs() < 0.01);
/// ```
#[must_use]
pub fn levels(sound: &Sound, problems: &mut Problems) -> Option<LevelsFix> {
    let levels = &sound.levels;
    if levels.datum.is_none() && levels.sights.is_empty() {
        return None;
    }
    let fix = network::solve(levels);
    report::missing(levels, &fix, problems);
    report::misread(sound, &fix, problems);
    closure::unbalanced(sound, problems);
    Some(fix)
}
