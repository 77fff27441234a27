//! Posts and holes that are in each other's way, in the way of a wall, or in a gate.

use super::fixes::{Post, PostKind, RunFix};
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

    fn name(&self) -> String {
        post_called(self.run.called(), self.post.n)
    }

    fn place(&self) -> Where {
        Where::from(format!("runs[{}]", self.run.index)).of_post(&self.run.id, self.post.n)
    }

    fn place_with(&self, other: &Self) -> Where {
        self.place().of_post(&other.run.id, other.post.n)
    }
}

/// What a problem calls a post; with a capital where a sentence starts with it.
#[must_use]
pub fn post_called(run: &str, n: usize) -> String {
    format!("post {n} of run “{run}”")
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
    in_gates(&placed, problems);
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

fn between_posts(sound: &Sound, placed: &[Placed<'_>], problems: &mut Problems) {
    // In order of x, so that each post meets only those within a hole's reach.
    let mut order: Vec<&Placed<'_>> = placed.iter().collect();
    order.sort_by(|a, b| a.post.x.total_cmp(&b.post.x));
    let widest = placed
        .iter()
        .map(|p| p.post.size[0].hypot(p.post.size[1]))
        .fold(0.0, f64::max);
    let reach = sound.hole.diameter.max(widest);
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
                problems.warning(
                    second.place_with(first),
                    format!("{} and {} overlap.", capital(&first.name()), second.name()),
                    "Change the longest bay, the gates or the pins so that one of them goes.",
                );
            } else if apart < sound.hole.diameter {
                problems.warning(
                    second.place_with(first),
                    format!(
                        "The holes for {} and {} run into each other: centres {} apart, holes {} wide.",
                        first.name(),
                        second.name(),
                        sound.say(apart),
                        sound.say(sound.hole.diameter)
                    ),
                    "Dig one hole for both, make the holes narrower, or move one post.",
                );
            }
        }
    }
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
        for one in placed
            .iter()
            .filter(|one| (low..=high).contains(&one.post.x))
        {
            let apart = Euclidean.distance(&one.centre(), &face);
            if apart < radius {
                problems.warning(
                    one.place(),
                    format!(
                        "The hole for {} reaches {} under the line of “{}”.",
                        one.name(),
                        sound.say(radius - apart),
                        wall.called()
                    ),
                    "Do not dig under a wall's footing: find out how far out it stands, dig a narrower hole away from it, or fix the post to the wall.",
                );
            }
        }
    }
}

fn in_gates(placed: &[Placed<'_>], problems: &mut Problems) {
    for gate_run in placed
        .iter()
        .filter(|one| one.post.n == 1 || one.fix.gate_after(one.post.n))
    {
        for gate in gate_run
            .fix
            .gates
            .iter()
            .filter(|gate| gate.from == gate_run.post.n)
        {
            let Some(beside) = gate_run.fix.posts.get(gate.to - 1) else {
                continue;
            };
            let opening = opening(gate_run.post, beside);
            let others = placed
                .iter()
                .filter(|one| !std::ptr::eq(one.fix, gate_run.fix));
            for one in others.filter(|one| footprint(one.post).intersects(&opening)) {
                problems.warning(
                    one.place(),
                    format!(
                        "{} stands in the gate opening of run “{}”.",
                        capital(&one.name()),
                        gate_run.run.called()
                    ),
                    "Move the gate, or change the bays of the other run.",
                );
            }
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

pub(super) fn capital(text: &str) -> String {
    let mut letters = text.chars();
    letters.next().map_or_else(String::new, |first| {
        first.to_uppercase().chain(letters).collect()
    })
}
