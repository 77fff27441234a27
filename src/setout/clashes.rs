//! Posts and holes that are in each other's way, in the way of a wall, or in a gate.

use super::bench::SAME;
use super::called::{capital, posts_called};
use super::fixes::{Post, PostKind, RunFix};
use crate::job::model::Foot;
use crate::job::sound::{MarkIx, RunEnd, RunStart, Sound, SoundRun};
use crate::job::{Problems, Where};
use crate::site::Plane;
use geo::{Coord, Distance, Euclidean, Intersects, Line, Point, Polygon};
use nalgebra::Vector2;

/// One post, and the run it is set out in.
struct Placed<'a> {
    run: &'a SoundRun,
    fix: &'a RunFix,
    post: &'a Post,
}

impl Placed<'_> {
    fn centre(&self) -> Point {
        Point::new(self.post.x, self.post.y)
    }

    fn has_hole(&self) -> bool {
        self.post.foot == Foot::Hole
    }
}

/// Names every clash between posts, holes, walls and gate openings.
pub(super) fn name_clashes(
    sound: &Sound,
    plane: &Plane,
    runs: &[Option<RunFix>],
    problems: &mut Problems,
) {
    let placed = placed(sound, runs);
    between_posts(sound, &placed, problems);
    under_walls(sound, plane, &placed, problems);
    in_gates(sound, runs, &placed, problems);
}

/// Every post once: a corner post belongs to the first run that has it.
fn placed<'a>(sound: &'a Sound, runs: &'a [Option<RunFix>]) -> Vec<Placed<'a>> {
    let mut corners = Vec::new();
    let mut all = Vec::new();
    for (run, fix) in sound.runs.iter().zip(runs) {
        let Some(fix) = fix else { continue };
        for post in &fix.posts {
            if let Some(corner) = corner_of(run, fix, post) {
                if corners.contains(&corner) {
                    continue;
                }
                corners.push(corner);
            }
            all.push(Placed { run, fix, post });
        }
    }
    all
}

fn corner_of(run: &SoundRun, fix: &RunFix, post: &Post) -> Option<RunStart> {
    if post.kind != PostKind::Corner {
        return None;
    }
    match run.end {
        RunEnd::At(end) if post.n == fix.posts.len() => Some(end),
        _ => Some(run.start),
    }
}

/// Posts of the same two runs that are in each other's way, and the least between two centres, mm.
struct Crowd<'a> {
    runs: [usize; 2],
    posts: Vec<&'a Placed<'a>>,
    apart: f64,
}

/// Adds two posts to the crowd of their runs.
fn crowd<'a>(crowds: &mut Vec<Crowd<'a>>, pair: [&'a Placed<'a>; 2], apart: f64) {
    let runs = pair.map(|one| one.run.index);
    match crowds.iter_mut().find(|crowd| crowd.runs == runs) {
        Some(crowd) => {
            crowd.posts.extend(pair);
            crowd.apart = crowd.apart.min(apart);
        }
        None => crowds.push(Crowd {
            runs,
            posts: pair.to_vec(),
            apart,
        }),
    }
}

fn between_posts<'a>(sound: &Sound, placed: &'a [Placed<'a>], problems: &mut Problems) {
    // In order of x, so that each post meets only those within a hole's reach.
    let mut order: Vec<&Placed<'_>> = placed.iter().collect();
    order.sort_by(|a, b| a.post.x.total_cmp(&b.post.x));
    let widest = placed
        .iter()
        .map(|p| p.post.size[0].hypot(p.post.size[1]))
        .fold(0.0, f64::max);
    let reach = sound.hole.diameter.max(widest);
    let (mut overlaps, mut holes) = (Vec::new(), Vec::new());
    for (i, one) in order.iter().enumerate() {
        for two in order[i + 1..]
            .iter()
            .take_while(|two| two.post.x - one.post.x < reach)
        {
            let apart = Euclidean.distance(one.centre(), two.centre());
            if apart >= reach {
                continue;
            }
            let (first, second) = in_file_order(one, two);
            if footprint(one.post).intersects(&footprint(two.post)) {
                crowd(&mut overlaps, [first, second], apart);
            } else if apart < sound.hole.diameter && first.has_hole() && second.has_hole() {
                crowd(&mut holes, [first, second], apart);
            }
        }
    }
    for crowd in overlaps {
        problems.warning(
            all_of(&crowd.posts),
            format!("{} overlap.", capital(&called(&crowd.posts))),
            "Change the longest bay, the gates or the pins so that one of them goes.",
        );
    }
    for crowd in holes {
        let several = crowd.posts.len() > 2;
        problems.warning(
            all_of(&crowd.posts),
            format!(
                "The holes for {} run into each other: centres {}{} apart, holes {} wide.",
                called(&crowd.posts),
                if several { "from " } else { "" },
                sound.say(crowd.apart),
                sound.say(sound.hole.diameter)
            ),
            if several {
                "Dig one hole for two that meet, make the holes narrower, or move posts."
            } else {
                "Dig one hole for both, make the holes narrower, or move one post."
            },
        );
    }
}

/// The posts of a problem, in the file's order.
fn sorted<'a>(posts: &[&'a Placed<'a>]) -> Vec<&'a Placed<'a>> {
    let mut sorted = posts.to_vec();
    sorted.sort_by_key(|one| (one.run.index, one.post.n));
    sorted.dedup_by_key(|one| (one.run.index, one.post.n));
    sorted
}

