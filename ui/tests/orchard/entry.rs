//! Figures being typed.

use super::{said, status};
use slint::Global;
use tautmark_ui::{App, EntryVm, KeySigns, KeyUnits, Verdict};

/// A tape on the keypad.
pub fn reading(app: &App) {
    let vm = EntryVm::get(app);
    let (title, plain) = said("Tape, **A to C**");
    vm.set_title(title);
    vm.set_title_plain(plain);
    vm.set_progress("9 of 13".into());
    vm.set_figure("10 808".into());
    vm.set_tail("+ 76 = 10 884".into());
    vm.set_status(status(
        Verdict::Good,
        "The other readings make this **10 881 ± 6**: it fits.",
    ));
    vm.set_units(KeyUnits::Plain);
    vm.set_signs(KeySigns::None);
    vm.set_extra("Slope".into());
    vm.set_next("Next".into());
    vm.set_next_enabled(true);
}

/// The longest figure in feet and inches.
pub fn reading_feet(app: &App) {
    reading(app);
    let vm = EntryVm::get(app);
    vm.set_units(KeyUnits::FeetInches);
    vm.set_figure("35′ 8 13/16″".into());
    vm.set_tail("+ 3″ = 35′ 11 13/16″".into());
    vm.set_status(status(
        Verdict::Attention,
        "The other readings make this **35′ 8 3/8″ ± 1/4″**: 7/16″ too long. Check the hook and the slope.",
    ));
}

/// A sight that can be up or down.
pub fn reading_sight(app: &App) {
    reading(app);
    let vm = EntryVm::get(app);
    let (title, plain) = said("Set-up 2, down to **g4**");
    vm.set_title(title);
    vm.set_title_plain(plain);
    vm.set_progress("4 of 6".into());
    vm.set_figure("1 075".into());
    vm.set_tail("mm down".into());
    vm.set_signs(KeySigns::UpDown);
    vm.set_sign(-1);
    vm.set_extra("".into());
    vm.set_status(status(
        Verdict::None,
        "From the laser line down to the ground by post 4.",
    ));
}
