//! What a gate's leaf is made of: its brace and its lock.
//!
//! ```text
//!    hinge     ┌─┬────────────┬─┐  latch      The brace stands on the bottom of the hinge stile
//!    stile     │ │          ╱ │ │  stile      and carries the top of the latch stile; it is
//!              │ │       ╱    │o│  lock       measured between the frame's inner edges.
//!              │ │    ╱       │ │
//!              │ │ ╱          │ │
//!              └─┴────────────┴─┘
//! ```

use super::GateLeaf;
use super::laid::LaidRun;
use crate::job::Problems;
use crate::job::model::{Leaf, Lock};
use crate::job::sound::Sound;
use crate::quick::Refusal;
use crate::quick::brace::{Brace, brace};
use crate::quick::gate_lock::{GateAtLock, LockOnStile, Taper, lock_seat, lock_stack};
use serde::Serialize;

/// A lock on its leaf, mm.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct LockFix {
    /// Its spindle from the leaf's latch edge.
    #[serde(rename = "from edge")]
    pub from_edge: f64,
    /// Its centre above the leaf's bottom.
    pub height: f64,
    /// Its centre down from the line of the run's set-up; up where it is less than 0.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub down: Option<f64>,
    /// Width of the piece beside the stile that carries the rest of the case.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub packing: Option<f64>,
    /// How far the spindle is from the middle of the stile, away from the edge.
    #[serde(rename = "off stile")]
    pub off_stile: f64,
    /// How far the spindle is from the middle of stile and packing, away from the edge.
    #[serde(rename = "off seen")]
    pub off_seen: f64,
    /// Packing with which the spindle is in the middle of stile and packing; none where the stile
    /// alone is wider.
    #[serde(rename = "packing to centre", skip_serializing_if = "Option::is_none")]
    pub packing_to_centre: Option<f64>,
    /// Through frame and face, and through the turned offcut where there is one. What the handles
    /// ask for comes on top.
    pub shaft: f64,
    /// Thickness of the turned offcut at the lock's centre, where there is one.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub offcut: Option<f64>,
}

/// A leaf being made: what the job says of it, and its place in the file.
pub(super) struct Maker<'a> {
    pub sound: &'a Sound,
    pub leaf: &'a Leaf,
    pub place: String,
}

impl Maker<'_> {
    /// The brace; `None` while the leaf's height is not known.
    pub fn brace(&self, made: &GateLeaf, problems: &mut Problems) -> Option<Brace> {
        let height = made.height?;
        brace(made.width, height, self.leaf.stile)
            .map_err(|why| {
                let remedy = "Enter the width of one stile.";
                let place = format!("{}.leaf.stile", self.place);
                problems.error(place, why.said(self.sound.unit), remedy);
            })
            .ok()
    }

    /// The lock; `None`, and said so, where it is not on the leaf.
    pub fn lock(
        &self,
        made: &GateLeaf,
        lock: &Lock,
        run: &LaidRun,
        problems: &mut Problems,
    ) -> Option<LockFix> {
        let say = |mm| self.sound.say(mm);
        let place = |key: &str| format!("{}.lock.{key}", self.place);
        if let Some(height) = made.height.filter(|height| lock.height >= *height) {
            problems.error(
                place("height"),
                format!(
                    "The lock is {} above the leaf's bottom; the leaf is {} high.",
                    say(lock.height),
                    say(height)
                ),
                "Enter the height of its centre above the bottom of the leaf.",
            );
            return None;
        }
        if lock.backset >= made.width || lock.edge + lock.case > made.width {
            problems.error(
                place("case"),
                format!(
                    "The lock is wider than the leaf, which is {}.",
                    say(made.width)
                ),
                "Enter the width of its case, and its spindle from the leaf's edge.",
            );
            return None;
        }
        let stack = lock_stack(GateAtLock {
            frame: self.leaf.thick,
            face: self.leaf.face,
            taper: lock.offcut.as_ref().map(|offcut| Taper {
                thin: offcut.thin,
                width: offcut.width,
                from_thin_edge: offcut.from,
                packed: true,
            }),
        });
        let stack = stack
            .map_err(|why| {
                let remedy = "Measure the board that the lock goes through.";
                problems.error(place("offcut"), why.said(self.sound.unit), remedy);
            })
            .ok()?;
        let seat = lock_seat(LockOnStile {
            stile: self.leaf.stile,
            case: lock.case,
            edge: lock.edge,
            backset: lock.backset,
        });
        Some(LockFix {
            from_edge: lock.backset,
            height: lock.height,
            down: made
                .bottom
                .and_then(|bottom| run.down_to(bottom + lock.height)),
            packing: seat.packing,
            off_stile: seat.off_stile,
            off_seen: seat.off_seen,
            packing_to_centre: seat.packing_to_centre,
            shaft: stack.through,
            offcut: stack.offcut,
        })
    }
}
