//! Levels: how high. A person sights points from the laser, carries the level round corners, sees
//! whether it closes, and marks heights on the posts.

pub mod carry;
mod cure;
mod datum;
mod figures;
mod ground;
pub mod heights;
mod menus;
mod points;
mod sights;
mod standing;

use crate::app::bridge::{Bridge, PagePicture, Screen, Spec};
use crate::app::desk::{Desk, Rows, Then, caution};
use crate::app::kit::{counted, patched, plan_of_run, row};
use crate::app::laser;
use crate::app::names::{place_of, said_down};
use crate::cautions::LASER;
use crate::drawing;
use crate::job::model::{Point, Setup};
use crate::job::{PointId, Severity};
use crate::length;
use crate::listed::and;
use slint::Global;
use standing::{problems, sight_note, standing};
use std::rc::Rc;
use tautmark_ui::{App, LevelsVm, Page, Place, RowItem, Verdict};

/// The place.
pub struct LevelsPlace;

impl Screen for LevelsPlace {
    fn spec(&self) -> Spec {
        Spec::place(Place::Levels, Page::Levels, "levels")
    }

    fn wire(&self, app: &App, bridge: &Rc<Bridge>) {
        let vm = LevelsVm::get(app);
        vm.on_row_pressed(bridge.does_with(|desk, id| rows(desk).press(desk, id)));
        vm.on_caution_pressed(bridge.does(|desk| caution::open(desk, &[LASER])));
        vm.on_carry(bridge.does(|desk| {
            caution::once(desk, &[LASER]);
            Then::Open(Page::Carry)
        }));
        vm.on_add_sight(bridge.does(menus::add_sight));
        vm.on_mark_heights(bridge.does(heights::start));
    }

    fn fill(&self, app: &App, desk: &Desk) -> bool {
        let vm = LevelsVm::get(app);
        vm.set_status(standing(desk));
        vm.set_rows(patched(vm.get_rows(), rows(desk).items()));
        vm.set_caution(caution::line(&[LASER]));
        vm.set_can_mark(heights::first_to_mark(desk).is_some());
        false
    }

    fn picture(&self, desk: &Desk) -> Option<PagePicture> {
        Some(levelled(desk))
    }
}

/// The set-ups and what they sight, side by side; the plan until a height is known.
fn levelled(desk: &Desk) -> PagePicture {
    let own = drawing::levels(desk.job(), &desk.solution, desk.view.aspect());
    PagePicture::or(own, || PagePicture::Drawing(plan_of_run(desk, |_| {})))
}

fn rows(desk: &Desk) -> Rows {
    let levels = &desk.job().levels;
    let mut rows = Rows::default();
    cure::cures(desk, &mut rows);
    rows.push(datum_row(desk), datum::datum);
    for (at, setup) in levels.setups.iter().enumerate() {
        let selected = at == desk.chosen.setup;
        rows.push(setup_row(desk, setup, selected), move |desk| {
            if selected {
                return menus::setup(desk, at);
            }
            desk.chosen.setup = at;
            Then::Stay
        });
        let sights = 0..setup.sights.len();
        for sight in sights.filter(|_| selected) {
            if let Some(row) = sight_row(desk, at, sight) {
                rows.push(row, move |desk| menus::sight(desk, at, sight));
            }
        }
    }
    let new = if levels.setups.is_empty() {
        "First set-up"
    } else {
        "New set-up"
    };
    let why = "wherever the laser is put down";
    rows.push(row("", new, why, "", ""), menus::new_setup);
    for point in &levels.points {
        let id = point.id.clone();
        rows.push(point_row(desk, point), |desk| menus::point(desk, id));
    }
    let checked = laser::found(desk).unwrap_or_else(|| "not checked here yet".to_owned());
    let check = row("", "Is the laser true?", &checked, "Check it", "");
    rows.push(check, |desk| {
        caution::once(desk, &[LASER]);
        Then::Open(Page::Laser)
    });
    for problem in problems(desk).filter(|problem| problem.severity == Severity::Note) {
        let note = row("", &problem.text, &problem.remedy, "", "");
        let verdict = Verdict::Attention;
        rows.push(RowItem { verdict, ..note }, |_| Then::Stay);
    }
    rows
}

