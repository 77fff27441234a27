//! Walls: the readings, how they stand, and what cures the one that does not fit.

use super::field::{Field, Focus, Measure};
use super::rows::patched;
use super::words::{capital, counted, row, status};
use super::{Bridge, Desk, Then};
use crate::Solution;
use crate::adjust::misread::Hint;
use crate::job::Job;
use crate::job::edit::{Change, Edit};
use crate::job::reading::{Measure as Reading, Reading as Row};
use crate::length::{self, Unit};
use crate::site::{ReadingFix, Status as Network, SuspectFix, misreading};
use slint::Global;
use std::rc::Rc;
use tautmark_ui::{App, Item, Remedy, Status, Verdict, WallsVm};

pub(super) fn wire(app: &App, bridge: &Rc<Bridge>) {
    let vm = WallsVm::get(app);
    let at = bridge.clone();
    vm.on_remedied(move |id| at.act(|desk| cure(desk, &id)));
}

pub(super) fn fill(app: &App, desk: &Desk) {
    let vm = WallsVm::get(app);
    vm.set_status(standing(desk));
    let (best, others) = cures(desk);
    vm.set_cure(best.unwrap_or_default());
    vm.set_others(patched(vm.get_others(), others));
    let rows = desk.job().readings.iter().enumerate();
    let rows = rows
        .map(|(index, reading)| reading_row(desk, index, reading))
        .collect();
    vm.set_readings(patched(vm.get_readings(), rows));
}

/// What a reading is of: “A to C”.
#[must_use]
pub fn reading_title(reading: &Row) -> String {
    match &reading.what {
        Reading::Tape { from, to, .. } => format!("{from} to {to}"),
        Reading::Offset { mark, wall, .. } => format!("{mark} off {wall}"),
        Reading::Inline { mark, with, .. } => format!("{mark} on {} to {}", with[0], with[1]),
        Reading::Angle { from, at, to, .. } => format!("angle at {at}, {from} to {to}"),
        Reading::Other { kind } => kind.clone(),
    }
}

fn reading_row(desk: &Desk, index: usize, reading: &Row) -> Item {
    let unit = desk.job().show.lengths;
    let id = index.to_string();
    let figure = match &reading.what {
        Reading::Tape { length, .. } | Reading::Offset { length, .. } => {
            length.map_or_else(|| "—".to_owned(), |mm| length::show(mm, unit))
        }
        Reading::Angle { degrees, .. } => {
            degrees.map_or_else(|| "—".to_owned(), |degrees| format!("{degrees:.1}°"))
        }
        Reading::Inline { .. } | Reading::Other { .. } => String::new(),
    };
    let fix = desk.solution.readings.iter().find(|fix| fix.index == index);
    let (note, verdict) = reading_note(desk, reading, fix);
    let tail = fix
        .map(|_| sureness(desk.job(), reading))
        .unwrap_or_default();
    Item {
        verdict,
        selected: desk.chosen.reading == Some(index),
        left_out: !reading.used,
        ..row(
            &id,
            &capital(&reading_title(reading)),
            &note,
            &figure,
            &tail,
        )
    }
}

/// ± of one reading by itself, 95 %.
fn sureness(job: &Job, reading: &Row) -> String {
    match &reading.what {
        Reading::Tape {
            length: Some(mm), ..
        }
        | Reading::Offset {
            length: Some(mm), ..
        } => {
            let sd = job.tape.class.sd(job.tape.reading, *mm);
            length::show_pm(crate::site::PM * sd, job.show.lengths)
        }
        Reading::Angle { sd, .. } => format!("±\u{a0}{:.1}°", crate::site::PM * sd),
        _ => String::new(),
    }
}

fn reading_note(desk: &Desk, reading: &Row, fix: Option<&ReadingFix>) -> (String, Verdict) {
    let unit = desk.job().show.lengths;
    let angle = matches!(reading.what, Reading::Angle { .. });
    let say = |value: f64| match angle {
        true => format!("{:.1}°", value.abs()),
        false => length::show_fine(value.abs(), unit, 1),
    };
    let Some(fix) = fix else {
        let note = match (reading.used, is_missing(reading)) {
            (false, _) => "left out",
            (true, true) => "not read yet",
            (true, false) => "cannot be used; see the sheet",
        };
        return (
            note.to_owned(),
            if reading.used {
                Verdict::Attention
            } else {
                Verdict::None
            },
        );
    };
    if let Some(SuspectFix { slip, .. }) = &fix.suspect {
        let way = if *slip > 0.0 { "too long" } else { "too short" };
        return (format!("does not fit: {} {way}", say(*slip)), Verdict::Bad);
    }
    if fix.redundancy < 1e-6 {
        return ("nothing checks it".to_owned(), Verdict::None);
    }
    let way = if fix.residual < 0.0 { "over" } else { "under" };
    (
        format!("checked: {} {way} the rest", say(fix.residual)),
        Verdict::None,
    )
}

