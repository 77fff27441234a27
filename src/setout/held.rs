//! Posts whose place is given: the first, the last, gate posts and pins.

use super::fixes::PostKind;
use super::overlap::{over_gate, overlap};
use super::track::{Track, wall_ray};
use crate::job::Problems;
use crate::job::sound::{CornerIx, RunEnd, RunStart, Sound, SoundPin, SoundRun, WallIx};
use crate::site::{Plane, Strings};
use nalgebra::Vector2;

/// Faces nearer than this are one face, mm.
pub(super) const SAME: f64 = 1.0;

/// A post on the string, before it is numbered. Running readings, mm.
#[derive(Clone, Copy, Debug)]
pub(super) struct Stand {
    pub kind: PostKind,
    pub near: f64,
    pub centre: f64,
    pub far: f64,
    /// String to centre, mm.
    pub off: f64,
    pub wedge: Option<f64>,
    pub size: [f64; 2],
    /// Bearing of the width axis, degrees.
    pub rotation: f64,
    /// The post is there already.
    pub stands: bool,
    /// How much of the run's length error it carries, 0 to 1: none where it is taped from the zero.
    pub share: f64,
}

/// An opening between two posts, and its place in the file's list of gates. Mm.
#[derive(Clone, Copy, Debug)]
pub(super) struct Opening {
    pub index: usize,
    pub near: f64,
    pub far: f64,
}

/// One run being set out.
pub(super) struct Bench<'a> {
    pub sound: &'a Sound,
    pub run: &'a SoundRun,
    pub plane: &'a Plane,
    pub strings: &'a Strings,
    pub track: Track,
}

