//! The sheet in a few lines, for a text message.

use super::super::phrase::count;
use super::cut_sides::{MarkedSide, sides};
use super::{SheetDesk, names};
use crate::boards::{AlongWhat, GateLeaf, cut_length, cut_together};
use crate::cautions::IN_ONE_LINE;
use crate::job::model::Run;
use crate::job::{RunId, Severity};
use crate::length::{Unit, show};
use crate::setout::RunFix;

pub fn message(desk: &SheetDesk<'_>) -> String {
    let unit = match desk.unit {
        Unit::Mm => "mm",
        Unit::M => "m",
        Unit::FtIn(_) => "ft and in",
    };
    let mut lines = vec![format!("{}. Post centres, {unit}:", desk.job.title)];
    for run in &desk.job.runs {
        if let Some(fix) = desk.solution.runs.get(&run.id) {
            lines.push(posts(desk, run, fix));
            lines.extend(fix.gates.iter().map(|gate| {
                format!(
                    "{} gate: {} to {}",
                    run.id,
                    figure(desk, gate.near),
                    figure(desk, gate.far)
                )
            }));
            lines.extend(on_trestles(desk, &run.id));
            lines.extend(leaves(desk, &run.id));
        }
    }
    for (id, fix) in &desk.solution.corners {
        let check = fix.check.last().map_or_else(String::new, |check| {
            format!(
                ", check {} + {}: {} across",
                figure(desk, check.arm),
                figure(desk, check.arm),
                figure(desk, check.diagonal)
            )
        });
        lines.push(format!(
            "Corner {id}: {:.2}° ±{:.2}°{check}",
            fix.angle, fix.angle_pm
        ));
    }
    lines.extend(worries(desk));
    lines.push(IN_ONE_LINE.to_owned());
    let mut text = lines.join("\n").replace('\u{a0}', " ");
    text.push('\n');
    text
}

fn posts(desk: &SheetDesk<'_>, run: &Run, fix: &RunFix) -> String {
    let centres: Vec<String> = fix.posts.iter().map(|p| figure(desk, p.centre)).collect();
    format!("{}: {}", run.id, centres.join(", "))
}

/// What is marked along each post from its top, side by side, on one line.
fn on_trestles(desk: &SheetDesk<'_>, run: &RunId) -> Option<String> {
    let groups = cut_together(&desk.solution.boards, run);
    let mut before = String::new();
    let each: Vec<String> = sides(&groups)
        .iter()
        .map(|one| {
            let name = match one.side {
                "" | "both" => one.name.clone(),
                side if one.name == before => side.to_owned(),
                side => format!("{} {side}", one.name),
            };
            before.clone_from(&one.name);
            format!("{name}: {}", along(desk, run, one))
        })
        .collect();
    (!each.is_empty()).then(|| format!("{run} from top: {}", each.join("; ")))
}

fn along(desk: &SheetDesk<'_>, run: &RunId, one: &MarkedSide<'_>) -> String {
    let mut said: Vec<String> = Vec::new();
    for mark in &one.marks {
        match mark.what {
            AlongWhat::Gravel => said.push(format!("board {}", figure(desk, mark.from))),
            _ => said.push(figure(desk, mark.from)),
        }
    }
    if !one.leads {
        return said.join(" ");
    }
    let bolts = one.first.bolts.iter().flat_map(|row| &row.at);
    let bolts: Vec<String> = bolts.map(|&at| figure(desk, at)).collect();
    if !bolts.is_empty() {
        said.push(format!("bolts {}", bolts.join(" ")));
    }
    let cuts = one
        .posts
        .iter()
        .filter_map(|post| cut_length(&desk.solution.boards, run, post.n));
    let mut cuts: Vec<String> = cuts.map(|length| figure(desk, length)).collect();
    cuts.dedup();
    if !cuts.is_empty() {
        said.push(format!("cut {}", cuts.join(", ")));
    }
    said.join(" ")
}

/// The leaf, its brace and its lock.
fn leaves(desk: &SheetDesk<'_>, run: &RunId) -> Vec<String> {
    let Some(boards) = desk.solution.boards.get(run) else {
        return Vec::new();
    };
    let leaf = |made: &GateLeaf| {
        let mut said = format!("{run} leaf: {} wide", figure(desk, made.width));
        if let Some(height) = made.height {
            said.push_str(&format!(", {} high", figure(desk, height)));
        }
        if let Some(brace) = &made.brace {
            let length = figure(desk, brace.length);
            said.push_str(&format!(", brace {length} at {:.2}°", brace.angle));
        }
        if let Some(lock) = &made.lock {
            said.push_str(&format!(
                ", lock {} up and {} in",
                figure(desk, lock.height),
                figure(desk, lock.from_edge)
            ));
            if let Some(packing) = lock.packing {
                said.push_str(&format!(", packing {}", figure(desk, packing)));
            }
        }
        said
    };
    boards.gates.iter().map(leaf).collect()
}

/// A message may meet an old telephone: plain spaces, no grouping.
fn figure(desk: &SheetDesk<'_>, mm: f64) -> String {
    let shown = show(mm, desk.unit);
    match desk.unit {
        Unit::Mm | Unit::M => shown.replace('\u{a0}', ""),
        Unit::FtIn(_) => shown.replace('\u{a0}', " "),
    }
}

fn worries(desk: &SheetDesk<'_>) -> Option<String> {
    let of = |severity| {
        let problems = desk.solution.problems.iter();
        problems.filter(move |problem| problem.severity == severity)
    };
    let worst = of(Severity::Error).chain(of(Severity::Warning));
    let number = worst.clone().count();
    let first = worst.clone().next()?;
    let place = names::place(desk.job, &first.place);
    let more = match number - 1 {
        0 => String::new(),
        n => format!(" And {} on the sheet.", count(n, "more thing")),
    };
    Some(format!("Look first: {place}: {}{more}", first.text))
}
