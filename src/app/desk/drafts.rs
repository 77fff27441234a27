//! What is typed and not entered, kept by what the figure is of: a tape by its marks, a nail by its
//! string. It stays with that thing while others come and go, and goes when it goes.
//!
//! ```text
//!   job / reading tape A C 0 ␟ label  ──▶  draft
//! ```

use super::Desk;
use crate::job::Job;
use crate::job::model::{Gate, Pin, Station};
use crate::job::reading::{Measure, Reading};
use serde::{Deserialize, Serialize};

/// Stands between what a figure is of and its name; no name can hold it.
const PART: char = '\u{1f}';

/// A figure that was typed and not entered.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
#[serde(default)]
pub struct Draft {
    /// As typed.
    pub text: String,
    /// The sign key that was down.
    pub negative: bool,
}

/// The thing of a job that a figure is of, by its place in the file's lists; posts from 1.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum FigureOf {
    /// A reading.
    Reading(usize),
    /// A nail of a string.
    Nail(usize, usize),
    /// A corner.
    Corner(usize),
    /// A run.
    Run(usize),
    /// A gate of a run.
    Gate(usize, usize),
    /// A pinned post of a run.
    Pin(usize, usize),
    /// A post of a run.
    Post(usize, usize),
    /// A set-up of the laser.
    Setup(usize),
    /// A sight of a set-up.
    Sight(usize, usize),
}

impl FigureOf {
    /// What is kept of the figure's thing: the same while other things come and go. `None` where it is
    /// not in the job.
    #[must_use]
    pub fn key(self, job: &Job) -> Option<String> {
        let run = |at: usize| job.runs.get(at);
        let setup = |at: usize| job.levels.setups.get(at);
        match self {
            Self::Reading(at) => alike("reading", &job.readings, at, taken),
            Self::Nail(line, at) => {
                let line = job.lines.get(line)?;
                let nails = line.offsets.as_deref()?;
                alike(&format!("nail {}", line.id), nails, at, nail)
            }
            Self::Corner(at) => Some(format!("corner {}", job.corners.get(at)?.id)),
            Self::Run(at) => Some(format!("run {}", run(at)?.id)),
            Self::Gate(at, gate) => {
                let run = run(at)?;
                alike(&format!("gate {}", run.id), &run.gates, gate, opening)
            }
            Self::Pin(at, pin) => {
                let run = run(at)?;
                alike(&format!("pin {}", run.id), &run.pins, pin, pinned)
            }
            Self::Post(at, n) => Some(format!("post {n} {}", run(at)?.id)),
            Self::Setup(at) => Some(format!("setup {}", setup(at)?.id)),
            Self::Sight(at, sight) => {
                let setup = setup(at)?;
                let of = format!("sight {}", setup.id);
                alike(&of, &setup.sights, sight, |sight| sight.point.to_string())
            }
        }
    }

    /// The key of a figure of this thing.
    #[must_use]
    pub fn figure(self, job: &Job, name: &str) -> String {
        let of = self.key(job).unwrap_or_default();
        format!("{of}{PART}{name}")
    }

    /// Everything of a job that a figure can be of, list by list.
    fn lists(job: &Job) -> Vec<Vec<Self>> {
        let runs = || job.runs.iter().enumerate();
        let mut lists: Vec<Vec<Self>> = vec![
            (0..job.readings.len()).map(Self::Reading).collect(),
            (0..job.corners.len()).map(Self::Corner).collect(),
            (0..job.runs.len()).map(Self::Run).collect(),
            (0..job.levels.setups.len()).map(Self::Setup).collect(),
        ];
        lists.extend(job.lines.iter().enumerate().map(|(line, of)| {
            let nails = of.offsets.as_ref().map_or(0, Vec::len);
            (0..nails).map(|at| Self::Nail(line, at)).collect()
        }));
        lists.extend(
            runs().map(|(run, of)| (0..of.gates.len()).map(|at| Self::Gate(run, at)).collect()),
        );
        lists.extend(
            runs().map(|(run, of)| (0..of.pins.len()).map(|at| Self::Pin(run, at)).collect()),
        );
        let setups = job.levels.setups.iter().enumerate();
        lists.extend(setups.map(|(setup, of)| {
            (0..of.sights.len())
                .map(|at| Self::Sight(setup, at))
                .collect()
        }));
        lists
    }
}

/// The name of one in a list, told from others alike by how many of them come before it.
fn alike<T>(kind: &str, list: &[T], at: usize, name: impl Fn(&T) -> String) -> Option<String> {
    let own = name(list.get(at)?);
    let before = list.iter().take(at).filter(|one| name(one) == own).count();
    Some(format!("{kind} {own} {before}"))
}

