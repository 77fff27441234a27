//! The one place where a job changes.

use super::change::{NameCheck, change};
use super::dependents::removal;
use super::names::renaming;
use super::{Edit, EditError, Setting};
use crate::job::model::Job;
use crate::job::plain::unfit;
use serde_json::Value;
use std::mem::replace;

/// Changes the job and gives the edit that takes it back exactly.
///
/// ```
/// use tautmark::job::{Job, edit::{apply, Edit, Setting}};
///
/// let mut job = Job::new("Side fence");
/// let back = apply(&mut job, &Edit::Set(Setting::Title("Side fence and gate".into())))?;
/// assert_eq!(job.title, "Side fence and gate");
/// apply(&mut job, &back)?;
/// assert_eq!(job, Job::new("Side fence"));
/// # Ok::<(), tautmark::job::edit::EditError>(())
/// ```
///
/// # Errors
/// A place or name that is not there, a name that is taken or empty, a figure or a character the
/// file cannot hold. The job is then as it was.
pub fn apply(job: &mut Job, edit: &Edit) -> Result<Edit, EditError> {
    if !matches!(edit, Edit::Restore(_)) {
        keepable(edit)?;
    }
    let mut back = Vec::new();
    let done = step(job, edit, NameCheck::Checked, &mut back);
    back.reverse();
    match done {
        Ok(()) => Ok(Edit::Restore(back)),
        Err(error) => {
            for undo in &back {
                // Each is the exact way back of a change just made, so none can be refused.
                let put_back = step(job, undo, NameCheck::AsTheyWere, &mut Vec::new());
                debug_assert_eq!(put_back, Ok(()));
            }
            Err(error)
        }
    }
}

/// Refuses what the file would not give back as it is: JSON turns a figure that is not finite to
/// null, and a text with a control character is not read again.
fn keepable(edit: &Edit) -> Result<(), EditError> {
    let written = serde_json::to_value(edit).map_err(|_| EditError::Unkeepable)?;
    if let Some(sign) = unfit_text(&written) {
        return Err(EditError::ControlCharacter {
            number: u32::from(sign),
        });
    }
    match serde_json::from_value::<Edit>(written) {
        Ok(read) if read == *edit => Ok(()),
        _ => Err(EditError::Unkeepable),
    }
}

/// The first character in any text of a value that no text of a job may hold.
fn unfit_text(value: &Value) -> Option<char> {
    match value {
        Value::String(text) => unfit(text),
        Value::Array(list) => list.iter().find_map(unfit_text),
        Value::Object(map) => {
            let mut all = map.iter();
            all.find_map(|(key, value)| unfit(key).or_else(|| unfit_text(value)))
        }
        Value::Null | Value::Bool(_) | Value::Number(_) => None,
    }
}

/// Makes one change, adding each way back to `back` as it goes.
fn step(
    job: &mut Job,
    edit: &Edit,
    names: NameCheck,
    back: &mut Vec<Edit>,
) -> Result<(), EditError> {
    let way_back = match edit {
        Edit::Set(setting) => Edit::Set(set(job, setting)),
        Edit::Mark(c) => Edit::Mark(change(&mut job.marks, c, names)?),
        Edit::Wall(c) => Edit::Wall(change(&mut job.walls, c, names)?),
        Edit::Reading(c) => Edit::Reading(change(&mut job.readings, c, names)?),
        Edit::Line(c) => Edit::Line(change(&mut job.lines, c, names)?),
        Edit::Corner(c) => Edit::Corner(change(&mut job.corners, c, names)?),
        Edit::Run(c) => Edit::Run(change(&mut job.runs, c, names)?),
        Edit::Point(c) => Edit::Point(change(&mut job.levels.points, c, names)?),
        Edit::Setup(c) => Edit::Setup(change(&mut job.levels.setups, c, names)?),
        Edit::Marked(c) => Edit::Marked(change(&mut job.marked, c, names)?),
        Edit::Gate { run, change: c } => {
            let gates = &mut at(&mut job.runs, *run, "run")?.gates;
            let change = change(gates, c, names)?;
            Edit::Gate { run: *run, change }
        }
        Edit::Pin { run, change: c } => {
            let pins = &mut at(&mut job.runs, *run, "run")?.pins;
            let change = change(pins, c, names)?;
            Edit::Pin { run: *run, change }
        }
        Edit::Sight { setup, change: c } => {
            let sights = &mut at(&mut job.levels.setups, *setup, "set-up")?.sights;
            Edit::Sight {
                setup: *setup,
                change: change(sights, c, names)?,
            }
        }
        Edit::Rename { thing, to } => {
            return all(job, &renaming(job, thing, to)?, NameCheck::AsTheyWere, back);
        }
        Edit::Remove(thing) => {
            return all(job, &removal(job, thing)?, NameCheck::AsTheyWere, back);
        }
        Edit::Many(edits) => return all(job, edits, names, back),
        Edit::Restore(edits) => return all(job, edits, NameCheck::AsTheyWere, back),
    };
    back.push(way_back);
    Ok(())
}

fn all(
    job: &mut Job,
    edits: &[Edit],
    names: NameCheck,
    back: &mut Vec<Edit>,
) -> Result<(), EditError> {
    edits
        .iter()
        .try_for_each(|edit| step(job, edit, names, back))
}

fn at<'a, T>(list: &'a mut [T], place: usize, kind: &'static str) -> Result<&'a mut T, EditError> {
    let number = place.saturating_add(1);
    list.get_mut(place)
        .ok_or(EditError::NoPlace { kind, number })
}

/// Sets a part of the job and gives what it was.
fn set(job: &mut Job, setting: &Setting) -> Setting {
    match setting.clone() {
        Setting::Title(new) => Setting::Title(replace(&mut job.title, new)),
        Setting::Notes(new) => Setting::Notes(replace(&mut job.notes, new)),
        Setting::Show(new) => Setting::Show(replace(&mut job.show, new)),
        Setting::Tape(new) => Setting::Tape(replace(&mut job.tape, new)),
        Setting::StringLine(new) => Setting::StringLine(replace(&mut job.string, new)),
        Setting::Laser(new) => Setting::Laser(replace(&mut job.level, new)),
        Setting::Tolerance(new) => Setting::Tolerance(replace(&mut job.tolerance, new)),
        Setting::Hole(new) => Setting::Hole(replace(&mut job.hole, new)),
        Setting::Boards(new) => Setting::Boards(replace(&mut job.boards, new)),
        Setting::Stock(new) => Setting::Stock(replace(&mut job.stock, new)),
        Setting::Datum(new) => Setting::Datum(replace(&mut job.levels.datum, new)),
    }
}
