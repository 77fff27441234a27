//! Posts whose place is given: gate posts and pins between the first and the last.

use super::bench::{Bench, Opening, SAME, Stand};
use super::fixes::PostKind;
use super::overlap::{over_gate, overlap};
use crate::job::Problems;
use crate::job::sound::{GateAt, SoundPin};

impl Bench<'_> {
    /// Gates that fit between the first and the last post and beside each other, in order, with
    /// their posts; what does not fit is named and left out.
    pub fn gates(&self, [first, last]: &[Stand; 2], problems: &mut Problems) -> Gates {
        let mut wanted: Vec<Opening> = self
            .run
            .gates
            .iter()
            .map(|gate| {
                let near = match gate.at {
                    GateAt::Reading(at) => at,
                    GateAt::First => first.far,
                    GateAt::Last => last.near - gate.clear,
                };
                Opening {
                    index: gate.index,
                    near,
                    far: near + gate.clear,
                }
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
enum Edge {
    Near,
    Far,
}
