use super::*;

fn six(lengths: [f64; 6], sd: f64) -> FourSides {
    let [ab, bc, cd, da, ac, bd] = lengths.map(|length| Taped::new(length, sd));
    FourSides {
        ab,
        bc,
        cd,
        da,
        ac,
        bd,
    }
}

/// The six lengths between four known corners.
fn between(at: [(f64, f64); 4]) -> [f64; 6] {
    let [a, b, c, d] = at;
    let far = |p: (f64, f64), q: (f64, f64)| (p.0 - q.0).hypot(p.1 - q.1);
    [
        far(a, b),
        far(b, c),
        far(c, d),
        far(d, a),
        far(a, c),
        far(b, d),
    ]
}

fn layout(lengths: [f64; 6]) -> Result<Layout, FourSidesError> {
    let check = four_sides(&six(lengths, 1.0))?;
    assert_eq!(
        check.closure.agreement,
        Agreement::Agree,
        "{:?}",
        check.closure
    );
    Ok(check
        .layout
        .unwrap_or_else(|| panic!("tapes that agree have a layout")))
}

#[test]
fn a_parallelogram_slides_square() -> Result<(), FourSidesError> {
    // 4 m by 3 m, leaning 200 mm over its height towards C.
    let height = f64::sqrt(3000.0 * 3000.0 - 200.0 * 200.0);
    let found = layout(between([
        (0.0, 0.0),
        (4000.0, 0.0),
        (4200.0, height),
        (200.0, height),
    ]))?;
    assert_eq!(found.shape, FourSidedShape::Parallelogram);
    let ToRectangle::Slide {
        either: [cd, bc],
        pushed,
    } = found.to_rectangle
    else {
        panic!(
            "a parallelogram is squared by a slide, not by {:?}",
            found.to_rectangle
        );
    };
    assert_eq!((cd.side, cd.towards), (SideName::CD, CornerName::D));
    assert!((cd.by.value - 200.0).abs() < 1e-6);
    assert!((cd.diagonal - f64::hypot(4000.0, height)).abs() < 1e-6);
    assert_eq!((bc.side, bc.towards), (SideName::BC, CornerName::B));
    assert!((bc.by.value - 200.0 * 4.0 / 3.0).abs() < 1e-6);
    assert!((pushed - 5000.0).abs() < 1e-9);
    Ok(())
}

#[test]
fn half_the_difference_is_not_the_slide() -> Result<(), FourSidesError> {
    // A 10 × 12 leaning the other way: the slide is 0.78 or 0.65 of the difference.
    let (a, b, lean) = (10_000.0, 12_000.0, 150.0);
    let height = f64::sqrt(b * b - lean * lean);
    let lengths = between([(0.0, 0.0), (a, 0.0), (a - lean, height), (-lean, height)]);
    let difference = lengths[5] - lengths[4];
    let ToRectangle::Slide {
        either: [cd, bc], ..
    } = layout(lengths)?.to_rectangle
    else {
        panic!("a parallelogram is squared by a slide");
    };
    assert_eq!((cd.towards, bc.towards), (CornerName::C, CornerName::C));
    assert!((cd.by.value / difference - 0.78).abs() < 0.005);
    assert!((bc.by.value / difference - 0.65).abs() < 0.005);
    Ok(())
}

#[test]
fn shapes_are_told_apart() -> Result<(), FourSidesError> {
    let kite = layout(between([
        (0.0, 0.0),
        (3000.0, -1500.0),
        (4000.0, 0.0),
        (3000.0, 1500.0),
    ]))?;
    assert_eq!(kite.shape, FourSidedShape::Other);
    let leaning = layout(between([
        (0.0, 0.0),
        (5000.0, 0.0),
        (3500.0, 3000.0),
        (200.0, 3000.0),
    ]))?;
    assert_eq!(
        leaning.shape,
        FourSidedShape::Trapezium {
            parallel: [SideName::AB, SideName::CD],
            diagonals: Diagonals::Unequal
        }
    );
    assert!(
        matches!(leaning.to_rectangle, ToRectangle::SidesFirst { diagonal } if diagonal > 5000.0)
    );
    let upright = layout(between([
        (0.0, 0.0),
        (3000.0, 400.0),
        (3000.0, 3600.0),
        (0.0, 4000.0),
    ]))?;
    assert_eq!(
        upright.shape,
        FourSidedShape::Trapezium {
            parallel: [SideName::BC, SideName::DA],
            diagonals: Diagonals::Equal
        }
    );
    assert!(upright.shape.text().contains("not a rectangle"));
    Ok(())
}

