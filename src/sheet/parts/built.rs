//! Posts as built: what was measured, whether it is in tolerance, and which way to move.

use super::super::document::{Cell, Column, Section, Table};
use super::super::phrase::count;
use super::{SheetDesk, number};
use crate::job::model::{Marked, Run};
use crate::setout::RunFix;

/// Adds the run's posts marked as done, if there are any.
pub fn add(desk: &SheetDesk<'_>, run: &Run, fix: &RunFix, section: &mut Section) {
    let marked: Vec<&Marked> = desk.job.marked.iter().filter(|m| m.run == run.id).collect();
    if marked.is_empty() {
        return;
    }
    let done = marked.iter().filter(|marked| marked.done).count();
    let left = fix.posts.len().saturating_sub(done);
    let left = match left {
        0 => "All posts of this run are marked as done.".to_owned(),
        n => format!("{} done, {n} to go.", count(done, "post")),
    };
    section.say(left);
    section.table(table(desk, fix, &marked));
}

fn table(desk: &SheetDesk<'_>, fix: &RunFix, marked: &[&Marked]) -> Table {
    let mut table = Table::new(
        "As built, post centres",
        vec![
            Column::left("Post"),
            Column::right("Should be"),
            Column::right("Built"),
            Column::right("Out by"),
            Column::right("Off string, should be"),
            Column::right("Built"),
            Column::right("Out by"),
            Column::left("What to do"),
        ],
    );
    for marked in marked {
        let found = fix.posts.iter().find(|post| post.n == marked.post as usize);
        let Some(post) = found else { continue };
        let along = marked.measured.map(|built| built - post.centre);
        let across = marked.off.map(|built| built - post.off);
        table.rows.push(vec![
            number(post.n),
            Cell::maybe(Cell::Length, along.map(|_| post.centre)),
            Cell::maybe(Cell::Length, marked.measured),
            Cell::maybe(Cell::Signed, along),
            Cell::maybe(Cell::Length, across.map(|_| post.off)),
            Cell::maybe(Cell::Length, marked.off),
            Cell::maybe(Cell::Signed, across),
            Cell::text(if post.kept {
                "Kept where it stands; the rest is fitted to it".to_owned()
            } else {
                verdict(desk, along, across)
            }),
        ]);
    }
    table.note = format!(
        "Tolerance {} either way.",
        desk.full(desk.job.tolerance.length)
    );
    table
}

/// What a post as built asks for.
fn verdict(desk: &SheetDesk<'_>, along: Option<f64>, across: Option<f64>) -> String {
    let tolerance = desk.job.tolerance.length;
    let over = |out: Option<f64>| out.filter(|out| out.abs() > tolerance);
    let mut moves = Vec::new();
    if let Some(out) = over(along) {
        let way = if out > 0.0 { "start" } else { "end" };
        moves.push(format!(
            "{} towards the run's {way}",
            desk.length(out.abs())
        ));
    }
    if let Some(out) = over(across) {
        let way = if out > 0.0 { "nearer" } else { "further from" };
        moves.push(format!("{} {way} the string", desk.length(out.abs())));
    }
    match (moves.is_empty(), along.or(across)) {
        (false, _) => format!("Out: move it {}", moves.join(" and ")),
        (true, Some(_)) => "In tolerance".to_owned(),
        (true, None) => "Done, not measured".to_owned(),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn says_which_way_to_move() {
        let job = crate::job::example();
        let solution = crate::solve(&job);
        let desk = SheetDesk::new(&job, &solution);
        for (along, across, words) in [
            (Some(4.9), None, "In tolerance"),
            (Some(7.0), None, "Out: move it 7 towards the run's start"),
            (
                Some(-7.0),
                Some(2.0),
                "Out: move it 7 towards the run's end",
            ),
            (
                Some(0.0),
                Some(-6.0),
                "Out: move it 6 further from the string",
            ),
            (None, None, "Done, not measured"),
        ] {
            assert_eq!(verdict(&desk, along, across), words);
        }
    }
}
