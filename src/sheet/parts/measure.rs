//! The readings: what they come to, and how well they check each other.

use super::super::document::{Cell, Column, Section, Table};
use super::super::phrase::{count, count_in_words};
use super::{SheetDesk, names, pictures};
use crate::job::reading::{Measure, Reading};
use crate::listed::and;
use crate::site::{NetworkStatus, ReadingFix};

pub fn section(desk: &SheetDesk<'_>) -> Option<Section> {
    if desk.job.marks.is_empty() && desk.job.readings.is_empty() {
        return None;
    }
    let mut section = Section::new("Measure what is there");
    section.say(summary(desk));
    section.say(advice(desk));
    section.pictures(pictures::tapes(desk));
    section.table(marks(desk));
    section.table(readings(desk));
    Some(section)
}

fn summary(desk: &SheetDesk<'_>) -> String {
    let network = &desk.solution.network;
    let marks = count_in_words(desk.job.marks.len(), "mark");
    let loose: Vec<String> = network.loose.iter().map(ToString::to_string).collect();
    let fixed = match network.status {
        NetworkStatus::Fixed if desk.job.marks.len() == 1 => "fixed".to_owned(),
        NetworkStatus::Fixed => "all fixed".to_owned(),
        NetworkStatus::Loose => format!("{} can still move", and(&loose)),
    };
    let used = desk.solution.readings.len();
    if used == 0 {
        return format!("{marks}; nothing measured yet.");
    }
    let spare = match network.redundancy {
        n if n > 0 => format!(", {n} more than needed"),
        _ => String::new(),
    };
    format!(
        "{marks}, {fixed}. {}{spare}{}",
        count(used, "reading"),
        agreement(desk)
    )
}

/// The end of the sentence about the readings, and what a slip could hide behind.
fn agreement(desk: &SheetDesk<'_>) -> String {
    let network = &desk.solution.network;
    let readings = &desk.solution.readings;
    if !network.suspects.is_empty() || network.more_than_one_wrong {
        return ", and they do not agree: see above.".to_owned();
    }
    let weakest = readings
        .iter()
        .filter_map(|fix| Some((fix, fix.least_slip?)))
        .filter(|(fix, _)| is_length(desk.job.readings.get(fix.index)))
        .max_by(|a, b| a.1.total_cmp(&b.1));
    let Some((fix, slip)) = weakest else {
        return ". Nothing checks them: a slip in any of them would not show. Take one more tape, across the longest way you can.".to_owned();
    };
    let unchecked = readings.iter().filter(|f| f.least_slip.is_none()).count();
    let and_unchecked = match unchecked {
        0 => String::new(),
        n => format!(" Nothing checks {n} of them."),
    };
    let what = desk.job.readings.get(fix.index);
    let what = what.map_or_else(String::new, |one| names::reading(desk.job, one));
    format!(
        ", and they agree. A slip under {} in {} would not show.{and_unchecked}",
        desk.full(slip),
        what.strip_prefix("Tape ").unwrap_or(&what),
    )
}

fn is_length(reading: Option<&Reading>) -> bool {
    reading.is_some_and(|one| !matches!(one.what, Measure::Angle { .. }))
}

fn advice(desk: &SheetDesk<'_>) -> String {
    let next = desk.solution.advice.as_ref();
    next.map(|next| next.sentence(&desk.solution.network, desk.job.show.lengths))
        .unwrap_or_default()
}

fn readings(desk: &SheetDesk<'_>) -> Table {
    let mut table = Table::new(
        "Readings",
        vec![
            Column::left("Reading"),
            Column::right("As read"),
            Column::right("Adjusted"),
            Column::right("Change"),
            Column::right("Checked"),
            Column::right("Slip that shows"),
            Column::left(""),
        ],
    );
    for (index, reading) in desk.job.readings.iter().enumerate() {
        let fix = desk.solution.readings.iter().find(|fix| fix.index == index);
        table.rows.push(row(desk, index, reading, fix));
    }
    let slopes = |one: &Reading| matches!(one.what, Measure::Tape { drop, .. } if drop != 0.0);
    let sloping = if desk.job.readings.iter().any(slopes) {
        " A sloping tape is shown as it reads on its slope."
    } else {
        ""
    };
    table.note = format!(
        "Change: what the other readings did to this one. Checked: how much of a slip \
                  in it the others would show. Slip that shows: a smaller one would pass unseen.{sloping}"
    );
    table
}

