//! Mark out: one post at a time, where it goes on the tape and how it stands.

use super::as_built;
use super::facts::{bay, behind, built, how, tapes};
use super::sight::{AtPost, faces, post_in_sight, twin};
use super::{keep, why};
use crate::app::bridge::{Bridge, PagePicture, Screen, Spec};
use crate::app::desk::{Desk, Then, caution, run_fix};
use crate::app::kit::{counted, fact, patched, plan_of_run, said, silence};
use crate::app::names::{marked, run_name};
use crate::cautions::{Caution, MASONRY, OPEN_HOLES, SERVICES};
use crate::drawing::{Face, PostShow};
use crate::job::edit::Edit;
use crate::job::model::{Foot, Marked};
use crate::job::{Job, Problem};
use crate::length;
use crate::say;
use crate::setout::{Post, can_respace, respacing};
use crate::solve;
use slint::{Global, SharedString};
use std::rc::Rc;
use tautmark_ui::{App, MarkOutVm, Page, Place};

/// The page.
pub struct MarkOut;

impl Screen for MarkOut {
    fn spec(&self) -> Spec {
        Spec::inside(Place::Posts, Page::MarkOut, "mark-out")
    }

    fn wire(&self, app: &App, bridge: &Rc<Bridge>) {
        let vm = MarkOutVm::get(app);
        vm.on_face_picked(bridge.does_at(|desk, face| {
            desk.chosen.face = face;
            Then::Stay
        }));
        vm.on_asked(bridge.does_with(explain));
        vm.on_caution_pressed(bridge.does(|desk| {
            let cautions = cautions(desk);
            caution::open(desk, cautions)
        }));
        vm.on_go_before(bridge.does(|desk| {
            let n = post_in_sight(desk).map_or(1, |sight| sight.post.n);
            desk.chosen.post = n.saturating_sub(1).max(1);
            Then::Stay
        }));
        vm.on_as_built(bridge.does(ask_as_built));
        vm.on_respace_pressed(bridge.does(respace));
        vm.on_keep_pressed(bridge.does(keep::ask));
        vm.on_tick(bridge.does(tick));
    }

    /// The post before the run: a long name is cut at its end.
    fn title(&self, desk: &Desk) -> Option<String> {
        let AtPost { run, fix, post, .. } = post_in_sight(desk)?;
        let posts = fix.posts.len();
        Some(format!("Post {} of {posts} · {}", post.n, run_name(run)))
    }

    fn fill(&self, app: &App, desk: &Desk) -> bool {
        let vm = MarkOutVm::get(app);
        let Some(sight) = post_in_sight(desk) else {
            fill_unsettled(&vm);
            return false;
        };
        let job = desk.job();
        let unit = job.show.lengths;
        let AtPost { run, fix, post, .. } = sight;
        let face = sight.face(desk);
        let reading = sight.reading(face);
        let (how, plain) = said(&how(job, &sight, face, reading));
        let names = faces(post).iter().map(|name| SharedString::from(*name));
        vm.set_faces(patched(vm.get_faces(), names.collect()));
        vm.set_how(how);
        vm.set_how_plain(plain);
        vm.set_figure(length::show(reading, unit).into());
        vm.set_tail(length::show_pm_with_unit(post.pm, unit).into());
        vm.set_face(i32::try_from(face).unwrap_or(0));
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
        let respace = can_respace(job, run, fix).then_some("Re-space the bays to come");
        vm.set_respace(respace.unwrap_or_default().into());
        vm.set_keep(keep::offer(desk, &sight).into());
        vm.set_caution(caution::line(cautions(desk)));
        let before = post.n.checked_sub(1).filter(|&n| n > 0);
        vm.set_before(before.map(|n| n.to_string()).unwrap_or_default().into());
        let after = Some(post.n + 1).filter(|&n| n <= fix.posts.len());
        vm.set_after(after.map(|n| n.to_string()).unwrap_or_default().into());
        vm.set_marked(marked(job, run, post.n).is_some_and(|one| one.done));
        false
    }

    fn picture(&self, desk: &Desk) -> Option<PagePicture> {
        let face = match desk.chosen.face {
            0 => Face::Near,
            1 => Face::Centre,
            _ => Face::Far,
        };
        let n = desk.chosen.post;
        Some(PagePicture::Drawing(plan_of_run(desk, |show| {
            show.post = Some(PostShow { n, face });
        })))
    }

    /// The usual face goes without saying, as the person has it in the hand.
    fn aloud(&self, desk: &Desk) -> Option<String> {
        let sight = post_in_sight(desk)?;
        let face = sight.face(desk);
        let name = faces(sight.post).get(face).copied();
        let name = name.filter(|name| *name != "Near face").unwrap_or_default();
        let unit = desk.job().show.lengths;
        Some(say::post(sight.post.n, name, sight.reading(face), unit))
    }
}