fn called(posts: &[&Placed<'_>]) -> String {
    let all = sorted(posts);
    let named: Vec<(&str, usize)> = all
        .iter()
        .map(|one| (one.run.called(), one.post.n))
        .collect();
    posts_called(&named)
}

/// Where all of these posts are: in the run of the last of them in the file.
fn all_of(posts: &[&Placed<'_>]) -> Where {
    let all = sorted(posts);
    let last = all.last().map_or(0, |one| one.run.index);
    let place = Where::from(format!("runs[{last}]"));
    all.iter()
        .fold(place, |place, one| place.of_post(&one.run.id, one.post.n))
}

fn in_file_order<'a>(one: &'a Placed<'a>, two: &'a Placed<'a>) -> (&'a Placed<'a>, &'a Placed<'a>) {
    if (one.run.index, one.post.n) <= (two.run.index, two.post.n) {
        (one, two)
    } else {
        (two, one)
    }
}

fn under_walls(sound: &Sound, plane: &Plane, placed: &[Placed<'_>], problems: &mut Problems) {
    let radius = sound.hole.diameter / 2.0;
    for wall in &sound.walls {
        let end = |ix: MarkIx| plane.mark(ix).map(coord);
        let (Some(from), Some(to)) = (end(wall.from), end(wall.to)) else {
            continue;
        };
        let face = Line::new(from, to);
        let (low, high) = (from.x.min(to.x) - radius, from.x.max(to.x) + radius);
        let near = placed
            .iter()
            .filter(|one| one.has_hole() && (low..=high).contains(&one.post.x));
        let under: Vec<(&Placed<'_>, f64)> = near
            .map(|one| (one, radius - Euclidean.distance(&one.centre(), &face)))
            .filter(|(_, reach)| *reach > 0.0)
            .collect();
        let posts: Vec<&Placed<'_>> = under.iter().map(|(one, _)| *one).collect();
        let most = under.iter().map(|(_, reach)| *reach).fold(0.0, f64::max);
        let wall = wall.called();
        let text = match posts.len() {
            0 => continue,
            1 => format!(
                "The hole for {} reaches {} under the line of “{wall}”.",
                called(&posts),
                sound.say(most)
            ),
            _ => format!(
                "The holes for {} reach up to {} under the line of “{wall}”.",
                called(&posts),
                sound.say(most)
            ),
        };
        problems.warning(
            all_of(&posts),
            text,
            "Do not dig under a wall's footing: find out how far out it stands, dig a narrower hole away from it, or set the post to be fixed to the wall.",
        );
    }
}

/// Posts of other runs that stand in a gate. Every gate counts, also one hung on a corner post that
/// was placed with another run.
fn in_gates(
    sound: &Sound,
    runs: &[Option<RunFix>],
    placed: &[Placed<'_>],
    problems: &mut Problems,
) {
    for (run, fix) in sound.runs.iter().zip(runs) {
        let Some(fix) = fix else { continue };
        for gate in &fix.gates {
            let (Some(from), Some(to)) = (fix.post(gate.from), fix.post(gate.to)) else {
                continue;
            };
            let opening = opening(from, to);
            let is_own = |one: &Placed<'_>| {
                std::ptr::eq(one.fix, fix)
                    || [from, to].iter().any(|own| one.post.apart(own) < SAME)
            };
            let others = placed.iter().filter(|one| !is_own(one));
            let inside: Vec<&Placed<'_>> = others
                .filter(|one| footprint(one.post).intersects(&opening))
                .collect();
            if inside.is_empty() {
                continue;
            }
            let stand = if inside.len() == 1 { "stands" } else { "stand" };
            problems.warning(
                all_of(&inside),
                format!(
                    "{} {stand} in the gate opening of run “{}”.",
                    capital(&called(&inside)),
                    run.called()
                ),
                "Move the gate, or change the bays of the other run.",
            );
        }
    }
}

/// The clear opening between two posts, drawn in by 1 mm so that touching it is not being in it.
fn opening(from: &Post, to: &Post) -> Line {
    let (a, b) = (Vector2::new(from.x, from.y), Vector2::new(to.x, to.y));
    let along = (b - a).try_normalize(1e-9).unwrap_or_default();
    let inset = |post: &Post| (post.far - post.near) / 2.0 + 1.0;
    Line::new(coord(a + along * inset(from)), coord(b - along * inset(to)))
}

/// Posts may touch; they overlap where they share more than this, mm.
const TOUCH: f64 = 1.0;

/// The post's section on the ground, drawn in by half of [`TOUCH`].
fn footprint(post: &Post) -> Polygon {
    let (sin, cos) = post.rotation.to_radians().sin_cos();
    let (u, v) = (Vector2::new(cos, sin), Vector2::new(-sin, cos));
    let centre = Vector2::new(post.x, post.y);
    let half = post.size.map(|side| (side - TOUCH).max(0.0) / 2.0);
    let corner = |a: f64, b: f64| coord(centre + u * (a * half[0]) + v * (b * half[1]));
    let ring = vec![
        corner(-1.0, -1.0),
        corner(1.0, -1.0),
        corner(1.0, 1.0),
        corner(-1.0, 1.0),
    ];
    Polygon::new(ring.into(), vec![])
}

fn coord(at: Vector2<f64>) -> Coord {
    Coord { x: at.x, y: at.y }
}
