//! The figures of a run that are typed: its gap, posts, bays, gates, pins, corner post and hole.

use crate::app::desk::{Desk, FigureKind, Prompt, problems_of, run_fix};
use crate::app::kit::words::{capital, counted, status};
use crate::app::names::things::run_name;
use crate::job::edit::{Change, Edit, Setting};
use crate::job::model::{Corner, CornerPost, End, Gate, Job, Leaf, Pin, Run};
use crate::job::{CornerId, Severity};
use crate::length;
use tautmark_ui::{Status, Verdict};

/// Which figure.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Part {
    Gap,
    PostWidth,
    PostDepth,
    LongestBay,
    /// The run's end as a length from its start.
    EndLength,
    /// The gate at this place; one past the last is a new one.
    GateAt(usize),
    GateClear(usize),
    Hinge(usize),
    Latch(usize),
    UnderLeaf(usize),
    /// The pin at this place; one past the last is a new one.
    PinAt(usize),
    CornerWidth,
    CornerDepth,
    HoleDiameter,
    HoleDepth,
    Tolerance,
}

/// One figure of the run at this place in the file.
pub struct RunFigure {
    pub run: usize,
    pub part: Part,
}

impl Part {
    /// What the figure is called.
    #[must_use]
    pub fn label(self) -> String {
        match self {
            Part::Gap => "String to post face".to_owned(),
            Part::PostWidth => "Post, along the string".to_owned(),
            Part::PostDepth => "Post, square to it".to_owned(),
            Part::LongestBay => "Longest bay".to_owned(),
            Part::EndLength => "Length from the start".to_owned(),
            Part::GateAt(i) => format!("Gate {} starts at", i + 1),
            Part::GateClear(i) => format!("Gate {} opening", i + 1),
            Part::Hinge(i) => format!("Gate {} gap at the hinges", i + 1),
            Part::Latch(i) => format!("Gate {} gap at the latch", i + 1),
            Part::UnderLeaf(i) => format!("Gate {} gap under the leaf", i + 1),
            Part::PinAt(i) => format!("Pinned post {}", i + 1),
            Part::CornerWidth => "Corner post, width".to_owned(),
            Part::CornerDepth => "Corner post, depth".to_owned(),
            Part::HoleDiameter => "Hole, across".to_owned(),
            Part::HoleDepth => "Hole, deep".to_owned(),
            Part::Tolerance => "A post may stand off by".to_owned(),
        }
    }

    /// What the job has; `None` where it has no such figure yet. Mm.
    #[must_use]
    pub fn value(self, job: &Job, run: &Run) -> Option<f64> {
        let post = || run.post.clone().unwrap_or_default();
        let leaf = |i: usize| run.gates.get(i)?.leaf.as_ref();
        let corner = || corner_post(job, run);
        match self {
            Part::Gap => Some(run.gap),
            Part::PostWidth => Some(post().width),
            Part::PostDepth => Some(post().depth),
            Part::LongestBay => Some(run.bays.clone().unwrap_or_default().max),
            Part::EndLength => run.end.as_ref()?.length,
            Part::GateAt(i) => run.gates.get(i)?.at,
            Part::GateClear(i) => run.gates.get(i)?.clear,
            Part::Hinge(i) => leaf(i).map(|leaf| leaf.hinge),
            Part::Latch(i) => leaf(i).map(|leaf| leaf.latch),
            Part::UnderLeaf(i) => leaf(i).map(|leaf| leaf.ground),
            Part::PinAt(i) => run.pins.get(i)?.at,
            Part::CornerWidth => corner().map(|post| post.width),
            Part::CornerDepth => corner().map(|post| post.depth),
            Part::HoleDiameter => Some(job.hole.diameter),
            Part::HoleDepth => Some(job.hole.depth),
            Part::Tolerance => Some(job.tolerance.length),
        }
    }

    fn edit(self, job: &Job, at: usize, value: f64) -> Option<Edit> {
        let run = job.runs.get(at)?;
        match self {
            Part::HoleDiameter | Part::HoleDepth => {
                let mut hole = job.hole.clone();
                match self {
                    Part::HoleDiameter => hole.diameter = value,
                    _ => hole.depth = value,
                }
                Some(Edit::Set(Setting::Hole(hole)))
            }
            Part::Tolerance => {
                let mut tolerance = job.tolerance.clone();
                tolerance.length = value;
                Some(Edit::Set(Setting::Tolerance(tolerance)))
            }
            Part::CornerWidth => change_corner(job, run, |post| post.width = value),
            Part::CornerDepth => change_corner(job, run, |post| post.depth = value),
            Part::GateAt(i) | Part::GateClear(i) if i == run.gates.len() => Some(Edit::Gate {
                run: at,
                change: Change::Insert {
                    at: i,
                    value: self.new_gate(value),
                },
            }),
            Part::PinAt(i) if i == run.pins.len() => Some(Edit::Pin {
                run: at,
                change: Change::Insert {
                    at: i,
                    value: Pin {
                        at: Some(value),
                        ..Pin::default()
                    },
                },
            }),
            _ => {
                let mut run = run.clone();
                self.set(&mut run, value)?;
                Some(Edit::Run(Change::Replace { at, value: run }))
            }
        }
    }

    fn new_gate(self, value: f64) -> Gate {
        let (at, clear) = match self {
            Part::GateClear(_) => (None, Some(value)),
            _ => (Some(value), None),
        };
        Gate {
            at,
            clear,
            ..Gate::default()
        }
    }

