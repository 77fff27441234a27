//! What to cut and what to buy.

use super::super::document::{Cell, Column, Section, Table};
use super::super::phrase::sentence;
use super::{SheetDesk, buy, lengths, notches, number, sundries};
use crate::boards::{Cut, CutPiece, LongPoint, PaleStretch, WhichEnd};
use crate::cautions::{CEMENT, NOTCH, TREATED_CUTS};
use crate::job::RunId;

pub fn section(desk: &SheetDesk<'_>) -> Option<Section> {
    let solution = desk.solution;
    if solution.cuts.is_empty() && solution.buy.post_count == 0 {
        return None;
    }
    let mut section = Section::new("Buy and cut");
    section.list(buy::list(desk));
    section.list(sundries::list(desk));
    section.caution(CEMENT);
    section.caution(TREATED_CUTS);
    section.table(lengths::table(desk));
    section.table(cuts(desk));
    section.table(pales(desk));
    for (id, boards) in &solution.boards {
        for stretch in &boards.pales {
            section.say(pale_marks(desk, id.as_str(), stretch));
        }
    }
    if solution
        .boards
        .values()
        .any(|boards| boards.notch.is_some())
    {
        // Where posts are cut on trestles it is said there.
        let posts = || solution.boards.values().flat_map(|run| &run.posts);
        if posts().all(|post| post.along.is_empty()) {
            section.caution(NOTCH);
        }
        section.list(notches::list(desk));
    }
    section.list(bevels(desk));
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
    let pieces = desk.solution.cuts.iter();
    for cut in pieces.filter(|cut| cut.item != CutPiece::Post) {
        table.rows.push(vec![
            Cell::text(item(cut.item)),
            number(cut.count),
            Cell::Length(cut.length),
            Cell::text(spots(cut)),
        ]);
    }
    table.note =
        "Rails run into their seats at both ends. Measure each bay as built before cutting."
            .to_owned();
    table
}

fn spots(cut: &Cut) -> String {
    let mut runs: Vec<(&RunId, Vec<String>)> = Vec::new();
    for spot in &cut.spots {
        let bay = format!("{}–{}", spot.from, spot.to);
        match runs.iter_mut().find(|(run, _)| **run == spot.run) {
            Some((_, bays)) => bays.push(bay),
            None => runs.push((&spot.run, vec![bay])),
        }
    }
    let each = runs.iter();
    let each = each.map(|(run, bays)| format!("{run}, posts {}", bays.join(", ")));
    each.collect::<Vec<_>>().join("; ")
}

/// The pieces whose ends are cut on the bevel.
fn bevels(desk: &SheetDesk<'_>) -> Vec<String> {
    let bevelled = desk.solution.cuts.iter().filter(|cut| !cut.ends.is_empty());
    let line = |cut: &Cut| {
        format!(
            "{}, {}, {} where shortest: {}",
            sentence(item(cut.item)),
            spots(cut),
            desk.length(cut.short),
            ends(desk, cut)
        )
    };
    let mut list: Vec<String> = bevelled.map(line).collect();
    if let Some(last) = list.last_mut() {
        last.push_str(". Front: towards the string. Off square: on a saw that reads 0");
    }
    list
}

/// Each bevelled end: its angle, its long point and how far that is from the short one.
fn ends(desk: &SheetDesk<'_>, cut: &Cut) -> String {
    let each = cut.ends.iter().map(|end| {
        let which = match end.end {
            WhichEnd::Start => "start",
            WhichEnd::End => "end",
        };
        let point = match end.long_point {
            LongPoint::Front => "front",
            LongPoint::Back => "back",
        };
        let mut said = format!(
            "{which} {:.1}° off square, long point {point}",
            end.off_square
        );
        if let Some(corner) = &end.corner {
            said.push_str(&format!(
                ", and {} shorter where the post's corner pokes in {} behind the front",
                desk.fine(corner.shorter),
                desk.length(corner.behind)
            ));
        }
        said
    });
    each.collect::<Vec<_>>().join("; ")
}

fn pales(desk: &SheetDesk<'_>) -> Table {
    let mut table = Table::new(
        "Pales, finishing on a whole one",
        vec![
            Column::left("Run"),
            Column::left("Posts"),
            Column::right("Cover"),
            Column::right("Pales"),
            Column::right("Lap"),
            Column::right("Spacing"),
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
