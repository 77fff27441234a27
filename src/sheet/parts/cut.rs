//! What to cut and what to buy.

use super::super::document::{Cell, Column, Section, Table};
use super::super::phrase::{and, count};
use super::{SheetDesk, notches, number, sundries};
use crate::boards::{Bought, Cut, CutPiece, PaleStretch, RailEnd, Spot, WhichEnd};
use crate::cautions::{CEMENT, NOTCH, TREATED_CUTS};

pub fn section(desk: &SheetDesk<'_>) -> Option<Section> {
    let solution = desk.solution;
    if solution.cuts.is_empty() && solution.buy.post_count == 0 {
        return None;
    }
    let mut section = Section::new("Cut and buy");
    section.caution(TREATED_CUTS);
    section.table(cuts(desk));
    section.table(rail_ends(desk));
    section.table(pales(desk));
    for (id, boards) in &solution.boards {
        for stretch in &boards.pales {
            section.say(pale_marks(desk, id.as_str(), stretch));
        }
    }
    section.table(posts(desk));
    if solution
        .boards
        .values()
        .any(|boards| boards.notch.is_some())
    {
        section.caution(NOTCH);
        section.list(notches::list(desk));
    }
    section.heading("To buy");
    section.list(buy(desk));
    section.list(sundries::list(desk));
    section.caution(CEMENT);
    Some(section)
}

fn item(item: CutPiece) -> &'static str {
    match item {
        CutPiece::Gravel => "gravel board",
        CutPiece::Rail => "rail",
        CutPiece::Pale => "pale",
        CutPiece::Post => "post",
    }
}

fn cuts(desk: &SheetDesk<'_>) -> Table {
    let mut table = Table::new(
        "Cut list",
        vec![
            Column::left("Piece"),
            Column::right("How many"),
            Column::right("Length"),
            Column::left("Where"),
        ],
    );
    for cut in &desk.solution.cuts {
        table.rows.push(vec![
            Cell::text(item(cut.item)),
            number(cut.count),
            Cell::Length(cut.length),
            Cell::text(spots(cut)),
        ]);
    }
    table.note = "Gravel boards fit clear between the posts; rails run into their seats at both \
                  ends. Measure each bay as built before cutting for it."
        .to_owned();
    table
}

fn spots(cut: &Cut) -> String {
    let spot = |spot: &Spot| match (spot.from == spot.to, cut.item) {
        (true, _) => format!("{} post {}", spot.run, spot.from),
        (false, _) => format!("{} posts {}–{}", spot.run, spot.from, spot.to),
    };
    cut.spots.iter().map(spot).collect::<Vec<_>>().join(", ")
}

fn rail_ends(desk: &SheetDesk<'_>) -> Table {
    let mut table = Table::new(
        "Rail ends at the corners",
        vec![
            Column::left("Run"),
            Column::left("End"),
            Column::left("Cut"),
            Column::right("Off square"),
            Column::right("From the length"),
            Column::right("Long to short point"),
        ],
    );
    table.names = 3;
    for (id, boards) in &desk.solution.boards {
        for end in &boards.ends {
            let row = |what: &str, cut: &crate::boards::SawCut| {
                vec![
                    Cell::text(id.as_str()),
                    Cell::text(where_at(end)),
                    Cell::text(what),
                    Cell::Degrees(cut.off_square),
                    Cell::Degrees(cut.from_length),
                    Cell::Fine(cut.long_to_short),
                ]
            };
            table.rows.push(row("against the post", &end.to_post));
            table.rows.push(row("mitred past it", &end.mitre));
        }
    }
    table.note = "Off square: a saw that reads 0 for a square cut. From the length: an angle \
                  marked from the rail's long side. They are one cut."
        .to_owned();
    table
}

fn where_at(end: &RailEnd) -> String {
    let which = match end.end {
        WhichEnd::Start => "start",
        WhichEnd::End => "end",
    };
    format!("{which}, corner {}", end.corner)
}

