//! Quick: one figure now, without a job. A person takes a sum from a list in the order of the work, types
//! its figures beside their sketch, reads the answer, and keeps it in a job.
//!
//! ```text
//!   Jobs ──▶ index ──▶ sum ──▶ keypad      every sum is a description (`QuickSum`): what it asks
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
mod pen;
mod screens;
mod settings;
mod sum;
mod sums;

pub(super) use page::SumPage;
pub(super) use screens::{Index, ONE_SUM};
pub(super) use settings::Counts;
pub(super) use sums::laser;

use super::bridge::Bridge;
use super::desk::{Desk, Then};
use super::kit::fields::{FormContents, heading, pick};
use super::kit::rows::patched;
use crate::drawing::Drawing;
use given::Given;
use in_sight::{by_id, in_sight};
use slint::Global;
use std::rc::Rc;
use sum::{QuickSum, Stage};
use sums::{FIRST, SUMS};
use tautmark_ui::{App, JobsVm, Page, QuickRow};

const ALL: &str = "all";

/// The picture of the sum in sight.
fn drawing(desk: &Desk) -> Drawing {
    let sum = in_sight(desk);
    sum.drawing(&Given::of(desk, sum.inputs))
}

fn wire(app: &App, bridge: &Rc<Bridge>) {
    JobsVm::get(app).on_quick_pressed(bridge.does_with(|desk, id| match by_id(id) {
        Some(sum) => open(desk, sum),
        None if id == ALL => Then::Open(Page::Sums),
        None => Then::Stay,
    }));
}

fn open(desk: &mut Desk, sum: &QuickSum) -> Then {
    desk.look_at_quick(sum.id);
    Then::Open(Page::Quick)
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

/// What the list shows.
fn index(desk: &Desk) -> FormContents {
    let mut rows = Vec::new();
    for stage in Stage::ALL {
        rows.push(heading(stage.name()));
        let own = SUMS.iter().filter(|sum| sum.stage == stage);
        rows.extend(own.map(|sum| {
            let given = Given::of(desk, sum.inputs);
            let figure = (sum.work)(&given).map(|answer| given.say(answer.value));
            let row = pick(sum.title, &figure.unwrap_or_default(), move |desk| {
                open(desk, sum)
            });
            row.noted(sum.answers)
        }));
    }
    rows.extend(settings::rows(desk));
    FormContents::new(rows)
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
