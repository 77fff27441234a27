//! Putting a job on the desk: one of the list, one brought in, a new one.

use super::bin::delete;
use crate::app::desk::{Desk, Menu, Then, root_of};
use crate::app::device::{Handed, Picked, Way};
use crate::job::Job;
use crate::store::{JobKey, OpenError, OpenJob};
use tautmark_ui::Place;

/// Puts the job of this key on the desk; asks first where the program stopped on it.
pub fn open(desk: &mut Desk, key: &JobKey) -> Then {
    if desk.is_open(key) {
        return Then::Open(root_of(desk.nav.place));
    }
    if desk.not_opened.contains(key) {
        return ask(desk, key);
    }
    open_now(desk, key)
}

/// Puts the job of this key on the desk, or says why it cannot be had.
fn open_now(desk: &mut Desk, key: &JobKey) -> Then {
    match desk.open_key(key) {
        Ok(()) => Then::Go(Place::Walls),
        Err(why) => refused(desk, &why),
    }
}

/// Asks what to do with a job that the program stopped on while it was being opened: it is left alone
/// until somebody says.
fn ask(desk: &mut Desk, key: &JobKey) -> Then {
    let (opened, sent, deleted) = (key.clone(), key.clone(), key.clone());
    let way = desk.device.ways().first().copied().unwrap_or(Way::Save);
    let menu = Menu::new("The app stopped while it opened this job")
        .row(
            "Open it again",
            "it may have been stopped by something else",
            move |desk| open_now(desk, &opened),
        )
        .row(
            "Send its file out",
            "as it is, to be looked at on a computer",
            move |desk| send(desk, &sent, way),
        )
        .row("Delete", "it can be taken back", move |desk| {
            delete(desk, &deleted)
        });
    desk.offer(menu)
}

fn send(desk: &mut Desk, key: &JobKey, way: Way) -> Then {
    let bytes = desk.jobs.send_out(key).map_err(|why| why.to_string());
    let file = bytes.map(|bytes| Handed::job(key.as_str(), bytes));
    let said = file.and_then(|file| desk.device.hand_over(&file, way));
    match said {
        Ok(words) => desk.say(&words),
        Err(why) => desk.explain("It cannot be sent", &why),
    }
}

fn refused(desk: &mut Desk, why: &OpenError) -> Then {
    desk.explain("It cannot be opened", &why.to_string())
}

/// Puts a job on the desk and goes to its walls, or says why it cannot be had.
pub fn take(desk: &mut Desk, opened: Result<OpenJob, OpenError>) -> Then {
    match opened {
        Ok(open) => {
            desk.take(open);
            Then::Go(Place::Walls)
        }
        Err(why) => refused(desk, &why),
    }
}

/// Keeps a job file that came from outside as a job of its own and opens it.
pub fn brought(desk: &mut Desk, picked: Picked) -> Then {
    let file = match picked {
        Ok(Some(file)) => file,
        Ok(None) => return Then::Stay,
        Err(why) => return desk.explain("It cannot be brought in", &why),
    };
    match desk.jobs.bring_in(&file.bytes) {
        Ok(key) => open(desk, &key),
        Err(why) => {
            let name = match file.name.as_str() {
                "" => "This file",
                name => name,
            };
            desk.explain("It cannot be brought in", &format!("{name}: {why}"))
        }
    }
}

/// Puts a new job on the desk.
pub fn begin(desk: &mut Desk, job: Job) -> Then {
    let open = desk.jobs.start(job);
    desk.take(open);
    Then::Go(Place::Walls)
}
