//! One yard worked through: sound, with a misread tape, loose, and what to tape next.

use tautmark::adjust::advice::{Advice, advise};
use tautmark::adjust::misread::{Hint, Why, hint};
use tautmark::adjust::{
    Adjustment, At, Equation, Fixity, Observation, Param, System, adjust, suspects,
};

/// Class III tape, one reading good to 1.5 mm.
fn sd(length: f64) -> f64 {
    let permitted = 0.6 + 0.4 * (length / 1000.0).ceil();
    1.5f64.hypot(permitted / 3f64.sqrt())
}

fn tape(from: usize, to: usize, value: f64) -> Observation {
    Observation {
        equation: Equation::Distance {
            from: At::nth(from),
            to: At::nth(to),
        },
        value,
        sd: sd(value),
    }
}

const A: usize = 0;
const B: usize = 1;
const C: usize = 2;
const D: usize = 3;
const K: usize = 4;

/// Five marks, every pair taped: the tape A–C as given.
fn yard(a_to_c: f64) -> System {
    System {
        start: vec![
            0.0, 0.0, 2711.0, 0.0, 5990.0, -1440.0, 7940.0, -3690.0, 4130.0, 1080.0,
        ],
        held: vec![true, true, false, true],
        observations: vec![
            tape(A, B, 2839.0),
            tape(B, C, 3601.0),
            tape(C, D, 3016.0),
            tape(A, C, a_to_c),
            tape(B, D, 6516.0),
            tape(A, D, 9017.0),
            tape(A, K, 4394.0),
            tape(B, K, 1715.0),
            tape(C, K, 3005.0),
            tape(D, K, 6004.0),
        ],
    }
}

fn marks() -> Vec<At> {
    (0..5).map(At::nth).collect()
}

fn near(got: f64, expected: f64) {
    assert!((got - expected).abs() < 1e-4, "{got}, not {expected}");
}

#[test]
fn a_sound_yard() {
    let adjustment = adjust(&yard(6296.0));
    assert_eq!(adjustment.status, Fixity::Fixed);
    assert_eq!(adjustment.redundancy, 3);
    near(adjustment.chi2, 0.38);
    near(adjustment.x[2], 2839.5234);
    near(adjustment.x[6], 8260.1610);
    near(adjustment.x[7], -3616.2119);
    near(adjustment.mark_pm(At::nth(D)), 29.0565);
    near(adjustment.mark_pm(At::nth(A)), 0.0);
    let row = adjustment.rows[8];
    near(row.computed, 3004.5178);
    near(row.residual, -0.4822);
    near(row.redundancy, 0.2334);
    near(row.standardised, 0.5078);
    // The redundancies of all readings add up to that of the job.
    near(adjustment.rows.iter().map(|row| row.redundancy).sum(), 3.0);
    assert_eq!(suspects(&yard(6296.0), &adjustment), None);
    // Every pair is taped already.
    assert_eq!(advise(&adjustment, None, &marks(), sd, |_, _| false), None);
}

#[test]
fn digits_swapped_in_one_tape() {
    let system = yard(6926.0);
    let adjustment = adjust(&system);
    near(adjustment.chi2, 23_037.772);
    near(adjustment.rows[3].standardised, 150.4075);
    let suspicion = suspects(&system, &adjustment).expect("a slip of 630 mm shows");
    near(suspicion.chi2_without, 0.23);
    assert!(!suspicion.more_than_one_wrong);
    let [suspect] = &suspicion.suspects[..] else {
        panic!("{suspicion:?}");
    };
    assert_eq!(suspect.index, 3);
    let predicted = suspect.prediction.expect("the others fix both its marks");
    near(predicted.value, 6294.1740);
    near(1.96 * predicted.sd, 7.8633);
    near(predicted.slip, 631.8260);
    let allowance = 3.0 * sd(6926.0).hypot(predicted.sd);
    assert_eq!(
        hint(6926.0, predicted.value, allowance),
        Some(Hint {
            why: Why::Digits,
            likely: 6296.0
        })
    );
}

#[test]
fn two_misread_tapes_are_more_than_one() {
    let mut system = yard(6926.0);
    system.observations[8].value = 3500.0;
    let adjustment = adjust(&system);
    let suspicion = suspects(&system, &adjustment).expect("two slips show");
    assert!(suspicion.more_than_one_wrong);
}

/// The yard without some of its readings.
fn without(indices: &[usize]) -> System {
    let mut system = yard(6296.0);
    let mut index = 0;
    system.observations.retain(|_| {
        index += 1;
        !indices.contains(&(index - 1))
    });
    system
}

