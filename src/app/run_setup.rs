//! Setting up a run: the string it follows, where it starts and ends, its posts, bays, gates and
//! pins, the post at its corner, and its holes.

use super::form::{Form, FormContents, check, choice, figure, heading, pick, text};
use super::posts::{fix, problems_of, told};
use super::run_figure::{Part, RunFigure, change_corner, corner_of};
use super::run_names::{end_name, run_in_sight, run_name, string_name};
use super::run_picks::{Which, ask_end, ask_string, change};
use super::words::{capital, counted};
use super::{Desk, Then};
use crate::job::edit::{Change, Edit, Thing};
use crate::job::model::{BayFit, Hung, Job, Leaf, PostSet, Run, Side};
use crate::job::{LineId, RunId};
use crate::length;
use tautmark_ui::{Field as Row, Page, Verdict};

/// The page of one run.
pub(super) struct RunSetup;

/// Opens the run in sight, or adds the first one; a run needs a string to follow.
pub(super) fn open(desk: &mut Desk) -> Then {
    if desk.saved().runs.is_empty() {
        return add(desk);
    }
    Then::Open(Page::Run)
}

fn add(desk: &mut Desk) -> Then {
    let job = desk.saved();
    let Some(line) = free_line(job) else {
        desk.explain(
            "A run follows a string",
            "There is no string in this job yet. Stretch one in **Lines**, then set up the run.",
        );
        return Then::Stay;
    };
    let run = new_run(job, line);
    let at = job.runs.len();
    if !desk.change(Edit::Run(Change::Insert { at, value: run })) {
        return Then::Stay;
    }
    (desk.chosen.run, desk.chosen.post) = (at, 1);
    Then::Open(Page::Run)
}

/// A string that no run follows yet, else the first.
fn free_line(job: &Job) -> Option<LineId> {
    let taken = |id: &LineId| job.runs.iter().any(|run| run.line == *id);
    let free = job.lines.iter().find(|line| !taken(&line.id));
    free.or(job.lines.first()).map(|line| line.id.clone())
}

/// A run with the posts and bays of the one before it.
fn new_run(job: &Job, line: LineId) -> Run {
    let taken = |id: &String| job.runs.iter().any(|run| run.id.as_str() == id);
    let names = (1..).map(|n| format!("R{n}"));
    let id = names.into_iter().find(|id| !taken(id)).unwrap_or_default();
    let like = job.runs.last().cloned().unwrap_or_default();
    Run {
        id: RunId(id),
        line,
        side: like.side.or(Some(Side::Left)),
        gap: like.gap,
        post: like.post,
        bays: like.bays,
        ..Run::default()
    }
}

impl Form for RunSetup {
    fn contents(&self, desk: &Desk) -> FormContents {
        let Some((at, run)) = run_in_sight(desk) else {
            let mut bare = FormContents::new("Run", Vec::new());
            bare.primary = "Add a run".to_owned();
            return bare.saying(Verdict::Note, "**No run yet.**");
        };
        let job = desk.job();
        let mut rows = ends(job, run);
        rows.extend(posts(job, run));
        rows.extend(corner(job, run));
        rows.extend(gates(job, run));
        rows.extend(pins(job, run));
        rows.extend(holes(job, run));
        rows.push(pick("remove", "Remove this run", "with its ticks", ""));
        let mut contents = FormContents::new(&run_name(run), rows);
        if let Some(told) = told(desk, &problems_of(desk, at)) {
            contents.status = told;
        } else if let Some(fix) = fix(desk, run) {
            let text = format!(
                "**{}** on {} {}.",
                capital(&counted(fix.posts.len(), "post", "posts")),
                length::show_with_unit(fix.length, job.show.lengths),
                length::show_pm(fix.length_pm, job.show.lengths)
            );
            contents = contents.saying(Verdict::Good, &text);
        }
        contents.primary = "Add another run".to_owned();
        contents
    }

    fn pressed(&self, desk: &mut Desk, id: &str) -> Then {
        let Some((at, run)) = run_in_sight(desk) else {
            return Then::Stay;
        };
        let (gates, pins) = (run.gates.len(), run.pins.len());
        match id {
            "string" => ask_string(desk, at),
            "start" => ask_end(desk, at, Which::Start),
            "end" => ask_end(desk, at, Which::End),
            "add gate" => return ask(desk, at, Part::GateAt(gates)),
            "add pin" => return ask(desk, at, Part::PinAt(pins)),
            "remove" => return remove(desk, at),
            _ => return part_pressed(desk, at, id),
        }
        Then::Stay
    }

