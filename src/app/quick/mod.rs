//! Quick: one figure now, without a job. A list of sums in the order of the work, and one page on
//! which each is typed, drawn and answered.
//!
//! ```text
//!   Jobs ──▶ index ──▶ sum ──▶ keypad      every sum is a description (`Sum`): what it asks
//!               ▲        │                 for, what comes of it, its picture, what is kept
//!               └────────┘
//! ```

mod answer;
mod figure;
mod given;
mod in_sight;
mod input;
mod keep;
mod page;
mod screens;
mod settings;
mod sum;
mod sums;

pub(super) use figure::ask_counting;
pub(super) use given::Given;
pub(super) use page::{OneSum, contents};
pub(super) use settings::Counts;
pub(super) use sums::laser;

use super::bridge::Bridge;
use super::bridge::form::FormPage;
use super::desk::{Desk, Then};
use super::kit::fields::{FormContents, heading, pick};
use super::kit::rows::patched;
use crate::drawing::Drawing;
use in_sight::{by_id, in_sight};
use slint::Global;
use std::rc::Rc;
use sum::Stage;
use sums::{FIRST, SUMS};
use tautmark_ui::{App, JobsVm, Page, QuickRow};

const ALL: &str = "all";

/// The picture of the sum in sight.
fn drawing(desk: &Desk) -> Drawing {
    let sum = in_sight(desk);
    (sum.picture)(&Given::of(desk, sum.inputs))
}

/// The pegs and both places of the laser, with the figures of its check on this desk.
pub(super) fn laser_check(desk: &Desk) -> Drawing {
    let sum = &laser::TWO_PEGS;
    (sum.picture)(&Given::counting(desk, sum.inputs, Counts::of_job(desk)))
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
                let given = Given::of(desk, sum.inputs);
                let figure = (sum.work)(&given).map(|answer| given.say(answer.value));
                pick(sum.id, sum.title, sum.answers, &figure.unwrap_or_default())
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
