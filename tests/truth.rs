//! Jobs on invented sites, against what is really there.

mod yards;

use std::sync::OnceLock;
use tautmark::{Solution, solve};
use yards::{Tapes, gap_between_walls};

const JOBS: u64 = 2000;

#[test]
fn exact_tapes_give_the_site_back() {
    for seed in 0..200 {
        let site = gap_between_walls(seed, Tapes::Exact);
        let solution = solve(&site.job);
        for (id, truth) in &site.truth {
            let found = &solution.marks[id.as_str()];
            let apart = (found.x - truth[0]).hypot(found.y - truth[1]);
            assert!(apart < 1e-6, "site {seed}: {id} is {apart} mm off");
        }
        assert!(solution.network.suspects.is_empty(), "site {seed}");
    }
}

/// What is really there and what noisy tapes make of it, 2,000 times.
fn noisy_jobs() -> &'static [(Solution, Solution)] {
    static SOLVED: OnceLock<Vec<(Solution, Solution)>> = OnceLock::new();
    SOLVED.get_or_init(|| {
        let solved = |seed, tapes| solve(&gap_between_walls(seed, tapes).job);
        (0..JOBS)
            .map(|seed| (solved(seed, Tapes::Exact), solved(seed, Tapes::Noisy)))
            .collect()
    })
}

/// The share of the noisy jobs in which `error ≤ pm`, for a figure that has both.
fn share_held(figure: impl Fn(&Solution, &Solution) -> (f64, f64)) -> f64 {
    let jobs = noisy_jobs();
    let held = jobs.iter().filter(|(truth, found)| {
        let (error, pm) = figure(truth, found);
        error.abs() <= pm
    });
    held.count() as f64 / jobs.len() as f64
}

#[track_caller]
fn assert_honest(what: &str, share: f64) {
    assert!(
        (0.93..=0.97).contains(&share),
        "± of {what} holds {:.1} %",
        share * 100.0
    );
}

#[test]
fn the_pm_of_marks_is_honest() {
    for id in ["B", "C", "D", "F"] {
        let share = share_held(|truth, found| {
            let (truth, found) = (&truth.marks[id], &found.marks[id]);
            let (sin, cos) = found.axis.to_radians().sin_cos();
            (
                (found.x - truth.x) * cos + (found.y - truth.y) * sin,
                found.pm,
            )
        });
        assert_honest(&format!("mark {id}"), share);
    }
}

#[test]
fn the_pm_of_angles_is_honest() {
    let share = share_held(|truth, found| {
        let (truth, found) = (&truth.corners["X"], &found.corners["X"]);
        (found.angle - truth.angle, found.angle_pm)
    });
    assert_honest("the angle", share);
}

#[test]
fn the_pm_of_run_lengths_is_honest() {
    for id in ["R1", "R2"] {
        let share = share_held(|truth, found| {
            let (truth, found) = (&truth.runs[id], &found.runs[id]);
            (found.length - truth.length, found.length_pm)
        });
        assert_honest(&format!("run {id}"), share);
    }
}

#[test]
fn a_slip_is_always_among_the_suspects_and_mostly_alone() {
    let (mut alone, mut all) = (0, 0);
    for seed in 0..JOBS {
        let mut site = gap_between_walls(seed, Tapes::Noisy);
        let clean = solve(&site.job);
        let wrong = (seed as usize * 7) % site.job.readings.len();
        let reading = &clean.readings[wrong];
        // Well checked: the other readings see most of a slip in this one.
        if reading.redundancy < 0.5 {
            continue;
        }
        let sd = site
            .job
            .tape
            .class
            .sd(site.job.tape.reading, reading.adjusted);
        let tautmark::job::reading::Measure::Tape {
            length: Some(length),
            ..
        } = &mut site.job.readings[wrong].what
        else {
            continue;
        };
        *length += if seed % 2 == 0 { 10.0 * sd } else { -10.0 * sd };
        let found = solve(&site.job);
        assert!(
            found.network.suspects.contains(&wrong),
            "site {seed}: reading {wrong} got away"
        );
        all += 1;
        alone += usize::from(found.network.suspects == [wrong]);
    }
    assert!(all > 400, "only {all} readings are well checked");
    let share = f64::from(alone as u32) / f64::from(all);
    assert!(share >= 0.9, "alone in {:.1} %", share * 100.0);
}
