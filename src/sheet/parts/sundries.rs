//! Screws, bolts, hinges, caps, what comes out of the ground, and what to seal.

use super::super::phrase::count;
use super::SheetDesk;
use crate::job::check::LONGEST;
use crate::length::Unit;
use crate::listed::and;
use crate::volume;

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
    let counted: Vec<String> = counted.map(|(n, what)| count(n, what)).collect();
    if !counted.is_empty() {
        list.push(and(&counted));
    }
    if sundries.sealer > 0.0 {
        list.push(format!(
            "sealer for {} of cut edges",
            desk.full(sundries.sealer)
        ));
    }
    list.extend(strip(desk));
    if sundries.spoil > 0.0 {
        list.push(format!(
            "{} of dug ground to be rid of, as it lies heaped",
            volume::said(sundries.spoil, desk.unit)
        ));
    }
    list
}

/// What to take up along the runs before digging.
fn strip(desk: &SheetDesk<'_>) -> Option<String> {
    let sundries = &desk.solution.buy.sundries;
    if sundries.strip_area <= 0.0 {
        return None;
    }
    let width = sundries.strip_area * 1e6 / sundries.strip;
    let depth = desk.job.boards.clear.as_ref().map(|clear| clear.depth);
    let area = match desk.unit {
        Unit::Mm | Unit::M => format!("{:.1} m²", sundries.strip_area),
        Unit::FtIn(_) => format!("{:.0} square feet", sundries.strip_area * SQUARE_FEET),
    };
    let deep = match depth.filter(|depth| *depth > 0.0 && *depth <= LONGEST) {
        Some(depth) => format!(", {} deep", desk.full(depth)),
        None => String::new(),
    };
    Some(format!(
        "a strip to clear of turf or slabs before digging: {} by {}{deep}, {area}",
        desk.full(sundries.strip),
        desk.full(width)
    ))
}

/// Square feet in a square metre.
const SQUARE_FEET: f64 = 10.763_910_417;
