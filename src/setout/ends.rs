//! The first and the last post of a run: at a wall, at a corner, at a mark or a length.

use super::bearing::WallFace;
use super::bench::{Bench, Stand};
use super::fixes::PostKind;
use super::track::wall_ray;
use crate::job::model::Foot;
use crate::job::sound::{CornerIx, RunEnd, RunStart, WallIx};
use nalgebra::Vector2;

#[derive(Clone, Copy)]
enum End {
    First,
    Last,
}

impl Bench<'_> {
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
            Some(RunStart::Mark(_)) | None => Some(Stand {
                foot: self.foot(end),
                ..self.plain(PostKind::End, running)
            }),
        }
    }

    fn foot(&self, end: End) -> Foot {
        let [first, last] = self.run.end_feet;
        match end {
            End::First => first,
            End::Last => last,
        }
    }

    /// Hard against a wall: the post's end face touches it at whichever of its two faces comes first.
    fn against(&self, wall: WallIx, end: End) -> Option<Stand> {
        let ray = wall_ray(self.sound, wall, &|ix| self.plane.sketch(ix))?;
        let foot = self.foot(end);
        let bearing = || {
            let face = WallFace::of(self.sound, self.plane, &self.track, wall)?;
            Some(face.bearing(self.run.gap, self.run.gap + self.run.depth))
        };
        let front = self.track.meets(&ray, self.run.gap)?;
        let back = self.track.meets(&ray, self.run.gap + self.run.depth)?;
        let centre = match end {
            End::First => front.max(back) + self.run.width / 2.0,
            End::Last => front.min(back) - self.run.width / 2.0,
        };
        Some(Stand {
            wedge: Some((back - front).abs()),
            foot,
            bearing: (foot == Foot::Wall).then(bearing).flatten(),
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
            foot: self.corner_foot(corner),
            bearing: None,
            size: [post.width, post.depth],
            rotation: post.rotation,
            stands: false,
            filled: false,
            kept: false,
        })
    }

    /// How a corner post stands: as the first run in the file that it is the first or last post of.
    fn corner_foot(&self, corner: CornerIx) -> Foot {
        let here = RunStart::Corner(corner);
        let feet = self.sound.runs.iter().find_map(|run| {
            let [first, last] = run.end_feet;
            if run.start == here {
                return Some(first);
            }
            (run.end == RunEnd::At(here)).then_some(last)
        });
        feet.unwrap_or(self.run.foot)
    }
}
