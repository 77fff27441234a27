use super::laid::{LaidRun, Tip};
use crate::job::CornerId;
use crate::job::model::PostSet;
use crate::job::sound::{Sound, SoundCorner};
use crate::quick::bevel::{Bevel, bevel, long_to_short};
use serde::Serialize;

/// Which end of a run.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "lowercase")]
pub enum WhichEnd {
    /// Where the running readings begin.
    Start,
    /// Where they end.
    End,
}

/// How the rails of a run are cut at a corner it shares with another run.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct RailEnd {
    /// The end of this run that is at the corner.
    pub end: WhichEnd,
    /// The corner that both runs come to.
    pub corner: CornerId,
    /// Inside angle between the two runs, degrees.
    pub angle: f64,
    /// Against the corner post as it is turned.
    #[serde(rename = "to post")]
    pub to_post: SawCut,
    /// For rails mitred face to face past the post.
    pub mitre: SawCut,
}

/// One saw cut, by both conventions, degrees; and from long to short point, mm.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct SawCut {
    /// On a saw that reads 0 for a square cut.
    #[serde(rename = "off square")]
    pub off_square: f64,
    /// Measured from the rail's length: 90 less that.
    #[serde(rename = "from length")]
    pub from_length: f64,
    /// Rail thickness × tan(off square).
    #[serde(rename = "long to short")]
    pub long_to_short: f64,
}

/// The cuts at each end of a run that shares a corner post with another; none without rails.
pub(super) fn rail_ends(sound: &Sound, run: &LaidRun, laid: &[LaidRun]) -> Vec<RailEnd> {
    let Some(rails) = &sound.boards.rails else {
        return Vec::new();
    };
    let end = |(which, tip)| {
        let partner = run.partner(tip, laid)?;
        let corner = sound.corners.get(partner.corner.0)?;
        let angle = run.between_arms(tip, &partner);
        let cuts = bevel(angle).ok()?;
        Some(RailEnd {
            end: which,
            corner: corner.id.clone(),
            angle,
            to_post: cut(rails.thickness(), against_post(cuts, corner, run))?,
            mitre: cut(rails.thickness(), cuts.off_square)?,
        })
    };
    [(WhichEnd::Start, Tip::Start), (WhichEnd::End, Tip::End)]
        .into_iter()
        .filter_map(end)
        .collect()
}

/// A post square to one run leaves that run's rails square and the other's |90 − θ| off; on the
/// bisector both are 90 − θ/2 off.
fn against_post(cuts: Bevel, corner: &SoundCorner, run: &LaidRun) -> f64 {
    let [first, second] = corner.lines;
    let square_to = match corner.set() {
        PostSet::First => first,
        PostSet::Second => second,
        PostSet::Bisect => return cuts.off_square,
    };
    if run.run.line == square_to {
        0.0
    } else {
        cuts.against_post
    }
}

fn cut(thickness: f64, off_square: f64) -> Option<SawCut> {
    Some(SawCut {
        off_square,
        from_length: 90.0 - off_square,
        long_to_short: long_to_short(thickness, off_square).ok()?,
    })
}
