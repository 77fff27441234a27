//! Runs and what has been ticked off on them.

use super::ends::{RunNames, corners_on_line, ends_apart, feet, run_end, run_start};
use super::gates::{gates, pins};
use super::{FilePlace, Ledger, Named};
use crate::job::ids::RunId;
use crate::job::model::{Job, Run, Side};
use crate::job::sound::{RunIx, Sound, SoundKept, SoundRun};

pub(super) type Runs = Named<RunId, RunIx>;

pub(super) fn runs(
    job: &Job,
    names: &RunNames<'_>,
    sound: &mut Sound,
    ledger: &mut Ledger,
) -> Runs {
    let mut runs = Runs::new();
    let list = FilePlace::File.key("runs");
    for (index, run) in job.runs.iter().enumerate() {
        let place = list.nth(index);
        run_keys(run, place, ledger);
        if !runs.claim(&run.id, "run", place, ledger) {
            continue;
        }
        if let Some(good) = sound_run(run, index, place, names, sound, ledger) {
            runs.settle(&run.id, RunIx(sound.runs.len()));
            sound.runs.push(good);
        }
    }
    runs
}

fn run_keys(run: &Run, place: FilePlace<'_>, ledger: &mut Ledger) {
    ledger.unknown_keys(place, &run.extra);
    for (key, end) in [("start", &run.start), ("end", &run.end)] {
        if let Some(end) = end {
            ledger.unknown_keys(place.key(key), &end.extra);
        }
    }
    if let Some(post) = &run.post {
        ledger.unknown_keys(place.key("post"), &post.extra);
    }
    if let Some(bays) = &run.bays {
        ledger.unknown_keys(place.key("bays"), &bays.extra);
    }
    for (i, gate) in run.gates.iter().enumerate() {
        ledger.unknown_keys(place.key("gates").nth(i), &gate.extra);
        let gate_place = place.key("gates");
        let gate_place = gate_place.nth(i);
        if let Some(leaf) = &gate.leaf {
            ledger.unknown_keys(gate_place.key("leaf"), &leaf.extra);
        }
        if let Some(lock) = &gate.lock {
            let lock_place = gate_place.key("lock");
            ledger.unknown_keys(lock_place, &lock.extra);
            if let Some(offcut) = &lock.offcut {
                ledger.unknown_keys(lock_place.key("offcut"), &offcut.extra);
            }
        }
    }
    for (i, pin) in run.pins.iter().enumerate() {
        ledger.unknown_keys(place.key("pins").nth(i), &pin.extra);
    }
}

fn sound_run(
    run: &Run,
    index: usize,
    place: FilePlace<'_>,
    names: &RunNames<'_>,
    sound: &Sound,
    ledger: &mut Ledger,
) -> Option<SoundRun> {
    let line = names
        .lines
        .find(&run.line, "line", place.key("line"), ledger);
    let start = run_start(run.start.as_ref(), place.key("start"), names, ledger);
    let end = run_end(run.end.as_ref(), place.key("end"), names, ledger);
    let gap = ledger.not_negative(place.key("gap"), run.gap, "gap");
    let post = run.post.clone().unwrap_or_default();
    let width = ledger.positive(place.key("post").key("width"), post.width, "post width");
    let depth = ledger.positive(place.key("post").key("depth"), post.depth, "post depth");
    let bays = run.bays.clone().unwrap_or_default();
    let bay_max = ledger.positive(place.key("bays").key("max"), bays.max, "longest bay");
    let side = side_of(run, place, ledger);
    assumed_sizes(run, place, ledger);
    let (foot, end_feet) = feet(run, place, ledger);
    let gates = gates(&run.gates, place, ledger);
    let pins = pins(&run.pins, place, ledger);
    let good = SoundRun {
        id: run.id.clone(),
        name: run.name.clone(),
        line: line?,
        side,
        gap: gap?,
        start: start?,
        end: end?,
        foot,
        end_feet,
        width: width?,
        depth: depth?,
        bay_max: bay_max?,
        bay_fit: bays.fit,
        gates,
        pins,
        kept: Vec::new(),
        index,
    };
    ends_apart(&good, place, ledger)?;
    corners_on_line(&good, place, sound, ledger)?;
    Some(good)
}

fn side_of(run: &Run, place: FilePlace<'_>, ledger: &mut Ledger) -> Side {
    run.side.unwrap_or_else(|| {
        ledger.problems.warning(
            place.key("side"),
            format!(
                "Run “{}” does not say on which side of its string the posts stand; left is taken.",
                run.called()
            ),
            "Say left or right, as seen looking along the string.",
        );
        Side::Left
    })
}

fn assumed_sizes(run: &Run, place: FilePlace<'_>, ledger: &mut Ledger) {
    if run.post.is_none() {
        ledger.problems.warning(
            place.key("post"),
            format!(
                "Run “{}” has no post size; 100 by 100 is taken.",
                run.called()
            ),
            "Enter the size of its posts.",
        );
    }
    if run.bays.is_none() {
        ledger.problems.warning(
            place.key("bays"),
            format!("Run “{}” has no longest bay; 1800 is taken.", run.called()),
            "Enter the longest bay, centre to centre.",
        );
    }
}

/// Ticked-off posts must be on a run of the job; [`crate::setout`] sees whether the run has them.
pub(super) fn marked(job: &Job, runs: &Runs, sound: &mut Sound, ledger: &mut Ledger) {
    let list = FilePlace::File.key("marked");
    for (index, marked) in job.marked.iter().enumerate() {
        let place = list.nth(index);
        ledger.unknown_keys(place, &marked.extra);
        let run = runs.find(&marked.run, "run", place.key("run"), ledger);
        let measured = marked.measured.and_then(|measured| {
            ledger.any(place.key("measured"), measured, "running reading as built")
        });
        let off = marked
            .off
            .and_then(|off| ledger.any(place.key("off"), off, "distance off the string as built"));
        if !marked.keep {
            continue;
        }
        if marked.measured.is_none() {
            ledger.problems.warning(
                place.key("measured"),
                format!(
                    "Post {} is to be kept where it stands, but nothing says where that is.",
                    marked.post
                ),
                "Measure its centre from the run's zero.",
            );
        }
        let run = run.and_then(|RunIx(at)| sound.runs.get_mut(at));
        if let (Some(run), Some(measured)) = (run, measured) {
            run.kept.push(SoundKept {
                n: marked.post as usize,
                measured,
                off,
                index,
            });
        }
    }
}
