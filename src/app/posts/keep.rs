//! A post whose concrete has set cannot be moved any more: it is kept where it stands, and everything
//! else is fitted to it. What follows from that is shown before it is done.

use super::sight::{AtPost, post_in_sight};
use crate::app::desk::{Desk, Then};
use crate::app::names::marked;
use crate::job::Job;
use crate::job::edit::{Edit, apply};
use crate::job::model::Marked;
use crate::length;
use crate::{Solution, solve};

/// Off its place by less than this, a post needs no keeping, mm.
const OFF: f64 = 0.5;

/// What is offered for the post in sight; empty where it stands as planned, or was not measured.
#[must_use]
pub fn offer(desk: &Desk, sight: &AtPost<'_>) -> &'static str {
    let Some(one) = marked(desk.saved(), sight.run, sight.post.n) else {
        return "";
    };
    let Some(measured) = one.measured else {
        return "";
    };
    match one.keep {
        true => "Kept: plan it anew",
        false if (measured - sight.post.centre).abs() >= OFF => "It has set: keep it",
        false => "",
    }
}

/// Asks whether the post in sight is kept; one that is kept is let go.
pub fn ask(desk: &mut Desk) -> Then {
    let Some(sight) = post_in_sight(desk) else {
        return Then::Stay;
    };
    let Some(one) = marked(desk.saved(), sight.run, sight.post.n).cloned() else {
        return Then::Stay;
    };
    let keep = !one.keep;
    let edit = Edit::mark_post(desk.saved(), Marked { keep, ..one });
    if !keep {
        return desk.change_and_say(edit, "Planned anew; its peg or post may have to move.");
    }
    let mut after = desk.saved().clone();
    if apply(&mut after, &edit).is_err() {
        return Then::Stay;
    }
    let text = follows(desk, &sight, &after, &solve(&after));
    let title = format!("Keep post {} where it stands?", sight.post.n);
    desk.ask_first(title, text, "Keep it", |desk| {
        desk.change_and_say(edit, "Kept; everything else is fitted to it.")
    })
}

/// What becomes of the openings, leaves and bays beside the post, and what is then to be looked at.
fn follows(desk: &Desk, sight: &AtPost<'_>, after: &Job, solved: &Solution) -> String {
    let unit = after.show.lengths;
    let said = |mm: f64| length::show_with_unit(mm, unit);
    let id = &sight.run.id;
    let mut parts = Vec::new();
    if let (Some(was), Some(is)) = (desk.solution.runs.get(id), solved.runs.get(id)) {
        for (old, new) in was.gates.iter().zip(&is.gates) {
            let (old, new) = (old.far - old.near, new.far - new.near);
            if (old - new).abs() >= OFF {
                parts.push(format!("opening **{}** (was {})", said(new), said(old)));
            }
        }
        let leaves = |solution: &Solution| -> Vec<f64> {
            let boards = solution.boards.get(id);
            let gates = boards.into_iter().flat_map(|boards| &boards.gates);
            gates.map(|leaf| leaf.width).collect()
        };
        for (old, new) in leaves(&desk.solution).into_iter().zip(leaves(solved)) {
            if (old - new).abs() >= OFF {
                parts.push(format!("leaf **{}** (was {})", said(new), said(old)));
            }
        }
        for (old, new) in was.posts.iter().zip(&is.posts) {
            if let (Some(old), Some(bay)) = (old.bay, new.bay)
                && (old - bay).abs() >= OFF
                && !is.gate_after(new.n.saturating_sub(1))
            {
                let before = new.n.saturating_sub(1);
                parts.push(format!(
                    "bay {before} to {} **{}** (was {})",
                    new.n,
                    said(bay),
                    said(old)
                ));
            }
        }
    }
    let mut text = match parts.is_empty() {
        true => "Nothing else changes by as much as a tape shows.".to_owned(),
        false => format!("Everything else is fitted to it: {}.", parts.join(", ")),
    };
    let known = &desk.solution.problems;
    let new = solved.problems.iter();
    for problem in new.filter(|one| known.iter().all(|old| old.text != one.text)) {
        text.push_str(&format!("\n\n**{}** {}", problem.text, problem.remedy));
    }
    text.push_str("\n\nSpacing the bays still to come anew is a choice of its own.");
    text
}
