//! Mark heights: one post at a time, everything that is marked on it from one laser line.

use super::level_names::run_called;
use super::run_names::{end_name, marked};
use super::words::{fact, status};
use super::{Bridge, Desk, Then, caution};
use crate::boards::{BayAt, PostHeights};
use crate::cautions::LASER;
use crate::job::edit::Edit;
use crate::job::model::{Marked, Run};
use crate::job::{RunId, SetupId};
use crate::length::{self, Unit};
use crate::levels::SetupFix;
use slint::Global;
use std::rc::Rc;
use tautmark_ui::{App, Fact, FrameVm, HeightsVm, Nav, Page, Status, Verdict};

pub(super) fn wire(app: &App, bridge: &Rc<Bridge>) {
    let vm = HeightsVm::get(app);
    let at = bridge.clone();
    vm.on_asked(move |id| at.act(|desk| explain(desk, &id)));
    let at = bridge.clone();
    vm.on_caution_pressed(move || at.act(|desk| caution::open(desk, &LASER)));
    let at = bridge.clone();
    vm.on_go_before(move || {
        at.act(|desk| {
            if let Some(n) = neighbours(desk).0 {
                desk.chosen.post = n;
            }
            Then::Stay
        });
    });
    let at = bridge.clone();
    vm.on_pick_set_up(move || {
        at.act(|desk| {
            next_setup(desk);
            Then::Stay
        });
    });
    let at = bridge.clone();
    vm.on_tick(move || at.act(tick));
}

pub(super) fn fill(app: &App, desk: &Desk) {
    if Nav::get(app).get_page() != Page::Heights {
        return;
    }
    let vm = HeightsVm::get(app);
    if let Some(run) = desk.job().runs.get(desk.chosen.run) {
        let name = run_called(desk.job(), &run.id);
        let title = format!("{name} · post {} heights", desk.chosen.post);
        FrameVm::get(app).set_title(title.into());
    }
    vm.set_status(standing(desk));
    let (dig, gap) = facts(desk);
    vm.set_dig(dig);
    vm.set_gap(gap);
    let setup = setup_in_sight(desk).map(|(id, _)| format!("Set-up {id}"));
    vm.set_set_up(setup.unwrap_or_else(|| "Set-up".to_owned()).into());
    let number = |n: Option<usize>| n.map(|n| n.to_string()).unwrap_or_default();
    let (before, after) = neighbours(desk);
    vm.set_before(number(before).into());
    vm.set_after(number(after).into());
    vm.set_caution(LASER.short.into());
}

/// Something on it can be marked.
fn is_known(post: &PostHeights) -> bool {
    post.top.is_some() || post.before.is_some() || post.after.is_some()
}

fn posts<'a>(desk: &'a Desk, run: &RunId) -> impl Iterator<Item = &'a PostHeights> + Clone {
    let boards = desk.solution.boards.get(run);
    let posts = boards.map_or(&[][..], |boards| boards.posts.as_slice());
    posts.iter().filter(|post| is_known(post))
}

fn is_marked(desk: &Desk, run: &Run, n: usize) -> bool {
    marked(desk.job(), run, n).is_some_and(|one| one.heights)
}

/// The run (by its place) and post to go on with: the one in sight where it is still to be marked,
/// else the next in its run, else the first anywhere; `None` while no height is known.
pub(super) fn first_to_mark(desk: &Desk) -> Option<(usize, usize)> {
    let runs = &desk.job().runs;
    let chosen = desk.chosen.run;
    let in_order = (chosen..runs.len()).chain(0..chosen.min(runs.len()));
    let all: Vec<(usize, usize)> = in_order
        .filter_map(|at| Some((at, runs.get(at)?)))
        .flat_map(|(at, run)| posts(desk, &run.id).map(move |post| (at, post.n)))
        .collect();
    let is_open = |&&(at, n): &&(usize, usize)| {
        let run = runs.get(at);
        run.is_some_and(|run| !is_marked(desk, run, n))
    };
    let in_sight = (chosen, desk.chosen.post);
    let open = all.iter().filter(is_open);
    let first = open
        .clone()
        .find(|one| **one >= in_sight && one.0 == chosen);
    first
        .or_else(|| open.clone().next())
        .or(all.first())
        .copied()
}

/// Opens the page at the post to go on with, from the line of its run's own set-up.
pub(super) fn start(desk: &mut Desk) -> Then {
    let Some((run, post)) = first_to_mark(desk) else {
        desk.say("No height is known yet: sight the datum and the ground along a run.");
        return Then::Stay;
    };
    (desk.chosen.run, desk.chosen.post) = (run, post);
    let own = desk
        .job()
        .runs
        .get(run)
        .and_then(|run| desk.solution.boards.get(&run.id)?.setup.as_ref());
    let own = own.and_then(|id| place_of(desk, id));
    desk.chosen.setup = own.unwrap_or(desk.chosen.setup);
    caution::once(desk, &LASER);
    Then::Open(Page::Heights)
}

