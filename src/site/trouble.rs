//! What is loose and what does not fit, in a person's words.

use super::fixes::{NetworkFix, NextTape, OtherSide, ReadingFix};
use crate::adjust::misread::Why;
use crate::job::Problems;
use crate::job::sound::{MarkIx, Quantity, Sound, Taken};
use crate::length::{Unit, show_fine, show_pm_with_unit};
use crate::listed::and;

/// What a reading was of, such as “Tape A to C”.
#[must_use]
pub fn reading_name(sound: &Sound, taken: &Taken) -> String {
    let mark = |ix: MarkIx| sound.marks[ix.0].id.as_str();
    match taken.what {
        Quantity::Tape { from, to, .. } => format!("Tape {} to {}", mark(from), mark(to)),
        Quantity::Offset { mark: of, wall, .. } => {
            format!(
                "Offset of {} from wall “{}”",
                mark(of),
                sound.walls[wall.0].called()
            )
        }
        Quantity::Inline { mark: of, with } => {
            format!(
                "{} on the string {} to {}",
                mark(of),
                mark(with[0]),
                mark(with[1])
            )
        }
        Quantity::Angle { from, at, to, .. } => {
            format!("Angle at {} from {} to {}", mark(at), mark(from), mark(to))
        }
    }
}

/// What a usual misreading is called.
#[must_use]
pub fn misreading(why: Why) -> &'static str {
    match why {
        Why::Digits => "two digits swapped",
        Why::Ten => "a slip of 10 mm",
        Why::Hundred => "a slip of 100 mm",
        Why::Thousand => "a slip of a whole metre",
    }
}

/// One warning for each mark that can still move.
pub(super) fn say_loose(
    sound: &Sound,
    loose: &[MarkIx],
    next: Option<&str>,
    problems: &mut Problems,
) {
    for ix in loose {
        let mark = &sound.marks[ix.0];
        problems.warning(
            format!("marks[{}]", mark.index),
            format!(
                "Mark {} can still move: the readings do not settle where it is.",
                mark.id
            ),
            next.map_or_else(
                || format!("Take another reading to mark {}.", mark.id),
                str::to_owned,
            ),
        );
    }
}

/// What does not fit: the suspect readings, by their places in the file's list.
#[derive(Clone, Copy, Debug)]
pub(super) struct Misfit<'a> {
    pub suspects: &'a [usize],
    pub more_than_one_wrong: bool,
    /// No reading stands out, yet all together scatter more than stated.
    pub scattered: bool,
}

/// The readings among which the wrong one is; with several, none is accused. Until it is found,
/// every figure that rests on them is off: an error.
pub(super) fn say_suspects(
    sound: &Sound,
    readings: &[ReadingFix],
    misfit: Misfit,
    next: Option<&str>,
    problems: &mut Problems,
) {
    if misfit.scattered {
        problems.warning(
            "readings",
            "No one reading stands out, but together they scatter more than stated.",
            "Read more carefully, or state a larger reading error.",
        );
        return;
    }
    let suspects: Vec<(&Taken, &ReadingFix)> = sound
        .readings
        .iter()
        .zip(readings)
        .filter(|(taken, _)| misfit.suspects.contains(&taken.index))
        .collect();
    if misfit.more_than_one_wrong {
        let again = if suspects.is_empty() {
            fitting_worst(sound, readings)
        } else {
            suspects
        };
        problems.error(
            again.first().map_or_else(
                || "readings".to_owned(),
                |(taken, _)| format!("readings[{}]", taken.index),
            ),
            "More than one reading is wrong: leaving out any one of them does not make the others agree.",
            format!("Measure again, starting with {}.", list(sound, &again)),
        );
        return;
    }
    let Some((first, fix)) = suspects.first() else {
        return;
    };
    let place = format!("readings[{}]", first.index);
    if suspects.len() == 1 {
        problems.error(
            place,
            one_suspect(sound, first, fix),
            "Measure it again, or leave it out.",
        );
    } else {
        let remedy = next.map_or_else(
            || "Measure each of them again.".to_owned(),
            |next| format!("{next} It will tell which; or measure each of them again."),
        );
        problems.error(
            place,
            format!(
                "One of these readings does not fit, and the others cannot tell which: {}.",
                list(sound, &suspects)
            ),
            remedy,
        );
    }
}

