use super::PostHeights;
use super::laid::LaidRun;
use super::leaf::{LockFix, Maker};
use crate::job::Problems;
use crate::job::model::{Hung, Leaf};
use crate::job::sound::Sound;
use crate::quick::Refusal;
use crate::quick::brace::Brace;
use crate::quick::gate::{TapedOpening, leaf as leaf_for};
use crate::setout::GateFix;
use serde::Serialize;

/// A gate's leaf in its opening, mm; only for gates whose gaps the job gives.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct GateLeaf {
    /// Place in the file's list of the run's gates.
    pub index: usize,
    /// Number of the post nearer the run's start.
    pub from: usize,
    /// Number of the post nearer the run's end.
    pub to: usize,
    /// Opening, post face to post face.
    pub clear: f64,
    /// Opening less the hinge and latch gaps.
    pub width: f64,
    /// The post it hangs on.
    pub hung: usize,
    /// Highest ground on the line of the opening.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub ground: Option<f64>,
    /// Bottom of the leaf: the ground gap over that. Ground beside the line that is higher than
    /// this stops the swing.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub bottom: Option<f64>,
    /// Down from the line of the run's set-up to the leaf's bottom.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub down: Option<f64>,
    /// Ground at the hinge post less ground at the latch post.
    #[serde(rename = "hinge above latch", skip_serializing_if = "Option::is_none")]
    pub fall: Option<f64>,
    /// From its bottom to the lower of the two posts' tops.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub height: Option<f64>,
    /// Length of a ledge, between the stiles.
    pub ledge: f64,
    /// The brace of its frame; none while the leaf's height is not known, or where the frame leaves
    /// no room for it.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub brace: Option<Brace>,
    /// Where its lock goes; none where the job gives none, or one that is not on the leaf.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub lock: Option<LockFix>,
}

/// A leaf over this height takes three hinges, mm.
const TALL: f64 = 1500.0;

impl GateLeaf {
    /// How many hinges it takes.
    #[must_use]
    pub fn hinges(&self) -> usize {
        2 + usize::from(self.height.is_some_and(|height| height > TALL))
    }
}

/// The leaves of a run's gates.
pub(super) fn leaves(
    sound: &Sound,
    run: &LaidRun,
    posts: &[PostHeights],
    problems: &mut Problems,
) -> Vec<GateLeaf> {
    let mut leaves = Vec::new();
    for fix in &run.fix.gates {
        let gate = run.run.gates.iter().find(|gate| gate.index == fix.index);
        let Some((gate, leaf)) = gate.and_then(|gate| Some((gate, gate.leaf.as_ref()?))) else {
            continue;
        };
        let clear = fix.far - fix.near;
        let opening = TapedOpening {
            top: clear,
            middle: clear,
            bottom: clear,
        };
        match leaf_for(opening, leaf.hinge, leaf.latch) {
            Ok(found) => {
                let mut made = hang(run, fix, leaf, found.width);
                made.height = height(&made, posts);
                let place = format!("runs[{}].gates[{}]", run.run.index, fix.index);
                let maker = Maker { sound, leaf, place };
                made.brace = maker.brace(&made, problems);
                let lock = gate.lock.as_ref();
                made.lock = lock.and_then(|lock| maker.lock(&made, lock, run, problems));
                leaves.push(made);
            }
            Err(why) => problems.warning(
                format!("runs[{}].gates[{}].leaf", run.run.index, fix.index),
                why.said(sound.unit),
                "Enter the gaps your hinges and latch need.",
            ),
        }
    }
    leaves
}

fn hang(run: &LaidRun, fix: &GateFix, leaf: &Leaf, width: f64) -> GateLeaf {
    let ground = run.ground.highest(fix.near, fix.far);
    let bottom = ground.map(|ground| ground + leaf.ground);
    let (start, end) = (run.ground.at(fix.near), run.ground.at(fix.far));
    let (hung, hinge, latch) = match leaf.hung {
        Hung::Start => (fix.from, start, end),
        Hung::End => (fix.to, end, start),
    };
    GateLeaf {
        index: fix.index,
        from: fix.from,
        to: fix.to,
        clear: fix.far - fix.near,
        width,
        hung,
        ground,
        bottom,
        down: bottom.and_then(|bottom| run.down_to(bottom)),
        fall: hinge.zip(latch).map(|(hinge, latch)| hinge - latch),
        height: None,
        ledge: (width - 2.0 * leaf.stile).max(0.0),
        brace: None,
        lock: None,
    }
}

/// From the leaf's bottom to the lower top of the posts beside it.
fn height(leaf: &GateLeaf, posts: &[PostHeights]) -> Option<f64> {
    let beside = posts
        .iter()
        .filter(|post| post.n == leaf.from || post.n == leaf.to);
    let top = beside.filter_map(|post| post.top).reduce(f64::min)?;
    Some(top - leaf.bottom?).filter(|height| *height > 0.0)
}
