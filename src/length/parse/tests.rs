//! Worked readings: an inch is 25.4 mm and a foot 304.8 mm, exactly.

use super::*;
use ParseErrorKind as Kind;

#[track_caller]
fn reads(text: &str, unit: Unit, mm: f64) {
    match parse(text, unit) {
        Ok(read) => assert!((read - mm).abs() < 1e-9, "{text}: {read}, not {mm}"),
        Err(error) => panic!("{text}: {error}"),
    }
}

#[track_caller]
pub(super) fn refused(text: &str, unit: Unit) -> ParseError {
    match parse(text, unit) {
        Ok(read) => panic!("{text} was read as {read}"),
        Err(error) => error,
    }
}

#[track_caller]
fn ambiguous(text: &str, unit: Unit, readings: [(&str, f64); 2]) {
    let Kind::Ambiguous { one, other } = refused(text, unit).kind else {
        panic!("{text}: {:?}", refused(text, unit));
    };
    for (remedy, (expected, mm)) in [one, other].iter().zip(readings) {
        assert_eq!(remedy, expected);
        reads(remedy, unit, mm);
    }
}

#[test]
fn metric_figures() {
    for text in [
        "3412",
        "3 412",
        "3\u{a0}412",
        "3\u{2009}412",
        "3412mm",
        "3412 mm",
        "3412.",
        "+3412",
    ] {
        reads(text, Unit::Mm, 3412.0);
    }
    for text in [
        "341.2cm",
        "341,2 cm",
        "3.412 m",
        "3,412 m",
        "3.412m",
        "3.412 metres",
    ] {
        reads(text, Unit::Mm, 3412.0);
    }
    for text in ["3412.5", "3412,5", "3 412,5", "  3412.5  "] {
        reads(text, Unit::Mm, 3412.5);
    }
    for text in ["3.412", "3,412", "3412 mm"] {
        reads(text, Unit::M, 3412.0);
    }
    reads(".5", Unit::Mm, 0.5);
    reads("-12", Unit::Mm, -12.0);
    reads("−12", Unit::Mm, -12.0);
}

#[test]
fn feet_and_inches() {
    // 11 ft 9 5/16 in = 132 + 9.3125 = 141.3125 in = 3589.3375 mm.
    for text in [
        "11' 9 5/16\"",
        "11′ 9 5/16″",
        "11′\u{a0}9\u{a0}5/16″",
        "11’ 9 5/16”",
        "11'9 5/16''",
        "11'-9 5/16\"",
        "11 ft 9 5/16 in",
        "11ft9 5/16in.",
        "11 feet 9.3125 inches",
        "11' 9 5⁄16",
        "141 5/16\"",
    ] {
        for unit in Unit::ALL {
            reads(text, unit, 3589.3375);
        }
    }
    reads("11-9 5/16", Unit::FEET, 3589.3375);
    reads("141 5/16", Unit::FEET, 3589.3375);
    reads("11'", Unit::Mm, 3352.8);
    reads("9 ft", Unit::Mm, 2743.2);
    reads("15 ft", Unit::Mm, 4572.0);
    reads("206.5 in", Unit::Mm, 5245.1);
    reads("206½", Unit::FEET, 5245.1);
    reads("5/16\"", Unit::Mm, 7.9375);
    reads("9 in", Unit::M, 228.6);
    reads("5½ ft", Unit::Mm, 1676.4);
    reads("1/64\"", Unit::Mm, 0.396875);
    for (fraction, eighths) in [
        ("¼", 2.0),
        ("⅜", 3.0),
        ("½", 4.0),
        ("⅝", 5.0),
        ("¾", 6.0),
        ("⅞", 7.0),
        ("⅛", 1.0),
    ] {
        reads(&format!("{fraction}\""), Unit::Mm, eighths * 3.175);
    }
}

#[test]
fn sums_with_any_spacing() {
    for text in [
        "3412+76",
        "3412 + 76",
        " 3412  +76 ",
        "3412mm+7.6cm",
        "3.412 m + 76",
    ] {
        reads(text, Unit::Mm, 3488.0);
    }
    reads("3412-76−12 + 1", Unit::Mm, 3325.0);
    reads("-76 + 3412", Unit::Mm, 3336.0);
    reads("3.4 m + 3\"", Unit::Mm, 3476.2);
    reads("-11' 9\"", Unit::Mm, -3581.4);
    reads("11' 9\" - 9\"", Unit::FEET, 3352.8);
}

