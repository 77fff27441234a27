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
mod clashes;
mod fixes;
mod held;
mod respace;
mod swings;
mod track;

pub(crate) use as_built::name_gone;
pub use as_built::{AsBuilt, Verdict, as_built, pins_as_built};
pub use bays::{MOST_POSTS, fill};
pub use clashes::post_called;
pub use fixes::{GateFix, Post, PostKind, RunFix};
pub use respace::{can_respace, respacing};
pub use track::Track;

use crate::job::Problems;
use crate::job::sound::Sound;
use crate::site::{PM, Plane, Strings};
use held::{Bench, Gates, Stand};
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
    let runs: Vec<Option<RunFix>> = sound
        .runs
        .iter()
        .map(|run| {
            let track = track::track(sound, run, plane, strings, problems)?;
            let bench = Bench {
                sound,
                run,
                plane,
                strings,
                track,
            };
            set_out_run(&bench, &swings, problems)
        })
        .collect();
    clashes::name_clashes(sound, plane, &runs, problems);
    runs
}

fn set_out_run(bench: &Bench<'_>, swings: &Swings<'_>, problems: &mut Problems) -> Option<RunFix> {
    let ends = bench.ends()?;
    let gates = bench.gates(&ends, problems);
    let pins = bench.pins(&ends, &gates, problems);
    let Some(stands) = stands(bench, ends, &gates, pins) else {
        problems.error(
            format!("runs[{}].bays.max", bench.run.index),
            format!(
                "Bays of {} mm would make more than {MOST_POSTS} posts in run “{}”.",
                bench.run.bay_max,
                bench.run.called()
            ),
            "Enter the longest bay in millimetres, centre to centre.",
        );
        return None;
    };
    let posts = posts(bench, &stands, swings);
    let zero = bench.track.ray.through;
    Some(RunFix {
        length: bench.track.length,
        length_pm: bench.track.length_pm(),
        zero: [zero.x, zero.y],
        bearing: bench.track.ray.bearing(),
        gates: gate_fixes(&gates, &posts),
        posts,
    })
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
            .any(|gate| gate.near >= before.far - held::SAME && gate.far <= next.near + held::SAME);
        if !is_gate {
            let run = bench.run;
            let over = match before.stands || next.stands {
                true => bench.sound.tolerance.length,
                false => 0.0,
            };
            let centres = fill(before.centre, next.centre, run.bay_max + over, run.bay_fit)?;
            all.extend(
                centres
                    .into_iter()
                    .map(|at| bench.plain(PostKind::Line, at)),
            );
        }
        all.push(next);
    }
    (all.len() <= MOST_POSTS).then_some(all)
}

fn posts(bench: &Bench<'_>, stands: &[Stand], swings: &Swings<'_>) -> Vec<Post> {
    let track = &bench.track;
    let tape = &bench.sound.tape;
    let mut posts: Vec<Post> = Vec::with_capacity(stands.len());
    for (i, stand) in stands.iter().enumerate() {
        let at = track.at(stand.centre, stand.off);
        let taped = tape.class.sd(tape.reading, stand.centre);
        let carried = track.length_sd * stand.centre / track.length;
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
            wedge: stand.wedge,
            arcs: swings.to(at),
            size: stand.size,
            rotation: stand.rotation,
        });
    }
    posts
}

fn gate_fixes(gates: &Gates, posts: &[Post]) -> Vec<GateFix> {
    gates
        .openings
        .iter()
        .filter_map(|opening| {
            let from = posts
                .iter()
                .rfind(|post| post.far <= opening.near + held::SAME)?;
            let to = posts.get(from.n)?;
            Some(GateFix {
                index: opening.index,
                from: from.n,
                to: to.n,
                near: opening.near,
                far: opening.far,
            })
        })
        .collect()
}
