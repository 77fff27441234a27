//! What a form shows: its rows, each with what it does, and what stands round them.
//!
//! ```text
//!   page: fn(&Desk) ──▶ FormContents { rows: [what is seen · what it does], … }
//!                          ├── shown: the rows' fields, told apart by their places
//!                          └── pressed: the row of that place does what it carries
//! ```

use super::words::{silence, status};
use crate::app::desk::{Desk, Then, caution};
use crate::cautions::Caution;
use slint::{ModelRc, SharedString, VecModel};
use tautmark_ui::{Field, FieldKind, PaintedDrawing, Status, Verdict};

/// What a press does.
type Press = Box<dyn FnOnce(&mut Desk) -> Then>;
/// What a press does with the place, from 0, of what was picked.
type PickOne = Box<dyn FnOnce(&mut Desk, usize) -> Then>;
/// What is done with a name as it now reads.
type WriteName = Box<dyn FnOnce(&mut Desk, &str) -> Then>;

/// What a row of a form does.
enum Does {
    Nothing,
    Press(Press),
    /// One of a few is picked, from 0.
    Pick(PickOne),
    /// A name is typed, one letter more or less.
    Write(WriteName),
}

/// A row of a form: what is seen of it, and what it does.
pub struct FormRow {
    field: Field,
    does: Does,
}

/// What a form shows. Figures are ready text in the job's own unit.
pub struct FormContents {
    pub status: Status,
    /// The figure that comes out of it all.
    pub figure: Option<FormFigure>,
    rows: Vec<FormRow>,
    /// Stand in a line under the rows, and open in full.
    pub cautions: &'static [Caution],
    pub primary: Option<FormButton>,
    pub secondary: Option<FormButton>,
}

/// The main figure of a form: what it is of, the figure, its ± or unit, and what says where it comes
/// from.
pub struct FormFigure {
    pub what: String,
    pub figure: String,
    pub tail: String,
    pub explain: Press,
}

/// A button at the foot of a form.
pub struct FormButton {
    pub name: String,
    pub enabled: bool,
    does: Press,
}

impl FormButton {
    /// A button of this name.
    #[must_use]
    pub fn new(name: impl Into<String>, does: impl FnOnce(&mut Desk) -> Then + 'static) -> Self {
        Self {
            name: name.into(),
            enabled: true,
            does: Box::new(does),
        }
    }

    /// The same, to be pressed only where that makes sense.
    #[must_use]
    pub fn enabled(self, enabled: bool) -> Self {
        Self { enabled, ..self }
    }
}

impl FormContents {
    /// A form with rows, and nothing else yet.
    #[must_use]
    pub fn new(rows: Vec<FormRow>) -> Self {
        Self {
            status: silence(),
            figure: None,
            rows,
            cautions: &[],
            primary: None,
            secondary: None,
        }
    }

    /// With a sentence at its head.
    #[must_use]
    pub fn saying(mut self, verdict: Verdict, text: &str) -> Self {
        self.status = status(verdict, text);
        self
    }

    /// With more rows below the others.
    pub fn extend(&mut self, rows: impl IntoIterator<Item = FormRow>) {
        self.rows.extend(rows);
    }

    /// Its rows as the screen lists them, each with its place as its id.
    pub fn fields(&self) -> impl Iterator<Item = Field> {
        let rows = self.rows.iter().enumerate();
        rows.map(|(at, row)| Field {
            id: at.to_string().into(),
            ..row.field.clone()
        })
    }

    fn does(&mut self, id: &str) -> Does {
        let row = id.parse().ok().and_then(|at: usize| self.rows.get_mut(at));
        row.map_or(Does::Nothing, |row| {
            std::mem::replace(&mut row.does, Does::Nothing)
        })
    }

    /// The row of this id is pressed.
    pub fn press(mut self, desk: &mut Desk, id: &str) -> Then {
        match self.does(id) {
            Does::Press(does) => does(desk),
            Does::Nothing | Does::Pick(_) | Does::Write(_) => Then::Stay,
        }
    }

    /// One of the choice of this id is picked, from 0.
    pub fn pick(mut self, desk: &mut Desk, id: &str, index: usize) -> Then {
        match self.does(id) {
            Does::Pick(does) => does(desk, index),
            Does::Nothing | Does::Press(_) | Does::Write(_) => Then::Stay,
        }
    }

    /// The text of this id now reads so.
    pub fn write(mut self, desk: &mut Desk, id: &str, text: &str) -> Then {
        match self.does(id) {
            Does::Write(does) => does(desk, text),
            Does::Nothing | Does::Press(_) | Does::Pick(_) => Then::Stay,
        }
    }

