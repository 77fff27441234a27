//! The rows of a run that is set up.

use super::figures::{Part, corner_of};
use crate::app::kit::fields::{check, choice, figure, heading, pick, pictured, text};
use crate::app::kit::plan::small;
use crate::app::names::things::{end_name, string_name};
use crate::drawing::corner_small;
use crate::job::CornerId;
use crate::job::model::{BayFit, Hung, Job, PostSet, Run, Side};
use crate::length;
use crate::solve;
use tautmark_ui::{Drawing, Field as Row};

/// All of them, in the order in which a run is thought out.
#[must_use]
pub fn rows(job: &Job, run: &Run) -> Vec<Row> {
    let parts = [ends, posts, corner, gates, pins, holes];
    let mut rows: Vec<Row> = parts.iter().flat_map(|part| part(job, run)).collect();
    rows.push(pick("remove", "Remove this run", "with its ticks", ""));
    rows
}

/// Tells the row of a figure from every other.
#[must_use]
pub fn key(part: Part) -> String {
    format!("{part:?}")
}

/// Every figure that the run can be asked for.
#[must_use]
pub fn figures(job: &Job, at: usize) -> Vec<Part> {
    let run = job.runs.get(at);
    let mut all = vec![
        Part::Gap,
        Part::PostWidth,
        Part::PostDepth,
        Part::LongestBay,
        Part::EndLength,
        Part::CornerWidth,
        Part::CornerDepth,
        Part::HoleDiameter,
        Part::HoleDepth,
        Part::Tolerance,
    ];
    for i in 0..run.map_or(0, |run| run.gates.len()) {
        all.extend([Part::GateAt(i), Part::GateClear(i)]);
        all.extend([Part::Hinge(i), Part::Latch(i), Part::UnderLeaf(i)]);
    }
    all.extend((0..run.map_or(0, |run| run.pins.len())).map(Part::PinAt));
    all
}

fn part_row(job: &Job, run: &Run, part: Part) -> Row {
    let value = part.value(job, run);
    let value = value.map_or_else(|| "—".to_owned(), |mm| length::show(mm, job.show.lengths));
    figure(&key(part), &part.label(), part.hint(), &value)
}

fn ends(job: &Job, run: &Run) -> Vec<Row> {
    let named = |end| end_name(job, end).unwrap_or_else(|| "—".to_owned());
    let by_length = run.end.as_ref().is_some_and(|end| end.length.is_some());
    let end = if by_length {
        "at a length".to_owned()
    } else {
        named(run.end.as_ref())
    };
    let mut rows = vec![
        text("name", "Name of the run", "Front, say", &run.name),
        heading("From and to"),
        pick("string", "Follows", "", &string_name(job, &run.line)),
        pick(
            "start",
            "Starts at",
            "the zero of the tape",
            &named(run.start.as_ref()),
        ),
        pick("end", "Ends at", "", &end),
    ];
    if by_length {
        rows.push(part_row(job, run, Part::EndLength));
    }
    let side = run.side.map(|side| usize::from(side == Side::Right));
    let label = "Posts stand, looking along the string";
    rows.push(choice("side", label, &["Left", "Right"], side));
    rows
}

fn posts(job: &Job, run: &Run) -> Vec<Row> {
    let fit = run.bays.clone().unwrap_or_default().fit;
    let options = ["All equal", "Full, one short"];
    vec![
        heading("Posts and bays"),
        part_row(job, run, Part::Gap),
        part_row(job, run, Part::PostWidth),
        part_row(job, run, Part::PostDepth),
        part_row(job, run, Part::LongestBay),
        choice(
            "fit",
            "Bays",
            &options,
            Some(usize::from(fit == BayFit::Full)),
        ),
    ]
}

fn corner(job: &Job, run: &Run) -> Vec<Row> {
    let Some((_, corner)) = corner_of(job, run) else {
        return Vec::new();
    };
    let [first, second] = &corner.lines;
    let options = [
        format!("Square to {first}"),
        format!("Square to {second}"),
        "On the bisector".to_owned(),
    ];
    let options: Vec<&str> = options.iter().map(String::as_str).collect();
    let set = corner.post.clone().unwrap_or_default().set;
    let set = match set {
        PostSet::First => 0,
        PostSet::Second => 1,
        PostSet::Bisect => 2,
    };
    vec![
        heading(&format!("Post at corner {}", corner.id)),
        pictured(
            choice("set", "The corner post stands", &options, Some(set)),
            pictures(job, &corner.id),
        ),
        part_row(job, run, Part::CornerWidth),
        part_row(job, run, Part::CornerDepth),
    ]
}

/// Room for the picture of one way to turn the post, logical px.
const PICTURE: [f64; 2] = [104.0, 76.0];

/// The post in its corner, each way it can be turned; none while the corner is not settled.
fn pictures(job: &Job, id: &CornerId) -> Vec<Drawing> {
    let ways = [PostSet::First, PostSet::Second, PostSet::Bisect];
    let drawn = ways.map(|set| {
        let mut job = job.clone();
        let corner = job.corners.iter_mut().find(|corner| corner.id == *id)?;
        corner.post.get_or_insert_default().set = set;
        let drawing = corner_small(&job, &solve(&job), id)?;
        Some(small(&drawing, PICTURE))
    });
    drawn.into_iter().collect::<Option<_>>().unwrap_or_default()
}

fn gates(job: &Job, run: &Run) -> Vec<Row> {
    let mut rows = vec![heading("Gates")];
    for (i, gate) in run.gates.iter().enumerate() {
        rows.push(part_row(job, run, Part::GateAt(i)));
        rows.push(part_row(job, run, Part::GateClear(i)));
        let label = format!("Gate {}: gaps round its leaf", i + 1);
        let note = "gives the leaf’s width";
        rows.push(check(
            &format!("leaf {i}"),
            &label,
            note,
            gate.leaf.is_some(),
        ));
        if let Some(leaf) = &gate.leaf {
            for part in [Part::Hinge(i), Part::Latch(i), Part::UnderLeaf(i)] {
                rows.push(part_row(job, run, part));
            }
            let hung = Some(usize::from(leaf.hung == Hung::End));
            let label = format!("Gate {} hangs on the post nearer the run’s", i + 1);
            rows.push(choice(
                &format!("hung {i}"),
                &label,
                &["Start", "End"],
                hung,
            ));
        }
        let label = format!("Remove gate {}", i + 1);
        rows.push(pick(&format!("remove gate {i}"), &label, "", ""));
    }
    rows.push(pick("add gate", "Add a gate", "", ""));
    rows
}

fn pins(job: &Job, run: &Run) -> Vec<Row> {
    let mut rows = vec![heading("Pinned posts")];
    for (i, pin) in run.pins.iter().enumerate() {
        let mut row = part_row(job, run, Part::PinAt(i));
        if pin.stands {
            row.note = "stands there already".into();
        }
        rows.push(row);
        let label = format!("Remove pin {}", i + 1);
        rows.push(pick(&format!("remove pin {i}"), &label, "", ""));
    }
    rows.push(pick(
        "add pin",
        "Pin a post",
        "so that one stands just there",
        "",
    ));
    rows
}

fn holes(job: &Job, run: &Run) -> Vec<Row> {
    vec![
        heading("Every run of this job"),
        part_row(job, run, Part::HoleDiameter),
        part_row(job, run, Part::HoleDepth),
        part_row(job, run, Part::Tolerance),
    ]
}
