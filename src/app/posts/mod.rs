//! Posts: the runs. A person sets a run up, sees where each post goes, and marks them out one by one.

mod as_built;
mod facts;
mod keep;
pub mod mark_out;
mod problems;
pub mod run;
mod sight;
mod why;

use crate::app::bridge::{Bridge, PagePicture, Screen, Spec};
use crate::app::desk::{Desk, Rows, Then, problems_of, run_fix, run_in_sight};
use crate::app::kit::{capital, counted, patched, plan_of_run, row, silence, status};
use crate::app::names::{face_reading, marked, post_name, runs_to_choose};
use crate::app::walls::standing::misled;
use crate::job::Problem;
use crate::job::model::Run;
use crate::length;
use crate::setout::{BuiltVerdict as Built, Post, RunFix};
use as_built::{deviation, stands};
use problems::{list_problems, to_look_at, told};
use slint::Global;
use std::rc::Rc;
use tautmark_ui::{App, Page, Place, PostsVm, RowItem, Status, StripBay, StripPost, Verdict};

/// The place.
pub struct PostsPlace;

impl Screen for PostsPlace {
    fn spec(&self) -> Spec {
        Spec::place(Place::Posts, Page::Posts, "posts")
    }

    fn wire(&self, app: &App, bridge: &Rc<Bridge>) {
        let vm = PostsVm::get(app);
        vm.on_run_picked(bridge.does_at(|desk, index| {
            desk.chosen.run = index;
            desk.chosen.post = next_to_mark(desk).unwrap_or(1);
            Then::Stay
        }));
        vm.on_post_pressed(bridge.does_with(|desk, id| rows(desk).press(desk, id)));
        vm.on_start_marking(
            bridge.does(|desk| next_to_mark(desk).map_or(Then::Stay, |n| mark_out::open(desk, n))),
        );
        vm.on_set_up_run(bridge.does(run::open));
    }

    fn fill(&self, app: &App, desk: &Desk) -> bool {
        let vm = PostsVm::get(app);
        let (runs, at) = runs_to_choose(desk);
        vm.set_runs(patched(vm.get_runs(), runs));
        vm.set_run(at);
        let sight = run_in_sight(desk);
        let problems = sight.map_or_else(Vec::new, |(at, _)| problems_of(desk, at));
        vm.set_status(standing(desk, sight, &problems));
        let fix = sight.and_then(|(_, run)| Some((run, run_fix(desk, run)?)));
        let strip = fix.map_or_else(Vec::new, |(run, fix)| strip(desk, run, fix));
        vm.set_strip(patched(vm.get_strip(), strip));
        let bays = fix.map_or_else(Vec::new, |(_, fix)| bays(desk, fix));
        vm.set_bays(patched(vm.get_bays(), bays));
        vm.set_posts(patched(vm.get_posts(), rows(desk).items()));
        let next = next_to_mark(desk).map(|n| format!("Mark out post {n}"));
        vm.set_mark_out(next.unwrap_or_default().into());
        false
    }

    fn picture(&self, desk: &Desk) -> Option<PagePicture> {
        Some(PagePicture::Drawing(plan_of_run(desk, |_| {})))
    }
}

/// The posts of the run in sight, and under them what else is wrong with it.
fn rows(desk: &Desk) -> Rows {
    let mut rows = Rows::default();
    let Some((at, run)) = run_in_sight(desk) else {
        return rows;
    };
    let fix = run_fix(desk, run);
    for (fix, post) in fix
        .iter()
        .flat_map(|fix| fix.posts.iter().map(move |post| (fix, post)))
    {
        let n = post.n;
        rows.push(post_row(desk, run, fix, post), move |desk| {
            mark_out::open(desk, n)
        });
    }
    list_problems(desk, &mut rows, &problems_of(desk, at), fix.is_some());
    rows
}

/// The first post of the run in sight that is not ticked.
fn next_to_mark(desk: &Desk) -> Option<usize> {
    let (_, run) = run_in_sight(desk)?;
    let posts = run_fix(desk, run)?.posts.iter();
    let open = |post: &&Post| !marked(desk.job(), run, post.n).is_some_and(|one| one.done);
    posts.clone().find(open).map(|post| post.n)
}

