//! Quick: one figure now, without a job. A list of sums in the order of the work, and one page on
//! which each is typed, drawn and answered.
//!
//! ```text
//!   Jobs ──▶ index ──▶ sum ──▶ keypad      every sum is a description (`Sum`): what it asks
//!               ▲        │                 for, what comes of it, its picture, what is kept
//!               └────────┘
//! ```

mod boards;
mod corners;
mod falls;
mod figure;
mod gates;
mod given;
mod holes;
mod keep;
mod lasers;
mod levels;
mod points;
mod screens;
mod settings;
mod spaces;
mod square;
mod sum;
mod tapes;

use crate::app::bridge::Bridge;
use crate::app::bridge::form::FormPage;
use crate::app::desk::{Desk, Then, caution};
use crate::app::kit::fields as form;
use crate::app::kit::fields::{FormContents, FormFigure, heading, pick, result};
use crate::app::kit::rows::patched;
use crate::drawing::Drawing;
use given::Given;
use slint::Global;
use std::rc::Rc;
use sum::{Answer, Input, Kind, Need, Refused, Stage, Sum, Worked};
use tautmark_ui::{App, Field as Row, JobsVm, Page, QuickRow, Verdict};

/// Every sum, in the order of the work.
static SUMS: [&Sum; 25] = [
    &corners::BY_TAPES,
    &square::SIX_TAPES,
    &points::BY_TAPES,
    &points::TAPES_TO,
    &tapes::SLOPE,
    &tapes::SAG,
    &tapes::TWO_TAPES,
    &corners::ACROSS,
    &corners::TURN,
    &square::DIAGONAL,
    &spaces::BAYS,
    &spaces::GAPS,
    &holes::CONCRETE,
    &levels::CARRY,
    &lasers::TWO_PEGS,
    &lasers::TURN_ABOUT,
    &levels::SPIRIT,
    &falls::STEP,
    &falls::RAIL,
    &corners::MITRE,
    &boards::PALES,
    &boards::NOTCH,
    &gates::LEAF,
    &gates::SWING,
    &gates::LOCK,
];

/// Those that have a button of their own under the jobs.
const FIRST: [&str; 5] = ["corner", "point", "bays", "carry", "laser"];
const ALL: &str = "all";

impl Desk {
    /// Looks at the quick sum of that name.
    pub fn look_at_quick(&mut self, id: &str) {
        if let Some(sum) = by_id(id) {
            self.quick.sum = sum.id.to_owned();
            self.view.whole();
        }
    }
}

fn by_id(id: &str) -> Option<&'static Sum> {
    SUMS.iter().copied().find(|sum| sum.id == id)
}

fn in_sight(desk: &Desk) -> &'static Sum {
    by_id(&desk.quick.sum).unwrap_or(&corners::BY_TAPES)
}

/// The picture of the sum in sight.
fn drawing(desk: &Desk) -> Drawing {
    let sum = in_sight(desk);
    (sum.picture)(&Given::of(desk, sum))
}

/// The pegs and both places of the laser, with the figures of its check on this desk.
fn laser_check(desk: &Desk) -> Drawing {
    let sum = &lasers::TWO_PEGS;
    (sum.picture)(&Given::of(desk, sum))
}

fn wire(app: &App, bridge: &Rc<Bridge>) {
    JobsVm::get(app).on_quick_pressed(bridge.does_with(|desk, id| {
        desk.look_at_quick(id);
        Then::Open(if id == ALL { Page::Sums } else { Page::Quick })
    }));
}

/// The sums that have a button under the jobs.
fn buttons(app: &App) {
    let vm = JobsVm::get(app);
    let button = |id: &str, label: &str| QuickRow {
        id: id.into(),
        label: label.into(),
    };
    let sums = FIRST.into_iter().filter_map(by_id);
    let mut rows: Vec<QuickRow> = sums.map(|sum| button(sum.id, sum.title)).collect();
    rows.push(button(ALL, "All quick sums"));
    vm.set_quick(patched(vm.get_quick(), rows));
}

/// The list of all sums.
pub(super) struct Index;

impl FormPage for Index {
    fn title(&self, _desk: &Desk) -> String {
        "Quick sums".to_owned()
    }

    fn contents(&self, desk: &Desk) -> FormContents {
        let mut rows = Vec::new();
        for stage in Stage::ALL {
            rows.push(heading(stage.name()));
            let own = SUMS.iter().filter(|sum| sum.stage == stage);
            rows.extend(own.map(|sum| {
                let answer = (sum.work)(&Given::of(desk, sum)).and_then(Result::ok);
                let figure = answer.map(|answer| answer.figure).unwrap_or_default();
                pick(sum.id, sum.title, sum.answers, &figure)
            }));
        }
        rows.extend(settings::rows(desk));
        FormContents::new(rows)
    }

    fn pressed(&self, desk: &mut Desk, id: &str) -> Then {
        if settings::ask(desk, id) {
            return Then::Keypad;
        }
        desk.look_at_quick(id);
        Then::Open(Page::Quick)
    }

    fn picked(&self, desk: &mut Desk, id: &str, index: usize) -> Then {
        settings::picked(desk, id, index);
        Then::Stay
    }
}

/// One sum.
pub(super) struct OneSum;

