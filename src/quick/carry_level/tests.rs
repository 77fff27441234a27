use super::*;

const LASER: LaserWorth = LaserWorth {
    accuracy: 0.3,
    reading: 1.0,
};

fn at(down: f64, dist: f64) -> LineSight {
    LineSight { down, dist }
}

fn setups(datum_again: Option<LineSight>) -> TwoSetups {
    TwoSetups {
        datum: at(412.0, 4000.0),
        change_points: vec![Shared {
            first: at(655.0, 6000.0),
            second: at(618.0, 7000.0),
        }],
        datum_again,
    }
}

#[test]
fn heights_above_the_datum_come_out_of_the_second_line() -> Result<(), CarryError> {
    let carried = carry_level(&setups(None), LASER)?;
    assert_eq!(carried.line.value, 375.0);
    assert!(matches!(carried.to_height(150.0), FromLine::Down(by) if by.value == 225.0));
    assert!(matches!(carried.to_height(400.0), FromLine::Up(by) if by.value == 25.0));
    assert!(matches!(carried.from_second(30.0), FromLine::Up(by) if by.value == 7.0));
    assert_eq!(carried.closure, None);
    let step_sd = LASER.sd(6000.0).hypot(LASER.sd(7000.0));
    assert!((carried.step.pm - 1.96 * step_sd).abs() < 1e-12);
    Ok(())
}

#[test]
fn the_datum_sighted_again_checks_the_step() -> Result<(), CarryError> {
    let good = carry_level(&setups(Some(at(376.5, 9000.0))), LASER)?;
    let Some(CarriedClosure {
        spread,
        closes: Closes::Yes,
    }) = good.closure
    else {
        panic!("1.5 mm is explained: {:?}", good.closure);
    };
    assert!((spread.value - 1.5).abs() < 1e-12);
    assert!(good.line.pm < carry_level(&setups(None), LASER)?.line.pm);
    let bad = carry_level(&setups(Some(at(386.0, 9000.0))), LASER)?;
    assert!(
        bad.closure
            .is_some_and(|c| c.closes == Closes::No && c.spread.value == 11.0)
    );
    Ok(())
}

#[test]
fn the_datum_alone_can_carry() -> Result<(), CarryError> {
    let mut only = setups(Some(at(375.0, 4000.0)));
    only.change_points.clear();
    let carried = carry_level(&only, LASER)?;
    assert_eq!((carried.step.value, carried.line.value), (-37.0, 375.0));
    only.datum_again = None;
    assert_eq!(carry_level(&only, LASER), Err(CarryError::NoChangePoint));
    Ok(())
}

#[test]
fn figures_that_cannot_be_are_refused() {
    assert!(carry_level(&setups(Some(at(f64::NAN, 9000.0))), LASER).is_err());
    assert!(carry_level(&setups(Some(at(1.0, -9000.0))), LASER).is_err());
    assert!(
        carry_level(
            &setups(None),
            LaserWorth {
                accuracy: 0.0,
                ..LASER
            }
        )
        .is_err()
    );
    assert!(
        carry_level(
            &setups(None),
            LaserWorth {
                reading: f64::NAN,
                ..LASER
            }
        )
        .is_err()
    );
}
