//! Where do the posts go? Runs, posts, gates, corner posts, two-tape swings.
//!
//! ```text
//!   zero                 gate opening                         end
//!    │                   at ──── at+clear                      │
//!    █──────────────────█           █───────────█──────────────◆   string below,
//!    1                  2           3           4              5   posts behind it
//!    ├── running readings, all from the zero ─────────────────▶
//! ```
//!
//! All lengths mm; a running reading is measured along the string from the run's zero.

mod as_built;
mod bays;
mod bearing;
mod bench;
mod called;
mod clashes;
mod ends;
mod fixes;
mod front;
mod held;
mod kept;
mod meets;
mod overlap;
mod respace;
mod shares;
mod suggested;
mod swing;
mod swings;
mod track;

pub(crate) use as_built::name_gone;
pub use as_built::{AsBuilt, BuiltVerdict, as_built, pins_as_built};
pub use bays::{MOST_POSTS, fill};
pub use called::{post_called, posts_called};
pub use fixes::{GateFix, Post, PostKind, RunFix};
pub use front::front_corner;
pub use meets::walls_met;
pub use respace::{can_respace, respacing};
pub use suggested::{Known, marks_beside, usual_ends, usual_side};

use crate::job::Problems;
use crate::job::sound::{Sound, SoundRun};
use crate::site::{PM, Plane, Strings};
use bench::{Bench, Opening, SAME, Stand};
use held::Gates;
use shares::shares;
use swings::Swings;

/// Sets out every run, by [`crate::job::sound::RunIx`]; `None` where the job does not settle it yet.
#[must_use]
pub fn set_out(
    sound: &Sound,
    plane: &Plane,
    strings: &Strings,
    problems: &mut Problems,
) -> Vec<Option<RunFix>> {
    let swings = Swings::new(sound, plane);
    let tracks: Vec<Option<track::Track>> = sound
        .runs
        .iter()
        .map(|run| track::track(sound, run, plane, strings, problems))
        .collect();
    let mut room = Some(MOST_POSTS_IN_ALL);
    let mut layouts: Vec<Option<Layout>> = sound
        .runs
        .iter()
        .zip(&tracks)
        .map(|(run, track)| {
            let left = room?;
            let bench = Bench {
                sound,
                run,
                plane,
                strings,
                track: (*track)?,
            };
            let layout = lay_out(bench, problems)?;
            room = left.checked_sub(layout.stands.len());
            if room.is_none() {
                too_many_posts(run, problems);
            }
            room.map(|_| layout)
        })
        .collect();
    kept::keep(&mut layouts, problems);
    let runs: Vec<Option<RunFix>> = layouts
        .iter()
        .map(|layout| Some(finished(layout.as_ref()?, &swings)))
        .collect();
    swing::name_swings(sound, plane, &tracks, &runs, problems);
    bearing::name_bearings(sound, plane, &tracks, &runs, problems);
    clashes::name_clashes(sound, plane, &runs, problems);
    runs
}

/// So many posts are set out in one job.
const MOST_POSTS_IN_ALL: usize = 5000;

fn too_many_posts(run: &SoundRun, problems: &mut Problems) {
    problems.error(
        format!("runs[{}]", run.index),
        format!(
            "With run “{}” this job has more than {MOST_POSTS_IN_ALL} posts; a job may hold at most so many. \
             This run and those after it are not set out.",
            run.called()
        ),
        "Look at the longest bays and the lengths of the runs, or make two jobs of it.",
    );
}

/// A run whose posts have their places: all of them in order, and its gates between them.
struct Layout<'a> {
    bench: Bench<'a>,
    stands: Vec<Stand>,
    gates: Vec<Between>,
}

/// A gate's opening, and the places of its two posts in the list of stands.
struct Between {
    opening: Opening,
    from: usize,
    to: usize,
}