fn is_missing(reading: &Row) -> bool {
    matches!(
        &reading.what,
        Reading::Tape { length: None, .. }
            | Reading::Offset { length: None, .. }
            | Reading::Angle { degrees: None, .. }
    )
}

/// The one line that says what is loose, what does not fit, or how well it all agrees.
fn standing(desk: &Desk) -> Status {
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
    match network.redundancy {
        ..=0 => text.push_str(", just enough: nothing checks them."),
        more => text.push_str(&format!(", {more} more than needed, and they agree.")),
    }
    text.push_str(&least_findable(desk));
    text.push_str(&next_tape(desk));
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

/// A slip that the others would not show: 4.13 sd/√r of the least checked reading (Baarda).
fn least_findable(desk: &Desk) -> String {
    let job = desk.job();
    let hidden = desk
        .solution
        .readings
        .iter()
        .filter(|fix| fix.redundancy > 1e-6)
        .filter_map(|fix| {
            let reading = job.readings.get(fix.index)?;
            let Reading::Tape {
                from,
                to,
                length: Some(mm),
                ..
            } = &reading.what
            else {
                return None;
            };
            let sd = job.tape.class.sd(job.tape.reading, *mm);
            Some((4.13 * sd / fix.redundancy.sqrt(), format!("{from} to {to}")))
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

fn misfit(desk: &Desk) -> Option<String> {
    let suspects = &desk.solution.network.suspects;
    let job = desk.job();
    let unit = job.show.lengths;
    let first = *suspects.first()?;
    if desk.solution.network.more_than_one_wrong {
        return Some("**More than one reading is wrong.** Leaving out any single one does not make the others agree. Measure again, the ones marked first.".to_owned());
    }
    let title = |index: usize| {
        job.readings
            .get(index)
            .map(reading_title)
            .unwrap_or_default()
    };
    if suspects.len() > 1 {
        let names: Vec<String> = suspects.iter().map(|&index| title(index)).collect();
        return Some(format!(
            "**One of {} does not fit,** and the others cannot tell which.{}",
            names.join(", "),
            next_tape(desk)
        ));
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
        length::show_pm(suspect.predicted_pm, unit),
    ))
}

fn cures(desk: &Desk) -> (Option<Remedy>, Vec<Remedy>) {
    let suspects = &desk.solution.network.suspects;
    let [only] = suspects.as_slice() else {
        return (None, Vec::new());
    };
    let unit = desk.job().show.lengths;
    let fix = desk.solution.readings.iter().find(|fix| fix.index == *only);
    let hint = fix.and_then(|fix| fix.suspect.as_ref()?.hint);
    let remedy = |id: &str, label: String| Remedy {
        id: id.into(),
        label: label.into(),
    };
    let likely = hint.map(|hint| {
        remedy(
            "likely",
            format!("It was {}", length::show(hint.likely, unit)),
        )
    });
    let others = vec![
        remedy("again", "Tape it again".to_owned()),
        remedy("out", "Leave it out".to_owned()),
    ];
    (likely, others)
}

fn cure(desk: &mut Desk, id: &str) -> Then {
    let Some(&index) = desk.solution.network.suspects.first() else {
        return Then::Stay;
    };
    match id {
        "again" => return ask_reading(desk, index),
        "out" => {
            if let Some(edit) = Edit::use_reading(desk.saved(), index, false) {
                desk.change_and_say(edit, "Left out of the sums; it stays in the list.");
            }
        }
        _ => {
            let fix = desk.solution.readings.iter().find(|fix| fix.index == index);
            let hint = fix.and_then(|fix| fix.suspect.as_ref()?.hint);
            let edit = hint.and_then(|hint| with_length(desk.saved(), index, hint.likely));
            if let Some(edit) = edit {
                desk.change_and_say(edit, "Corrected.");
            }
        }
    }
    Then::Stay
}

fn ask_reading(desk: &mut Desk, index: usize) -> Then {
    let Some(reading) = desk.saved().readings.get(index) else {
        return Then::Stay;
    };
    if matches!(reading.what, Reading::Inline { .. } | Reading::Other { .. }) {
        return Then::Stay;
    }
    let field = ReadingFigure::of(desk.saved(), index);
    desk.ask(Box::new(field));
    Then::Keypad
}

fn with_length(job: &Job, index: usize, value: f64) -> Option<Edit> {
    let mut reading = job.readings.get(index)?.clone();
    match &mut reading.what {
        Reading::Tape { length, .. } | Reading::Offset { length, .. } => *length = Some(value),
        Reading::Angle { degrees, .. } => *degrees = Some(value),
        Reading::Inline { .. } | Reading::Other { .. } => return None,
    }
    Some(Edit::Reading(Change::Replace {
        at: index,
        value: reading,
    }))
}

/// The figure of a reading that is in the list.
pub struct ReadingFigure {
    index: usize,
    measure: Measure,
}

impl ReadingFigure {
    /// The figure of the reading at this place of the list.
    #[must_use]
    pub fn of(job: &Job, index: usize) -> Self {
        let angle = matches!(
            job.readings.get(index).map(|r| &r.what),
            Some(Reading::Angle { .. })
        );
        Self {
            index,
            measure: if angle {
                Measure::Degrees
            } else {
                Measure::Length
            },
        }
    }
}

impl Field for ReadingFigure {
    fn key(&self) -> String {
        format!("reading {}", self.index)
    }

    fn title(&self, job: &Job) -> String {
        let Some(reading) = job.readings.get(self.index) else {
            return String::new();
        };
        let kind = match &reading.what {
            Reading::Tape { .. } => "Tape",
            Reading::Offset { .. } => "Offset",
            _ => "Measure",
        };
        format!("{kind}, **{}**", reading_title(reading))
    }

    fn measure(&self) -> Measure {
        self.measure
    }

    fn value(&self, job: &Job) -> Option<f64> {
        match &job.readings.get(self.index)?.what {
            Reading::Tape { length, .. } | Reading::Offset { length, .. } => *length,
            Reading::Angle { degrees, .. } => *degrees,
            _ => None,
        }
    }

    fn edit(&self, job: &Job, value: f64) -> Option<Edit> {
        with_length(job, self.index, value)
    }

    fn progress(&self, job: &Job) -> Option<(usize, usize)> {
        Some((self.index + 1, job.readings.len()))
    }

    /// The next reading of the list that has no figure yet.
    fn next(&self, job: &Job) -> Option<Box<dyn Field>> {
        let missing = |&index: &usize| job.readings.get(index).is_some_and(is_missing);
        let index = (0..job.readings.len()).find(missing)?;
        Some(Box::new(ReadingFigure::of(job, index)))
    }

    fn verdict(&self, desk: &Desk, typed: Option<f64>) -> Option<Status> {
        typed?;
        let unit: Unit = desk.job().show.lengths;
        let fix = desk
            .solution
            .readings
            .iter()
            .find(|fix| fix.index == self.index);
        let Some(fix) = fix else {
            let place = format!("readings[{}]", self.index);
            let problem = desk
                .solution
                .problems
                .iter()
                .find(|p| p.place.starts_with(&place))?;
            let text = format!("{} {}", problem.text, problem.remedy);
            return Some(status(Verdict::Attention, &text));
        };
        if let Some(suspect) = &fix.suspect {
            let predicted = length::show(suspect.predicted, unit);
            let pm = length::show_pm(suspect.predicted_pm, unit);
            let text =
                format!("The other readings make this **{predicted} {pm}**: it does not fit.");
            return Some(status(Verdict::Bad, &text));
        }
        if fix.redundancy < 1e-6 {
            return Some(status(Verdict::Note, "Nothing checks this reading yet."));
        }
        let text = format!(
            "The other readings agree: they make it **{}**.",
            length::show(fix.adjusted, unit)
        );
        Some(status(Verdict::Good, &text))
    }

    fn extra(&self, job: &Job) -> Option<(String, Box<dyn Field>)> {
        let tape = matches!(job.readings.get(self.index)?.what, Reading::Tape { .. });
        tape.then(|| -> (String, Box<dyn Field>) {
            (
                "Slope".to_owned(),
                Box::new(SlopeFigure { index: self.index }),
            )
        })
    }

    fn focus(&self, _job: &Job) -> Focus {
        Focus::Reading(self.index)
    }
}

/// How much higher one end of a tape was than the other.
pub struct SlopeFigure {
    pub index: usize,
}

impl Field for SlopeFigure {
    fn key(&self) -> String {
        format!("slope {}", self.index)
    }

    fn title(&self, job: &Job) -> String {
        let name = job
            .readings
            .get(self.index)
            .map(reading_title)
            .unwrap_or_default();
        format!("Tape {name}, **one end higher by**")
    }

    fn measure(&self) -> Measure {
        Measure::Length
    }

    fn value(&self, job: &Job) -> Option<f64> {
        match job.readings.get(self.index)?.what {
            Reading::Tape { drop, .. } => Some(drop),
            _ => None,
        }
    }

    fn edit(&self, job: &Job, value: f64) -> Option<Edit> {
        let mut reading = job.readings.get(self.index)?.clone();
        let Reading::Tape { drop, .. } = &mut reading.what else {
            return None;
        };
        *drop = value;
        Some(Edit::Reading(Change::Replace {
            at: self.index,
            value: reading,
        }))
    }

    fn focus(&self, _job: &Job) -> Focus {
        Focus::Reading(self.index)
    }
}
