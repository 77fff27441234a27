//! Jobs: the list with a small plan each. A person opens one, starts one, brings one in, or looks at the
//! example.

mod ago;
pub mod bin;
mod kept;
mod list;
mod menu;
pub mod open;
pub mod start;
pub mod title;
mod unkept;

use crate::app::bridge::{Back, Bridge, Screen, Spec};
use crate::app::desk::{Desk, Menu, Then};
use crate::app::kit::{patched, silence, status};
use crate::job;
use crate::store::JobKey;
use list::rows;
use slint::Global;
use std::rc::Rc;
use tautmark_ui::{App, JobsVm, Page, Verdict};

/// The page.
pub struct JobList;

impl Screen for JobList {
    fn spec(&self) -> Spec {
        Spec::over(Page::Jobs, Some("jobs"), Back::Place).jobless()
    }

    fn wire(&self, app: &App, bridge: &Rc<Bridge>) {
        let vm = JobsVm::get(app);
        vm.on_job_pressed(bridge.does_with(|desk, id| with_key(desk, id, open::open)));
        vm.on_job_more(bridge.does_with(|desk, id| with_key(desk, id, menu::more)));
        vm.on_new_job(bridge.does(|_| Then::Open(Page::Start)));
        vm.on_bring_in(bridge.does(bring_in));
        vm.on_bin_pressed(bridge.does(|_| Then::Open(Page::Bin)));
        vm.on_example(bridge.does(example));
    }

    fn fill(&self, app: &App, desk: &Desk) -> bool {
        let vm = JobsVm::get(app);
        let (rows, more, wrong) = match desk.jobs.keys() {
            Ok(keys) => {
                let (rows, more) = rows(desk, &keys);
                (rows, more, None)
            }
            Err(why) => (rows(desk, &[]).0, false, Some(why)),
        };
        let empty = rows.is_empty();
        vm.set_status(match (wrong, empty) {
            (Some(why), _) => status(Verdict::Attention, &format!("**The list of jobs cannot be read.** {why}")),
            (None, true) => status(
                Verdict::None,
                "**No job yet.** Start one by what is there on the ground, or look round in the example first.",
            ),
            (None, false) => silence(),
        });
        vm.set_coming(more);
        vm.set_empty(empty);
        vm.set_jobs(patched(vm.get_jobs(), rows));
        let deleted = desk.jobs.bin_size();
        vm.set_deleted(i32::try_from(deleted).unwrap_or(i32::MAX));
        more
    }
}

/// Does something with the job of a row. A job that is on no disk yet can only be gone on with.
fn with_key(desk: &mut Desk, id: &str, then: impl FnOnce(&mut Desk, &JobKey) -> Then) -> Then {
    match (JobKey::parse(id), unkept::place(id)) {
        (Some(key), _) => then(desk, &key),
        (None, Some(at)) => unkept::go_on(desk, at),
        (None, None) => Then::Stay,
    }
}

fn example(desk: &mut Desk) -> Then {
    open::begin(desk, job::example())
}

fn bring_in(desk: &mut Desk) -> Then {
    let menu = Menu::new("Bring in")
        .row(
            "A job file",
            "one that was sent or kept: *.job.json",
            |_| Then::Pick,
        )
        .row(
            "The built-in example",
            "a screen between two walls, with a gate",
            example,
        );
    desk.offer(menu)
}
