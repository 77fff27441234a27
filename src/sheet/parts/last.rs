//! Cautions in full, and how sure the figures are.

use super::super::document::{Block, Section};
use super::Desk;
use crate::cautions;
use crate::job::model::Foot;
use crate::tape::TapeClass;

/// Those that this job's work asks for; none before there is any.
pub fn cautions(desk: &Desk<'_>) -> Option<Section> {
    let builds = !desk.job.runs.is_empty();
    let sights = desk.solution.levels.is_some();
    let runs = || desk.solution.runs.values();
    let on_walls = runs().any(|run| run.posts.iter().any(|post| post.foot == Foot::Wall));
    let gates = runs().any(|run| !run.gates.is_empty());
    let asked = cautions::ALL.into_iter().filter(|&one| match one {
        cautions::LASER => sights,
        cautions::MASONRY => on_walls,
        cautions::GATE => gates,
        _ => builds,
    });
    let mut section = Section::new("Cautions");
    section.blocks = asked.map(Block::CautionInFull).collect();
    if section.blocks.is_empty() {
        return None;
    }
    section.say(
        "This sheet gives geometry, not structural approval. Boundaries, heights and gates follow \
         local rules, and a licensed person decides where one is required.",
    );
    Some(section)
}

pub fn how_sure(desk: &Desk<'_>) -> Option<Section> {
    if desk.solution.readings.is_empty() && desk.solution.levels.is_none() {
        return None;
    }
    let (tape, level) = (&desk.job.tape, &desk.job.level);
    let mut section = Section::new("How sure");
    /// A length to name the tape's own error for, mm.
    const LONG: f64 = 10_000.0;
    section.say(
        "± is the half width of the band that holds the true figure 19 times in 20, if the \
         readings are as good as stated here.",
    );
    let mut list = vec![format!(
        "Tape of class {}, each reading good to {} (one standard deviation). Over {} the tape \
         itself may be out by {}.",
        class(tape.class),
        desk.fine(tape.reading),
        desk.full(LONG),
        desk.fine(tape.class.mpe(LONG)),
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
