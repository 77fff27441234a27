//! The strings of a corner as stretched.

use super::{FilePlace, Ledger};
use crate::job::model;
use crate::job::sound::SoundCornerCheck;

/// Checks whose three tapes are all there and possible.
pub(super) fn checks(
    checks: &[model::CornerCheck],
    place: FilePlace<'_>,
    ledger: &mut Ledger,
) -> Vec<SoundCornerCheck> {
    let mut good = Vec::new();
    let list = place.key("checks");
    for (index, check) in checks.iter().enumerate() {
        let place = list.nth(index);
        ledger.unknown_keys(place, &check.extra);
        let arms = place.key("arms");
        let [first, second] = check.arms;
        let first = ledger.positive(arms.nth(0), first, "arm marked on the first string");
        let second = ledger.positive(arms.nth(1), second, "arm marked on the second string");
        let across = place.key("diagonal");
        let diagonal = ledger.given(across, check.diagonal, "tape across");
        let diagonal = diagonal.and_then(|d| ledger.positive(across, d, "tape across"));
        if let (Some(first), Some(second), Some(diagonal)) = (first, second, diagonal) {
            good.push(SoundCornerCheck {
                arms: [first, second],
                diagonal,
                index,
            });
        }
    }
    good
}
