//! Carry round a corner: sight the datum, sight a change point, move the laser, sight the change
//! point again.

use super::form::{Form, FormContents, FormFigure, figure, pick, result};
use super::level_menus::{add_setup, choose_change_point, choose_datum};
use super::level_names::said_down;
use super::level_status::step_between;
use super::sight::ask;
use super::{Desk, Then, caution, heights};
use crate::cautions::LASER;
use crate::job::PointId;
use crate::job::model::{Job, Setup};
use crate::length;
use crate::levels::SetupFix;
use tautmark_ui::{Field as Row, Verdict};

/// The page of the guide. It goes from the set-up in sight to the one after it.
pub(super) struct Carry;

/// What is to be done next.
enum Next {
    ChooseDatum,
    SetUp,
    SightDatum(PointId),
    ChoosePoint,
    Sight(PointId),
    Move,
    SightAgain(PointId),
    Done,
}

/// Where the guide stands.
struct Guide<'a> {
    from: usize,
    first: Option<&'a Setup>,
    second: Option<&'a Setup>,
    datum: Option<&'a PointId>,
    /// The point that carries the level, once one is sighted from the first set-up.
    point: Option<&'a PointId>,
}

fn sees(setup: &Setup, point: &PointId) -> Option<f64> {
    let sights = setup.sights.iter();
    let sight = sights
        .filter(|sight| sight.used)
        .find(|sight| sight.point == *point);
    sight?.down
}

impl<'a> Guide<'a> {
    fn of(desk: &'a Desk) -> Self {
        let levels = &desk.job().levels;
        let from = desk.chosen.setup.min(levels.setups.len().saturating_sub(1));
        let first = levels.setups.get(from);
        let second = levels.setups.get(from + 1);
        let datum = levels.datum.as_ref().map(|datum| &datum.point);
        let point = first.and_then(|first| change_point(desk.job(), first, second, datum));
        Self {
            from,
            first,
            second,
            datum,
            point,
        }
    }

    fn next(&self, desk: &Desk) -> Next {
        let Some(datum) = self.datum else {
            return Next::ChooseDatum;
        };
        let Some(first) = self.first else {
            return Next::SetUp;
        };
        if line(desk, first).is_none() && sees(first, datum).is_none() {
            return Next::SightDatum(datum.clone());
        }
        let Some(point) = self.point else {
            // The datum alone may be seen from both.
            let carried = self.second.and_then(|second| line(desk, second));
            return carried.map_or(Next::ChoosePoint, |_| Next::Done);
        };
        if sees(first, point).is_none() {
            return Next::Sight(point.clone());
        }
        match self.second {
            None => Next::Move,
            Some(second) if sees(second, point).is_none() => Next::SightAgain(point.clone()),
            Some(_) => Next::Done,
        }
    }
}

fn line<'a>(desk: &'a Desk, setup: &Setup) -> Option<&'a SetupFix> {
    desk.solution.levels.as_ref()?.setups.get(&setup.id)
}

/// A point that both set-ups see; else the last that the first one saw besides the datum, a free
/// one rather than one that stands on a run.
fn change_point<'a>(
    job: &'a Job,
    first: &'a Setup,
    second: Option<&Setup>,
    datum: Option<&PointId>,
) -> Option<&'a PointId> {
    let points = first.sights.iter().rev().map(|sight| &sight.point);
    let points: Vec<&PointId> = points.filter(|point| Some(*point) != datum).collect();
    let best = |points: &[&'a PointId]| {
        let free = points.iter().find(|point| is_free(job, point));
        free.or(points.first()).copied()
    };
    let shared = second.and_then(|second| {
        let both = points.iter().filter(|point| sees(second, point).is_some());
        best(&both.copied().collect::<Vec<_>>())
    });
    shared.or_else(|| best(&points))
}

fn is_free(job: &Job, id: &PointId) -> bool {
    let point = job.levels.points.iter().find(|point| point.id == *id);
    point.is_none_or(|point| point.run.is_none() && point.mark.is_none())
}

