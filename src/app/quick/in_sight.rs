//! Which sum is in sight.

use super::sum::QuickSum;
use super::sums::{SUMS, corner};
use crate::app::desk::Desk;

impl Desk {
    /// Looks at the quick sum of that name.
    pub fn look_at_quick(&mut self, id: &str) {
        if let Some(sum) = by_id(id) {
            self.quick.sum = sum.id.to_owned();
            self.view.whole();
        }
    }
}

/// The sum of that name.
pub fn by_id(id: &str) -> Option<&'static QuickSum> {
    SUMS.iter().copied().find(|sum| sum.id == id)
}

/// The sum in sight.
pub fn in_sight(desk: &Desk) -> &'static QuickSum {
    by_id(&desk.quick.sum).unwrap_or(&corner::BY_TAPES)
}
