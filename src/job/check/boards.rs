//! Gravel boards, rails and pales.

use super::{Figure, FilePlace, Ledger, timber};
use crate::job::model::{Boards, Job};
use crate::job::sound::Sound;

/// Boards whose every figure is possible; a part with one that is not is left out.
pub(super) fn boards(job: &Job, sound: &mut Sound, ledger: &mut Ledger) {
    let Boards {
        gravel,
        rails,
        notches,
        fixings,
        clear,
        pales,
        extra,
    } = &job.boards;
    let boards = FilePlace::File.key("boards");
    ledger.unknown_keys(boards, extra);
    if let Some(gravel) = gravel {
        let place = boards.key("gravel");
        ledger.unknown_keys(place, &gravel.extra);
        let checks = [
            ledger.positive(place.key("height"), gravel.height, "gravel board's height"),
            ledger.positive(place.key("thick"), gravel.thick, "gravel board's thickness"),
            ledger.any(
                place.key("set"),
                gravel.set.unwrap_or(0.0),
                "depth of its front face behind the posts'",
            ),
            ledger.not_negative(place.key("clearance"), gravel.clearance, "clearance"),
            ledger.not_negative(
                place.key("dig"),
                gravel.dig,
                "depth it may be cut into the ground",
            ),
            ledger.not_negative(place.key("gap"), gravel.gap, "largest gap"),
            ledger.not_negative(place.key("step"), gravel.step.unwrap_or(0.0), "step"),
            ledger.any(
                place.key("top"),
                gravel.top.unwrap_or(0.0),
                "gravel board's top",
            ),
        ];
        sound.boards.gravel = checks.iter().all(Option::is_some).then(|| gravel.clone());
        timber::gravel(sound, ledger);
    }
    if let Some(rails) = rails {
        let place = boards.key("rails");
        ledger.unknown_keys(place, &rails.extra);
        let count = f64::from(rails.count);
        let count = Figure::number(place.key("count"), count, "number of rails");
        let count = ledger.positive_of(count);
        let few = few_enough(rails.count, ledger);
        let checks = [
            count,
            few,
            ledger.any(place.key("low"), rails.low, "lowest rail's height"),
            ledger.any(place.key("high"), rails.high, "highest rail's height"),
            ledger.not_negative(place.key("seat"), rails.seat, "seat"),
            ledger.not_negative(place.key("notch"), rails.notch.unwrap_or(0.0), "notch"),
            ledger.positive(place.key("height"), rails.height, "rail's height"),
            ledger.positive(place.key("thick"), rails.thickness(), "rail's thickness"),
            ledger.any(
                place.key("set"),
                rails.set.unwrap_or(0.0),
                "depth of its front face behind the posts'",
            ),
        ];
        let ordered = rails.count < 2 || rails.high > rails.low;
        if !ordered {
            ledger.problems.error(
                place.key("high"),
                "The highest rail is not above the lowest.",
                "Enter the height of the highest rail's centre above the gravel board.",
            );
        }
        let good = ordered && checks.iter().all(Option::is_some);
        sound.boards.rails = good.then(|| rails.clone());
        timber::rails(sound, ledger);
    }
    timber::notches(notches, sound, ledger);
    timber::fixings(fixings.as_ref(), sound, ledger);
    timber::clearing(clear.as_ref(), sound, ledger);
    if let Some(pales) = pales {
        let place = boards.key("pales");
        ledger.unknown_keys(place, &pales.extra);
        let checks = [
            ledger.positive(place.key("width"), pales.width, "pale's width"),
            ledger.not_negative(place.key("lap"), pales.lap, "lap"),
            ledger.positive(place.key("height"), pales.height, "pale's height"),
        ];
        let wide = pales.lap < pales.width;
        if !wide {
            ledger.problems.error(
                place.key("lap"),
                format!(
                    "A lap of {} is not less than the pale's width of {}.",
                    sound.say(pales.lap),
                    sound.say(pales.width)
                ),
                "Enter how far one pale must cover the next.",
            );
        }
        let good = wide && checks.iter().all(Option::is_some);
        sound.boards.pales = good.then(|| pales.clone());
    }
}

fn few_enough(count: u32, ledger: &mut Ledger) -> Option<f64> {
    const MOST: u32 = 20;
    if count <= MOST {
        return Some(f64::from(count));
    }
    ledger.problems.error(
        "boards.rails.count",
        format!("{count} rails in one bay cannot be right."),
        format!("Enter how many rails one bay has, {MOST} at most."),
    );
    None
}
