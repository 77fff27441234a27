//! Where the figures of a post come from, in a sentence each.

use super::sight::{AtPost, faces, post_in_sight, twin};
use crate::app::desk::{Desk, run_fix};
use crate::app::names::{end_name, is_pinned, run_name, string_name, the, zero_name};
use crate::job::model::{BayFit, Job};
use crate::length;
use crate::setout::{Post, PostKind};

/// The head and the words that explain a figure of the post in sight; `None` where there is no
/// such figure.
#[must_use]
pub fn origin(desk: &Desk, id: &str) -> Option<(String, String)> {
    let sight = post_in_sight(desk)?;
    let job = desk.job();
    let post = sight.post;
    Some(match id {
        "figure" => (format!("Post {}", post.n), reading(desk, &sight)),
        "hole" => ("Hole centre".to_owned(), hole(job, post)),
        "behind" => ("Behind the string".to_owned(), behind(job, &sight)),
        "bay" => {
            let round = round_the_corner(desk, &sight).unwrap_or_default();
            ("Bay".to_owned(), bay(job, &sight) + &round)
        }
        "tapes" => ("Two tapes".to_owned(), tapes(job, post)),
        _ => return None,
    })
}

fn reading(desk: &Desk, sight: &AtPost<'_>) -> String {
    let job = desk.job();
    let unit = job.show.lengths;
    let AtPost { run, fix, post, .. } = *sight;
    let face = sight.face(desk);
    let figure = length::show(sight.reading(face), unit);
    let face = faces(post).get(face).copied().unwrap_or("Centre");
    let face = face.to_lowercase();
    let mut text = format!(
        "The {face} is **{figure}** from {}, where the tape is held for every post of the run. {}",
        the(&zero_name(job, run)),
        why_there(job, sight)
    );
    if let Some(wedge) = post.wedge.filter(|&wedge| wedge >= 1.0) {
        text.push_str(&format!(
            " The wall is out of square by {} over the post’s depth: a wedge as thick fills the gap.",
            length::show_with_unit(wedge, unit)
        ));
    }
    text.push_str(&format!(
        "\n\nThe {} (95 %) is the tape’s own over that length, and the post’s share of the {} in the run’s length.",
        length::show_pm_with_unit(post.pm, unit),
        length::show_pm_with_unit(fix.length_pm, unit)
    ));
    if let Some(next) = &desk.solution.advice {
        let next = next.sentence(&desk.solution.network, unit);
        text.push_str(&format!(" {next}"));
    }
    text
}

fn why_there(job: &Job, sight: &AtPost<'_>) -> String {
    let AtPost { run, post, .. } = *sight;
    let end = if post.n == 1 { &run.start } else { &run.end };
    let place = end_name(job, end.as_ref()).map(|name| the(&name));
    match (post.kind, place) {
        (PostKind::Wall, Some(wall)) => format!("It stands hard against {wall}."),
        (PostKind::Wall, None) => "It stands hard against the wall.".to_owned(),
        (PostKind::Corner, _) => {
            "It is the corner post, pushed into the corner until it stands inside both strings; where it is turned, this is its outermost edge along the string."
                .to_owned()
        }
        (PostKind::Gate, _) => "Its face is on the edge of the gate opening.".to_owned(),
        (PostKind::End, Some(place)) => format!("It is centred on {place}."),
        (PostKind::End, None) => "It is centred on the length given for the run.".to_owned(),
        (PostKind::Line, _) if is_pinned(run, post) => {
            "It is pinned there; the bays on both sides are spaced from it.".to_owned()
        }
        (PostKind::Line, _) => {
            let (from, to) = stretch(sight);
            let bays = run.bays.clone().unwrap_or_default();
            let max = length::show_with_unit(bays.max, job.show.lengths);
            match bays.fit {
                BayFit::Equal => format!(
                    "Posts {from} to {to} are {} equal {} apart, the fewest not longer than {max}.",
                    to - from,
                    if to - from == 1 { "bay" } else { "bays" }
                ),
                BayFit::Full => format!(
                    "From post {from} to post {to} the bays are full, {max} each, with one closing bay."
                ),
            }
        }
    }
}

