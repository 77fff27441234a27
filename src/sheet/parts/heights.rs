//! Heights on the posts: up or down from the laser line, and what the boards do to the ground.

use super::super::document::{Cell, Column, Section, Table};
use super::{SheetDesk, card, names, pictures};
use crate::boards::{RunBoards, height_marks};
use crate::job::{RunId, SetupId};

pub fn section(desk: &SheetDesk<'_>) -> Option<Section> {
    let marked: Vec<Marked<'_>> = desk
        .solution
        .boards
        .iter()
        .filter_map(|(id, boards)| Marked::of(desk, id, boards))
        .collect();
    if marked.is_empty() {
        return None;
    }
    let mut section = Section::new("Fix the heights");
    section.say(format!(
        "Post by post on the first page. UP is above the laser line, DOWN below it; a rail's figure \
         is its {}.",
        desk.job.show.rail.name()
    ));
    let lines = marked.iter().map(|run| run.from(desk));
    section.list(lines.collect());
    for run in &marked {
        section.pictures_each(pictures::elevations(desk, run.id));
        if let Some(fix) = desk.solution.runs.get(run.id) {
            for setup in other_lines(desk, run.setup) {
                section.table(card::from_another_line(desk, run.id, fix, setup));
            }
        }
        section.table(ground(desk, run));
        section.list(run.notes(desk));
    }
    Some(section)
}

/// A run whose heights are known from the laser line of a set-up.
struct Marked<'a> {
    id: &'a RunId,
    boards: &'a RunBoards,
    setup: &'a SetupId,
}

impl<'a> Marked<'a> {
    fn of(desk: &SheetDesk<'a>, id: &'a RunId, boards: &'a RunBoards) -> Option<Self> {
        let setup = boards.setup.as_ref()?;
        let line = desk.solution.levels.as_ref()?.setups.get(setup)?.line;
        let mut posts = boards.posts.iter();
        let run = Self { id, boards, setup };
        posts
            .any(|post| !height_marks(post, line).is_empty())
            .then_some(run)
    }

    /// Which laser line its figures on the first page are from.
    fn from(&self, desk: &SheetDesk<'_>) -> String {
        format!(
            "{}: from the laser line of set-up {}, sure to {}.",
            names::run(desk.job, self.id),
            self.setup,
            desk.pm(worst(self.boards))
        )
    }

    /// Steps of its boards, and the bottoms of its gates' leaves.
    fn notes(&self, desk: &SheetDesk<'_>) -> Vec<String> {
        let mut notes = steps(desk, self.boards);
        let leaves = self.boards.gates.iter().filter_map(|leaf| {
            Some(format!(
                "Bottom of the gate leaf between posts {} and {}: {}.",
                leaf.from,
                leaf.to,
                Cell::Down(leaf.down?).shown(desk.unit)
            ))
        });
        notes.extend(leaves);
        notes
    }
}

fn worst(boards: &RunBoards) -> f64 {
    let each = boards.posts.iter().filter_map(|post| post.pm);
    each.fold(0.0, f64::max)
}

/// The set-ups other than a run's own.
fn other_lines<'a>(desk: &SheetDesk<'a>, own: &SetupId) -> Vec<&'a SetupId> {
    let levels = desk.solution.levels.as_ref();
    let all = levels.into_iter().flat_map(|levels| levels.setups.keys());
    all.filter(|setup| *setup != own).collect()
}

/// Where the boards step, and by how much.
fn steps(desk: &SheetDesk<'_>, boards: &RunBoards) -> Vec<String> {
    let steps = boards.posts.iter().filter_map(|post| {
        let step = post.step.filter(|step| step.abs() >= 0.05)?;
        let way = if step < 0.0 { "DOWN" } else { "UP" };
        let to = match &post.shared {
            Some(other) if post.n > 1 => format!("round the corner on run {other}"),
            _ => "towards the end".to_owned(),
        };
        Some(format!(
            "At post {} the boards step {way} {} {to}.",
            post.n,
            desk.full(step.abs())
        ))
    });
    steps.collect()
}

fn ground(desk: &SheetDesk<'_>, run: &Marked<'_>) -> Table {
    let boards = run.boards;
    let mut table = Table::new(
        format!(
            "{}: gravel boards and the ground",
            names::run(desk.job, run.id)
        ),
        vec![
            Column::left("Bay"),
            Column::right("Top of board"),
            Column::right("Bottom of board"),
            Column::right("Dig at the high end"),
            Column::right("Gap at the low end"),
        ],
    );
    let line = boards.gravel.iter().find_map(|b| Some(b.down? + b.top?));
    for board in &boards.gravel {
        let bottom = line.zip(board.bottom).map(|(line, bottom)| line - bottom);
        table.rows.push(vec![
            Cell::text(format!("{} to {}", board.from, board.to)),
            Cell::maybe(Cell::Arrow, board.down),
            Cell::maybe(Cell::Arrow, bottom),
            Cell::maybe(Cell::Length, board.dig),
            match board.max_gap {
                Some(gap) if gap < 0.0 => Cell::text("cut into the ground"),
                gap => Cell::maybe(Cell::Length, gap),
            },
        ]);
    }
    table.note = "Dig: for the board and the clearance under it.".to_owned();
    table
}
