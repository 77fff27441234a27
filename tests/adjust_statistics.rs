//! Whether the figures mean what they say, over thousands of sites measured with honest chance.

mod counts;
mod sites;

use rand::{RngExt, SeedableRng, rngs::StdRng};
use sites::{Shape, Site, Taping, noisy, tape};
use tautmark::adjust::{Equation, Observation, Param, System, adjust, suspects};

const SHAPES: [Shape; 4] = [Shape::Scattered, Shape::Strip, Shape::Clusters, Shape::Ring];

/// A site of 5 to 9 marks and its tapes as a careful person would read them.
fn measured(seed: u64) -> (Site, System, StdRng) {
    let mut rng = StdRng::seed_from_u64(seed);
    let shape = SHAPES[rng.random_range(0..SHAPES.len())];
    let count = rng.random_range(5..10);
    let site = Site::random(&mut rng, shape, count);
    let pairs = site.pairs(&mut rng, Taping::Anywhere);
    let equations: Vec<Equation> = pairs.into_iter().map(tape).collect();
    // Sketched well enough that which side of a line a mark is on is not in doubt.
    let exact = site.system(&mut rng, &equations, 0.0);
    let system = noisy(&mut rng, &exact);
    (site, system, rng)
}

#[test]
fn nineteen_in_twenty_coordinates_lie_within_their_band() {
    let (mut within, mut all) = (0u32, 0u32);
    for seed in 0..counts::sites(1000) {
        let (site, system, _) = measured(seed);
        let adjustment = adjust(&system);
        for (param, truth) in site.truth.iter().flatten().enumerate() {
            let variance = adjustment.covariance(Param(param), Param(param));
            if variance > 0.0 {
                all += 1;
                within += u32::from((adjustment.x[param] - truth).abs() <= 1.96 * variance.sqrt());
            }
        }
    }
    let share = f64::from(within) / f64::from(all);
    assert!((0.93..0.97).contains(&share), "{share} of {all}");
}

#[test]
fn chi2_has_the_mean_and_limit_that_theory_says() {
    let (mut sum, mut checks, mut flagged) = (0.0, 0, 0);
    let sites = counts::sites(1000);
    for seed in 0..sites {
        let (_, system, _) = measured(seed);
        let adjustment = adjust(&system);
        sum += adjustment.chi2;
        checks += adjustment.redundancy;
        flagged += usize::from(suspects(&system, &adjustment).is_some());
    }
    let mean = sum / checks as f64;
    assert!((0.97..1.03).contains(&mean), "{mean} per degree of freedom");
    // 0.1 % of each of some twenty readings.
    assert!(
        (0.005..0.04).contains(&(flagged as f64 / sites as f64)),
        "{flagged} of {sites} sound jobs flagged"
    );
}

/// A slip of 10 to 100 sd in a reading with r over 0.4, that is with some two fifths of any slip
/// left in its residual. Two readings may yet be so alike that chance decides between them, and a
/// slip may fold a weak site over, so "always" is 99 in 100.
#[test]
fn a_slip_in_a_well_checked_reading_is_found() {
    let (mut tried, mut among, mut alone) = (0, 0, 0);
    for seed in 0..counts::sites(600) {
        let (_, mut system, mut rng) = measured(seed);
        let rows = adjust(&system).rows;
        let checked: Vec<usize> = (0..rows.len())
            .filter(|&at| rows[at].redundancy > 0.4)
            .collect();
        if checked.is_empty() {
            continue;
        }
        let slipped = checked[rng.random_range(0..checked.len())];
        let sense = if rng.random_bool(0.5) { 1.0 } else { -1.0 };
        let Observation { value, sd, .. } = &mut system.observations[slipped];
        *value += sense * *sd * rng.random_range(10.0..100.0);
        tried += 1;
        let adjustment = adjust(&system);
        let found: Vec<usize> = suspects(&system, &adjustment)
            .map(|suspicion| suspicion.suspects.iter().map(|s| s.index).collect())
            .unwrap_or_default();
        among += usize::from(found.contains(&slipped));
        alone += usize::from(found == [slipped]);
    }
    assert!(tried > 300, "{tried}");
    assert!(
        among * 100 >= tried * 99,
        "among the suspects {among} of {tried}"
    );
    assert!(alone * 100 >= tried * 95, "alone {alone} of {tried}");
}

/// Two set-ups over shared points: the same core in one dimension.
#[test]
fn heights_lie_within_their_band_too() {
    let mut rng = StdRng::seed_from_u64(3);
    let (mut within, mut all) = (0u32, 0u32);
    for _ in 0..500 {
        // Parameters: the datum, six more points, two laser lines.
        let truth: Vec<f64> = (0..9).map(|_| rng.random_range(-900.0..900.0)).collect();
        let sights = [7, 8]
            .iter()
            .flat_map(|&line| (0..7).map(move |point| (line, point)));
        let exact = System {
            start: [vec![truth[0]], vec![0.0; 8]].concat(),
            held: vec![true],
            observations: sights
                .map(|(line, point)| Observation {
                    equation: Equation::Drop {
                        line: Param(line),
                        point: Param(point),
                    },
                    value: truth[line] - truth[point],
                    sd: 1.3,
                })
                .collect(),
        };
        let adjustment = adjust(&noisy(&mut rng, &exact));
        for (param, truth) in truth.iter().enumerate().skip(1) {
            let sd = adjustment.covariance(Param(param), Param(param)).sqrt();
            all += 1;
            within += u32::from((adjustment.x[param] - truth).abs() <= 1.96 * sd);
        }
    }
    let share = f64::from(within) / f64::from(all);
    assert!((0.93..0.97).contains(&share), "{share} of {all}");
}
