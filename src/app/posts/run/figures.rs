//! The figures of a run that are typed: its gap, posts, bays, gates, pins, corner post and hole.

use crate::app::desk::{Desk, FigureOf, problems_of, run_fix};
use crate::app::kit::{KeypadFigure, Slot, beside, capital, counted, status};
use crate::app::names::run_name;
use crate::job::edit::{Change, Edit, Setting};
use crate::job::model::{Corner, CornerPost, End, Gate, Hole, Job, Leaf, Lock, Pin, Run};
use crate::job::{CornerId, Severity};
use crate::length;
use tautmark_ui::{Status, Verdict};

/// A figure asked for at the run at this place in the file: what the run comes to with it is said.
fn at_run(run: usize, label: &str, figure: KeypadFigure) -> KeypadFigure {
    let named = format!("**{label}**");
    let name = move |job: &Job| job.runs.get(run).map(run_name).unwrap_or_default();
    figure
        .keyed(label)
        .of(FigureOf::Run(run))
        .titled(move |job| format!("{}, {named}", name(job)))
        .judged(move |desk, _| comes_to(desk, run))
}

fn of_run(
    at: usize,
    label: &str,
    slot: impl Fn(&mut Run) -> Option<&mut dyn Slot> + Clone + 'static,
) -> KeypadFigure {
    let run = move |job: &Job| job.runs.get(at).cloned();
    let put = move |value| Edit::Run(Change::Replace { at, value });
    at_run(at, label, KeypadFigure::kept(label, run, slot, put))
}

/// From the string to the posts.
pub fn gap(run: usize) -> KeypadFigure {
    of_run(run, "String to post face", |run| Some(&mut run.gap))
        .noted("Square off the string, to the face of the posts.")
}

/// A post along the string; its depth comes next.
pub fn post_width(run: usize) -> KeypadFigure {
    let width = of_run(run, "Post, along the string", |run| {
        Some(&mut run.post.get_or_insert_default().width)
    });
    width.confirmed_by_next().followed_by(&post_depth(run))
}

pub fn post_depth(run: usize) -> KeypadFigure {
    of_run(run, "Post, square to it", |run| {
        Some(&mut run.post.get_or_insert_default().depth)
    })
}

pub fn longest_bay(run: usize) -> KeypadFigure {
    let longest = of_run(run, "Longest bay", |run| {
        Some(&mut run.bays.get_or_insert_default().max)
    });
    let longest = longest.confirmed_by_next();
    longest.noted("Centre to centre.")
}

/// The run's end as a length from its start.
pub fn end_length(run: usize) -> KeypadFigure {
    let length = of_run(run, "Length from the start", |run| {
        let End { length, extra, .. } = run.end.take().unwrap_or_default();
        let end = End {
            length,
            extra,
            ..End::default()
        };
        Some(&mut run.end.insert(end).length)
    });
    length.noted("Along the string, to the centre of the last post.")
}

/// Where a gate starts; its opening comes next, once the gate is there.
fn gate_start(run: usize, i: usize, label: &str, figure: KeypadFigure) -> KeypadFigure {
    at_run(run, label, figure)
        .noted("On the tape, from the run’s zero to the edge of the opening.")
        .then(move |job| {
            let gates = &job.runs.get(run)?.gates;
            (i < gates.len()).then(|| gate_clear(run, i))
        })
}

pub fn gate_at(run: usize, i: usize) -> KeypadFigure {
    let label = format!("Gate {} starts at", i + 1);
    let figure = of_run(run, &label, move |run| Some(&mut run.gates.get_mut(i)?.at));
    gate_start(run, i, &label, figure)
        .keyed("starts")
        .of(FigureOf::Gate(run, i))
}

/// A further gate, behind the others in the list.
pub fn new_gate(run: usize, at: usize) -> KeypadFigure {
    let label = format!("Gate {} starts at", at + 1);
    let figure = KeypadFigure::new(
        &label,
        |_| None,
        move |_, value| {
            let value = Gate {
                at: Some(value),
                ..Gate::default()
            };
            let change = Change::Insert { at, value };
            Some(Edit::Gate { run, change })
        },
    );
    gate_start(run, at, &label, figure)
}

