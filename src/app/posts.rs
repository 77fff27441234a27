//! Posts: the runs, each with its strip and its posts, and which of them are marked out.

use super::as_built::{deviation, stands};
use super::mark_out;
use super::rows::patched;
use super::run_names::{marked, post_name, run_in_sight, run_name};
use super::standing::misled;
use super::words::{capital, counted, row, silence, status};
use super::{Bridge, Desk, Then, run_setup};
use crate::job::model::Run;
use crate::job::{Job, Problem, Severity};
use crate::length;
use crate::setout::{Post, RunFix, Verdict as Built};
use crate::sheet;
use slint::{Global, SharedString};
use std::rc::Rc;
use tautmark_ui::{App, Item, Nav, Page, Place, PostsVm, Status, StripBay, StripPost, Verdict};

/// At most so many problems are told over the list; the others stand under it.
const MOST_TOLD: usize = 4;
/// Starts the id of a row that tells a problem.
const PROBLEM: &str = "problem ";

pub(super) fn wire(app: &App, bridge: &Rc<Bridge>) {
    let vm = PostsVm::get(app);
    let at = bridge.clone();
    vm.on_run_picked(move |index| {
        at.act(|desk| {
            if let Ok(index) = usize::try_from(index) {
                desk.chosen.run = index;
                desk.chosen.post = next_to_mark(desk).unwrap_or(1);
            }
            Then::Stay
        });
    });
    let at = bridge.clone();
    vm.on_post_pressed(move |id| {
        at.act(|desk| match (id.parse(), id.strip_prefix(PROBLEM)) {
            (Ok(n), _) => mark_out::open(desk, n),
            (Err(_), Some(which)) => explain_problem(desk, which),
            (Err(_), None) => Then::Stay,
        });
    });
    let at = bridge.clone();
    vm.on_start_marking(move || {
        at.act(|desk| match next_to_mark(desk) {
            Some(n) => mark_out::open(desk, n),
            None => Then::Stay,
        });
    });
    let at = bridge.clone();
    vm.on_set_up_run(move || at.act(run_setup::open));
}

pub(super) fn fill(app: &App, desk: &Desk) {
    let nav = Nav::get(app);
    if nav.get_place() != Place::Posts || nav.get_page() != Page::Work {
        return;
    }
    let vm = PostsVm::get(app);
    let names = desk.job().runs.iter();
    let names: Vec<SharedString> = names.map(|run| run_name(run).into()).collect();
    vm.set_runs(patched(vm.get_runs(), names));
    let sight = run_in_sight(desk);
    vm.set_run(
        sight
            .and_then(|(at, _)| i32::try_from(at).ok())
            .unwrap_or(0),
    );
    let problems = sight.map_or_else(Vec::new, |(at, _)| problems_of(desk, at));
    vm.set_status(standing(desk, sight, &problems));
    let fix = sight.and_then(|(_, run)| Some((run, fix(desk, run)?)));
    let strip = fix.map_or_else(Vec::new, |(run, fix)| strip(desk, run, fix));
    vm.set_strip(patched(vm.get_strip(), strip));
    let bays = fix.map_or_else(Vec::new, |(_, fix)| bays(desk, fix));
    vm.set_bays(patched(vm.get_bays(), bays));
    let mut posts = fix.map_or_else(Vec::new, |(run, fix)| {
        let posts = fix.posts.iter();
        posts.map(|post| post_row(desk, run, fix, post)).collect()
    });
    posts.extend(problem_rows(desk, &problems, fix.is_some()));
    vm.set_posts(patched(vm.get_posts(), posts));
    let next = next_to_mark(desk).map(|n| format!("Mark out post {n}"));
    vm.set_mark_out(next.unwrap_or_default().into());
}

/// What the run comes to; `None` while the job does not settle it.
#[must_use]
pub fn fix<'a>(desk: &'a Desk, run: &Run) -> Option<&'a RunFix> {
    desk.solution.runs.get(&run.id)
}

/// The first post of the run in sight that is not ticked.
#[must_use]
pub fn next_to_mark(desk: &Desk) -> Option<usize> {
    let (_, run) = run_in_sight(desk)?;
    let posts = fix(desk, run)?.posts.iter();
    let open = |post: &&Post| !marked(desk.job(), run, post.n).is_some_and(|one| one.done);
    posts.clone().find(open).map(|post| post.n)
}

/// A running reading of a post: 0 its near face, 1 its centre, 2 its far face. Mm.
#[must_use]
pub fn face_reading(post: &Post, face: usize) -> f64 {
    match face {
        0 => post.near,
        1 => post.centre,
        _ => post.far,
    }
}

