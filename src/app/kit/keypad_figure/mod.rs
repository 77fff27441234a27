//! A figure that is typed, as data: what it is called, how it is read, where it is kept, and what is
//! said of it. A row of a form and the keypad are both made of it.
//!
//! ```text
//!   KeypadFigure::kept("Depth of hole", hole, |hole| Some(&mut hole.depth), put_hole)
//!     .noted(…) .judged(…) .then(…)
//!        ├── row(job) ──▶ the row: label, note, value; pressing it asks
//!        └── Prompt   ──▶ the keypad: title, hint, verdict, the figure after it
//! ```

mod prompt;
mod slot;

pub use slot::Slot;

use super::fields::{FormRow, figure};
use super::problems::problem_in;
use super::words::status;
use crate::app::desk::entry::plain;
use crate::app::desk::{Desk, Entered, FigureKind, FigureOf, Focus};
use crate::job::edit::Edit;
use crate::job::{Job, Severity};
use crate::length::{self, Unit};
use std::rc::Rc;
use tautmark_ui::{Status, Verdict};

type OfJob<T> = Rc<dyn Fn(&Job) -> T>;
/// What entering a figure does to a job.
type Enter = Rc<dyn Fn(&Job, f64) -> Entered>;
/// What is said on the keypad: with nothing typed, and of what is typed.
type Hint = Rc<dyn Fn(&Desk) -> Option<Status>>;
type Judge = Rc<dyn Fn(&Desk, f64) -> Option<Status>>;
/// What is asked before a figure is entered.
type Question = Rc<dyn Fn(&Desk, f64) -> Option<String>>;

/// A figure that is typed.
#[derive(Clone)]
pub struct KeypadFigure {
    key: String,
    of: Option<FigureOf>,
    label: String,
    note: String,
    kind: FigureKind,
    focus: Focus,
    unit: Option<Unit>,
    negative_at_first: bool,
    title: OfJob<String>,
    get: OfJob<Option<f64>>,
    enter: Enter,
    hint: Hint,
    judge: Judge,
    question: Question,
    confirms: bool,
    /// What takes the figure away, where it can be done without.
    empty: OfJob<Option<Edit>>,
    progress: OfJob<Option<(usize, usize)>>,
    next: OfJob<Option<KeypadFigure>>,
    extra: OfJob<Option<(&'static str, KeypadFigure)>>,
}

impl KeypadFigure {
    /// A figure of the job: what the job has (mm, degrees or a number), and the change that enters
    /// another, `None` where what it is of is gone. Its label is its key too.
    pub fn new(
        label: impl Into<String>,
        get: impl Fn(&Job) -> Option<f64> + 'static,
        edit: impl Fn(&Job, f64) -> Option<Edit> + 'static,
    ) -> Self {
        Self::entering(label, get, move |job, value| {
            let edit = edit(job, value).map(Box::new);
            edit.map_or_else(|| Entered::Refused(GONE.to_owned()), Entered::Edit)
        })
    }

    /// A figure of a part of the job: how that is taken out of the job, where in it the figure is
    /// kept, and the change that puts it back.
    pub fn kept<T: 'static>(
        label: impl Into<String>,
        take: impl Fn(&Job) -> Option<T> + Clone + 'static,
        slot: impl Fn(&mut T) -> Option<&mut dyn Slot> + Clone + 'static,
        put: impl Fn(T) -> Edit + Clone + 'static,
    ) -> Self {
        let (taken, place) = (take.clone(), slot.clone());
        let get = move |job: &Job| place(&mut taken(job)?)?.figure();
        let (whole, gone, without) = (take.clone(), slot.clone(), put.clone());
        let mut figure = Self::new(label, get, move |job, value| {
            let mut part = take(job)?;
            slot(&mut part)?.keep(value);
            Some(put(part))
        });
        figure.empty = Rc::new(move |job| {
            let mut part = whole(job)?;
            gone(&mut part)?.clear().then(|| without(part))
        });
        figure
    }

