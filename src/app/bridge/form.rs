//! A page of fields: what it shows and what a press on it does, filled into the one form there is.

use super::Bridge;
use crate::app::desk::{Desk, Then};
use crate::app::kit::fields::{FormContents, FormFigure};
use crate::app::kit::rows::patched;
use slint::{Global, Model, SharedString};
use std::rc::Rc;
use tautmark_ui::{App, Field as Row, FormVm};

/// A page of fields: what it shows, and what a press does.
pub trait FormPage {
    /// Stands at the head of the page.
    fn title(&self, desk: &Desk) -> String;

    /// What it shows now.
    fn contents(&self, desk: &Desk) -> FormContents;

    /// A figure, a result or a pick was pressed.
    fn pressed(&self, _desk: &mut Desk, _id: &str) -> Then {
        Then::Stay
    }

    /// One of a choice was picked, from 0.
    fn picked(&self, _desk: &mut Desk, _id: &str, _index: usize) -> Then {
        Then::Stay
    }

    /// A check was pressed.
    fn toggled(&self, _desk: &mut Desk, _id: &str) -> Then {
        Then::Stay
    }

    /// A name was typed, one letter more or less.
    fn edited(&self, _desk: &mut Desk, _id: &str, _text: &str) -> Then {
        Then::Stay
    }

    /// The main figure was pressed.
    fn figure_asked(&self, _desk: &mut Desk) -> Then {
        Then::Stay
    }

    /// The caution line was pressed.
    fn caution_pressed(&self, _desk: &mut Desk) -> Then {
        Then::Stay
    }

    /// The main button was pressed.
    fn primary(&self, _desk: &mut Desk) -> Then {
        Then::Stay
    }

    /// The other button was pressed.
    fn secondary(&self, _desk: &mut Desk) -> Then {
        Then::Stay
    }
}

pub fn wire(app: &App, bridge: &Rc<Bridge>) {
    let vm = FormVm::get(app);
    vm.on_pressed(bridge.on_form(|form, desk, id: SharedString| form.pressed(desk, &id)));
    vm.on_toggled(bridge.on_form(|form, desk, id: SharedString| form.toggled(desk, &id)));
    let pick = bridge.on_form(|form, desk, (id, index): (SharedString, i32)| {
        let index = usize::try_from(index).ok();
        index.map_or(Then::Stay, |index| form.picked(desk, &id, index))
    });
    vm.on_picked(move |id, index| pick((id, index)));
    let edit = bridge.on_form(|form, desk, (id, text): (SharedString, SharedString)| {
        form.edited(desk, &id, &text)
    });
    vm.on_edited(move |id, text| edit((id, text)));
    let asked = bridge.on_form(|form, desk, ()| form.figure_asked(desk));
    vm.on_figure_asked(move || asked(()));
    let caution = bridge.on_form(|form, desk, ()| form.caution_pressed(desk));
    vm.on_caution_pressed(move || caution(()));
    let primary = bridge.on_form(|form, desk, ()| form.primary(desk));
    vm.on_primary_pressed(move || primary(()));
    let secondary = bridge.on_form(|form, desk, ()| form.secondary(desk));
    vm.on_secondary_pressed(move || secondary(()));
}

impl Bridge {
    /// What does something with the form in sight.
    fn on_form<T>(
        self: &Rc<Self>,
        what: impl Fn(&dyn FormPage, &mut Desk, T) -> Then + 'static,
    ) -> impl Fn(T) + 'static {
        let me = self.clone();
        move |value| {
            let screen = me.look(|desk| me.screen(desk.nav.page));
            if let Some(form) = screen.form() {
                me.act(|desk| what(form, desk, value));
            }
        }
    }
}

/// Fills the form in sight.
pub fn fill(app: &App, desk: &Desk, form: &dyn FormPage) {
    let contents = form.contents(desk);
    let vm = FormVm::get(app);
    vm.set_title(form.title(desk).into());
    vm.set_status(contents.status);
    let figure = contents.figure;
    let part = |of: fn(&FormFigure) -> &str| SharedString::from(figure.as_ref().map_or("", of));
    vm.set_figure_what(part(|figure| &figure.what));
    vm.set_figure(part(|figure| &figure.figure));
    vm.set_figure_tail(part(|figure| &figure.tail));
    let there = vm.get_fields();
    let rows = contents.rows.into_iter().enumerate();
    let rows = rows
        .map(|(at, row)| with_same_options(row, there.row_data(at)))
        .collect();
    vm.set_fields(patched(there, rows));
    vm.set_caution(contents.caution.into());
    vm.set_primary(contents.primary.into());
    vm.set_primary_enabled(contents.primary_enabled);
    vm.set_secondary(contents.secondary.into());
}

/// Lists are equal only if they are the same one: a choice whose names have not changed keeps its
/// list, so that it is not drawn anew and keeps the focus.
fn with_same_options(row: Row, there: Option<Row>) -> Row {
    match there {
        Some(there) if there.options.iter().eq(row.options.iter()) => {
            let said = |row: &Row| -> Vec<SharedString> {
                let pictures = row.pictures.iter();
                pictures.map(|picture| picture.description).collect()
            };
            let pictures = if said(&there) == said(&row) {
                there.pictures
            } else {
                row.pictures
            };
            Row {
                options: there.options,
                pictures,
                ..row
            }
        }
        _ => row,
    }
}