/// How the figures of a reading are set.
struct Set {
    whole: fn(f64) -> Cell,
    fine: fn(f64) -> Cell,
    change: fn(f64) -> Cell,
}

const IN_LENGTHS: Set = Set {
    whole: Cell::Length,
    fine: Cell::Fine,
    change: Cell::SignedFine,
};
const IN_DEGREES: Set = Set {
    whole: Cell::Degrees,
    fine: Cell::Degrees,
    change: Cell::SignedDegrees,
};

fn row(
    desk: &SheetDesk<'_>,
    index: usize,
    reading: &Reading,
    fix: Option<&ReadingFix>,
) -> Vec<Cell> {
    let angle = matches!(reading.what, Measure::Angle { .. });
    let set = if angle { &IN_DEGREES } else { &IN_LENGTHS };
    let remark = match fix {
        _ if desk.solution.network.suspects.contains(&index) => "looks wrong",
        None if !reading.used => "left out",
        None => "not used",
        Some(fix) if fix.least_slip.is_none() => "unchecked",
        Some(_) => "",
    };
    let observed = match &reading.what {
        Measure::Tape { length, .. } | Measure::Offset { length, .. } => *length,
        Measure::Angle { degrees, .. } => *degrees,
        Measure::Inline { .. } => Some(0.0),
        Measure::Other { .. } => None,
    };
    let adjusted = fix.map(|fix| reading.what.as_read(fix.adjusted));
    let drop = match reading.what {
        Measure::Tape { drop, .. } if drop != 0.0 => {
            format!(" (sloping, {} drop)", desk.full(drop.abs()))
        }
        _ => String::new(),
    };
    vec![
        Cell::text(format!("{}{drop}", names::reading(desk.job, reading))),
        Cell::maybe(set.whole, observed),
        Cell::maybe(set.fine, adjusted),
        Cell::maybe(
            set.change,
            adjusted.zip(observed).map(|(to, from)| to - from),
        ),
        Cell::maybe(Cell::Share, fix.map(|fix| fix.redundancy)),
        Cell::maybe(set.whole, fix.and_then(|fix| fix.least_slip)),
        if remark.is_empty() {
            Cell::Empty
        } else {
            Cell::text(remark)
        },
    ]
}

fn marks(desk: &SheetDesk<'_>) -> Table {
    let caption = match desk.job.walls.first() {
        Some(first) => format!(
            "Marks: x along {} from mark {}, y square to its left",
            names::wall(desk.job, &first.id),
            first.from
        ),
        None => "Marks: x and y from the first mark".to_owned(),
    };
    let mut table = Table::new(
        caption,
        vec![
            Column::left("Mark"),
            Column::right("x"),
            Column::right("y"),
            Column::right("±"),
            Column::left("What it is"),
        ],
    );
    for mark in &desk.job.marks {
        let fix = desk.solution.marks.get(&mark.id);
        let note = match (&fix, mark.note.is_empty()) {
            (None, true) => Cell::text("can still move"),
            (None, false) => Cell::text(format!("{}; can still move", mark.note)),
            (Some(_), true) => Cell::Empty,
            (Some(_), false) => Cell::text(mark.note.as_str()),
        };
        table.rows.push(vec![
            Cell::text(mark.id.as_str()),
            Cell::maybe(Cell::Length, fix.map(|fix| fix.x)),
            Cell::maybe(Cell::Length, fix.map(|fix| fix.y)),
            Cell::maybe(Cell::Pm, fix.map(|fix| fix.pm)),
            note,
        ]);
    }
    table
}
