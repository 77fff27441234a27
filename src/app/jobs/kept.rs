//! The row of a job as it is kept beside the job: a start solves no job but the one that it opens.

use crate::app::desk::Desk;
use crate::store::{Entry, JobKey};
use serde::{Deserialize, Serialize};
use slint::{Model, ModelRc, VecModel};
use tautmark_ui::{JobRow, PaintedDrawing, PaintedLabel, PaintedStroke, Verdict};

/// Another number with every change of what is kept or of how a job is solved.
const EDITION: u32 = 1;

#[derive(Serialize, Deserialize)]
struct Kept {
    edition: u32,
    title: String,
    note: String,
    verdict: Verdict,
    remark: String,
    strokes: Vec<PaintedStroke>,
    labels: Vec<PaintedLabel>,
    description: String,
}

/// The row that was kept of the job as it still is; `None` where there is none.
pub fn row(desk: &Desk, key: &JobKey) -> Option<JobRow> {
    let kept: Kept = serde_json::from_str(&desk.jobs.row(key)?).ok()?;
    (kept.edition == EDITION).then(|| JobRow {
        id: key.as_str().into(),
        title: kept.title.into(),
        note: kept.note.into(),
        verdict: kept.verdict,
        remark: kept.remark.into(),
        plan: PaintedDrawing {
            strokes: model(kept.strokes),
            labels: model(kept.labels),
            description: kept.description.into(),
        },
    })
}

/// Keeps the row of a job.
pub fn keep(desk: &Desk, entry: &Entry, row: &JobRow) {
    let kept = Kept {
        edition: EDITION,
        title: row.title.to_string(),
        note: row.note.to_string(),
        verdict: row.verdict,
        remark: row.remark.to_string(),
        strokes: row.plan.strokes.iter().collect(),
        labels: row.plan.labels.iter().collect(),
        description: row.plan.description.to_string(),
    };
    if let (Some(as_of), Ok(text)) = (&entry.as_of, serde_json::to_string(&kept)) {
        // Where it cannot be kept, the job is solved again for the next list.
        let _ = desk.jobs.keep_row(&entry.key, as_of, &text);
    }
}

fn model<T: Clone + 'static>(all: Vec<T>) -> ModelRc<T> {
    ModelRc::new(VecModel::from(all))
}
