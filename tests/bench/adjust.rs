//! How long an adjustment takes, from the size of a back garden to that of an estate.

#[path = "../sites/mod.rs"]
mod sites;

use divan::{Bencher, black_box};
use rand::{SeedableRng, rngs::StdRng};
use sites::{Shape, Site, Taping, noisy, tape};
use tautmark::adjust::{Equation, Fixity, System, adjust, suspects};

fn main() {
    divan::main();
}

/// A site of so many marks, each taped to four others, one reading in the middle `slip` mm out.
fn site_of(marks: usize, taping: Taping, slip: f64) -> System {
    let mut rng = StdRng::seed_from_u64(7);
    let site = Site::random(&mut rng, Shape::Scattered, marks);
    let pairs = site.pairs(&mut rng, taping);
    let equations: Vec<Equation> = pairs.into_iter().map(tape).collect();
    let mut system = noisy(
        &mut rng,
        &site.system(&mut StdRng::seed_from_u64(8), &equations, 0.02),
    );
    let middle = system.observations.len() / 2;
    system.observations[middle].value += slip;
    system
}

#[divan::bench(args = [6, 40, 80, 300], sample_count = 20)]
fn nearest(bencher: Bencher, marks: usize) {
    let system = site_of(marks, Taping::Nearest, 0.0);
    bencher.bench(|| adjust(black_box(&system)));
}

#[divan::bench(args = [6, 40, 80, 300], sample_count = 20)]
fn anywhere(bencher: Bencher, marks: usize) {
    let system = site_of(marks, Taping::Anywhere, 0.0);
    bencher.bench(|| adjust(black_box(&system)));
}

/// A job half typed in: a quarter of its marks hang on one tape, or on none yet.
#[divan::bench(args = [8, 40, 80, 300], sample_count = 20)]
fn half_typed_in(bencher: Bencher, marks: usize) {
    let mut system = site_of(marks, Taping::Nearest, 0.0);
    let loose = |mark: usize| mark >= marks - marks / 4;
    let mut tapes = vec![0; marks];
    system.observations.retain(|reading| {
        let Equation::Distance { from, to } = reading.equation else {
            return true;
        };
        let mut its = [from, to]
            .map(|at| at.x.0 / 2)
            .into_iter()
            .filter(|&mark| loose(mark));
        match (its.next(), its.next()) {
            (Some(mark), None) => {
                tapes[mark] += 1;
                tapes[mark] <= mark % 2
            }
            (None, _) => true,
            _ => false,
        }
    });
    let adjustment = adjust(&system);
    assert_eq!(adjustment.status, Fixity::Loose);
    bencher.bench(|| adjust(black_box(&system)));
}

#[divan::bench(args = [6, 40, 80, 300], sample_count = 20)]
fn nearest_with_a_slip(bencher: Bencher, marks: usize) {
    let system = site_of(marks, Taping::Nearest, 250.0);
    bencher.bench(|| {
        let adjustment = adjust(black_box(&system));
        suspects(&system, &adjustment)
    });
}

#[divan::bench(args = [6, 40, 80, 300], sample_count = 20)]
fn anywhere_with_a_slip(bencher: Bencher, marks: usize) {
    let system = site_of(marks, Taping::Anywhere, 250.0);
    bencher.bench(|| {
        let adjustment = adjust(black_box(&system));
        suspects(&system, &adjustment)
    });
}