#[test]
fn a_mark_on_one_tape_is_loose_and_the_rest_stays_as_it_was() {
    // K keeps only its tape from C.
    let system = without(&[6, 7, 9]);
    let adjustment = adjust(&system);
    assert_eq!(adjustment.status, Fixity::Loose);
    let loose = [vec![false; 8], vec![true; 2]].concat();
    assert_eq!(adjustment.loose, loose);
    // The same yard without K at all.
    let fixed = adjust(&System {
        start: system.start[..8].to_vec(),
        held: system.held.clone(),
        observations: system.observations[..6].to_vec(),
    });
    for param in 0..8 {
        near(adjustment.x[param], fixed.x[param]);
        let variance = |adjustment: &Adjustment| adjustment.covariance(Param(param), Param(param));
        near(variance(&adjustment), variance(&fixed));
    }
    near(adjustment.rows[6].redundancy, 0.0);
    assert_eq!(adjustment.rows[6].standardised, 0.0);
}

#[test]
fn the_tape_that_fixes_a_loose_mark() {
    let system = without(&[6, 7, 9]);
    let adjustment = adjust(&system);
    let advice = advise(&adjustment, None, &marks(), sd, |_, _| false).expect("K is loose");
    assert_eq!(advice.before, None);
    assert!(advice.from == K || advice.to == K, "{advice:?}");
    // It is the best of the three that K still lacks.
    let with = |other: usize| {
        let mut system = system.clone();
        let length = Equation::Distance {
            from: At::nth(other),
            to: At::nth(K),
        }
        .value(&adjustment.x);
        system.start.clone_from(&adjustment.x);
        system.observations.push(tape(other, K, length));
        largest_pm(&adjust(&system))
    };
    let least = [A, B, D]
        .map(with)
        .into_iter()
        .fold(f64::INFINITY, f64::min);
    near(advice.after, least);
}

fn largest_pm(adjustment: &Adjustment) -> f64 {
    marks()
        .iter()
        .map(|&mark| adjustment.mark_pm(mark))
        .fold(0.0, f64::max)
}

#[test]
fn the_tape_that_helps_most() {
    // Two ways to D: through C and from B.
    let system = without(&[3, 5, 9]);
    let adjustment = adjust(&system);
    let before = largest_pm(&adjustment);
    let mut best: Option<Advice> = None;
    for (from, to) in [(A, C), (A, D), (D, K)] {
        let equation = Equation::Distance {
            from: At::nth(from),
            to: At::nth(to),
        };
        let mut system = system.clone();
        system.start.clone_from(&adjustment.x);
        let length = equation.value(&adjustment.x);
        system.observations.push(tape(from, to, length));
        let after = largest_pm(&adjust(&system));
        if after <= 0.9 * before && best.as_ref().is_none_or(|best| after < best.after) {
            best = Some(Advice {
                from,
                to,
                before: Some(before),
                after,
                settles: Vec::new(),
            });
        }
    }
    let (best, advice) = (
        best.expect("one is worth taking"),
        advise(&adjustment, None, &marks(), sd, |_, _| false).expect("one is worth taking"),
    );
    assert_eq!((advice.from, advice.to), (best.from, best.to));
    near(advice.before.unwrap_or(0.0), before);
    near(advice.after, best.after);
}

#[test]
fn the_tape_that_tells_suspects_apart() {
    // With one reading to spare any of those that check each other may be the misread one.
    let mut system = without(&[5, 9]);
    system.observations[3].value += 100.0;
    let adjustment = adjust(&system);
    let suspicion = suspects(&system, &adjustment).expect("100 mm shows");
    assert!(suspicion.suspects.len() > 1, "{suspicion:?}");
    let advice = advise(&adjustment, Some(&suspicion), &marks(), sd, |_, _| false)
        .expect("two tapes to take");
    assert!([(A, D), (D, K)].contains(&(advice.from, advice.to)));
}

/// A chain of many set-ups: more unknowns than the dense way takes, one point of them loose.
#[test]
fn a_long_level_run_with_a_loose_end() {
    const SETUPS: usize = 60;
    // Points 0..=60, lines 61..=120, and one more point that nothing sights.
    let point = Param;
    let line = |setup: usize| Param(SETUPS + 1 + setup);
    let sight = |setup: usize, at: usize, value: f64| Observation {
        equation: Equation::Drop {
            line: line(setup),
            point: point(at),
        },
        value,
        sd: 1.0,
    };
    let system = System {
        start: vec![0.0; 2 * SETUPS + 2],
        held: vec![true],
        observations: (0..SETUPS)
            .flat_map(|setup| [sight(setup, setup, 400.0), sight(setup, setup + 1, 410.0)])
            .collect(),
    };
    let adjustment = adjust(&system);
    let loose: Vec<usize> = (0..system.start.len())
        .filter(|&at| adjustment.loose[at])
        .collect();
    assert_eq!(loose, [2 * SETUPS + 1]);
    near(adjustment.x[SETUPS], -10.0 * SETUPS as f64);
    // Each set-up adds two readings of 1 mm.
    near(
        adjustment.covariance(point(SETUPS), point(SETUPS)),
        2.0 * SETUPS as f64,
    );
    near(adjustment.covariance(point(10), point(SETUPS)), 20.0);
    near(
        adjustment.spread(&[(point(SETUPS), 1.0), (point(10), -1.0)]),
        (2.0 * (SETUPS as f64 - 10.0)).sqrt(),
    );
}