fn post_row(desk: &Desk, run: &Run, fix: &RunFix, post: &Post) -> RowItem {
    let job = desk.job();
    let unit = job.show.lengths;
    let (note, verdict) = state(desk, run, fix, post);
    RowItem {
        lead: post.n.to_string().into(),
        verdict,
        selected: desk.chosen.post == post.n,
        ..row(
            "",
            &post_name(job, run, fix, post),
            &note,
            &length::show(face_reading(post, desk.chosen.face), unit),
            &length::show_pm_with_unit(post.pm, unit),
        )
    }
}

/// “marked”, “+2, fine”, “+8, out of tolerance”, “to mark”.
fn state(desk: &Desk, run: &Run, fix: &RunFix, post: &Post) -> (String, Verdict) {
    let job = desk.job();
    let Some(one) = marked(job, run, post.n) else {
        return ("to mark".to_owned(), Verdict::None);
    };
    match stands(job, fix, one) {
        Some(built) if built.verdict != Built::Unmeasured => {
            let by = deviation(job, &built);
            if built.verdict == Built::Within {
                (format!("{by}, fine"), Verdict::Good)
            } else {
                (format!("{by}, out of tolerance"), Verdict::Bad)
            }
        }
        _ if one.done => ("marked".to_owned(), Verdict::Good),
        _ => ("to mark".to_owned(), Verdict::None),
    }
}

fn along(fix: &RunFix, at: f64) -> f32 {
    if fix.length > 0.0 {
        (at / fix.length).clamp(0.0, 1.0) as f32
    } else {
        0.0
    }
}

fn strip(desk: &Desk, run: &Run, fix: &RunFix) -> Vec<StripPost> {
    let posts = fix.posts.iter();
    posts
        .map(|post| StripPost {
            at: along(fix, post.centre),
            marked: marked(desk.job(), run, post.n).is_some_and(|one| one.done),
            current: desk.chosen.post == post.n,
        })
        .collect()
}

/// The bays between the posts of the strip. Gates have the room of the narrowest, so that all of them are
/// named or none.
fn bays(desk: &Desk, fix: &RunFix) -> Vec<StripBay> {
    let pairs = || fix.posts.iter().zip(fix.posts.iter().skip(1));
    let share = |before: &Post, after: &Post| along(fix, after.centre) - along(fix, before.centre);
    let gates = pairs().filter(|(before, _)| fix.gate_after(before.n));
    let narrowest = gates
        .map(|(before, after)| share(before, after))
        .fold(1.0, f32::min);
    pairs()
        .filter_map(|(before, after)| {
            let (text, share) = if fix.gate_after(before.n) {
                ("gate".to_owned(), narrowest)
            } else {
                let bay = length::show(after.bay?, desk.job().show.lengths);
                (bay, share(before, after))
            };
            // Nothing of a long run's many bays has room; the screen looks at those that might.
            (share > 0.01).then(|| StripBay {
                at: (along(fix, before.centre) + along(fix, after.centre)) / 2.0,
                share,
                text: text.into(),
            })
        })
        .collect()
}

fn standing(desk: &Desk, sight: Option<(usize, &Run)>, problems: &[&Problem]) -> Status {
    let Some((_, run)) = sight else {
        return match desk.job().lines.is_empty() {
            true => status(
                Verdict::Note,
                "**No run yet.** A run of fence follows a string: stretch one in Strings first.",
            ),
            false => status(
                Verdict::Note,
                "**No run yet.** Set one up: which string it follows, where it starts and where it ends.",
            ),
        };
    };
    let fix = run_fix(desk, run);
    if let Some(told) = told(desk, problems, fix.is_some()) {
        return told;
    }
    let Some(fix) = fix else {
        return status(
            Verdict::Attention,
            "**The posts are not settled yet.** The run needs its string, its start and its end fixed.",
        );
    };
    if let Some(misled) = misled(desk) {
        return status(Verdict::Attention, &misled);
    }
    let posts = fix.posts.len();
    let done = |post: &&Post| marked(desk.job(), run, post.n).is_some_and(|one| one.done);
    let all = fix.posts.iter().filter(done).count() == posts;
    let all = all.then(|| {
        let posts = capital(&counted(posts, "post", "posts"));
        format!("**{posts} marked out.** ")
    });
    match (all, to_look_at(problems)) {
        (all, Some(words)) => status(
            Verdict::Attention,
            &format!("{}**{words}** under the posts.", all.unwrap_or_default()),
        ),
        (Some(all), None) => status(Verdict::Good, all.trim_end()),
        (None, None) => silence(),
    }
}
