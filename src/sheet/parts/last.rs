//! Cautions in full, and how sure the figures are.

use super::super::document::{Block, Section};
use super::Desk;
use crate::cautions;
use crate::tape::TapeClass;

pub fn cautions(_: &Desk<'_>) -> Option<Section> {
    let mut section = Section::new("Cautions");
    section.blocks = cautions::ALL.map(Block::CautionInFull).to_vec();
    section.say(
        "This sheet gives geometry, not structural approval. Boundaries, heights and gates follow \
         local rules, and a licensed person decides where one is required.",
    );
    Some(section)
}

pub fn how_sure(desk: &Desk<'_>) -> Option<Section> {
    let (tape, level) = (&desk.job.tape, &desk.job.level);
    let mut section = Section::new("How sure");
    section.say(
        "± is the half width of the band that holds the true figure 19 times in 20, if the \
         readings are as good as stated here.",
    );
    let mut list = vec![format!(
        "Tape of class {}, each reading good to {} (one standard deviation). Over {} the tape \
         itself may be out by {}.",
        class(tape.class),
        desk.fine(tape.reading),
        desk.full(10_000.0),
        desk.fine(tape.class.mpe(10_000.0)),
    )];
    if desk.solution.levels.is_some() {
        list.push(format!(
            "Laser good to {}, each reading good to {} (one standard deviation).",
            desk.slope_fine(level.accuracy / 1000.0),
            desk.fine(level.reading)
        ));
    }
    section.list(list);
    section.say(
        "It does not cover a slip that nothing checks, two tapes that differ (use one for the \
         whole job), a mark that was moved, or a post that shifted while its concrete set.",
    );
    Some(section)
}

fn class(class: TapeClass) -> &'static str {
    match class {
        TapeClass::I => "I",
        TapeClass::II => "II",
        TapeClass::III => "III",
    }
}
