//! Volumes of concrete and of dug ground, in a person's own unit: litres, or cubic feet and bags by
//! the pound.
//!
//! Inside the program a volume is always litres, as an `f64`. Only here does it meet text.
//!
//! ```
//! use tautmark::length::Unit;
//! use tautmark::volume;
//!
//! assert_eq!(volume::said(282.08, Unit::Mm), "282 litres");
//! assert_eq!(volume::said(282.08, Unit::FEET), "10.0 cubic feet");
//! assert_eq!(volume::bag(volume::of_bag(80.0), Unit::FEET), "80 lb, 0.60 cubic feet");
//! ```

use crate::length::Unit;

/// Litres in a cubic foot.
pub const CUBIC_FOOT: f64 = 28.316_846_592;
/// Litres of concrete that a pound of dry mix makes: a bag of 80 lb makes 0.6 cubic feet.
const OF_POUND: f64 = 0.6 * CUBIC_FOOT / 80.0;

/// A volume, to a litre or a tenth of a cubic foot.
#[must_use]
pub fn said(litres: f64, unit: Unit) -> String {
    let decimals = match unit {
        Unit::FtIn(_) if litres < CUBIC_FOOT => 2,
        Unit::FtIn(_) => 1,
        Unit::Mm | Unit::M => 0,
    };
    format!("{} {}", figure(litres, unit, decimals), name(unit))
}

/// A small volume, to a tenth of a litre or a hundredth of a cubic foot.
#[must_use]
pub fn said_fine(litres: f64, unit: Unit) -> String {
    let decimals = if unit.is_feet() { 2 } else { 1 };
    format!("{} {}", figure(litres, unit, decimals), name(unit))
}

/// The figure alone.
#[must_use]
pub fn figure(litres: f64, unit: Unit, decimals: usize) -> String {
    let value = match unit {
        Unit::Mm | Unit::M => litres,
        Unit::FtIn(_) => litres / CUBIC_FOOT,
    };
    format!("{value:.decimals$}")
}

/// What its figures count.
#[must_use]
pub const fn name(unit: Unit) -> &'static str {
    if unit.is_feet() {
        "cubic feet"
    } else {
        "litres"
    }
}

/// How much concrete a bag makes, with the bag's weight where bags go by the pound.
#[must_use]
pub fn bag(litres: f64, unit: Unit) -> String {
    let makes = said(litres, unit);
    if unit.is_feet() {
        format!("{:.0} lb, {makes}", pounds(litres))
    } else {
        makes
    }
}

/// Litres of concrete that a bag of this weight makes, lb.
#[must_use]
pub const fn of_bag(pounds: f64) -> f64 {
    pounds * OF_POUND
}

/// The weight of the bag that makes so many litres of concrete, lb.
#[must_use]
pub const fn pounds(litres: f64) -> f64 {
    litres / OF_POUND
}