impl Bench<'_> {
    fn place(&self) -> String {
        format!("runs[{}]", self.run.index)
    }

    /// A post of the run's own size, square to its string.
    pub fn plain(&self, kind: PostKind, centre: f64) -> Stand {
        let half = self.run.width / 2.0;
        Stand {
            kind,
            near: centre - half,
            centre,
            far: centre + half,
            off: self.run.gap + self.run.depth / 2.0,
            wedge: None,
            size: [self.run.width, self.run.depth],
            rotation: self.track.ray.bearing(),
            stands: false,
            share: 0.0,
        }
    }

    /// The first and the last post.
    pub fn ends(&self) -> Option<[Stand; 2]> {
        let first = self.end_post(Some(self.run.start), 0.0, End::First)?;
        let at = match self.run.end {
            RunEnd::At(at) => Some(at),
            RunEnd::Length(_) => None,
        };
        Some([first, self.end_post(at, self.track.length, End::Last)?])
    }

    fn end_post(&self, at: Option<RunStart>, running: f64, end: End) -> Option<Stand> {
        match at {
            Some(RunStart::Wall(wall)) => self.against(wall, end),
            Some(RunStart::Corner(corner)) => self.corner_post(corner),
            Some(RunStart::Mark(_)) | None => Some(self.plain(PostKind::End, running)),
        }
    }

    /// Hard against a wall: the post's end face touches it at whichever of its two faces comes first.
    fn against(&self, wall: WallIx, end: End) -> Option<Stand> {
        let wall = wall_ray(self.sound, wall, &|ix| self.plane.sketch(ix))?;
        let front = self.track.meets(&wall, self.run.gap)?;
        let back = self.track.meets(&wall, self.run.gap + self.run.depth)?;
        let centre = match end {
            End::First => front.max(back) + self.run.width / 2.0,
            End::Last => front.min(back) - self.run.width / 2.0,
        };
        Some(Stand {
            wedge: Some((back - front).abs()),
            ..self.plain(PostKind::Wall, centre)
        })
    }

    /// The corner post, as long along the run as its projection onto it.
    fn corner_post(&self, corner: CornerIx) -> Option<Stand> {
        let post = self.strings.crossings[corner.0].as_ref()?.fix.post?;
        let (sin, cos) = post.rotation.to_radians().sin_cos();
        let along = self.track.ray.along;
        let half = post.width / 2.0 * along.dot(&Vector2::new(cos, sin)).abs()
            + post.depth / 2.0 * along.dot(&Vector2::new(-sin, cos)).abs();
        let centre = Vector2::new(post.x, post.y);
        let running = self.track.ray.running(centre);
        Some(Stand {
            kind: PostKind::Corner,
            near: running - half,
            centre: running,
            far: running + half,
            off: self.track.side * self.track.ray.off(centre),
            wedge: None,
            size: [post.width, post.depth],
            rotation: post.rotation,
            stands: false,
            share: 0.0,
        })
    }

    /// Gates that fit between the first and the last post and beside each other, in order, with
    /// their posts; what does not fit is named and left out.
    pub fn gates(&self, [first, last]: &[Stand; 2], problems: &mut Problems) -> Gates {
        let mut wanted: Vec<Opening> = self
            .run
            .gates
            .iter()
            .map(|gate| Opening {
                index: gate.index,
                near: gate.at,
                far: gate.at + gate.clear,
            })
            .collect();
        wanted.sort_by(|a, b| a.near.total_cmp(&b.near));
        let mut gates = Gates::default();
        for opening in wanted {
            let place = format!("{}.gates[{}].at", self.place(), opening.index);
            if let Some(other) = gates.openings.iter().find(|one| overlap(one, &opening)) {
                let (text, remedy) = over_gate(self, other, &opening, last);
                problems.error(place, text, remedy);
                continue;
            }
            let before = gates.posts.last().unwrap_or(first);
            let Some(near_post) = self.gate_post(before, opening.near, Edge::Near) else {
                let (text, remedy) = self.too_early(before, &opening);
                problems.error(place, text, remedy);
                continue;
            };
            let Some(far_post) = self.gate_post(last, opening.far, Edge::Far) else {
                let (text, remedy) = self.too_late([before, last], &opening);
                problems.error(place, text, remedy);
                continue;
            };
            gates
                .posts
                .extend([near_post, far_post].into_iter().flatten());
            gates.openings.push(opening);
        }
        gates
    }

    /// The post beside an edge of an opening: `Some(None)` where `neighbour` already stands there,
    /// `None` where it is in the way.
    fn gate_post(&self, neighbour: &Stand, edge: f64, side: Edge) -> Option<Option<Stand>> {
        let half = self.run.width / 2.0;
        let (face, room, centre) = match side {
            Edge::Near => (neighbour.far, edge - neighbour.far, edge - half),
            Edge::Far => (neighbour.near, neighbour.near - edge, edge + half),
        };
        if (edge - face).abs() <= SAME {
            return Some(None);
        }
        (room >= self.run.width - SAME).then(|| Some(self.plain(PostKind::Gate, centre)))
    }

    fn too_early(&self, before: &Stand, opening: &Opening) -> (String, String) {
        let text = format!(
            "The gate at {} runs over the post that ends at {}, or leaves no room for its own post.",
            self.sound.say(opening.near),
            self.sound.say(before.far)
        );
        let remedy = format!(
            "Start it at {}, hung on that post, or at {} or later with a post of its own.",
            self.sound.say(before.far),
            self.sound.say(before.far + self.run.width)
        );
        (text, remedy)
    }

    fn too_late(&self, [before, last]: [&Stand; 2], opening: &Opening) -> (String, String) {
        let text = format!(
            "The gate ends at {}; the run's last post starts at {}, and there must be room for the gate post.",
            self.sound.say(opening.far),
            self.sound.say(last.near)
        );
        let width = opening.far - opening.near;
        let room = last.near - before.far;
        if width > room + SAME {
            let remedy = format!(
                "Make it narrower or the run longer: only {} are clear there.",
                self.sound.say(room.max(0.0))
            );
            return (text, remedy);
        }
        let remedy = format!(
            "Start it at {} to close against the last post, at {} or earlier, or make it narrower.",
            self.sound.say(last.near - width),
            self.sound.say(last.near - width - self.run.width)
        );
        (text, remedy)
    }

    /// Pinned posts that are inside the run and not in a gate opening.
    pub fn pins(
        &self,
        [first, last]: &[Stand; 2],
        gates: &Gates,
        problems: &mut Problems,
    ) -> Vec<Stand> {
        let mut good = Vec::new();
        let say = |mm: f64| self.sound.say(mm);
        for &SoundPin { at, stands, index } in &self.run.pins {
            let place = format!("{}.pins[{index}].at", self.place());
            let pinned = Stand {
                stands,
                ..self.plain(PostKind::Line, at)
            };
            let others = || [first, last].into_iter().chain(&gates.posts);
            if others().any(|post| (post.centre - at).abs() <= SAME) {
                continue;
            }
            if at < first.centre || at > last.centre {
                problems.error(
                    place,
                    format!(
                        "The pinned post at {} is outside the run, which goes from {} to {}.",
                        say(at),
                        say(first.centre),
                        say(last.centre)
                    ),
                    "Pin it between the first and the last post.",
                );
                continue;
            }
            let blocked = gates
                .openings
                .iter()
                .find(|gate| pinned.far > gate.near + SAME && pinned.near < gate.far - SAME);
            if let Some(gate) = blocked {
                problems.error(
                    place,
                    format!(
                        "The pinned post at {} stands in the gate opening from {} to {}.",
                        say(at),
                        say(gate.near),
                        say(gate.far)
                    ),
                    "Move the pin or the gate.",
                );
                continue;
            }
            good.push(pinned);
        }
        good
    }
}

/// Gate openings and the posts that only they ask for.
#[derive(Default)]
pub(super) struct Gates {
    pub openings: Vec<Opening>,
    pub posts: Vec<Stand>,
}

#[derive(Clone, Copy)]
enum End {
    First,
    Last,
}

#[derive(Clone, Copy)]
enum Edge {
    Near,
    Far,
}