pub fn gate_clear(run: usize, i: usize) -> KeypadFigure {
    let label = format!("Gate {} opening", i + 1);
    of_run(run, &label, move |run| {
        Some(&mut run.gates.get_mut(i)?.clear)
    })
    .keyed("opening")
    .of(FigureOf::Gate(run, i))
    .noted("Clear, from face to face of the gate posts.")
}

fn of_leaf(
    run: usize,
    i: usize,
    what: &'static str,
    slot: fn(&mut Leaf) -> &mut f64,
) -> KeypadFigure {
    let label = format!("Gate {} {what}", i + 1);
    of_run(run, &label, move |run| {
        let leaf = run.gates.get_mut(i)?.leaf.as_mut()?;
        Some(slot(leaf))
    })
    .keyed(what)
    .of(FigureOf::Gate(run, i))
}

/// The gaps round a gate's leaf, one after the other.
pub fn leaf_gaps(run: usize, i: usize) -> [KeypadFigure; 3] {
    let under = of_leaf(run, i, "gap under the leaf", |leaf| &mut leaf.ground);
    let latch = of_leaf(run, i, "gap at the latch", |leaf| &mut leaf.latch);
    let hinge = of_leaf(run, i, "gap at the hinges", |leaf| &mut leaf.hinge);
    let latch = latch.followed_by(&under);
    [hinge.followed_by(&latch), latch, under]
}

/// What its frame is made of.
pub fn leaf_frame(run: usize, i: usize) -> [KeypadFigure; 3] {
    [
        of_leaf(run, i, "frame, width of a member", |leaf| &mut leaf.stile),
        of_leaf(run, i, "frame, thickness", |leaf| &mut leaf.thick),
        of_leaf(run, i, "face boards, thickness", |leaf| &mut leaf.face),
    ]
}

fn of_lock(
    run: usize,
    i: usize,
    what: &'static str,
    slot: fn(&mut Lock) -> Option<&mut f64>,
) -> KeypadFigure {
    let label = format!("Gate {} {what}", i + 1);
    of_run(run, &label, move |run| {
        let lock = run.gates.get_mut(i)?.lock.as_mut()?;
        slot(lock).map(|size| size as &mut dyn Slot)
    })
    .keyed(what)
    .of(FigureOf::Gate(run, i))
}

/// Where its lock goes and how large it is.
pub fn lock_sizes(run: usize, i: usize) -> [KeypadFigure; 3] {
    [
        of_lock(run, i, "lock, centre above the leaf’s bottom", |lock| {
            Some(&mut lock.height)
        }),
        of_lock(run, i, "lock, spindle from the leaf’s edge", |lock| {
            Some(&mut lock.backset)
        }),
        of_lock(run, i, "lock, width of its case", |lock| {
            Some(&mut lock.case)
        }),
    ]
}

/// The tapered board under the lock.
pub fn offcut_sizes(run: usize, i: usize) -> [KeypadFigure; 3] {
    [
        of_lock(run, i, "tapered board, thin edge", |lock| {
            Some(&mut lock.offcut.as_mut()?.thin)
        }),
        of_lock(run, i, "tapered board, width", |lock| {
            Some(&mut lock.offcut.as_mut()?.width)
        }),
        of_lock(run, i, "thin edge to the lock", |lock| {
            Some(&mut lock.offcut.as_mut()?.from)
        }),
    ]
}

const PINNED: &str = "Its centre on the tape, from the run’s zero.";

/// Where a pinned post is. One that is measured anew is no longer the one that stood there.
pub fn pin_at(run: usize, i: usize) -> KeypadFigure {
    let pin = of_run(run, &format!("Pinned post {}", i + 1), move |run| {
        let pin = run.pins.get_mut(i)?;
        pin.stands = false;
        Some(&mut pin.at)
    });
    pin.keyed("pinned").of(FigureOf::Pin(run, i)).noted(PINNED)
}

