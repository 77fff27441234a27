//! What a form shows: its rows, and what stands round them.

use super::words::{silence, status};
use slint::{ModelRc, SharedString, VecModel};
use tautmark_ui::{Drawing, Field as Row, FieldKind, Status, Verdict};

/// What a form shows. Figures are ready text in the job's own unit.
pub struct FormContents {
    pub status: Status,
    /// The figure that comes out of it all.
    pub figure: Option<FormFigure>,
    pub rows: Vec<Row>,
    /// One line; empty where there is no caution.
    pub caution: String,
    /// Name of the main button; empty where there is none.
    pub primary: String,
    pub primary_enabled: bool,
    /// Name of the other button; empty where there is none.
    pub secondary: String,
}

/// The main figure of a form: what it is of, the figure, and its ± or unit.
pub struct FormFigure {
    pub what: String,
    pub figure: String,
    pub tail: String,
}

impl FormContents {
    /// A form with rows, and nothing else yet.
    #[must_use]
    pub fn new(rows: Vec<Row>) -> Self {
        Self {
            status: silence(),
            figure: None,
            rows,
            caution: String::new(),
            primary: String::new(),
            primary_enabled: true,
            secondary: String::new(),
        }
    }

    /// With a sentence at its head.
    #[must_use]
    pub fn saying(mut self, verdict: Verdict, text: &str) -> Self {
        self.status = status(verdict, text);
        self
    }
}

fn plain(kind: FieldKind, id: &str, label: &str) -> Row {
    Row {
        id: id.into(),
        kind,
        label: label.into(),
        ..Row::default()
    }
}

/// Names the fields below it.
#[must_use]
pub fn heading(label: &str) -> Row {
    plain(FieldKind::Heading, label, label)
}

/// A figure that is typed: pressing it asks for it.
#[must_use]
pub fn figure(id: &str, label: &str, note: &str, value: &str) -> Row {
    Row {
        note: note.into(),
        value: value.into(),
        ..plain(FieldKind::Figure, id, label)
    }
}

/// A figure that is worked out, with its ± or unit.
#[must_use]
pub fn result(id: &str, label: &str, note: &str, value: &str, tail: &str) -> Row {
    Row {
        note: note.into(),
        value: value.into(),
        tail: tail.into(),
        ..plain(FieldKind::Result, id, label)
    }
}

/// Something to pick elsewhere, such as a wall or a mark, or a row that does something.
#[must_use]
pub fn pick(id: &str, label: &str, note: &str, value: &str) -> Row {
    Row {
        note: note.into(),
        value: value.into(),
        ..plain(FieldKind::Pick, id, label)
    }
}

/// One of a few; `chosen` is `None` where none is.
#[must_use]
pub fn choice(id: &str, label: &str, options: &[&str], chosen: Option<usize>) -> Row {
    let options: Vec<SharedString> = options.iter().map(|&name| name.into()).collect();
    Row {
        options: ModelRc::new(VecModel::from(options)),
        chosen: chosen.and_then(|at| i32::try_from(at).ok()).unwrap_or(-1),
        ..plain(FieldKind::Choice, id, label)
    }
}

/// One of a few, with a picture of what each does.
#[must_use]
pub fn pictured(row: Row, pictures: Vec<Drawing>) -> Row {
    Row {
        pictures: ModelRc::new(VecModel::from(pictures)),
        ..row
    }
}

/// On or off.
#[must_use]
pub fn check(id: &str, label: &str, note: &str, checked: bool) -> Row {
    Row {
        note: note.into(),
        checked,
        ..plain(FieldKind::Check, id, label)
    }
}

/// A name; `placeholder` shows while it is empty.
#[must_use]
pub fn text(id: &str, label: &str, placeholder: &str, value: &str) -> Row {
    Row {
        note: placeholder.into(),
        value: value.into(),
        ..plain(FieldKind::Text, id, label)
    }
}