    fn set(self, run: &mut Run, value: f64) -> Option<()> {
        match self {
            Part::Gap => run.gap = value,
            Part::PostWidth => run.post.get_or_insert_default().width = value,
            Part::PostDepth => run.post.get_or_insert_default().depth = value,
            Part::LongestBay => run.bays.get_or_insert_default().max = value,
            Part::EndLength => {
                let extra = run.end.take().unwrap_or_default().extra;
                run.end = Some(End {
                    length: Some(value),
                    extra,
                    ..End::default()
                });
            }
            Part::GateAt(i) => run.gates.get_mut(i)?.at = Some(value),
            Part::GateClear(i) => run.gates.get_mut(i)?.clear = Some(value),
            Part::Hinge(i) => leaf(run, i)?.hinge = value,
            Part::Latch(i) => leaf(run, i)?.latch = value,
            Part::UnderLeaf(i) => leaf(run, i)?.ground = value,
            Part::PinAt(i) => {
                let pin = run.pins.get_mut(i)?;
                (pin.at, pin.stands) = (Some(value), false);
            }
            Part::CornerWidth
            | Part::CornerDepth
            | Part::HoleDiameter
            | Part::HoleDepth
            | Part::Tolerance => return None,
        }
        Some(())
    }
}

fn leaf(run: &mut Run, gate: usize) -> Option<&mut Leaf> {
    Some(run.gates.get_mut(gate)?.leaf.get_or_insert_default())
}

/// The corner at the run's start or end (the first of them), by its place in the file.
#[must_use]
pub fn corner_of<'a>(job: &'a Job, run: &Run) -> Option<(usize, &'a Corner)> {
    let ends = [&run.start, &run.end].into_iter().flatten();
    let ids: Vec<&CornerId> = ends.filter_map(|end| end.corner.as_ref()).collect();
    let corners = job.corners.iter().enumerate();
    corners
        .into_iter()
        .find(|(_, corner)| ids.contains(&&corner.id))
}

fn corner_post(job: &Job, run: &Run) -> Option<CornerPost> {
    let (_, corner) = corner_of(job, run)?;
    Some(corner.post.clone().unwrap_or_default())
}

/// Changes the post of the run's corner.
#[must_use]
pub fn change_corner(job: &Job, run: &Run, how: impl FnOnce(&mut CornerPost)) -> Option<Edit> {
    let (at, corner) = corner_of(job, run)?;
    let mut value = corner.clone();
    how(value.post.get_or_insert_default());
    Some(Edit::Corner(Change::Replace { at, value }))
}

impl Prompt for RunFigure {
    fn key(&self) -> String {
        format!("run {} {:?}", self.run, self.part)
    }

    fn title(&self, job: &Job) -> String {
        let name = job.runs.get(self.run).map(run_name).unwrap_or_default();
        format!("{name}, **{}**", self.part.label())
    }

    fn measure(&self) -> FigureKind {
        FigureKind::Length
    }

    fn value(&self, job: &Job) -> Option<f64> {
        self.part.value(job, job.runs.get(self.run)?)
    }

    fn edit(&self, job: &Job, value: f64) -> Option<Edit> {
        self.part.edit(job, self.run, value)
    }

    fn next(&self, job: &Job) -> Option<Box<dyn Prompt>> {
        let run = job.runs.get(self.run)?;
        let next = match self.part {
            Part::PostWidth => Part::PostDepth,
            Part::CornerWidth => Part::CornerDepth,
            Part::HoleDiameter => Part::HoleDepth,
            Part::GateAt(i) if i < run.gates.len() => Part::GateClear(i),
            Part::Hinge(i) => Part::Latch(i),
            Part::Latch(i) => Part::UnderLeaf(i),
            _ => return None,
        };
        Some(Box::new(Self {
            part: next,
            ..*self
        }))
    }

    fn verdict(&self, desk: &Desk, typed: Option<f64>) -> Option<Status> {
        if typed.is_none() {
            let hint = self.part.hint();
            return (!hint.is_empty()).then(|| status(Verdict::Note, hint));
        }
        let wrong = problems_of(desk, self.run);
        if let Some(wrong) = wrong
            .iter()
            .find(|problem| problem.severity == Severity::Error)
        {
            let text = format!("{} {}", wrong.text, wrong.remedy);
            return Some(status(Verdict::Attention, &text));
        }
        let job = desk.job();
        let fix = run_fix(desk, job.runs.get(self.run)?)?;
        let longest = fix
            .posts
            .iter()
            .filter(|post| !fix.gate_after(post.n.saturating_sub(1)))
            .filter_map(|post| post.bay)
            .fold(0.0, f64::max);
        let text = format!(
            "{}, bays up to **{}**.",
            capital(&counted(fix.posts.len(), "post", "posts")),
            length::show(longest, job.show.lengths)
        );
        Some(status(Verdict::Good, &text))
    }
}

impl Part {
    /// How to take the figure; empty where its name says it.
    #[must_use]
    pub fn hint(self) -> &'static str {
        match self {
            Part::Gap => "Square off the string, to the face of the posts.",
            Part::LongestBay => "Centre to centre.",
            Part::GateAt(_) => "On the tape, from the run’s zero to the edge of the opening.",
            Part::GateClear(_) => "Clear, from face to face of the gate posts.",
            Part::PinAt(_) => "Its centre on the tape, from the run’s zero.",
            Part::EndLength => "Along the string, to the centre of the last post.",
            Part::Tolerance => "Along the string or across it, before it counts as out.",
            _ => "",
        }
    }
}
