use super::bays::{Bay, bays};
use super::ground::Ground;
use super::outline::Outline;
use super::reach::Reach;
use crate::job::model;
use crate::job::sound::{CornerIx, RunEnd, RunIx, RunStart, SetupIx, Sound, SoundRun, Stands};
use crate::job::{ByName, SetupId};
use crate::levels::{LevelsFix, SetupFix};
use crate::setout::{Post, PostKind, RunFix};

/// A run that is set out, with its ground, its bays and the set-up its heights are taken from.
pub(super) struct LaidRun<'a> {
    pub run: &'a SoundRun,
    pub fix: &'a RunFix,
    pub ground: Ground,
    pub bays: Vec<Bay>,
    pub setup: Option<(SetupId, SetupFix)>,
    /// Every set-up whose line is known, and how far the run is from it.
    setups: Vec<(SetupId, SetupFix, Reach)>,
    /// +1 where the posts stand left of the run's direction, −1 where they stand right.
    pub side: f64,
}

pub(super) fn lay<'a>(
    sound: &'a Sound,
    runs: &'a [Option<RunFix>],
    levels: Option<&LevelsFix>,
) -> Vec<LaidRun<'a>> {
    let set_out = sound.runs.iter().zip(runs).enumerate();
    set_out
        .filter_map(|(at, (run, fix))| {
            let fix = fix.as_ref()?;
            Some(LaidRun {
                run,
                fix,
                ground: Ground::of(RunIx(at), sound, levels),
                bays: bays(fix),
                side: side(run, fix),
                setup: levels.and_then(|levels| setup(RunIx(at), sound, levels)),
                setups: levels.map_or_else(Vec::new, |levels| setups(RunIx(at), sound, levels)),
            })
        })
        .collect()
}

/// The side as the run goes: a run whose zero lies further along its string than its end goes
/// against the string's own direction.
fn side(run: &SoundRun, fix: &RunFix) -> f64 {
    let Some(post) = fix.posts.first().filter(|post| post.off.abs() > 1e-6) else {
        return run.side.sign();
    };
    let (sin, cos) = fix.bearing.to_radians().sin_cos();
    let left = cos * (post.y - fix.zero[1]) - sin * (post.x - fix.zero[0]);
    (left * post.off).signum()
}

/// The first set-up with a known line that sights one of the run's ground points.
fn setup(run: RunIx, sound: &Sound, levels: &LevelsFix) -> Option<(SetupId, SetupFix)> {
    let on_run = |point: usize| {
        let stands = sound.levels.points.get(point).map(|point| point.stands);
        matches!(stands, Some(Stands::Ground { run: on, .. }) if on == run)
    };
    let sights = sound.levels.sights.iter();
    sights
        .filter(|sight| on_run(sight.point.0))
        .filter_map(|sight| {
            let id = sound.levels.setups.get(sight.setup.0)?;
            Some((sight.setup, id, levels.setups.get(id)?))
        })
        .min_by_key(|(at, ..)| *at)
        .map(|(_, id, fix)| (id.clone(), *fix))
}

fn setups(run: RunIx, sound: &Sound, levels: &LevelsFix) -> Vec<(SetupId, SetupFix, Reach)> {
    let all = sound.levels.setups.iter().enumerate();
    all.filter_map(|(at, id)| {
        let fix = levels.setups.get(id)?;
        Some((id.clone(), *fix, Reach::of(sound, SetupIx(at), run)))
    })
    .collect()
}

/// One end of a run.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Tip {
    Start,
    End,
}

/// The other run that shares a corner post.
#[derive(Clone, Copy)]
pub(super) struct Partner<'a> {
    pub run: &'a LaidRun<'a>,
    pub tip: Tip,
    pub corner: CornerIx,
}

impl<'a> Partner<'a> {
    /// The shared post, as the other run has it.
    pub fn post(&self) -> Option<&'a Post> {
        self.run.post_at(self.tip)
    }
}

impl<'a> LaidRun<'a> {
    /// ± of a height marked at a running reading, from each set-up whose line is known, mm.
    pub fn mark_pms(&self, laser: &model::Laser, reading: f64) -> ByName<SetupId, f64> {
        let from = |(id, fix, reach): &(SetupId, SetupFix, Reach)| {
            (id.clone(), fix.mark_pm(laser.into(), reach.to(reading)))
        };
        self.setups.iter().map(from).collect()
    }

    /// Down from the line of the run's set-up, mm.
    pub fn down_to(&self, height: f64) -> Option<f64> {
        let (_, setup) = self.setup.as_ref()?;
        Some(setup.down_to(height))
    }

    /// A post by its number.
    pub fn post(&self, n: usize) -> Option<&'a Post> {
        self.fix.post(n)
    }

    /// A post's section, as the run sees it.
    pub fn outline(&self, post: &Post) -> Outline {
        Outline::of(post, self.fix.bearing, self.side)
    }

    /// Unsigned angle between this run's arm at one end and its partner's, degrees, 0 to 180.
    pub fn between_arms(&self, tip: Tip, partner: &Partner) -> f64 {
        let apart = (self.arm(tip) - partner.run.arm(partner.tip)).rem_euclid(360.0);
        apart.min(360.0 - apart)
    }

    /// The post at one end.
    pub fn post_at(&self, tip: Tip) -> Option<&'a Post> {
        match tip {
            Tip::Start => self.fix.posts.first(),
            Tip::End => self.fix.posts.last(),
        }
    }

    /// The corner whose post stands at one end of the run.
    pub fn corner(&self, tip: Tip) -> Option<CornerIx> {
        let (at, post) = match tip {
            Tip::Start => (Some(self.run.start), self.fix.posts.first()),
            Tip::End => match self.run.end {
                RunEnd::At(at) => (Some(at), self.fix.posts.last()),
                RunEnd::Length(_) => (None, None),
            },
        };
        match (at?, post?.kind) {
            (RunStart::Corner(corner), PostKind::Corner) => Some(corner),
            _ => None,
        }
    }

    /// The run that shares the corner post at one end.
    pub fn partner(&self, tip: Tip, laid: &'a [LaidRun<'a>]) -> Option<Partner<'a>> {
        let corner = self.corner(tip)?;
        laid.iter()
            .filter(|other| other.run.index != self.run.index)
            .find_map(|run| {
                let tip = [Tip::Start, Tip::End]
                    .into_iter()
                    .find(|&tip| run.corner(tip) == Some(corner))?;
                Some(Partner { run, tip, corner })
            })
    }

    /// The bay that ends at the post at one end; none where that is a gate opening.
    pub fn bay_at(&self, tip: Tip) -> Option<&Bay> {
        match tip {
            Tip::Start => {
                let first = self.fix.posts.first()?.n;
                self.bays.first().filter(|bay| bay.from == first)
            }
            Tip::End => {
                let last = self.fix.posts.last()?.n;
                self.bays.last().filter(|bay| bay.to == last)
            }
        }
    }

    /// Bearing of the run's arm away from the corner at one end, degrees.
    pub fn arm(&self, tip: Tip) -> f64 {
        match tip {
            Tip::Start => self.fix.bearing,
            Tip::End => self.fix.bearing + 180.0,
        }
    }
}
