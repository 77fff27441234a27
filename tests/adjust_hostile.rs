//! Whatever comes in, something finite comes out.

use proptest::prelude::*;
use tautmark::adjust::advice::advise;
use tautmark::adjust::{
    Adjustment, At, Equation, Fixity, Observation, Param, System, adjust, suspects,
};

fn assert_finite(system: &System) -> Adjustment {
    let adjustment = adjust(system);
    let params = system.start.len();
    assert_eq!(adjustment.x.len(), params);
    assert_eq!(adjustment.loose.len(), params);
    assert_eq!(adjustment.rows.len(), system.observations.len());
    assert!(adjustment.x.iter().all(|x| x.is_finite()), "{system:?}");
    assert!(adjustment.chi2.is_finite(), "{system:?}");
    for row in &adjustment.rows {
        let figures = [row.computed, row.residual, row.redundancy, row.standardised];
        assert!(
            figures.iter().all(|figure| figure.is_finite()),
            "{row:?} {system:?}"
        );
        assert!((0.0..=1.0).contains(&row.redundancy));
    }
    for a in (0..params).map(Param) {
        for b in (0..params).map(Param) {
            assert!(adjustment.covariance(a, b).is_finite());
        }
    }
    assert!(
        adjustment
            .spread(&[(Param(0), 1.0), (Param(params + 3), 2.0)])
            .is_finite()
    );
    let suspicion = suspects(system, &adjustment);
    for suspect in suspicion.iter().flat_map(|suspicion| &suspicion.suspects) {
        if let Some(predicted) = suspect.prediction {
            assert!(predicted.value.is_finite() && predicted.sd.is_finite());
            assert!(predicted.slip.is_finite());
        }
        assert!(suspect.x.iter().all(|x| x.is_finite()));
    }
    let marks: Vec<At> = (0..params / 2).map(At::nth).collect();
    let sd = |length: f64| 1.0 + length * 1e-4;
    let advice = advise(&adjustment, suspicion.as_ref(), &marks, sd, |_, _| false);
    if let Some(advice) = advice {
        assert!(advice.after.is_finite());
        assert!(advice.from < marks.len() && advice.to < marks.len());
    }
    adjustment
}

fn tape(from: usize, to: usize, value: f64, sd: f64) -> Observation {
    Observation {
        equation: Equation::Distance {
            from: At::nth(from),
            to: At::nth(to),
        },
        value,
        sd,
    }
}

#[test]
fn nothing_at_all() {
    let adjustment = assert_finite(&System::default());
    assert_eq!(adjustment.status, Fixity::Fixed);
    assert_eq!(adjustment.redundancy, 0);
}

#[test]
fn marks_without_readings_and_readings_without_marks() {
    let adjustment = assert_finite(&System {
        start: vec![1.0; 6],
        held: vec![],
        observations: vec![],
    });
    assert_eq!(adjustment.loose, [true; 6]);
    let adjustment = assert_finite(&System {
        start: vec![0.0; 4],
        held: vec![true; 4],
        observations: vec![tape(0, 1, 3.0, 1.0), tape(8, 9, 3.0, 1.0)],
    });
    assert_eq!(adjustment.status, Fixity::Fixed);
    assert_eq!(adjustment.rows[0].redundancy, 1.0);
}

#[test]
fn every_mark_on_one_spot() {
    let pairs = [(0, 1), (0, 2), (0, 3), (1, 2), (1, 3), (2, 3)];
    let system = |length: f64| System {
        start: vec![0.0; 8],
        held: vec![true, true, false, true],
        observations: pairs.map(|(a, b)| tape(a, b, length, 1.0)).to_vec(),
    };
    assert_finite(&system(0.0));
    assert_finite(&system(1000.0));
}

#[test]
fn a_tape_from_a_mark_to_itself() {
    assert_finite(&System {
        start: vec![0.0, 0.0, 5.0, 0.0],
        held: vec![true, true, false, true],
        observations: vec![tape(0, 1, 5.0, 1.0), tape(1, 1, 7.0, 1.0)],
    });
}

#[test]
fn straight_and_closed_angles() {
    for degrees in [0.0, 180.0, 90.0] {
        assert_finite(&System {
            start: vec![0.0, 0.0, 1000.0, 0.0, 2000.0, 0.0],
            held: vec![true, true, false, true],
            observations: vec![
                tape(0, 1, 1000.0, 1.0),
                tape(1, 2, 1000.0, 1.0),
                Observation {
                    equation: Equation::Angle {
                        from: At::nth(0),
                        at: At::nth(1),
                        to: At::nth(2),
                    },
                    value: degrees,
                    sd: 0.3,
                },
            ],
        });
    }
}

#[test]
fn figures_beyond_reason() {
    for value in [
        1e300,
        -1e300,
        f64::MAX,
        f64::MIN_POSITIVE,
        f64::INFINITY,
        f64::NAN,
    ] {
        for sd in [1e-300, 1.0, 1e300, 0.0, f64::NAN, f64::INFINITY] {
            assert_finite(&System {
                start: vec![0.0, 0.0, value, 0.0, 3.0, value],
                held: vec![true, true, false, true],
                observations: vec![
                    tape(0, 1, value, sd),
                    tape(0, 2, 4.0, 1.0),
                    tape(1, 2, value, sd),
                ],
            });
        }
    }
}

fn any_equation(marks: usize) -> impl Strategy<Value = Equation> {
    (0..4, 0..marks, 0..marks, 0..marks).prop_map(|(kind, a, b, c)| {
        let (a_mark, b_mark, c_mark) = (At::nth(a), At::nth(b), At::nth(c));
        match kind {
            0 => Equation::Distance {
                from: a_mark,
                to: b_mark,
            },
            1 => Equation::Offset {
                mark: a_mark,
                from: b_mark,
                to: c_mark,
            },
            2 => Equation::Angle {
                from: a_mark,
                at: b_mark,
                to: c_mark,
            },
            _ => Equation::Drop {
                line: Param(a),
                point: Param(b),
            },
        }
    })
}

fn any_system() -> impl Strategy<Value = System> {
    let coordinate = prop_oneof![Just(0.0), -1e4..1e4, Just(1e9)];
    let observation = (
        any_equation(7),
        prop_oneof![Just(0.0), 0.0..180.0, 0.0..2e4],
        0.1..10.0,
    )
        .prop_map(|(equation, value, sd)| Observation {
            equation,
            value,
            sd,
        });
    (
        prop::collection::vec(coordinate, 0..12),
        prop::collection::vec(any::<bool>(), 0..12),
        prop::collection::vec(observation, 0..16),
    )
        .prop_map(|(start, held, observations)| System {
            start,
            held,
            observations,
        })
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 300, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn any_readings_between_any_marks(system in any_system()) {
        assert_finite(&system);
    }
}
