//! Jobs on invented sites, against what is really there.

mod yards;

use std::sync::OnceLock;
use tautmark::job::model::CornerCheck;
use tautmark::{Solution, solve};
use yards::{Hand, Tapes, gap_between_walls};

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

/// What is really there, what noisy tapes make of it, and the hand that did it.
struct Tried {
    /// Marks as they are, strings as they were stretched; exact.
    truth: Solution,
    found: Solution,
    scale: f64,
    seed: u64,
}

impl Tried {
    /// A hand of its own for what is marked afterwards, with the tape of the job.
    fn hand(&self) -> Hand {
        let mut hand = Hand::new(self.seed + 1_000_000);
        hand.scale = self.scale;
        hand
    }
}

fn noisy_jobs() -> &'static [Tried] {
    static SOLVED: OnceLock<Vec<Tried>> = OnceLock::new();
    SOLVED.get_or_init(|| {
        let tried = |seed| {
            let site = gap_between_walls(seed, Tapes::Exact);
            let found = gap_between_walls(seed, Tapes::Noisy);
            Tried {
                truth: solve(&site.stretched(seed)),
                found: solve(&found.job),
                scale: found.hand.scale,
                seed,
            }
        };
        (0..JOBS).map(tried).collect()
    })
}

/// The share of the noisy jobs in which `error ≤ pm`, for a figure that has both.
fn share_held(figure: impl Fn(&Tried) -> (f64, f64)) -> f64 {
    let held = noisy_jobs().iter().filter(|tried| {
        let (error, pm) = figure(tried);
        error.abs() <= pm
    });
    held.count() as f64 / noisy_jobs().len() as f64
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
        let share = share_held(|tried| {
            let (truth, found) = (&tried.truth.marks[id], &tried.found.marks[id]);
            let (sin, cos) = found.axis.to_radians().sin_cos();
            let scale = tried.scale;
            (
                (found.x - truth.x * scale) * cos + (found.y - truth.y * scale) * sin,
                found.pm,
            )
        });
        assert_honest(&format!("mark {id}"), share);
    }
}

#[test]
fn the_pm_of_angles_is_honest() {
    let share = share_held(|tried| {
        let (truth, found) = (&tried.truth.corners["X"], &tried.found.corners["X"]);
        (found.angle - truth.angle, found.angle_pm)
    });
    assert_honest("the angle", share);
}

#[test]
fn the_pm_of_run_lengths_is_honest() {
    for id in ["R1", "R2"] {
        let share = share_held(|tried| {
            let (truth, found) = (&tried.truth.runs[id], &tried.found.runs[id]);
            (found.length - truth.length * tried.scale, found.length_pm)
        });
        assert_honest(&format!("run {id}"), share);
    }
}

/// Posts marked with the tape of the job from the run's true zero, against where they belong.
#[test]
fn the_pm_of_marked_posts_is_honest() {
    for (what, place) in [
        ("the first post", 0.0),
        ("posts between", 0.5),
        ("the last post", 1.0),
    ] {
        let (mut held, mut all) = (0, 0);
        for tried in noisy_jobs() {
            let (truth, found) = (&tried.truth.runs["R1"].posts, &tried.found.runs["R1"].posts);
            // A bay more or less is another fence.
            if truth.len() != found.len() {
                continue;
            }
            let n = (place * (found.len() - 1) as f64) as usize;
            let marked = found[n].centre + tried.hand().slip(found[n].centre);
            let error = marked - truth[n].centre * tried.scale;
            held += usize::from(error.abs() <= found[n].pm);
            all += 1;
        }
        assert!(all > JOBS as usize * 9 / 10);
        assert_honest(what, held as f64 / all as f64);
    }
}

/// Both arms marked by hand on the strings as they are stretched, and the tape pulled across.
fn across(tried: &Tried, [a, b]: [f64; 2]) -> f64 {
    let mut hand = tried.hand();
    let (a, b) = (a + hand.slip(a), b + hand.slip(b));
    let cos = tried.truth.corners["X"].angle.to_radians().cos();
    let across = (a * a + b * b - 2.0 * a * b * cos).sqrt();
    across + hand.slip(across)
}

#[test]
fn the_pm_of_check_diagonals_is_honest() {
    for which in 0..2 {
        let share = share_held(|tried| {
            let check = tried.found.corners["X"].check[which];
            (
                across(tried, [check.arm, check.arm]) - check.diagonal,
                check.pm,
            )
        });
        assert_honest(&format!("diagonal {which}"), share);
    }
}

#[test]
fn the_pm_of_strings_as_stretched_is_honest() {
    let arms = [1500.0, 2000.0];
    let mut held = 0;
    for tried in noisy_jobs() {
        let mut job = gap_between_walls(tried.seed, Tapes::Noisy).job;
        job.corners[0].checks.push(CornerCheck {
            arms,
            diagonal: Some(across(tried, arms)),
            ..CornerCheck::default()
        });
        let check = &solve(&job).corners["X"].checks[0];
        let error = check.angle - tried.truth.corners["X"].angle;
        held += usize::from(error.abs() <= check.pm);
    }
    assert_honest("the angle as stretched", held as f64 / JOBS as f64);
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
        let sd = site.job.tape.sd(reading.adjusted);
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
