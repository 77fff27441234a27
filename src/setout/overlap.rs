//! Gates that take up the same stretch of a run.

use super::bench::{Bench, Opening, SAME, Stand};

/// Whether two openings share some of a run, however little beyond a face.
pub(super) fn overlap(one: &Opening, other: &Opening) -> bool {
    one.near < other.far - SAME && other.near < one.far - SAME
}

/// What is wrong with a gate that overlaps another, which stays, and what to do.
pub(super) fn over_gate(
    bench: &Bench<'_>,
    stays: &Opening,
    opening: &Opening,
    last: &Stand,
) -> (String, String) {
    let say = |mm: f64| bench.sound.say(mm);
    let text = format!(
        "The gate from {} to {} overlaps the gate from {} to {}; it is left out.",
        say(opening.near),
        say(opening.far),
        say(stays.near),
        say(stays.far)
    );
    let width = bench.run.width;
    let (before, behind) = (stays.near - width, stays.far + width);
    let remedy = if behind + (opening.far - opening.near) <= last.near + SAME {
        format!(
            "Start it at {} or later, with a post between the two, or make one of them narrower.",
            say(behind)
        )
    } else {
        format!(
            "End it at {} or earlier, with a post between the two, make one of them narrower, or take one out.",
            say(before)
        )
    };
    (text, remedy)
}
