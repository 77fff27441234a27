//! Readings to marks: the plane network.

use super::fixes::{
    MarkFix, NetworkFix, NetworkStatus, NextTape, OtherSide, ReadingFix, SuspectFix,
};
use super::frame::{SiteFrame, frame};
use super::hidden::is_hidden;
use super::trouble::{Misfit, say_loose, say_other_side, say_suspects};
use crate::adjust::advice::advise;
use crate::adjust::misread::hint;
use crate::adjust::{
    self, Adjustment, At, Equation, Observation, Param, Prediction, ReadingWorth, Sides, Suspicion,
    System, adjust,
};
use crate::job::ByName;
use crate::job::sound::{MarkIx, Quantity, Sound, Taken};
use crate::job::{MarkId, Problems};
use nalgebra::Vector2;

pub use crate::adjust::BAND_95 as PM;

/// The adjusted marks, and everything needed to say how sure anything made from them is.
#[derive(Clone, Debug)]
pub struct Plane {
    adjustment: Adjustment,
    suspicion: Option<Suspicion>,
    frame: SiteFrame,
}

impl Plane {
    /// Adjusts the readings of a job.
    #[must_use]
    pub fn new(sound: &Sound) -> Self {
        let frame = frame(sound);
        let system = system(sound, &frame);
        let adjustment = adjust(&system);
        let suspicion = adjust::suspects(&system, &adjustment);
        Self {
            adjustment,
            suspicion,
            frame,
        }
    }

    /// Where a mark is, mm; `None` while it can still move.
    #[must_use]
    pub fn mark(&self, ix: MarkIx) -> Option<Vector2<f64>> {
        let At { x, y } = At::nth(ix.0);
        let still = |param: Param| !self.adjustment.loose.get(param.0).copied().unwrap_or(true);
        (still(x) && still(y)).then(|| self.sketch(ix))
    }

    /// Where a mark is or, while it can still move, about where it may be, mm.
    #[must_use]
    pub fn sketch(&self, ix: MarkIx) -> Vector2<f64> {
        let At { x, y } = At::nth(ix.0);
        Vector2::new(self.adjustment.x[x.0], self.adjustment.x[y.0])
    }

    /// Half width of the 95 % band of a mark: 1.96 √(larger eigenvalue of its covariance), mm.
    #[must_use]
    pub fn pm(&self, ix: MarkIx) -> f64 {
        self.worst(ix).0
    }

    /// The half width of the 95 % band, mm, along the bearing (degrees) where it is widest.
    fn worst(&self, ix: MarkIx) -> (f64, f64) {
        let At { x, y } = At::nth(ix.0);
        let of = |a, b| self.adjustment.covariance(a, b);
        let (xx, xy, yy) = (of(x, x), of(x, y), of(y, y));
        let axis = (2.0 * xy).atan2(xx - yy) / 2.0;
        (PM * larger_eigenvalue(xx, xy, yy).sqrt(), axis.to_degrees())
    }

    /// Variances and covariances of figures computed from marks: the K × K covariance of `figures`,
    /// propagated from Q by central differences.
    ///
    /// `figures` is given a mark's place by its index; `None` where it has no value.
    pub fn covariance<const K: usize>(
        &self,
        marks: &[MarkIx],
        figures: impl Fn(&dyn Fn(MarkIx) -> Vector2<f64>) -> Option<[f64; K]>,
    ) -> Option<[[f64; K]; K]> {
        const STEP: f64 = 1e-2;
        let mut slopes: Vec<(Param, [f64; K])> = Vec::with_capacity(2 * marks.len());
        for &mark in marks {
            let params = At::nth(mark.0);
            for (axis, param) in [(0, params.x), (1, params.y)] {
                let known = slopes.iter().any(|(known, _)| *known == param);
                if known || self.adjustment.is_held(param) {
                    continue;
                }
                let shifted = |by: f64| {
                    figures(&|ix| {
                        let mut at = self.sketch(ix);
                        if ix == mark {
                            at[axis] += by;
                        }
                        at
                    })
                };
                let (up, down) = (shifted(STEP)?, shifted(-STEP)?);
                slopes.push((
                    param,
                    std::array::from_fn(|k| (up[k] - down[k]) / (2.0 * STEP)),
                ));
            }
        }
        Some(self.adjustment.covariances(&slopes))
    }

