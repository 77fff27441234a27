//! A length as typed: read or refused with a place; what is shown can be typed again.
#![no_main]

use libfuzzer_sys::fuzz_target;
use tautmark::length::{LARGEST_MM, Unit, parse, parse_sum, prefix_ok, show, show_typed};

fuzz_target!(|text: &str| {
    for unit in [Unit::Mm, Unit::M, Unit::FEET] {
        let _ = prefix_ok(text, unit);
        match parse_sum(text, unit) {
            Ok(sum) => assert!(sum.total().is_finite() && !sum.show(unit).is_empty()),
            Err(error) => assert!(!error.to_string().is_empty()),
        }
        let Ok(mm) = parse(text, unit) else {
            continue;
        };
        assert!(mm.is_finite() && !show(mm, unit).is_empty());
        if mm.abs() > LARGEST_MM {
            continue;
        }
        let again = parse(&show_typed(mm, unit), unit).expect("it can be typed");
        let within = match unit {
            Unit::FtIn(_) => 25.4 / 64.0 + 1e-6,
            Unit::Mm | Unit::M => 0.05,
        };
        assert!((again - mm).abs() <= within);
    }
});
