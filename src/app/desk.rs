//! What is on the desk: the open job, its solution, the figure being typed, and what is looked at.

use super::Then;
use super::device::Device;
use super::entry::{Entry, Typed};
use super::field::{Field, Focus};
use super::over::{Act, Menu, Over};
use super::picture::View;
use super::preview::Preview;
use crate::drawing::Target;
use crate::job::Job;
use crate::job::edit::{Edit, Thing, apply};
use crate::store::{Access, JobKey, Jobs, OpenJob};
use crate::{Solution, solve};
use std::collections::{HashMap, HashSet};
use std::rc::Rc;

/// Everything the screens are filled from.
pub struct Desk {
    pub jobs: Jobs,
    pub device: Rc<dyn Device>,
    open: Option<OpenJob>,
    /// Of the job as it stands or, while a figure is typed, with that figure in it.
    pub solution: Solution,
    /// The job with the figure being typed in it.
    preview: Option<Job>,
    pub entry: Option<Entry>,
    /// Figures typed and not entered, by the field's key.
    drafts: HashMap<String, String>,
    pub view: View,
    pub sheet: Preview,
    /// The next press on the plan puts a new mark there.
    pub placing: bool,
    /// The mark or wall that is being given another name.
    pub renaming: Option<Thing>,
    pub chosen: Chosen,
    pub snack: Option<Snack>,
    /// Words to be laid over the page.
    pub notice: Option<Notice>,
    /// Things to choose from, to be laid over the page.
    pub menu: Option<Menu>,
    pub(super) over: Over,
    /// Cautions that this job has shown in full, by key.
    pub(super) told: HashSet<&'static str>,
    /// The job whose caution before digging has been shown in full.
    pub(super) cautioned: Option<JobKey>,
    /// What the pages of Quick hold: figures by name, mm or degrees.
    pub figures: HashMap<&'static str, f64>,
    empty: Job,
}

/// What a person is looking at in each place. Places in the file's lists, posts from 1.
#[derive(Clone, Debug, PartialEq)]
pub struct Chosen {
    pub reading: Option<usize>,
    pub mark: Option<usize>,
    pub line: usize,
    pub corner: usize,
    pub run: usize,
    pub post: usize,
    pub setup: usize,
    /// 0 near face, 1 centre, 2 far face.
    pub face: usize,
    /// Arm of the check diagonal, mm.
    pub arm: f64,
    /// What the check diagonal really read, mm.
    pub diagonal: Option<f64>,
}

impl Default for Chosen {
    fn default() -> Self {
        Self {
            reading: None,
            mark: None,
            line: 0,
            corner: 0,
            run: 0,
            post: 1,
            setup: 0,
            face: 0,
            arm: 1500.0,
            diagonal: None,
        }
    }
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
            solution: solve(&empty),
            preview: None,
            entry: None,
            drafts: HashMap::new(),
            view: View::default(),
            sheet: Preview::default(),
            placing: false,
            renaming: None,
            chosen: Chosen::default(),
            snack: None,
            notice: None,
            menu: None,
            over: Over::default(),
            told: HashSet::new(),
            cautioned: None,
            figures: HashMap::new(),
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

    /// Tries again to write what could not be written.
    pub fn retry(&mut self) {
        if let Some(open) = &mut self.open {
            open.retry();
        }
    }

    /// Puts a job on the desk; what was being typed for another is gone with it.
    pub fn take(&mut self, mut open: OpenJob) {
        let said: Vec<String> = open
            .take_notices()
            .iter()
            .map(ToString::to_string)
            .collect();
        if let Access::View(why) = open.access() {
            self.say(&why.to_string());
        }
        if !said.is_empty() {
            self.notice = Some(Notice {
                title: "About this job".to_owned(),
                text: said.join("\n\n"),
                action: None,
            });
        }
        self.open = Some(open);
        self.entry = None;
        self.preview = None;
        self.drafts.clear();
        self.told.clear();
        self.chosen = Chosen::default();
        self.view = View::default();
        self.sheet = Preview::default();
        self.solve();
    }

    /// Takes the job off the desk.
    pub fn put_away(&mut self) {
        self.open = None;
        self.entry = None;
        self.preview = None;
        self.solve();
    }

    /// Makes a change and saves it; what stands in the way is said.
    pub fn change(&mut self, edit: Edit) -> bool {
        let Some(open) = &mut self.open else {
            return false;
        };
        let result = open.change(edit);
        self.after(result.map(|()| None))
    }

