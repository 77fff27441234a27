//! A string that has just been stretched along a wall: on which side, how far off, and its nails, each
//! with what is usual.

use super::string::change_line;
use super::{nail, strings};
use crate::app::adding::onward;
use crate::app::bridge::{FormScreen, Spec};
use crate::app::desk::{Desk, FigureOf, Focus, Then};
use crate::app::kit::{FormButton, FormContents, FormRow, KeypadFigure, choice, pick, small};
use crate::app::names::along;
use crate::app::renaming;
use crate::cautions::{BOUNDARY, STRINGS};
use crate::drawing::{Detail, PlanShow, Seen, Target, Turn, plan};
use crate::job::Job;
use crate::job::edit::{Change, Edit, Thing};
use crate::job::model::{Line, Side, Wall};
use crate::listed::and;
use crate::setout::marks_beside;
use crate::solve;
use tautmark_ui::{Page, PaintedDrawing, Place, Verdict};

/// The page of a new string along a wall.
pub static STRETCH: FormScreen = FormScreen {
    title: |desk| in_sight(desk).map_or_else(String::new, |(line, _)| line.called().to_owned()),
    picture: |desk| {
        let (line, _) = in_sight(desk)?;
        Some(strings(desk, Some(Target::Line(line.id.clone()))))
    },
    ..FormScreen::new(
        Spec::inside(Place::Lines, Page::Stretch, "stretch"),
        contents,
    )
};

fn in_sight(desk: &Desk) -> Option<(&Line, &Wall)> {
    nail::wall_of(desk, desk.chosen.line)
}

fn contents(desk: &Desk) -> FormContents {
    let Some((line, wall)) = in_sight(desk) else {
        let mut bare = FormContents::new(Vec::new());
        bare.primary = Some(FormButton::new("See the strings", |_| Then::Back));
        return bare.saying(Verdict::Note, "**This string is not along a wall.**");
    };
    let at = desk.chosen.line;
    let job = desk.job();
    let mut rows = vec![open_ground(desk, at, line, wall), off(at).row(job)];
    let nails = line.offsets.as_ref().map_or(0, Vec::len);
    rows.extend((0..nails).map(|n| nail::place(at, n).row(job)));
    let thing = Thing::Line(line.id.clone());
    rows.push(pick("Delete this string", "", |desk| {
        renaming::delete(desk, thing, |_, _| Then::Back)
    }));
    let said = format!(
        "**{}**, {}. Its nails hold it so far off the wall.",
        line.called(),
        along(job, line)
    );
    let mut contents = FormContents::new(rows).saying(Verdict::Note, &said);
    contents.cautions = &[BOUNDARY, STRINGS];
    let next = onward::said(desk);
    contents.primary = Some(match next.is_empty() {
        true => FormButton::new("See the string", |_| Then::Open(Page::Line)),
        false => FormButton::new(next, onward::go),
    });
    contents
}

/// Which side of the wall is open ground, with a picture of either.
fn open_ground(desk: &Desk, at: usize, line: &Line, wall: &Wall) -> FormRow {
    let sides = [Side::Left, Side::Right];
    let names = sides.map(|side| (side_said(desk, wall, side), side));
    let label = "Open ground, where the fence goes";
    let pictures = sides.map(|side| picture(desk.job(), at, side));
    let row = choice(label, names, line.side, |desk, side| {
        change_line(desk, |line| line.side = Some(side))
    });
    row.pictured(pictures.to_vec())
}

/// A side by the marks that are there, as a person on site sees it.
fn side_said(desk: &Desk, wall: &Wall, side: Side) -> String {
    let marks = &desk.solution.marks;
    let there = marks_beside(marks, wall, side);
    match there.as_slice() {
        [] if marks_beside(marks, wall, side.other()).is_empty() => match side {
            Side::Left => format!("Left, {} to {}", wall.from, wall.to),
            Side::Right => format!("Right, {} to {}", wall.from, wall.to),
        },
        [] => "The other side".to_owned(),
        [only] => format!("Where {only} is"),
        several => {
            let names: Vec<String> = several.iter().take(3).map(ToString::to_string).collect();
            format!("Where {} are", and(&names))
        }
    }
}

/// The plan with the string on this side: the wall is hatched on the other.
fn picture(job: &Job, at: usize, side: Side) -> PaintedDrawing {
    let mut job = job.clone();
    if let Some(line) = job.lines.get_mut(at) {
        line.side = Some(side);
    }
    let chosen = job.lines.get(at).map(|line| Target::Line(line.id.clone()));
    let show = PlanShow {
        turn: Turn::Along([104.0, 76.0]),
        detail: Detail::Small,
        readings: Seen::Hidden,
        posts: Seen::Hidden,
        chosen,
        ..PlanShow::default()
    };
    small(&plan(&job, &solve(&job), &show))
}

/// How far off the wall the string is, at each of its nails.
fn off(at: usize) -> KeypadFigure {
    let label = "String off the wall";
    KeypadFigure::new(
        label,
        move |job: &Job| job.lines.get(at)?.offsets.as_ref()?.first()?.off,
        move |job, mm| {
            let mut value = job.lines.get(at)?.clone();
            for nail in value.offsets.iter_mut().flatten() {
                nail.off = Some(mm);
            }
            Some(Edit::Line(Change::Replace { at, value }))
        },
    )
    .of(FigureOf::Nail(at, 0))
    .titled(move |job| {
        let line = job.lines.get(at).map(Line::called).unwrap_or_default();
        format!("{line}, **{label}**")
    })
    .noted("Square off its face: enough for the posts to pass what sticks out.")
    .stressing(Focus::Line(at))
}