    /// A figure with something of its own to do when it is entered.
    pub fn entering(
        label: impl Into<String>,
        get: impl Fn(&Job) -> Option<f64> + 'static,
        enter: impl Fn(&Job, f64) -> Entered + 'static,
    ) -> Self {
        let label: String = label.into();
        let title = format!("**{label}**");
        Self {
            key: label.clone(),
            of: None,
            label,
            note: String::new(),
            kind: FigureKind::Length,
            focus: Focus::Nothing,
            unit: None,
            negative_at_first: false,
            title: Rc::new(move |_| title.clone()),
            get: Rc::new(get),
            enter: Rc::new(enter),
            hint: Rc::new(|_| None),
            judge: Rc::new(|_, _| None),
            question: Rc::new(|_, _| None),
            confirms: false,
            empty: Rc::new(|_| None),
            progress: Rc::new(|_| None),
            next: Rc::new(|_| None),
            extra: Rc::new(|_| None),
        }
    }

    /// What was typed and not entered is kept under this.
    #[must_use]
    pub fn keyed(mut self, key: impl Into<String>) -> Self {
        self.key = key.into();
        self
    }

    /// A figure of this thing of the job: what was typed of it and not entered goes where that goes.
    #[must_use]
    pub fn of(mut self, of: FigureOf) -> Self {
        self.of = Some(of);
        self
    }

    /// What stands over the keypad, with the figure's own name in `**bold**`.
    #[must_use]
    pub fn titled(mut self, title: impl Fn(&Job) -> String + 'static) -> Self {
        self.title = Rc::new(title);
        self
    }

    /// With how it is taken, said under its name and, with nothing typed, on the keypad.
    #[must_use]
    pub fn noted(mut self, note: &'static str) -> Self {
        note.clone_into(&mut self.note);
        self.hinted(move |_| note.to_owned())
    }

    /// With how it is taken, said on the keypad alone; nothing is said where that is empty.
    #[must_use]
    pub fn hinted(mut self, hint: impl Fn(&Desk) -> String + 'static) -> Self {
        self.hint = Rc::new(move |desk| {
            let hint = hint(desk);
            (!hint.is_empty()).then(|| status(Verdict::Note, &hint))
        });
        self
    }

    #[must_use]
    pub fn of_kind(mut self, kind: FigureKind) -> Self {
        self.kind = kind;
        self
    }

    /// Read from elsewhere than where it is kept.
    #[must_use]
    pub fn reading(mut self, get: impl Fn(&Job) -> Option<f64> + 'static) -> Self {
        self.get = Rc::new(get);
        self
    }

    /// Typed so much less than what is kept, as a face is from a post's centre.
    #[must_use]
    pub fn off_by(mut self, more: f64) -> Self {
        let enter = self.enter.clone();
        self.enter = Rc::new(move |job, value| enter(job, value + more));
        self
    }

    /// Typed in another unit than the job's.
    #[must_use]
    pub fn in_unit(mut self, unit: Unit) -> Self {
        self.unit = Some(unit);
        self
    }

    /// Where nothing is there yet, the second sign key counts as pressed.
    #[must_use]
    pub fn negative_at_first(mut self) -> Self {
        self.negative_at_first = true;
        self
    }

    /// With whether it fits once it is typed; the solution already has the figure in it.
    #[must_use]
    pub fn judged(mut self, judge: impl Fn(&Desk, f64) -> Option<Status> + 'static) -> Self {
        self.judge = Rc::new(judge);
        self
    }

    /// With what is asked before a figure is entered that can hardly be meant.
    #[must_use]
    pub fn questioned(mut self, ask: impl Fn(&Desk, f64) -> Option<String> + 'static) -> Self {
        self.question = Rc::new(ask);
        self
    }

    /// One whose usual figure is taken as the job's own once Next is pressed on it.
    #[must_use]
    pub fn confirmed_by_next(mut self) -> Self {
        self.confirms = true;
        self
    }