    /// Makes a change that can be taken back from the foot of the page.
    pub fn change_and_say(&mut self, edit: Edit, text: &str) {
        if self.change(edit) {
            self.snack = Some(Snack {
                text: text.to_owned(),
                undoable: true,
            });
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
        self.snack = Some(Snack {
            text: text.to_owned(),
            undoable: false,
        });
    }

    /// Asks for a figure.
    pub fn ask(&mut self, field: Box<dyn Field>) {
        let draft = self.drafts.remove(&field.key());
        self.entry = Some(Entry::new(field, self.saved(), draft));
        self.preview_entry();
    }

    /// One key of the keypad.
    pub fn key(&mut self, key: &str) {
        if let Some(entry) = &mut self.entry {
            entry.key(key);
            self.preview_entry();
        }
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
                self.preview = None;
                match entry.field.edit(self.saved(), value) {
                    Some(edit) => {
                        if !self.change(edit) {
                            self.entry = Some(entry);
                            return true;
                        }
                    }
                    None => {
                        entry.field.entered(self, value);
                        self.solve();
                    }
                }
            }
            // Nothing typed: what is there stays.
            Typed::Nothing => {}
            Typed::GoOn | Typed::Wrong(_) => {
                self.entry = Some(entry);
                return true;
            }
        }
        match entry.field.next(self.saved()) {
            Some(next) => {
                self.ask(next);
                true
            }
            None => {
                self.preview_entry();
                false
            }
        }
    }

    /// Leaves the keypad; what was typed is there again when the figure is asked for again.
    pub fn leave_entry(&mut self) {
        if let Some(entry) = self.entry.take()
            && !entry.text.is_empty()
        {
            self.drafts.insert(entry.field.key(), entry.text);
        }
        self.preview_entry();
    }

    /// What was typed and not entered, by the field's key.
    #[must_use]
    pub fn draft(&self, key: &str) -> Option<&str> {
        self.drafts.get(key).map(String::as_str)
    }

    /// What the drawing stresses.
    #[must_use]
    pub fn focus(&self) -> Focus {
        self.entry
            .as_ref()
            .map_or(Focus::Nothing, |entry| entry.field.focus(self.saved()))
    }

    fn preview_entry(&mut self) {
        let edit = self
            .typed()
            .and_then(|value| self.entry.as_ref()?.field.edit(self.saved(), value));
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

    fn solve(&mut self) {
        self.solution = solve(self.job());
        self.sheet.forget();
    }
}

impl Chosen {
    /// The reading or mark that is picked out on the plan.
    #[must_use]
    pub fn target(&self, job: &Job) -> Option<Target> {
        let reading = self.reading.filter(|&at| at < job.readings.len());
        let mark = || {
            job.marks
                .get(self.mark?)
                .map(|mark| Target::Mark(mark.id.clone()))
        };
        reading.map(Target::Reading).or_else(mark)
    }
}

impl Desk {
    /// Picks out what was pressed on the drawing.
    pub fn pick(&mut self, target: &Target) -> Then {
        let job = self.open.as_ref().map_or(&self.empty, OpenJob::job);
        let chosen = &mut self.chosen;
        match target {
            Target::Reading(at) => (chosen.reading, chosen.mark) = (Some(*at), None),
            Target::Mark(id) => {
                chosen.mark = job.marks.iter().position(|mark| mark.id == *id);
                chosen.reading = None;
            }
            Target::Line(id) => {
                chosen.line = job
                    .lines
                    .iter()
                    .position(|line| line.id == *id)
                    .unwrap_or(chosen.line);
            }
            Target::Corner(id) => {
                let at = job.corners.iter().position(|corner| corner.id == *id);
                chosen.corner = at.unwrap_or(chosen.corner);
            }
            Target::Post { run, n } => {
                let at = job.runs.iter().position(|one| one.id == *run);
                (chosen.run, chosen.post) = (at.unwrap_or(chosen.run), *n);
            }
            Target::Gate { run, .. } | Target::Bay { run, .. } => {
                let at = job.runs.iter().position(|one| one.id == *run);
                chosen.run = at.unwrap_or(chosen.run);
            }
            Target::Wall(_) | Target::Setup(_) | Target::Point(_) => {}
        }
        Then::Stay
    }
}
