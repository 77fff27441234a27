//! Properties of reading and showing lengths.

use proptest::prelude::*;
use tautmark::length::{
    LARGEST_MM, ParseErrorKind, Unit, keys, parse, parse_sum, prefix_ok, show, show_fine, show_pm,
    show_typed, show_with_unit, signed,
};

fn units() -> impl Strategy<Value = Unit> {
    prop::sample::select(Unit::ALL.to_vec())
}

/// Anything from a residual to the longest run, to either side.
fn lengths() -> impl Strategy<Value = f64> {
    prop_oneof![-10.0..10.0, -50_000.0..50_000.0, -9e8..9e8]
}

/// Texts made of the pieces of lengths, which reach further into the grammar than arbitrary ones.
fn near_lengths() -> impl Strategy<Value = String> {
    let pieces = [
        "0",
        "7",
        "12",
        "412",
        "3412",
        " ",
        "\u{a0}",
        ".",
        ",",
        "-",
        "−",
        "+",
        "/",
        "⁄",
        "'",
        "\"",
        "′",
        "″",
        "''",
        "½",
        "⅓",
        "1/2",
        "5/16",
        "mm",
        "cm",
        "m",
        "ft",
        "in",
        "x",
        "é",
        "999999999",
    ];
    prop::collection::vec(prop::sample::select(pieces.to_vec()), 0..14)
        .prop_map(|pieces| pieces.concat())
}

/// How far a length may move when it is written for the keypad and read again, in mm.
fn keypad_step(unit: Unit) -> f64 {
    match unit {
        Unit::Mm | Unit::M => 0.05,
        Unit::FtIn(_) => 25.4 / 64.0 + 1e-6,
    }
}

fn check_any_text(text: &str, unit: Unit) -> Result<(), TestCaseError> {
    let _ = prefix_ok(text, unit);
    match parse(text, unit) {
        Ok(mm) => prop_assert!(mm.is_finite() && mm.abs() <= LARGEST_MM),
        Err(error) => {
            let end = error.at + error.len;
            prop_assert_eq!(text.get(error.at..end), Some(error.found.as_str()));
            prop_assert!(error.to_string().ends_with('.'));
            check_remedies(&error.kind, unit)?;
        }
    }
    Ok(())
}

