//! Setting up a run: the string it follows, where it starts and ends, its posts, bays, gates and
//! pins, the post at its corner, and its holes.

pub mod figures;
mod picks;
mod rows;

use super::problems::{to_look_at, told};
use crate::app::bridge::form::FormPage;
use crate::app::bridge::screen::{Picture, Screen, Spec};
use crate::app::desk::{Desk, Then, problems_of, run_fix, run_in_sight};
use crate::app::kit::fields::FormContents;
use crate::app::kit::plan::plan_of_run;
use crate::app::kit::words::{capital, counted};
use crate::app::names::things::run_name;
use crate::drawing::Target;
use crate::job::edit::{Change, Edit, Thing};
use crate::job::model::{BayFit, Hung, Job, Leaf, PostSet, Run, Side};
use crate::job::{LineId, free_name};
use crate::length;
use figures::{Part, RunFigure, change_corner};
use picks::{Which, ask_end, ask_string, change};
use rows::{figures as figures_of, key, rows};
use tautmark_ui::{Page, Place, Verdict};

/// The page of one run.
pub struct RunSetup;

/// Opens the run in sight, or adds the first one; a run needs a string to follow.
pub fn open(desk: &mut Desk) -> Then {
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
    let runs = job.runs.iter();
    let id = free_name("R", runs.map(|run| run.id.as_str()));
    let like = job.runs.last().cloned().unwrap_or_default();
    Run {
        id: id.into(),
        line,
        side: like.side.or(Some(Side::Left)),
        gap: like.gap,
        post: like.post,
        bays: like.bays,
        ..Run::default()
    }
}

/// The end of the run that is not chosen yet, its start first.
fn missing_end(run: &Run) -> Option<Which> {
    match (&run.start, &run.end) {
        (None, _) => Some(Which::Start),
        (_, None) => Some(Which::End),
        _ => None,
    }
}

impl Screen for RunSetup {
    fn spec(&self) -> Spec {
        Spec::inside(Place::Posts, Page::Run, "run")
    }

    fn form(&self) -> Option<&dyn FormPage> {
        Some(self)
    }

    fn picture(&self, desk: &Desk) -> Option<Picture> {
        Some(Picture::Drawing(plan_of_run(desk, |show| {
            let run = desk.job().runs.get(desk.chosen.run);
            show.chosen = run.map(|run| Target::Line(run.line.clone()));
        })))
    }
}

impl FormPage for RunSetup {
    fn title(&self, desk: &Desk) -> String {
        match run_in_sight(desk) {
            Some((_, run)) => run_name(run),
            None => "Run".to_owned(),
        }
    }

    fn contents(&self, desk: &Desk) -> FormContents {
        let Some((at, run)) = run_in_sight(desk) else {
            let mut bare = FormContents::new(Vec::new());
            bare.primary = "Add a run".to_owned();
            return bare.saying(Verdict::Note, "**No run yet.**");
        };
        let job = desk.job();
        let mut contents = FormContents::new(rows(job, run));
        let problems = problems_of(desk, at);
        let fix = run_fix(desk, run);
        if let Some(end) = missing_end(run) {
            let text = match end {
                Which::Start => {
                    "**Where does the run start?** The tape is held there for every post."
                }
                Which::End => "**Where does the run end?** Its posts follow at once.",
            };
            contents = contents.saying(Verdict::Note, text);
        } else if let Some(told) = told(desk, &problems, fix.is_some()) {
            contents.status = told;
        } else if let Some(fix) = fix {
            let wrong = to_look_at(&problems);
            let wrong = wrong.map(|words| format!(" {words}: see Posts."));
            let text = format!(
                "**{}** on {} {}.{}",
                capital(&counted(fix.posts.len(), "post", "posts")),
                length::show_with_unit(fix.length, job.show.lengths),
                length::show_pm(fix.length_pm, job.show.lengths),
                wrong.as_deref().unwrap_or_default()
            );
            let verdict = match wrong {
                Some(_) => Verdict::Attention,
                None => Verdict::Good,
            };
            contents = contents.saying(verdict, &text);
        }
        contents.primary = match missing_end(run) {
            Some(Which::Start) => "Next: its start",
            Some(Which::End) => "Next: its end",
            None => "See the posts",
        }
        .to_owned();
        contents.secondary = "Add another run".to_owned();
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
            "add gate" => ask(desk, at, Part::GateAt(gates)),
            "add pin" => ask(desk, at, Part::PinAt(pins)),
            "remove" => remove(desk, at),
            _ => part_pressed(desk, at, id),
        }
    }

    fn picked(&self, desk: &mut Desk, id: &str, index: usize) -> Then {
        let Some((at, run)) = run_in_sight(desk) else {
            return Then::Stay;
        };
        let second = index == 1;
        match id {
            "side" => {
                let side = if second { Side::Right } else { Side::Left };
                change(desk, at, |run| run.side = Some(side))
            }
            "fit" => {
                let fit = if second { BayFit::Full } else { BayFit::Equal };
                change(desk, at, |run| run.bays.get_or_insert_default().fit = fit)
            }
            "set" => {
                let set = [PostSet::First, PostSet::Second, PostSet::Bisect];
                let set = set.get(index).copied().unwrap_or_default();
                if let Some(edit) = change_corner(desk.saved(), run, |post| post.set = set) {
                    desk.change(edit);
                }
                Then::Stay
            }
            _ => {
                let gate = id.strip_prefix("hung ").and_then(|gate| gate.parse().ok());
                let hung = if second { Hung::End } else { Hung::Start };
                gate.map_or(Then::Stay, |gate| {
                    change(desk, at, |run| {
                        with_leaf(run, gate, |leaf| leaf.hung = hung)
                    })
                })
            }
        }
    }

    fn toggled(&self, desk: &mut Desk, id: &str) -> Then {
        let gate = id.strip_prefix("leaf ").and_then(|gate| gate.parse().ok());
        match (run_in_sight(desk), gate) {
            (Some((at, _)), Some(gate)) => change(desk, at, |run| toggle_leaf(run, gate)),
            _ => Then::Stay,
        }
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

    /// Asks for the end that is missing, then back to the posts; with no run yet, adds one.
    fn primary(&self, desk: &mut Desk) -> Then {
        let Some((at, run)) = run_in_sight(desk) else {
            return add(desk);
        };
        match missing_end(run) {
            Some(end) => ask_end(desk, at, end),
            None => Then::Back,
        }
    }

    fn secondary(&self, desk: &mut Desk) -> Then {
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
    match figures_of(desk.job(), run)
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
