//! Setting up a run: a person gives the string it follows, where it starts and ends, its posts, bays,
//! gates and pins, the post at its corner, and its holes.

mod change;
mod feet;
mod figures;
mod gates;
mod picks;
mod rows;

use super::problems::{to_look_at, told};
use crate::app::adding::run::{add, without_run};
use crate::app::bridge::{FormScreen, PagePicture, Spec};
use crate::app::desk::{Desk, Then, problems_of, run_fix, run_in_sight};
use crate::app::kit::{FormButton, FormContents, capital, counted, plan_of_run, status};
use crate::app::names::run_name;
use crate::cautions::{CEMENT, MASONRY, OPEN_HOLES, SERVICES};
use crate::drawing::Target;
use crate::job::model::{Job, Run};
use crate::length;
use change::Which;
use picks::ask_end;
use rows::rows;
use tautmark_ui::{Page, Place, Status, Verdict};

/// Opens the run in sight, or adds the first one; a run needs a string to follow.
pub fn open(desk: &mut Desk) -> Then {
    if desk.saved().runs.is_empty() {
        return add(desk);
    }
    Then::Open(Page::Run)
}

/// The end of the run that is not chosen yet, its start first.
fn missing_end(run: &Run) -> Option<Which> {
    match (&run.start, &run.end) {
        (None, _) => Some(Which::Start),
        (_, None) => Some(Which::End),
        _ => None,
    }
}

/// The end at a wall whose post nobody has said how it stands; asked while nothing is marked out.
fn unasked_foot(job: &Job, run: &Run) -> Option<Which> {
    if job.marked.iter().any(|one| one.run == run.id) {
        return None;
    }
    let unasked = |which: &Which| {
        let end = which.of(run);
        end.is_some_and(|end| end.wall.is_some() && end.foot.is_none())
    };
    [Which::Start, Which::End].into_iter().find(unasked)
}

/// The page of one run.
pub static RUN_SETUP: FormScreen = FormScreen {
    title: |desk| {
        let run = run_in_sight(desk).map(|(_, run)| run_name(run));
        run.unwrap_or_else(|| "Run".to_owned())
    },
    picture: |desk| {
        Some(PagePicture::Drawing(plan_of_run(desk, |show| {
            let run = desk.job().runs.get(desk.chosen.run);
            show.chosen = run.map(|run| Target::Line(run.line.clone()));
        })))
    },
    ..FormScreen::new(Spec::inside(Place::Posts, Page::Run, "run"), contents)
};

fn contents(desk: &Desk) -> FormContents {
    let Some((at, run)) = run_in_sight(desk) else {
        let mut bare = FormContents::new(Vec::new());
        bare.primary = Some(FormButton::new("Add a run", add));
        return bare.saying(Verdict::Note, "**No run yet.**");
    };
    let mut contents = FormContents::new(rows(desk.job(), at, run));
    contents.cautions = &[SERVICES, OPEN_HOLES, CEMENT, MASONRY];
    if let Some(status) = standing(desk, at, run) {
        contents.status = status;
    }
    let another = without_run(desk.saved()).is_some();
    contents.secondary = Some(match another {
        true => FormButton::new("See the posts", |_| Then::Back),
        false => FormButton::new("Add another run", add),
    });
    contents.primary = Some(match (missing_end(run), unasked_foot(desk.job(), run)) {
        (Some(end), _) => FormButton::new(
            match end {
                Which::Start => "Next: its start",
                Which::End => "Next: its end",
            },
            move |desk| ask_end(desk, at, end),
        ),
        (None, Some(end)) => FormButton::new("Next: the post on the wall", move |desk| {
            feet::ask(desk, at, end)
        }),
        (None, None) if another => FormButton::new("Next: another run", add),
        (None, None) => FormButton::new("See the posts", |_| Then::Back),
    });
    contents
}

/// The end that is missing, what stands in the way, or what the run comes to.
fn standing(desk: &Desk, at: usize, run: &Run) -> Option<Status> {
    let unit = desk.job().show.lengths;
    let missing = missing_end(run).map(|end| match end {
        Which::Start => "**Where does the run start?** The tape is held there for every post.",
        Which::End => "**Where does the run end?** Its posts follow at once.",
    });
    if let Some(text) = missing {
        return Some(status(Verdict::Note, text));
    }
    let problems = problems_of(desk, at);
    let fix = run_fix(desk, run);
    if let Some(told) = told(desk, &problems, fix.is_some()) {
        return Some(told);
    }
    let fix = fix?;
    let wrong = to_look_at(&problems);
    let wrong = wrong.map(|words| format!(" {words}: see Posts."));
    let text = format!(
        "**{}** on {} {}.{}",
        capital(&counted(fix.posts.len(), "post", "posts")),
        length::show_with_unit(fix.length, unit),
        length::show_pm_with_unit(fix.length_pm, unit),
        wrong.as_deref().unwrap_or_default()
    );
    let verdict = match wrong {
        Some(_) => Verdict::Attention,
        None => Verdict::Good,
    };
    Some(status(verdict, &text))
}