    /// With what is wrong in this place of the file, once it is typed.
    #[must_use]
    pub fn told_at(self, place: &'static str) -> Self {
        self.judged(move |desk, _| problem_in(desk, place, Severity::Warning))
    }

    /// With the figure asked for after this one has been entered.
    #[must_use]
    pub fn then(mut self, next: impl Fn(&Job) -> Option<KeypadFigure> + 'static) -> Self {
        self.next = Rc::new(next);
        self
    }

    /// With the one asked for after it, whatever was entered.
    #[must_use]
    pub fn followed_by(self, next: &KeypadFigure) -> Self {
        let next = next.clone();
        self.then(move |_| Some(next.clone()))
    }

    /// With which of how many it is.
    #[must_use]
    pub fn progress(mut self, of: impl Fn(&Job) -> Option<(usize, usize)> + 'static) -> Self {
        self.progress = Rc::new(of);
        self
    }

    /// With a further key of its own, and the figure that asks for.
    #[must_use]
    pub fn with_key(
        mut self,
        extra: impl Fn(&Job) -> Option<(&'static str, KeypadFigure)> + 'static,
    ) -> Self {
        self.extra = Rc::new(extra);
        self
    }

    /// With what the drawing stresses meanwhile.
    #[must_use]
    pub fn stressing(mut self, focus: Focus) -> Self {
        self.focus = focus;
        self
    }

    /// Its row on a form.
    #[must_use]
    pub fn row(&self, job: &Job) -> FormRow {
        let value = (self.get)(job).map(|value| match self.kind {
            FigureKind::Count => format!("{value:.0}"),
            FigureKind::Degrees | FigureKind::Number(_) => plain(value),
            FigureKind::FineLength => length::show_fine(value, job.show.lengths, 1),
            FigureKind::Length | FigureKind::Signed(_) => length::show(value, job.show.lengths),
        });
        self.row_showing(value.as_deref().unwrap_or("—"))
    }

    /// The same with its value in words of its own.
    #[must_use]
    pub fn row_showing(&self, value: &str) -> FormRow {
        let asked = self.clone();
        let row = figure(&self.label, value, |desk| desk.ask(asked));
        row.noted(&self.note)
    }
}

const GONE: &str = "What this figure is of is not in the job any more. Leave it with the cross.";

#[cfg(test)]
mod tests {
    use super::*;
    use crate::app::desk::Prompt;
    use crate::app::device::Desktop;
    use crate::job::example;
    use crate::store::Jobs;

    #[test]
    fn a_figure_of_what_is_gone_is_said_and_stays_typed() {
        let folder = tempfile::tempdir().expect("a folder for the jobs");
        let jobs = Jobs::in_folder(folder.path());
        let open = jobs.start(example());
        let mut desk = Desk::new(jobs, Rc::new(Desktop::saving_in(folder.path())));
        desk.take(open);
        desk.ask(KeypadFigure::new("Tape", |_| None, |_, _| None));
        desk.key("7");
        assert!(desk.enter(), "the keypad stays");
        let entry = desk.entry.as_ref().expect("the figure is still asked for");
        assert_eq!(entry.text, "7");
        let snack = desk.snack.as_ref().expect("why is said");
        assert!(snack.text.contains("not in the job"), "{}", snack.text);
        assert_eq!(*desk.saved(), example());
    }

    #[test]
    fn a_figure_is_read_from_where_it_is_kept() {
        let pulled = KeypadFigure::kept(
            "Pull",
            |job: &Job| Some(job.tape.clone()),
            |tape| Some(&mut tape.pull),
            |tape| Edit::Set(crate::job::edit::Setting::Tape(tape)),
        );
        let mut job = example();
        job.tape.pull = 0.25;
        assert_eq!(pulled.value(&job), Some(0.25));
        let Entered::Edit(edit) = pulled.enter(&job, 0.5) else {
            panic!("it changes the job");
        };
        crate::job::edit::apply(&mut job, &edit).expect("there is a tape");
        assert_eq!(job.tape.pull, 0.5);
    }
}