fn lay_out<'a>(bench: Bench<'a>, problems: &mut Problems) -> Option<Layout<'a>> {
    let ends = bench.ends()?;
    let gates = bench.gates(&ends, problems);
    let pins = bench.pins(&ends, &gates, problems);
    let Some(stands) = stands(&bench, ends, &gates, pins) else {
        problems.error(
            format!("runs[{}].bays.max", bench.run.index),
            format!(
                "Bays of {} would make more than {MOST_POSTS} posts in run “{}”.",
                bench.sound.say(bench.run.bay_max),
                bench.run.called()
            ),
            "Enter the longest bay, centre to centre.",
        );
        return None;
    };
    let gates = between(&gates, &stands);
    Some(Layout {
        bench,
        stands,
        gates,
    })
}

fn finished(layout: &Layout<'_>, swings: &Swings<'_>) -> RunFix {
    let track = &layout.bench.track;
    let zero = track.ray.through;
    RunFix {
        length: track.length,
        length_pm: track.length_pm(),
        zero: [zero.x, zero.y],
        bearing: track.ray.bearing(),
        gates: layout.gates.iter().map(Between::fix).collect(),
        posts: posts(&layout.bench, &layout.stands, swings),
    }
}

impl Between {
    fn fix(&self) -> GateFix {
        GateFix {
            index: self.opening.index,
            from: self.from + 1,
            to: self.to + 1,
            near: self.opening.near,
            far: self.opening.far,
        }
    }
}

/// Given posts in order, with the bays between them filled.
fn stands(
    bench: &Bench<'_>,
    [first, last]: [Stand; 2],
    gates: &Gates,
    pins: Vec<Stand>,
) -> Option<Vec<Stand>> {
    let mut between: Vec<Stand> = gates.posts.iter().copied().chain(pins).collect();
    between.sort_by(|a, b| a.centre.total_cmp(&b.centre));
    let mut all = vec![first];
    for next in between.into_iter().chain([last]) {
        let before = *all.last()?;
        let is_gate = gates
            .openings
            .iter()
            .any(|gate| gate.near >= before.far - SAME && gate.far <= next.near + SAME);
        if !is_gate {
            let run = bench.run;
            let over = match before.stands || next.stands {
                true => bench.sound.tolerance.length,
                false => 0.0,
            };
            let centres = fill(before.centre, next.centre, run.bay_max + over, run.bay_fit)?;
            all.extend(centres.into_iter().map(|at| Stand {
                filled: true,
                ..bench.plain(PostKind::Line, at)
            }));
        }
        all.push(next);
    }
    (all.len() <= MOST_POSTS).then_some(all)
}

fn posts(bench: &Bench<'_>, stands: &[Stand], swings: &Swings<'_>) -> Vec<Post> {
    let track = &bench.track;
    let tape = &bench.sound.tape;
    let shares = shares(stands, bench.run.bay_fit);
    let mut posts: Vec<Post> = Vec::with_capacity(stands.len());
    for (i, (stand, share)) in stands.iter().zip(shares).enumerate() {
        let at = track.at(stand.centre, stand.off);
        let taped = tape.sd(stand.centre);
        let carried = track.length_sd * share;
        let before = i.checked_sub(1).map(|b| &stands[b]);
        posts.push(Post {
            n: i + 1,
            kind: stand.kind,
            near: stand.near,
            centre: stand.centre,
            far: stand.far,
            x: at.x,
            y: at.y,
            off: stand.off,
            pm: PM * taped.hypot(carried),
            bay: before.map(|before| stand.centre - before.centre),
            clear: before.map(|before| stand.near - before.far),
            foot: stand.foot,
            kept: stand.kept,
            bearing: stand.bearing,
            wedge: stand.wedge,
            arcs: swings.to(at),
            size: stand.size,
            rotation: stand.rotation,
        });
    }
    posts
}

fn between(gates: &Gates, stands: &[Stand]) -> Vec<Between> {
    gates
        .openings
        .iter()
        .filter_map(|&opening| {
            let from = stands
                .iter()
                .rposition(|post| post.far <= opening.near + SAME)?;
            let to = from + 1;
            stands.get(to)?;
            Some(Between { opening, from, to })
        })
        .collect()
}