fn check_remedies(kind: &ParseErrorKind, unit: Unit) -> Result<(), TestCaseError> {
    let remedies = match kind {
        ParseErrorKind::Ambiguous { one, other } => vec![one.clone(), other.clone()],
        ParseErrorKind::Denominator { instead } => vec![format!("{instead}\"")],
        ParseErrorKind::FractionNeedsInches { instead }
        | ParseErrorKind::Inches { instead }
        | ParseErrorKind::FeetNotWhole { instead } => vec![instead.clone()],
        _ => vec![],
    };
    for remedy in remedies {
        match parse(&remedy, unit) {
            Ok(_) => {}
            // The remedy is about the form; that the value is beyond all reason is said next.
            Err(error) => prop_assert_eq!(error.kind, ParseErrorKind::TooLarge, "{}", remedy),
        }
    }
    Ok(())
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(2000))]

    #[test]
    fn typed_text_reads_back(mm in lengths(), unit in units()) {
        let text = show_typed(mm, unit);
        let read = parse(&text, unit);
        prop_assert!(read.as_ref().is_ok_and(|read| (read - mm).abs() <= keypad_step(unit)), "{} → {} → {:?}", mm, text, read);
        let again = read.map(|read| show_typed(read, unit));
        prop_assert_eq!(again.as_deref(), Ok(text.as_str()));
    }

    #[test]
    fn shown_text_reads_back(mm in lengths(), unit in units()) {
        let step = match unit { Unit::Mm | Unit::M => 0.5 + 1e-6, Unit::FtIn(_) => 25.4 / 32.0 + 1e-6 };
        for text in [show(mm, unit), show_with_unit(mm, unit), signed(mm, unit)] {
            let read = parse(&text, unit);
            prop_assert!(read.as_ref().is_ok_and(|read| (read - mm).abs() <= step), "{} → {} → {:?}", mm, text, read);
        }
    }

    #[test]
    fn a_sum_is_the_sum_of_its_parts(first in lengths(), rest in prop::collection::vec((any::<bool>(), 0.0..50_000.0_f64), 0..6), unit in units()) {
        let mut text = show_typed(first, unit);
        let mut expected = parse(&text, unit).unwrap();
        for (plus, mm) in &rest {
            let typed = show_typed(*mm, unit);
            let part = parse(&typed, unit).unwrap();
            expected += if *plus { part } else { -part };
            text += &format!(" {} {typed}", if *plus { '+' } else { '−' });
        }
        let sum = parse_sum(&text, unit).unwrap();
        prop_assert_eq!(sum.terms().count(), rest.len() + 1);
        let parts: f64 = sum.terms().map(|term| term.mm).sum();
        prop_assert!((sum.total() - expected).abs() < 1e-6);
        prop_assert!((sum.total() - parts).abs() < 1e-6);
        prop_assert_eq!(parse(&text, unit), Ok(sum.total()));
    }

    #[test]
    fn spelt_out_units_mean_the_same_in_every_unit(sixteenths in 0_u32..20_000, unit in units()) {
        let mm = f64::from(sixteenths) * 1.5875;
        let read = parse(&show_typed(mm, Unit::FEET), unit).unwrap();
        prop_assert!((read - mm).abs() < 1e-6);
    }

    #[test]
    fn any_text_is_read_or_refused_in_its_place(text in any::<String>(), unit in units()) {
        check_any_text(&text, unit)?;
    }

    #[test]
    fn nearly_a_length_is_read_or_refused_in_its_place(text in near_lengths(), unit in units()) {
        check_any_text(&text, unit)?;
    }

    #[test]
    fn every_beginning_of_a_length_may_go_on(text in near_lengths(), unit in units()) {
        if parse(&text, unit).is_ok() {
            prop_assert!(prefix_ok(&text, unit));
        }
        for (end, _) in show_typed(123.4 * text.len() as f64, unit).char_indices() {
            prop_assert!(prefix_ok(&show_typed(123.4 * text.len() as f64, unit)[..end], unit));
        }
    }

    #[test]
    fn any_float_can_be_shown(mm in any::<f64>(), unit in units(), decimals in 0_usize..400) {
        for text in [show_fine(mm, unit, decimals), show_pm(mm, unit), signed(mm, unit)] {
            prop_assert!(!text.is_empty() && !text.contains('-'));
        }
        prop_assert_eq!(show_typed(mm, unit).is_empty(), !mm.is_finite());
    }
}

/// Sixteenths of an inch.
fn sixteenths(feet: u32, inches: u32, sixteenths: u32) -> f64 {
    f64::from((feet * 12 + inches) * 16 + sixteenths) * 25.4 / 16.0
}

/// Keys as they are called on the pad, one space between them.
fn keyed(names: &str) -> String {
    let mut text = String::new();
    for key in names.split(' ') {
        keys::press(&mut text, key);
    }
    text
}

