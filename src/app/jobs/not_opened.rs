//! A job on which the program stopped while it was being opened: it is left alone until somebody says
//! what to do with it.

use super::menu::delete;
use super::open::open_now;
use crate::app::desk::{Desk, Menu, Then};
use crate::app::device::{Handed, Way};
use crate::store::JobKey;

/// Asks what to do with it.
pub fn ask(desk: &mut Desk, key: &JobKey) -> Then {
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
    let said = bytes.and_then(|bytes| {
        let file = Handed {
            name: format!("{key}.job.json"),
            media_type: "application/json",
            bytes,
        };
        desk.device.hand_over(&file, way)
    });
    match said {
        Ok(words) => desk.say(&words),
        Err(why) => desk.explain("It cannot be sent", &why),
    }
}
