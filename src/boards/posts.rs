use super::bays::Bay;
use super::laid::{Laid, Tip};
use super::rails;
use crate::job::model::Boards;
use crate::job::sound::Sound;
use crate::job::{ByName, Problems, RunId, SetupId};
use crate::quick::concrete::{Hole, concrete};
use crate::setout::Post;
use serde::Serialize;

/// One post: its own heights and lengths, and what meets it from either side. Mm; litres for the
/// concrete.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct PostHeights {
    pub n: usize,
    /// Ground at the post's centre.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub ground: Option<f64>,
    /// Top of the post: the pales' height above the higher of the gravel boards that meet it.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub top: Option<f64>,
    /// Top above the ground.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub above: Option<f64>,
    /// Length needed: above the ground and down to the bottom of the hole.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub length: Option<f64>,
    /// Share of its length in the ground, 0 to 1.
    #[serde(rename = "in ground", skip_serializing_if = "Option::is_none")]
    pub in_ground: Option<f64>,
    /// Concrete as drawn; none where the post does not go into the hole.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub litres: Option<f64>,
    /// Concrete with the share that a dug hole runs over.
    #[serde(rename = "litres dug", skip_serializing_if = "Option::is_none")]
    pub litres_dug: Option<f64>,
    /// What meets it from the side of the run's start; round the corner where the run starts there.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub before: Option<BayAt>,
    /// What meets it from the side of the run's end; round the corner where the run ends there.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub after: Option<BayAt>,
    /// How far the gravel board after it is above the one before.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub step: Option<f64>,
    /// ± of a height marked on it from the run's set-up: the set-up's line, one reading, and the
    /// laser over the distance to the post.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub pm: Option<f64>,
    /// The same from each set-up whose line is known.
    #[serde(skip)]
    pub pm_from: ByName<SetupId, f64>,
    /// The other run that it is the corner post of.
    #[serde(rename = "shared with", skip_serializing_if = "Option::is_none")]
    pub shared: Option<RunId>,
}

/// What meets a post from one side. Heights mm above the datum's zero.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct BayAt {
    pub top: f64,
    pub bottom: f64,
    /// Centres of the rails, lowest first.
    pub rails: Vec<f64>,
    /// Gravel board's bottom above the ground at the post; negative where it is let in.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub gap: Option<f64>,
    /// How deep to dig at the post for the board and its clearance.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub dig: Option<f64>,
}

/// The posts of every run, in the order of `laid`.
pub(super) fn posts(
    sound: &Sound,
    laid: &[Laid],
    problems: &mut Problems,
) -> Vec<Vec<PostHeights>> {
    let mut too_big = None;
    let all: Vec<Vec<PostHeights>> = laid
        .iter()
        .map(|run| {
            let of = |post| one(post, run, laid, sound, &mut too_big);
            run.fix.posts.iter().map(of).collect()
        })
        .collect();
    if let Some(why) = too_big {
        problems.warning(
            "hole",
            "The concrete cannot be worked out for every post.",
            why,
        );
    }
    without_tops(sound, &all, problems);
    all
}

/// Posts end with the pales, so without pales their lengths wait.
fn without_tops(sound: &Sound, runs: &[Vec<PostHeights>], problems: &mut Problems) {
    let wanted = sound.boards.gravel.is_some() || sound.boards.rails.is_some();
    let mut posts = runs.iter().flatten();
    if wanted && sound.boards.pales.is_none() && posts.any(|post| post.top.is_none()) {
        problems.warning(
            "boards.pales",
            "Tops and lengths of posts are not known: posts end with the pales, and the job has none.",
            "Enter the pales with their height; or cut the posts to suit when they stand.",
        );
    }
}