impl Form for Carry {
    fn contents(&self, desk: &Desk) -> FormContents {
        let guide = Guide::of(desk);
        let next = guide.next(desk);
        let mut contents = FormContents::new("Carry round a corner", rows(desk, &guide));
        contents = match &next {
            Next::Done => contents.saying(Verdict::Good, &done(desk, &guide)),
            _ => contents.saying(Verdict::Note, &what_now(&guide, &next)),
        };
        contents.figure = carried(desk, &guide);
        contents.caution = LASER.short.to_owned();
        contents.primary = button(&next);
        if matches!(next, Next::Done) {
            contents.secondary = "Next corner".to_owned();
        }
        contents
    }

    fn pressed(&self, desk: &mut Desk, id: &str) -> Then {
        let guide = Guide::of(desk);
        let from = guide.from;
        let (datum, point) = (guide.datum.cloned(), guide.point.cloned());
        match (id, datum, point) {
            ("datum", Some(datum), _) => ask(desk, from, datum),
            ("datum", None, _) => choose_datum(desk),
            ("first", _, Some(point)) => ask(desk, from, point),
            ("second", _, Some(point)) => ask(desk, from + 1, point),
            ("point", ..) => choose_change_point(desk, from),
            _ => self.figure_asked(desk),
        }
    }

    fn figure_asked(&self, desk: &mut Desk) -> Then {
        desk.explain(
            "How far one line is above the other",
            "From every point that ties the set-ups together, all sights adjusted at once; one \
             more point seen from both, as far from the one as from the other, makes it surer.",
        );
        Then::Stay
    }

    fn caution_pressed(&self, desk: &mut Desk) -> Then {
        caution::open(desk, &LASER)
    }

    fn primary(&self, desk: &mut Desk) -> Then {
        let guide = Guide::of(desk);
        let from = guide.from;
        match guide.next(desk) {
            Next::ChooseDatum => choose_datum(desk),
            Next::SetUp => {
                add_setup(desk);
                Then::Stay
            }
            Next::SightDatum(point) | Next::Sight(point) => ask(desk, from, point),
            Next::ChoosePoint => choose_change_point(desk, from),
            Next::Move => {
                // The guide goes on from the set-up before the new one.
                if add_setup(desk) {
                    desk.chosen.setup = from;
                }
                Then::Stay
            }
            Next::SightAgain(point) => ask(desk, from + 1, point),
            Next::Done => heights::start_from(desk, from + 1),
        }
    }

    fn secondary(&self, desk: &mut Desk) -> Then {
        desk.chosen.setup = Guide::of(desk).from + 1;
        Then::Stay
    }
}

fn rows(desk: &Desk, guide: &Guide<'_>) -> Vec<Row> {
    let unit = desk.job().show.lengths;
    let said = |down: Option<f64>| down.map_or_else(|| "—".to_owned(), |mm| said_down(mm, unit));
    let name = |setup: Option<&Setup>, usual: &str| {
        setup.map_or_else(|| usual.to_owned(), |setup| format!("set-up {}", setup.id))
    };
    let (first, second) = (
        name(guide.first, "the set-up"),
        name(guide.second, "the new place"),
    );
    let mut rows = Vec::new();
    let seen = |setup: Option<&Setup>, point| setup.and_then(|setup| sees(setup, point));
    match guide.datum {
        None => rows.push(pick(
            "datum",
            "1. Choose the datum",
            "where heights start",
            "",
        )),
        Some(datum) => {
            let label = format!("1. Datum {datum} from {first}");
            let down = seen(guide.first, datum);
            let tied = guide.first.and_then(|first| line(desk, first)).is_some();
            let note = if down.is_none() && tied {
                "not needed: its line is known by another point"
            } else {
                ""
            };
            rows.push(figure("datum", &label, note, &said(down)));
        }
    }
    let named = guide.point.map_or("a change point", |point| point.as_str());
    let why = "a fixed point both places see, about as far from either";
    rows.push(pick("point", "2. Change point", why, named));
    if let Some(point) = guide.point {
        let label = format!("3. {point} from {first}");
        rows.push(figure("first", &label, "", &said(seen(guide.first, point))));
        if guide.second.is_some() {
            let label = format!("4. {point} again from {second}");
            rows.push(figure(
                "second",
                &label,
                "",
                &said(seen(guide.second, point)),
            ));
        }
    }
    rows.extend(single_points(desk, guide));
    rows
}

