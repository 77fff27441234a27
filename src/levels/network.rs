use super::fixes::{LevelsFix, PointFix, SetupFix, SightFix};
use super::{BAND, closure};
use crate::adjust::misread::{Hint, hint};
use crate::adjust::{
    self, Adjustment, Equation, Observation, Param, Prediction, Suspect, System, adjust, suspects,
};
use crate::job::ByName;
use crate::job::sound::{PointIx, SetupIx, SoundLevels, SoundSight};
use crate::site::{NetworkStatus, SuspectFix};

/// Which parameter is which: the set-ups' lines first, then the points' heights.
struct Params {
    setups: usize,
}

impl Params {
    fn line(&self, setup: SetupIx) -> Param {
        Param(setup.0)
    }

    fn point(&self, point: PointIx) -> Param {
        Param(self.setups + point.0)
    }
}

pub(super) fn solve(levels: &SoundLevels) -> LevelsFix {
    let params = Params {
        setups: levels.setups.len(),
    };
    let system = system(levels, &params);
    let adjustment = adjust(&system);
    let mut sights = sights(levels, &adjustment);
    let suspicion = suspects(&system, &adjustment);
    let found: &[Suspect] = suspicion.as_ref().map_or(&[], |s| &s.suspects);
    for suspect in found {
        if let (Some(fix), Some(sight)) = (
            sights.get_mut(suspect.index),
            levels.sights.get(suspect.index),
        ) {
            fix.suspect = suspect.prediction.map(|one| accused(one, sight));
        }
    }
    LevelsFix {
        status: match adjustment.status {
            adjust::Fixity::Fixed => NetworkStatus::Fixed,
            adjust::Fixity::Loose => NetworkStatus::Loose,
        },
        loose: loose(levels, &adjustment),
        redundancy: adjustment.redundancy,
        chi2: adjustment.chi2,
        agrees: adjustment.agrees,
        chi2_without: suspicion.as_ref().map(|s| s.chi2_without),
        setups: lines(levels, &params, &adjustment),
        points: heights(levels, &params, &adjustment),
        closure: closure::closure(levels, &sights),
        sights,
        suspects: found.iter().map(|suspect| suspect.index).collect(),
        more_than_one_wrong: suspicion.is_some_and(|s| s.more_than_one_wrong),
        changes: closure::changes(levels),
    }
}

fn system(levels: &SoundLevels, params: &Params) -> System {
    let count = levels.setups.len() + levels.points.len();
    let mut system = System {
        start: vec![0.0; count],
        held: vec![false; count],
        observations: levels
            .sights
            .iter()
            .map(|sight| Observation {
                equation: Equation::Drop {
                    line: params.line(sight.setup),
                    point: params.point(sight.point),
                },
                value: sight.down,
                sd: sight.sd,
            })
            .collect(),
    };
    if let Some(datum) = levels.datum {
        let Param(at) = params.point(datum.point);
        if let (Some(start), Some(held)) = (system.start.get_mut(at), system.held.get_mut(at)) {
            (*start, *held) = (datum.height, true);
        }
    }
    system
}

fn is_loose(adjustment: &Adjustment, param: Param) -> bool {
    adjustment.loose.get(param.0).copied().unwrap_or(true)
}

fn loose(levels: &SoundLevels, adjustment: &Adjustment) -> Vec<String> {
    let names = levels
        .setups
        .iter()
        .map(ToString::to_string)
        .chain(levels.points.iter().map(|point| point.id.to_string()));
    names
        .enumerate()
        .filter(|&(at, _)| is_loose(adjustment, Param(at)))
        .map(|(_, name)| name)
        .collect()
}

/// The fixed parameters' values with their ±, mm.
fn fixed(adjustment: &Adjustment, param: Param) -> Option<(f64, f64)> {
    if is_loose(adjustment, param) {
        return None;
    }
    let value = adjustment.x.get(param.0)?;
    Some((*value, BAND * adjustment.spread(&[(param, 1.0)])))
}

fn lines(
    levels: &SoundLevels,
    params: &Params,
    adjustment: &Adjustment,
) -> ByName<crate::job::SetupId, SetupFix> {
    let known: Vec<(usize, f64, f64)> = (0..levels.setups.len())
        .filter_map(|at| {
            let (line, pm) = fixed(adjustment, params.line(SetupIx(at)))?;
            Some((at, line, pm))
        })
        .collect();
    let Some(&(first, first_line, _)) = known.first() else {
        return ByName::default();
    };
    let step_pm = |at: usize| {
        if at == first {
            return 0.0;
        }
        let (from, to) = (params.line(SetupIx(first)), params.line(SetupIx(at)));
        BAND * adjustment.spread(&[(to, 1.0), (from, -1.0)])
    };
    known
        .iter()
        .map(|&(at, line, pm)| {
            let fix = SetupFix {
                line,
                pm,
                step: line - first_line,
                step_pm: step_pm(at),
            };
            (levels.setups[at].clone(), fix)
        })
        .collect()
}

fn heights(
    levels: &SoundLevels,
    params: &Params,
    adjustment: &Adjustment,
) -> ByName<crate::job::PointId, PointFix> {
    levels
        .points
        .iter()
        .enumerate()
        .filter_map(|(at, point)| {
            let (height, pm) = fixed(adjustment, params.point(PointIx(at)))?;
            Some((point.id.clone(), PointFix { height, pm }))
        })
        .collect()
}

fn sights(levels: &SoundLevels, adjustment: &Adjustment) -> Vec<SightFix> {
    let named = |sight: &SoundSight| {
        let setup = levels.setups.get(sight.setup.0).cloned();
        let point = levels.points.get(sight.point.0).map(|p| p.id.clone());
        (setup.unwrap_or_default(), point.unwrap_or_default())
    };
    levels
        .sights
        .iter()
        .zip(&adjustment.rows)
        .map(|(sight, row)| {
            let (setup, point) = named(sight);
            SightFix {
                setup,
                point,
                residual: row.residual,
                redundancy: row.redundancy,
                standardised: row.standardised,
                suspect: None,
                place: sight.place,
            }
        })
        .collect()
}

fn accused(predicted: Prediction, sight: &SoundSight) -> SuspectFix {
    let allowance = 3.0 * sight.sd.hypot(predicted.sd);
    SuspectFix {
        predicted: predicted.value,
        predicted_pm: BAND * predicted.sd,
        slip: predicted.slip,
        hint: misreading(sight.down, predicted.value, allowance),
    }
}

/// A reading up from the line is misread as one down is, with the sign left off.
fn misreading(observed: f64, predicted: f64, allowance: f64) -> Option<Hint> {
    let sign = if observed < 0.0 { -1.0 } else { 1.0 };
    hint(observed * sign, predicted * sign, allowance).map(|found| Hint {
        likely: found.likely * sign,
        ..found
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::adjust::misread::Why;

    #[test]
    fn readings_up_are_misread_as_those_down_are() {
        let found = misreading(-462.0, -426.4, 5.0);
        assert_eq!(
            found.map(|f| (f.why, f.likely)),
            Some((Why::Digits, -426.0))
        );
        assert_eq!(misreading(-462.0, -462.5, 3.0), None);
    }
}
