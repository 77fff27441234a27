//! The strings: where each nail goes, where two strings cross, and the diagonal that proves it.

use super::super::document::{Cell, Column, Section, Table};
use super::{SheetDesk, attention, names, pictures};
use crate::job::model::{Corner, Line, PostSet, Side};
use crate::job::{CornerId, with_kind};
use crate::quick::bevel::long_to_short;
use crate::site::{CornerFix, StretchVerdict, StretchedFix};

/// A string longer than this sags and bows in the wind enough to matter, mm.
const LONG: f64 = 10_000.0;

pub fn section(desk: &SheetDesk<'_>) -> Option<Section> {
    if desk.job.lines.is_empty() {
        return None;
    }
    let mut section = Section::new("Stretch the strings");
    section.say(attention::tapes_disagree(desk));
    for line in &desk.job.lines {
        string(desk, line, &mut section);
    }
    if desk.solution.runs.values().any(|run| run.length > LONG) {
        section.say(
            "A string over 10 m sags, and a light wind bows it by several millimetres more than \
             that: put a peg in the middle and sight along it.",
        );
    }
    for (id, fix) in &desk.solution.corners {
        if let Some(corner) = desk.job.corners.iter().find(|corner| corner.id == *id) {
            crossing(desk, corner, fix, &mut section);
        }
    }
    Some(section)
}

fn string(desk: &SheetDesk<'_>, line: &Line, section: &mut Section) {
    section.heading(names::line(line));
    let fix = desk.solution.lines.get(&line.id);
    if fix.is_none() {
        section.say("Not settled yet: see above.");
    }
    match (&line.wall, &line.marks) {
        (Some(wall), _) => {
            let name = names::wall(desk.job, wall);
            let from = desk.job.walls.iter().find(|one| one.id == *wall);
            let (from, to) = from.map_or(("", ""), |w| (w.from.as_str(), w.to.as_str()));
            let side = side(line.side.unwrap_or(Side::Left));
            section.say(format!(
                "Nails off {name}, on its {side} looking from {from} to {to}. It runs from {}.",
                if line.reverse {
                    format!("{to} to {from}")
                } else {
                    format!("{from} to {to}")
                }
            ));
            let bow = fix.and_then(|fix| fix.bow.as_deref()).unwrap_or_default();
            section.table(nails(line, from, bow));
            section.say(bowed(desk, bow));
        }
        (None, Some([a, b])) => {
            let (from, to) = if line.reverse { (b, a) } else { (a, b) };
            section.say(format!("Through marks {from} and {to}, running that way."));
        }
        (None, None) => {}
    }
}

fn side(side: Side) -> &'static str {
    match side {
        Side::Left => "left",
        Side::Right => "right",
    }
}

fn nails(line: &Line, from: &str, bow: &[f64]) -> Table {
    let mut table = Table::new(
        format!("Nails, along the wall from mark {from}"),
        vec![
            Column::left("Nail"),
            Column::right("Along the wall"),
            Column::right("Off the wall"),
            Column::right("Off straight"),
            Column::right("String off the wall"),
        ],
    );
    let stations = line.offsets.iter().flatten();
    for (i, station) in stations.enumerate() {
        table.rows.push(vec![
            Cell::text((i + 1).to_string()),
            Cell::maybe(Cell::Length, station.at),
            Cell::maybe(Cell::Length, station.off),
            Cell::maybe(Cell::SignedFine, bow.get(i).copied()),
            Cell::maybe(
                Cell::Length,
                station.off.zip(bow.get(i)).map(|(off, bow)| off - bow),
            ),
        ]);
    }
    table
}

fn bowed(desk: &SheetDesk<'_>, bow: &[f64]) -> String {
    let most = bow.iter().fold(0.0_f64, |most, off| most.max(off.abs()));
    if bow.is_empty() {
        return String::new();
    }
    format!(
        "The string is straight, these offsets are not, by up to {}: where it says + the wall is \
         hollow or the nail too far out, where it says − the wall bulges or the nail is too near. \
         Set each nail so that the string is as far off the wall as the last column says.",
        desk.fine(most)
    )
}

