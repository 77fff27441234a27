//! Cautions in full, and how sure the figures are.

use super::super::document::{Block, Section};
use super::SheetDesk;
use crate::cautions::{self, Caution};
use crate::job::model::Foot;
use crate::job::reading::Measure;

/// Those that this job's work asks for; none before there is any.
pub fn cautions(desk: &SheetDesk<'_>) -> Option<Section> {
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
    // What every site has is said in a line: the app says all of it where the work is done.
    let (every_site, own): (Vec<Caution>, Vec<Caution>) = asked
        .partition(|one| [cautions::STRINGS, cautions::LIFTING, cautions::SAWING].contains(one));
    let mut section = Section::new("Cautions");
    section.blocks = own.into_iter().map(Block::CautionInFull).collect();
    if section.blocks.is_empty() {
        return None;
    }
    let lines: Vec<&str> = every_site.iter().map(|caution| caution.short).collect();
    section.say(lines.join(" "));
    section.say(
        "This sheet gives geometry, not structural approval. Boundaries, heights and gates follow \
         local rules, and a licensed person decides where one is required.",
    );
    Some(section)
}

pub fn how_sure(desk: &SheetDesk<'_>) -> Option<Section> {
    if desk.solution.readings.is_empty() && desk.solution.levels.is_none() {
        return None;
    }
    let (tape, level) = (&desk.job.tape, &desk.job.level);
    let mut section = Section::new("How sure");
    section.say(
        "± is the half width of the band that holds the true figure 19 times in 20, if the \
         readings are as good as stated here.",
    );
    let mut list = vec![format!(
        "Each reading of the tape good to {}, and {} more in each metre for pull, sag and heat (a typical \
         error, one standard deviation). {}",
        desk.fine(tape.reading),
        desk.fine(tape.pull),
        another_tape(desk),
    )];
    if desk.solution.lines.values().next().is_some() {
        list.push(format!(
            "Each nail set to {} (one standard deviation).",
            desk.fine(desk.job.string.nail)
        ));
    }
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

/// What the ± leaves out: a tape's own scale, the same in every reading, over the longest of them.
fn another_tape(desk: &SheetDesk<'_>) -> String {
    let lengths = desk.job.readings.iter().filter_map(|one| match one.what {
        Measure::Tape { length, .. } if one.used => length,
        _ => None,
    });
    let Some(longest) = lengths.reduce(f64::max) else {
        return String::new();
    };
    let class = desk.job.tape.class;
    let out = class.mpe(longest);
    format!(
        "Over {}, the longest, a tape of class {class} may itself be out by {}: that is in no ±, for \
         it cancels where the same tape sets out, but another tape may differ by up to {}.",
        desk.full(longest),
        desk.fine(out),
        desk.fine(2.0 * out),
    )
}
