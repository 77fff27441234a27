//! What is wrong with a text, where, and what to type instead.

use super::tests::refused;
use super::{ParseErrorKind as Kind, Unit};

#[test]
fn refusals_name_the_place_and_a_remedy() {
    let cases = [
        ("", Unit::Mm, Kind::Empty, 0, 0),
        ("3412 +", Unit::Mm, Kind::Unfinished, 5, 1),
        ("9 5/", Unit::FEET, Kind::Unfinished, 2, 2),
        ("3412 x 2", Unit::Mm, Kind::Unknown, 5, 1),
        ("3412 ✗", Unit::Mm, Kind::Unknown, 5, 3),
        ("3 41", Unit::Mm, Kind::NoSign, 2, 2),
        ("3 m 412", Unit::Mm, Kind::NoSign, 4, 3),
        ("3412 + − 76", Unit::Mm, Kind::TwoSigns, 7, 3),
        ("mm", Unit::Mm, Kind::NoFigure, 0, 2),
        ("3412 / 2", Unit::Mm, Kind::Improper, 0, 8),
        ("1,250.5", Unit::Mm, Kind::DecimalMarks, 0, 7),
        ("1.250.000", Unit::Mm, Kind::DecimalMarks, 0, 9),
        ("12 1/2 mm", Unit::Mm, Kind::FractionMisplaced, 0, 6),
        ("12.5 1/2\"", Unit::Mm, Kind::FractionMisplaced, 0, 8),
        (
            "12 1/2",
            Unit::Mm,
            Kind::FractionNeedsInches {
                instead: "12 1/2\"".into(),
            },
            0,
            6,
        ),
        (
            "9 1/3\"",
            Unit::Mm,
            Kind::Denominator {
                instead: "5/16".into(),
            },
            2,
            3,
        ),
        (
            "⅓\"",
            Unit::Mm,
            Kind::Denominator {
                instead: "5/16".into(),
            },
            0,
            3,
        ),
        (
            "1/128\"",
            Unit::Mm,
            Kind::Denominator {
                instead: "1/64".into(),
            },
            0,
            5,
        ),
        (
            "1/0\"",
            Unit::Mm,
            Kind::Denominator {
                instead: "15/16".into(),
            },
            0,
            3,
        ),
        ("9 17/16\"", Unit::Mm, Kind::Improper, 2, 5),
        ("9\" 5\"", Unit::FEET, Kind::NoSign, 3, 1),
        (
            "11' 14 1/2\"",
            Unit::Mm,
            Kind::Inches {
                instead: "12' 2 1/2\"".into(),
            },
            4,
            7,
        ),
        (
            "11.5' 3\"",
            Unit::Mm,
            Kind::FeetNotWhole {
                instead: "11' 9\"".into(),
            },
            0,
            8,
        ),
        ("3412 + 1000001 m", Unit::Mm, Kind::TooLarge, 7, 9),
        ("1000 km", Unit::Mm, Kind::Unknown, 5, 2),
    ];
    for (text, unit, kind, at, len) in cases {
        let error = refused(text, unit);
        assert_eq!(
            (&error.kind, error.at, error.len),
            (&kind, at, len),
            "{text}"
        );
        assert!(error.to_string().ends_with('.'), "{error}");
    }
}
