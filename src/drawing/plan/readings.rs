//! What was measured: tapes dotted, the suspect and the asked one standing out.

use super::site::Site;
use super::{Asked, Seen};
use crate::drawing::bounds::Vec2;
use crate::drawing::model::{LineStyle, Role, Stress, Target};
use crate::drawing::pencil::{Pencil, arc};
use crate::job::reading::Measure;
use crate::job::{MarkId, WallId};

pub(super) fn draw(site: &Site, pencil: &mut Pencil) {
    let mut found = false;
    for index in 0..site.job.readings.len() {
        found |= reading(site, index, pencil);
    }
    if let Some(Asked::Tape([from, to])) = &site.show.asked
        && !found
        && let (Some(from), Some(to)) = (site.mark(from), site.mark(to))
    {
        pencil
            .line(Role::AskedTape, LineStyle::Thick, from, to)
            .chosen_if(true);
    }
}

/// Draws one reading; true where it is the one asked for.
fn reading(site: &Site, index: usize, pencil: &mut Pencil) -> bool {
    let reading = &site.job.readings[index];
    let target = Target::Reading(index);
    let asked = is_asked(site, index, &reading.what);
    let chosen = asked || site.is_chosen(&target);
    let suspect = site.solution.network.suspects.contains(&index);
    if site.show.readings == Seen::Hidden && !chosen {
        return asked;
    }
    let Some(points) = points(site, &reading.what) else {
        return asked;
    };
    let (role, line) = if asked {
        (Role::AskedTape, LineStyle::Thick)
    } else if suspect {
        (Role::SuspectTape, LineStyle::HeavyDashed)
    } else if !reading.used {
        (Role::LeftOut, LineStyle::Dashed)
    } else if chosen {
        (Role::Tape, LineStyle::Thick)
    } else {
        (Role::Tape, LineStyle::Dotted)
    };
    let item = pencil.path(role, line, points).of(target);
    if chosen {
        item.stress = Stress::Chosen;
    }
    asked
}

fn is_asked(site: &Site, index: usize, what: &Measure) -> bool {
    match (&site.show.asked, what) {
        (Some(Asked::Reading(asked)), _) => *asked == index,
        (Some(Asked::Tape(ends)), Measure::Tape { from, to, .. }) => {
            ends.contains(from) && ends.contains(to)
        }
        _ => false,
    }
}

fn points(site: &Site, what: &Measure) -> Option<Vec<Vec2>> {
    match what {
        Measure::Tape { from, to, .. } => Some(vec![site.mark(from)?, site.mark(to)?]),
        Measure::Offset { mark, wall, .. } => offset(site, mark, wall),
        Measure::Inline { mark, with, .. } => {
            let [from, to] = [site.mark(&with[0])?, site.mark(&with[1])?];
            Some(vec![from, site.mark(mark)?, to])
        }
        Measure::Angle { from, at, to, .. } => angle(site, [from, at, to]),
        Measure::Other { .. } => None,
    }
}

fn offset(site: &Site, mark: &MarkId, wall: &WallId) -> Option<Vec<Vec2>> {
    let ray = site.wall(wall)?;
    let at = site.mark(mark)?;
    Some(vec![at, ray.at(ray.running(at), 0.0)])
}

/// The smaller arc at the middle mark.
fn angle(site: &Site, [from, at, to]: [&MarkId; 3]) -> Option<Vec<Vec2>> {
    let middle = site.mark(at)?;
    let arms = [site.mark(from)? - middle, site.mark(to)? - middle];
    let radius = arms[0].norm().min(arms[1].norm()) / 4.0;
    let start = arms[0].y.atan2(arms[0].x);
    let sweep = arms[0].perp(&arms[1]).atan2(arms[0].dot(&arms[1]));
    Some(arc(middle, radius, start.to_degrees(), sweep.to_degrees()))
}
