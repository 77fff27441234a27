use super::laid::LaidRun;
use crate::job::model::Pales;
use crate::job::sound::Sound;
use crate::job::{Problems, Where};
use crate::length::Unit;
use crate::quick::Refusal;
use crate::quick::pales::pales as row;
use serde::Serialize;

/// The pales of one stretch between gates, from the near face of post `from` to the far face of
/// post `to`. Mm.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct PaleStretch {
    /// Number of its first post.
    pub from: usize,
    /// Number of its last post.
    pub to: usize,
    /// What the pales cover.
    pub cover: f64,
    /// How many it takes.
    pub count: usize,
    /// How far each covers the next; 0 where one pale covers all.
    pub lap: f64,
    /// From one pale's edge to the next one's.
    pub spacing: f64,
    /// Running reading of the first pale's near edge.
    pub start: f64,
    /// What a single pale that is too wide for its stretch loses.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub trim: Option<f64>,
}

impl PaleStretch {
    /// Running readings of every pale's near edge, from the run's zero, mm.
    pub fn marks(&self) -> impl Iterator<Item = f64> {
        let Self { start, spacing, .. } = *self;
        (0..self.count).map(move |n| start + spacing * n as f64)
    }
}

/// Pales finishing whole on every stretch of a run between gates.
pub(super) fn pales(sound: &Sound, run: &LaidRun, problems: &mut Problems) -> Vec<PaleStretch> {
    let Some(pales) = &sound.boards.pales else {
        return Vec::new();
    };
    let mut found = Vec::new();
    for (from, to) in stretches(run) {
        match stretch(pales, sound.unit, run, [from, to]) {
            Some(Ok(stretch)) => found.push(stretch),
            Some(Err(why)) => problems.warning(
                Where::from("boards.pales").of_run(&run.run.id),
                format!(
                    "The pales of run {}, posts {from} to {to}, do not work out.",
                    run.run.id
                ),
                why,
            ),
            None => {}
        }
    }
    found
}

fn stretch(
    pales: &Pales,
    unit: Unit,
    run: &LaidRun,
    [from, to]: [usize; 2],
) -> Option<Result<PaleStretch, String>> {
    let numbered = |n: usize| run.fix.posts.iter().find(|post| post.n == n);
    let start = numbered(from)?.near;
    let cover = numbered(to)?.far - start;
    let of = |row: crate::quick::pales::PaleRow| PaleStretch {
        from,
        to,
        cover,
        count: row.count(),
        lap: row.lap.unwrap_or(0.0),
        spacing: row.spacing.unwrap_or(pales.width),
        start,
        trim: (row.count() == 1 && pales.width > cover).then_some(pales.width - cover),
    };
    Some(
        row(cover, pales.width, pales.lap)
            .map(of)
            .map_err(|why| why.said(unit)),
    )
}

/// First and last post of every row of bays without a gate between.
fn stretches(run: &LaidRun) -> Vec<(usize, usize)> {
    let mut rows: Vec<(usize, usize)> = Vec::new();
    for bay in &run.bays {
        match rows.last_mut() {
            Some((_, to)) if *to == bay.from => *to = bay.to,
            _ => rows.push((bay.from, bay.to)),
        }
    }
    rows
}
