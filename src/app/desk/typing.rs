//! The figure being typed: asked for, previewed in the whole job, entered or left.

use super::{Desk, Draft, Entered, Focus, KeypadEntry, Prompt, Then, Typed};
use crate::job::edit::apply;

impl Desk {
    /// Asks for a figure on the keypad.
    pub fn ask(&mut self, figure: impl Prompt + 'static) -> Then {
        self.ask_for(Box::new(figure))
    }

    /// The same for a figure that another one leads to.
    pub fn ask_for(&mut self, figure: Box<dyn Prompt>) -> Then {
        let key = self.draft_key(&figure.key(self.saved()));
        let draft = self.drafts.remove(&key);
        self.entry = Some(KeypadEntry::new(figure, self.saved(), draft));
        self.preview_entry();
        Then::Keypad
    }

    /// One key of the keypad.
    pub fn key(&mut self, key: &str) {
        let Some(mut entry) = self.entry.take() else {
            return;
        };
        if key == "back" && entry.text.is_empty() {
            entry.figure.emptied(self);
        } else {
            entry.key(key);
        }
        self.entry = Some(entry);
        self.preview_entry();
    }

    /// The figure typed so far, where it can be read.
    #[must_use]
    pub fn typed(&self) -> Option<f64> {
        match self.entry.as_ref()?.typed() {
            Typed::Value(value) => Some(value),
            _ => None,
        }
    }

    /// Enters the figure and asks for the next; false when nothing more is asked for.
    pub fn enter(&mut self) -> bool {
        let Some(entry) = self.entry.take() else {
            return false;
        };
        match entry.typed() {
            Typed::Value(value) => {
                if !entry.sure
                    && let Some(text) = entry.question(self, value)
                {
                    self.entry = Some(entry);
                    self.ask_first("Is that right?", text, "Enter it", |desk| {
                        if let Some(entry) = &mut desk.entry {
                            entry.sure = true;
                        }
                        desk.enter();
                        Then::Keypad
                    });
                    return true;
                }
                self.preview = None;
                match entry.figure.enter(self.saved(), value) {
                    Entered::Edit(edit) => {
                        if !self.change(*edit) {
                            self.entry = Some(entry);
                            return true;
                        }
                    }
                    Entered::Desk(keep) => {
                        keep(self);
                        self.solve();
                    }
                    Entered::Refused(words) => {
                        self.say(&words);
                        self.entry = Some(entry);
                        self.solve();
                        return true;
                    }
                }
            }
            // Nothing typed: what is there stays, or becomes the job's own.
            Typed::Nothing => self.confirm(&entry),
            Typed::GoOn | Typed::Wrong(_) => {
                self.entry = Some(entry);
                return true;
            }
        }
        match entry.figure.next(self.saved()) {
            Some(next) => {
                self.ask_for(next);
                true
            }
            None => {
                self.preview_entry();
                false
            }
        }
    }

    /// Puts the usual figure that is shown into the job, where Next says so.
    fn confirm(&mut self, entry: &KeypadEntry) {
        let job = self.saved();
        let shown = entry.figure.value(job).filter(|_| entry.figure.confirms());
        let Some(Entered::Edit(edit)) = shown.map(|value| entry.figure.enter(job, value)) else {
            return;
        };
        let mut after = job.clone();
        if apply(&mut after, &edit).is_ok() && after != *job {
            self.change(*edit);
        }
    }

    /// Leaves the keypad; what was typed is there again when the figure is asked for again.
    pub fn leave_entry(&mut self) {
        if let Some((key, draft)) = self.being_typed() {
            self.drafts.insert(key, draft);
        }
        self.entry = None;
        self.preview_entry();
    }

    /// What is being typed, as it is kept when it is left.
    pub(crate) fn being_typed(&self) -> Option<(String, Draft)> {
        let entry = self.entry.as_ref()?;
        let draft = Draft {
            text: entry.text.clone(),
            negative: entry.negative,
        };
        let key = self.draft_key(&entry.figure.key(self.saved()));
        (!draft.text.is_empty()).then_some((key, draft))
    }

    /// What the drawing stresses.
    #[must_use]
    pub fn focus(&self) -> Focus {
        self.entry
            .as_ref()
            .map_or(Focus::Nothing, |entry| entry.figure.focus(self.saved()))
    }

    fn preview_entry(&mut self) {
        let edit = self.typed().and_then(|value| {
            let figure = &self.entry.as_ref()?.figure;
            match figure.enter(self.saved(), value) {
                Entered::Edit(edit) => Some(*edit),
                Entered::Desk(_) | Entered::Refused(_) => None,
            }
        });
        let had = self.preview.take().is_some();
        if let Some(edit) = edit {
            let mut job = self.saved().clone();
            if apply(&mut job, &edit).is_ok() {
                self.preview = Some(job);
            }
        }
        if had || self.preview.is_some() {
            self.solve();
        }
    }
}
