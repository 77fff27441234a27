//! The desk: the only owner of state. The open job, its solution, the figure being typed, where the
//! person is, and what is looked at there. It knows no screen.
//!
//! ```text
//!   act ──▶ Desk { open job · solution · entry · nav · chosen · over } ──▶ screens are filled
//!                       └── every change of the job is an Edit, kept by the store
//! ```

pub mod caution;
pub mod chosen;
pub mod drafts;
pub mod entry;
pub mod held;
pub mod nav;
pub mod over;
pub mod prompt;
pub mod run;
pub mod seen;
pub mod typing;

pub use chosen::Chosen;
pub use drafts::{Draft, FigureOf};
pub use entry::{KeypadEntry, Typed};
pub use nav::{Then, Whereabouts, root_of};
pub use over::{Menu, Notice, Rows, Snack};
pub use prompt::{Entered, FigureKind, Focus, Prompt};
pub use run::{problems_of, run_fix, run_in_sight};
pub use seen::{Listed, QuickInSight, SheetPreview, Viewport};

use crate::app::device::Device;
use crate::job::Job;
use crate::job::edit::{Edit, Thing};
use crate::store::{ChangeError, JobKey, Jobs, OpenJob};
use crate::{Solution, solve};
use std::cell::RefCell;
use std::collections::{BTreeMap, HashSet};
use std::rc::Rc;

/// Everything the screens are filled from.
pub struct Desk {
    /// Where the jobs are kept.
    pub jobs: Jobs,
    /// The device around the app.
    pub device: Rc<dyn Device>,
    pub(crate) open: Option<OpenJob>,
    /// Jobs that were taken off the desk with changes that could not be written; tried again until
    /// they can.
    pub(crate) aside: Vec<OpenJob>,
    /// Where the person is.
    pub nav: Whereabouts,
    /// Of the job as it stands or, while a figure is typed, with that figure in it.
    pub solution: Solution,
    /// The job with the figure being typed in it.
    pub(crate) preview: Option<Job>,
    /// The figure being typed, while the keypad is open.
    pub entry: Option<KeypadEntry>,
    /// Figures typed and not entered, by the job's and the field's key.
    pub(crate) drafts: BTreeMap<String, Draft>,
    /// What of the drawing is seen.
    pub view: Viewport,
    /// The sheet's page in sight.
    pub sheet: SheetPreview,
    /// The next press on the plan puts a new mark there.
    pub placing: bool,
    /// The mark or wall that is being given another name.
    pub renaming: Option<Thing>,
    /// The job in the list that is being given another title, and the title so far.
    pub(crate) retitling: Option<(JobKey, String)>,
    /// What is looked at in each place.
    pub chosen: Chosen,
    /// Figures are read aloud, where the device has a voice.
    pub aloud: bool,
    /// Words at the foot of the page.
    pub snack: Option<Snack>,
    /// The snack was said by what is being done now, and not before.
    pub(crate) just_said: bool,
    /// Words that lie over the page.
    pub notice: Option<Notice>,
    /// Things to choose from, over the page.
    pub menu: Option<Menu>,
    /// Cautions that this job has shown in full, by key.
    pub(crate) told: HashSet<&'static str>,
    /// What was typed in Quick and for the laser check: figures by name, mm, degrees or numbers.
    pub figures: BTreeMap<String, f64>,
    /// The quick sum in sight.
    pub quick: QuickInSight,
    pub(crate) listed: RefCell<Listed>,
    /// Jobs that were being opened when the program last stopped: left alone until a person says so.
    pub(crate) not_opened: HashSet<JobKey>,
    /// The window is to close, whatever is not saved.
    pub(crate) leaving: bool,
    /// Stands in where no job is open.
    pub(crate) empty: Job,
}

impl Desk {
    /// A desk with no job on it.
    #[must_use]
    pub fn new(jobs: Jobs, device: Rc<dyn Device>) -> Self {
        let empty = Job::new("");
        let not_opened = jobs.not_opened().into_iter().collect();
        Self {
            jobs,
            device,
            open: None,
            aside: Vec::new(),
            nav: Whereabouts::default(),
            solution: solve(&empty),
            preview: None,
            entry: None,
            drafts: BTreeMap::new(),
            view: Viewport::default(),
            sheet: SheetPreview::default(),
            placing: false,
            renaming: None,
            retitling: None,
            chosen: Chosen::default(),
            aloud: false,
            snack: None,
            just_said: false,
            notice: None,
            menu: None,
            told: HashSet::new(),
            figures: BTreeMap::new(),
            listed: RefCell::default(),
            not_opened,
            leaving: false,
            quick: QuickInSight::default(),
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
        self.with_open(|open| {
            let result = open.change(edit);
            // What is typed next is a step of its own.
            open.close_step();
            result.map(|()| None)
        })
    }

    /// Makes a change that can be taken back from the foot of the page.
    pub fn change_and_say(&mut self, edit: Edit, text: &str) -> Then {
        if self.change(edit) {
            self.put_snack(text, true);
        }
        Then::Stay
    }

    /// Says what was done, with the way back beside it.
    pub fn say_undoable(&mut self, text: &str) {
        self.put_snack(text, true);
    }

    /// Takes back the latest step.
    pub fn undo(&mut self) -> Then {
        let said = |label| format!("Undone: {label}");
        self.with_open(|open| Ok(open.undo()?.map(said)));
        Then::Stay
    }

    /// Does again what was taken back last.
    pub fn redo(&mut self) -> Then {
        let said = |label| format!("Redone: {label}");
        self.with_open(|open| Ok(open.redo()?.map(said)));
        Then::Stay
    }

    /// Makes a change as part of the latest step: the letters of one name are undone at once.
    pub fn amend(&mut self, edit: Edit) -> bool {
        self.with_open(|open| open.amend(edit).map(|()| None))
    }

    /// Does something to the open job: what came of it is said and solved, and what is half typed goes
    /// along. False where there is no job, or where it cannot be done.
    fn with_open(
        &mut self,
        does: impl FnOnce(&mut OpenJob) -> Result<Option<String>, ChangeError>,
    ) -> bool {
        let Some(open) = &mut self.open else {
            return false;
        };
        let before = open.job().clone();
        match does(open) {
            Ok(words) => {
                self.carry_drafts(&before);
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

    pub(crate) fn solve(&mut self) {
        self.solution = solve(self.job());
        self.sheet.forget();
    }
}
