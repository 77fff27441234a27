//! Mark out: one post at a time, where it goes on the tape and how it stands.

use super::as_built::{BuiltFigure, Way};
use super::mark_out_facts::{bay, behind, built, how, tapes};
use super::posts::{face_reading, fix};
use super::respace::{can_respace, respacing};
use super::run_names::{marked, run_in_sight, run_name};
use super::words::{counted, fact, said, silence};
use super::{Bridge, Desk, Then, caution, mark_out_said};
use crate::cautions::SERVICES;
use crate::job::Problem;
use crate::job::edit::{Change, Edit};
use crate::job::model::{Marked, Run};
use crate::length;
use crate::setout::{Post, PostKind, RunFix, post_called};
use slint::Global;
use std::rc::Rc;
use tautmark_ui::{App, FrameVm, MarkOutVm, Nav, Page};

/// The post being marked out, and the run it is of.
#[derive(Clone, Copy)]
pub(super) struct Sight<'a> {
    /// Place of the run in the file.
    pub at: usize,
    pub run: &'a Run,
    pub fix: &'a RunFix,
    pub post: &'a Post,
}

/// The post in sight; `None` where its run is not settled.
#[must_use]
pub(super) fn sight(desk: &Desk) -> Option<Sight<'_>> {
    let (at, run) = run_in_sight(desk)?;
    let fix = fix(desk, run)?;
    let last = fix.posts.len().checked_sub(1)?;
    let post = fix
        .posts
        .get(desk.chosen.post.saturating_sub(1).min(last))?;
    Some(Sight { at, run, fix, post })
}

/// Opens a post of the run in sight. The caution comes first in full as long as no post of this
/// job has been marked out.
pub(super) fn open(desk: &mut Desk, post: usize) -> Then {
    desk.chosen.post = post;
    if desk.job().marked.is_empty() {
        caution::once(desk, &SERVICES);
    }
    Then::Open(Page::MarkOut)
}

pub(super) fn wire(app: &App, bridge: &Rc<Bridge>) {
    let vm = MarkOutVm::get(app);
    let at = bridge.clone();
    vm.on_face_picked(move |index| {
        at.act(|desk| {
            desk.chosen.face = usize::try_from(index).unwrap_or(0);
            Then::Stay
        });
    });
    let at = bridge.clone();
    vm.on_asked(move |id| {
        at.act(|desk| {
            if id == "trouble" {
                explain_troubles(desk);
            } else if let Some((title, text)) = mark_out_said::origin(desk, &id) {
                desk.explain(&title, &text);
            }
            Then::Stay
        });
    });
    let at = bridge.clone();
    vm.on_caution_pressed(move || {
        at.act(|desk| caution::open(desk, &SERVICES));
    });
    let at = bridge.clone();
    vm.on_go_before(move || {
        at.act(|desk| {
            let n = sight(desk).map_or(1, |sight| sight.post.n);
            desk.chosen.post = n.saturating_sub(1).max(1);
            Then::Stay
        });
    });
    let at = bridge.clone();
    vm.on_as_built(move || at.act(ask_as_built));
    let at = bridge.clone();
    vm.on_respace_pressed(move || at.act(respace));
    let at = bridge.clone();
    vm.on_tick(move || at.act(tick));
}

fn ask_as_built(desk: &mut Desk) -> Then {
    let Some((run, post)) = sight(desk).map(|sight| (sight.at, sight.post.n)) else {
        return Then::Stay;
    };
    let way = Way::Along;
    desk.ask(Box::new(BuiltFigure { run, post, way }));
    Then::Keypad
}

fn respace(desk: &mut Desk) -> Then {
    let edit = sight(desk).and_then(|sight| respacing(desk.saved(), sight.at, sight.fix));
    if let Some(edit) = edit {
        desk.change(edit);
    }
    Then::Stay
}

/// Ticks the post and goes to the next; after the last one, back to the run.
fn tick(desk: &mut Desk) -> Then {
    let Some(sight) = sight(desk) else {
        return Then::Stay;
    };
    let (n, last) = (sight.post.n, sight.fix.posts.len());
    let edits = ticks(desk, &sight);
    if !edits.is_empty() && !desk.change(Edit::Many(edits)) {
        return Then::Stay;
    }
    if n < last {
        desk.chosen.post = n + 1;
        Then::Stay
    } else {
        Then::Back
    }
}