#[test]
fn equal_opposite_sides_obey_the_sum_of_squares() -> Result<(), FourSidesError> {
    let (a, b, ac) = (4000.0, 3000.0, 5100.0);
    let check = four_sides(&six([a, b, a, b, ac, 4900.0], 1.0))?;
    let must = f64::sqrt(2.0 * (a * a + b * b) - ac * ac);
    assert!((check.closure.expected.value - must).abs() < 1e-9);
    Ok(())
}

#[test]
fn a_misread_tape_is_noticed_and_nothing_is_moved() -> Result<(), FourSidesError> {
    let mut lengths = between([(0.0, 0.0), (4000.0, 0.0), (4100.0, 3000.0), (-50.0, 2900.0)]);
    lengths[2] += 100.0;
    let check = four_sides(&six(lengths, 1.5))?;
    assert_eq!(check.closure.agreement, Agreement::Contradict);
    assert_eq!(check.layout, None);
    assert!(
        check
            .closure
            .agreement
            .text()
            .contains("before you move anything")
    );
    Ok(())
}

#[test]
fn a_slip_at_the_hidden_limit_is_about_four_sd_of_the_check() -> Result<(), FourSidesError> {
    let closure = four_sides(&six(
        between([(0.0, 0.0), (4000.0, 0.0), (4000.0, 3000.0), (0.0, 3000.0)]),
        1.0,
    ))?
    .closure;
    // Square on: g is 1 for the diagonals, 0.8 and 0.6 for the sides, so Σg² = 4.
    assert!((closure.off.pm - 1.96 * 2.0).abs() < 1e-9);
    assert!((closure.hidden - 4.13 * 2.0 / 0.6).abs() < 1e-9);
    Ok(())
}

#[test]
fn partials_of_the_check_match_small_changes() -> Result<(), FourSidesError> {
    let lengths = between([
        (0.0, 0.0),
        (4000.0, 0.0),
        (4300.0, 3000.0),
        (-250.0, 2700.0),
    ]);
    let sd = |which: usize| -> Result<f64, FourSidesError> {
        let mut tapes = lengths.map(|length| Taped::new(length, 0.01));
        tapes[which].sd = 1000.0;
        let (closure, _) = closure::close(&tapes)?;
        Ok(closure.off.pm / 1.96 / 1000.0)
    };
    for which in 0..6 {
        let mut more = lengths;
        more[which] += 0.01;
        let off = |l: [f64; 6]| four_sides(&six(l, 1.0)).map(|check| check.closure.off.value);
        let slope = (off(more)? - off(lengths)?) / 0.01;
        assert!((sd(which)? - slope.abs()).abs() < 1e-4, "tape {which}");
    }
    Ok(())
}

#[test]
fn what_cannot_be_is_refused() {
    let dented = between([(0.0, 0.0), (4000.0, 0.0), (1500.0, 1200.0), (0.0, 3000.0)]);
    assert_eq!(
        four_sides(&six(dented, 1.0)),
        Err(FourSidesError::NotConvex)
    );
    let good = between([(0.0, 0.0), (4000.0, 0.0), (4000.0, 3000.0), (0.0, 3000.0)]);
    let [ab, bc, cd, da, _, bd] = good;
    assert_eq!(
        four_sides(&six([ab, bc, cd, da, 7500.0, bd], 1.0)),
        Err(FourSidesError::CannotClose {
            triangle: "A, B and C"
        })
    );
    for which in 0..6 {
        for bad in [0.0, -1.0, f64::NAN, f64::INFINITY] {
            let mut lengths = good;
            lengths[which] = bad;
            assert!(matches!(
                four_sides(&six(lengths, 1.0)),
                Err(FourSidesError::Figure(_))
            ));
        }
    }
    assert!(rectangle_diagonal(0.0, 1.0).is_err());
}
