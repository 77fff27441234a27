//! Jobs: the list with a small plan each; open, start, copy, delete, the example.

use super::device::Picked;
use super::menu::choice;
use super::picture::thumbnail;
use super::rows::patched;
use super::walls::standing_in_short;
use super::{Bridge, Desk, Menu, Then};
use crate::job::{self, Job};
use crate::solve;
use crate::store::{Contents, JobKey, OpenError, OpenJob};
use slint::Global;
use std::rc::Rc;
use std::time::{Duration, SystemTime};
use tautmark_ui::{App, JobRow, JobsVm, Nav, Page, Place, Verdict};

/// Room for the small plan, logical px.
const PLAN: [f64; 2] = [96.0, 72.0];

pub(super) fn wire(app: &App, bridge: &Rc<Bridge>) {
    let vm = JobsVm::get(app);
    let at = bridge.clone();
    vm.on_job_pressed(move |id| at.act(|desk| with_key(&id, |key| open(desk, key))));
    let at = bridge.clone();
    vm.on_job_more(move |id| at.act(|desk| with_key(&id, |key| more(desk, key))));
    let at = bridge.clone();
    vm.on_new_job(move || at.act(|_| Then::Open(Page::Start)));
    let at = bridge.clone();
    vm.on_bring_in(move || at.act(bring_in));
}

pub(super) fn fill(app: &App, desk: &Desk) {
    if Nav::get(app).get_page() != Page::Jobs {
        return;
    }
    let vm = JobsVm::get(app);
    let entries = desk.jobs.list().unwrap_or_default();
    let rows = entries.iter().map(|entry| {
        let (verdict, remark, plan) = match &entry.contents {
            Contents::Job(job) => {
                let (verdict, remark) = standing_in_short(job, &solve(job));
                (verdict, remark, thumbnail(job, PLAN))
            }
            Contents::Newer | Contents::Damaged => (
                Verdict::Attention,
                String::new(),
                tautmark_ui::Drawing::default(),
            ),
        };
        let when = entry.changed.map(ago).unwrap_or_default();
        let note = if when.is_empty() {
            entry.summary()
        } else {
            format!("{} · {when}", entry.summary())
        };
        JobRow {
            id: entry.key.as_str().into(),
            title: entry.title.as_str().into(),
            note: note.into(),
            verdict,
            remark: remark.into(),
            plan,
        }
    });
    vm.set_jobs(patched(vm.get_jobs(), rows.collect()));
}

/// “just now”, “20 minutes ago”, “3 days ago”: needs no calendar and no time zone.
fn ago(then: SystemTime) -> String {
    let age = SystemTime::now()
        .duration_since(then)
        .unwrap_or(Duration::ZERO)
        .as_secs();
    let said = |n: u64, one: &str| match n {
        1 => format!("1 {one} ago"),
        n => format!("{n} {one}s ago"),
    };
    match age {
        0..=89 => "just now".to_owned(),
        90..=5_399 => said(age.div_ceil(60), "minute"),
        5_400..=86_399 => said(age / 3_600, "hour"),
        _ => said(age / 86_400, "day"),
    }
}

fn with_key(id: &str, then: impl FnOnce(&JobKey) -> Then) -> Then {
    JobKey::parse(id).map_or(Then::Stay, |key| then(&key))
}

fn is_open(desk: &Desk, key: &JobKey) -> bool {
    desk.open().is_some_and(|open| open.key() == key)
}

fn open(desk: &mut Desk, key: &JobKey) -> Then {
    if is_open(desk, key) {
        return Then::Open(Page::Work);
    }
    let opened = desk.jobs.open(key);
    take(desk, opened)
}

/// Puts a job on the desk and goes to its walls, or says why it cannot be had.
fn take(desk: &mut Desk, opened: Result<OpenJob, OpenError>) -> Then {
    match opened {
        Ok(open) => {
            desk.take(open);
            Then::Go(Place::Walls)
        }
        Err(why) => {
            desk.say(&why.to_string());
            Then::Stay
        }
    }
}

fn more(desk: &mut Desk, key: &JobKey) -> Then {
    let entries = desk.jobs.list().unwrap_or_default();
    let title = entries
        .iter()
        .find(|entry| entry.key == *key)
        .map(|entry| entry.title.clone());
    let key = key.clone();
    let choices = vec![
        choice("open", "Open", ""),
        choice("copy", "Copy", "A second job with the same readings"),
        choice("delete", "Delete", "It can be taken back"),
    ];
    desk.menu = Some(Menu::new(
        title.unwrap_or_default(),
        choices,
        move |desk, id| match id {
            "open" => open(desk, &key),
            "copy" => copy(desk, &key),
            _ => delete(desk, &key),
        },
    ));
    Then::Stay
}

fn copy(desk: &mut Desk, key: &JobKey) -> Then {
    if is_open(desk, key) {
        // What is on the desk is newer than any file of it may be.
        let mut job = desk.saved().clone();
        job.title = format!("{} (copy)", job.title);
        return begin(desk, job);
    }
    let opened = desk.jobs.copy(key);
    take(desk, opened)
}

fn delete(desk: &mut Desk, key: &JobKey) -> Then {
    if is_open(desk, key) {
        desk.put_away();
    }
    match desk.jobs.delete(key) {
        Ok(binned) => {
            let choices = vec![
                choice("back", "Take it back", "Puts the job in the list again"),
                choice("gone", "Leave it deleted", ""),
            ];
            desk.menu = Some(Menu::new("Deleted", choices, move |desk, id| {
                if id == "back"
                    && let Err(why) = desk.jobs.restore(&binned)
                {
                    desk.say(&why.to_string());
                }
                Then::Stay
            }));
        }
        Err(why) => desk.say(&why.to_string()),
    }
    Then::Stay
}

fn bring_in(desk: &mut Desk) -> Then {
    let mut choices = vec![
        choice(
            "file",
            "A job file",
            "One that was sent or kept: *.job.json",
        ),
        choice(
            "example",
            "The built-in example",
            "A screen between two walls, with a gate",
        ),
    ];
    let bin = desk.jobs.bin().unwrap_or_default();
    for binned in &bin {
        let id = format!("bin {}", binned.key.as_str());
        choices.push(choice(id, binned.title.clone(), "Deleted; takes it back"));
    }
    desk.menu = Some(Menu::new("Bring in", choices, |desk, id| {
        match id.strip_prefix("bin ") {
            Some(key) => {
                let back = JobKey::parse(key).map(|key| desk.jobs.restore(&key));
                if let Some(Err(why)) = back {
                    desk.say(&why.to_string());
                }
                Then::Stay
            }
            None if id == "file" => Then::Pick,
            None => begin(desk, job::example()),
        }
    }));
    Then::Stay
}

/// Keeps a job file that came from outside as a job of its own and opens it.
pub(super) fn brought(desk: &mut Desk, picked: Picked) -> Then {
    let file = match picked {
        Ok(Some(file)) => file,
        Ok(None) => return Then::Stay,
        Err(why) => {
            desk.say(&why);
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
