//! Posts whose concrete has gone off: they stay where they were measured, and the rest of the run is
//! fitted to them.
//!
//! ```text
//!   planned   █────────█────────█────────█
//!   kept      █──────────█──────█────────█    post 2 stands 7 on: its own bay and the next change
//! ```
//!
//! The run keeps the number of its posts, so that every peg keeps its name. Posts that only fill
//! bays move with the posts on either side; ends, corners, gate posts and pinned posts stay where
//! the job has them.

use super::Layout;
use super::bench::{SAME, Stand};
use super::called::{capital, post_called};
use super::fixes::PostKind;
use crate::job::model::BayFit;
use crate::job::sound::{CornerIx, GateAt, RunEnd, RunStart, SoundKept, SoundRun};
use crate::job::{Problems, Where};
use crate::listed::and;
use nalgebra::{Matrix2, Vector2};

/// Moves every kept post to where it stands, and fits gates and bays to it.
pub(super) fn keep(layouts: &mut [Option<Layout<'_>>], problems: &mut Problems) {
    let corners = corners(layouts);
    for layout in layouts.iter_mut().flatten() {
        let before: Vec<Stand> = layout.stands.clone();
        for &(corner, centre) in &corners {
            layout.keep_corner(corner, centre);
        }
        let mut kept = layout.bench.run.kept.clone();
        kept.sort_by_key(|one| one.n);
        for one in kept {
            layout.keep_post(&one, problems);
        }
        if layout.stands.iter().any(|stand| stand.kept) {
            layout.fit_gates(&before);
            layout.fit_bays();
            layout.name_long_bays(problems);
        }
    }
}

/// A kept corner post as one run has it.
struct Sighting {
    corner: CornerIx,
    /// Unit direction along the run, mm per mm.
    along: Vector2<f64>,
    /// How far it was moved along the run, and off its string.
    moved: [f64; 2],
    /// Unit direction away from the string.
    away: Vector2<f64>,
    planned: Vector2<f64>,
}

/// Where kept corner posts stand: as one run measured them, or along both strings where both did.
fn corners(layouts: &[Option<Layout<'_>>]) -> Vec<(CornerIx, Vector2<f64>)> {
    let mut sightings: Vec<Sighting> = Vec::new();
    for layout in layouts.iter().flatten() {
        let run = layout.bench.run;
        for kept in &run.kept {
            let Some(stand) = kept.n.checked_sub(1).and_then(|at| layout.stands.get(at)) else {
                continue;
            };
            let Some(corner) = layout.corner_of(kept.n) else {
                continue;
            };
            let track = &layout.bench.track;
            sightings.push(Sighting {
                corner,
                along: track.ray.along,
                moved: [
                    kept.measured - stand.centre,
                    kept.off.map_or(0.0, |off| off - stand.off),
                ],
                away: track.ray.left() * track.side,
                planned: track.at(stand.centre, stand.off),
            });
        }
    }
    let mut found: Vec<(CornerIx, Vector2<f64>)> = Vec::new();
    for (i, one) in sightings.iter().enumerate() {
        if found.iter().any(|(corner, _)| *corner == one.corner) {
            continue;
        }
        let other = sightings[i + 1..]
            .iter()
            .find(|other| other.corner == one.corner);
        let both = other.and_then(|other| {
            let rows = Matrix2::new(one.along.x, one.along.y, other.along.x, other.along.y);
            Some(rows.try_inverse()? * Vector2::new(one.moved[0], other.moved[0]))
        });
        let alone = one.along * one.moved[0] + one.away * one.moved[1];
        found.push((one.corner, one.planned + both.unwrap_or(alone)));
    }
    found
}

impl Layout<'_> {
    /// The corner whose post has this number.
    fn corner_of(&self, n: usize) -> Option<CornerIx> {
        let stand = self.stands.get(n.checked_sub(1)?)?;
        if stand.kind != PostKind::Corner {
            return None;
        }
        let run: &SoundRun = self.bench.run;
        let end = match run.end {
            RunEnd::At(end) if n == self.stands.len() => end,
            _ => run.start,
        };
        match end {
            RunStart::Corner(corner) => Some(corner),
            _ => None,
        }
    }

    fn keep_corner(&mut self, corner: CornerIx, centre: Vector2<f64>) {
        let ray = self.bench.track.ray;
        let off = self.bench.track.side * ray.off(centre);
        for n in [1, self.stands.len()] {
            if self.corner_of(n) == Some(corner)
                && let Some(stand) = self.stands.get_mut(n - 1)
            {
                stand.move_to(ray.running(centre));
                stand.off = off;
                stand.kept = true;
            }
        }
    }

    fn keep_post(&mut self, kept: &SoundKept, problems: &mut Problems) {
        let Some(at) = kept.n.checked_sub(1).filter(|at| *at < self.stands.len()) else {
            return;
        };
        if self.stands[at].kind == PostKind::Corner {
            return;
        }
        let mut moved = self.stands[at];
        moved.move_to(kept.measured);
        let before = self.stands[..at].iter().rposition(|stand| !stand.filled);
        let after = self.stands[at + 1..].iter().position(|stand| !stand.filled);
        let after = after.map(|further| at + 1 + further);
        let width = self.bench.run.width;
        let room = |posts: usize| width * posts as f64 - SAME;
        let is_clear = |i: usize, j: usize, gap: f64| gap >= room(j - i - 1);
        let clear_before = before.is_none_or(|b| is_clear(b, at, moved.near - self.stands[b].far));
        let clear_after = after.is_none_or(|a| is_clear(at, a, self.stands[a].near - moved.far));
        if !clear_before || !clear_after {
            problems.error(
                format!("marked[{}].measured", kept.index),
                format!(
                    "{} cannot be kept at {}: the posts on either side leave no room for it there.",
                    capital(&post_called(self.bench.run.called(), kept.n)),
                    self.bench.sound.say(kept.measured)
                ),
                "Measure it again from the run's zero, or choose the post that it is.",
            );
            return;
        }
        moved.kept = true;
        moved.filled = false;
        if let Some(off) = kept.off {
            moved.off = off;
        }
        self.stands[at] = moved;
    }

    /// An opening hard against a kept end moves with it; any other becomes as wide as it stands.
    fn fit_gates(&mut self, before: &[Stand]) {
        for between in &mut self.gates {
            let gates = &self.bench.run.gates;
            let gate = gates
                .iter()
                .find(|gate| gate.index == between.opening.index);
            let (from, to) = (between.from, between.to);
            let shift = |at: usize| self.stands[at].centre - before[at].centre;
            match gate.map(|gate| gate.at) {
                Some(GateAt::First) if from == 0 && !self.stands[to].kept => {
                    let moved = self.stands[to].centre + shift(from);
                    self.stands[to].move_to(moved);
                }
                Some(GateAt::Last) if to + 1 == self.stands.len() && !self.stands[from].kept => {
                    let moved = self.stands[from].centre + shift(to);
                    self.stands[from].move_to(moved);
                }
                _ => {}
            }
            if self.stands[from].centre != before[from].centre {
                between.opening.near = self.stands[from].far;
            }
            if self.stands[to].centre != before[to].centre {
                between.opening.far = self.stands[to].near;
            }
        }
    }

    /// Spaces the posts that only fill bays anew, as many as there were, beside posts that moved.
    fn fit_bays(&mut self) {
        let mut from = 0;
        while from + 1 < self.stands.len() {
            let rest = self.stands[from + 1..].iter();
            let filled = rest.take_while(|stand| stand.filled).count();
            let to = from + filled + 1;
            if to < self.stands.len() && filled > 0 {
                self.space(from, to);
            }
            from = to;
        }
    }

    fn space(&mut self, from: usize, to: usize) {
        let run = self.bench.run;
        let (start, end) = (self.stands[from].centre, self.stands[to].centre);
        let bays = (to - from) as f64;
        let full = run.bay_max * (bays - 1.0) + run.width < end - start;
        let step = match run.bay_fit {
            BayFit::Full if full => run.bay_max,
            BayFit::Full | BayFit::Equal => (end - start) / bays,
        };
        for (k, stand) in self.stands[from + 1..to].iter_mut().enumerate() {
            stand.move_to(start + step * (k + 1) as f64);
        }
    }

    fn name_long_bays(&self, problems: &mut Problems) {
        let run = self.bench.run;
        let most = run.bay_max + self.bench.sound.tolerance.length + 1e-6;
        let bays = self.stands.windows(2).enumerate();
        let long: Vec<(usize, f64)> = bays
            .map(|(at, pair)| (at, pair[1].centre - pair[0].centre))
            .filter(|(at, bay)| *bay > most && self.gates.iter().all(|gate| gate.from != *at))
            .collect();
        let longest = long.iter().map(|(_, bay)| *bay).fold(0.0, f64::max);
        let each: Vec<String> = long
            .iter()
            .map(|(at, _)| format!("{} to {}", at + 1, at + 2))
            .collect();
        let (which, is) = match each.as_slice() {
            [] => return,
            [one] => (format!("bay {one}"), "is"),
            several => (format!("bays {}", and(several)), "are up to"),
        };
        let place = Where::from(format!("runs[{}].bays.max", run.index)).of_run(&run.id);
        problems.warning(
            place,
            format!(
                "In run “{}” {which} {is} {}, over your longest bay of {}, because of a post that \
                 is kept where it stands.",
                run.called(),
                self.bench.sound.say(longest),
                self.bench.sound.say(run.bay_max)
            ),
            "Allow a longer bay, or pin a post between.",
        );
    }
}

impl Stand {
    /// Moves the post along the string, mm.
    fn move_to(&mut self, centre: f64) {
        let by = centre - self.centre;
        self.near += by;
        self.centre = centre;
        self.far += by;
    }
}
