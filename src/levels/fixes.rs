use crate::job::ByName;
use crate::job::{PointId, SetupId};
use crate::laser::LaserWorth;
use crate::site::{NetworkStatus, SuspectFix};
use serde::Serialize;

/// What the sights come to. Heights mm, up positive.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct LevelsFix {
    /// Whether every set-up and point is tied to the datum.
    pub status: NetworkStatus,
    /// Set-ups and points that nothing ties to the datum.
    pub loose: Vec<String>,
    /// Sights less the rank of the normal matrix: what is loose hides no check.
    pub redundancy: i64,
    /// Σ(v/sd)².
    pub chi2: f64,
    /// None of the sights stands out, and together they scatter no more than stated.
    pub agrees: bool,
    /// Least Σ(v/sd)² that leaving out one sight gives; only where one is suspect.
    #[serde(rename = "chi2 without", skip_serializing_if = "Option::is_none")]
    pub chi2_without: Option<f64>,
    /// Set-ups tied to the datum, in the order of the file.
    pub setups: ByName<SetupId, SetupFix>,
    /// Points tied to the datum, in the order of the file.
    pub points: ByName<PointId, PointFix>,
    /// Every used sight, in the order of the file.
    pub sights: Vec<SightFix>,
    /// Places of the suspect sights in `sights`.
    pub suspects: Vec<usize>,
    /// Leaving out any one sight does not make the others agree.
    #[serde(
        rename = "more than one wrong",
        skip_serializing_if = "std::ops::Not::not"
    )]
    pub more_than_one_wrong: bool,
    /// How the checks close; none where nothing checks anything.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub closure: Option<Closure>,
    /// Points that carry the level from one set-up to another.
    pub changes: Vec<ChangePoint>,
}

impl LevelsFix {
    /// How far down from a set-up's line a height is, mm (negative: up); none if the set-up's line
    /// is not known.
    #[must_use]
    pub fn down_from(&self, setup: &SetupId, height: f64) -> Option<f64> {
        self.setups.get(setup).map(|fix| fix.down_to(height))
    }
}

/// A set-up's laser line, mm.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct SetupFix {
    /// Height of the laser line, mm up positive.
    pub line: f64,
    /// Half width of the 95 % band of that height.
    pub pm: f64,
    /// How far this line is above the line of the first set-up that is known.
    pub step: f64,
    /// Half width of the 95 % band of that step.
    #[serde(rename = "step pm")]
    pub step_pm: f64,
}

impl SetupFix {
    /// How far down from this line a height is, mm (negative: up).
    #[must_use]
    pub fn down_to(&self, height: f64) -> f64 {
        self.line - height
    }

    /// ± of a height marked from this line `dist` mm from the set-up, mm: the line's own, one
    /// reading, and the laser over that distance.
    #[must_use]
    pub fn mark_pm(&self, laser: LaserWorth, dist: f64) -> f64 {
        self.pm.hypot(super::BAND * laser.sd(dist))
    }
}

/// A point's height, mm.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct PointFix {
    /// Mm, up positive.
    pub height: f64,
    /// Half width of the 95 % band.
    pub pm: f64,
}

/// What one used sight comes to, mm.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct SightFix {
    /// Where the laser stood.
    pub setup: SetupId,
    /// What was sighted.
    pub point: PointId,
    /// Adjusted less observed.
    pub residual: f64,
    /// The share of this sight that the others check, 0 to 1.
    pub redundancy: f64,
    /// |residual| in standard deviations of the residual; 0 where nothing checks the sight.
    pub standardised: f64,
    /// What the others make of it where it is suspect; none where it is not.
    #[serde(flatten)]
    pub suspect: Option<SuspectFix>,
    /// (Set-up, sight) in the file.
    #[serde(skip)]
    pub place: (usize, usize),
}

/// How the sights close, mm: "two checks, closing to 1; your laser explains up to 4".
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct Closure {
    /// Sights beyond those that fix what is fixed.
    pub checks: usize,
    /// How far the worst sight is from what all the others make it: |v|/r.
    pub closes: f64,
    /// What that may come to by the laser's accuracy and the reading, 95 %: 1.96 sd/√r.
    pub explained: f64,
}

/// A point that carries the level from one set-up to a later one, by its own two sights, mm.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct ChangePoint {
    /// What both set-ups sighted.
    pub point: PointId,
    /// The earlier set-up.
    pub from: SetupId,
    /// The later set-up.
    pub to: SetupId,
    /// How far the later line is above the earlier one, by this point alone.
    pub step: f64,
    /// Places of the two sights among the used ones.
    pub sights: [usize; 2],
}