/// What can hurt at the post in sight: in a wall, or in a hole.
fn cautions(desk: &Desk) -> &'static [Caution] {
    match post_in_sight(desk).map(|sight| sight.post.foot) {
        Some(Foot::Wall) => &[MASONRY],
        _ => &[SERVICES, OPEN_HOLES],
    }
}

/// Opens a post of the run in sight.
pub fn open(desk: &mut Desk, post: usize) -> Then {
    desk.chosen.post = post;
    warn(desk);
    Then::Open(Page::MarkOut)
}

/// Lays the cautions of the post in sight over the page in full, as long as no post that stands like it,
/// in a wall or in a hole, has been marked out.
fn warn(desk: &mut Desk) {
    let on_wall = |post: &Post| post.foot == Foot::Wall;
    let Some(here) = post_in_sight(desk).map(|sight| on_wall(sight.post)) else {
        return;
    };
    let known = desk.saved().marked.iter().any(|one| {
        let run = desk.solution.runs.get(&one.run);
        let post = run.and_then(|run| run.post(one.post as usize));
        post.is_some_and(|post| on_wall(post) == here)
    });
    if !known {
        let cautions = cautions(desk);
        caution::once(desk, cautions);
    }
}

fn explain(desk: &mut Desk, id: &str) -> Then {
    if id == "trouble" {
        return explain_troubles(desk);
    }
    let origin = why::origin(desk, id);
    origin.map_or(Then::Stay, |(title, text)| desk.explain(&title, &text))
}

fn ask_as_built(desk: &mut Desk) -> Then {
    let Some(sight) = post_in_sight(desk) else {
        return Then::Stay;
    };
    let face = sight.face(desk);
    let to_centre = sight.post.centre - sight.reading(face);
    let name = faces(sight.post).get(face).copied().unwrap_or("Centre");
    desk.ask(as_built::along(sight.at, sight.post.n, name, to_centre))
}

fn respace(desk: &mut Desk) -> Then {
    let edit = post_in_sight(desk).and_then(|sight| {
        let (job, id) = (desk.saved(), &sight.run.id);
        let spaced = |job: &Job| solve(job).runs.swap_remove(id);
        respacing(job, sight.at, sight.fix, spaced)
    });
    if let Some(edit) = edit {
        desk.change(edit);
    }
    Then::Stay
}

/// Ticks the post and goes to the next; after the last one, back to the run.
fn tick(desk: &mut Desk) -> Then {
    let Some(sight) = post_in_sight(desk) else {
        return Then::Stay;
    };
    let (n, last) = (sight.post.n, sight.fix.posts.len());
    let done = ticks(desk, &sight);
    if !done.is_empty() && !desk.change(Edit::mark_posts(desk.saved(), done)) {
        return Then::Stay;
    }
    if n < last {
        desk.chosen.post = n + 1;
        warn(desk);
        Then::Stay
    } else {
        Then::Back
    }
}

/// The ticks that are not there yet; a corner post is ticked in both of its runs.
fn ticks(desk: &Desk, sight: &AtPost<'_>) -> Vec<Marked> {
    let job = desk.saved();
    let own = [(sight.run, sight.post)];
    let others = job
        .runs
        .iter()
        .filter(|run| run.id != sight.run.id)
        .filter_map(|run| Some((run, twin(run_fix(desk, run)?, sight.post)?)));
    let posts = own.into_iter().chain(others);
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
            Some(value)
        })
        .collect()
}

/// What the problems say of the post in sight, the gravest first.
fn troubles(desk: &Desk) -> Vec<&Problem> {
    let Some(sight) = post_in_sight(desk) else {
        return Vec::new();
    };
    let (run, n) = (&sight.run.id, sight.post.n);
    let problems = desk.solution.problems.iter();
    let own = problems.filter(|problem| problem.place.concerns_post(run, n));
    let mut own: Vec<&Problem> = own.collect();
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

fn explain_troubles(desk: &mut Desk) -> Then {
    let all = troubles(desk);
    let told = all
        .iter()
        .map(|one| format!("**{}** {}", one.text, one.remedy));
    let told = told.collect::<Vec<_>>().join("\n\n");
    desk.explain("About this post", &told)
}

/// An undo, say, took away what the posts hung on.
fn fill_unsettled(vm: &MarkOutVm<'_>) {
    let (how, plain) = said(
        "**The posts of this run are not settled yet.** Run details say what they still wait for.",
    );
    vm.set_how(how);
    vm.set_how_plain(plain);
    vm.set_built(silence());
    vm.set_trouble("".into());
    vm.set_settled(false);
    vm.set_respace("".into());
    vm.set_keep("".into());
    vm.set_before("".into());
    vm.set_after("".into());
    vm.set_marked(false);
}
