//! How the readings stand: what is loose, what does not fit, or how well it all agrees.

use crate::Solution;
use crate::adjust::misread::Hint;
use crate::app::desk::Desk;
use crate::app::kit::{capital, counted, status};
use crate::app::names::reading_title;
use crate::job::Job;
use crate::job::reading::Measure;
use crate::length;
use crate::site::{NetworkStatus as Network, misreading};
use tautmark_ui::{Status, Verdict};

/// The one line that says what is loose, what does not fit, or how well it all agrees.
pub fn standing(desk: &Desk) -> Status {
    let solution = &desk.solution;
    let network = &solution.network;
    let marks = desk.job().marks.len();
    if marks == 0 {
        return status(
            Verdict::Note,
            "**Nothing measured yet.** Add two marks and tape between them.",
        );
    }
    if let Some(text) = misfit(desk) {
        return status(Verdict::Bad, &text);
    }
    if network.status == Network::Loose {
        let names: Vec<&str> = network.loose.iter().map(|id| id.as_str()).collect();
        let verb = if names.len() == 1 { "is" } else { "are" };
        return status(
            Verdict::Attention,
            &format!(
                "**{} {verb} still loose.**{}",
                names.join(", "),
                next_tape(desk)
            ),
        );
    }
    let mut text = format!(
        "**{}, all fixed.** {}",
        capital(&counted(marks, "mark", "marks")),
        capital(&counted(solution.readings.len(), "reading", "readings"))
    );
    let next = next_tape(desk);
    match network.redundancy {
        ..=0 if solution.readings.len() == 1 => {
            text.push_str(", just enough: nothing checks it.");
        }
        ..=0 => text.push_str(", just enough: nothing checks them."),
        more => text.push_str(&format!(", {more} more than needed, and they agree.")),
    }
    if network.redundancy <= 0 && next.is_empty() {
        text.push_str(
            " Tape one again from the start, or one more mark from three others: then a slip shows.",
        );
    }
    text.push_str(&least_findable(desk));
    text.push_str(&next);
    let verdict = if network.redundancy > 0 {
        Verdict::Good
    } else {
        Verdict::Attention
    };
    status(verdict, &text)
}

/// The worst of how a job stands, in a few words for the list of jobs.
#[must_use]
pub fn standing_in_short(job: &Job, solution: &Solution) -> (Verdict, String) {
    let network = &solution.network;
    let name = |index: usize| {
        job.readings
            .get(index)
            .map(reading_title)
            .unwrap_or_default()
    };
    if let Some(&first) = network.suspects.first() {
        return (
            Verdict::Bad,
            format!("{} does not fit", capital(&name(first))),
        );
    }
    if network.status == Network::Loose && !network.loose.is_empty() {
        let next = solution.advice.as_ref();
        let next = next.map(|tape| format!("; tape {} to {} next", tape.from, tape.to));
        let loose = capital(&counted(network.loose.len(), "mark", "marks"));
        return (
            Verdict::Attention,
            format!("{loose} loose{}", next.unwrap_or_default()),
        );
    }
    (Verdict::None, String::new())
}

/// A slip that the others would not show: that of the least checked tape.
fn least_findable(desk: &Desk) -> String {
    let job = desk.job();
    let hidden = desk.solution.readings.iter().filter_map(|fix| {
        let reading = job.readings.get(fix.index)?;
        let Measure::Tape { from, to, .. } = &reading.what else {
            return None;
        };
        Some((fix.least_slip?, format!("{from} to {to}")))
    });
    match hidden.max_by(|a, b| a.0.total_cmp(&b.0)) {
        Some((slip, name)) => format!(
            " A slip under {} in {name} would not show.",
            length::show_with_unit(slip, job.show.lengths)
        ),
        None => String::new(),
    }
}

fn next_tape(desk: &Desk) -> String {
    let next = desk.solution.advice.as_ref();
    next.map(|next| {
        format!(
            " {}",
            next.sentence(&desk.solution.network, desk.job().show.lengths)
        )
    })
    .unwrap_or_default()
}

/// The reading that does not fit, by its place in the file; `None` where all fit, or where several
/// could be the wrong one.
#[must_use]
pub fn misfitting(desk: &Desk) -> Option<usize> {
    let network = &desk.solution.network;
    match network.suspects.as_slice() {
        [only] if !network.more_than_one_wrong => Some(*only),
        _ => None,
    }
}

/// What is said where figures follow from readings that do not fit; `None` where all do.
#[must_use]
pub fn misled(desk: &Desk) -> Option<String> {
    if desk.solution.network.suspects.is_empty() {
        return None;
    }
    let wrong = misfitting(desk).and_then(|at| desk.job().readings.get(at));
    let wrong = wrong.map_or_else(
        || "Some readings do not fit".to_owned(),
        |reading| format!("{} does not fit", capital(&reading_title(reading))),
    );
    Some(format!(
        "**{wrong}:** put it right in Walls first; every post follows from it."
    ))
}

/// What is said where several readings could be the wrong one, or more than one is.
pub fn several_in_doubt(desk: &Desk) -> String {
    let network = &desk.solution.network;
    if network.more_than_one_wrong {
        return "**More than one reading is wrong.** Leaving out any single one does not make the \
                others agree."
            .to_owned();
    }
    let readings = &desk.job().readings;
    let suspects = network.suspects.iter();
    let suspects = suspects.filter_map(|&index| readings.get(index));
    let names: Vec<String> = suspects.map(reading_title).collect();
    format!(
        "**One of {} does not fit,** and the others cannot tell which.",
        names.join(", ")
    )
}

fn misfit(desk: &Desk) -> Option<String> {
    let suspects = &desk.solution.network.suspects;
    let job = desk.job();
    let unit = job.show.lengths;
    let first = *suspects.first()?;
    if desk.solution.network.more_than_one_wrong {
        return Some(format!(
            "{} Measure again, the ones marked first.",
            several_in_doubt(desk)
        ));
    }
    let title = |index: usize| {
        job.readings
            .get(index)
            .map(reading_title)
            .unwrap_or_default()
    };
    if suspects.len() > 1 {
        return Some(several_in_doubt(desk) + &next_tape(desk));
    }
    let fix = desk
        .solution
        .readings
        .iter()
        .find(|fix| fix.index == first)?;
    let suspect = fix.suspect.as_ref()?;
    let observed = suspect.predicted + suspect.slip;
    let cause = suspect.hint.map_or_else(String::new, |Hint { why, .. }| {
        format!(" {}?", capital(misreading(why)))
    });
    Some(format!(
        "**{} does not fit.** You have {}. The other {} agree among themselves and make it **{} {}**.{cause}",
        capital(&title(first)),
        length::show(observed, unit),
        counted(desk.solution.readings.len() - 1, "reading", "readings"),
        length::show(suspect.predicted, unit),
        length::show_pm_with_unit(suspect.predicted_pm, unit),
    ))
}