/// The ticks that are not there yet; a corner post is ticked in both of its runs.
fn ticks(desk: &Desk, sight: &Sight<'_>) -> Vec<Edit> {
    let job = desk.saved();
    let own = [(sight.run, sight.post)];
    let others = job
        .runs
        .iter()
        .filter(|run| run.id != sight.run.id)
        .filter_map(|run| Some((run, twin(fix(desk, run)?, sight.post)?)));
    let posts = own.into_iter().chain(others);
    // A tick is put in only once each, so that places in the list stay what they are.
    let mut fresh = job.marked.len();
    posts
        .filter_map(|(run, post)| {
            let known = marked(job, run, post.n);
            if known.is_some_and(|one| one.done) {
                return None;
            }
            let mut value = known.cloned().unwrap_or(Marked {
                run: run.id.clone(),
                post: u32::try_from(post.n).ok()?,
                ..Marked::default()
            });
            value.done = true;
            Some(match Edit::mark_post(job, value) {
                Edit::Marked(Change::Insert { value, .. }) => {
                    let at = fresh;
                    fresh += 1;
                    Edit::Marked(Change::Insert { at, value })
                }
                edit => edit,
            })
        })
        .collect()
}

/// The same corner post in another run.
#[must_use]
pub(super) fn twin<'a>(fix: &'a RunFix, post: &Post) -> Option<&'a Post> {
    let same = |other: &&Post| other.kind == PostKind::Corner && other.apart(post) < 1.0;
    if post.kind == PostKind::Corner {
        fix.posts.iter().find(same)
    } else {
        None
    }
}

pub(super) fn fill(app: &App, desk: &Desk) {
    if Nav::get(app).get_page() != Page::MarkOut {
        return;
    }
    let vm = MarkOutVm::get(app);
    let Some(sight) = sight(desk) else {
        return fill_unsettled(&vm);
    };
    let job = desk.job();
    let unit = job.show.lengths;
    let Sight { run, fix, post, .. } = sight;
    FrameVm::get(app).set_title(title(run, post, fix).into());
    let face = desk.chosen.face;
    let reading = face_reading(post, face);
    let (how, plain) = said(&how(job, run, face, reading));
    vm.set_how(how);
    vm.set_how_plain(plain);
    vm.set_figure(length::show(reading, unit).into());
    vm.set_tail(length::show_pm(post.pm, unit).into());
    vm.set_face(i32::try_from(desk.chosen.face).unwrap_or(0));
    vm.set_hole(fact(
        "hole",
        "Hole centre, on the tape",
        &length::show(post.centre, unit),
        "",
    ));
    vm.set_behind(behind(job, run, post));
    vm.set_bay(bay(job, fix, post));
    vm.set_tapes(tapes(job, post));
    vm.set_built(built(desk, &sight));
    vm.set_trouble(trouble(desk).into());
    vm.set_settled(true);
    let respace = can_respace(job, run, fix);
    vm.set_respace(
        if respace {
            "Re-space the bays to come"
        } else {
            ""
        }
        .into(),
    );
    vm.set_caution(SERVICES.short.into());
    let before = post.n.checked_sub(1).filter(|&n| n > 0);
    vm.set_before(before.map(|n| n.to_string()).unwrap_or_default().into());
    let after = Some(post.n + 1).filter(|&n| n <= fix.posts.len());
    vm.set_after(after.map(|n| n.to_string()).unwrap_or_default().into());
    vm.set_marked(marked(job, run, post.n).is_some_and(|one| one.done));
}

/// What the problems say of the post in sight, the gravest first.
fn troubles(desk: &Desk) -> Vec<&Problem> {
    let Some(sight) = sight(desk) else {
        return Vec::new();
    };
    let called = post_called(sight.run.called(), sight.post.n);
    let named = |problem: &&Problem| {
        let text = problem.text.to_lowercase();
        text.contains(&called.to_lowercase())
    };
    let mut own: Vec<&Problem> = desk.solution.problems.iter().filter(named).collect();
    own.sort_by_key(|problem| problem.severity);
    own
}

/// The gravest of them in a line; empty where there is none.
fn trouble(desk: &Desk) -> String {
    let all = troubles(desk);
    match all.split_first() {
        None => String::new(),
        Some((first, [])) => first.text.clone(),
        Some((first, rest)) => {
            let more = counted(rest.len(), "thing more", "things more");
            format!("{} And {more}.", first.text)
        }
    }
}

fn explain_troubles(desk: &mut Desk) {
    let all = troubles(desk);
    let told = all
        .iter()
        .map(|one| format!("**{}** {}", one.text, one.remedy));
    let told = told.collect::<Vec<_>>().join("\n\n");
    desk.explain("About this post", &told);
}

/// The post before the run: a long name is cut at its end.
fn title(run: &Run, post: &Post, fix: &RunFix) -> String {
    format!("Post {} of {} · {}", post.n, fix.posts.len(), run_name(run))
}

/// An undo, say, took away what the posts hung on.
fn fill_unsettled(vm: &MarkOutVm<'_>) {
    let (how, plain) = said(
        "**The posts of this run are not settled yet.** Set up run says what they still wait for.",
    );
    vm.set_how(how);
    vm.set_how_plain(plain);
    vm.set_built(silence());
    vm.set_trouble("".into());
    vm.set_settled(false);
    vm.set_respace("".into());
    vm.set_before("".into());
    vm.set_after("".into());
    vm.set_marked(false);
}