    /// Every mark that does not move, in file order.
    #[must_use]
    pub fn mark_fixes(&self, sound: &Sound) -> ByName<MarkId, MarkFix> {
        let fixes = sound.marks.iter().enumerate().filter_map(|(i, mark)| {
            let at = self.mark(MarkIx(i))?;
            let (pm, axis) = self.worst(MarkIx(i));
            Some((
                mark.id.clone(),
                MarkFix {
                    x: at.x,
                    y: at.y,
                    pm,
                    axis,
                },
            ))
        });
        fixes.collect()
    }

    /// What each used reading comes to, in file order.
    #[must_use]
    pub fn reading_fixes(&self, sound: &Sound) -> Vec<ReadingFix> {
        let suspects = self.suspicion.as_ref().map_or(&[][..], |s| &s.suspects);
        sound
            .readings
            .iter()
            .zip(&self.adjustment.rows)
            .enumerate()
            .map(|(i, (taken, row))| {
                let suspect = suspects.iter().find(|suspect| suspect.index == i);
                reading_fix(taken, row, suspect.and_then(|suspect| suspect.prediction))
            })
            .collect()
    }

    /// How the readings hold together; what is loose or does not fit is named as a problem.
    #[must_use]
    pub fn network_fix(
        &self,
        sound: &Sound,
        readings: &[ReadingFix],
        next: Option<&str>,
        problems: &mut Problems,
    ) -> NetworkFix {
        let loose: Vec<MarkIx> = (0..sound.marks.len())
            .map(MarkIx)
            .filter(|&ix| self.mark(ix).is_none())
            .collect();
        let suspicion = self.suspicion.as_ref();
        let suspects: Vec<usize> = suspicion
            .map(|s| {
                s.suspects
                    .iter()
                    .map(|one| sound.readings[one.index].index)
                    .collect()
            })
            .unwrap_or_default();
        let many = suspicion.is_some_and(|s| s.more_than_one_wrong);
        say_guessed(sound, &self.frame, problems);
        say_loose(sound, &loose, next, problems);
        let said = Misfit {
            suspects: &suspects,
            more_than_one_wrong: many,
            scattered: !self.adjustment.agrees && !self.stands_out(),
        };
        say_suspects(sound, readings, said, next, problems);
        let other_side = self.other_side(sound);
        say_other_side(other_side.as_ref(), self.adjustment.agrees, problems);
        NetworkFix {
            status: if loose.is_empty() {
                NetworkStatus::Fixed
            } else {
                NetworkStatus::Loose
            },
            loose: loose
                .iter()
                .map(|ix| sound.marks[ix.0].id.clone())
                .collect(),
            redundancy: self.adjustment.redundancy,
            chi2: self.adjustment.chi2,
            agrees: self.adjustment.agrees,
            other_side,
            chi2_without: suspicion.map(|s| s.chi2_without),
            suspects,
            more_than_one_wrong: many,
        }
    }

    /// Whether any one reading stands out.
    fn stands_out(&self) -> bool {
        let mut rows = self.adjustment.rows.iter();
        rows.any(|row| row.standardised > adjust::SUSPICIOUS)
    }

    /// A mark that may or must be on the other side from where it is drawn.
    fn other_side(&self, sound: &Sound) -> Option<OtherSide> {
        let (crossing, taken) = match self.adjustment.sides {
            Sides::AsSketched => return None,
            Sides::OrOther(crossing) => (crossing, false),
            Sides::OnlyOther(crossing) => (crossing, true),
        };
        let marks = [crossing.mark, crossing.from, crossing.to];
        let [mark, from, to] = marks.map(|at| (0..sound.marks.len()).find(|&i| At::nth(i) == at));
        let (mark, from, to) = (mark?, from?, to?);
        // Of a mark that is on no sketch, or that can still move, no side is known.
        let known =
            |i: usize| !self.frame.guessed.contains(&MarkIx(i)) && self.mark(MarkIx(i)).is_some();
        let id = |i: usize| sound.marks[i].id.clone();
        [mark, from, to].into_iter().all(known).then(|| OtherSide {
            mark: id(mark),
            from: id(from),
            to: id(to),
            taken,
        })
    }

    /// The next tape worth taking: one that fixes loose marks, tells several suspects apart, or
    /// brings the largest ± down by a tenth or more.
    #[must_use]
    pub fn advice(&self, sound: &Sound) -> Option<NextTape> {
        let marks: Vec<At> = (0..sound.marks.len()).map(At::nth).collect();
        let sd = |length: f64| sound.tape.sd(length);
        let hidden =
            |a: usize, b: usize| is_hidden(sound, &self.adjustment.x, [MarkIx(a), MarkIx(b)]);
        let next = advise(
            &self.adjustment,
            self.suspicion.as_ref(),
            &marks,
            sd,
            hidden,
        )?;
        let id = |ix: usize| sound.marks[ix].id.clone();
        Some(NextTape {
            from: id(next.from),
            to: id(next.to),
            before: next.before,
            after: next.after,
            settles: next.settles.into_iter().map(id).collect(),
        })
    }
}

