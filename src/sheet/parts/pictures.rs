//! The drawings of the sheet, each where the work needs it.

use super::super::picture::{Picture, Room};
use super::{SheetDesk, names};
use crate::drawing::{
    Detail, ElevationShow, Figures, PlanShow, Seen, Turn, corner, corner_detail, elevation,
    gate_leaf, plan as plan_of, trestles,
};
use crate::job::{CornerId, RunId};
use crate::setout::{Post, RunFix};
use crate::site::CornerFix;

/// Width and height of the room that a plan is turned for: a page's width by half its height.
const ROOM: [f64; 2] = [4.0, 3.0];
/// Under every elevation.
const FROM_LASER: &str = "Figures are from the laser line; the triangle points the way to measure.";
/// Bays side by side in one elevation, and how long it may be, mm, so that its figures have room.
const METRIC: Stretch = Stretch {
    bays: 5,
    longest: 6_500.0,
};
/// Feet and inches are longer to write.
const FEET: Stretch = Stretch {
    bays: 3,
    longest: 4_600.0,
};

/// The most of a run that one elevation shows.
struct Stretch {
    bays: usize,
    longest: f64,
}

/// The plan with dimensions and running readings.
pub fn plan(desk: &SheetDesk<'_>) -> Picture {
    let show = PlanShow {
        turn: Turn::Along(ROOM),
        detail: Detail::Sheet,
        readings: Seen::Hidden,
        ..PlanShow::default()
    };
    let runs = desk.solution.runs.is_empty();
    Picture {
        caption: if runs {
            "Plan.".to_owned()
        } else {
            "Plan. Figures beside the strings: running readings of the hole centres, each from its \
             run's zero."
                .to_owned()
        },
        room: Room::Plan,
        drawing: plan_of(desk.job, desk.solution, &show),
    }
}

/// What was taped, with what does not fit standing out.
pub fn tapes(desk: &SheetDesk<'_>) -> Vec<Picture> {
    if desk.job.readings.is_empty() {
        return Vec::new();
    }
    let show = PlanShow {
        turn: Turn::Along(ROOM),
        strings: Seen::Hidden,
        posts: Seen::Hidden,
        ..PlanShow::default()
    };
    let caption = if desk.solution.network.suspects.is_empty() {
        "Marks, walls and what was taped between them."
    } else {
        "Marks, walls and tapes. A reading that does not fit is drawn in heavy dashes."
    };
    vec![Picture {
        caption: caption.to_owned(),
        room: Room::Small,
        drawing: plan_of(desk.job, desk.solution, &show),
    }]
}

/// The check diagonal of a corner, and the post turned in it.
pub fn of_corner(desk: &SheetDesk<'_>, id: &CornerId, fix: &CornerFix) -> Vec<Picture> {
    let arms = fix.check.iter().map(|check| check.arm);
    let arm = arms.fold(0.0, f64::max);
    let mut pictures = Vec::new();
    if arm > 0.0 {
        pictures.extend(
            corner(desk.job, desk.solution, id, arm).map(|drawing| Picture {
                caption: format!(
                    "Mark {} on each string; the tape across must read what is written on it.",
                    desk.full(arm)
                ),
                room: Room::Small,
                drawing,
            }),
        );
    }
    let detail = corner_detail(desk.job, desk.solution, id);
    pictures.extend(detail.map(|drawing| Picture {
        caption: "The corner post, its gaps to the strings and the line of a mitre.".to_owned(),
        room: Room::Small,
        drawing,
    }));
    pictures
}

/// A run from one end to the other, in parts where it is long.
pub fn elevations(desk: &SheetDesk<'_>, run: &RunId) -> Vec<Picture> {
    let Some(fix) = desk.solution.runs.get(run) else {
        return Vec::new();
    };
    let most = if desk.unit.is_feet() { &FEET } else { &METRIC };
    let parts = parts(fix, most);
    let several = parts.len() > 1;
    let picture = |posts: [usize; 2]| {
        let show = ElevationShow {
            figures: Figures::All,
            posts: Some(posts),
            ..ElevationShow::default()
        };
        let drawing = elevation(desk.job, desk.solution, run, &show)?;
        let name = names::run(desk.job, run);
        let [from, to] = posts;
        Some(Picture {
            caption: if several {
                format!("{name}, posts {from} to {to}. {FROM_LASER}")
            } else {
                format!("{name}. {FROM_LASER}")
            },
            room: Room::Side,
            drawing,
        })
    };
    parts.into_iter().filter_map(picture).collect()
}

/// The posts of a run lying down, those that are cut together as one.
pub fn on_trestles(desk: &SheetDesk<'_>, run: &RunId) -> Option<Picture> {
    Some(Picture {
        caption: format!(
            "{}, tops to the left. Figures from the top: upper edges of the housings, bolts, boards.",
            names::run(desk.job, run)
        ),
        room: Room::Strip,
        drawing: trestles(desk.job, desk.solution, run, None)?,
    })
}

/// A gate's leaf.
pub fn of_leaf(desk: &SheetDesk<'_>, run: &RunId, index: usize) -> Option<Picture> {
    Some(Picture {
        caption: "The leaf from behind, its hinges at the left.".to_owned(),
        room: Room::Small,
        drawing: gate_leaf(desk.job, desk.solution, run, index)?,
    })
}

/// First and last posts of stretches of about the same number of bays.
fn parts(fix: &RunFix, most: &Stretch) -> Vec<[usize; 2]> {
    let posts = &fix.posts;
    let bays = posts.len().saturating_sub(1).max(1);
    let by_length = (fix.length / most.longest).ceil().max(1.0) as usize;
    let count = by_length.max(bays.div_ceil(most.bays)).min(bays);
    let number = |at: usize| posts.get(at).map(|post: &Post| post.n);
    let ends = (0..count).map(|part| [part * bays / count, (part + 1) * bays / count]);
    ends.filter_map(|[from, to]| Some([number(from)?, number(to.min(posts.len() - 1))?]))
        .collect()
}
