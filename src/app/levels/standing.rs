//! How the levels stand: the step between set-ups, the closure, or the sight that does not fit.

use super::sights::{sight, sight_fix};
use crate::adjust::CHECKED;
use crate::app::desk::Desk;
use crate::app::kit::{Misfits, capital, checked, counted, status, told};
use crate::app::names::said_down;
use crate::job::{Problem, SetupId, Severity};
use crate::length;
use crate::levels::{LevelsFix, SightFix};
use crate::site::misreading;
use tautmark_ui::{Status, Verdict};

/// The one line at the head of the place.
pub fn standing(desk: &Desk) -> Status {
    let Some(levels) = &desk.solution.levels else {
        let text = "**Nothing levelled yet.** Choose a datum, set the laser up where it sees it, \
                    and sight it: press Add a sight.";
        return status(Verdict::Note, text);
    };
    if let Some(text) = misfit(desk, levels) {
        return status(Verdict::Bad, &text);
    }
    if let Some(problem) = problems(desk).find(|problem| problem.severity != Severity::Note) {
        return told(problem, Verdict::Attention);
    }
    let steps = steps(desk, levels);
    let (verdict, closes) = closing(desk, levels);
    status(verdict, &format!("{steps} {closes}"))
}

/// What the solution has to say about the levels.
pub fn problems(desk: &Desk) -> impl Iterator<Item = &Problem> {
    let all = desk.solution.problems.iter();
    all.filter(|problem| problem.place.is_in("levels"))
}

/// How far each later line is above or below the first.
fn steps(desk: &Desk, levels: &LevelsFix) -> String {
    let unit = desk.job().show.lengths;
    let mut known = levels.setups.iter();
    let Some((first, fix)) = known.next() else {
        return "**No set-up yet.**".to_owned();
    };
    let said: Vec<String> = known
        .map(|(id, fix)| step_between(id, first, fix.step, unit))
        .collect();
    if said.is_empty() {
        let line = length::show_with_unit(fix.line, unit);
        return format!("**The line of set-up {first} is at {line}.**");
    }
    format!("**{}.**", said.join("; "))
}

/// “S2’s laser line is 62 mm higher than S1’s”.
pub fn step_between(to: &SetupId, from: &SetupId, step: f64, unit: length::Unit) -> String {
    let by = length::show_with_unit(step.abs(), unit);
    let way = if step < 0.0 { "lower" } else { "higher" };
    if by == length::show_with_unit(0.0, unit) {
        return format!("{to}’s laser line is level with {from}’s");
    }
    format!("{to}’s laser line is {by} {way} than {from}’s")
}

fn closing(desk: &Desk, levels: &LevelsFix) -> (Verdict, String) {
    let unit = desk.job().show.lengths;
    let Some(closure) = levels.closure.filter(|closure| closure.checks > 0) else {
        let text = if levels.setups.len() > 1 {
            "Nothing checks it: sight a second point from both set-ups."
        } else {
            "Nothing checks it yet."
        };
        return (Verdict::Attention, text.to_owned());
    };
    let text = format!(
        "{}, closes to {}; up to {} is within the laser’s accuracy.",
        capital(&counted(closure.checks, "check", "checks")),
        length::show_with_unit(closure.closes, unit),
        length::show_with_unit(closure.explained, unit),
    );
    if closure.closes > closure.explained {
        let text = format!("{text} Sight the change points again.");
        return (Verdict::Attention, text);
    }
    (Verdict::Good, text)
}

/// Whether something in the levels does not fit, so that no figure of them is called good.
pub fn in_doubt(desk: &Desk) -> bool {
    let levels = desk.solution.levels.as_ref();
    levels.is_some_and(|levels| !levels.suspects.is_empty())
}

/// The sights that look misread, in the order of the file.
fn suspects<'a>(desk: &'a Desk, levels: &'a LevelsFix) -> impl Iterator<Item = Accused<'a>> {
    levels.suspects.iter().filter_map(|&at| {
        let fix = levels.sights.get(at)?;
        let down = sight(desk.job(), fix.place.0, fix.place.1)?.down?;
        Some(Accused { fix, down })
    })
}

/// A sight that looks misread.
pub struct Accused<'a> {
    pub fix: &'a SightFix,
    down: f64,
}