fn taken(reading: &Reading) -> String {
    match &reading.what {
        Measure::Tape { from, to, .. } => format!("tape {from} {to}"),
        Measure::Offset { mark, wall, .. } => format!("offset {mark} {wall}"),
        Measure::Inline {
            mark, with: [a, b], ..
        } => format!("inline {mark} {a} {b}"),
        Measure::Angle { from, at, to, .. } => format!("angle {from} {at} {to}"),
        Measure::Other { kind } => kind.clone(),
    }
}

fn nail(nail: &Station) -> String {
    format!("{:?} {:?}", nail.at, nail.off)
}

fn opening(gate: &Gate) -> String {
    format!("{:?} {:?}", gate.at, gate.clear)
}

fn pinned(pin: &Pin) -> String {
    format!("{:?}", pin.at)
}

impl Desk {
    /// Under what a figure of the job on the desk is kept.
    pub(super) fn draft_key(&self, figure: &str) -> String {
        format!("{}{figure}", self.draft_prefix())
    }

    fn draft_prefix(&self) -> String {
        let job = self.open.as_ref().map(|open| open.key().as_str());
        format!("{}/", job.unwrap_or_default())
    }

    /// Takes the drafts along with what they are of, after the job has changed from `before`: they go with
    /// what is gone. What is renamed, or gets another figure, stands where it stood.
    pub(super) fn carry_drafts(&mut self, before: &Job) {
        let prefix = self.draft_prefix();
        let of_job: Vec<String> = self
            .drafts
            .keys()
            .filter(|key| key.starts_with(&prefix) && key.contains(PART))
            .cloned()
            .collect();
        if of_job.is_empty() {
            return;
        }
        let (old, new) = (FigureOf::lists(before), FigureOf::lists(self.saved()));
        for key in of_job {
            let Some(draft) = self.drafts.remove(&key) else {
                continue;
            };
            let rest = key.strip_prefix(&prefix).unwrap_or_default();
            let Some((of, name)) = rest.split_once(PART) else {
                continue;
            };
            if let Some(of) = carried(of, before, self.saved(), &old, &new) {
                self.drafts
                    .insert(format!("{prefix}{of}{PART}{name}"), draft);
            }
        }
    }
}

/// What a thing is called after a change; `None` where it is gone.
fn carried(
    of: &str,
    before: &Job,
    after: &Job,
    old: &[Vec<FigureOf>],
    new: &[Vec<FigureOf>],
) -> Option<String> {
    // Posts come and go with the bays: their numbers stay.
    if of.starts_with("post ") {
        return Some(of.to_owned());
    }
    let is_it = |job: &Job, one: &FigureOf| one.key(job).as_deref() == Some(of);
    if new.iter().flatten().any(|one| is_it(after, one)) {
        return Some(of.to_owned());
    }
    let (at, list) = old
        .iter()
        .enumerate()
        .find(|(_, list)| list.iter().any(|one| is_it(before, one)))?;
    let place = list.iter().position(|one| is_it(before, one))?;
    let same = new.get(at).filter(|same| same.len() == list.len())?;
    same.get(place)?.key(after)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::job::edit::{Change, Edit, Thing, apply};
    use crate::job::example;

    /// What becomes of a draft of a thing when the job changes.
    fn carried_by(of: FigureOf, edit: &Edit) -> Option<String> {
        let before = example();
        let mut after = before.clone();
        apply(&mut after, edit).expect("a change of the example");
        let key = of.key(&before).expect("it is in the example");
        let lists = [FigureOf::lists(&before), FigureOf::lists(&after)];
        carried(&key, &before, &after, &lists[0], &lists[1])
    }

    #[test]
    fn it_stays_with_its_tape_when_another_goes_and_goes_with_it() {
        let delete = |at| Edit::Reading(Change::Remove { at });
        let third = FigureOf::Reading(2);
        let mut job = example();
        apply(&mut job, &delete(0)).expect("a reading");
        assert_eq!(
            carried_by(third, &delete(0)),
            FigureOf::Reading(1).key(&job)
        );
        assert_eq!(carried_by(third, &delete(2)), None);
    }

    #[test]
    fn it_stays_with_a_tape_whose_mark_is_renamed() {
        let rename = Edit::Rename {
            thing: Thing::Mark("A".into()),
            to: "K".into(),
        };
        let mut job = example();
        apply(&mut job, &rename).expect("mark A");
        let carried = carried_by(FigureOf::Reading(0), &rename);
        assert_eq!(carried, FigureOf::Reading(0).key(&job));
        assert!(carried.is_some_and(|key| key.contains('K')));
    }

    #[test]
    fn two_tapes_between_the_same_marks_are_two() {
        let mut job = example();
        job.readings.push(job.readings[0].clone());
        let last = FigureOf::Reading(job.readings.len() - 1);
        assert_ne!(last.key(&job), FigureOf::Reading(0).key(&job));
    }
}