fn pales(desk: &SheetDesk<'_>) -> Table {
    let mut table = Table::new(
        "Pales, finishing on a whole one",
        vec![
            Column::left("Run"),
            Column::left("Posts"),
            Column::right("To cover"),
            Column::right("Pales"),
            Column::right("Lap"),
            Column::right("Edge to edge"),
            Column::right("Trim"),
        ],
    );
    table.names = 2;
    for (id, boards) in &desk.solution.boards {
        for stretch in &boards.pales {
            table.rows.push(vec![
                Cell::text(id.as_str()),
                Cell::text(format!("{} to {}", stretch.from, stretch.to)),
                Cell::Length(stretch.cover),
                number(stretch.count),
                Cell::Fine(stretch.lap),
                Cell::Fine(stretch.spacing),
                Cell::maybe(Cell::Fine, stretch.trim),
            ]);
        }
    }
    table
}

/// Running readings of the pales' near edges, so that no error adds up.
fn pale_marks(desk: &SheetDesk<'_>, run: &str, stretch: &PaleStretch) -> String {
    const MOST: usize = 400;
    if stretch.count > MOST {
        return String::new();
    }
    let marks: Vec<String> = stretch.marks().map(|at| desk.length(at)).collect();
    format!(
        "Run {run}, posts {} to {}: near edge of each pale, from the run's zero: {}.",
        stretch.from,
        stretch.to,
        marks.join(", ")
    )
}

fn posts(desk: &SheetDesk<'_>) -> Table {
    let mut table = Table::new(
        "Posts",
        vec![
            Column::left("Run"),
            Column::left("Post"),
            Column::right("Above ground"),
            Column::right("Length"),
            Column::right("In the ground"),
            Column::right("Concrete, litres"),
            Column::right("Litres as dug"),
            Column::left(""),
        ],
    );
    table.names = 2;
    let mut listed = Vec::new();
    for (id, boards) in &desk.solution.boards {
        for post in &boards.posts {
            // The first of the two runs that share a corner post has its concrete.
            let again = post
                .shared
                .as_ref()
                .is_some_and(|other| listed.contains(other));
            let own = |litres: Option<f64>| litres.filter(|_| !again);
            table.rows.push(vec![
                Cell::text(id.as_str()),
                number(post.n),
                Cell::maybe(Cell::Length, post.above),
                Cell::maybe(Cell::Length, post.length),
                Cell::maybe(Cell::Share, post.in_ground),
                Cell::maybe(Cell::Litres, own(post.litres)),
                Cell::maybe(Cell::Litres, own(post.litres_dug)),
                match &post.shared {
                    Some(other) => Cell::text(format!("shared with run {other}")),
                    None => Cell::Empty,
                },
            ]);
        }
        listed.push(id.clone());
    }
    let hole = &desk.job.hole;
    let mut posts = desk.solution.boards.values().flat_map(|run| &run.posts);
    let shared = posts.any(|post| post.shared.is_some());
    table.note = format!(
        "Holes {} across and {} deep; as dug allows {:.0} % over.{} How deep a post must stand is for you and local practice to decide.",
        desk.length(hole.diameter),
        desk.full(hole.depth),
        hole.over * 100.0,
        if shared {
            " A shared post is cut to the longer of the two."
        } else {
            ""
        }
    );
    table
}

fn buy(desk: &SheetDesk<'_>) -> Vec<String> {
    let buy = &desk.solution.buy;
    let mut list: Vec<String> = [
        ("gravel board", &buy.gravel),
        ("rail", &buy.rails),
        ("pale", &buy.pales),
    ]
    .into_iter()
    .filter(|(_, bought)| bought.pieces > 0)
    .map(|(name, bought)| bought_line(desk, count(bought.pieces, name), bought))
    .collect();
    if buy.post_count > 0 {
        list.push(bought_line(desk, count(buy.post_count, "post"), &buy.posts));
    }
    if buy.bags > 0 {
        list.push(format!(
            "{}: {:.0} litres of concrete as dug, {:.0} litres to a bag",
            count(buy.bags, "bag"),
            buy.litres,
            desk.job.hole.bag
        ));
    }
    list
}

fn bought_line(desk: &SheetDesk<'_>, what: String, bought: &Bought) -> String {
    let total = if bought.length > 0.0 {
        format!(", {} together", desk.full(bought.length))
    } else {
        String::new()
    };
    let stock: Vec<String> = bought
        .stock
        .iter()
        .map(|(length, n)| format!("{n} of {}", desk.full(*length)))
        .collect();
    if stock.is_empty() {
        return format!("{what}{total}");
    }
    let left: f64 = bought.bars.iter().map(|bar| bar.left).sum();
    format!(
        "{what}{total}: buy {}; {} left over",
        and(&stock),
        desk.full(left)
    )
}
