//! Tape, nails, laser, tolerances, hole and stock.

use super::{Ledger, Place};
use crate::job::model::Job;
use crate::job::sound::Sound;

/// Tape, nails, laser, tolerances, hole and stock; what is impossible falls back to its default.
pub(super) fn settings(job: &Job, sound: &mut Sound, ledger: &mut Ledger) {
    let [tape, string, level, tolerance, hole, stock] =
        ["tape", "string", "level", "tolerance", "hole", "stock"].map(|part| Place::File.key(part));
    ledger.unknown_keys(tape, &job.tape.extra);
    ledger.unknown_keys(string, &job.string.extra);
    ledger.unknown_keys(level, &job.level.extra);
    ledger.unknown_keys(tolerance, &job.tolerance.extra);
    ledger.unknown_keys(hole, &job.hole.extra);
    ledger.unknown_keys(stock, &job.stock.extra);
    let mut positive = |place: Place<'_>, value: f64, what: &str, keep: &mut f64| {
        if let Some(value) = ledger.positive(place, value, what) {
            *keep = value;
        }
    };
    sound.tape.class = job.tape.class;
    let reading = "standard deviation of one reading";
    positive(
        tape.key("reading"),
        job.tape.reading,
        reading,
        &mut sound.tape.reading,
    );
    positive(
        string.key("nail"),
        job.string.nail,
        "standard deviation of one nail's offset",
        &mut sound.string.nail,
    );
    positive(
        level.key("reading"),
        job.level.reading,
        reading,
        &mut sound.laser.reading,
    );
    positive(
        hole.key("diameter"),
        job.hole.diameter,
        "hole's diameter",
        &mut sound.hole.diameter,
    );
    positive(
        hole.key("depth"),
        job.hole.depth,
        "hole's depth",
        &mut sound.hole.depth,
    );
    positive(
        hole.key("bag"),
        job.hole.bag,
        "litres from one bag",
        &mut sound.hole.bag,
    );
    let mut not_negative = |place: Place<'_>, value: f64, what: &str, keep: &mut f64| {
        if let Some(value) = ledger.not_negative(place, value, what) {
            *keep = value;
        }
    };
    not_negative(
        tape.key("pull"),
        job.tape.pull,
        "change of the tape by pull, sag and heat",
        &mut sound.tape.pull,
    );
    let laser = &mut sound.laser.accuracy;
    not_negative(
        level.key("accuracy"),
        job.level.accuracy,
        "laser's accuracy",
        laser,
    );
    not_negative(
        tolerance.key("length"),
        job.tolerance.length,
        "tolerance",
        &mut sound.tolerance.length,
    );
    not_negative(
        tolerance.key("level"),
        job.tolerance.level,
        "tolerance",
        &mut sound.tolerance.level,
    );
    not_negative(
        hole.key("over"),
        job.hole.over,
        "share a hole runs over",
        &mut sound.hole.over,
    );
    not_negative(
        stock.key("kerf"),
        job.stock.kerf,
        "width of a saw cut",
        &mut sound.stock.kerf,
    );
    let lists = [
        ("gravel", &job.stock.gravel, &mut sound.stock.gravel),
        ("rails", &job.stock.rails, &mut sound.stock.rails),
        ("posts", &job.stock.posts, &mut sound.stock.posts),
    ];
    for (name, lengths, keep) in lists {
        for (i, &length) in lengths.iter().enumerate() {
            let list = stock.key(name);
            keep.extend(ledger.positive(list.nth(i), length, "stock length"));
        }
    }
}
