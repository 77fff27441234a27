use super::PostHeights;
use super::laid::Laid;
use crate::job::sound::Sound;
use crate::quick::notch::{Governs as Hardest, centred_mortise, face_notch, which_governs};
use serde::Serialize;

/// Below this height above the ground, mm, a notch is near where the post works hardest and where
/// it stays wet.
const NEAR_GROUND: f64 = 300.0;

/// Where a post is worked hardest under an even wind.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "lowercase")]
pub enum Governs {
    Notch,
    Ground,
}

/// What the housings for the rails leave of a run's posts: shares from 0 to 1, lengths mm.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct NotchFix {
    /// Post across the run.
    pub depth: f64,
    pub notch: f64,
    /// Bending strength that a notch in the face leaves: ((depth − notch)/depth)².
    pub bending: f64,
    /// Section that either leaves.
    pub section: f64,
    /// Bending strength that a centred mortise of the same size leaves: 1 − (notch/depth)³.
    #[serde(rename = "bending mortised")]
    pub mortised: f64,
    /// The post whose lowest notch is the worst placed, and the rest of what is known of it.
    #[serde(flatten)]
    pub worst: Option<WorstNotch>,
    /// What to watch, in words.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub caution: Option<String>,
}

/// The lowest notch for its post's height, mm.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct WorstNotch {
    pub post: usize,
    /// Centre of the notch above the ground.
    #[serde(rename = "above ground")]
    pub above_ground: f64,
    /// Whether a face notch there is worked harder than the post at the ground.
    pub governs: Governs,
    /// The same for a centred mortise.
    #[serde(rename = "governs mortised")]
    pub governs_mortised: Governs,
}

/// The housings of a run's posts; none without rails, without a notch, or where the notch goes
/// right through the post (which is reported).
pub(super) fn notch(sound: &Sound, run: &Laid, posts: &[PostHeights]) -> Option<NotchFix> {
    let rails = sound.boards.rails.as_ref()?;
    let (depth, notch) = (run.run.depth, rails.notch_depth());
    if notch <= 0.0 {
        return None;
    }
    let face = face_notch(depth, notch).ok()?;
    let mortised = centred_mortise(depth, notch).ok()?.bending;
    let worst = worst(posts).and_then(|(post, z, height)| {
        let governs = match which_governs(depth, notch, z.clamp(0.0, height), height).ok()? {
            Hardest::Notch => Governs::Notch,
            Hardest::GroundLine => Governs::Ground,
        };
        // The moment falls off as (1 − z/H)² up the post.
        let moment = (1.0 - z.clamp(0.0, height) / height).powi(2);
        Some(WorstNotch {
            post,
            above_ground: z,
            governs,
            governs_mortised: if moment > mortised {
                Governs::Notch
            } else {
                Governs::Ground
            },
        })
    });
    Some(NotchFix {
        depth,
        notch,
        bending: face.bending,
        section: face.section,
        mortised,
        caution: worst.and_then(|worst| caution(sound, worst, face.bending, [notch, depth])),
        worst,
    })
}

/// Post number, lowest notch above the ground, and height of the post above the ground: of the
/// post where the first is the least share of the second.
fn worst(posts: &[PostHeights]) -> Option<(usize, f64, f64)> {
    let lowest = |post: &PostHeights| {
        let (ground, above) = (post.ground?, post.above?);
        let sides = [&post.before, &post.after].into_iter().flatten();
        let rail = sides
            .filter_map(|bay| bay.rails.first().copied())
            .reduce(f64::min)?;
        Some((post.n, rail - ground, above))
    };
    posts
        .iter()
        .filter_map(lowest)
        .min_by(|a, b| (a.1 / a.2).total_cmp(&(b.1 / b.2)))
}

fn caution(
    sound: &Sound,
    worst: WorstNotch,
    bending: f64,
    [notch, depth]: [f64; 2],
) -> Option<String> {
    let WorstNotch {
        post,
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
         The lowest is {} above the ground at post {post}. {works}",
        sound.say(notch),
        sound.say(depth),
        bending * 100.0,
        sound.say(above_ground)
    ))
}