/// The posts with a place of their own that a line post stands between.
fn stretch(sight: &AtPost<'_>) -> (usize, usize) {
    let held = |post: &&Post| post.kind != PostKind::Line || is_pinned(sight.run, post);
    let posts = &sight.fix.posts;
    let n = sight.post.n;
    let from = posts.iter().rfind(|post| post.n < n && held(post));
    let to = posts.iter().find(|post| post.n > n && held(post));
    (
        from.map_or(1, |post| post.n),
        to.map_or(posts.len(), |post| post.n),
    )
}

fn hole(job: &Job, post: &Post) -> String {
    let unit = job.show.lengths;
    let diameter = length::show(job.hole.diameter, unit);
    let deep = length::show_with_unit(job.hole.depth, unit);
    format!(
        "The hole is dug round the post’s centre, **{}** on the tape: the near face and half of the post’s length along the string. It is {diameter} across and {deep} deep (see Run details).",
        length::show(post.centre, unit)
    )
}

fn behind(job: &Job, sight: &AtPost<'_>) -> String {
    let unit = job.show.lengths;
    let off = length::show(sight.post.off, unit);
    if sight.post.kind == PostKind::Corner {
        return format!(
            "Square off the string to the corner post’s centre: **{off}**, from the gap to both strings and how the post is turned."
        );
    }
    let [_, depth] = sight.post.size;
    format!(
        "Square off the string to the post’s centre: the gap of {} from string to post and half of the post’s depth of {} make **{off}**.",
        length::show(sight.run.gap, unit),
        length::show(depth, unit)
    )
}

fn bay(job: &Job, sight: &AtPost<'_>) -> String {
    let unit = job.show.lengths;
    let (Some(bay), Some(clear)) = (sight.post.bay, sight.post.clear) else {
        return format!(
            "From the zero at {} to the end of the run, along {}: **{} {}**, from the readings of the marks.",
            the(&zero_name(job, sight.run)),
            string_name(job, &sight.run.line),
            length::show(sight.fix.length, unit),
            length::show_pm_with_unit(sight.fix.length_pm, unit)
        );
    };
    format!(
        "From centre to centre of the post before: **{}**; from face to face **{}**. Tape it as a check before you dig.",
        length::show(bay, unit),
        length::show(clear, unit)
    )
}

/// Beside a corner post: the diagonal to the post on its other side, which checks the corner.
fn round_the_corner(desk: &Desk, sight: &AtPost<'_>) -> Option<String> {
    let n = sight.post.n;
    let beside = [n.checked_sub(2), Some(n)].into_iter().flatten();
    let corner = beside
        .filter_map(|at| sight.fix.posts.get(at))
        .find(|post| post.kind == PostKind::Corner)?;
    let runs = desk.job().runs.iter();
    let (run, other) = runs.filter(|run| run.id != sight.run.id).find_map(|run| {
        let posts = run_fix(desk, run)?;
        let twin = twin(posts, corner)?;
        let at = if twin.n == 1 { 1 } else { twin.n - 2 };
        Some((run, posts.posts.get(at)?))
    })?;
    Some(format!(
        "\n\nAcross the corner, to the centre of post {} of {}: **{}**. It checks the corner’s angle.",
        other.n,
        run_name(run),
        length::show(sight.post.apart(other), desk.job().show.lengths)
    ))
}

fn tapes(job: &Job, post: &Post) -> String {
    let unit = job.show.lengths;
    let Some([(a, from_a), (b, from_b)]) = &post.arcs else {
        return "No two marks see this post well: they must be 100 mm to 15 m away, their tapes crossing at 30° to 150°. A further mark on this side would help."
            .replace("100 mm", &length::show_with_unit(100.0, unit))
            .replace("15 m", &length::show_with_unit(15_000.0, unit));
    };
    format!(
        "Where the string is in the way: swing **{}** from mark {a} and **{}** from mark {b}; the post’s centre is where the two cross.",
        length::show(*from_a, unit),
        length::show(*from_b, unit)
    )
}
