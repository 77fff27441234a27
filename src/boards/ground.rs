use super::GroundAt;
use crate::job::sound::{RunIx, Sound, Stands};
use crate::levels::LevelsFix;

/// The ground along a run: straight between its points, level beyond the first and last.
#[derive(Clone, Debug, Default)]
pub(super) struct Ground(Vec<GroundAt>);

impl Ground {
    /// From the run's ground points whose heights are known.
    pub fn of(run: RunIx, sound: &Sound, levels: Option<&LevelsFix>) -> Self {
        let Some(levels) = levels else {
            return Self::default();
        };
        let points = sound.levels.points.iter().filter_map(|point| {
            let Stands::Ground { run: on, at } = point.stands else {
                return None;
            };
            let height = levels.points.get(&point.id)?.height;
            (on == run).then_some(GroundAt { at, height })
        });
        Self::through(points.collect())
    }

    /// Through points in any order; two at one reading make a sheer step in the ground.
    pub fn through(mut points: Vec<GroundAt>) -> Self {
        points.retain(|point| point.at.is_finite() && point.height.is_finite());
        points.sort_by(|a, b| a.at.total_cmp(&b.at));
        Self(points)
    }

    /// The points, by running reading.
    pub fn points(&self) -> &[GroundAt] {
        &self.0
    }

    /// Height at a running reading, mm; none without any point.
    pub fn at(&self, reading: f64) -> Option<f64> {
        let next = self.0.partition_point(|point| point.at <= reading);
        let Some(before) = next.checked_sub(1).and_then(|at| self.0.get(at)) else {
            return self.0.first().map(|point| point.height);
        };
        let Some(after) = self.0.get(next) else {
            return Some(before.height);
        };
        let share = (reading - before.at) / (after.at - before.at);
        Some(before.height + share * (after.height - before.height))
    }

    /// Highest ground from one running reading to another, mm.
    pub fn highest(&self, from: f64, to: f64) -> Option<f64> {
        self.heights(from, to).reduce(f64::max)
    }

    /// Lowest ground from one running reading to another, mm.
    pub fn lowest(&self, from: f64, to: f64) -> Option<f64> {
        self.heights(from, to).reduce(f64::min)
    }

    /// Area between the ground and a height under it, from one running reading to another, where
    /// the ground is the higher, mm²; 0 without any point.
    pub fn above(&self, height: f64, from: f64, to: f64) -> f64 {
        let start = self.0.partition_point(|point| point.at <= from);
        let between = self.0.iter().skip(start);
        let between = between.take_while(|point| point.at < to);
        let ends = [from, to].map(|at| self.at(at).map(|height| (at, height)));
        let [Some(first), Some(last)] = ends else {
            return 0.0;
        };
        let mut area = 0.0;
        let mut before = first;
        for after in between.map(|p| (p.at, p.height)).chain([last]) {
            let (a, b) = (before.1 - height, after.1 - height);
            let share = if a >= 0.0 && b >= 0.0 {
                (a + b) / 2.0
            } else if a.max(b) > 0.0 {
                // Only the part where the ground is above.
                let high = a.max(b);
                high * high / (2.0 * (a - b).abs())
            } else {
                0.0
            };
            area += share * (after.0 - before.0);
            before = after;
        }
        area
    }

    /// Heights at both ends and at every point between: the extremes are among them.
    fn heights(&self, from: f64, to: f64) -> impl Iterator<Item = f64> {
        let start = self.0.partition_point(|point| point.at < from);
        let between = self.0.iter().skip(start);
        between
            .take_while(move |point| point.at <= to)
            .map(|point| point.height)
            .chain(self.at(from))
            .chain(self.at(to))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn ground(points: &[(f64, f64)]) -> Ground {
        let at = |&(at, height)| GroundAt { at, height };
        Ground::through(points.iter().map(at).collect())
    }

    #[test]
    fn straight_between_points_and_level_beyond() {
        let ground = ground(&[(3000.0, -200.0), (1000.0, -100.0)]);
        for (reading, height) in [
            (0.0, -100.0),
            (1000.0, -100.0),
            (2000.0, -150.0),
            (3000.0, -200.0),
            (9000.0, -200.0),
        ] {
            assert_eq!(ground.at(reading), Some(height), "{reading}");
        }
        assert_eq!(ground.highest(1500.0, 2500.0), Some(-125.0));
        assert_eq!(ground.lowest(1500.0, 5000.0), Some(-200.0));
    }

    #[test]
    fn a_hump_between_two_posts_counts() {
        let ground = ground(&[(0.0, 0.0), (500.0, 90.0), (1000.0, 0.0)]);
        assert_eq!(ground.highest(100.0, 900.0), Some(90.0));
        assert_eq!(ground.lowest(100.0, 900.0), Some(18.0));
    }

    #[test]
    fn a_sheer_step_counts_on_both_sides() {
        let ground = ground(&[(0.0, 0.0), (1000.0, 0.0), (1000.0, -400.0)]);
        assert_eq!(ground.highest(1000.0, 2000.0), Some(0.0));
        assert_eq!(ground.lowest(1000.0, 2000.0), Some(-400.0));
        assert_eq!(ground.lowest(0.0, 1000.0), Some(-400.0));
    }

    #[test]
    fn what_lies_above_a_height() {
        let ground = ground(&[(0.0, 0.0), (1000.0, 100.0)]);
        assert_eq!(ground.above(0.0, 0.0, 1000.0), 50_000.0);
        // From 500 on it is higher than 50: a triangle 500 long and 50 high.
        assert_eq!(ground.above(50.0, 0.0, 1000.0), 12_500.0);
        assert_eq!(ground.above(200.0, 0.0, 1000.0), 0.0);
        assert_eq!(ground.above(0.0, 1000.0, 1500.0), 50_000.0);
    }

    #[test]
    fn no_points_no_height() {
        assert_eq!(ground(&[]).at(0.0), None);
        assert_eq!(ground(&[]).highest(0.0, 1.0), None);
    }
}
