//! A new corner of two strings.

use crate::app::desk::{Desk, Menu, Then};
use crate::job::edit::{Change, Edit};
use crate::job::model::{Corner, CornerPost};
use crate::job::{LineId, numbered};
use tautmark_ui::Page;

/// Asks which two strings cross.
pub fn ask(desk: &mut Desk) -> Then {
    let lines = &desk.saved().lines;
    let mut menu = Menu::new("A new corner");
    for first in lines {
        for second in lines.iter().filter(|second| second.id != first.id) {
            let title = format!("{}, then {}", first.called(), second.called());
            let ids = [first.id.clone(), second.id.clone()];
            menu = menu.row(title, "walking along the first, onto the second", |desk| {
                put(desk, ids)
            });
        }
    }
    if menu.is_empty() {
        return desk.say("A corner needs two strings that cross. Add another string first.");
    }
    desk.offer(menu)
}

/// Adds the corner of two strings, and looks at it.
pub fn put(desk: &mut Desk, lines: [LineId; 2]) -> Then {
    let corners = &desk.saved().corners;
    let at = corners.len();
    let id = numbered("X", at + 1, corners.iter().map(|corner| corner.id.as_str()));
    let value = Corner {
        id: id.into(),
        lines,
        post: Some(CornerPost::default()),
        ..Corner::default()
    };
    if desk.change(Edit::Corner(Change::Insert { at, value })) {
        desk.chosen.corner = at;
    }
    Then::Open(Page::Corner)
}
