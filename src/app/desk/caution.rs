//! Cautions where they matter: once for a job in full, afterwards in one line that opens it.

use super::{Desk, Then};
use crate::cautions::Caution;

/// Lays the whole caution over the page the first time that this job comes to it.
pub fn once(desk: &mut Desk, caution: &Caution) {
    if desk.told.insert(caution.key) {
        desk.explain(caution.title, caution.full);
    }
}

/// Lays the whole caution over the page: its line was pressed.
pub fn open(desk: &mut Desk, caution: &Caution) -> Then {
    desk.told.insert(caution.key);
    desk.explain(caution.title, caution.full)
}