/// Lengths as people write and say them, with feet and inches on the tape.
#[test]
fn sixty_lengths_are_read_as_they_are_meant_and_shown_alike() {
    let written: [(&str, [u32; 3]); 44] = [
        ("10' 2 1/2\"", [10, 2, 8]),
        ("10' 2 1/2", [10, 2, 8]),
        ("10'2 1/2\"", [10, 2, 8]),
        ("10'-2 1/2\"", [10, 2, 8]),
        ("10'-2-1/2\"", [10, 2, 8]),
        ("10' 2-1/2\"", [10, 2, 8]),
        ("10' 2-1/2", [10, 2, 8]),
        ("10 ft 2 1/2", [10, 2, 8]),
        ("10 ft 2 1/2 in", [10, 2, 8]),
        ("10 ft. 2 1/2 in.", [10, 2, 8]),
        ("10ft 2-1/2in", [10, 2, 8]),
        ("10 feet 2 1/2 inches", [10, 2, 8]),
        ("10 foot 2½", [10, 2, 8]),
        ("10′ 2½″", [10, 2, 8]),
        ("10’ 2 ½”", [10, 2, 8]),
        ("10' 2\" 1/2", [10, 2, 8]),
        ("10 ft 2 in 1/2", [10, 2, 8]),
        ("10' 2.5\"", [10, 2, 8]),
        ("10-2 1/2", [10, 2, 8]),
        ("10-2-1/2", [10, 2, 8]),
        ("122 1/2", [10, 2, 8]),
        ("122-1/2", [10, 2, 8]),
        ("122.5", [10, 2, 8]),
        ("122,5\"", [10, 2, 8]),
        ("2 1/2", [0, 2, 8]),
        ("2-1/2", [0, 2, 8]),
        ("2-1/2\"", [0, 2, 8]),
        ("2 1/2 in", [0, 2, 8]),
        ("2 in 1/2", [0, 2, 8]),
        ("2\" 1/2\"", [0, 2, 8]),
        ("2½", [0, 2, 8]),
        ("1/2", [0, 0, 8]),
        ("1/2\"", [0, 0, 8]),
        ("½ in", [0, 0, 8]),
        ("0' 0 1/2\"", [0, 0, 8]),
        ("6'", [6, 0, 0]),
        ("6 ft", [6, 0, 0]),
        ("6' 0\"", [6, 0, 0]),
        ("6-0", [6, 0, 0]),
        ("72", [6, 0, 0]),
        ("72 in", [6, 0, 0]),
        ("6.5 ft", [6, 6, 0]),
        ("6½ ft", [6, 6, 0]),
        ("5' 11 15/16\"", [5, 11, 15]),
    ];
    let pressed: [(&str, [u32; 3]); 22] = [
        ("1 0 ft 2 1/2", [10, 2, 8]),
        ("1 0 ft 2 1/2 in", [10, 2, 8]),
        ("1 0 ft 2 in 1/2", [10, 2, 8]),
        ("1 0 ft 2 + 1/2", [10, 2, 8]),
        ("1 0 ft hyphen 2 hyphen 1 / 2", [10, 2, 8]),
        ("1 2 2 1/2", [10, 2, 8]),
        ("1 2 2 . 5", [10, 2, 8]),
        ("2 1/2", [0, 2, 8]),
        ("2 hyphen 1 / 2", [0, 2, 8]),
        ("2 in 1/2", [0, 2, 8]),
        ("1/2", [0, 0, 8]),
        ("1 / 2", [0, 0, 8]),
        ("6 ft", [6, 0, 0]),
        ("7 2", [6, 0, 0]),
        ("7 2 in", [6, 0, 0]),
        ("6 ft 0 in", [6, 0, 0]),
        ("5 ft 1 1 7/8 +1/16", [5, 11, 15]),
        ("9 ft 7 5/8", [9, 7, 10]),
        ("9 ft 7 1/4 - 1/4", [9, 7, 0]),
        ("3 ft 6 + 2 ft 6 3/4", [6, 0, 12]),
        ("1/2 2", [0, 2, 8]),
        ("6 ft 1 -1/16", [6, 0, 15]),
    ];
    let pressed = pressed.map(|(names, length)| (keyed(names), length));
    let written = written.map(|(text, length)| (text.to_owned(), length));
    for (text, [feet, inches, parts]) in written.into_iter().chain(pressed) {
        let mm = sixteenths(feet, inches, parts);
        let read = parse(&text, Unit::FEET);
        assert!(
            read.as_ref().is_ok_and(|read| (read - mm).abs() < 1e-6),
            "{text} is {mm}, and was read as {read:?}"
        );
        let shown = show(read.unwrap_or_default(), Unit::FEET);
        assert_eq!(shown, show(mm, Unit::FEET), "{text}");
        let again = parse(&shown, Unit::FEET).unwrap_or_default();
        assert!((again - mm).abs() < 1e-6, "{shown}");
    }
    // A space of a keyboard stands where a carpenter writes one.
    let mut typed = String::new();
    for letter in "10 ft 2 1/2".split("").filter(|letter| !letter.is_empty()) {
        keys::press(&mut typed, letter);
    }
    assert_eq!(parse(&typed, Unit::FEET), Ok(sixteenths(10, 2, 8)));
}

#[test]
fn a_typed_minus_is_never_dropped() {
    assert_eq!(parse(&keyed("- 5"), Unit::Mm), Ok(-5.0));
    assert_eq!(parse(&keyed("- 2 1/2"), Unit::FEET), Ok(-63.5));
    assert_eq!(parse(&keyed("3 - 1 0"), Unit::Mm), Ok(-7.0));
}