    fn picked(&self, desk: &mut Desk, id: &str, index: usize) -> Then {
        let Some((at, run)) = run_in_sight(desk) else {
            return Then::Stay;
        };
        let second = index == 1;
        match id {
            "side" => {
                let side = if second { Side::Right } else { Side::Left };
                change(desk, at, |run| run.side = Some(side));
            }
            "fit" => {
                let fit = if second { BayFit::Full } else { BayFit::Equal };
                change(desk, at, |run| run.bays.get_or_insert_default().fit = fit);
            }
            "set" => {
                let set = [PostSet::First, PostSet::Second, PostSet::Bisect];
                let set = set.get(index).copied().unwrap_or_default();
                if let Some(edit) = change_corner(desk.saved(), run, |post| post.set = set) {
                    desk.change(edit);
                }
            }
            _ => {
                let gate = id.strip_prefix("hung ").and_then(|gate| gate.parse().ok());
                let hung = if second { Hung::End } else { Hung::Start };
                if let Some(gate) = gate {
                    change(desk, at, |run| {
                        with_leaf(run, gate, |leaf| leaf.hung = hung)
                    });
                }
            }
        }
        Then::Stay
    }

    fn toggled(&self, desk: &mut Desk, id: &str) -> Then {
        let gate = id.strip_prefix("leaf ").and_then(|gate| gate.parse().ok());
        if let (Some((at, _)), Some(gate)) = (run_in_sight(desk), gate) {
            change(desk, at, |run| toggle_leaf(run, gate));
        }
        Then::Stay
    }

    fn edited(&self, desk: &mut Desk, _id: &str, text: &str) -> Then {
        let Some((at, run)) = run_in_sight(desk) else {
            return Then::Stay;
        };
        let value = Run {
            name: text.to_owned(),
            ..run.clone()
        };
        desk.amend(Edit::Run(Change::Replace { at, value }));
        Then::Stay
    }

    fn primary(&self, desk: &mut Desk) -> Then {
        add(desk)
    }
}

fn ask(desk: &mut Desk, run: usize, part: Part) -> Then {
    desk.ask(Box::new(RunFigure { run, part }));
    Then::Keypad
}

/// A figure, or a gate or pin that is taken out.
fn part_pressed(desk: &mut Desk, run: usize, id: &str) -> Then {
    let number = |kind| id.strip_prefix(kind).and_then(|at: &str| at.parse().ok());
    if let Some(at) = number("remove gate ") {
        let change = Change::Remove { at };
        desk.change_and_say(Edit::Gate { run, change }, "Gate removed.");
        return Then::Stay;
    }
    if let Some(at) = number("remove pin ") {
        let change = Change::Remove { at };
        desk.change_and_say(Edit::Pin { run, change }, "Pin removed.");
        return Then::Stay;
    }
    match figures(desk.job(), run)
        .into_iter()
        .find(|part| key(*part) == id)
    {
        Some(part) => ask(desk, run, part),
        None => Then::Stay,
    }
}

fn remove(desk: &mut Desk, at: usize) -> Then {
    let Some(id) = desk.saved().runs.get(at).map(|run| run.id.clone()) else {
        return Then::Stay;
    };
    desk.change_and_say(Edit::Remove(Thing::Run(id)), "Run removed.");
    (desk.chosen.run, desk.chosen.post) = (0, 1);
    Then::Back
}

fn with_leaf(run: &mut Run, gate: usize, how: impl FnOnce(&mut Leaf)) {
    if let Some(gate) = run.gates.get_mut(gate) {
        how(gate.leaf.get_or_insert_default());
    }
}

fn toggle_leaf(run: &mut Run, gate: usize) {
    if let Some(gate) = run.gates.get_mut(gate) {
        gate.leaf = match gate.leaf {
            Some(_) => None,
            None => Some(Leaf::default()),
        };
    }
}

fn key(part: Part) -> String {
    format!("{part:?}")
}

/// Every figure that the run can be asked for.
fn figures(job: &Job, at: usize) -> Vec<Part> {
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
    figure(&key(part), &part.label(), &part.hint(), &value)
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
        choice("set", "The corner post stands", &options, Some(set)),
        part_row(job, run, Part::CornerWidth),
        part_row(job, run, Part::CornerDepth),
    ]
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
