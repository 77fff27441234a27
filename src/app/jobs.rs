//! Jobs: the list with a small plan each; open, start, bring in, the example.

use super::device::Picked;
use super::job_list::{rows, unkept};
use super::menu::choice;
use super::rows::patched;
use super::words::status;
use super::{Bridge, Desk, Menu, Then, job_menu};
use crate::job::{self, Job};
use crate::store::{JobKey, OpenError, OpenJob};
use slint::Global;
use std::rc::Rc;
use tautmark_ui::{App, JobsVm, Nav, Page, Place, Verdict};

pub(super) fn wire(app: &App, bridge: &Rc<Bridge>) {
    let vm = JobsVm::get(app);
    let at = bridge.clone();
    vm.on_job_pressed(move |id| at.act(|desk| with_key(desk, &id, open)));
    let at = bridge.clone();
    vm.on_job_more(move |id| at.act(|desk| with_key(desk, &id, job_menu::more)));
    let at = bridge.clone();
    vm.on_new_job(move || at.act(|_| Then::Open(Page::Start)));
    let at = bridge.clone();
    vm.on_bring_in(move || at.act(bring_in));
    let at = bridge.clone();
    vm.on_bin_pressed(move || at.act(|_| Then::Open(Page::Bin)));
    let at = bridge.clone();
    vm.on_example(move || at.act(|desk| begin(desk, job::example())));
}

/// Fills the list; true where there is more of it to come.
pub(super) fn fill(app: &App, desk: &Desk) -> bool {
    if Nav::get(app).get_page() != Page::Jobs {
        return false;
    }
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
        (None, false) => super::words::silence(),
    });
    vm.set_coming(more);
    vm.set_empty(empty);
    vm.set_jobs(patched(vm.get_jobs(), rows));
    let deleted = desk.jobs.bin_size();
    vm.set_deleted(i32::try_from(deleted).unwrap_or(i32::MAX));
    more
}

/// Does something with the job of a row. A job that is on no disk yet can only be gone on with.
fn with_key(desk: &mut Desk, id: &str, then: impl FnOnce(&mut Desk, &JobKey) -> Then) -> Then {
    match (JobKey::parse(id), unkept::place(id)) {
        (Some(key), _) => then(desk, &key),
        (None, Some(at)) => unkept::go_on(desk, at),
        (None, None) => Then::Stay,
    }
}

impl Desk {
    /// True where this job is the one on the desk.
    #[must_use]
    pub fn is_open(&self, key: &JobKey) -> bool {
        self.open().is_some_and(|open| open.key() == key)
    }
}

/// Puts the job of this key on the desk.
pub(super) fn open(desk: &mut Desk, key: &JobKey) -> Then {
    if desk.is_open(key) {
        return Then::Open(Page::Work);
    }
    let opened = match desk.out_of_aside(key) {
        Some(open) => Ok(open),
        None => desk.jobs.open(key),
    };
    take(desk, opened)
}

/// Puts a job on the desk and goes to its walls, or says why it cannot be had.
pub(super) fn take(desk: &mut Desk, opened: Result<OpenJob, OpenError>) -> Then {
    match opened {
        Ok(open) => {
            desk.take(open);
            Then::Go(Place::Walls)
        }
        Err(why) => {
            desk.explain("It cannot be opened", &why.to_string());
            Then::Stay
        }
    }
}

fn bring_in(desk: &mut Desk) -> Then {
    let choices = vec![
        choice(
            "file",
            "A job file",
            "one that was sent or kept: *.job.json",
        ),
        choice(
            "example",
            "The built-in example",
            "a screen between two walls, with a gate",
        ),
    ];
    desk.menu = Some(Menu::new("Bring in", choices, |desk, id| match id {
        "file" => Then::Pick,
        _ => begin(desk, job::example()),
    }));
    Then::Stay
}

/// Keeps a job file that came from outside as a job of its own and opens it.
pub(super) fn brought(desk: &mut Desk, picked: Picked) -> Then {
    let file = match picked {
        Ok(Some(file)) => file,
        Ok(None) => return Then::Stay,
        Err(why) => {
            desk.explain("It cannot be brought in", &why);
            return Then::Stay;
        }
    };
    match desk.jobs.bring_in(&file.bytes) {
        Ok(key) => open(desk, &key),
        Err(why) => {
            let name = match file.name.as_str() {
                "" => "This file",
                name => name,
            };
            desk.explain("It cannot be brought in", &format!("{name}: {why}"));
            Then::Stay
        }
    }
}

/// Puts a new job on the desk.
pub(super) fn begin(desk: &mut Desk, job: Job) -> Then {
    let open = desk.jobs.start(job);
    desk.take(open);
    Then::Go(Place::Walls)
}
