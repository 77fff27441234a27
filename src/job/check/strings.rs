//! String lines and corners.

use super::plane::{Marks, Walls};
use super::stretched::checks;
use super::{FilePlace, Ledger, Named};
use crate::job::ids::{CornerId, LineId};
use crate::job::model::{Job, Line, Side, Station};
use crate::job::sound::{Along, CornerIx, LineIx, Sound, SoundCorner, SoundLine};

pub(super) type Lines = Named<LineId, LineIx>;
pub(super) type Corners = Named<CornerId, CornerIx>;

pub(super) fn lines(
    job: &Job,
    marks: &Marks,
    walls: &Walls,
    sound: &mut Sound,
    ledger: &mut Ledger,
) -> Lines {
    let mut lines = Lines::new();
    let list = FilePlace::File.key("lines");
    for (index, line) in job.lines.iter().enumerate() {
        let place = list.nth(index);
        ledger.unknown_keys(place, &line.extra);
        for (k, station) in line.offsets.iter().flatten().enumerate() {
            ledger.unknown_keys(place.key("offsets").nth(k), &station.extra);
        }
        if !lines.claim(&line.id, "line", place, ledger) {
            continue;
        }
        let Some(along) = along(line, place, marks, walls, ledger) else {
            continue;
        };
        lines.settle(&line.id, LineIx(sound.lines.len()));
        sound.lines.push(SoundLine {
            id: line.id.clone(),
            name: line.name.clone(),
            along,
            reverse: line.reverse,
            index,
        });
    }
    lines
}

fn along(
    line: &Line,
    place: FilePlace<'_>,
    marks: &Marks,
    walls: &Walls,
    ledger: &mut Ledger,
) -> Option<Along> {
    match (&line.wall, &line.marks) {
        (Some(wall), None) => {
            let wall = walls.find(wall, "wall", place.key("wall"), ledger);
            let side = side_of(line, place, ledger);
            let stations = stations(line.offsets.as_deref().unwrap_or_default(), place, ledger);
            Some(Along::Wall {
                wall: wall?,
                side,
                stations: stations?,
            })
        }
        (None, Some([from, to])) => {
            let first = marks.find(from, "mark", place.key("marks").nth(0), ledger);
            let second = marks.find(to, "mark", place.key("marks").nth(1), ledger);
            let (first, second) = (first?, second?);
            if first == second {
                ledger.problems.error(
                    place.key("marks"),
                    format!("String “{}” goes through mark {from} twice.", line.called()),
                    "Give it two different marks.",
                );
                return None;
            }
            Some(Along::Marks([first, second]))
        }
        (Some(_), Some(_)) => {
            ledger.problems.error(
                place,
                format!(
                    "String “{}” follows a wall and goes through marks.",
                    line.called()
                ),
                "Keep one of the two: offsets from a wall, or two marks.",
            );
            None
        }
        (None, None) => {
            ledger.problems.warning(
                place,
                format!("String “{}” does not say where it goes.", line.called()),
                "Give it a wall with offsets, or two marks.",
            );
            None
        }
    }
}

fn side_of(line: &Line, place: FilePlace<'_>, ledger: &mut Ledger) -> Side {
    line.side.unwrap_or_else(|| {
        ledger.problems.warning(
            place.key("side"),
            "It does not say on which side of the wall the string is; left is taken.",
            "Say left or right, as seen looking along the wall from its first mark.",
        );
        Side::Left
    })
}

fn stations(
    offsets: &[Station],
    place: FilePlace<'_>,
    ledger: &mut Ledger,
) -> Option<Vec<[f64; 2]>> {
    if offsets.is_empty() {
        ledger.problems.error(
            place.key("offsets"),
            "The list of offsets is empty.",
            "Give at least one nail: how far along the wall, how far off it.",
        );
        return None;
    }
    let mut good = Vec::with_capacity(offsets.len());
    let list = place.key("offsets");
    for (k, station) in offsets.iter().enumerate() {
        let place = list.nth(k);
        let at = ledger.given(place.key("at"), station.at, "distance along the wall");
        let at = at.and_then(|at| ledger.any(place.key("at"), at, "distance along the wall"));
        let off = ledger.given(place.key("off"), station.off, "offset");
        let off = off.and_then(|off| ledger.not_negative(place.key("off"), off, "offset"));
        good.push([at?, off?]);
    }
    let first = good[0][0];
    if good.len() > 1 && good.iter().all(|[at, _]| (at - first).abs() < 1.0) {
        ledger.problems.error(
            place.key("offsets"),
            "All the nails are at one place along the wall, so the string has no direction.",
            "Put them apart, as far as the wall allows, or give one alone for a parallel string.",
        );
        return None;
    }
    Some(good)
}

pub(super) fn corners(job: &Job, lines: &Lines, sound: &mut Sound, ledger: &mut Ledger) -> Corners {
    let mut corners = Corners::new();
    let list = FilePlace::File.key("corners");
    for (index, corner) in job.corners.iter().enumerate() {
        let place = list.nth(index);
        ledger.unknown_keys(place, &corner.extra);
        if !corners.claim(&corner.id, "corner", place, ledger) {
            continue;
        }
        let post = corner.post.clone();
        if let Some(post) = &post {
            ledger.unknown_keys(place.key("post"), &post.extra);
            let width = ledger.positive(place.key("post").key("width"), post.width, "post width");
            let depth = ledger.positive(place.key("post").key("depth"), post.depth, "post depth");
            if width.is_none() || depth.is_none() {
                continue;
            }
        }
        let first = lines.find(&corner.lines[0], "line", place.key("lines").nth(0), ledger);
        let second = lines.find(&corner.lines[1], "line", place.key("lines").nth(1), ledger);
        let (Some(first), Some(second)) = (first, second) else {
            continue;
        };
        if first == second {
            ledger.problems.error(
                place.key("lines"),
                format!(
                    "Corner “{}” crosses string {} with itself.",
                    corner.id, corner.lines[0]
                ),
                "Name two different strings.",
            );
            continue;
        }
        corners.settle(&corner.id, CornerIx(sound.corners.len()));
        let lines = [first, second];
        sound.corners.push(SoundCorner {
            id: corner.id.clone(),
            lines,
            post,
            checks: checks(&corner.checks, place, ledger),
            index,
        });
    }
    corners
}
