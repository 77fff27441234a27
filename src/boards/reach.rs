//! How far is each post from the laser?
//!
//! ```text
//!            set-up
//!          /   |   \  dist          sights to the ground of the run, each with its running
//!   ──────●────┼────●───────────    reading, settle where the set-up stands beside it:
//!              at                   dist² = (reading − at)² + aside²
//! ```

use crate::job::check::USUAL_SIGHT;
use crate::job::sound::{RunIx, SetupIx, Sound, Stands};

/// Sights with a distance from one set-up to the ground of one run: running reading, distance, mm.
#[derive(Clone, Debug, Default, PartialEq)]
pub(super) struct Reach(Vec<[f64; 2]>);

impl Reach {
    /// From the job's sights.
    pub fn of(sound: &Sound, setup: SetupIx, run: RunIx) -> Self {
        let levels = &sound.levels;
        let here = levels.sights.iter().filter(|sight| sight.setup == setup);
        let on_run = here.filter_map(|sight| {
            let stands = levels.points.get(sight.point.0)?.stands;
            let Stands::Ground { run: on, at } = stands else {
                return None;
            };
            (on == run).then_some([at, sight.dist?])
        });
        Self::through(on_run.collect())
    }

    fn through(mut sights: Vec<[f64; 2]>) -> Self {
        sights.sort_by(|a, b| a[0].total_cmp(&b[0]));
        sights.dedup_by(|b, a| b[0] - a[0] < 1.0);
        Self(sights)
    }

    /// Distance from the set-up to a running reading, mm, from the two sights on either side of it,
    /// or the last two; 5 m where no sight has a distance.
    ///
    /// dist² − reading² is straight along a run, so two sights settle it; a single one leaves the
    /// way along the run to be added in full.
    pub fn to(&self, reading: f64) -> f64 {
        let next = self.0.partition_point(|[at, _]| *at <= reading);
        let from = next.saturating_sub(1).min(self.0.len().saturating_sub(2));
        match self.0.get(from..) {
            Some(&[[a, near], [b, far], ..]) => {
                let share = (reading - a) / (b - a);
                let straight = (near * near - a * a) * (1.0 - share) + (far * far - b * b) * share;
                let dist = (straight + reading * reading).max(0.0).sqrt();
                // No nearer and no farther than the way along the run allows.
                let most = (near + (reading - a).abs()).min(far + (reading - b).abs());
                let least = (near - (reading - a).abs()).max(far - (reading - b).abs());
                dist.min(most).max(least)
            }
            Some(&[[at, dist]]) => dist + (reading - at).abs(),
            _ => USUAL_SIGHT,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn two_sights_settle_where_the_set_up_stands() {
        // 3 m along and 4 m aside.
        let dist = |at: f64| (at - 3000.0).hypot(4000.0);
        let reach = Reach::through([6000.0, 0.0].map(|at| [at, dist(at)]).to_vec());
        for at in [-500.0, 0.0, 3000.0, 5000.0, 6000.0, 15_000.0] {
            assert!(
                (reach.to(at) - dist(at)).abs() < 1e-6,
                "{at}: {}",
                reach.to(at)
            );
        }
    }

    #[test]
    fn fewer_sights_say_less() {
        assert_eq!(Reach::through(vec![[0.0, 3000.0]]).to(2000.0), 5000.0);
        assert_eq!(Reach::default().to(2000.0), 5000.0);
    }

    #[test]
    fn distances_that_cannot_be_stay_within_the_way_along() {
        let reach = Reach::through(vec![[0.0, 1000.0], [500.0, 9000.0]]);
        for at in [-9000.0, 0.0, 250.0, 500.0, 20_000.0] {
            assert!(reach.to(at).is_finite() && reach.to(at) >= 0.0, "{at}");
        }
    }
}
