//! Worked figures: an inch is 25.4 mm, exactly.

use super::*;
use crate::length::InchPart;

fn shown(mm: f64, unit: Unit) -> String {
    show(mm, unit).replace(NO_BREAK_SPACE, " ")
}

#[test]
fn groups_thousands_and_rounds_halves_away_from_zero() {
    assert_eq!(shown(999.5, Unit::Mm), "1 000");
    assert_eq!(shown(-2.5, Unit::Mm), "−3");
    assert_eq!(shown(1_234_567.0, Unit::Mm), "1 234 567");
    assert_eq!(shown(1_234_567.4, Unit::M), "1 234.567");
    assert_eq!(shown(-0.4, Unit::Mm), "0");
}

#[test]
fn shows_feet_inches_and_sixteenths() {
    // 17 ft 2 1/2 in = 206.5 in = 206.5 × 25.4 = 5245.1 mm.
    assert_eq!(shown(5245.1, Unit::FEET), "17′ 2 1/2″");
    // 9 ft and 15 ft: 9 × 304.8 = 2743.2, 15 × 304.8 = 4572.
    assert_eq!(shown(2743.2, Unit::FEET), "9′ 0″");
    assert_eq!(shown(4572.0, Unit::FEET), "15′ 0″");
    assert_eq!(shown(-7.9375, Unit::FEET), "−5/16″");
    assert_eq!(shown(0.5, Unit::FEET), "0″");
    assert_eq!(shown(400_000.0, Unit::FEET), "1 312′ 4 1/16″");
}

#[test]
fn a_band_is_never_nothing_unless_it_is() {
    let band = |mm, unit| show_pm(mm, unit).replace(NO_BREAK_SPACE, " ");
    assert_eq!(band(0.02, Unit::Mm), "± 0.1");
    assert_eq!(band(0.94, Unit::Mm), "± 0.9");
    assert_eq!(band(0.96, Unit::Mm), "± 1");
    assert_eq!(band(0.3, Unit::M), "± 0.0003");
    // 0.3 mm = 0.0118 in, so 1/64 in (0.0156) holds it; 1 mm = 0.0394 in needs 3/64.
    assert_eq!(band(0.3, Unit::FEET), "± 1/64″");
    assert_eq!(band(1.0, Unit::FEET), "± 3/64″");
    assert_eq!(band(1.58, Unit::FEET), "± 1/16″");
    assert_eq!(band(0.0, Unit::Mm), "± 0");
    assert_eq!(band(f64::INFINITY, Unit::M), "± —");
}

#[test]
fn what_is_not_finite_is_a_dash() {
    for unit in Unit::ALL {
        assert_eq!(show(f64::NAN, unit), "—");
        assert_eq!(signed(f64::NEG_INFINITY, unit), "—");
        assert_eq!(show_typed(f64::NAN, unit), "");
    }
}

#[test]
fn signs_say_which_way() {
    assert_eq!(signed_fine(-0.04, Unit::Mm, 1), "0.0");
    assert_eq!(signed(25.4, Unit::FEET), "+1″");
    assert_eq!(signed(-25.4, Unit::FEET), "−1″");
    assert_eq!(show_typed(-3412.0, Unit::Mm), "−3412");
    assert_eq!(show_typed(-0.001, Unit::Mm), "0");
}

#[test]
fn typed_text_has_no_needless_zeros() {
    assert_eq!(show_typed(3400.0, Unit::Mm), "3400");
    assert_eq!(show_typed(3400.0, Unit::M), "3.4");
    assert_eq!(show_typed(304.8, Unit::FEET), "1' 0\"");
}

#[test]
fn every_figure_is_rounded_to_the_persons_own_part() {
    // 1 21/32 in = 42.06875 mm.
    let shown = InchPart::ALL.map(|part| show(42.06875, Unit::FtIn(part)));
    assert_eq!(shown, ["1\u{a0}5/8″", "1\u{a0}11/16″", "1\u{a0}21/32″"]);
    for part in InchPart::ALL {
        let unit = Unit::FtIn(part);
        for n in 0..4000_u32 {
            let mm = f64::from(n) * 0.731;
            let text = show(mm, unit);
            assert_eq!(show_fine(mm, unit, 2), text);
            assert_eq!(show(rounded(mm, unit, 0), unit), text);
            let parts = rounded(mm, unit, 0) / part.mm();
            assert!((parts - parts.round()).abs() < 1e-6);
        }
    }
}

#[test]
fn distances_are_said_in_metres_or_feet() {
    assert_eq!(distance(5040.0, Unit::Mm), "5.0\u{a0}m");
    assert_eq!(distance(-9144.0, Unit::FEET), "−30\u{a0}ft");
    assert_eq!(distance(f64::NAN, Unit::M), "—");
}
