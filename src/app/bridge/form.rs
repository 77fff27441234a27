//! A page of fields, filled into the one form there is; a press does what the row carries.

use super::Bridge;
use crate::app::desk::{Desk, Then, caution};
use crate::app::kit::{FormButton, FormContents, FormFigure, patched};
use slint::{Global, Model, SharedString};
use std::rc::Rc;
use tautmark_ui::{App, Field, FormVm};

pub fn wire(app: &App, bridge: &Rc<Bridge>) {
    let vm = FormVm::get(app);
    vm.on_pressed(bridge.on_form(|form, desk, id: SharedString| form.press(desk, &id)));
    vm.on_toggled(bridge.on_form(|form, desk, id: SharedString| form.press(desk, &id)));
    let pick = bridge.on_form(|form, desk, (id, index): (SharedString, i32)| {
        let index = usize::try_from(index).ok();
        index.map_or(Then::Stay, |index| form.pick(desk, &id, index))
    });
    vm.on_picked(move |id, index| pick((id, index)));
    let write = bridge.on_form(|form, desk, (id, text): (SharedString, SharedString)| {
        form.write(desk, &id, &text)
    });
    vm.on_edited(move |id, text| write((id, text)));
    let explain = bridge.on_form(|form, desk, ()| form.explain(desk));
    vm.on_figure_asked(move || explain(()));
    let caution = bridge.on_form(|form, desk, ()| form.open_caution(desk));
    vm.on_caution_pressed(move || caution(()));
    let primary = bridge.on_form(|form, desk, ()| form.press_primary(desk));
    vm.on_primary_pressed(move || primary(()));
    let secondary = bridge.on_form(|form, desk, ()| form.press_secondary(desk));
    vm.on_secondary_pressed(move || secondary(()));
}

impl Bridge {
    /// What does something with the form in sight, as it is then.
    fn on_form<T>(
        self: &Rc<Self>,
        what: impl Fn(FormContents, &mut Desk, T) -> Then + 'static,
    ) -> impl Fn(T) + 'static {
        let me = self.clone();
        move |value| {
            me.act(|desk| {
                let form = me.screen(desk.nav.page).form();
                form.map_or(Then::Stay, |form| what(form(desk), desk, value))
            });
        }
    }
}

/// Fills the form in sight.
pub fn fill(app: &App, title: Option<String>, contents: FormContents) {
    let vm = FormVm::get(app);
    vm.set_title(title.unwrap_or_default().into());
    let figure = contents.figure.as_ref();
    let part = |of: fn(&FormFigure) -> &str| SharedString::from(figure.map_or("", of));
    vm.set_figure_what(part(|figure| &figure.what));
    vm.set_figure(part(|figure| &figure.figure));
    vm.set_figure_tail(part(|figure| &figure.tail));
    let there = vm.get_fields();
    let rows = contents.fields().enumerate();
    let rows = rows.map(|(at, row)| with_same_options(row, there.row_data(at)));
    let rows = rows.collect();
    vm.set_fields(patched(there, rows));
    let name = |button: &Option<FormButton>| {
        let name = button.as_ref().map_or("", |button| button.name.as_str());
        SharedString::from(name)
    };
    vm.set_primary(name(&contents.primary));
    let enabled = contents.primary.as_ref();
    vm.set_primary_enabled(enabled.is_none_or(|button| button.enabled));
    vm.set_secondary(name(&contents.secondary));
    vm.set_caution(caution::line(contents.cautions));
    vm.set_status(contents.status);
}

/// Lists are equal only if they are the same one: a choice whose names have not changed keeps its
/// list, so that it is not drawn anew and keeps the focus.
fn with_same_options(row: Field, there: Option<Field>) -> Field {
    match there {
        Some(there) if there.options.iter().eq(row.options.iter()) => {
            let said = |row: &Field| -> Vec<SharedString> {
                let pictures = row.pictures.iter();
                pictures.map(|picture| picture.description).collect()
            };
            let pictures = if said(&there) == said(&row) {
                there.pictures
            } else {
                row.pictures
            };
            Field {
                options: there.options,
                pictures,
                ..row
            }
        }
        _ => row,
    }
}
