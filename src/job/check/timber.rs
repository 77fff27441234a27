//! Notches in the posts, bolts and screws, and the strip to clear.

use super::{Figure, FilePlace, Ledger};
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

/// Names timber between the posts that stands out in front of them or behind.
fn stands_out(
    place: FilePlace<'_>,
    what: &str,
    set: Option<f64>,
    thick: f64,
    sound: &Sound,
    ledger: &mut Ledger,
) {
    let Some((depth, run)) = least(sound, Joint::Face) else {
        return;
    };
    let say = |mm| sound.say(mm);
    let posts = format!("the posts of run “{run}”, which are {} deep", say(depth));
    let (key, text, remedy) = match set {
        _ if thick > depth => (
            "thick",
            format!("A {what} {} thick is thicker than {posts}.", say(thick)),
            "Enter its thickness across the string, or take deeper posts.",
        ),
        Some(set) if set < 0.0 => (
            "set",
            format!("The {what} stands {} out in front of the posts.", say(-set)),
            "Enter how far its front face is behind the posts'.",
        ),
        Some(set) if set + thick > depth => (
            "set",
            format!(
                "A {what} {} thick that is set back {} stands out behind {posts}.",
                say(thick),
                say(set)
            ),
            "Set it back less, or leave that out: then it is in the middle of the posts.",
        ),
        _ => return,
    };
    ledger.problems.warning(place.key(key), text, remedy);
}

/// Names gravel boards that stand out of the posts they are between.
pub(super) fn gravel(sound: &Sound, ledger: &mut Ledger) {
    let Some(gravel) = sound.boards.gravel.as_ref() else {
        return;
    };
    if gravel.joint == Joint::Side {
        let boards = FilePlace::File.key("boards");
        let (set, thick) = (gravel.set, gravel.thick);
        stands_out(
            boards.key("gravel"),
            "gravel board",
            set,
            thick,
            sound,
            ledger,
        );
    }
}

/// Takes out the rails' own notch where it goes through the posts, and rails whose seat does.
pub(super) fn rails(sound: &mut Sound, ledger: &mut Ledger) {
    let Some(Rails {
        seat,
        notch,
        joint,
        set,
        ..
    }) = sound.boards.rails
    else {
        return;
    };
    let place = FilePlace::File.key("boards");
    let place = place.key("rails");
    if let Some(rails) = sound.boards.rails.as_ref().filter(|_| joint == Joint::Side) {
        stands_out(place, "rail", set, rails.thickness(), sound, ledger);
    }
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
    let sunk = optional(wall.counterbore);
    let deep = least(sound, Joint::Face).filter(|(depth, _)| sunk >= *depth);
    if let Some((depth, run)) = &deep {
        ledger.problems.error(
            wall_place.key("counterbore"),
            format!(
                "A counterbore of {} goes right through the posts of run “{run}”, which are {} deep.",
                sound.say(sunk),
                sound.say(*depth)
            ),
            "Sink the bolts' heads less deep.",
        );
    }
    const MOST: u32 = 100;
    let mut few = deep.is_none();
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
        ledger.positive_of(Figure::number(
            place.key("bulk"),
            clear.bulk,
            "share that dug ground swells to",
        )),
    ];
    let swells = clear.bulk >= 1.0 || !clear.bulk.is_finite() || clear.bulk <= 0.0;
    if !swells {
        ledger.problems.error(
            place.key("bulk"),
            format!("Dug ground that swells to {} would shrink.", clear.bulk),
            "Enter how many times its room it takes when it is heaped: 1.3 as a rule, never less than 1.",
        );
    }
    if swells && checks.iter().all(Option::is_some) {
        sound.boards.clear = Some(clear.clone());
    }
}