/// The three readings that fit worst, the worst first.
fn fitting_worst<'a>(
    sound: &'a Sound,
    readings: &'a [ReadingFix],
) -> Vec<(&'a Taken, &'a ReadingFix)> {
    let mut all: Vec<_> = sound.readings.iter().zip(readings).collect();
    all.sort_by(|a, b| b.1.standardised.total_cmp(&a.1.standardised));
    all.truncate(3);
    all
}

/// Says where a mark may or must be on the other side from where it is drawn.
pub(super) fn say_other_side(other: Option<&OtherSide>, agrees: bool, problems: &mut Problems) {
    let Some(OtherSide {
        mark,
        from,
        to,
        taken,
    }) = other
    else {
        return;
    };
    let side = format!("on the other side of {from} to {to} from where it is drawn");
    if *taken {
        problems.warning(
            "marks",
            format!("The tapes fit only if {mark} is {side}."),
            format!("Look at the plan: if {mark} is there, drag it there on the sketch; if not, measure its tapes again."),
        );
    } else if agrees {
        problems.note(
            "marks",
            format!("The tapes fit as drawn, but better if {mark} were {side}."),
            format!("If {mark} is really there, drag it there on the sketch; if not, take one more tape to it, from a mark well off that line."),
        );
    } else {
        problems.note(
            "marks",
            format!("All the tapes would fit if {mark} were {side}."),
            format!("If {mark} is really there, drag it there on the sketch; if not, measure the readings that do not fit again."),
        );
    }
}

fn one_suspect(sound: &Sound, taken: &Taken, fix: &ReadingFix) -> String {
    let name = reading_name(sound, taken);
    let Some(suspect) = &fix.suspect else {
        return format!(
            "{name} does not fit; without it nothing says what it should be, for a mark it goes to can then move."
        );
    };
    let angle = matches!(taken.what, Quantity::Angle { .. });
    let say = |value: f64| {
        if angle {
            format!("{value:.2}°")
        } else {
            show_fine(value, sound.unit, 1)
        }
    };
    let observed = suspect.predicted + suspect.slip;
    let amount = say(suspect.slip.abs());
    let way = match (angle, suspect.slip > 0.0) {
        (true, true) => "too wide",
        (true, false) => "too narrow",
        (false, true) => "too long",
        (false, false) => "too short",
    };
    let cause = suspect.hint.map_or_else(String::new, |hint| {
        format!(
            " Likely {}: it was {}.",
            misreading(hint.why),
            sound.say(hint.likely)
        )
    });
    format!(
        "{name} does not fit: it says {}, the other readings make it {} ± {}, so it is {amount} {way}.{cause}",
        say(observed),
        say(suspect.predicted),
        say(suspect.predicted_pm),
    )
}

impl NextTape {
    /// “Tape B to F next: …”, with what it is good for; lengths in `unit`.
    #[must_use]
    pub fn sentence(&self, network: &NetworkFix, unit: Unit) -> String {
        let Self {
            from,
            to,
            before,
            after,
            settles,
        } = self;
        let what = match before {
            None => match settles.as_slice() {
                [] => "it takes one way to move from what is loose".to_owned(),
                [one] => format!("it settles mark {one}"),
                several => {
                    let marks: Vec<String> = several.iter().map(ToString::to_string).collect();
                    format!("it settles marks {}", and(&marks))
                }
            },
            Some(_) if network.suspects.len() > 1 => "it tells which reading is wrong".to_owned(),
            Some(before) => format!(
                "it brings the least sure mark from {} to {}",
                show_pm_with_unit(*before, unit),
                show_pm_with_unit(*after, unit)
            ),
        };
        format!("Tape {from} to {to} next: {what}.")
    }
}

fn list(sound: &Sound, suspects: &[(&Taken, &ReadingFix)]) -> String {
    let names: Vec<String> = suspects
        .iter()
        .map(|(taken, _)| reading_name(sound, taken))
        .collect();
    names.join(", ")
}