fn post_row(desk: &Desk, run: &Run, fix: &RunFix, post: &Post) -> Item {
    let job = desk.job();
    let unit = job.show.lengths;
    let (note, verdict) = state(desk, run, fix, post);
    Item {
        lead: post.n.to_string().into(),
        verdict,
        selected: desk.chosen.post == post.n,
        ..row(
            &post.n.to_string(),
            &post_name(job, run, fix, post),
            &note,
            &length::show(face_reading(post, desk.chosen.face), unit),
            &length::show_pm(post.pm, unit),
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

/// The bays between the posts of the strip, where there is room to name them.
fn bays(desk: &Desk, fix: &RunFix) -> Vec<StripBay> {
    let pairs = fix.posts.windows(2);
    pairs
        .filter_map(|pair| {
            let [before, after] = pair else { return None };
            let text = if fix.gate_after(before.n) {
                "gate".to_owned()
            } else {
                length::show(after.bay?, desk.job().show.lengths)
            };
            let share = along(fix, after.centre) - along(fix, before.centre);
            // Some 8 px a letter on a strip of some 340 px.
            let room = share > 0.024 * text.chars().count() as f32;
            room.then(|| StripBay {
                at: (along(fix, before.centre) + along(fix, after.centre)) / 2.0,
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
                "**No run yet.** A run of fence follows a string: stretch one in Lines first.",
            ),
            false => status(
                Verdict::Note,
                "**No run yet.** Set one up: which string it follows, where it starts and where it ends.",
            ),
        };
    };
    let fix = fix(desk, run);
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

/// Problems of the run at this place in the file and of its posts as marked, the gravest first.
#[must_use]
pub fn problems_of(desk: &Desk, run: usize) -> Vec<&Problem> {
    let all = desk.solution.problems.iter();
    let mut own: Vec<&Problem> = all
        .filter(|problem| run_of(desk.job(), &problem.place) == Some(run))
        .collect();
    own.sort_by_key(|problem| problem.severity);
    own
}

/// The run that a place in the file belongs to: its own, or that of a post as marked.
fn run_of(job: &Job, place: &str) -> Option<usize> {
    let (list, rest) = place.split_once('[')?;
    let at = rest.split_once(']')?.0.parse().ok()?;
    match list {
        "runs" => Some(at),
        "marked" => {
            let id = &job.marked.get(at)?.run;
            job.runs.iter().position(|run| run.id == *id)
        }
        _ => None,
    }
}

/// What stands in the way of a run, of its problems: the gravest; none where its posts are settled and
/// nothing is wrong that would change them.
fn in_the_way<'a, 'p>(problems: &'a [&'p Problem], settled: bool) -> &'a [&'p Problem] {
    let gravest = problems.first().map(|problem| problem.severity);
    if settled && gravest != Some(Severity::Error) {
        return &[];
    }
    let alike = problems.partition_point(|problem| Some(problem.severity) == gravest);
    &problems[..alike.min(MOST_TOLD)]
}

/// What stands in the way of a run in full; `None` where nothing does.
#[must_use]
pub fn told(desk: &Desk, problems: &[&Problem], settled: bool) -> Option<Status> {
    let told = in_the_way(problems, settled);
    let gravest = told.first()?.severity;
    let text = told.iter().map(|problem| {
        let place = sheet::place(desk.job(), &problem.place);
        format!("**{place}:** {} {}", problem.text, problem.remedy)
    });
    let text: Vec<String> = text.collect();
    Some(status(verdict_of(gravest), &text.join("\n\n")))
}

/// “Two things to look at”; `None` where nothing is more than a note.
#[must_use]
pub fn to_look_at(problems: &[&Problem]) -> Option<String> {
    let count = problems
        .iter()
        .filter(|problem| problem.severity != Severity::Note)
        .count();
    (count > 0).then(|| {
        let things = counted(count, "thing", "things");
        format!("{} to look at", capital(&things))
    })
}

fn verdict_of(severity: Severity) -> Verdict {
    match severity {
        Severity::Error => Verdict::Bad,
        Severity::Warning => Verdict::Attention,
        Severity::Note => Verdict::Note,
    }
}

/// The problems of the run in sight that are not told over its posts, as rows under them; what to do
/// comes with a press.
fn problem_rows(desk: &Desk, problems: &[&Problem], settled: bool) -> Vec<Item> {
    let told = in_the_way(problems, settled).len();
    let rows = problems.iter().enumerate().skip(told);
    let rows = rows.map(|(i, problem)| Item {
        verdict: verdict_of(problem.severity),
        ..row(
            &format!("{PROBLEM}{i}"),
            &sheet::place(desk.job(), &problem.place),
            &problem.text,
            "",
            "",
        )
    });
    rows.collect()
}

fn explain_problem(desk: &mut Desk, which: &str) -> Then {
    let run = run_in_sight(desk).map(|(at, _)| at);
    let problems = run.map_or_else(Vec::new, |run| problems_of(desk, run));
    let which = which.parse().ok().and_then(|at: usize| problems.get(at));
    if let Some(problem) = which {
        let place = sheet::place(desk.job(), &problem.place);
        let text = format!("{}\n\n{}", problem.text, problem.remedy);
        desk.explain(&place, &text);
    }
    Then::Stay
}
