//! Marks and walls to choose from.

use crate::app::desk::{Desk, Menu, Then};
use crate::job::{MarkId, WallId};

/// A menu of the job's marks, but for some; `then` is done with the one that is chosen.
#[must_use]
pub fn marks(
    desk: &Desk,
    title: impl Into<String>,
    but: &[MarkId],
    then: impl Fn(&mut Desk, MarkId) -> Then + Clone + 'static,
) -> Menu {
    let marks = desk.saved().marks.iter();
    let marks = marks.filter(|mark| !but.contains(&mark.id));
    marks.fold(Menu::new(title), |menu, mark| {
        let (id, then) = (mark.id.clone(), then.clone());
        menu.row(mark.id.as_str(), &mark.note, move |desk| then(desk, id))
    })
}

/// The same of its walls.
#[must_use]
pub fn walls(
    desk: &Desk,
    title: impl Into<String>,
    then: impl Fn(&mut Desk, WallId) -> Then + Clone + 'static,
) -> Menu {
    let walls = desk.saved().walls.iter();
    walls.fold(Menu::new(title), |menu, wall| {
        let (id, then) = (wall.id.clone(), then.clone());
        let note = format!("{} to {}", wall.from, wall.to);
        menu.row(wall.called(), note, move |desk| then(desk, id))
    })
}
