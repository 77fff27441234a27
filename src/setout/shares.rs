//! How much of the run's length error does each post carry?
//!
//! ```text
//!   first        equal bays         gate, pin, kept      equal bays       last
//!     0    …  taken up evenly  …           0          … taken up evenly …   1
//! ```
//!
//! A post that is taped from the zero carries none of it. Between two such, equal bays take it up
//! evenly; full bays leave it all to the closing one.

use super::bench::Stand;
use crate::job::model::BayFit;

/// The share, 0 to 1, of each post of a run, in order.
pub(super) fn shares(stands: &[Stand], fit: BayFit) -> Vec<f64> {
    let mut shares = Vec::with_capacity(stands.len());
    let mut before = 0;
    for (at, stand) in stands.iter().enumerate() {
        if stand.filled {
            continue;
        }
        let share = taped(stand, at, stands.len());
        let from = shares.last().copied().unwrap_or(0.0);
        let way = stand.centre - stands[before].centre;
        shares.extend(stands[shares.len()..at].iter().map(|filled| match fit {
            BayFit::Equal => from + (filled.centre - stands[before].centre) / way * (share - from),
            BayFit::Full => from,
        }));
        shares.push(share);
        before = at;
    }
    shares
}

/// Of a post that a given reading holds: only the last one hangs on the run's length.
fn taped(stand: &Stand, at: usize, count: usize) -> f64 {
    let last = at > 0 && at + 1 == count;
    if last && !stand.kept { 1.0 } else { 0.0 }
}
