//! Is the laser of the open job telling the truth? The quick sum of two pegs, by what the job counts on.

use super::quick::laser::{TWO_PEGS, checked, count_in_job, counted_on};
use super::quick::{Counts, SumPage};
use crate::app::bridge::{FormScreen, PagePicture, Spec};
use crate::app::desk::Desk;
use crate::app::desk::entry::plain;
use crate::app::kit::{FormButton, FormContents, heading, laser_accuracy};
use crate::quick::laser_check::{LaserVerdict as Found, PegCheck};
use tautmark_ui::{Page, Place};

const PEGS: SumPage = SumPage {
    sum: &TWO_PEGS,
    counts: Counts::of_job,
    origin: "How far the laser is out",
};

/// What a check on this desk found, in a few words; `None` where none is done.
pub(super) fn found(desk: &Desk) -> Option<String> {
    let slope = checked(&PEGS.given(desk)).ok()?.slope;
    Some(format!(
        "out by {:.2} ± {:.2} mm per m",
        slope.value.abs(),
        slope.pm
    ))
}

/// The check of a laser that is out by more than the job counts on.
fn beyond(desk: &Desk) -> Option<PegCheck> {
    let check = checked(&PEGS.given(desk)).ok()?;
    (check.verdict == Found::Beyond).then_some(check)
}

/// The page of the check.
pub(super) static LASER_CHECK: FormScreen = FormScreen {
    title: |_| "Is the laser true?".to_owned(),
    picture: |desk| Some(PagePicture::Drawing(TWO_PEGS.drawing(&PEGS.given(desk)))),
    ..FormScreen::new(Spec::inside(Place::Levels, Page::Laser, "laser"), check)
};

fn check(desk: &Desk) -> FormContents {
    let mut contents = PEGS.contents(desk);
    let stated = format!("{} mm per m", plain(desk.job().level.accuracy));
    let accuracy = laser_accuracy("Stated accuracy")
        .keyed("laser accuracy")
        .titled(|_| "**Stated accuracy** of the laser".to_owned())
        .row_showing(&stated);
    contents.extend([
        heading("The laser"),
        accuracy.noted("a limit either way, on its label"),
    ]);
    if let Some(check) = beyond(desk) {
        let accuracy = counted_on(&check);
        let name = format!("Use {accuracy:.1} mm per m");
        contents.primary = Some(FormButton::new(name, move |desk| {
            count_in_job(desk, accuracy)
        }));
    }
    contents
}
