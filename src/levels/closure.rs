//! How well sights that check each other agree, and what the laser itself explains.

use super::BAND;
use super::fixes::{ChangePoint, Closure, SightFix};
use crate::adjust::CHECKED;
use crate::job::Problems;
use crate::job::sound::{PointIx, SetupIx, Sound, SoundLevels, SoundSight};
use crate::laser::LaserWorth;
use crate::length::{distance, fine_with_unit};
use std::collections::BTreeSet;

/// The worst sight is the one with the largest standardised residual.
pub(super) fn closure(levels: &SoundLevels, sights: &[SightFix]) -> Option<Closure> {
    let checked = |fix: &&(&SightFix, &SoundSight)| fix.0.redundancy > CHECKED;
    let pairs: Vec<(&SightFix, &SoundSight)> = sights.iter().zip(&levels.sights).collect();
    let (worst, sight) = pairs
        .iter()
        .filter(checked)
        .max_by(|a, b| a.0.standardised.total_cmp(&b.0.standardised))?;
    let checks = sights.iter().map(|fix| fix.redundancy).sum::<f64>().round();
    Some(Closure {
        checks: checks.max(0.0) as usize,
        closes: worst.residual.abs() / worst.redundancy,
        explained: BAND * sight.sd / worst.redundancy.sqrt(),
    })
}

/// For each point, the first sight from the first set-up that sees it, paired with the first sight
/// from every later one.
pub(super) fn changes(levels: &SoundLevels) -> Vec<ChangePoint> {
    pairs(levels)
        .into_iter()
        .filter_map(|[from, to]| {
            let (back, fore) = (levels.sights.get(from)?, levels.sights.get(to)?);
            Some(ChangePoint {
                point: levels.points.get(back.point.0)?.id.clone(),
                from: levels.setups.get(back.setup.0)?.clone(),
                to: levels.setups.get(fore.setup.0)?.clone(),
                step: fore.down - back.down,
                sights: [from, to],
            })
        })
        .collect()
}

fn pairs(levels: &SoundLevels) -> Vec<[usize; 2]> {
    let mut first = vec![None::<usize>; levels.points.len()];
    let mut met = BTreeSet::<(PointIx, SetupIx)>::new();
    let mut pairs = Vec::new();
    for (at, sight) in levels.sights.iter().enumerate() {
        if !met.insert((sight.point, sight.setup)) {
            continue;
        }
        match first.get_mut(sight.point.0) {
            Some(Some(from)) => pairs.push([*from, at]),
            Some(nothing) => *nothing = Some(at),
            None => {}
        }
    }
    pairs
}

/// Advises equal sights where the stated accuracy could turn the difference of the two distances
/// into more than one reading is good for, unseen. Of several change points between the same
/// set-ups only the best balanced counts.
pub(super) fn unbalanced(sound: &Sound, problems: &mut Problems) {
    let levels = &sound.levels;
    let laser = LaserWorth::from(&sound.laser);
    let mut best = indexmap::IndexMap::<(SetupIx, SetupIx), (f64, [&SoundSight; 2])>::new();
    for [from, to] in pairs(levels) {
        let (Some(back), Some(fore)) = (levels.sights.get(from), levels.sights.get(to)) else {
            continue;
        };
        let (Some(near), Some(far)) = (back.dist, fore.dist) else {
            continue;
        };
        let apart = (near - far).abs();
        let entry = best.entry((back.setup, fore.setup));
        let least = entry.or_insert((apart, [back, fore]));
        if apart < least.0 {
            *least = (apart, [back, fore]);
        }
    }
    for (apart, [back, fore]) in best.into_values() {
        let unseen = laser.unequal_sights(apart, 0.0);
        if unseen > laser.reading {
            advise(sound, [back, fore], unseen, problems);
        }
    }
}

fn advise(sound: &Sound, [back, fore]: [&SoundSight; 2], unseen: f64, problems: &mut Problems) {
    let levels = &sound.levels;
    let (Some(point), Some(from), Some(to)) = (
        levels.points.get(back.point.0),
        levels.setups.get(back.setup.0),
        levels.setups.get(fore.setup.0),
    ) else {
        return;
    };
    let far = |sight: &SoundSight| distance(sight.dist.unwrap_or(0.0), sound.unit);
    let (setup, sight) = fore.place;
    problems.note(
        format!("levels.setups[{setup}].sights[{sight}].dist"),
        format!(
            "Change point “{}” is {} from set-up “{from}” and {} from set-up “{to}”. A laser \
             that is out by its stated accuracy can put the heights out by {}, and no other sight shows it.",
            point.id,
            far(back),
            far(fore),
            fine_with_unit(unseen, sound.unit, 1),
        ),
        "Put the change point about as far from both set-ups, or move the laser until it is.",
    );
}
