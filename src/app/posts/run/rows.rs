//! The rows of a run that is set up, in the order in which a run is thought out.

use super::change::{Which, change};
use super::figures;
use super::figures::corner_of;
use super::picks::{ask_end, ask_string};
use super::{feet, gates};
use crate::app::desk::{Desk, Then};
use crate::app::kit::{FormRow, choice, heading, pick, small, text};
use crate::app::names::{end_name, string_name};
use crate::app::renaming;
use crate::drawing::corner_small;
use crate::job::CornerId;
use crate::job::edit::{Change, Edit, Thing};
use crate::job::model::{BayFit, Job, PostSet, Run, Side};
use crate::solve;
use tautmark_ui::PaintedDrawing;

/// All of them, of the run at this place in the file.
#[must_use]
pub fn rows(job: &Job, at: usize, run: &Run) -> Vec<FormRow> {
    let parts = [ends, posts, corner, gates::rows, pins, holes];
    let rows = parts.iter().flat_map(|part| part(job, at, run));
    let remove = pick("Delete this run", "", move |desk| remove(desk, at));
    rows.chain([remove.noted("with the posts marked as done")])
        .collect()
}

fn ends(job: &Job, at: usize, run: &Run) -> Vec<FormRow> {
    let named = |end| end_name(job, end).unwrap_or_else(|| "—".to_owned());
    let by_length = run.end.as_ref().is_some_and(|end| end.length.is_some());
    let end = if by_length {
        "at a length".to_owned()
    } else {
        named(run.end.as_ref())
    };
    let string = string_name(job, &run.line);
    let start = named(run.start.as_ref());
    let mut rows = vec![
        text(
            "Name of the run",
            "for example Front",
            &run.name,
            move |desk, text| {
                let value = Run {
                    name: text.to_owned(),
                    ..desk.saved().runs.get(at).cloned().unwrap_or_default()
                };
                desk.amend(Edit::Run(Change::Replace { at, value }));
                Then::Stay
            },
        ),
        heading("From and to"),
        pick("Follows", &string, move |desk| ask_string(desk, at)),
        pick("Starts at", &start, move |desk| {
            ask_end(desk, at, Which::Start)
        })
        .noted("the zero of the tape"),
    ];
    rows.extend(feet::of_end(at, run, Which::Start));
    rows.push(pick("Ends at", &end, move |desk| {
        ask_end(desk, at, Which::End)
    }));
    rows.extend(feet::of_end(at, run, Which::End));
    if by_length {
        rows.push(figures::end_length(at).row(job));
    }
    let sides = [("Left", Side::Left), ("Right", Side::Right)];
    let label = "Posts stand, looking along the string";
    rows.push(choice(label, sides, run.side, move |desk, side| {
        change(desk, at, |run| run.side = Some(side))
    }));
    rows
}

fn posts(job: &Job, at: usize, run: &Run) -> Vec<FormRow> {
    let fit = run.bays.clone().unwrap_or_default().fit;
    let fits = [
        ("All equal", BayFit::Equal),
        ("Full, one short", BayFit::Full),
    ];
    vec![
        heading("Posts and bays"),
        feet::of_run(at, run),
        figures::gap(at).row(job),
        figures::post_width(at).row(job),
        figures::post_depth(at).row(job),
        figures::longest_bay(at).row(job),
        choice("Bays", fits, Some(fit), move |desk, fit| {
            change(desk, at, |run| run.bays.get_or_insert_default().fit = fit)
        }),
    ]
}

fn corner(job: &Job, run_at: usize, run: &Run) -> Vec<FormRow> {
    let Some((at, corner)) = corner_of(job, run) else {
        return Vec::new();
    };
    let [first, second] = &corner.lines;
    let sets = [
        (format!("Square to {first}"), PostSet::First),
        (format!("Square to {second}"), PostSet::Second),
        ("On the bisector".to_owned(), PostSet::Bisect),
    ];
    let set = corner.post.clone().unwrap_or_default().set;
    let label = "The corner post stands";
    let turned = choice(label, sets, Some(set), move |desk, set| {
        if let Some(mut value) = desk.saved().corners.get(at).cloned() {
            value.post.get_or_insert_default().set = set;
            desk.change(Edit::Corner(Change::Replace { at, value }));
        }
        Then::Stay
    });
    let [width, depth] = figures::corner_post(run_at);
    vec![
        heading(&format!("Post at corner {}", corner.id)),
        turned.pictured(pictures(job, &corner.id)),
        width.row(job),
        depth.row(job),
    ]
}

/// The post in its corner, each way it can be turned; none while the corner is not settled.
fn pictures(job: &Job, id: &CornerId) -> Vec<PaintedDrawing> {
    let ways = [PostSet::First, PostSet::Second, PostSet::Bisect];
    let drawn = ways.map(|set| {
        let mut job = job.clone();
        let corner = job.corners.iter_mut().find(|corner| corner.id == *id)?;
        corner.post.get_or_insert_default().set = set;
        let drawing = corner_small(&job, &solve(&job), id)?;
        Some(small(&drawing))
    });
    drawn.into_iter().collect::<Option<_>>().unwrap_or_default()
}

fn pins(job: &Job, run_at: usize, run: &Run) -> Vec<FormRow> {
    let mut rows = vec![heading("Pinned posts")];
    for (at, pin) in run.pins.iter().enumerate() {
        let row = figures::pin_at(run_at, at).row(job);
        rows.push(match pin.stands {
            true => row.noted("stands there already"),
            false => row,
        });
        let label = format!("Delete pinned post {}", at + 1);
        rows.push(pick(&label, "", move |desk| {
            let (run, change) = (run_at, Change::Remove { at });
            desk.change_and_say(Edit::Pin { run, change }, "Pinned post deleted.")
        }));
    }
    let count = run.pins.len();
    let add = pick("Pin a post", "", move |desk| {
        desk.ask(figures::new_pin(run_at, count))
    });
    rows.push(add.noted("so that one stands just there"));
    rows
}

fn holes(job: &Job, at: usize, _run: &Run) -> Vec<FormRow> {
    let [across, deep] = figures::hole(at);
    vec![
        heading("Every run of this job"),
        across.row(job),
        deep.row(job),
        figures::tolerance(at).row(job),
    ]
}

fn remove(desk: &mut Desk, at: usize) -> Then {
    let Some(id) = desk.saved().runs.get(at).map(|run| run.id.clone()) else {
        return Then::Stay;
    };
    renaming::delete(desk, Thing::Run(id), |desk, _| {
        (desk.chosen.run, desk.chosen.post) = (0, 1);
        Then::Back
    })
}
