//! What is laid over the page: a few words, or a few things to choose from.

use super::{Desk, Then};
use tautmark_ui::Item;

/// What agreeing does.
pub type Act = Box<dyn FnOnce(&mut Desk)>;

/// A few words at the foot of the page, with the way back where there is one.
#[derive(Clone, Debug, PartialEq)]
pub struct Snack {
    pub text: String,
    pub undoable: bool,
}

/// Words over the page: what they are about, and what agreeing does.
pub struct Notice {
    pub title: String,
    pub text: String,
    /// Name of the button, and what it does; `None` where there is only reading.
    pub action: Option<(String, Act)>,
}

/// What choosing a row of a menu does.
type Choice = Box<dyn FnOnce(&mut Desk) -> Then>;

/// A few things to choose from over the page, each with what choosing it does.
pub struct Menu {
    pub title: String,
    rows: Vec<(Item, Choice)>,
}

impl Menu {
    /// A menu with nothing to choose yet.
    #[must_use]
    pub fn new(title: impl Into<String>) -> Self {
        Self {
            title: title.into(),
            rows: Vec::new(),
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
        let item = Item {
            id: self.rows.len().to_string().into(),
            title: title.as_ref().into(),
            note: note.as_ref().into(),
            ..Item::default()
        };
        self.rows.push((item, Box::new(choice)));
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
        self.rows.is_empty()
    }

    /// Its rows as the screen lists them.
    #[must_use]
    pub fn items(&self) -> Vec<Item> {
        self.rows.iter().map(|(item, _)| item.clone()).collect()
    }

    /// What choosing the row of this id does; `None` where there is no such row.
    #[must_use]
    pub fn choice(self, id: &str) -> Option<Choice> {
        let mut rows = self.rows.into_iter();
        rows.find(|(item, _)| item.id == id)
            .map(|(_, choice)| choice)
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
        let choice = self.menu.take().and_then(|menu| menu.choice(id));
        choice.map_or(Then::Stay, |choice| choice(self))
    }

    /// Does what the words over the page offer, and takes them away.
    pub fn agree(&mut self) -> Then {
        let notice = self.notice.take();
        if let Some((_, act)) = notice.and_then(|notice| notice.action) {
            act(self);
        }
        Then::Stay
    }

    /// Explains a figure in a few words over the page.
    pub fn explain(&mut self, title: &str, text: &str) {
        self.notice = Some(Notice {
            title: title.to_owned(),
            text: text.to_owned(),
            action: None,
        });
    }

    /// Says a few words at the foot of the page.
    pub fn say(&mut self, text: &str) {
        self.put_snack(text, false);
    }

    pub(super) fn put_snack(&mut self, text: &str, undoable: bool) {
        self.snack = Some(Snack {
            text: text.to_owned(),
            undoable,
        });
        self.just_said = true;
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

    #[test]
    fn an_id_that_no_row_has_chooses_nothing() {
        let menu = || Menu::new("A job").row("Delete", "it can be taken back", |_| Then::Back);
        assert!(menu().choice("1").is_none());
        assert!(menu().choice("delete").is_none());
        assert!(menu().choice("").is_none());
        assert!(menu().choice("0").is_some());
    }
}
