//! What is said of one post while it is marked out.

use super::as_built::{stands, verdict};
use super::sight::{AtPost, faces};
use crate::app::desk::Desk;
use crate::app::kit::{fact, silence, status};
use crate::app::names::{marked, side_name, string_name, the, zero_name};
use crate::app::walls::standing::misled;
use crate::job::model::{Job, Run};
use crate::length;
use crate::setout::{Post, RunFix};
use tautmark_ui::{Fact, Status, Verdict};

/// “Tape from the **shed end wall**, along the front string, to the **near face**”; `reading` is that
/// face's, mm.
pub fn how(job: &Job, sight: &AtPost<'_>, face: usize, reading: f64) -> String {
    let run = sight.run;
    let zero = zero_name(job, run);
    let zero = the(&zero).replace(&zero, &format!("**{zero}**"));
    let string = string_name(job, &run.line);
    let to = faces(sight.post).get(face).copied().unwrap_or("Centre");
    let to = to.to_lowercase();
    let way = if reading <= -0.5 {
        "**the other way** along"
    } else {
        "along"
    };
    format!("Tape from {zero}, {way} {string}, to the **{to}**")
}

/// How far the centre is behind the string, and on which side.
pub fn behind(job: &Job, run: &Run, post: &Post) -> Fact {
    let unit = job.show.lengths;
    // The side is as seen looking along the string; a post in front of it is on the other.
    let side = run.side.map(|side| match post.off < 0.0 {
        true => side.other(),
        false => side,
    });
    let side = side.map(|side| format!("to the {}", side_name(side)));
    fact(
        "behind",
        "Behind the string",
        &length::show(post.off.abs(), unit),
        &side.unwrap_or_default(),
    )
}

/// The bay or gate opening before the post; of the first post, the length of the run.
pub fn bay(job: &Job, fix: &RunFix, post: &Post) -> Fact {
    let unit = job.show.lengths;
    let (Some(bay), Some(clear)) = (post.bay, post.clear) else {
        return fact(
            "bay",
            "Length of the run",
            &length::show(fix.length, unit),
            &length::show_pm_with_unit(fix.length_pm, unit),
        );
    };
    let before = post.n.saturating_sub(1);
    if fix.gate_after(before) {
        let tail = format!("bay {}", length::show(bay, unit));
        return fact(
            "bay",
            &format!("Gate opening from post {before}"),
            &length::show(clear, unit),
            &tail,
        );
    }
    let tail = format!("clear {}", length::show(clear, unit));
    fact(
        "bay",
        &format!("Bay from post {before}"),
        &length::show(bay, unit),
        &tail,
    )
}

/// The two swings to the post’s centre.
pub fn tapes(job: &Job, post: &Post) -> Fact {
    let unit = job.show.lengths;
    match &post.arcs {
        Some([(a, from_a), (b, from_b)]) => fact(
            "tapes",
            &format!("Two tapes: {a}, {b}"),
            &format!(
                "{} · {}",
                length::show(*from_a, unit),
                length::show(*from_b, unit)
            ),
            "",
        ),
        None => fact(
            "tapes",
            "Two tapes",
            "—",
            "no two marks give a good crossing",
        ),
    }
}

/// How the post stands, where that is known; before that, whether its figures can be trusted.
pub fn built(desk: &Desk, sight: &AtPost<'_>) -> Status {
    if let Some(misled) = misled(desk) {
        return status(Verdict::Attention, &misled);
    }
    let job = desk.job();
    let Some(one) = marked(job, sight.run, sight.post.n) else {
        return silence();
    };
    let judged = stands(job, sight.fix, one);
    let judged = judged.and_then(|built| verdict(job, sight.run, &built));
    match judged {
        Some(judged) => judged,
        None if one.done => status(Verdict::Good, "**Marked.**"),
        None => silence(),
    }
}
