//! How long each post is, what it is cut from, and the concrete round it.

use super::super::document::{Cell, Column, Table};
use super::{SheetDesk, number, trestles};
use crate::boards::{PostHeights, cut_length, shared_post};
use crate::job::RunId;
use crate::job::model::Foot;
use crate::volume;

/// Every post once: a corner post with the first of its two runs.
pub fn table(desk: &SheetDesk<'_>) -> Table {
    let mut table = Table::new(
        "Posts",
        vec![
            Column::left("Run"),
            Column::left("Post"),
            Column::left("Stands"),
            Column::right("Above ground"),
            Column::right("Length"),
            Column::right("Cut from"),
            Column::right("In the ground"),
            Column::right(format!("Concrete, {}", volume::name(desk.unit))),
            Column::right(format!("As dug, {}", volume::name(desk.unit))),
        ],
    );
    table.names = 2;
    let concrete = one_fill(desk);
    let mut shared = Vec::new();
    for (id, boards) in &desk.solution.boards {
        for post in &boards.posts {
            match shared_post(&desk.solution.boards, id, post.n) {
                Some(other) if other.is_first => shared.push(format!(
                    "Post {} of run {id} is post {} of run {}, cut to the longer of the two.",
                    post.n, other.post.n, other.run
                )),
                _ => table.rows.extend(row(desk, id, post, concrete.is_some())),
            }
        }
    }
    table.note = note(desk, concrete);
    for line in shared {
        table.note.push(' ');
        table.note.push_str(&line);
    }
    table.note = table.note.trim_start().to_owned();
    table
}

fn row(desk: &SheetDesk<'_>, id: &RunId, post: &PostHeights, noted: bool) -> Option<Vec<Cell>> {
    let fix = desk
        .solution
        .runs
        .get(id)?
        .posts
        .get(post.n.checked_sub(1)?)?;
    let concrete = |litres: Option<f64>| Cell::maybe(Cell::Litres, litres.filter(|_| !noted));
    Some(vec![
        Cell::text(id.as_str()),
        number(post.n),
        Cell::text(trestles::stands(fix.foot)),
        Cell::maybe(Cell::Length, post.above),
        Cell::maybe(Cell::Length, cut_length(&desk.solution.boards, id, post.n)),
        Cell::maybe(Cell::Length, stock(desk, id, post.n)),
        Cell::maybe(Cell::Share, post.in_ground),
        concrete(post.litres),
        concrete(post.litres_dug),
    ])
}

/// Concrete for one hole as drawn and as dug, litres, where all take the same.
fn one_fill(desk: &SheetDesk<'_>) -> Option<[f64; 2]> {
    let posts = desk.solution.boards.values().flat_map(|run| &run.posts);
    let mut fills = posts.filter_map(|post| Some([post.litres?, post.litres_dug?]));
    let first = fills.next()?;
    fills.all(|fill| fill == first).then_some(first)
}

/// The stock length that a post comes out of.
fn stock(desk: &SheetDesk<'_>, id: &RunId, n: usize) -> Option<f64> {
    let bars = &desk.solution.buy.posts.bars;
    let bar = bars.iter().find(|bar| {
        bar.posts
            .iter()
            .any(|spot| spot.run == *id && spot.from == n)
    });
    bar.map(|bar| bar.stock)
}

fn note(desk: &SheetDesk<'_>, concrete: Option<[f64; 2]>) -> String {
    let mut posts = desk.solution.runs.values().flat_map(|run| &run.posts);
    let hole = &desk.job.hole;
    if posts.all(|post| post.foot != Foot::Hole) {
        return String::new();
    }
    let each = concrete.map_or_else(String::new, |[drawn, dug]| {
        format!(
            " Each takes {} of concrete as drawn, {} as dug.",
            volume::said_fine(drawn, desk.unit),
            volume::said_fine(dug, desk.unit)
        )
    });
    format!(
        "Holes {} across and {} deep; as dug allows {:.0} % over.{each} How deep a post must stand is \
         for you and local practice to decide.",
        desk.length(hole.diameter),
        desk.full(hole.depth),
        hole.over * 100.0,
    )
}
