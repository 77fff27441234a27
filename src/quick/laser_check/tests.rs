use super::*;
use crate::length::Unit;

const LASER: LaserWorth = LaserWorth {
    accuracy: 0.3,
    reading: 1.0,
};

fn pegs(middle: (f64, f64), second: (f64, f64)) -> TwoPegs {
    TwoPegs {
        base: 20_000.0,
        middle: AtPegs {
            a: middle.0,
            b: middle.1,
        },
        second: AtPegs {
            a: second.0,
            b: second.1,
        },
        second_dist: AtPegs {
            a: 1000.0,
            b: 19_000.0,
        },
        higher: None,
    }
}

#[test]
fn a_true_laser_reads_the_same_difference_from_both_places() -> Result<(), LaserCheckError> {
    let check = two_pegs(&pegs((1200.0, 900.0), (1350.0, 1050.0)), LASER)?;
    assert_eq!(check.slope.value, 0.0);
    assert!((check.slope.pm - 1.96 * 2.0 / 18.0).abs() < 1e-12);
    assert_eq!(check.a_above_b.value, -300.0);
    assert_eq!(check.verdict, LaserVerdict::Within);
    Ok(())
}

#[test]
fn a_short_base_cannot_tell_and_says_what_would() -> Result<(), LaserCheckError> {
    let check = two_pegs(&pegs((1200.0, 900.0), (1350.0, 1054.0)), LASER)?;
    assert!((check.slope.value - 4.0 / 18.0).abs() < 1e-12);
    let LaserVerdict::CannotTell { longer } = check.verdict else {
        panic!(
            "0.22 ± 0.22 against 0.3 cannot be told: {:?}",
            check.verdict
        );
    };
    // At that length the ± is down to the margin of 0.078 mm per m.
    assert!((1.96 * 2.0 / (longer / 1000.0) - (0.3 - 4.0 / 18.0)).abs() < 1e-9);
    assert!(
        check
            .verdict
            .text(Unit::Mm)
            .contains("m or more, or read more finely")
    );
    Ok(())
}

#[test]
fn signs_that_contradict_are_refused_with_the_reason() {
    let said_a = TwoPegs {
        higher: Some(Peg::A),
        ..pegs((1200.0, 900.0), (1350.0, 1050.0))
    };
    assert_eq!(
        two_pegs(&said_a, LASER),
        Err(LaserCheckError::WrongPegHigher { higher: Peg::A })
    );
    let said_b = TwoPegs {
        higher: Some(Peg::B),
        ..said_a
    };
    assert!(two_pegs(&said_b, LASER).is_ok());
    let swapped = pegs((1000.0, 960.0), (1050.0, 1090.0));
    assert_eq!(
        two_pegs(&swapped, LASER),
        Err(LaserCheckError::ChangedPlaces)
    );
}

#[test]
fn impossible_differences_are_refused() {
    let misread = pegs((1200.0, 900.0), (1350.0, 50.0));
    assert!(matches!(
        two_pegs(&misread, LASER),
        Err(LaserCheckError::Impossible { .. })
    ));
    let steep = pegs((25_000.0, 900.0), (1350.0, 1050.0));
    assert!(matches!(
        two_pegs(&steep, LASER),
        Err(LaserCheckError::TooSteep {
            place: "from the middle",
            ..
        })
    ));
    assert!(matches!(
        turn_about(900.0, 10_000.0, LASER),
        Err(LaserCheckError::Impossible { .. })
    ));
}

#[test]
fn the_second_place_must_be_near_one_peg() {
    let place = |a, b| TwoPegs {
        second_dist: AtPegs { a, b },
        ..pegs((1200.0, 900.0), (1350.0, 1050.0))
    };
    assert_eq!(
        two_pegs(&place(9000.0, 11_000.0), LASER),
        Err(LaserCheckError::NearMiddle)
    );
    assert!(matches!(
        two_pegs(&place(1000.0, 40_000.0), LASER),
        Err(LaserCheckError::Misplaced { .. })
    ));
    assert!(matches!(
        two_pegs(&place(1000.0, 3_000.0), LASER),
        Err(LaserCheckError::Misplaced { .. })
    ));
    assert!(two_pegs(&place(0.0, 20_000.0), LASER).is_ok());
    assert!(two_pegs(&place(f64::NAN, 20_000.0), LASER).is_err());
}

#[test]
fn turn_about_halves_the_difference() -> Result<(), LaserCheckError> {
    let check = turn_about(6.0, 20_000.0, LASER)?;
    assert!((check.slope.value + 0.15).abs() < 1e-12);
    assert_eq!(check.level_above_first.value, 3.0);
    assert!((check.slope.pm - 1.96 * 2f64.sqrt() / 40.0).abs() < 1e-12);
    assert_eq!(check.verdict, LaserVerdict::Within);
    assert!(turn_about(f64::NAN, 20_000.0, LASER).is_err());
    assert!(turn_about(6.0, 0.0, LASER).is_err());
    Ok(())
}
