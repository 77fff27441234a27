//! What is on the desk: the open job, its solution, the figure being typed, and what is looked at.

use super::chosen::Chosen;
use super::device::Device;
use super::entry::Entry;
use super::job_list::Listed;
use super::over::{Act, Menu, Over};
use super::picture::View;
use super::preview::Preview;
use super::quick::QuickDesk;
use super::typing::Draft;
use crate::job::Job;
use crate::job::edit::{Edit, Thing};
use crate::store::{JobKey, Jobs, OpenJob};
use crate::{Solution, solve};
use std::cell::RefCell;
use std::collections::{BTreeMap, HashSet};
use std::rc::Rc;
use tautmark_ui::Page;

/// Everything the screens are filled from.
pub struct Desk {
    pub jobs: Jobs,
    pub device: Rc<dyn Device>,
    pub(super) open: Option<OpenJob>,
    /// Jobs that were taken off the desk with changes that could not be written; tried again until
    /// they can.
    pub(super) aside: Vec<OpenJob>,
    /// Of the job as it stands or, while a figure is typed, with that figure in it.
    pub solution: Solution,
    /// The job with the figure being typed in it.
    pub(super) preview: Option<Job>,
    pub entry: Option<Entry>,
    /// Figures typed and not entered, by the job's and the field's key.
    pub(super) drafts: BTreeMap<String, Draft>,
    pub view: View,
    pub sheet: Preview,
    /// The next press on the plan puts a new mark there.
    pub placing: bool,
    /// The mark or wall that is being given another name.
    pub renaming: Option<Thing>,
    /// The job in the list that is being given another title, and the title so far.
    pub(super) retitling: Option<(JobKey, String)>,
    pub chosen: Chosen,
    pub snack: Option<Snack>,
    /// The snack was said by what is being done now, and not before.
    pub(super) just_said: bool,
    /// Words to be laid over the page.
    pub notice: Option<Notice>,
    /// Things to choose from, to be laid over the page.
    pub menu: Option<Menu>,
    pub(super) over: Over,
    /// Cautions that this job has shown in full, by key.
    pub(super) told: HashSet<&'static str>,
    /// What was typed in Quick and for the laser check: figures by name, mm, degrees or numbers.
    pub figures: BTreeMap<String, f64>,
    /// The quick sum in sight.
    pub(super) quick: QuickDesk,
    pub(super) listed: RefCell<Listed>,
    /// The page that was in sight when something was last done.
    pub(super) page: Option<Page>,
    /// The window is to close, whatever is not saved.
    pub(super) leaving: bool,
    /// Stands in where no job is open.
    pub(super) empty: Job,
}

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

impl Desk {
    /// A desk with no job on it.
    #[must_use]
    pub fn new(jobs: Jobs, device: Rc<dyn Device>) -> Self {
        let empty = Job::new("");
        Self {
            jobs,
            device,
            open: None,
            aside: Vec::new(),
            solution: solve(&empty),
            preview: None,
            entry: None,
            drafts: BTreeMap::new(),
            view: View::default(),
            sheet: Preview::default(),
            placing: false,
            renaming: None,
            retitling: None,
            chosen: Chosen::default(),
            snack: None,
            just_said: false,
            notice: None,
            menu: None,
            over: Over::default(),
            told: HashSet::new(),
            figures: BTreeMap::new(),
            listed: RefCell::default(),
            page: None,
            leaving: false,
            quick: QuickDesk::default(),
            empty,
        }
    }

    /// The job, with the figure being typed in it.
    #[must_use]
    pub fn job(&self) -> &Job {
        self.preview.as_ref().unwrap_or_else(|| self.saved())
    }

    /// The job as it is kept.
    #[must_use]
    pub fn saved(&self) -> &Job {
        self.open.as_ref().map_or(&self.empty, OpenJob::job)
    }

    /// The open job, where there is one.
    #[must_use]
    pub fn open(&self) -> Option<&OpenJob> {
        self.open.as_ref()
    }

    /// Makes a change and saves it; what stands in the way is said.
    pub fn change(&mut self, edit: Edit) -> bool {
        let Some(open) = &mut self.open else {
            return false;
        };
        let result = open.change(edit);
        // What is typed next is a step of its own.
        open.close_step();
        self.after(result.map(|()| None))
    }

    /// Makes a change that can be taken back from the foot of the page.
    pub fn change_and_say(&mut self, edit: Edit, text: &str) {
        if self.change(edit) {
            self.put_snack(text, true);
        }
    }

    pub fn undo(&mut self) {
        let Some(open) = &mut self.open else { return };
        let result = open.undo();
        self.after(result.map(|label| label.map(|label| format!("Undone: {label}"))));
    }

    pub fn redo(&mut self) {
        let Some(open) = &mut self.open else { return };
        let result = open.redo();
        self.after(result.map(|label| label.map(|label| format!("Done again: {label}"))));
    }

    /// Makes a change as part of the latest step: the letters of one name are undone at once.
    pub fn amend(&mut self, edit: Edit) -> bool {
        let Some(open) = &mut self.open else {
            return false;
        };
        let result = open.amend(edit);
        self.after(result.map(|()| None))
    }

    /// Explains a figure in a few words over the page.
    pub fn explain(&mut self, title: &str, text: &str) {
        self.notice = Some(Notice {
            title: title.to_owned(),
            text: text.to_owned(),
            action: None,
        });
    }

    fn after(&mut self, result: Result<Option<String>, crate::store::ChangeError>) -> bool {
        match result {
            Ok(words) => {
                self.hush();
                if let Some(words) = words {
                    self.say(&words);
                }
                self.solve();
                true
            }
            Err(why) => {
                self.say(&why.to_string());
                false
            }
        }
    }

    /// Says a few words at the foot of the page.
    pub fn say(&mut self, text: &str) {
        self.put_snack(text, false);
    }

    fn put_snack(&mut self, text: &str, undoable: bool) {
        self.snack = Some(Snack {
            text: text.to_owned(),
            undoable,
        });
        self.just_said = true;
    }

    /// Takes away what was said at the foot of the page, unless it was said by what is being done.
    pub(super) fn hush(&mut self) {
        if !self.just_said {
            self.snack = None;
        }
    }

    pub(super) fn solve(&mut self) {
        self.solution = solve(self.job());
        self.sheet.forget();
    }
}
