//! What keeps a height from being known, and which sight looks misread: in a person's words.

use super::fixes::{LevelsFix, SightFix};
use crate::adjust::SUSPICIOUS;
use crate::adjust::misread::{Hint, Why};
use crate::job::Problems;
use crate::job::sound::{SetupIx, Sound, SoundDatum, SoundLevels};
use crate::length::show;
use crate::site::SuspectFix;

/// Names what is still to be sighted before every height is known.
pub(super) fn missing(levels: &SoundLevels, fix: &LevelsFix, problems: &mut Problems) {
    let Some(datum) = levels.datum else {
        problems.warning(
            "levels.datum",
            "There are sights, but no datum: heights have nothing to start from.",
            "Choose a sighted mark as the datum and give its height; 0 will do.",
        );
        return;
    };
    let name = levels.points.get(datum.point.0).map(|point| &point.id);
    let name = name.map(ToString::to_string).unwrap_or_default();
    if !levels.sights.iter().any(|sight| sight.point == datum.point) {
        problems.warning(
            "levels.datum.point",
            format!("The datum “{name}” is not sighted from any set-up."),
            format!("Sight “{name}” from a set-up, or choose a point that is sighted."),
        );
        return;
    }
    for at in 0..levels.setups.len() {
        adrift(levels, fix, SetupIx(at), &name, problems);
    }
    unsighted(levels, datum, problems);
}

fn adrift(
    levels: &SoundLevels,
    fix: &LevelsFix,
    setup: SetupIx,
    datum: &str,
    problems: &mut Problems,
) {
    let Some(id) = levels.setups.get(setup.0) else {
        return;
    };
    if fix.setups.contains_key(id) {
        return;
    }
    let first = levels.sights.iter().find(|sight| sight.setup == setup);
    let Some(first) = first else {
        problems.warning(
            format!("levels.setups[{}]", setup.0),
            format!("Set-up “{id}” has no sights yet, so its line has no height."),
            format!("Sight the datum “{datum}” or a change point from it first."),
        );
        return;
    };
    let through = match fix.setups.keys().next() {
        Some(known) => format!("a point that set-up “{known}” sights too, or the datum “{datum}”"),
        None => format!("the datum “{datum}”"),
    };
    problems.warning(
        format!("levels.setups[{}]", first.place.0),
        format!("Nothing ties set-up “{id}” to the datum, so its line and what only it sights have no height."),
        format!("From set-up “{id}”, sight {through}."),
    );
}

fn unsighted(levels: &SoundLevels, datum: SoundDatum, problems: &mut Problems) {
    let mut sighted = vec![false; levels.points.len()];
    for at in levels.sights.iter().map(|sight| sight.point.0) {
        if let Some(sighted) = sighted.get_mut(at) {
            *sighted = true;
        }
    }
    let waiting: Vec<(usize, String)> = levels
        .points
        .iter()
        .enumerate()
        .filter(|&(at, _)| at != datum.point.0 && !sighted.get(at).copied().unwrap_or(true))
        .map(|(at, point)| (at, format!("“{}”", point.id)))
        .collect();
    let Some(&(first, _)) = waiting.first() else {
        return;
    };
    let names: Vec<String> = waiting.into_iter().map(|(_, name)| name).collect();
    problems.warning(
        format!("levels.points[{first}]"),
        format!("Not sighted yet: {}.", names.join(", ")),
        "Sight each from a set-up, or delete it.",
    );
}

/// Names the sights that look misread; with several that could be, none is accused. Until the wrong
/// one is found, heights that rest on them are off: an error.
pub(super) fn misread(sound: &Sound, fix: &LevelsFix, problems: &mut Problems) {
    let levels = &sound.levels;
    let stands_out = |sight: &SightFix| sight.standardised > SUSPICIOUS;
    if !fix.agrees && !fix.sights.iter().any(stands_out) {
        problems.warning(
            "levels.setups",
            "No one sight stands out, but together they scatter more than stated.",
            "Read more carefully, or state a larger reading error.",
        );
        return;
    }
    let suspects: Vec<(&SightFix, &SuspectFix, f64)> = fix
        .suspects
        .iter()
        .filter_map(|&at| {
            let sight = fix.sights.get(at)?;
            Some((sight, sight.suspect.as_ref()?, levels.sights.get(at)?.down))
        })
        .collect();
    if fix.more_than_one_wrong {
        problems.error(
            suspects.first().map_or_else(|| "levels.setups".to_owned(), |s| place(s.0)),
            "The sights do not agree, and leaving out any one does not make the rest agree: more than one is wrong.",
            "Check that no laser was moved or knocked, then sight the change points again.",
        );
        return;
    }
    match suspects[..] {
        [] => {}
        [(sight, suspect, down)] => accuse(sound, (sight, suspect, down), problems),
        [(first, ..), ..] => {
            problems.error(place(first), cannot_tell(sound, &suspects), tell_apart());
        }
    }
}

fn place(sight: &SightFix) -> String {
    let (setup, at) = sight.place;
    format!("levels.setups[{setup}].sights[{at}].down")
}

fn accuse(
    sound: &Sound,
    (sight, suspect, down): (&SightFix, &SuspectFix, f64),
    problems: &mut Problems,
) {
    let why = suspect.hint.map_or_else(
        || mixed_up(sound, suspect, down),
        |hint| because(sound, hint),
    );
    problems.error(
        place(sight),
        format!(
            "The sight from “{}” to “{}” looks wrong by {}: it says {}, the others make it {}.{why}",
            sight.setup,
            sight.point,
            sound.say(suspect.slip.abs()),
            reading(sound, down),
            reading(sound, suspect.predicted),
        ),
        "Sight it again; until then leave it out.",
    );
}

/// A reading as it is said on site: so far down from the line, or up.
fn reading(sound: &Sound, down: f64) -> String {
    let way = if down < 0.0 { "up" } else { "down" };
    format!("{} {way}", show(down.abs(), sound.unit))
}

fn because(sound: &Sound, hint: Hint) -> String {
    let likely = reading(sound, hint.likely);
    match hint.why {
        Why::Digits => format!(" Two digits swapped? It may have been {likely}."),
        Why::Ten => format!(" A slip of 10? It may have been {likely}."),
        Why::Hundred => format!(" A slip of 100? It may have been {likely}."),
        Why::Thousand => format!(" A slip of 1000? It may have been {likely}."),
    }
}

/// Up taken for down gives a slip of twice the reading.
fn mixed_up(sound: &Sound, suspect: &SuspectFix, down: f64) -> String {
    let off = (suspect.predicted + down).abs();
    if off <= suspect.predicted_pm.max(1.0) * 2.0 && suspect.slip.abs() > off {
        format!(
            " Up taken for down? It may have been {}.",
            reading(sound, -down)
        )
    } else {
        String::new()
    }
}

fn cannot_tell(sound: &Sound, suspects: &[(&SightFix, &SuspectFix, f64)]) -> String {
    let named: Vec<String> = suspects
        .iter()
        .map(|(sight, suspect, _)| {
            format!(
                "“{}” to “{}” (by {})",
                sight.setup,
                sight.point,
                sound.say(suspect.slip.abs())
            )
        })
        .collect();
    format!(
        "The sights do not agree; any one of these may be the wrong one: {}.",
        named.join(", ")
    )
}

fn tell_apart() -> &'static str {
    "Sight these again. If the laser has been moved since, sight one more point from both set-ups: \
     that tells them apart."
}
