//! The sheet in a few lines, for a text message.

use super::super::phrase::count;
use super::{SheetDesk, names};
use crate::job::Severity;
use crate::job::model::Run;
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
            "Corner {id}: {:.2}° ±{:.2}{check}",
            fix.angle, fix.angle_pm
        ));
    }
    lines.extend(worries(desk));
    let mut text = lines.join("\n").replace('\u{a0}', " ");
    text.push('\n');
    text
}

fn posts(desk: &SheetDesk<'_>, run: &Run, fix: &RunFix) -> String {
    let centres: Vec<String> = fix.posts.iter().map(|p| figure(desk, p.centre)).collect();
    format!("{}: {}", run.id, centres.join(", "))
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
