//! A few things to choose from, over the page.

use super::words::row;
use super::{Desk, Menu, Then};
use tautmark_ui::Item;

/// One thing to choose: its id, what it is called and, smaller, what it does.
#[must_use]
pub fn choice(id: impl AsRef<str>, title: impl AsRef<str>, note: impl AsRef<str>) -> Item {
    row(id.as_ref(), title.as_ref(), note.as_ref(), "", "")
}

impl Menu {
    /// A menu that does `pick` with the id of what is chosen.
    #[must_use]
    pub fn new(
        title: impl Into<String>,
        rows: Vec<Item>,
        pick: impl FnOnce(&mut Desk, &str) -> Then + 'static,
    ) -> Self {
        Self {
            title: title.into(),
            rows,
            pick: Box::new(pick),
        }
    }
}