/// Larger eigenvalue of a symmetric 2 × 2 matrix.
pub(super) fn larger_eigenvalue(xx: f64, xy: f64, yy: f64) -> f64 {
    let mean = f64::midpoint(xx, yy);
    (mean + ((xx - yy) / 2.0).hypot(xy)).max(0.0)
}

fn system(sound: &Sound, frame: &SiteFrame) -> System {
    let mut held = vec![false; 2 * sound.marks.len()];
    if let Some((origin, along)) = frame.base {
        let origin = At::nth(origin.0);
        held[origin.x.0] = true;
        held[origin.y.0] = true;
        if let Some(to) = along {
            held[At::nth(to.0).y.0] = true;
        }
    }
    System {
        start: frame.start.iter().flat_map(|at| [at.x, at.y]).collect(),
        held,
        observations: sound
            .readings
            .iter()
            .map(|taken| observation(sound, taken))
            .collect(),
    }
}

fn observation(sound: &Sound, taken: &Taken) -> Observation {
    let at = |ix: MarkIx| At::nth(ix.0);
    let (equation, value) = match taken.what {
        Quantity::Tape { from, to, length } => (
            Equation::Distance {
                from: at(from),
                to: at(to),
            },
            length,
        ),
        Quantity::Offset {
            mark,
            wall,
            side,
            length,
        } => {
            let wall = &sound.walls[wall.0];
            let equation = Equation::Offset {
                mark: at(mark),
                from: at(wall.from),
                to: at(wall.to),
            };
            (equation, side.sign() * length)
        }
        Quantity::Inline {
            mark,
            with: [from, to],
        } => (
            Equation::Offset {
                mark: at(mark),
                from: at(from),
                to: at(to),
            },
            0.0,
        ),
        Quantity::Angle {
            from,
            at: corner,
            to,
            degrees,
        } => (
            Equation::Angle {
                from: at(from),
                at: at(corner),
                to: at(to),
            },
            degrees,
        ),
    };
    Observation {
        equation,
        value,
        sd: taken.sd,
    }
}

/// An offset to the right is observed as a negative offset to the left.
fn shown_sign(what: &Quantity) -> f64 {
    match what {
        Quantity::Offset { side, .. } => side.sign(),
        _ => 1.0,
    }
}

fn reading_fix(taken: &Taken, row: &ReadingWorth, suspect: Option<Prediction>) -> ReadingFix {
    let sign = shown_sign(&taken.what);
    ReadingFix {
        index: taken.index,
        adjusted: sign * row.computed,
        residual: sign * row.residual,
        redundancy: row.redundancy,
        standardised: row.standardised,
        least_slip: row.least_slip,
        suspect: suspect.map(|suspect| suspect_fix(taken, suspect)),
    }
}

fn suspect_fix(taken: &Taken, suspect: Prediction) -> SuspectFix {
    let sign = shown_sign(&taken.what);
    let predicted = taken.as_read(sign * suspect.value);
    let observed = taken.as_read(sign * (suspect.value + suspect.slip));
    // ∂read/∂level = level/read.
    let slope = sign * suspect.value / predicted;
    let predicted_sd = suspect.sd * if taken.drop == 0.0 { 1.0 } else { slope };
    let allowance = 3.0 * taken.sd.hypot(predicted_sd);
    let hint = match taken.what {
        Quantity::Tape { .. } | Quantity::Offset { .. } => hint(observed, predicted, allowance),
        Quantity::Inline { .. } | Quantity::Angle { .. } => None,
    };
    SuspectFix {
        predicted,
        predicted_pm: PM * predicted_sd,
        slip: observed - predicted,
        hint,
    }
}

fn say_guessed(sound: &Sound, frame: &SiteFrame, problems: &mut Problems) {
    let names: Vec<&str> = frame
        .guessed
        .iter()
        .filter(|ix| frame.base.is_none_or(|(a, b)| **ix != a && Some(**ix) != b))
        .map(|ix| sound.marks[ix.0].id.as_str())
        .collect();
    if !names.is_empty() {
        problems.note(
            "marks",
            format!(
                "Not on the sketch: {}. Tapes alone do not say on which side a mark lies.",
                names.join(", ")
            ),
            "Look at the plan; where it is mirrored, put these marks on the sketch.",
        );
    }
}
