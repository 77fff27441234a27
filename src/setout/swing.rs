//! What stands in the way of a gate that opens?
//!
//! ```text
//!    █ hinge post ─────────── █     The leaf sweeps a quarter circle about its hinges, in front of
//!    │╲                             the string or behind it.
//!    │   ╲   ▓ in its swing
//!    │______╲
//! ```

use super::called::{capital, posts_called};
use super::fixes::{GateFix, RunFix};
use super::track::Track;
use crate::job::model::{Hung, Leaf, Opens};
use crate::job::sound::{Sound, SoundRun};
use crate::job::{Problems, Where};
use crate::site::Plane;
use geo::{Distance, Euclidean, Intersects, Line, LineString, Point, Polygon};
use nalgebra::Vector2;

/// Straight pieces in which the swept quarter is drawn.
const PIECES: usize = 24;

/// Names walls and posts in the swing of every gate that says which way it opens.
pub(super) fn name_swings(
    sound: &Sound,
    plane: &Plane,
    tracks: &[Option<Track>],
    runs: &[Option<RunFix>],
    problems: &mut Problems,
) {
    for ((run, fix), track) in sound.runs.iter().zip(runs).zip(tracks) {
        let (Some(fix), Some(track)) = (fix, track) else {
            continue;
        };
        for gate in &fix.gates {
            let asked = run.gates.iter().find(|one| one.index == gate.index);
            let Some(leaf) = asked.and_then(|gate| gate.leaf.as_ref()) else {
                continue;
            };
            let Some(opens) = leaf.opens else { continue };
            let swing = Swing::of(run, track, gate, leaf, opens);
            let place = format!("runs[{}].gates[{}].leaf.opens", run.index, gate.index);
            swing.name_walls(sound, plane, &place, problems);
            swing.name_posts(sound, runs, &place, problems);
        }
    }
}

/// The ground that a leaf sweeps.
struct Swing {
    hinge: Point,
    swept: Polygon,
}

impl Swing {
    fn of(run: &SoundRun, track: &Track, gate: &GateFix, leaf: &Leaf, opens: Opens) -> Self {
        let width = (gate.far - gate.near - leaf.hinge - leaf.latch).max(0.0);
        let (hinge, way) = match leaf.hung {
            Hung::Start => (gate.near + leaf.hinge, 1.0),
            Hung::End => (gate.far - leaf.hinge, -1.0),
        };
        let (face, out) = match opens {
            Opens::Front => (run.gap, -1.0),
            Opens::Behind => (run.gap + run.depth, 1.0),
        };
        let at =
            |along: f64, across: f64| point(track.at(hinge + way * along, face + out * across));
        let mut ring = vec![at(0.0, 0.0).0];
        ring.extend((0..=PIECES).map(|k| {
            let (sin, cos) = (std::f64::consts::FRAC_PI_2 * k as f64 / PIECES as f64).sin_cos();
            at(width * cos, width * sin).0
        }));
        Self {
            hinge: at(0.0, 0.0),
            swept: Polygon::new(LineString(ring), Vec::new()),
        }
    }

    fn name_walls(&self, sound: &Sound, plane: &Plane, place: &str, problems: &mut Problems) {
        for wall in &sound.walls {
            let (Some(from), Some(to)) = (plane.mark(wall.from), plane.mark(wall.to)) else {
                continue;
            };
            let face = Line::new(point(from).0, point(to).0);
            if face.intersects(&self.swept) {
                let apart = Euclidean.distance(&self.hinge, &face);
                problems.warning(
                    place,
                    format!(
                        "Wall “{}” is in the gate's swing, {} from its hinges.",
                        wall.called(),
                        sound.say(apart)
                    ),
                    "Hang it on the other post, let it open the other way, or make it narrower.",
                );
            }
        }
    }

    fn name_posts(
        &self,
        sound: &Sound,
        runs: &[Option<RunFix>],
        place: &str,
        problems: &mut Problems,
    ) {
        let mut inside: Vec<(&SoundRun, usize)> = Vec::new();
        let mut nearest = f64::INFINITY;
        for (run, fix) in sound.runs.iter().zip(runs) {
            let Some(fix) = fix else { continue };
            for post in &fix.posts {
                let at = Point::new(post.x, post.y);
                let half = post.size[0].min(post.size[1]) / 2.0;
                // A post beside the opening touches the swept ground and is not in it.
                if Euclidean.distance(&at, &self.swept) < half - 1.0 && self.swept.intersects(&at) {
                    inside.push((run, post.n));
                    nearest = nearest.min(Euclidean.distance(&self.hinge, &at));
                }
            }
        }
        let named: Vec<(&str, usize)> = inside.iter().map(|(run, n)| (run.called(), *n)).collect();
        let (is, nearly) = match inside.len() {
            0 => return,
            1 => ("is", ""),
            _ => ("are", "the nearest "),
        };
        let place = inside.iter().fold(Where::from(place), |place, (run, n)| {
            place.of_post(&run.id, *n)
        });
        problems.warning(
            place,
            format!(
                "{} {is} in the gate's swing, {nearly}{} from its hinges.",
                capital(&posts_called(&named)),
                sound.say(nearest)
            ),
            "Hang it on the other post, let it open the other way, or move the gate.",
        );
    }
}

fn point(at: Vector2<f64>) -> Point {
    Point::new(at.x, at.y)
}