#[test]
fn a_hyphen_joins_feet_to_inches_only_without_spaces_and_under_twelve() {
    reads("11-9", Unit::FEET, 3581.4);
    reads("11-9\"", Unit::FEET, 3581.4);
    reads("140-12", Unit::FEET, 128.0 * 25.4);
    for text in ["11 - 9", "11 -9", "11- 9", "11−9"] {
        reads(text, Unit::FEET, 50.8);
    }
    reads("11-9", Unit::Mm, 2.0);
    reads("11\"-9\"", Unit::FEET, 50.8);
    reads("11'-14\"", Unit::Mm, 3352.8 - 355.6);
    reads("11'-9'", Unit::Mm, 609.6);
    reads("11-9 + 3", Unit::FEET, 3657.6);
}

#[test]
fn two_readings_are_both_offered() {
    ambiguous("1,250", Unit::Mm, [("1250 mm", 1250.0), ("1.250 mm", 1.25)]);
    ambiguous(
        "1,250mm",
        Unit::M,
        [("1250 mm", 1250.0), ("1.250 mm", 1.25)],
    );
    ambiguous(
        "1,250",
        Unit::FEET,
        [("1250\"", 31750.0), ("1.250\"", 31.75)],
    );
    ambiguous(
        "3.412",
        Unit::Mm,
        [("3.412 m", 3412.0), ("3.412 mm", 3.412)],
    );
    ambiguous("0,125", Unit::Mm, [("0.125 m", 125.0), ("0.125 mm", 0.125)]);
    ambiguous(
        "9-5/16",
        Unit::Mm,
        [("9 5/16\"", 236.5375), ("9' 5/16\"", 2751.1375)],
    );
    ambiguous("21/2", Unit::FEET, [("2 1/2\"", 63.5), ("10 1/2\"", 266.7)]);
    ambiguous(
        "10' 115/16",
        Unit::FEET,
        [("1 15/16\"", 49.2125), ("11 5/16\"", 287.3375)],
    );
    ambiguous(
        "11-9\"",
        Unit::Mm,
        [("11' 9\"", 3581.4), ("11 - 9\"", 11.0 - 228.6)],
    );
    ambiguous(
        "11-9-2",
        Unit::FEET,
        [("11' 9\"", 3581.4), ("11\" - 9\"", 50.8)],
    );
    reads("1250,5", Unit::Mm, 1250.5);
    reads("1,25", Unit::Mm, 1.25);
    reads("3-1,250", Unit::M, 1750.0);
    ambiguous(
        "3000-1,250",
        Unit::Mm,
        [("1250 mm", 1250.0), ("1.250 mm", 1.25)],
    );
    reads("3412,125", Unit::Mm, 3412.125);
}

#[test]
fn text_and_value_are_bounded() {
    let long = "1+".repeat(100);
    assert_eq!(refused(&(long.clone() + "1"), Unit::Mm).kind, Kind::TooLong);
    assert_eq!(refused(&long, Unit::Mm).kind, Kind::Unfinished);
    assert_eq!(refused(&"9".repeat(200), Unit::FEET).kind, Kind::TooLarge);
    assert_eq!(
        refused("600000 m + 600000 m", Unit::Mm).kind,
        Kind::TooLarge
    );
    assert_eq!(
        refused(&format!("{}' 14\"", "9".repeat(190)), Unit::Mm).kind,
        Kind::TooLarge
    );
    reads("1000000 m", Unit::Mm, LARGEST_MM);
}

#[test]
fn every_beginning_of_a_length_may_go_on() {
    let texts = [
        "3412 + 76",
        "3 412,5 mm",
        "-11' 9 5/16\" + 31/32\"",
        "140 1/2\" - 3 ft",
        "9½\"",
        "3.412 m + 76",
        "10 808 − 341.2 cm",
        "12 345 678",
        "9 33/64\"",
        "11'-9 5/16\"",
        "6 feet 2 inches",
    ];
    for (text, unit) in texts
        .iter()
        .flat_map(|text| Unit::ALL.map(|unit| (text, unit)))
    {
        for (end, _) in text.char_indices() {
            assert!(
                prefix_ok(&text[..end], unit),
                "{} in {unit:?}",
                &text[..end]
            );
        }
    }
    for text in [
        "3412 + x", "3 4125", "++", "11' 140", "1.2.3", "3 m 4", "1/3 +",
    ] {
        assert!(!prefix_ok(text, Unit::Mm), "{text}");
    }
}