fn crossing(desk: &SheetDesk<'_>, corner: &Corner, fix: &CornerFix, section: &mut Section) {
    let [first, second] = corner.lines.each_ref();
    let [first, second] = [first, second].map(|id| with_kind("string", id.as_str()));
    section.heading(format!("Corner {}: {first} and {second} cross", corner.id));
    section.say(format!(
        "The angle between the two runs is {:.2}° ± {:.2}°, {}. The crossing is good to {}.{}",
        fix.angle,
        fix.angle_pm,
        from_square(desk, fix.angle),
        desk.pm(fix.pm),
        readings_of(desk, &corner.id),
    ));
    section.pictures_each(pictures::of_corner(desk, &corner.id, fix));
    section.table(diagonals(fix));
    section.list(stretched(desk, fix));
    section.say(mitre(desk, fix));
    if let Some(post) = &corner.post {
        let turned = match post.set {
            PostSet::First => format!("square to {first}"),
            PostSet::Second => format!("square to {second}"),
            PostSet::Bisect => "halfway between the two strings".to_owned(),
        };
        section.say(format!(
            "Corner post {} by {}, turned {turned}.",
            desk.length(post.width),
            desk.length(post.depth)
        ));
    }
}

/// The mitre by both ways of reading a saw, and how far it is from its long to its short point.
fn mitre(desk: &SheetDesk<'_>, fix: &CornerFix) -> String {
    let rails = desk.job.boards.rails.as_ref();
    let points = rails.and_then(|rails| {
        let thick = rails.thickness();
        let apart = long_to_short(thick, fix.bevel).ok()?;
        Some(format!(
            "; {} from long to short point of a rail {} thick",
            desk.fine(apart),
            desk.full(thick)
        ))
    });
    format!(
        "For two rails mitred face to face set a saw that reads 0 for a square cut to {:.2}°; \
         measured from the rail's length that is {:.2}°{}.",
        fix.bevel,
        90.0 - fix.bevel,
        points.unwrap_or_default()
    )
}

/// `14.29° wider than square (255 mm in each metre)`.
fn from_square(desk: &SheetDesk<'_>, angle: f64) -> String {
    let off = angle - 90.0;
    if off.abs() < 0.005 {
        return "square".to_owned();
    }
    let way = if off > 0.0 { "wider" } else { "narrower" };
    let per_metre = if off.abs() < 60.0 {
        format!(" ({})", desk.slope(off.abs().to_radians().tan()))
    } else {
        String::new()
    };
    format!("{:.2}° {way} than square{per_metre}", off.abs())
}

/// Where the crossing falls on the runs that meet there.
fn readings_of(desk: &SheetDesk<'_>, corner: &CornerId) -> String {
    let mut said = String::new();
    for run in &desk.job.runs {
        let Some(fix) = desk.solution.runs.get(&run.id) else {
            continue;
        };
        let is_here = |end: &Option<crate::job::model::End>| {
            end.as_ref().and_then(|end| end.corner.as_ref()) == Some(corner)
        };
        if is_here(&run.start) {
            said.push_str(&format!(" It is the zero of run {}.", run.id));
        } else if is_here(&run.end) {
            let at = desk.full(fix.length);
            said.push_str(&format!(" It is at {at} on run {}.", run.id));
        }
    }
    said
}

/// What the diagonals taped across the strings came to.
fn stretched(desk: &SheetDesk<'_>, fix: &CornerFix) -> Vec<String> {
    let of = |check: &StretchedFix| {
        let [a, b] = check.arms.map(|arm| desk.full(arm));
        let what = match (check.verdict, &check.end_move) {
            (StretchVerdict::Within, _) => "As near as the tapes can tell.".to_owned(),
            (_, Some(end)) => end.sentence(|mm| desk.full(mm)),
            _ => "Further off than a string is usually out: were these the arms?".to_owned(),
        };
        format!(
            "Taped across with arms {a} and {b}: {}, which makes {:.2}° ± {:.2}°. {}",
            desk.full(check.diagonal),
            check.angle,
            check.pm,
            what
        )
    };
    fix.checks.iter().map(of).collect()
}

fn diagonals(fix: &CornerFix) -> Table {
    let mut table = Table::new(
        "Check: mark both strings this far from the crossing, and tape across",
        vec![
            Column::right("Along each"),
            Column::right("Across"),
            Column::right("±"),
        ],
    );
    for check in &fix.check {
        table.rows.push(vec![
            Cell::Length(check.arm),
            Cell::Length(check.diagonal),
            Cell::Pm(check.pm),
        ]);
    }
    table
}
