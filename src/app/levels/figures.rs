//! Sights and their distances, as they are typed.

use super::sights::{add_sight, sight, sight_fix, with_sight};
use super::standing::doubt;
use crate::adjust::CHECKED;
use crate::app::desk::{Desk, FigureKind, FigureOf, Then};
use crate::app::kit::{KeypadFigure, problem_in, status};
use crate::app::names::{point_place, said_down};
use crate::job::model::Job;
use crate::job::{PointId, Severity};
use tautmark_ui::{KeySigns, Status, Verdict};

/// Asks for a sight of this point from this set-up: for the figure it has, or for a new one.
pub fn ask(desk: &mut Desk, setup: usize, point: PointId) -> Then {
    let there = desk.saved().levels.setups.get(setup).and_then(|setup| {
        let sights = &setup.sights;
        sights.iter().position(|sight| sight.point == point)
    });
    desk.ask(match there {
        Some(at) => sight_down(setup, at),
        None => new_sight(setup, point),
    })
}

fn setup_name(job: &Job, setup: usize) -> String {
    let setup = job.levels.setups.get(setup);
    setup.map(|setup| setup.id.to_string()).unwrap_or_default()
}

fn sight_title(job: &Job, setup: usize, point: &PointId) -> String {
    format!("**{point}** from set-up **{}**", setup_name(job, setup))
}

/// How to take a sight, where nothing has been typed yet.
fn how(desk: &Desk, point: &PointId) -> String {
    let place = point_place(desk.job(), point);
    let place = if place.is_empty() {
        String::new()
    } else {
        format!(" ({place})")
    };
    format!(
        "Measure from the laser line to {point}{place}. **Down** where the point is below the line."
    )
}

/// Whether a sight fits the others.
fn fits(desk: &Desk, setup: usize, at: usize) -> Option<Status> {
    let unit = desk.job().show.lengths;
    let Some(fix) = sight_fix(desk, setup, at) else {
        let place = format!("levels.setups[{setup}].sights[{at}]");
        return problem_in(desk, &place, Severity::Note);
    };
    if fix.suspect.is_none() && fix.redundancy <= CHECKED {
        return Some(status(Verdict::Note, "Nothing checks this sight yet."));
    }
    if let Some(doubt) = doubt(desk, fix) {
        return Some(doubt);
    }
    let down = sight(desk.job(), setup, at)?.down?;
    let text = format!(
        "It fits the other sights: together they make it **{}**.",
        said_down(down + fix.residual, unit)
    );
    Some(status(Verdict::Good, &text))
}

/// A figure down from a set-up's line: on the keys, up is positive.
pub fn down(figure: KeypadFigure) -> KeypadFigure {
    figure
        .of_kind(FigureKind::Signed(KeySigns::UpDown))
        .negative_at_first()
}

/// How far a point is down from a set-up's line: a sight that is in the list. Its distance comes next
/// where that is missing, else the next sight of the set-up without a figure.
pub fn sight_down(setup: usize, at: usize) -> KeypadFigure {
    let there = move |job: &Job| sight(job, setup, at)?.down.map(|down| -down);
    let figure = KeypadFigure::new("sight", there, move |job, value| {
        with_sight(job, setup, at, |sight| sight.down = Some(-value))
    });
    down(figure)
        .of(FigureOf::Sight(setup, at))
        .titled(move |job| {
            let sight = sight(job, setup, at);
            sight.map_or_else(String::new, |sight| sight_title(job, setup, &sight.point))
        })
        .hinted(move |desk| {
            let sight = sight(desk.job(), setup, at);
            sight.map_or_else(String::new, |sight| how(desk, &sight.point))
        })
        .judged(move |desk, _| fits(desk, setup, at))
        .progress(move |job| Some((at + 1, job.levels.setups.get(setup)?.sights.len())))
        .then(move |job| match sight(job, setup, at)?.dist {
            None => Some(sight_dist(setup, at)),
            Some(_) => next_missing(job, setup),
        })
}

fn next_missing(job: &Job, setup: usize) -> Option<KeypadFigure> {
    let mut sights = job.levels.setups.get(setup)?.sights.iter();
    let at = sights.position(|sight| sight.used && sight.down.is_none())?;
    Some(sight_down(setup, at))
}

/// The same for a point that has not been sighted from this set-up yet.
pub fn new_sight(setup: usize, point: PointId) -> KeypadFigure {
    // Where it stands once it has been entered: last of its set-up.
    let sighted = point.clone();
    let entered = move |job: &Job| {
        let sights = &job.levels.setups.get(setup)?.sights;
        let at = sights.len().checked_sub(1)?;
        (sights.get(at)?.point == sighted).then_some(at)
    };
    let new = point.clone();
    let figure = KeypadFigure::new(
        format!("new sight of {point}"),
        |_| None,
        move |job, value| add_sight(job, setup, new.clone(), -value),
    );
    let (named, to, there) = (point.clone(), point, entered.clone());
    down(figure)
        .of(FigureOf::Setup(setup))
        .titled(move |job| sight_title(job, setup, &named))
        .hinted(move |desk| how(desk, &to))
        .judged(move |desk, _| fits(desk, setup, entered(desk.job())?))
        .then(move |job| Some(sight_dist(setup, there(job)?)))
}

/// How far away the laser stood.
pub fn sight_dist(setup: usize, at: usize) -> KeypadFigure {
    let there = move |job: &Job| sight(job, setup, at)?.dist;
    let figure = KeypadFigure::new("distance", there, move |job, value| {
        with_sight(job, setup, at, |sight| sight.dist = Some(value))
    });
    figure
        .of(FigureOf::Sight(setup, at))
        .titled(move |job| {
            let sight = sight(job, setup, at);
            sight.map_or_else(String::new, |sight| {
                let from = setup_name(job, setup);
                format!("Distance of **{}** from set-up **{from}**", sight.point)
            })
        })
        .hinted(|_| {
            "How far off the laser stands, paced or taped: **the ± follows from it.** Go on \
             without, and 5 m is taken."
                .to_owned()
        })
        .judged(move |desk, _| fits(desk, setup, at))
        .then(move |job| next_missing(job, setup))
}
