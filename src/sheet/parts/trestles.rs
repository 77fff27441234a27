//! On the trestles: what is marked along each post and cut before it is set.

use super::super::document::{Cell, Column, Section, Table};
use super::super::phrase::count;
use super::cut_sides::{MarkedSide, sides};
use super::{SheetDesk, names, pictures};
use crate::boards::{
    AlongWhat, PostHeights, RunBoards, UpOrDown, cut_length, cut_together, shared_post,
};
use crate::cautions::{MASONRY, NOTCH};
use crate::job::RunId;
use crate::job::model::Foot;
use crate::listed::and;

pub fn section(desk: &SheetDesk<'_>) -> Option<Section> {
    let mut section = Section::new("On the trestles");
    let all = || desk.solution.boards.values().flat_map(|run| &run.posts);
    if !all().any(|post| !post.along.is_empty()) {
        return None;
    }
    section.say(format!(
        "Lay the posts with their tops level and mark from the top; what is clamped together is \
         marked and cut together.{} Start and end: the side towards the run's start or end, above \
         and below in the drawings; front: towards the string.",
        rail_height(desk)
    ));
    section.caution(NOTCH);
    if all().any(|post| post.bolts.is_some()) {
        section.caution(MASONRY);
    }
    for id in desk.solution.boards.keys() {
        section.pictures(pictures::on_trestles(desk, id).into_iter().collect());
    }
    for (id, boards) in &desk.solution.boards {
        let groups = cut_together(&desk.solution.boards, id);
        section.table(marks(desk, id, &groups));
        section.list(bolts(desk, &groups));
        section.list(elsewhere(desk, id, boards).into_iter().collect());
        section.list(to_the_laser(desk, id, boards));
    }
    Some(section)
}

/// What a post stands in or on, in a word.
pub fn stands(foot: Foot) -> &'static str {
    match foot {
        Foot::Hole => "hole",
        Foot::Plate => "plate",
        Foot::Wall => "wall",
    }
}

fn rail_height(desk: &SheetDesk<'_>) -> String {
    let rails = desk.job.boards.rails.as_ref();
    rails.map_or_else(String::new, |rails| {
        format!(
            " A rail's figure is the upper edge of its housing, which is {} high.",
            desk.full(rails.height)
        )
    })
}

/// One row for each side of a group: where each mark is from the top.
fn marks(desk: &SheetDesk<'_>, id: &RunId, groups: &[Vec<&PostHeights>]) -> Table {
    let one_depth = one_depth(groups);
    let rails = desk.job.boards.rails.as_ref();
    let rails: Vec<usize> = (1..=rails.map_or(0, |rails| rails.count as usize))
        .rev()
        .collect();
    let mut columns = vec![Column::left("Posts"), Column::left("Side")];
    for n in &rails {
        columns.push(Column::right(format!("Rail {n}")));
        if one_depth.is_none() {
            columns.push(Column::right(format!("{n} deep")));
            columns.push(Column::right(format!("{n} leaves")));
        }
    }
    columns.extend(["Board", "Ground", "Cut off"].map(Column::right));
    let caption = format!("{}: from the top of the post", names::run(desk.job, id));
    let mut table = Table::new(caption, columns);
    table.names = 2;
    for one in sides(groups) {
        let find = |what: AlongWhat| one.marks.iter().find(|mark| mark.what == what);
        let mut row = vec![Cell::text(one.name.as_str()), Cell::text(one.side)];
        for &n in &rails {
            let mark = find(AlongWhat::Rail(n));
            row.push(Cell::maybe(Cell::Length, mark.map(|mark| mark.from)));
            if one_depth.is_none() {
                row.push(Cell::maybe(Cell::Length, mark.and_then(|mark| mark.depth)));
                row.push(Cell::maybe(Cell::Share, mark.and_then(|mark| mark.bending)));
            }
        }
        let board = find(AlongWhat::Gravel);
        row.push(Cell::maybe(Cell::Length, board.map(|mark| mark.from)));
        row.push(each(desk, &one, |post| {
            let mut lines = post.along.iter();
            let ground = lines.find(|mark| mark.what == AlongWhat::Ground);
            ground.map(|mark| mark.from)
        }));
        row.push(each(desk, &one, |post| {
            cut_length(&desk.solution.boards, id, post.n)
        }));
        table.rows.push(row);
    }
    table.note = match one_depth {
        Some(depth) => format!("Every housing {} deep.", desk.full(depth)),
        None if rails.is_empty() => String::new(),
        None => "Leaves: the share of the post's bending strength that is left there.".to_owned(),
    };
    table
}

/// The depth of all a run's housings, where it is one.
fn one_depth(groups: &[Vec<&PostHeights>]) -> Option<f64> {
    let marks = groups.iter().flatten().flat_map(|post| &post.along);
    let mut depths = marks.filter_map(|mark| mark.depth);
    let first = depths.next()?;
    depths
        .all(|depth| (depth - first).abs() < 0.05)
        .then_some(first)
}

/// A figure that is each post's own: one where they agree, else in the order of the posts.
fn each(
    desk: &SheetDesk<'_>,
    one: &MarkedSide<'_>,
    of: impl Fn(&PostHeights) -> Option<f64>,
) -> Cell {
    if !one.leads {
        return Cell::Empty;
    }
    let mut shown: Vec<String> = one
        .posts
        .iter()
        .filter_map(|post| of(post).map(|mm| desk.length(mm)))
        .collect();
    shown.dedup();
    match shown.len() {
        0 => Cell::Empty,
        1 => Cell::maybe(Cell::Length, of(one.first)),
        _ => Cell::text(shown.join(", ")),
    }
}

/// Corner posts that are marked and cut with an earlier run.
fn elsewhere(desk: &SheetDesk<'_>, id: &RunId, boards: &RunBoards) -> Vec<String> {
    let shared = boards.posts.iter().filter_map(|post| {
        let other = shared_post(&desk.solution.boards, id, post.n)?;
        other.is_first.then(|| {
            format!(
                "Post {} of run {id} is post {} of run {}: marked and cut there.",
                post.n, other.post.n, other.run
            )
        })
    });
    shared.collect()
}

fn bolts(desk: &SheetDesk<'_>, groups: &[Vec<&PostHeights>]) -> Vec<String> {
    let rows = groups.iter().flatten().filter_map(|post| {
        let row = post.bolts.as_ref()?;
        let at: Vec<String> = row.at.iter().map(|&mm| desk.length(mm)).collect();
        let shaft = row.shaft.map_or_else(String::new, |shaft| {
            format!(", {} long at least", desk.full(shaft))
        });
        Some(format!(
            "Post {}, fixed to the wall: {} at {} from the top{shaft}.",
            post.n,
            count(row.at.len(), "bolt"),
            and(&at)
        ))
    });
    rows.collect()
}

/// How to set a post that is cut already.
fn to_the_laser(desk: &SheetDesk<'_>, id: &RunId, boards: &RunBoards) -> Vec<String> {
    let Some(setup) = &boards.setup else {
        return Vec::new();
    };
    let each: Vec<String> = boards
        .posts
        .iter()
        .filter_map(|post| {
            let mark = post.laser?;
            let way = match mark.way {
                UpOrDown::Up => "UP",
                UpOrDown::Down => "DOWN",
            };
            let what = mark.called();
            Some(format!("{}: {what} {way} {}", post.n, desk.length(mark.by)))
        })
        .collect();
    if each.is_empty() {
        return Vec::new();
    }
    vec![format!(
        "To set a post of run {id} that is cut, bring this to the laser line of {setup}: {}.",
        each.join("; ")
    )]
}
