//! On the trestles: what is marked along each post and cut before it is set.

use super::super::document::{Cell, Column, Section, Table};
use super::super::phrase::{and, count};
use super::{SheetDesk, names, pictures};
use crate::boards::{AlongPost, AlongWhat, MarkEdge, PostFace, PostHeights, RunBoards, UpOrDown};
use crate::cautions::{MASONRY, NOTCH};
use crate::job::RunId;
use crate::job::model::Foot;

pub fn section(desk: &SheetDesk<'_>) -> Option<Section> {
    let mut section = Section::new("On the trestles");
    let all = || desk.solution.boards.values().flat_map(|run| &run.posts);
    if !all().any(|post| !post.along.is_empty()) {
        return None;
    }
    section.say(format!(
        "Lay the posts with their tops level and mark from the top; what is clamped together is \
         marked and cut together.{} Start and end: the side towards the run's start or end; front: \
         towards the string.",
        rail_height(desk)
    ));
    section.caution(NOTCH);
    if all().any(|post| post.bolts.is_some()) {
        section.caution(MASONRY);
    }
    for (id, boards) in &desk.solution.boards {
        if boards.alike.is_empty() {
            continue;
        }
        section.heading(names::run(desk.job, id));
        section.pictures(pictures::on_trestles(desk, id).into_iter().collect());
        section.table(marks(desk, boards));
        section.list(bolts(desk, boards));
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

/// One side of one group of posts.
struct Side<'a> {
    name: String,
    side: &'static str,
    first: &'a PostHeights,
    posts: Vec<&'a PostHeights>,
    marks: Vec<&'a AlongPost>,
    leads: bool,
}

fn columns(boards: &RunBoards) -> Vec<Side<'_>> {
    let mut all = Vec::new();
    for group in &boards.alike {
        let posts: Vec<&PostHeights> = group
            .iter()
            .filter_map(|n| boards.posts.iter().find(|post| post.n == *n))
            .collect();
        let Some(&first) = posts.first() else {
            continue;
        };
        let on = |face| -> Vec<&AlongPost> {
            let marks = first.along.iter();
            marks.filter(|mark| mark.side == Some(face)).collect()
        };
        let [start, end, front] = [PostFace::Start, PostFace::End, PostFace::Front].map(on);
        let numbers: Vec<String> = group.iter().map(usize::to_string).collect();
        let same = |a: &[&AlongPost], b: &[&AlongPost]| {
            a.len() == b.len()
                && a.iter().zip(b).all(|(a, b)| {
                    a.what == b.what && (a.from - b.from).abs() < 0.05 && a.depth == b.depth
                })
        };
        let mut sides: Vec<(&'static str, Vec<&AlongPost>)> = Vec::new();
        if !start.is_empty() && same(&start, &end) {
            sides.push(("both", start));
        } else {
            sides.extend([("start", start), ("end", end)]);
        }
        sides.push(("front", front));
        sides.retain(|(_, marks)| !marks.is_empty());
        if sides.is_empty() {
            sides.push(("", Vec::new()));
        }
        for (k, (side, marks)) in sides.into_iter().enumerate() {
            all.push(Side {
                name: numbers.join(", "),
                side,
                first,
                posts: posts.clone(),
                marks,
                leads: k == 0,
            });
        }
    }
    all
}

fn marks(desk: &SheetDesk<'_>, boards: &RunBoards) -> Table {
    let columns = columns(boards);
    let one_depth = one_depth(boards);
    let mut headings = vec![Column::left("Posts")];
    headings.extend(columns.iter().map(|one| Column::right(&*one.name)));
    let mut table = Table::new("From the top of the post", headings);
    let mut row = |name: String, cell: &dyn Fn(&Side<'_>) -> Cell| {
        let mut cells = vec![Cell::text(name)];
        cells.extend(columns.iter().map(cell));
        if cells.iter().skip(1).any(|cell| *cell != Cell::Empty) {
            table.rows.push(cells);
        }
    };
    let find = |one: &Side<'_>, what: AlongWhat| {
        let marks = one.marks.iter();
        marks.copied().find(|mark| mark.what == what).copied()
    };
    row("Side".to_owned(), &|one| Cell::text(one.side));
    let rails = desk
        .job
        .boards
        .rails
        .as_ref()
        .map_or(0, |rails| rails.count) as usize;
    for n in (1..=rails).rev() {
        let what = AlongWhat::Rail(n);
        row(format!("Rail {n}"), &|one| {
            Cell::maybe(Cell::Length, find(one, what).map(|mark| mark.from))
        });
        if one_depth.is_none() {
            row(format!("Rail {n}, how deep"), &|one| {
                let depth = find(one, what).and_then(|mark| mark.depth);
                Cell::maybe(Cell::Length, depth)
            });
            row(format!("Rail {n}, strength left"), &|one| {
                let left = find(one, what).and_then(|mark| mark.bending);
                Cell::maybe(Cell::Share, left)
            });
        }
    }
    row("Gravel board".to_owned(), &|one| {
        let mark = find(one, AlongWhat::Gravel);
        Cell::maybe(Cell::Length, mark.map(|mark| mark.from))
    });
    row("Ground".to_owned(), &|one| {
        each(desk, one, |post| {
            let ground = post
                .along
                .iter()
                .find(|mark| mark.what == AlongWhat::Ground);
            ground.map(|mark| mark.from)
        })
    });
    row("Cut off at".to_owned(), &|one| {
        each(desk, one, |post| post.length)
    });
    if let Some(depth) = one_depth {
        table.note = format!("Every housing {} deep.", desk.full(depth));
    }
    table
}

/// The depth of all a run's housings, where it is one.
fn one_depth(boards: &RunBoards) -> Option<f64> {
    let marks = boards.posts.iter().flat_map(|post| &post.along);
    let mut depths = marks.filter_map(|mark| mark.depth);
    let first = depths.next()?;
    depths
        .all(|depth| (depth - first).abs() < 0.05)
        .then_some(first)
}

/// A figure that is each post's own: one where they agree, else in the order of the posts.
fn each(desk: &SheetDesk<'_>, one: &Side<'_>, of: impl Fn(&PostHeights) -> Option<f64>) -> Cell {
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

fn bolts(desk: &SheetDesk<'_>, boards: &RunBoards) -> Vec<String> {
    let rows = boards.posts.iter().filter_map(|post| {
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
            let edge = match mark.edge {
                MarkEdge::Upper => "upper",
                MarkEdge::Lower => "lower",
            };
            let what = mark.what.map_or("its top".to_owned(), |what| {
                format!("{edge} edge of {what}")
            });
            let way = match mark.way {
                UpOrDown::Up => "UP",
                UpOrDown::Down => "DOWN",
            };
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
