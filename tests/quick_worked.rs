//! Worked examples of the quick sums: site questions with answers worked out by hand.

use tautmark::laser::LaserWorth;
use tautmark::quick::bays::{bays_of, equal_bays};
use tautmark::quick::carry_level::{FromLine, LineSight, Shared, TwoSetups, carry_level};
use tautmark::quick::concrete::{ConcreteHole, concrete};
use tautmark::quick::corner::{CornerTapes, across_for, corner_by_tapes};
use tautmark::quick::fall::fall_over_bays;
use tautmark::quick::four_sides::{
    Agreement, Diagonals, FourSidedShape, FourSides, SideName, ToRectangle, four_sides,
    rectangle_diagonal,
};
use tautmark::quick::gaps::{Ends, equal_gaps};
use tautmark::quick::laser_check::{AtPegs, LaserVerdict, TwoPegs, two_pegs};
use tautmark::quick::pales::pales;
use tautmark::quick::{Figure, Taped};

type Outcome = Result<(), Box<dyn std::error::Error>>;

const INCH: f64 = 25.4;
const FOOT: f64 = 304.8;

#[track_caller]
fn near(found: f64, known: f64, within: f64) {
    assert!(
        (found - known).abs() <= within,
        "{found} instead of {known}"
    );
}

#[track_caller]
fn near_inches(found_mm: f64, known: f64, within: f64) {
    near(found_mm / INCH, known, within);
}

/// 1. A pier layout with matching diagonals taken for a rectangle.
#[test]
fn matching_diagonals_of_a_trapezium() -> Outcome {
    // Read to the half inch between pegs: about a quarter of an inch either way.
    let taped = |inches: f64| Taped::new(inches * INCH, 0.25 * INCH);
    let check = four_sides(&FourSides {
        ab: taped(108.0),
        bc: taped(180.0),
        cd: taped(96.0),
        da: taped(180.0),
        ac: taped(206.5),
        bd: taped(206.5),
    })?;
    assert_eq!(check.closure.agreement, Agreement::Agree);
    let layout = check.layout.ok_or("tapes that agree have a layout")?;
    assert_eq!(
        layout.shape,
        FourSidedShape::Trapezium {
            parallel: [SideName::AB, SideName::CD],
            diagonals: Diagonals::Equal
        }
    );
    assert!(
        layout
            .shape
            .text()
            .contains("equal diagonals alone do not make it square")
    );
    let ToRectangle::SidesFirst { diagonal } = layout.to_rectangle else {
        return Err(format!("the short end comes first, not {:?}", layout.to_rectangle).into());
    };
    near_inches(diagonal, 209.91, 0.2);
    near_inches(rectangle_diagonal(9.0 * FOOT, 15.0 * FOOT)?, 209.91, 0.005);
    Ok(())
}

/// 2. Three tapes taken for a right angle.
#[test]
fn one_one_and_a_half_two_is_not_square() -> Outcome {
    let [first, second, across] = [1000.0, 1500.0, 2000.0].map(|l| Taped::new(l, 1.0));
    let corner = corner_by_tapes(&CornerTapes {
        first,
        second,
        across,
    })?;
    near(corner.angle.value, 104.48, 0.005);
    near(corner.off_square.value, 14.48, 0.005);
    near(across_for(1000.0, 1500.0, 90.0)?.square, 1803.0, 0.5);
    Ok(())
}

/// 3. A wall corner from 2 m along each wall.
#[test]
fn a_wall_corner_that_is_not_square() -> Outcome {
    let [first, second, across] = [2000.0, 2000.0, 2905.0].map(|l| Taped::new(l, 1.0));
    let corner = corner_by_tapes(&CornerTapes {
        first,
        second,
        across,
    })?;
    near(corner.angle.value, 93.15, 0.005);
    near(corner.angle.pm, 0.12, 0.005);
    near(corner.bevel.off_square, 43.43, 0.005);
    Ok(())
}

