//! Which sum is in sight, and what was cleared away of it.

use super::sum::Sum;
use super::sums::{SUMS, corner};
use crate::app::Desk;

/// The sum in sight, and what was cleared away.
#[derive(Default)]
pub struct QuickDesk {
    pub sum: Option<&'static Sum>,
    pub cleared: Vec<(String, f64)>,
}

impl Desk {
    /// The name of the quick sum in sight.
    #[must_use]
    pub fn quick(&self) -> &'static str {
        in_sight(self).id
    }

    /// Looks at the quick sum of that name.
    pub fn look_at_quick(&mut self, id: &str) {
        if let Some(sum) = by_id(id) {
            self.quick.sum = Some(sum);
            self.view.whole();
        }
    }
}

/// The sum of that name.
pub fn by_id(id: &str) -> Option<&'static Sum> {
    SUMS.iter().copied().find(|sum| sum.id == id)
}

/// The sum in sight.
pub fn in_sight(desk: &Desk) -> &'static Sum {
    desk.quick.sum.unwrap_or(&corner::BY_TAPES)
}
