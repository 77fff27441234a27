//! Carrying the level: the datum, each set-up's line, the step between them, and how it closes.

use super::super::document::{Cell, Column, Section, Table};
use super::super::phrase::count_in_words;
use super::SheetDesk;
use crate::adjust::CHECKED;
use crate::cautions::LASER;
use crate::job::model::Point;
use crate::levels::{LevelsFix, SightFix};

pub fn section(desk: &SheetDesk<'_>) -> Option<Section> {
    let levels = desk.solution.levels.as_ref()?;
    let mut section = Section::new("Carry the level");
    section.caution(LASER);
    if let Some(datum) = &desk.job.levels.datum {
        section.say(format!(
            "Datum: {}, height {}. Heights are above zero where +, below where −.",
            datum.point,
            desk.full(datum.height)
        ));
    }
    section.say(closure(desk, levels));
    section.table(setups(levels));
    section.list(steps(desk, levels));
    section.table(points(desk, levels));
    section.table(sights(desk, levels));
    Some(section)
}

fn closure(desk: &SheetDesk<'_>, levels: &LevelsFix) -> String {
    if !levels.suspects.is_empty() || levels.more_than_one_wrong {
        return "The sights do not agree: see above.".to_owned();
    }
    match &levels.closure {
        Some(closure) if closure.checks > 0 => format!(
            "{}: closes to {}; up to {} is within the laser’s accuracy.",
            count_in_words(closure.checks, "check"),
            desk.fine(closure.closes),
            desk.fine(closure.explained)
        ),
        _ => "Nothing checks these sights: sight the datum, or a change point, once more from the last set-up.".to_owned(),
    }
}

fn setups(levels: &LevelsFix) -> Table {
    let mut table = Table::new(
        "Laser lines",
        vec![
            Column::left("Set-up"),
            Column::right("Height of its line"),
            Column::right("±"),
            Column::right("Above the first line"),
            Column::right("±"),
        ],
    );
    for (i, (id, fix)) in levels.setups.iter().enumerate() {
        let later = i > 0;
        table.rows.push(vec![
            Cell::text(id.as_str()),
            Cell::Signed(fix.line),
            Cell::Pm(fix.pm),
            Cell::maybe(Cell::Signed, later.then_some(fix.step)),
            Cell::maybe(Cell::Pm, later.then_some(fix.step_pm)),
        ]);
    }
    table
}

/// What each later set-up changes.
fn steps(desk: &SheetDesk<'_>, levels: &LevelsFix) -> Vec<String> {
    let Some((first, _)) = levels.setups.first() else {
        return Vec::new();
    };
    let later = levels.setups.iter().skip(1);
    later
        .map(|(id, fix)| {
            let by = desk.full(fix.step.abs());
            let (place, down) = match fix.step < 0.0 {
                true => ("lower", "less"),
                false => ("higher", "more"),
            };
            format!(
                "{id}’s laser line is {by} {place} than {first}’s: the same height is {by} {down} down from it."
            )
        })
        .collect()
}

fn sights(desk: &SheetDesk<'_>, levels: &LevelsFix) -> Table {
    let mut table = Table::new(
        "Sights",
        vec![
            Column::left("Set-up"),
            Column::left("Point"),
            Column::right("As read"),
            Column::right("Change"),
            Column::right("Checked"),
        ],
    );
    table.names = 2;
    for (s, setup) in desk.job.levels.setups.iter().enumerate() {
        for (i, sight) in setup.sights.iter().enumerate() {
            let found = levels.sights.iter().position(|fix| fix.place == (s, i));
            let fix = found.and_then(|at| levels.sights.get(at));
            let suspect = found.is_some_and(|at| levels.suspects.contains(&at));
            table.rows.push(vec![
                Cell::text(setup.id.as_str()),
                Cell::text(sight.point.as_str()),
                Cell::maybe(Cell::Down, sight.down),
                Cell::maybe(Cell::SignedFine, fix.map(|fix| fix.residual)),
                checked(fix, sight.used, suspect),
            ]);
        }
    }
    table
}

/// How much of a slip the others would show, or what is the matter with it.
fn checked(fix: Option<&SightFix>, used: bool, suspect: bool) -> Cell {
    Cell::text(match fix {
        _ if suspect => "looks wrong",
        None if !used => "left out",
        None => "not used",
        Some(fix) if fix.redundancy <= CHECKED => "unchecked",
        Some(fix) => return Cell::Share(fix.redundancy),
    })
}

fn points(desk: &SheetDesk<'_>, levels: &LevelsFix) -> Table {
    let mut table = Table::new(
        "Heights",
        vec![
            Column::left("Point"),
            Column::left("Where"),
            Column::right("Height"),
            Column::right("±"),
        ],
    );
    for (id, fix) in &levels.points {
        let listed = desk.job.levels.points.iter().find(|point| point.id == *id);
        table.rows.push(vec![
            Cell::text(id.as_str()),
            listed.map_or(Cell::Empty, |point| place(desk, point)),
            Cell::Signed(fix.height),
            Cell::Pm(fix.pm),
        ]);
    }
    table
}

fn place(desk: &SheetDesk<'_>, point: &Point) -> Cell {
    let at = match (&point.run, point.at, &point.mark) {
        (Some(run), Some(at), _) => format!("ground, run {run} at {}", desk.length(at)),
        (_, _, Some(mark)) => format!("mark {mark}"),
        _ => String::new(),
    };
    match (at.is_empty(), point.note.is_empty()) {
        (true, true) => Cell::Empty,
        (true, false) => Cell::text(point.note.as_str()),
        (false, true) => Cell::text(at),
        (false, false) => Cell::text(format!("{at}; {}", point.note)),
    }
}
