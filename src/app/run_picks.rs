//! What a run is tied to, picked from a list: its string, its start and its end.

use super::over::Menu;
use super::run_figure::{Part, RunFigure};
use super::run_names::{string_name, the, wall_name};
use super::words::{capital, row};
use super::{Desk, Then};
use crate::job::edit::{Change, Edit};
use crate::job::model::{End, Job, Run};
use tautmark_ui::Item;

/// The start of a run, or its end.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Which {
    Start,
    End,
}

/// Asks which string the run at this place in the file follows.
pub fn ask_string(desk: &mut Desk, at: usize) {
    let job = desk.job();
    let rows = job.lines.iter().map(|line| {
        let name = string_name(job, &line.id);
        row(line.id.as_str(), &capital(&name), "", "", "")
    });
    desk.menu = Some(Menu {
        title: "Which string does it follow?".to_owned(),
        rows: rows.collect(),
        pick: Box::new(move |desk, id| {
            change(desk, at, |run| run.line = id.into());
            Then::Stay
        }),
    });
}

/// Asks where the run starts or ends.
pub fn ask_end(desk: &mut Desk, at: usize, which: Which) {
    let Some(run) = desk.job().runs.get(at) else {
        return;
    };
    let title = match which {
        Which::Start => "Where does it start?",
        Which::End => "Where does it end?",
    };
    desk.menu = Some(Menu {
        title: title.to_owned(),
        rows: places(desk.job(), run, which),
        pick: Box::new(move |desk, id| pick_end(desk, at, which, id)),
    });
}

/// Corners of the run's string first, then walls, then marks, and a length for an end.
fn places(job: &Job, run: &Run, which: Which) -> Vec<Item> {
    let corners = job.corners.iter();
    let corners = corners.filter(|corner| corner.lines.contains(&run.line));
    let corners = corners.map(|corner| {
        let [first, second] = &corner.lines;
        let note = format!(
            "where {} and {} cross",
            string_name(job, first),
            string_name(job, second)
        );
        let id = format!("corner:{}", corner.id);
        row(&id, &format!("Corner {}", corner.id), &note, "", "")
    });
    let walls = job.walls.iter().map(|wall| {
        let name = capital(&the(&wall_name(job, &wall.id)));
        let id = format!("wall:{}", wall.id);
        row(
            &id,
            &name,
            "hard against it, where the string meets it",
            "",
            "",
        )
    });
    let marks = job.marks.iter().map(|mark| {
        let id = format!("mark:{}", mark.id);
        let note = "dropped square onto the string";
        row(&id, &format!("Mark {}", mark.id), note, "", "")
    });
    let length = (which == Which::End).then(|| {
        let note = "measured along the string";
        row("length:", "At a length from the start", note, "", "")
    });
    corners.chain(walls).chain(marks).chain(length).collect()
}

fn pick_end(desk: &mut Desk, at: usize, which: Which, id: &str) -> Then {
    let Some((kind, name)) = id.split_once(':') else {
        return Then::Stay;
    };
    let mut end = End::default();
    match kind {
        "corner" => end.corner = Some(name.into()),
        "wall" => end.wall = Some(name.into()),
        "mark" => end.mark = Some(name.into()),
        _ => {
            let part = Part::EndLength;
            desk.ask(Box::new(RunFigure { run: at, part }));
            return Then::Keypad;
        }
    }
    change(desk, at, |run| {
        let place = match which {
            Which::Start => &mut run.start,
            Which::End => &mut run.end,
        };
        end.extra = place.take().unwrap_or_default().extra;
        *place = Some(end);
    });
    Then::Stay
}

/// Changes the run at this place in the file.
pub fn change(desk: &mut Desk, at: usize, how: impl FnOnce(&mut Run)) -> bool {
    let Some(mut value) = desk.saved().runs.get(at).cloned() else {
        return false;
    };
    how(&mut value);
    desk.change(Edit::Run(Change::Replace { at, value }))
}
