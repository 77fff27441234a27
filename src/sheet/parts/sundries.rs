//! Screws, bolts, hinges, caps, what comes out of the ground, and what to seal.

use super::super::phrase::count;
use super::SheetDesk;
use crate::length::Unit;

/// Everything small to buy, and the ground to be rid of.
pub fn list(desk: &SheetDesk<'_>) -> Vec<String> {
    let sundries = &desk.solution.buy.sundries;
    let screws = &sundries.screws;
    let fixings = desk.job.boards.fixings.clone().unwrap_or_default();
    let mut list = Vec::new();
    if screws.all() > 0 {
        list.push(format!(
            "{}: {} for pales ({} to a pale and rail), {} for rails ({} to an end), {} for gravel \
             boards ({} to an end)",
            count(screws.all(), "screw"),
            screws.pales,
            fixings.pale,
            screws.rails,
            fixings.rail,
            screws.gravel,
            fixings.gravel
        ));
    }
    let counted = [
        (sundries.bolts, "bolt"),
        (sundries.hinges, "hinge"),
        (sundries.locks, "lock"),
        (sundries.caps, "cap"),
    ];
    let counted = counted.into_iter().filter(|(n, _)| *n > 0);
    list.extend(counted.map(|(n, what)| count(n, what)));
    if sundries.sealer > 0.0 {
        list.push(format!(
            "sealer for {} of cut edges",
            desk.full(sundries.sealer)
        ));
    }
    if sundries.spoil > 0.0 {
        list.push(format!(
            "{} of dug ground to be rid of, as it lies heaped",
            volume(desk, sundries.spoil)
        ));
    }
    list
}

fn volume(desk: &SheetDesk<'_>, litres: f64) -> String {
    /// Litres in a cubic foot.
    const CUBIC_FOOT: f64 = 28.316_846_592;
    match desk.unit {
        Unit::Mm | Unit::M => format!("{litres:.0} litres"),
        Unit::FtIn(_) => format!("{:.1} cubic feet", litres / CUBIC_FOOT),
    }
}