/// A further pin, behind the others in the list.
pub fn new_pin(run: usize, at: usize) -> KeypadFigure {
    let label = format!("Pinned post {}", at + 1);
    let figure = KeypadFigure::new(
        &label,
        |_| None,
        move |_, value| {
            let value = Pin {
                at: Some(value),
                ..Pin::default()
            };
            let change = Change::Insert { at, value };
            Some(Edit::Pin { run, change })
        },
    );
    at_run(run, &label, figure).noted(PINNED)
}

/// The corner at the run's start or end (the first of them), by its place in the file.
#[must_use]
pub fn corner_of<'a>(job: &'a Job, run: &Run) -> Option<(usize, &'a Corner)> {
    let ends = [&run.start, &run.end].into_iter().flatten();
    let ids: Vec<&CornerId> = ends.filter_map(|end| end.corner.as_ref()).collect();
    let mut corners = job.corners.iter().enumerate();
    corners.find(|(_, corner)| ids.contains(&&corner.id))
}

fn of_corner(run: usize, label: &str, slot: fn(&mut CornerPost) -> &mut f64) -> KeypadFigure {
    let corner = move |job: &Job| {
        let (at, corner) = corner_of(job, job.runs.get(run)?)?;
        Some((at, corner.clone()))
    };
    let figure = KeypadFigure::kept(
        label,
        corner,
        move |(_, corner)| Some(slot(corner.post.get_or_insert_default())),
        |(at, value)| Edit::Corner(Change::Replace { at, value }),
    );
    at_run(run, label, figure)
}

/// The size of the post at the run's corner: its width, then its depth.
pub fn corner_post(run: usize) -> [KeypadFigure; 2] {
    let depth = of_corner(run, "Corner post, depth", |post| &mut post.depth);
    let width = of_corner(run, "Corner post, width", |post| &mut post.width);
    [width.followed_by(&depth), depth]
}

fn of_hole(run: usize, label: &str, slot: fn(&mut Hole) -> &mut f64) -> KeypadFigure {
    let figure = KeypadFigure::kept(
        label,
        |job| Some(job.hole.clone()),
        move |hole| Some(slot(hole)),
        |hole| Edit::Set(Setting::Hole(hole)),
    );
    at_run(run, label, figure)
}

/// The hole of every post: how wide, then how deep.
pub fn hole(run: usize) -> [KeypadFigure; 2] {
    let depth = of_hole(run, "Depth of hole", |hole| &mut hole.depth);
    let across = of_hole(run, "Diameter of hole", |hole| &mut hole.diameter);
    [across.followed_by(&depth), depth]
}

pub fn tolerance(run: usize) -> KeypadFigure {
    let label = "A post may stand off by";
    let figure = KeypadFigure::kept(
        label,
        |job| Some(job.tolerance.clone()),
        |tolerance| Some(&mut tolerance.length),
        |tolerance| Edit::Set(Setting::Tolerance(tolerance)),
    );
    at_run(run, label, figure).noted("Along the string or across it, before it counts as out.")
}

/// What is wrong with the run, or how many posts it comes to.
fn comes_to(desk: &Desk, run: usize) -> Option<Status> {
    let problems = problems_of(desk, run);
    let mut problems = problems.iter();
    if let Some(wrong) = problems.find(|problem| problem.severity == Severity::Error) {
        return Some(beside(wrong));
    }
    let job = desk.job();
    let fix = run_fix(desk, job.runs.get(run)?)?;
    let bays = fix.posts.iter();
    let bays = bays.filter(|post| !fix.gate_after(post.n.saturating_sub(1)));
    let longest = bays.filter_map(|post| post.bay).fold(0.0, f64::max);
    let text = format!(
        "{}, bays up to **{}**.",
        capital(&counted(fix.posts.len(), "post", "posts")),
        length::show(longest, job.show.lengths)
    );
    Some(status(Verdict::Good, &text))
}
