//! What is laid over the page: a few words, or a few things to choose from.

use super::{Desk, Then};
use tautmark_ui::RowItem;

/// What agreeing does.
pub type Act = Box<dyn FnOnce(&mut Desk) -> Then>;

/// What is done beside reading the words at the foot of the page.
pub type Beside = fn(&mut Desk) -> Then;

/// A few words at the foot of the page, with the way back where there is one.
#[derive(Clone, Debug)]
pub struct Snack {
    /// The words.
    pub text: String,
    /// What they tell of can be taken back from here.
    pub undoable: bool,
    /// Something else to do about it: its name, and what it does.
    pub action: Option<(&'static str, Beside)>,
}

/// Words over the page: what they are about, and what agreeing does.
pub struct Notice {
    /// What they are about.
    pub title: String,
    /// The words.
    pub text: String,
    /// Name of the button, and what it does; `None` where there is only reading.
    pub action: Option<(String, Act)>,
}

/// What pressing a row does.
type Press = Box<dyn FnOnce(&mut Desk) -> Then>;

/// Rows to press, each with what pressing it does. They are made anew from the desk for each press, so
/// that a row never does what it did for another state.
#[derive(Default)]
pub struct Rows(Vec<(RowItem, Press)>);

impl Rows {
    /// With one row more; its place is its id.
    pub fn push(&mut self, item: RowItem, press: impl FnOnce(&mut Desk) -> Then + 'static) {
        let item = RowItem {
            id: self.0.len().to_string().into(),
            ..item
        };
        self.0.push((item, Box::new(press)));
    }

    /// As the screen lists them.
    #[must_use]
    pub fn items(&self) -> Vec<RowItem> {
        self.0.iter().map(|(item, _)| item.clone()).collect()
    }

    /// Does what the row of this id does; nothing where there is no such row.
    pub fn press(self, desk: &mut Desk, id: &str) -> Then {
        let mut rows = self.0.into_iter();
        let row = rows.find(|(item, _)| item.id == id);
        row.map_or(Then::Stay, |(_, press)| press(desk))
    }
}

/// A few things to choose from over the page, each with what choosing it does.
pub struct Menu {
    /// What is chosen.
    pub title: String,
    rows: Rows,
}

impl Menu {
    /// A menu with nothing to choose yet.
    #[must_use]
    pub fn new(title: impl Into<String>) -> Self {
        Self {
            title: title.into(),
            rows: Rows::default(),
        }
    }

    /// With one thing more to choose: what it is called, smaller what it does, and what choosing it
    /// does.
    #[must_use]
    pub fn row(
        mut self,
        title: impl AsRef<str>,
        note: impl AsRef<str>,
        choice: impl FnOnce(&mut Desk) -> Then + 'static,
    ) -> Self {
        let item = RowItem {
            title: title.as_ref().into(),
            note: note.as_ref().into(),
            ..RowItem::default()
        };
        self.rows.push(item, choice);
        self
    }

    /// The same where `there` holds.
    #[must_use]
    pub fn row_if(
        self,
        there: bool,
        title: impl AsRef<str>,
        note: impl AsRef<str>,
        choice: impl FnOnce(&mut Desk) -> Then + 'static,
    ) -> Self {
        if there {
            self.row(title, note, choice)
        } else {
            self
        }
    }

    /// True where there is nothing to choose.
    #[must_use]
    pub fn is_empty(&self) -> bool {
        self.rows.0.is_empty()
    }

    /// Its rows as the screen lists them.
    #[must_use]
    pub fn items(&self) -> Vec<RowItem> {
        self.rows.items()
    }
}

impl Desk {
    /// Lays a menu over the page.
    pub fn offer(&mut self, menu: Menu) -> Then {
        self.menu = Some(menu);
        Then::Stay
    }

    /// Does what the row of this id in the menu over the page does, and takes the menu away; nothing
    /// where there is no such row.
    pub fn choose(&mut self, id: &str) -> Then {
        let menu = self.menu.take();
        menu.map_or(Then::Stay, |menu| menu.rows.press(self, id))
    }

    /// Does what the words over the page offer, and takes them away.
    pub fn agree(&mut self) -> Then {
        let notice = self.notice.take();
        let action = notice.and_then(|notice| notice.action);
        action.map_or(Then::Stay, |(_, act)| act(self))
    }

    /// Says over the page what something would do, and does it only where the person agrees.
    pub fn ask_first(
        &mut self,
        title: impl Into<String>,
        text: impl Into<String>,
        agree: &str,
        act: impl FnOnce(&mut Self) -> Then + 'static,
    ) -> Then {
        self.notice = Some(Notice {
            title: title.into(),
            text: text.into(),
            action: Some((agree.to_owned(), Box::new(act))),
        });
        Then::Stay
    }

    /// Explains a figure in a few words over the page.
    pub fn explain(&mut self, title: &str, text: &str) -> Then {
        self.notice = Some(Notice {
            title: title.to_owned(),
            text: text.to_owned(),
            action: None,
        });
        Then::Stay
    }

    /// Says a few words at the foot of the page.
    pub fn say(&mut self, text: &str) -> Then {
        self.put_snack(text, false);
        Then::Stay
    }

    pub(super) fn put_snack(&mut self, text: &str, undoable: bool) {
        self.snack = Some(Snack {
            text: text.to_owned(),
            undoable,
            action: None,
        });
        self.just_said = true;
    }

    /// Offers something else to do beside the words at the foot of the page.
    pub fn offer_beside(&mut self, name: &'static str, act: Beside) -> Then {
        if let Some(snack) = &mut self.snack {
            snack.action = Some((name, act));
        }
        Then::Stay
    }

    /// Takes away what was said at the foot of the page, unless it was said by what is being done.
    pub(crate) fn hush(&mut self) {
        if !self.just_said {
            self.snack = None;
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::app::device::Desktop;
    use crate::store::Jobs;
    use std::rc::Rc;

    #[test]
    fn an_id_that_no_row_has_does_nothing() {
        let folder = tempfile::tempdir().expect("a folder for the jobs");
        let jobs = Jobs::in_folder(folder.path());
        let mut desk = Desk::new(jobs, Rc::new(Desktop::saving_in(folder.path())));
        let mut chosen = |id| {
            let menu = Menu::new("A job").row("Delete", "it can be taken back", |_| Then::Back);
            desk.offer(menu);
            desk.choose(id)
        };
        for id in ["1", "delete", "", "00"] {
            assert_eq!(chosen(id), Then::Stay, "{id:?}");
        }
        assert_eq!(chosen("0"), Then::Back);
        assert!(desk.menu.is_none(), "it is taken away");
    }
}
