//! What the guide round a corner says and shows.

use super::guide::{Guide, Next, line, sees};
use crate::app::desk::{Desk, Then};
use crate::app::kit::{FormFigure, FormRow, figure, pick, result};
use crate::app::levels::datum::{choose_change_point, choose_datum};
use crate::app::levels::figures::ask;
use crate::app::levels::standing::{in_doubt, step_between};
use crate::app::names::said_down;
use crate::job::model::Setup;
use crate::length;

/// The steps with their figures.
pub fn rows(desk: &Desk, guide: &Guide<'_>) -> Vec<FormRow> {
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
    let from = guide.from;
    rows.push(match guide.datum {
        None => {
            let row = pick("1. Choose the datum", "", |desk| choose_datum(desk, None));
            row.noted("where heights start")
        }
        Some(datum) => {
            let label = format!("1. Datum {datum} from {first}");
            let down = seen(guide.first, datum);
            let tied = guide.first.and_then(|first| line(desk, first)).is_some();
            let to = datum.clone();
            let row = figure(&label, &said(down), move |desk| ask(desk, from, to));
            match down.is_none() && tied {
                true => row.noted("not needed: its line is known by another point"),
                false => row,
            }
        }
    });
    let named = guide.point.map_or("a change point", |point| point.as_str());
    let why = "a fixed point both places see, about as far from either";
    let change = pick("2. Change point", named, move |desk| {
        choose_change_point(desk, from)
    });
    rows.push(change.noted(why));
    if let Some(point) = guide.point {
        let (label, to) = (format!("3. {point} from {first}"), point.clone());
        let down = said(seen(guide.first, point));
        rows.push(figure(&label, &down, move |desk| ask(desk, from, to)));
    }
    if let (Some(point), Some(_)) = (guide.point, guide.second) {
        let (label, to) = (format!("4. {point} again from {second}"), point.clone());
        let down = said(seen(guide.second, point));
        rows.push(figure(&label, &down, move |desk| ask(desk, from + 1, to)));
    }
    rows.extend(single_points(desk, guide));
    rows
}

/// Says where the step from one line to the other comes from.
fn explain(desk: &mut Desk) -> Then {
    desk.explain(
        "How far one line is above the other",
        "From every point that ties the set-ups together, all sights adjusted at once; one more \
         point seen from both, as far from the one as from the other, makes it more certain.",
    )
}

/// What each change point by itself says of the step, where there are several.
fn single_points(desk: &Desk, guide: &Guide<'_>) -> Vec<FormRow> {
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
            let step = length::show(one.step.abs(), unit);
            result(&label, &step, way, explain)
        })
        .collect()
}

/// What to do now, in a sentence.
pub fn what_now(guide: &Guide<'_>, next: &Next) -> String {
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

/// The name of the button that does it.
pub fn button(next: &Next) -> String {
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
pub fn done(desk: &Desk, guide: &Guide<'_>) -> String {
    let unit = desk.job().show.lengths;
    let found = guide.second.and_then(|second| {
        let levels = desk.solution.levels.as_ref()?;
        let (first, _) = levels.setups.first()?;
        let fix = levels.setups.get(&second.id)?;
        Some(step_between(&second.id, first, fix.step, unit))
    });
    let step = found.unwrap_or_else(|| "The step is not known yet".to_owned());
    if in_doubt(desk) {
        return format!(
            "**{step},** but the sights do not agree: Levels says which to take again."
        );
    }
    format!("**{step}.** Measure from its own line, or mark heights from it.")
}

/// How far the later line is above or below the first.
pub fn carried(desk: &Desk, guide: &Guide<'_>) -> Option<FormFigure> {
    let unit = desk.job().show.lengths;
    let levels = desk.solution.levels.as_ref()?;
    let second = guide.second?;
    let (first, _) = levels.setups.first()?;
    let fix = levels.setups.get(&second.id)?;
    let way = if fix.step < 0.0 { "lower" } else { "higher" };
    Some(FormFigure {
        what: format!("Set-up {} against set-up {first}", second.id),
        figure: length::show(fix.step.abs(), unit),
        tail: format!("{way} {}", length::show_pm_with_unit(fix.step_pm, unit)),
        explain: Box::new(explain),
    })
}
