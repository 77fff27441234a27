//! Where a run starts and ends.

use super::plane::{Marks, Walls};
use super::strings::{Corners, Lines};
use super::{FilePlace, Ledger};
use crate::job::model::{End, Foot, Run};
use crate::job::sound::{RunEnd, RunStart, Sound, SoundRun};

/// The names a run may refer to.
pub(super) struct RunNames<'a> {
    pub marks: &'a Marks,
    pub walls: &'a Walls,
    pub lines: &'a Lines,
    pub corners: &'a Corners,
}

pub(super) fn run_start(
    end: Option<&End>,
    place: FilePlace<'_>,
    names: &RunNames<'_>,
    ledger: &mut Ledger,
) -> Option<RunStart> {
    match end {
        Some(End {
            wall: Some(id),
            corner: None,
            mark: None,
            length: None,
            ..
        }) => names
            .walls
            .find(id, "wall", place.key("wall"), ledger)
            .map(RunStart::Wall),
        Some(End {
            wall: None,
            corner: Some(id),
            mark: None,
            length: None,
            ..
        }) => names
            .corners
            .find(id, "corner", place.key("corner"), ledger)
            .map(RunStart::Corner),
        Some(End {
            wall: None,
            corner: None,
            mark: Some(id),
            length: None,
            ..
        }) => names
            .marks
            .find(id, "mark", place.key("mark"), ledger)
            .map(RunStart::Mark),
        Some(End {
            wall: None,
            corner: None,
            mark: None,
            length: Some(_),
            ..
        }) => {
            ledger.problems.error(
                place.key("length"),
                "A run cannot start at a length.",
                "Start it at a wall, a corner or a mark; only its end may be a length.",
            );
            None
        }
        Some(End {
            wall: None,
            corner: None,
            mark: None,
            length: None,
            ..
        })
        | None => {
            ledger.problems.warning(
                place,
                "It does not say where the run starts or ends here.",
                "Name a wall, a corner or a mark.",
            );
            None
        }
        Some(_) => {
            ledger.problems.error(
                place,
                "It says more than one thing about where this is.",
                "Keep one of wall, corner, mark and length.",
            );
            None
        }
    }
}

pub(super) fn run_end(
    end: Option<&End>,
    place: FilePlace<'_>,
    names: &RunNames<'_>,
    ledger: &mut Ledger,
) -> Option<RunEnd> {
    if let Some(End {
        wall: None,
        corner: None,
        mark: None,
        length: Some(length),
        ..
    }) = end
    {
        let length = ledger.positive(place.key("length"), *length, "length of the run")?;
        return Some(RunEnd::Length(length));
    }
    run_start(end, place, names, ledger).map(RunEnd::At)
}

pub(super) fn ends_apart(run: &SoundRun, place: FilePlace<'_>, ledger: &mut Ledger) -> Option<()> {
    if run.end != RunEnd::At(run.start) {
        return Some(());
    }
    ledger.problems.error(
        place.key("end"),
        format!("Run “{}” starts and ends at the same place.", run.called()),
        "Name two different ends.",
    );
    None
}

pub(super) fn corners_on_line(
    run: &SoundRun,
    place: FilePlace<'_>,
    sound: &Sound,
    ledger: &mut Ledger,
) -> Option<()> {
    let mut good = Some(());
    let mut look = |key: &str, at: RunStart| {
        if let RunStart::Corner(corner) = at
            && let Some(corner) = sound.corners.get(corner.0)
            && !corner.lines.contains(&run.line)
        {
            ledger.problems.error(
                place.key(key).key("corner"),
                format!(
                    "Corner “{}” is not on the string of run “{}”.",
                    corner.id,
                    run.called()
                ),
                "Name a corner of this run's own string.",
            );
            good = None;
        }
    };
    look("start", run.start);
    if let RunEnd::At(at) = run.end {
        look("end", at);
    }
    good
}

/// How a run's posts stand, and its first and last; only a post at a wall can be fixed to one.
pub(super) fn feet(run: &Run, place: FilePlace<'_>, ledger: &mut Ledger) -> (Foot, [Foot; 2]) {
    let mut foot = run.foot.unwrap_or_default();
    if foot == Foot::Wall {
        ledger.problems.error(
            place.key("foot"),
            format!(
                "The posts of run “{}” cannot all be fixed to a wall; holes are taken.",
                run.called()
            ),
            "Give this to its start or its end, where that is at a wall.",
        );
        foot = Foot::Hole;
    }
    let mut at = |key: &str, end: Option<&End>| {
        let own = end.and_then(|end| end.foot).unwrap_or(foot);
        if own != Foot::Wall || end.is_some_and(|end| end.wall.is_some()) {
            return own;
        }
        ledger.problems.error(
            place.key(key).key("foot"),
            format!(
                "There is no wall here to fix the post of run “{}” to.",
                run.called()
            ),
            "End the run at a wall, or say that the post stands in a hole or on a plate.",
        );
        foot
    };
    (
        foot,
        [at("start", run.start.as_ref()), at("end", run.end.as_ref())],
    )
}