    /// The main figure is pressed.
    pub fn explain(self, desk: &mut Desk) -> Then {
        self.figure
            .map_or(Then::Stay, |figure| (figure.explain)(desk))
    }

    /// The line of cautions is pressed.
    pub fn open_caution(self, desk: &mut Desk) -> Then {
        caution::open(desk, self.cautions)
    }

    /// The main button is pressed.
    pub fn press_primary(self, desk: &mut Desk) -> Then {
        self.primary
            .map_or(Then::Stay, |button| (button.does)(desk))
    }

    /// The other button is pressed.
    pub fn press_secondary(self, desk: &mut Desk) -> Then {
        self.secondary
            .map_or(Then::Stay, |button| (button.does)(desk))
    }
}

impl FormRow {
    fn new(kind: FieldKind, label: &str, does: Does) -> Self {
        let field = Field {
            kind,
            label: label.into(),
            ..Field::default()
        };
        Self { field, does }
    }

    /// With a line under its name.
    #[must_use]
    pub fn noted(mut self, note: impl AsRef<str>) -> Self {
        self.field.note = note.as_ref().into();
        self
    }

    /// With a picture of what each of its options does.
    #[must_use]
    pub fn pictured(mut self, pictures: Vec<PaintedDrawing>) -> Self {
        self.field.pictures = ModelRc::new(VecModel::from(pictures));
        self
    }

    /// With what is wrong with it in place of its note.
    #[must_use]
    pub fn blamed(mut self, why: &str) -> Self {
        self.field.verdict = Verdict::Bad;
        self.noted(why)
    }

    fn showing(mut self, value: &str) -> Self {
        self.field.value = value.into();
        self
    }
}

/// Names the fields below it.
#[must_use]
pub fn heading(label: &str) -> FormRow {
    FormRow::new(FieldKind::Heading, label, Does::Nothing)
}

/// A figure that is typed: pressing it asks for it.
#[must_use]
pub fn figure(label: &str, value: &str, ask: impl FnOnce(&mut Desk) -> Then + 'static) -> FormRow {
    FormRow::new(FieldKind::Figure, label, Does::Press(Box::new(ask))).showing(value)
}

/// A figure that is worked out, with its ± or unit: pressing it says where it comes from.
#[must_use]
pub fn result(
    label: &str,
    value: &str,
    tail: &str,
    explain: impl FnOnce(&mut Desk) -> Then + 'static,
) -> FormRow {
    let does = Does::Press(Box::new(explain));
    let mut row = FormRow::new(FieldKind::Result, label, does).showing(value);
    row.field.tail = tail.into();
    row
}

/// Something to pick elsewhere, such as a wall or a mark, or a row that does something.
#[must_use]
pub fn pick(label: &str, value: &str, does: impl FnOnce(&mut Desk) -> Then + 'static) -> FormRow {
    FormRow::new(FieldKind::Pick, label, Does::Press(Box::new(does))).showing(value)
}

/// One of a few, each by its name and what it stands for; `there` is the one that is chosen now.
#[must_use]
pub fn choice<T: PartialEq + 'static>(
    label: &str,
    options: impl IntoIterator<Item = (impl Into<SharedString>, T)>,
    there: Option<T>,
    pick: impl FnOnce(&mut Desk, T) -> Then + 'static,
) -> FormRow {
    let mut names: Vec<SharedString> = Vec::new();
    let mut what: Vec<T> = Vec::new();
    for (name, one) in options {
        names.push(name.into());
        what.push(one);
    }
    let chosen = what.iter().position(|one| Some(one) == there.as_ref());
    let does = move |desk: &mut Desk, at| {
        let picked = what.into_iter().nth(at);
        picked.map_or(Then::Stay, |one| pick(desk, one))
    };
    let mut row = FormRow::new(FieldKind::Choice, label, Does::Pick(Box::new(does)));
    row.field.options = ModelRc::new(VecModel::from(names));
    row.field.chosen = chosen.and_then(|at| i32::try_from(at).ok()).unwrap_or(-1);
    row
}

/// On or off.
#[must_use]
pub fn check(
    label: &str,
    checked: bool,
    toggle: impl FnOnce(&mut Desk) -> Then + 'static,
) -> FormRow {
    let mut row = FormRow::new(FieldKind::Check, label, Does::Press(Box::new(toggle)));
    row.field.checked = checked;
    row
}

/// A name; `placeholder` shows while it is empty.
#[must_use]
pub fn text(
    label: &str,
    placeholder: &str,
    value: &str,
    write: impl FnOnce(&mut Desk, &str) -> Then + 'static,
) -> FormRow {
    let does = Does::Write(Box::new(write));
    let row = FormRow::new(FieldKind::Text, label, does).noted(placeholder);
    row.showing(value)
}
