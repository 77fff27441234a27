//! What the notches leave of the posts.

use super::SheetDesk;
use crate::boards::NotchFix;
use crate::listed::and;

/// What the notches leave, runs with the same posts together.
pub fn list(desk: &SheetDesk<'_>) -> Vec<String> {
    let mut alike: Vec<(Vec<String>, &NotchFix)> = Vec::new();
    for (id, boards) in &desk.solution.boards {
        let Some(notch) = &boards.notch else { continue };
        let same = alike
            .iter_mut()
            .find(|(_, one)| one.depth == notch.depth && one.notch == notch.notch);
        match same {
            Some((runs, _)) => runs.push(id.to_string()),
            None => alike.push((vec![id.to_string()], notch)),
        }
    }
    let line = |(runs, notch): (Vec<String>, &NotchFix)| {
        format!(
            "{} {}: a notch {} deep in a {} post leaves {} of its bending strength and {} of its \
             section; a mortise of that size in the middle leaves {} in bending.",
            if runs.len() == 1 { "Run" } else { "Runs" },
            and(&runs),
            desk.length(notch.notch),
            desk.full(notch.depth),
            percent(notch.bending),
            percent(notch.section),
            percent(notch.mortised)
        )
    };
    alike.into_iter().map(line).collect()
}

/// One decimal where a whole percentage would say all.
fn percent(share: f64) -> String {
    let percent = share * 100.0;
    if percent < 100.0 && percent.round() >= 100.0 {
        format!("{percent:.1}\u{a0}%")
    } else {
        format!("{percent:.0}\u{a0}%")
    }
}