/// The same from the line of this set-up.
pub(super) fn start_from(desk: &mut Desk, setup: usize) -> Then {
    let then = start(desk);
    desk.chosen.setup = setup;
    then
}

fn place_of(desk: &Desk, id: &SetupId) -> Option<usize> {
    let mut setups = desk.job().levels.setups.iter();
    setups.position(|setup| setup.id == *id)
}

/// The set-up whose line is measured from, where its height is known.
pub(super) fn setup_in_sight(desk: &Desk) -> Option<(&SetupId, &SetupFix)> {
    let id = &desk.job().levels.setups.get(desk.chosen.setup)?.id;
    let fix = desk.solution.levels.as_ref()?.setups.get(id)?;
    Some((id, fix))
}

/// Goes to the next set-up with a known line, round and round.
fn next_setup(desk: &mut Desk) {
    let setups = &desk.job().levels.setups;
    let count = setups.len();
    let known = |at: &usize| {
        let id = setups.get(*at).map(|setup| &setup.id);
        let levels = desk.solution.levels.as_ref();
        id.zip(levels)
            .is_some_and(|(id, levels)| levels.setups.contains_key(id))
    };
    let round = (1..=count).map(|step| (desk.chosen.setup + step) % count.max(1));
    if let Some(next) = round.into_iter().find(known) {
        desk.chosen.setup = next;
    }
}

/// The posts with heights before and after the one in sight, in its run.
fn neighbours(desk: &Desk) -> (Option<usize>, Option<usize>) {
    let Some(run) = desk.job().runs.get(desk.chosen.run) else {
        return (None, None);
    };
    let here = desk.chosen.post;
    let before = posts(desk, &run.id).map(|post| post.n);
    let after = before.clone().find(|&n| n > here);
    (before.filter(|&n| n < here).last(), after)
}

fn in_sight(desk: &Desk) -> Option<(&Run, &PostHeights)> {
    let run = desk.job().runs.get(desk.chosen.run)?;
    let post = posts(desk, &run.id).find(|post| post.n == desk.chosen.post)?;
    Some((run, post))
}

/// Notes that the post's heights are on it and goes to the next one.
fn tick(desk: &mut Desk) -> Then {
    let Some((run, post)) = in_sight(desk) else {
        return Then::Stay;
    };
    let (id, n) = (run.id.clone(), post.n);
    if !is_marked(desk, run, n) {
        let there = marked(desk.saved(), run, n).cloned();
        let value = Marked {
            run: id.clone(),
            post: u32::try_from(n).unwrap_or(u32::MAX),
            heights: true,
            ..there.unwrap_or_default()
        };
        if !desk.change(Edit::mark_post(desk.saved(), value)) {
            return Then::Stay;
        }
    }
    if let Some(next) = neighbours(desk).1 {
        desk.chosen.post = next;
        return Then::Stay;
    }
    let name = run_called(desk.job(), &id);
    desk.say(&format!("{name}: the last post is marked."));
    Then::Back
}

/// What lies to either side of a post, in words.
struct Sides {
    before: String,
    after: String,
}

impl Sides {
    fn of(desk: &Desk, run: &Run, post: &PostHeights) -> Self {
        let job = desk.job();
        let side = |end, usual: &str| {
            let name = end_name(job, end).unwrap_or_else(|| usual.to_owned());
            format!("towards {name}")
        };
        let mut sides = Self {
            before: side(run.start.as_ref(), "the start"),
            after: side(run.end.as_ref(), "the end"),
        };
        if post.shared.is_some() {
            let round = "round the corner".to_owned();
            if post.n == 1 {
                sides.before = round;
            } else {
                sides.after = round;
            }
        }
        sides
    }
}

fn standing(desk: &Desk) -> Status {
    let found = in_sight(desk).zip(setup_in_sight(desk));
    let Some(((run, post), (setup, fix))) = found else {
        return missing(desk);
    };
    let unit = desk.job().show.lengths;
    let step = step_here(post, &Sides::of(desk, run, post), unit);
    let pm = fix.mark_pm(desk.job().level.reading);
    let text = format!(
        "{step}Measure from the line of set-up **{setup}**, in {}: ▲ up, ▼ down. Sure to {}.",
        unit_words(unit),
        length::show_pm(pm, unit)
    );
    if is_marked(desk, run, post.n) {
        return status(Verdict::Good, &format!("**Marked.** {text}"));
    }
    status(Verdict::Note, &text)
}