fn datum_row(desk: &Desk) -> RowItem {
    let job = desk.job();
    let Some(datum) = &job.levels.datum else {
        let note = "the point that every height is counted from";
        return row("", "Choose the datum", note, "", "");
    };
    let figure = length::show(datum.height, job.show.lengths);
    let title = format!("Datum, {}", datum.point);
    row("", &title, "heights are counted from here", &figure, "held")
}

fn setup_row(desk: &Desk, setup: &Setup, selected: bool) -> RowItem {
    let unit = desk.job().show.lengths;
    let title = format!("Set-up {}", setup.id);
    let sights = counted(setup.sights.len(), "sight", "sights");
    let levels = desk.solution.levels.as_ref();
    let fix = levels.and_then(|levels| levels.setups.get(&setup.id));
    let (note, figure, tail) = match fix {
        Some(fix) => (
            format!("{sights} · {}", tied(desk, setup)),
            length::show(fix.line, unit),
            length::show_pm_with_unit(fix.pm, unit),
        ),
        None => (
            format!("{sights} · not tied to the datum yet"),
            "—".to_owned(),
            String::new(),
        ),
    };
    let verdict = match fix {
        Some(_) => Verdict::None,
        None => Verdict::Attention,
    };
    RowItem {
        strong: true,
        selected,
        verdict,
        ..row("", &title, &note, &figure, &tail)
    }
}

/// What ties a set-up to those before it, or its line above the datum.
fn tied(desk: &Desk, setup: &Setup) -> String {
    let Some(levels) = &desk.solution.levels else {
        return String::new();
    };
    let mut by: Vec<String> = Vec::new();
    for change in levels.changes.iter().filter(|one| one.to == setup.id) {
        let point = change.point.to_string();
        if !by.contains(&point) {
            by.push(point);
        }
    }
    match by.as_slice() {
        [] => "line above the datum's zero".to_owned(),
        several => format!("by {}", and(several)),
    }
}

fn sight_row(desk: &Desk, setup: usize, at: usize) -> Option<RowItem> {
    let sight = sights::sight(desk.job(), setup, at)?;
    let (note, verdict) = sight_note(desk, setup, at);
    let unit = desk.job().show.lengths;
    let said = sight.down.map(|down| said_down(down, unit));
    let (figure, way) = said
        .as_deref()
        .and_then(|said| said.rsplit_once(' '))
        .unwrap_or(("—", ""));
    let title = format!("Sight of {}", sight.point);
    Some(RowItem {
        verdict,
        left_out: !sight.used,
        ..row("", &title, &note, figure, way)
    })
}

fn point_row(desk: &Desk, point: &Point) -> RowItem {
    let job = desk.job();
    let unit = job.show.lengths;
    let from = sighted_from(desk, &point.id);
    let place = place_of(job, point);
    let title = match (place.is_empty(), from.len()) {
        (false, _) => place,
        (true, 0 | 1) => "point".to_owned(),
        (true, _) => "change point".to_owned(),
    };
    let note = match from.as_slice() {
        [] => "not sighted yet".to_owned(),
        [only] => format!("from set-up {only}"),
        many => format!("from set-ups {}", many.join(", ")),
    };
    let fix = desk.solution.levels.as_ref();
    let fix = fix.and_then(|levels| levels.points.get(&point.id));
    let (figure, tail) = fix.map_or_else(
        || ("—".to_owned(), String::new()),
        |fix| {
            let height = length::show(fix.height, unit);
            let pm = if fix.pm > 0.0 {
                length::show_pm_with_unit(fix.pm, unit)
            } else {
                "held".to_owned()
            };
            (height, pm)
        },
    );
    let verdict = match fix {
        Some(_) => Verdict::None,
        None => Verdict::Attention,
    };
    RowItem {
        lead: point.id.as_str().into(),
        verdict,
        ..row("", &title, &note, &figure, &tail)
    }
}

fn sighted_from<'a>(desk: &'a Desk, point: &PointId) -> Vec<&'a str> {
    let setups = desk.job().levels.setups.iter();
    setups
        .filter(|setup| setup.sights.iter().any(|sight| sight.point == *point))
        .map(|setup| setup.id.as_str())
        .collect()
}
