use super::along::{AlongPost, Blank, along};
use super::bays::Bay;
use super::bolts::{BoltRow, NoRoom};
use super::laid::{LaidRun, Tip};
use super::meets::{BayAt, bay_at};
use super::to_laser::{LaserMark, nearest};
use super::tops::top;
use crate::job::model::Foot;
use crate::job::sound::{Sound, SoundRun};
use crate::job::{ByName, Problems, RunId, SetupId, Where};
use crate::quick::Refusal;
use crate::quick::concrete::{ConcreteHole, concrete};
use crate::setout::{Post, posts_called};
use serde::Serialize;

/// One post: its own heights and lengths, and what meets it from either side. Mm; litres for the
/// concrete.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct PostHeights {
    /// Number in its run, from 1.
    pub n: usize,
    /// Ground at the post's centre.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub ground: Option<f64>,
    /// Top of the post: the pales' height above the higher of the gravel boards that meet it;
    /// without pales, as high as the top of the highest rail.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub top: Option<f64>,
    /// Top above the ground.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub above: Option<f64>,
    /// Length needed: above the ground and down to the bottom of the hole; on a plate or a wall
    /// less what it stands clear of the ground.
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
    /// Every mark along it from its top, from the top down, to cut it before it is set; empty while
    /// its top is not known.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub along: Vec<AlongPost>,
    /// The bolts of a post that is fixed to a wall.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub bolts: Option<BoltRow>,
    /// Which mark to bring to the laser line of the run's set-up.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub laser: Option<LaserMark>,
    /// The other run that it is the corner post of.
    #[serde(rename = "shared with", skip_serializing_if = "Option::is_none")]
    pub shared: Option<RunId>,
}

/// The posts of every run, in the order of `laid`.
pub(super) fn posts(
    sound: &Sound,
    laid: &[LaidRun],
    problems: &mut Problems,
) -> Vec<Vec<PostHeights>> {
    let mut too_big = None;
    let mut crowded = Vec::new();
    let all: Vec<Vec<PostHeights>> = laid
        .iter()
        .map(|run| {
            let mut of = |post| {
                let mut heights = one(post, run, laid, sound, &mut too_big);
                if let Err(NoRoom(bolt)) = mark(&mut heights, post, run, sound) {
                    crowded.push((run.run, post.n, bolt));
                }
                heights
            };
            run.fix.posts.iter().map(&mut of).collect()
        })
        .collect();
    if let Some(why) = too_big {
        problems.warning(
            "hole",
            "The concrete cannot be worked out for every post.",
            why,
        );
    }
    name_crowded(&crowded, problems);
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
    run: &LaidRun,
    laid: &[LaidRun],
    sound: &Sound,
    too_big: &mut Option<String>,
) -> PostHeights {
    let meeting = Meeting::of(post, run, laid);
    let ground = run.ground.at(post.centre).or_else(|| meeting.ground());
    let side = |bay: Option<&Bay>| bay.and_then(|bay| bay_at(bay, ground, &sound.boards));
    let (before, after) = (side(meeting.before), side(meeting.after));
    let top = top(post.n, [meeting.before, meeting.after], run, &sound.boards);
    let above = top.zip(ground).map(|(top, ground)| top - ground);
    let above = above.filter(|&above| above > 0.0);
    let buried = buried(post.foot, sound);
    let length = above
        .map(|above| above + buried)
        .filter(|&length| length > 0.0);
    let hole = ConcreteHole {
        diameter: sound.hole.diameter,
        depth: sound.hole.depth,
        post: post.size,
    };
    let in_hole = post.foot == Foot::Hole;
    let fill = in_hole
        .then(|| concrete(hole, 1, sound.hole.over, sound.hole.bag))
        .and_then(|fill| {
            fill.map_err(|why| *too_big = Some(why.said(sound.unit)))
                .ok()
        });
    let pm_from = run.mark_pms(&sound.laser, post.centre);
    PostHeights {
        n: post.n,
        ground,
        top,
        above,
        length,
        in_ground: length.filter(|_| in_hole).map(|length| buried / length),
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
        along: Vec::new(),
        bolts: None,
        laser: None,
        shared: meeting.other.map(|other| other.run.id.clone()),
    }
}

impl PostHeights {
    /// The mark along the post that comes nearest a laser line at height `line` (mm) once it
    /// stands: any set-up's line will do. `None` while its top is not known.
    ///
    /// ```
    /// let solution = tautmark::solve(&tautmark::job::example());
    /// let line = solution.levels.as_ref().map_or(0.0, |levels| levels.setups["S1"].line);
    /// let mark = solution.boards["R1"].posts[3].to_laser(line).expect("it has marks");
    /// assert!(mark.by < 400.0);
    /// ```
    #[must_use]
    pub fn to_laser(&self, line: f64) -> Option<LaserMark> {
        nearest(&self.along, self.top? - line)
    }
}

/// Names the posts down which bolts (the first that does, of each) find no room.
fn name_crowded(crowded: &[(&SoundRun, usize, usize)], problems: &mut Problems) {
    let posts: Vec<(&str, usize)> = crowded
        .iter()
        .map(|(run, n, _)| (run.called(), *n))
        .collect();
    let text = match crowded {
        [] => return,
        [(_, _, bolt)] => format!(
            "Bolt {bolt} down {} finds no room between the post's ends and its notches.",
            posts_called(&posts)
        ),
        _ => format!(
            "Bolts down {} find no room between the posts' ends and their notches.",
            posts_called(&posts)
        ),
    };
    let place = Where::from("boards.fixings.wall");
    let place = crowded
        .iter()
        .fold(place, |place, (run, n, _)| place.of_post(&run.id, *n));
    problems.error(
        place,
        text,
        "Let bolts nearer the ends or the notches, or stand the post in a hole.",
    );
}

/// Adds the marks along a post.
///
/// # Errors
/// The bolt that finds no room; the post has its other marks.
fn mark(
    heights: &mut PostHeights,
    post: &Post,
    run: &LaidRun,
    sound: &Sound,
) -> Result<(), NoRoom> {
    let blank = Blank {
        top: heights.top,
        length: heights.length,
        ground: heights.ground,
        sides: [heights.before.as_ref(), heights.after.as_ref()],
        foot: post.foot,
        size: post.size,
    };
    let (marks, bolts) = along(&sound.boards, &blank);
    heights.along = marks;
    let line = run.setup.as_ref().map(|(_, setup)| setup.line);
    heights.laser = line.and_then(|line| heights.to_laser(line));
    heights.bolts = bolts?;
    Ok(())
}

/// A post on a wall ends this far above the ground, so that it stays dry, mm.
const OFF_GROUND: f64 = 20.0;
/// A plate holds its post this far above the ground, mm.
const PLATE: f64 = 10.0;

/// How far a post goes down below the ground; less than 0 where it ends above. Mm.
fn buried(foot: Foot, sound: &Sound) -> f64 {
    match foot {
        Foot::Hole => sound.hole.depth,
        Foot::Plate => -PLATE,
        Foot::Wall => -OFF_GROUND,
    }
}

/// The bays on either side of a post, round the corner where it is a corner post.
struct Meeting<'a> {
    before: Option<&'a Bay>,
    after: Option<&'a Bay>,
    other: Option<&'a LaidRun<'a>>,
    other_reading: Option<f64>,
}

impl<'a> Meeting<'a> {
    fn of(post: &Post, run: &'a LaidRun<'a>, laid: &'a [LaidRun<'a>]) -> Self {
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
