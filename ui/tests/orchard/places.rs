//! What each place shows of the orchard corner.

use super::{heights, papers, posts, walls};
use slint::Global;
use tautmark_ui::{App, FrameVm};

/// Fills every place as on a good day: nothing misread, nothing over the page.
pub fn fill(app: &App) {
    frame(app);
    walls::walls(app);
    walls::lines(app);
    posts::posts(app);
    posts::mark_out(app);
    heights::levels(app);
    heights::boards(app);
    papers::jobs(app);
    papers::papers(app);
}

fn frame(app: &App) {
    let vm = FrameVm::get(app);
    vm.set_title("Orchard corner screen".into());
    vm.set_can_undo(true);
    vm.set_can_redo(false);
    vm.set_snack("".into());
    vm.set_notice_open(false);
    vm.set_menu_open(false);
}