/// The row of a figure, with what is wrong with it beside it.
fn row_of(given: &Given<'_>, input: &Input, refused: Option<&Refused>) -> Row {
    if let Kind::Choice(options) = input.kind {
        return form::choice(
            input.key,
            input.label,
            options,
            Some(given.picked(input.key)),
        );
    }
    let value = given.shown(input).unwrap_or_else(|| "—".to_owned());
    let blamed = refused.filter(|refused| refused.called == Some(input.called));
    let usual = given.typed(input.key).is_none() && matches!(input.need, Need::Usual(_));
    let remark = match (usual, input.need) {
        (true, _) => "usual",
        (false, Need::May) => "if you have it",
        _ => "",
    };
    let parts = [input.how, remark]
        .into_iter()
        .filter(|part| !part.is_empty());
    let note = match blamed {
        Some(refused) => refused.said(given),
        None => parts.collect::<Vec<_>>().join("; "),
    };
    Row {
        verdict: if blamed.is_some() {
            Verdict::Bad
        } else {
            Verdict::None
        },
        ..form::figure(input.key, input.label, &note, &value)
    }
}

fn standing(given: &Given<'_>, sum: &Sum, worked: &Worked) -> (Verdict, String) {
    match worked {
        None => (Verdict::Note, sum.how.to_owned()),
        Some(Ok(answer)) => (answer.verdict, answer.says.clone()),
        Some(Err(refused)) => (Verdict::Bad, refused.said(given)),
    }
}

fn found(answer: &Answer) -> Vec<Row> {
    let rows = answer.rows.iter().enumerate().map(|(n, found)| {
        let id = format!("found {n}");
        result(&id, &found.label, &found.note, &found.figure, &found.tail)
    });
    rows.collect()
}

impl FormPage for OneSum {
    fn title(&self, desk: &Desk) -> String {
        in_sight(desk).title.to_owned()
    }

    fn contents(&self, desk: &Desk) -> FormContents {
        let sum = in_sight(desk);
        let given = Given::of(desk, sum);
        let worked = (sum.work)(&given);
        let refused = worked.as_ref().and_then(|worked| worked.as_ref().err());
        let inputs = sum.inputs.iter();
        let mut rows: Vec<Row> = inputs.map(|input| row_of(&given, input, refused)).collect();
        if let Some(Ok(answer)) = &worked
            && !answer.rows.is_empty()
        {
            rows.push(heading("Also"));
            rows.extend(found(answer));
        }
        let (verdict, text) = standing(&given, sum, &worked);
        let mut contents = FormContents::new(rows).saying(verdict, &text);
        let caution = sum.caution.map(|caution| caution.short.to_owned());
        contents.caution = caution.unwrap_or_default();
        let missing = given.missing();
        if let Some(missing) = missing {
            contents.primary = format!("Next: {}", missing.label);
        }
        if let Some(Ok(answer)) = worked {
            contents.figure = Some(FormFigure {
                what: answer.what,
                figure: answer.figure,
                tail: answer.tail,
            });
            if sum.keep.is_some() {
                contents.primary = "Keep in a job".to_owned();
            }
        }
        let cleared = desk.quick.cleared.iter();
        let cleared = cleared.clone().any(|(key, _)| sum.input(key).is_some());
        contents.secondary = match (typed_of(desk, sum).is_empty(), cleared) {
            (false, _) => "Start again".to_owned(),
            (true, true) => "Bring them back".to_owned(),
            (true, false) => String::new(),
        };
        contents
    }

    fn pressed(&self, desk: &mut Desk, id: &str) -> Then {
        let sum = in_sight(desk);
        if sum.input(id).is_some() {
            return figure::ask(desk, sum, id);
        }
        self.figure_asked(desk)
    }

    fn picked(&self, desk: &mut Desk, id: &str, index: usize) -> Then {
        let at = u32::try_from(index).map_or(0.0, f64::from);
        if let Some(input) = in_sight(desk).input(id) {
            desk.figures.insert(input.key.to_owned(), at);
        }
        Then::Stay
    }

    fn figure_asked(&self, desk: &mut Desk) -> Then {
        let sum = in_sight(desk);
        desk.explain(sum.title, sum.why);
        Then::Stay
    }

    fn caution_pressed(&self, desk: &mut Desk) -> Then {
        match in_sight(desk).caution {
            Some(caution) => caution::open(desk, caution),
            None => Then::Stay,
        }
    }

    fn primary(&self, desk: &mut Desk) -> Then {
        let sum = in_sight(desk);
        let missing = Given::of(desk, sum).missing();
        match (missing, sum.keep) {
            (Some(missing), _) => figure::ask(desk, sum, missing.key),
            (None, Some(keep)) => keep(desk, sum),
            (None, None) => Then::Stay,
        }
    }

    /// Clears the figures away, or brings them back.
    fn secondary(&self, desk: &mut Desk) -> Then {
        let sum = in_sight(desk);
        let there = typed_of(desk, sum);
        if there.is_empty() {
            let back = std::mem::take(&mut desk.quick.cleared);
            desk.figures.extend(back);
        } else {
            for (key, _) in &there {
                desk.figures.remove(key);
            }
            desk.quick.cleared = there;
        }
        Then::Stay
    }
}

/// What was typed for a sum.
fn typed_of(desk: &Desk, sum: &Sum) -> Vec<(String, f64)> {
    let keys = sum.inputs.iter().map(|input| input.key);
    let there = keys.filter_map(|key| Some((key.to_owned(), *desk.figures.get(key)?)));
    there.collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::collections::HashSet;

    #[test]
    fn every_figure_of_every_sum_has_a_key_of_its_own() {
        let mut ids = HashSet::new();
        for sum in SUMS {
            assert!(ids.insert(sum.id), "{}", sum.id);
            let mut keys = HashSet::new();
            for input in sum.inputs {
                assert!(keys.insert(input.key), "{}", input.key);
            }
            assert!(
                !sum.answers.is_empty() && sum.why.ends_with('.'),
                "{}",
                sum.id
            );
        }
        assert!(FIRST.iter().all(|id| by_id(id).is_some()));
    }
}