impl Accused<'_> {
    fn name(&self) -> String {
        format!("{} from set-up {}", self.fix.point, self.fix.setup)
    }
}

fn misfit(desk: &Desk, levels: &LevelsFix) -> Option<String> {
    let accused: Vec<Accused<'_>> = suspects(desk, levels).collect();
    let first = accused.first()?;
    if only_suspect(desk).is_none() {
        let again = if levels.more_than_one_wrong {
            "Check that the laser was not knocked, then sight the change points again."
        } else {
            "Sight them again, or one more point from both set-ups."
        };
        return Some(format!("{} {again}", several_in_doubt(desk, levels)));
    }
    let unit = desk.job().show.lengths;
    let suspect = first.fix.suspect.as_ref()?;
    let why = suspect.hint.map_or_else(String::new, |hint| {
        format!(" {}?", capital(misreading(hint.why)))
    });
    Some(format!(
        "**The sight of {} does not fit.** You have {}; the others make it **{} {}**.{why}",
        first.name(),
        said_down(first.down, unit),
        said_down(suspect.predicted, unit),
        length::show_pm_with_unit(suspect.predicted_pm, unit),
    ))
}

/// What is said where several sights could be the wrong one, or more than one is.
fn several_in_doubt(desk: &Desk, levels: &LevelsFix) -> String {
    if levels.more_than_one_wrong {
        return "**More than one sight is wrong:** leaving out any single one does not make the \
                others agree."
            .to_owned();
    }
    let names: Vec<String> = suspects(desk, levels).map(|one| one.name()).collect();
    format!(
        "**One of these sights does not fit,** and the others cannot tell which: {}.",
        names.join(", ")
    )
}

/// What is said of a checked sight while something does not fit; `None` where all do.
pub fn doubt(desk: &Desk, fix: &SightFix) -> Option<Status> {
    let levels = desk.solution.levels.as_ref().filter(|_| in_doubt(desk))?;
    let unit = desk.job().show.lengths;
    let misfits = Misfits {
        of: "sights",
        place: "Levels",
        only: only_suspect(desk).map(|wrong| format!("the sight of **{}**", wrong.name())),
        several: several_in_doubt(desk, levels),
    };
    let suspect = fix.suspect.as_ref();
    let predicted = suspect.map(|suspect| {
        let predicted = said_down(suspect.predicted, unit);
        format!(
            "{predicted} {}",
            length::show_pm_with_unit(suspect.predicted_pm, unit)
        )
    });
    Some(misfits.doubt(predicted))
}

/// The one sight that can be the wrong one.
pub fn only_suspect(desk: &Desk) -> Option<Accused<'_>> {
    let levels = desk.solution.levels.as_ref()?;
    let mut all = suspects(desk, levels);
    let first = all.next()?;
    (all.next().is_none() && !levels.more_than_one_wrong).then_some(first)
}

/// What a sight's row says under its point: how it is checked, or why not.
pub fn sight_note(desk: &Desk, setup: usize, at: usize) -> (String, Verdict) {
    let unit = desk.job().show.lengths;
    let Some(sight) = sight(desk.job(), setup, at) else {
        return (String::new(), Verdict::None);
    };
    let Some(fix) = sight_fix(desk, setup, at) else {
        return match (sight.used, sight.down) {
            (false, _) => ("left out".to_owned(), Verdict::None),
            (true, None) => ("not sighted yet".to_owned(), Verdict::Attention),
            (true, Some(_)) => (
                "cannot be used; see the sheet".to_owned(),
                Verdict::Attention,
            ),
        };
    };
    if let Some(suspect) = &fix.suspect {
        let by = length::show(suspect.slip.abs(), unit);
        let way = if suspect.slip > 0.0 { "low" } else { "high" };
        // Of several that could be the wrong one, none is accused.
        return match only_suspect(desk) {
            Some(_) => (format!("does not fit: {by} too {way}"), Verdict::Bad),
            None => (format!("may be {by} too {way}"), Verdict::Attention),
        };
    }
    if fix.redundancy <= CHECKED {
        return ("nothing checks it".to_owned(), Verdict::None);
    }
    if in_doubt(desk) {
        return (
            "not judged while one does not fit".to_owned(),
            Verdict::None,
        );
    }
    let said = checked(fix.residual, |by| length::fine_with_unit(by, unit, 1));
    (said, Verdict::None)
}
