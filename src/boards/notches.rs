use super::PostHeights;
use super::laid::LaidRun;
use crate::job::model::Foot;
use crate::job::sound::Sound;
use crate::quick::notch::{centred_mortise, face_notch};
use serde::Serialize;

/// Below this height above the ground, mm, a notch is near where the post works hardest and where
/// it stays wet.
const NEAR_GROUND: f64 = 300.0;

/// Where a post is worked hardest under an even wind.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "lowercase")]
pub enum Governs {
    /// At the notch.
    Notch,
    /// At the ground.
    Ground,
}

/// What the housings for the rails leave of a run's posts: shares from 0 to 1, lengths mm.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct NotchFix {
    /// Post across the run.
    pub depth: f64,
    /// Depth of the rails' housings, out of that.
    pub notch: f64,
    /// Bending strength that a notch in the face leaves: ((depth − notch)/depth)².
    pub bending: f64,
    /// Section that either leaves.
    pub section: f64,
    /// Bending strength that a centred mortise of the same size leaves: 1 − (notch/depth)³.
    #[serde(rename = "bending mortised")]
    pub mortised: f64,
    /// The post and rail whose notch governs, and the rest of what is known of it.
    #[serde(flatten)]
    pub worst: Option<WorstNotch>,
    /// What to watch, in words.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub caution: Option<String>,
}

/// The notch that works its post hardest, mm.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct WorstNotch {
    pub post: usize,
    /// The rail it is for, counted from 1 at the lowest.
    pub rail: usize,
    /// Its own depth, and the bending strength that it leaves.
    pub cut: f64,
    #[serde(rename = "cut leaves")]
    pub leaves: f64,
    /// Centre of the notch above the ground.
    #[serde(rename = "above ground")]
    pub above_ground: f64,
    /// Whether a face notch there is worked harder than the post at the ground.
    pub governs: Governs,
    /// The same for a centred mortise.
    #[serde(rename = "governs mortised")]
    pub governs_mortised: Governs,
}

/// The housings of a run's posts; none without rails or without a notch.
pub(super) fn notch(sound: &Sound, run: &LaidRun, posts: &[PostHeights]) -> Option<NotchFix> {
    let rails = sound.boards.rails.as_ref()?;
    let (depth, notch) = (run.run.depth, rails.notch_depth());
    let face = face_notch(depth, notch).ok()?;
    let mortised = centred_mortise(depth, notch).ok()?.bending;
    let worst = worst(sound, run, posts);
    if notch <= 0.0 && worst.is_none() {
        return None;
    }
    Some(NotchFix {
        depth,
        notch,
        bending: face.bending,
        section: face.section,
        mortised,
        caution: worst.and_then(|worst| caution(sound, worst, depth)),
        worst,
    })
}

/// The notch that the wind works hardest for what it leaves: with an even wind the moment at a
/// height z of a post H high is (1 − z/H)² of that at the ground. Posts that are fixed to a wall are
/// held along their whole height.
fn worst(sound: &Sound, run: &LaidRun, posts: &[PostHeights]) -> Option<WorstNotch> {
    let depth = run.run.depth;
    let mut worst: Option<(f64, WorstNotch)> = None;
    for post in posts {
        let foot = run.post(post.n).map(|post| post.foot).unwrap_or_default();
        let (Some(ground), Some(height)) = (post.ground, post.above) else {
            continue;
        };
        if foot == Foot::Wall {
            continue;
        }
        for bay in [&post.before, &post.after].into_iter().flatten() {
            for (i, rail) in bay.rails.iter().enumerate() {
                let cut = sound.boards.notch(i + 1, foot);
                let (Ok(left), Ok(mortised)) =
                    (face_notch(depth, cut), centred_mortise(depth, cut))
                else {
                    continue;
                };
                let z = rail - ground;
                let moment = (1.0 - z.clamp(0.0, height) / height).powi(2);
                let governs = |left: f64| match moment > left {
                    true => Governs::Notch,
                    false => Governs::Ground,
                };
                let worked = moment / left.bending.max(f64::MIN_POSITIVE);
                if cut > 0.0 && worst.is_none_or(|(most, _)| worked > most) {
                    let notch = WorstNotch {
                        post: post.n,
                        rail: i + 1,
                        cut,
                        leaves: left.bending,
                        above_ground: z,
                        governs: governs(left.bending),
                        governs_mortised: governs(mortised.bending),
                    };
                    worst = Some((worked, notch));
                }
            }
        }
    }
    worst.map(|(_, notch)| notch)
}

fn caution(sound: &Sound, worst: WorstNotch, depth: f64) -> Option<String> {
    let WorstNotch {
        post,
        rail,
        cut,
        leaves,
        above_ground,
        governs,
        ..
    } = worst;
    if governs == Governs::Ground && above_ground >= NEAR_GROUND {
        return None;
    }
    let works = match governs {
        Governs::Notch => "In wind the post is worked hardest there, not at the ground.",
        Governs::Ground => "It stays wet there: seal the cut.",
    };
    Some(format!(
        "A notch of {} in a post {} deep leaves {:.0} % of its bending strength. \
         The one that counts is for rail {rail}, {} above the ground at post {post}. {works}",
        sound.say(cut),
        sound.say(depth),
        leaves * 100.0,
        sound.say(above_ground)
    ))
}
