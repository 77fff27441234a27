//! The posts: running readings from one end of each run, gates, swings.

use super::super::document::{Cell, Column, Section, Table};
use super::{SheetDesk, attention, built, names, number};
use crate::cautions::{BOUNDARY, OPEN_HOLES, SERVICES};
use crate::job::model::{End, Run, Side};
use crate::job::with_kind;
use crate::setout::{GateFix, Post, PostKind, RunFix};

pub fn section(desk: &SheetDesk<'_>) -> Option<Section> {
    if desk.job.runs.is_empty() {
        return None;
    }
    let mut section = Section::new("Mark the posts").across();
    if !desk.solution.runs.is_empty() {
        section.caution(BOUNDARY);
        section.caution(SERVICES);
        section.caution(OPEN_HOLES);
        section.say(attention::tapes_disagree(desk));
        section.say(
            "Pull one tape along the string from each run's zero and take every reading from \
             there; never from post to post.",
        );
    }
    let last = desk.solution.runs.keys().last();
    for run in &desk.job.runs {
        section.heading(names::run(desk.job, &run.id));
        match desk.solution.runs.get(&run.id) {
            Some(fix) => {
                set_out(desk, run, fix, &mut section);
                if last == Some(&run.id) {
                    section.say(meanings(desk));
                }
            }
            None => section.say("Not settled yet: see above."),
        }
    }
    Some(section)
}

fn set_out(desk: &SheetDesk<'_>, run: &Run, fix: &RunFix, section: &mut Section) {
    let zero = end(desk, run.start.as_ref());
    let far = end(desk, run.end.as_ref());
    let to_far = if far.is_empty() {
        String::new()
    } else {
        format!(" to {far}")
    };
    section.say(format!(
        "Along {} from {zero} (the tape's zero){to_far}: {} long. The posts stand on its {}, \
         their faces {}.",
        with_kind("string", run.line.as_str()),
        desk.full_with_pm(fix.length, fix.length_pm),
        side(run.side.unwrap_or(Side::Left)),
        behind(desk, run.gap),
    ));
    section.table(posts(fix));
    let openings = fix.gates.iter().map(|gate| opening(desk, gate));
    let wedges = fix.posts.iter().filter_map(|post| wedge(desk, post));
    section.list(openings.chain(wedges).collect());
    built::add(desk, run, fix, section);
}

fn side(side: Side) -> &'static str {
    match side {
        Side::Left => "left",
        Side::Right => "right",
    }
}

fn behind(desk: &SheetDesk<'_>, gap: f64) -> String {
    if gap.abs() < 0.05 {
        "touching the string".to_owned()
    } else {
        format!("{} behind the string", desk.full(gap))
    }
}

/// What a run starts or ends at.
fn end(desk: &SheetDesk<'_>, end: Option<&End>) -> String {
    let Some(end) = end else {
        return String::new();
    };
    if let Some(wall) = &end.wall {
        return names::wall(desk.job, wall);
    }
    if let Some(corner) = &end.corner {
        return format!("corner {corner}");
    }
    match &end.mark {
        Some(mark) => format!("mark {mark}"),
        None => String::new(),
    }
}

fn kind(kind: PostKind) -> &'static str {
    match kind {
        PostKind::Wall => "wall",
        PostKind::Corner => "corner",
        PostKind::Gate => "gate",
        PostKind::Line => "line",
        PostKind::End => "end",
    }
}

fn posts(fix: &RunFix) -> Table {
    let mut table = Table::new(
        "Running readings from the zero",
        vec![
            Column::left("Post"),
            Column::left("Kind"),
            Column::right("Near face"),
            Column::right("Centre"),
            Column::right("Far face"),
            Column::right("±"),
            Column::right("Bay"),
            Column::right("Clear"),
            Column::right("Centre off string"),
            Column::left("Swing from"),
            Column::right("Tape"),
            Column::left("and from"),
            Column::right("Tape"),
        ],
    );
    for post in &fix.posts {
        let mut row = vec![
            number(post.n),
            Cell::text(kind(post.kind)),
            Cell::Length(post.near),
            Cell::Length(post.centre),
            Cell::Length(post.far),
            Cell::Pm(post.pm),
            Cell::maybe(Cell::Length, post.bay),
            Cell::maybe(Cell::Length, post.clear),
            Cell::Length(post.off),
        ];
        row.extend(swing(post));
        table.rows.push(row);
    }
    table
}

/// What the columns of every run are, once.
fn meanings(desk: &SheetDesk<'_>) -> String {
    let mut said = "Bay: centre to centre from the post before. Clear: face to face.".to_owned();
    let posts = || desk.solution.runs.values().flat_map(|run| &run.posts);
    if posts().any(|post| post.arcs.is_some()) {
        said.push_str(
            " Where the string is in the way, swing two tapes from these marks to the post's centre.",
        );
    }
    if posts().any(|post| post.near <= -0.5) {
        said.push_str(" A reading below 0 is that far before the zero.");
    }
    said
}

/// Two marks and the tapes from them to the post's centre.
fn swing(post: &Post) -> [Cell; 4] {
    match &post.arcs {
        Some([(a, to_a), (b, to_b)]) => [
            Cell::text(a.as_str()),
            Cell::Length(*to_a),
            Cell::text(b.as_str()),
            Cell::Length(*to_b),
        ],
        None => [Cell::Empty, Cell::Empty, Cell::Empty, Cell::Empty],
    }
}

fn opening(desk: &SheetDesk<'_>, gate: &GateFix) -> String {
    format!(
        "Gate opening from {} to {}, {} clear, between posts {} and {}.",
        desk.length(gate.near),
        desk.length(gate.far),
        desk.full(gate.far - gate.near),
        gate.from,
        gate.to
    )
}

/// Under half a millimetre nobody can see it.
fn wedge(desk: &SheetDesk<'_>, post: &Post) -> Option<String> {
    let wedge = post.wedge.filter(|wedge| wedge.abs() >= 0.5)?;
    Some(format!(
        "Post {} stands hard against a wall that is out of square by {} over the post's depth: \
         pack or scribe that wedge.",
        post.n,
        desk.fine(wedge.abs())
    ))
}
