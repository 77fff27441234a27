//! The pocket card: under the plan, each run in one strip, post by post.

use super::super::document::{Cell, Column, Section, Table};
use super::heights::{down, sides};
use super::{SheetDesk, attention, names, trestles};
use crate::boards::{HeightMark, MarkedThing, RunBoards, height_marks};
use crate::cautions::IN_ONE_LINE;
use crate::job::RunId;
use crate::setout::{Post, RunFix};

/// None while no run is set out.
pub fn section(desk: &SheetDesk<'_>) -> Option<Section> {
    if desk.solution.runs.is_empty() {
        return None;
    }
    let mut section = Section::new("For the pocket").across();
    section.say(attention::in_short(desk));
    section.say(IN_ONE_LINE);
    for (id, fix) in &desk.solution.runs {
        section.table(strip(desk, id, fix));
    }
    Some(section)
}

/// A post, or one side of it where the heights differ.
struct Stand<'a> {
    name: String,
    post: &'a Post,
    /// Heights from the laser line; empty while they are not known.
    marks: Vec<HeightMark>,
    /// The first of its post's sides.
    leads: bool,
}

fn stands<'a>(desk: &SheetDesk<'_>, fix: &'a RunFix, boards: Option<&RunBoards>) -> Vec<Stand<'a>> {
    let levels = desk.solution.levels.as_ref();
    let setup = boards.and_then(|boards| boards.setup.as_ref());
    let line = setup.and_then(|setup| Some(levels?.setups.get(setup)?.line));
    let mut all = Vec::new();
    for (i, post) in fix.posts.iter().enumerate() {
        let heights = boards.and_then(|boards| boards.posts.get(i));
        let marked = heights.zip(line);
        let of_sides = marked.map_or_else(Vec::new, |(heights, line)| {
            sides(heights, i == 0, &height_marks(heights, line))
        });
        if of_sides.is_empty() {
            all.push(Stand {
                name: post.n.to_string(),
                post,
                marks: Vec::new(),
                leads: true,
            });
        }
        let several = of_sides.len() > 1;
        for (k, (side, marks)) in of_sides.into_iter().enumerate() {
            all.push(Stand {
                name: if several {
                    format!("{} {side}", post.n)
                } else {
                    post.n.to_string()
                },
                post,
                marks,
                leads: k == 0,
            });
        }
    }
    all
}

fn strip(desk: &SheetDesk<'_>, id: &RunId, fix: &RunFix) -> Table {
    let boards = desk.solution.boards.get(id);
    let stands = stands(desk, fix, boards);
    let mut columns = vec![Column::left("Post")];
    columns.extend(stands.iter().map(|stand| Column::right(&*stand.name)));
    let setup = boards.and_then(|boards| boards.setup.as_ref());
    let from = setup.map_or_else(String::new, |setup| {
        format!("; ↑ up, ↓ down from the laser line of set-up {setup}")
    });
    let name = names::run(desk.job, id);
    let mut table = Table::new(
        format!("{name}: running readings from its zero{from}"),
        columns,
    );
    let mut row = |name: &str, cell: &dyn Fn(&Stand<'_>) -> Cell| {
        let mut cells = vec![Cell::text(name)];
        cells.extend(stands.iter().map(cell));
        if cells.iter().skip(1).any(|cell| *cell != Cell::Empty) {
            table.rows.push(cells);
        }
    };
    let once = |stand: &Stand<'_>, cell: Cell| if stand.leads { cell } else { Cell::Empty };
    row("Stands", &|s| {
        once(s, Cell::text(trestles::stands(s.post.foot)))
    });
    row("Near face", &|s| once(s, Cell::Length(s.post.near)));
    row("Centre", &|s| once(s, Cell::Length(s.post.centre)));
    row("Far face", &|s| once(s, Cell::Length(s.post.far)));
    let height = |what: MarkedThing| {
        move |stand: &Stand<'_>| {
            let mark = stand.marks.iter().find(|mark| mark.what == what);
            Cell::maybe(Cell::Arrow, mark.map(down))
        }
    };
    row("Post top", &height(MarkedThing::Top));
    let rails = boards.and_then(|b| b.rails.iter().map(|bay| bay.heights.len()).max());
    for n in (1..=rails.unwrap_or(0)).rev() {
        row(&format!("Rail {n}"), &height(MarkedThing::Rail(n)));
    }
    row("Board top", &height(MarkedThing::Gravel));
    table
}
