//! The pocket card: under the plan, each run in one strip, post by post.

use super::super::document::{Cell, Column, Section, Table};
use super::height_sides::{down, sides};
use super::{SheetDesk, attention, names, trestles};
use crate::boards::{HeightMark, MarkedThing, RunBoards, height_marks};
use crate::cautions::IN_ONE_LINE;
use crate::job::{RunId, SetupId};
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

/// The posts of a run, their heights from the laser line of a set-up.
fn stands<'a>(
    desk: &SheetDesk<'_>,
    fix: &'a RunFix,
    boards: Option<&RunBoards>,
    setup: Option<&SetupId>,
) -> Vec<Stand<'a>> {
    let levels = desk.solution.levels.as_ref();
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
    let setup = boards.and_then(|boards| boards.setup.as_ref());
    let stands = stands(desk, fix, boards, setup);
    let from = setup.map_or_else(String::new, |setup| {
        format!("; ↑ up, ↓ down from the laser line of set-up {setup}")
    });
    let name = names::run(desk.job, id);
    let mut table = Table::new(
        format!("{name}: running readings from its zero{from}"),
        columns(&stands),
    );
    let once = |stand: &Stand<'_>, cell: Cell| if stand.leads { cell } else { Cell::Empty };
    let mut row = |name: &str, cell: &dyn Fn(&Stand<'_>) -> Cell| {
        table.rows.extend(row(name, &stands, cell));
    };
    row("Stands", &|s| {
        once(s, Cell::text(trestles::stands(s.post.foot)))
    });
    row("Near face", &|s| once(s, Cell::Length(s.post.near)));
    row("Centre", &|s| once(s, Cell::Length(s.post.centre)));
    row("Far face", &|s| once(s, Cell::Length(s.post.far)));
    table.rows.extend(heights(desk, &stands, boards));
    table
}

/// The heights of a run's posts from another laser line than its own.
pub(super) fn from_another_line(
    desk: &SheetDesk<'_>,
    id: &RunId,
    fix: &RunFix,
    setup: &SetupId,
) -> Table {
    let boards = desk.solution.boards.get(id);
    let stands = stands(desk, fix, boards, Some(setup));
    let name = names::run(desk.job, id);
    let mut table = Table::new(
        format!("{name}: ↑ up, ↓ down from the laser line of set-up {setup}"),
        columns(&stands),
    );
    table.rows.extend(heights(desk, &stands, boards));
    table
}

fn columns(stands: &[Stand<'_>]) -> Vec<Column> {
    let mut columns = vec![Column::left("Post")];
    columns.extend(stands.iter().map(|stand| Column::right(&*stand.name)));
    columns
}

/// One row, post by post; none where no post has anything in it.
fn row(name: &str, stands: &[Stand<'_>], cell: impl Fn(&Stand<'_>) -> Cell) -> Option<Vec<Cell>> {
    let mut cells = vec![Cell::text(name)];
    cells.extend(stands.iter().map(cell));
    let any = cells.iter().skip(1).any(|cell| *cell != Cell::Empty);
    any.then_some(cells)
}

/// Post tops, rails by the edge that the job asks for, and gravel boards, from the top down.
fn heights(
    desk: &SheetDesk<'_>,
    stands: &[Stand<'_>],
    boards: Option<&RunBoards>,
) -> Vec<Vec<Cell>> {
    let edge = desk.job.show.rail;
    let asked = desk.job.boards.rails.as_ref();
    let above = asked.map_or(0.0, |rails| rails.edge(edge));
    let height = |what: MarkedThing| {
        let up = match what {
            MarkedThing::Rail(_) => above,
            MarkedThing::Top | MarkedThing::Gravel => 0.0,
        };
        move |stand: &Stand<'_>| {
            let mark = stand.marks.iter().find(|mark| mark.what == what);
            Cell::maybe(Cell::Arrow, mark.map(|mark| down(mark) - up))
        }
    };
    let rails = boards.and_then(|b| b.rails.iter().map(|bay| bay.heights.len()).max());
    let rails = (1..=rails.unwrap_or(0)).rev();
    let named = rails.map(|n| (format!("Rail {n}, {}", edge.name()), MarkedThing::Rail(n)));
    let top = ("Post top".to_owned(), MarkedThing::Top);
    let board = ("Board top".to_owned(), MarkedThing::Gravel);
    let all = std::iter::once(top).chain(named).chain([board]);
    all.filter_map(|(name, what)| row(&name, stands, height(what)))
        .collect()
}
