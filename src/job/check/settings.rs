//! Tape, nails, laser, tolerances, hole and stock.

use super::{Figure, FilePlace, Ledger};
use crate::job::model::Job;
use crate::job::sound::Sound;

/// Tape, nails, laser, tolerances, hole and stock; what is impossible falls back to its default.
pub(super) fn settings(job: &Job, sound: &mut Sound, ledger: &mut Ledger) {
    let [tape, string, level, tolerance, hole, stock] =
        ["tape", "string", "level", "tolerance", "hole", "stock"]
            .map(|part| FilePlace::File.key(part));
    ledger.unknown_keys(tape, &job.tape.extra);
    ledger.unknown_keys(string, &job.string.extra);
    ledger.unknown_keys(level, &job.level.extra);
    ledger.unknown_keys(tolerance, &job.tolerance.extra);
    ledger.unknown_keys(hole, &job.hole.extra);
    ledger.unknown_keys(stock, &job.stock.extra);
    sound.tape.class = job.tape.class;
    let (reading, nail) = ("typical error of one reading", "typical error of one nail");
    let (wide, deep) = ("hole's diameter", "hole's depth");
    let positive = [
        (
            tape.key("reading"),
            job.tape.reading,
            reading,
            &mut sound.tape.reading,
        ),
        (
            string.key("nail"),
            job.string.nail,
            nail,
            &mut sound.string.nail,
        ),
        (
            level.key("reading"),
            job.level.reading,
            reading,
            &mut sound.laser.reading,
        ),
        (
            hole.key("diameter"),
            job.hole.diameter,
            wide,
            &mut sound.hole.diameter,
        ),
        (
            hole.key("depth"),
            job.hole.depth,
            deep,
            &mut sound.hole.depth,
        ),
    ];
    for (place, value, what, keep) in positive {
        *keep = ledger.positive(place, value, what).unwrap_or(*keep);
    }
    let bag = Figure::number(hole.key("bag"), job.hole.bag, "litres from one bag");
    if let Some(litres) = ledger.positive_of(bag) {
        sound.hole.bag = litres;
    }
    let over = Figure::number(hole.key("over"), job.hole.over, "share a hole runs over");
    if let Some(share) = ledger.not_negative_of(over) {
        sound.hole.over = share;
    }
    let pull = "change of the tape by pull, sag and heat";
    let (laser, off) = ("laser's accuracy", "tolerance");
    let (length, height) = (&mut sound.tolerance.length, &mut sound.tolerance.level);
    let not_negative = [
        (tape.key("pull"), job.tape.pull, pull, &mut sound.tape.pull),
        (
            level.key("accuracy"),
            job.level.accuracy,
            laser,
            &mut sound.laser.accuracy,
        ),
        (tolerance.key("length"), job.tolerance.length, off, length),
        (tolerance.key("level"), job.tolerance.level, off, height),
        (
            stock.key("kerf"),
            job.stock.kerf,
            "width of a saw cut",
            &mut sound.stock.kerf,
        ),
    ];
    for (place, value, what, keep) in not_negative {
        *keep = ledger.not_negative(place, value, what).unwrap_or(*keep);
    }
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
    let done = stock.key("done");
    for (i, one) in job.stock.done.iter().enumerate() {
        ledger.unknown_keys(done.nth(i), &one.extra);
    }
}
