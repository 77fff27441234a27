//! Does a post that is fixed to a wall lie against it, and how near the building's corner are its
//! bolts?
//!
//! ```text
//!   string ─────────────────────────
//!     gap   ┌──────┐
//!           │ post │
//!   corner ▐│- - - │ bolt line        bearing: from the corner to the post's back
//!    of the▐│      │
//!     wall ▐└──────┘
//! ```

use super::called::post_called;
use super::fixes::{Post, PostKind, RunFix};
use super::track::{Track, wall_ray};
use crate::job::Problems;
use crate::job::model::Foot;
use crate::job::sound::{MarkIx, RunEnd, RunStart, Sound, SoundRun, WallIx};
use crate::site::Plane;
use nalgebra::Vector2;

/// Fixings nearer the corner of a building than this may break it out, mm.
const FROM_CORNER: f64 = 75.0;
/// Below this a figure is as good as the other, mm.
const CLOSE: f64 = 0.05;
/// Two walls that turn less than this at a mark run on as one face, degrees.
const STRAIGHT: f64 = 5.0;

/// Where a wall begins and ends across a run, as depths behind its string: only where it turns the
/// corner of a building. Mm.
#[derive(Clone, Debug)]
pub(super) struct WallFace {
    begins: Option<(f64, MarkIx)>,
    ends: Option<(f64, MarkIx)>,
    /// Along the wall for each mm of depth.
    slant: f64,
}

impl WallFace {
    /// Of a wall that the run ends at; `None` while the wall is not settled.
    pub fn of(sound: &Sound, plane: &Plane, track: &Track, wall: WallIx) -> Option<Self> {
        let ray = wall_ray(sound, wall, &|ix| plane.sketch(ix))?;
        let depth = |at: Vector2<f64>| track.side * track.ray.off(at);
        let slant = ray.along.dot(&track.ray.left()).abs().max(1e-6);
        let mut face = Self {
            begins: None,
            ends: None,
            slant: 1.0 / slant,
        };
        let of = &sound.walls[wall.0];
        let fence = track.at(track.length / 2.0, 0.0);
        for (mark, other) in [(of.from, of.to), (of.to, of.from)] {
            if !turns_corner(sound, plane, wall, mark, fence) {
                continue;
            }
            let (here, there) = (depth(plane.sketch(mark)), depth(plane.sketch(other)));
            if here < there {
                face.begins = Some((here, mark));
            } else {
                face.ends = Some((here, mark));
            }
        }
        Some(face)
    }

    /// How much of a post from one depth to another lies against it, mm.
    pub fn bearing(&self, front: f64, back: f64) -> f64 {
        let begins = self.begins.map_or(front, |(at, _)| at.max(front));
        let ends = self.ends.map_or(back, |(at, _)| at.min(back));
        (ends - begins).max(0.0)
    }

    /// The nearer corner to bolts at a depth, and how far along the wall they are from it; less
    /// than 0 where they miss the wall. Mm.
    fn nearest_corner(&self, bolts: f64) -> Option<(f64, MarkIx)> {
        let begins = self.begins.map(|(at, mark)| (bolts - at, mark));
        let ends = self.ends.map(|(at, mark)| (at - bolts, mark));
        let nearest = begins
            .into_iter()
            .chain(ends)
            .min_by(|a, b| a.0.total_cmp(&b.0));
        nearest.map(|(apart, mark)| (apart * self.slant, mark))
    }
}

/// Whether another wall leaves the mark away from the fence, so that the building ends there.
fn turns_corner(
    sound: &Sound,
    plane: &Plane,
    wall: WallIx,
    mark: MarkIx,
    fence: Vector2<f64>,
) -> bool {
    let Some(face) = wall_ray(sound, wall, &|ix| plane.sketch(ix)) else {
        return false;
    };
    let side = face.off(fence).signum();
    let others = sound.walls.iter().enumerate();
    others
        .filter(|(i, other)| *i != wall.0 && (other.from == mark || other.to == mark))
        .any(|(_, other)| {
            let far = if other.from == mark {
                other.to
            } else {
                other.from
            };
            let away = plane.sketch(far) - plane.sketch(mark);
            let back = -side * face.left().dot(&away);
            back > away.norm() * STRAIGHT.to_radians().sin()
        })
}

/// Names the posts on a wall that do not bear on it with their whole depth, or whose bolts are too
/// near a corner.
pub(super) fn name_bearings(
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
        let ends = [
            ("start", Some(run.start), fix.posts.first()),
            ("end", at(run.end), fix.posts.last()),
        ];
        for (key, end, post) in ends {
            if let (Some(RunStart::Wall(wall)), Some(post)) = (end, post)
                && post.kind == PostKind::Wall
                && post.foot == Foot::Wall
                && let Some(face) = WallFace::of(sound, plane, track, wall)
            {
                let place = format!("runs[{}].{key}.foot", run.index);
                Bolted {
                    sound,
                    run,
                    post,
                    wall,
                    face,
                }
                .name(place, problems);
            }
        }
    }
}

fn at(end: RunEnd) -> Option<RunStart> {
    match end {
        RunEnd::At(at) => Some(at),
        RunEnd::Length(_) => None,
    }
}

/// A post fixed to a wall.
struct Bolted<'a> {
    sound: &'a Sound,
    run: &'a SoundRun,
    post: &'a Post,
    wall: WallIx,
    face: WallFace,
}

impl Bolted<'_> {
    fn name(&self, place: String, problems: &mut Problems) {
        let depth = self.post.size[1];
        let bearing = self.post.bearing.unwrap_or(depth);
        let remedy = "Move the string, or stand this post in a hole. What a wall can carry is for \
                      the fixing's own sheet, and for someone who knows the wall.";
        let corner = |mark: MarkIx| {
            format!(
                "wall “{}” ends at mark {}",
                self.sound.walls[self.wall.0].called(),
                self.sound.marks[mark.0].id
            )
        };
        let called = post_called(self.run.called(), self.post.n);
        let Some((apart, mark)) = self.face.nearest_corner(self.post.off) else {
            return;
        };
        if bearing < depth - CLOSE {
            problems.note(
                place.clone(),
                format!(
                    "Of the {} that {called} is deep, {} lies against the wall: {}.",
                    self.sound.say(depth),
                    self.sound.say(bearing),
                    corner(mark)
                ),
                remedy,
            );
        }
        if apart < FROM_CORNER - CLOSE {
            let said = if apart < 0.0 {
                format!("would miss the wall by {}", self.sound.say(-apart))
            } else {
                format!(
                    "would be {} from the corner of the building",
                    self.sound.say(apart)
                )
            };
            problems.warning(
                place,
                format!(
                    "Bolts down the middle of {called} {said}: {}. Nearer than {} the corner may \
                     break out.",
                    corner(mark),
                    self.sound.say(FROM_CORNER)
                ),
                remedy,
            );
        }
    }
}