/// 4. Ninety-six feet in bays of 7.4 feet at most.
#[test]
fn bays_of_seven_point_four_feet() -> Outcome {
    let bays = equal_bays(96.0 * FOOT, 7.4 * FOOT)?;
    assert_eq!(bays.count(), 13);
    near(bays.size / FOOT, 7.3846, 0.0005);
    let one_more = bays_of(96.0 * FOOT, 14)?;
    near(one_more.size / FOOT, 6.8571, 0.0005);
    near_inches(bays.stepping_runs_over(7.4 * FOOT), 2.4, 1e-9);
    Ok(())
}

/// 5. Twelve pickets in 96 inches, ends flush.
#[test]
fn twelve_pickets_with_flush_ends() -> Outcome {
    let row = equal_gaps(96.0 * INCH, 5.5 * INCH, 12, Ends::Flush)?;
    near_inches(row.gap, 2.727, 0.0005);
    near_inches(row.stepping_runs_over(2.75 * INCH), 0.25, 1e-9);
    Ok(())
}

/// 6. Boards of 125 with 20 of lap at least.
#[test]
fn laps_that_finish_on_a_whole_board() -> Outcome {
    for (cover, count, lap) in [(1800.0, 17, 20.31), (3000.0, 29, 22.32)] {
        let row = pales(cover, 125.0, 20.0)?;
        assert_eq!(row.count(), count);
        near(row.lap.ok_or("several boards lap")?, lap, 0.005);
    }
    Ok(())
}

/// 7. A two-peg check over 50 m, the second place 5 m beyond b.
#[test]
fn a_level_that_dips() -> Outcome {
    let check = two_pegs(
        &TwoPegs {
            base: 50_000.0,
            middle: AtPegs {
                a: 1283.0,
                b: 860.0,
            },
            second: AtPegs {
                a: 1612.0,
                b: 1219.0,
            },
            second_dist: AtPegs {
                a: 55_000.0,
                b: 5_000.0,
            },
            higher: None,
        },
        LaserWorth {
            accuracy: 0.1,
            reading: 1.0,
        },
    )?;
    near(check.slope.value, -0.6, 1e-9);
    near(check.true_second.a, 1645.0, 1e-9);
    near(check.true_second.b, 1222.0, 1e-9);
    assert_eq!(check.verdict, LaserVerdict::Beyond);
    Ok(())
}

/// 8. A fall of 24 inches over four bays of eight feet.
#[test]
fn a_fall_shared_over_bays() -> Outcome {
    let fall = fall_over_bays(24.0 * INCH, 4, 8.0 * FOOT)?;
    near_inches(fall.step, 6.0, 1e-9);
    near(fall.slope, 3.58, 0.005);
    Ok(())
}

/// 9. Concrete for 26 holes.
#[test]
fn concrete_for_twenty_six_holes() -> Outcome {
    let hole = ConcreteHole {
        diameter: 8.0 * INCH,
        depth: 24.0 * INCH,
        post: [5.5 * INCH, 5.5 * INCH],
    };
    let all = concrete(hole, 26, 0.0, 12.0)?;
    near(all.net_each, 7.87, 0.005);
    near(all.litres, 26.0 * 7.872, 0.01);
    assert_eq!(all.bags, 18);
    Ok(())
}

/// 10. The second set-up reads 37 lower on the change point.
#[test]
fn a_laser_moved_round_the_corner() -> Outcome {
    let at = |down: f64| LineSight { down, dist: 5000.0 };
    let carried = carry_level(
        &TwoSetups {
            datum: at(400.0),
            change_points: vec![Shared {
                first: at(612.0),
                second: at(575.0),
            }],
            datum_again: None,
        },
        LaserWorth::default(),
    )?;
    near(carried.step.value, -37.0, 1e-9);
    let FromLine::Down(Figure { value, pm }) = carried.from_second(900.0) else {
        return Err("900 below one line is well below the other".into());
    };
    near(value, 863.0, 1e-9);
    assert!(pm > 0.0);
    Ok(())
}