fn one(
    post: &Post,
    run: &Laid,
    laid: &[Laid],
    sound: &Sound,
    too_big: &mut Option<String>,
) -> PostHeights {
    let meeting = Meeting::of(post, run, laid);
    let ground = run.ground.at(post.centre).or_else(|| meeting.ground());
    let side = |bay: Option<&Bay>| bay.and_then(|bay| bay_at(bay, ground, &sound.boards));
    let (before, after) = (side(meeting.before), side(meeting.after));
    let top = top(post.n, &meeting, run, &sound.boards);
    let above = top.zip(ground).map(|(top, ground)| top - ground);
    let above = above.filter(|&above| above > 0.0);
    let length = above.map(|above| above + sound.hole.depth);
    let hole = Hole {
        diameter: sound.hole.diameter,
        depth: sound.hole.depth,
        post: post.size,
    };
    let fill = concrete(hole, 1, sound.hole.over, sound.hole.bag)
        .map_err(|why| *too_big = Some(why.to_string()))
        .ok();
    let pm_from = run.mark_pms(&sound.laser, post.centre);
    PostHeights {
        n: post.n,
        ground,
        top,
        above,
        length,
        in_ground: length.map(|length| sound.hole.depth / length),
        litres: fill.map(|fill| fill.net_each),
        litres_dug: fill.map(|fill| fill.litres),
        step: before
            .as_ref()
            .zip(after.as_ref())
            .map(|(before, after)| after.top - before.top),
        before,
        after,
        pm: run
            .setup
            .as_ref()
            .and_then(|(id, _)| pm_from.get(id).copied()),
        pm_from,
        shared: meeting.other.map(|other| other.run.id.clone()),
    }
}

/// The bays on either side of a post, round the corner where it is a corner post.
struct Meeting<'a> {
    before: Option<&'a Bay>,
    after: Option<&'a Bay>,
    other: Option<&'a Laid<'a>>,
    other_reading: Option<f64>,
}

impl<'a> Meeting<'a> {
    fn of(post: &Post, run: &'a Laid<'a>, laid: &'a [Laid<'a>]) -> Self {
        let mut meeting = Self {
            before: run.bays.iter().find(|bay| bay.to == post.n),
            after: run.bays.iter().find(|bay| bay.from == post.n),
            other: None,
            other_reading: None,
        };
        let is_at = |tip| match tip {
            Tip::Start => run.fix.posts.first().is_some_and(|first| first.n == post.n),
            Tip::End => run.fix.posts.last().is_some_and(|last| last.n == post.n),
        };
        for tip in [Tip::Start, Tip::End] {
            if !is_at(tip) {
                continue;
            }
            let Some(partner) = run.partner(tip, laid) else {
                continue;
            };
            let bay = partner.run.bay_at(partner.tip);
            match tip {
                Tip::Start => meeting.before = bay,
                Tip::End => meeting.after = bay,
            }
            meeting.other = Some(partner.run);
            meeting.other_reading = partner.post().map(|post| post.centre);
        }
        meeting
    }

    /// Ground at the post as the other run has it.
    fn ground(&self) -> Option<f64> {
        self.other?.ground.at(self.other_reading?)
    }
}

fn bay_at(bay: &Bay, ground: Option<f64>, boards: &Boards) -> Option<BayAt> {
    let board = bay.board?;
    let clearance = boards.gravel.as_ref().map_or(0.0, |g| g.clearance);
    Some(BayAt {
        top: board.top,
        bottom: board.bottom,
        rails: boards
            .rails
            .as_ref()
            .map(|rails| rails::heights(rails, Some(board)))
            .unwrap_or_default(),
        gap: ground.map(|ground| board.bottom - ground),
        dig: ground.map(|ground| (ground + clearance - board.bottom).max(0.0)),
    })
}

/// The pales' height above the higher adjoining gravel board; a post between two gates takes the
/// higher of the nearest bays of its run.
fn top(n: usize, meeting: &Meeting, run: &Laid, boards: &Boards) -> Option<f64> {
    let height = boards.pales.as_ref()?.height;
    let higher = |a: Option<&Bay>, b: Option<&Bay>| {
        let tops = [a, b].into_iter().flatten();
        tops.filter_map(|bay| Some(bay.board?.top)).reduce(f64::max)
    };
    let beside = higher(meeting.before, meeting.after);
    let nearest = || {
        let is_bare = meeting.before.is_none() && meeting.after.is_none();
        let before = run.bays.iter().rfind(|bay| bay.to <= n);
        let after = run.bays.iter().find(|bay| bay.from >= n);
        is_bare.then(|| higher(before, after))?
    };
    Some(beside.or_else(nearest)? + height)
}