fn step_here(post: &PostHeights, sides: &Sides, unit: Unit) -> String {
    let Some(step) = post.step else {
        return String::new();
    };
    let by = length::show(step.abs(), unit);
    if by == length::show(0.0, unit) {
        return "**No step here.** ".to_owned();
    }
    let way = if step < 0.0 { "down" } else { "up" };
    format!("**Step here: {by} {way}** {}. ", sides.after)
}

fn unit_words(unit: Unit) -> &'static str {
    match unit {
        Unit::Mm => "mm",
        Unit::M => "metres",
        Unit::FtIn => "feet and inches",
    }
}

fn missing(desk: &Desk) -> Status {
    let why = desk.solution.problems.iter();
    let why = why.clone().find(|one| one.place.starts_with("levels"));
    let why = why.map_or_else(
        || "Sight the datum and the ground along this run.".to_owned(),
        |problem| format!("{} {}", problem.text, problem.remedy),
    );
    let text = format!("**No heights for this post yet.** {why}");
    status(Verdict::Attention, &text)
}

/// The side on which a figure is largest, with that figure.
fn largest(
    post: &PostHeights,
    sides: &Sides,
    of: fn(&BayAt) -> Option<f64>,
) -> Option<(f64, String)> {
    let before = post.before.as_ref().and_then(of);
    let after = post.after.as_ref().and_then(of);
    match (before, after) {
        (Some(a), Some(b)) if a == b => Some((a, String::new())),
        (Some(a), Some(b)) if a > b => Some((a, format!(" {}", sides.before))),
        (Some(_), Some(b)) => Some((b, format!(" {}", sides.after))),
        (one, other) => one.or(other).map(|value| (value, String::new())),
    }
}

fn facts(desk: &Desk) -> (Fact, Fact) {
    let Some((run, post)) = in_sight(desk) else {
        return (fact("", "", "", ""), fact("", "", "", ""));
    };
    let unit = desk.job().show.lengths;
    let sides = Sides::of(desk, run, post);
    let dig = largest(post, &sides, |bay| bay.dig);
    let gap = largest(post, &sides, |bay| bay.gap);
    let above = post.above.map(|above| {
        let above = length::show(above, unit);
        fact("above", "Post above the ground", &above, "")
    });
    let dig = dig.map(|(dig, side)| {
        let figure = length::show(dig, unit);
        fact("dig", &format!("Dig out{side}"), &figure, "")
    });
    let gap = gap.map(|(gap, side)| gap_fact(desk, gap, &side));
    let none = || fact("", "", "", "");
    match dig {
        Some(dig) => (dig, gap.unwrap_or_else(none)),
        None => (above.unwrap_or_else(none), none()),
    }
}

fn gap_fact(desk: &Desk, gap: f64, side: &str) -> Fact {
    let unit = desk.job().show.lengths;
    let accepted = desk.job().boards.gravel.as_ref().map(|gravel| gravel.gap);
    let over = accepted.filter(|accepted| gap > *accepted);
    let tail = match over {
        Some(accepted) => format!("more than {}", length::show(accepted, unit)),
        None if gap < 0.0 => "let in".to_owned(),
        None => String::new(),
    };
    let figure = length::show(gap.abs(), unit);
    let label = if gap < 0.0 {
        "Below the ground"
    } else {
        "Gap under"
    };
    Fact {
        verdict: over.map_or(Verdict::None, |_| Verdict::Attention),
        ..fact("gap", &format!("{label}{side}"), &figure, &tail)
    }
}

/// Says in one sentence where a figure comes from.
fn explain(desk: &mut Desk, id: &str) -> Then {
    let Some((_, post)) = in_sight(desk) else {
        return Then::Stay;
    };
    let unit = desk.job().show.lengths;
    let said = |mm: f64| length::show_with_unit(mm, unit);
    let ground = post.ground.map_or_else(|| "—".to_owned(), said);
    let gravel = desk.job().boards.gravel.clone().unwrap_or_default();
    let (title, text) = match id {
        "dig" => (
            "Dig out",
            format!(
                "The ground at this post, straight between the ground points sighted on the run, \
                 is at {ground}; the gravel board and its clearance of {} must fit in below it.",
                said(gravel.clearance)
            ),
        ),
        "gap" => (
            "Gap under the gravel board",
            format!(
                "The bottom of the gravel board less the ground at this post, which is at \
                 {ground} straight between the ground points sighted on the run; you accept {}.",
                said(gravel.gap)
            ),
        ),
        _ => (
            "Post above the ground",
            format!(
                "From the ground at this post, at {ground} straight between the ground points \
                 sighted on the run, to the top of the post."
            ),
        ),
    };
    desk.explain(title, &text);
    Then::Stay
}