/// What each change point by itself says of the step, where there are several.
fn single_points(desk: &Desk, guide: &Guide<'_>) -> Vec<Row> {
    let (Some(levels), Some(first), Some(second)) =
        (&desk.solution.levels, guide.first, guide.second)
    else {
        return Vec::new();
    };
    let unit = desk.job().show.lengths;
    let changes = levels.changes.iter();
    let changes = changes.filter(|one| one.from == first.id && one.to == second.id);
    changes
        .map(|one| {
            let label = format!("By {} alone", one.point);
            let way = if one.step < 0.0 { "lower" } else { "higher" };
            result(
                &format!("by {}", one.point),
                &label,
                "",
                &length::show(one.step.abs(), unit),
                way,
            )
        })
        .collect()
}

fn what_now(guide: &Guide<'_>, next: &Next) -> String {
    let first = guide.first.map_or("", |setup| setup.id.as_str());
    let second = guide.second.map_or("", |setup| setup.id.as_str());
    match next {
        Next::ChooseDatum => "**Choose the datum:** a mark that will not move.".to_owned(),
        Next::SetUp => "**Set the laser up** where it sees the datum.".to_owned(),
        Next::SightDatum(point) => format!("**Sight {point} from set-up {first}.**"),
        Next::ChoosePoint => {
            "**Choose a change point** that both places will see, about midway.".to_owned()
        }
        Next::Sight(point) => format!("**Sight {point} from set-up {first},** before it is moved."),
        Next::Move => "**Move the laser round the corner** to where it still sees the change \
                       point, about as far from it."
            .to_owned(),
        Next::SightAgain(point) => format!("**Sight {point} again from set-up {second}.**"),
        Next::Done => String::new(),
    }
}

fn button(next: &Next) -> String {
    match next {
        Next::ChooseDatum => "Choose the datum".to_owned(),
        Next::SetUp => "The laser is set up".to_owned(),
        Next::SightDatum(point) | Next::Sight(point) => format!("Sight {point}"),
        Next::ChoosePoint => "Choose a point".to_owned(),
        Next::Move => "The laser is moved".to_owned(),
        Next::SightAgain(point) => format!("Sight {point} again"),
        Next::Done => "Mark heights".to_owned(),
    }
}

/// The step from the first set-up of the job, as the levels have it.
fn done(desk: &Desk, guide: &Guide<'_>) -> String {
    let unit = desk.job().show.lengths;
    let found = guide.second.and_then(|second| {
        let levels = desk.solution.levels.as_ref()?;
        let (first, _) = levels.setups.first()?;
        let fix = levels.setups.get(&second.id)?;
        Some(step_between(&second.id, first, fix.step, unit))
    });
    let step = found.unwrap_or_else(|| "The step is not known yet".to_owned());
    format!("**{step}.** Measure from its own line, or mark heights from it.")
}

fn carried(desk: &Desk, guide: &Guide<'_>) -> Option<FormFigure> {
    let unit = desk.job().show.lengths;
    let levels = desk.solution.levels.as_ref()?;
    let second = guide.second?;
    let (first, _) = levels.setups.first()?;
    let fix = levels.setups.get(&second.id)?;
    let way = if fix.step < 0.0 { "lower" } else { "higher" };
    Some(FormFigure {
        what: format!("Set-up {} against set-up {first}", second.id),
        figure: length::show(fix.step.abs(), unit),
        tail: format!("{way} {}", length::show_pm(fix.step_pm, unit)),
    })
}
