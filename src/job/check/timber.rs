//! Notches in the posts, bolts and screws, and the strip to clear.

use super::{FilePlace, Ledger};
use crate::job::model::{Clearing, Fixings, Joint, Notch, Rails};
use crate::job::sound::Sound;

/// The least that any run's posts measure in the direction that a rail is let into them, mm, and
/// the run.
fn least(sound: &Sound, joint: Joint) -> Option<(f64, String)> {
    let runs = sound.runs.iter().map(|run| {
        let across = match joint {
            Joint::Side => run.width,
            Joint::Face => run.depth,
        };
        (across.min(run.depth), run.called().to_owned())
    });
    runs.min_by(|a, b| a.0.total_cmp(&b.0))
}

/// False, and said so, where a cut goes right through the posts of a run.
fn leaves_some(
    place: FilePlace<'_>,
    cut: f64,
    what: &str,
    sound: &Sound,
    joint: Joint,
    ledger: &mut Ledger,
) -> bool {
    let Some((size, run)) = least(sound, joint).filter(|(size, _)| cut >= *size) else {
        return true;
    };
    ledger.problems.error(
        place,
        format!(
            "A {what} of {} goes right through the posts of run “{run}”, which measure {}.",
            sound.say(cut),
            sound.say(size)
        ),
        "Cut a shallower notch.",
    );
    false
}

/// Takes out the rails' own notch where it goes through the posts, and rails whose seat does.
pub(super) fn rails(sound: &mut Sound, ledger: &mut Ledger) {
    let Some(Rails {
        seat, notch, joint, ..
    }) = sound.boards.rails
    else {
        return;
    };
    let place = FilePlace::File.key("boards");
    let place = place.key("rails");
    if joint == Joint::Side && !leaves_some(place.key("seat"), seat, "seat", sound, joint, ledger) {
        sound.boards.rails = None;
        return;
    }
    let cut = notch.unwrap_or(0.0);
    if !leaves_some(place.key("notch"), cut, "notch", sound, joint, ledger)
        && let Some(rails) = &mut sound.boards.rails
    {
        rails.notch = None;
    }
}

/// Notches of their own depth; one that goes through a post, or is for no rail, is left out.
pub(super) fn notches(notches: &[Notch], sound: &mut Sound, ledger: &mut Ledger) {
    let boards = FilePlace::File.key("boards");
    let list = boards.key("notches");
    let joint = sound
        .boards
        .rails
        .as_ref()
        .map_or(Joint::default(), |rails| rails.joint);
    let count = sound.boards.rails.as_ref().map(|rails| rails.count);
    for (index, notch) in notches.iter().enumerate() {
        let place = list.nth(index);
        ledger.unknown_keys(place, &notch.extra);
        if let (Some(rail), Some(count)) = (notch.rail, count)
            && !(1..=count).contains(&rail)
        {
            ledger.problems.error(
                place.key("rail"),
                format!("There is no rail {rail}: a bay has {count}, 1 the lowest."),
                "Name one of them, or leave it out for all.",
            );
            continue;
        }
        let depth = ledger.not_negative(place.key("depth"), notch.depth, "notch");
        if depth.is_some()
            && leaves_some(
                place.key("depth"),
                notch.depth,
                "notch",
                sound,
                joint,
                ledger,
            )
        {
            sound.boards.notches.push(notch.clone());
        }
    }
}

/// Bolts and screws whose every figure is possible.
pub(super) fn fixings(fixings: Option<&Fixings>, sound: &mut Sound, ledger: &mut Ledger) {
    let Some(fixings) = fixings else { return };
    let boards = FilePlace::File.key("boards");
    let place = boards.key("fixings");
    let wall_place = place.key("wall");
    ledger.unknown_keys(place, &fixings.extra);
    ledger.unknown_keys(wall_place, &fixings.wall.extra);
    let wall = &fixings.wall;
    let optional = |mm: Option<f64>| mm.unwrap_or(0.0);
    let checks = [
        ledger.positive(
            wall_place.key("ends"),
            wall.ends,
            "bolts' distance from the ends",
        ),
        ledger.positive(wall_place.key("most"), wall.most, "most between two bolts"),
        ledger.not_negative(
            wall_place.key("clear"),
            wall.clear,
            "bolts' distance from notches",
        ),
        ledger.not_negative(
            wall_place.key("counterbore"),
            optional(wall.counterbore),
            "depth of the counterbore",
        ),
        ledger.not_negative(
            wall_place.key("embed"),
            optional(wall.embed),
            "depth in the wall",
        ),
    ];
    const MOST: u32 = 100;
    let mut few = true;
    for (key, count) in [
        ("pale", fixings.pale),
        ("rail", fixings.rail),
        ("gravel", fixings.gravel),
    ] {
        if count > MOST {
            ledger.problems.error(
                place.key(key),
                format!("{count} screws in one place cannot be right."),
                format!("Enter how many screws, {MOST} at most."),
            );
            few = false;
        }
    }
    if few && checks.iter().all(Option::is_some) {
        sound.boards.fixings = Some(fixings.clone());
    }
}

/// The strip to clear, where every figure is possible.
pub(super) fn clearing(clear: Option<&Clearing>, sound: &mut Sound, ledger: &mut Ledger) {
    let Some(clear) = clear else { return };
    let boards = FilePlace::File.key("boards");
    let place = boards.key("clear");
    ledger.unknown_keys(place, &clear.extra);
    let checks = [
        ledger.not_negative(place.key("width"), clear.width, "width to clear"),
        ledger.not_negative(place.key("depth"), clear.depth, "depth to clear"),
        ledger.positive(
            place.key("bulk"),
            clear.bulk,
            "share that dug ground swells to",
        ),
    ];
    if checks.iter().all(Option::is_some) {
        sound.boards.clear = Some(clear.clone());
    }
}
