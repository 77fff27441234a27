//! Cautions where they matter: once for a job in full, afterwards in one line that opens them.

use super::{Desk, Then};
use crate::cautions::Caution;
use slint::SharedString;

/// Lays in full over the page what of these cautions this job has not shown yet.
pub fn once(desk: &mut Desk, cautions: &[Caution]) {
    let mut new = cautions.to_vec();
    new.retain(|caution| !desk.told.contains(caution.key));
    open(desk, &new);
}

/// Lays all of these cautions over the page: their line was pressed.
pub fn open(desk: &mut Desk, cautions: &[Caution]) -> Then {
    let [first, others @ ..] = cautions else {
        return Then::Stay;
    };
    desk.told.extend(cautions.iter().map(|caution| caution.key));
    let mut text = first.full.to_owned();
    for other in others {
        text.push_str(&format!("\n\n**{}.** {}", other.title, other.full));
    }
    desk.explain(first.title, &text)
}

/// The line that opens them; empty where there are none.
pub fn line(cautions: &[Caution]) -> SharedString {
    cautions.first().map_or("", |caution| caution.short).into()
}
