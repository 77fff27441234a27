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
        let (offcut, shaft) = self.shaft(lock, &place("offcut"), problems)?;
        let stile = self.leaf.stile;
        let packing = Some(lock.case + lock.edge - stile).filter(|packing| *packing > 0.0);
        let seen = stile + packing.unwrap_or(0.0);
        Some(LockFix {
            from_edge: lock.backset,
            height: lock.height,
            down: made
                .bottom
                .and_then(|bottom| run.down_to(bottom + lock.height)),
            packing,
            off_stile: lock.backset - stile / 2.0,
            off_seen: lock.backset - seen / 2.0,
            packing_to_centre: Some(2.0 * lock.backset - stile).filter(|wide| *wide > 0.0),
            shaft,
            offcut,
        })
    }

    /// Thickness of the turned offcut at the lock, and what the shaft passes through.
    fn shaft(
        &self,
        lock: &Lock,
        place: &str,
        problems: &mut Problems,
    ) -> Option<(Option<f64>, f64)> {
        let (frame, face) = (self.leaf.thick, self.leaf.face);
        let Some(offcut) = &lock.offcut else {
            return Some((None, frame + face));
        };
        if offcut.thin > face || offcut.from > offcut.width {
            problems.error(
                place,
                format!(
                    "A board {} thick at its thin edge and {} wide does not taper from the {} of \
                     the gate's face, or the lock at {} is beside it.",
                    self.sound.say(offcut.thin),
                    self.sound.say(offcut.width),
                    self.sound.say(face),
                    self.sound.say(offcut.from)
                ),
                "Measure the board that the lock goes through.",
            );
            return None;
        }
        // Thick edge over thin edge: board and offcut together are as thick everywhere.
        let board = offcut.thin + (face - offcut.thin) * offcut.from / offcut.width;
        let together = face + offcut.thin;
        Some((Some(together - board), frame + together))
    }
}
