//! Posts lying on trestles, tops to the left: every mark along them before they are set.
//!
//! ```text
//!   2 and 3   ┌──┐▒▒▒▒┌──────┐▒▒▒▒┌───────┬──────┊────┐     start side above, end side below
//!   together  └──┘▒▒▒▒└──────┘▒▒▒▒└───────┴──────┊────┘
//!             0  123         813          gravel  ground  cut off
//! ```

use super::bounds::Vec2;
use super::model::{Drawing, Fill, Label, LineStyle, Rank, Role, Target};
use super::pencil::{Pencil, circle, upright};
use crate::Solution;
use crate::boards::{AlongPost, AlongWhat, PostFace, PostHeights};
use crate::job::{Job, RunId};
use crate::length::{Unit, show};

/// From one group of posts to the next, mm.
const APART: f64 = 260.0;
/// How large a bolt is drawn, mm.
const BOLT: f64 = 9.0;
const UP: Vec2 = Vec2::new(0.0, 1.0);
const DOWN: Vec2 = Vec2::new(0.0, -1.0);

/// The groups of a run's posts that are marked and cut together, one under the other; only that of
/// post `only` where it is given. `None` while no post has marks.
#[must_use]
pub fn trestles(
    job: &Job,
    solution: &Solution,
    run: &RunId,
    only: Option<usize>,
) -> Option<Drawing> {
    let boards = solution.boards.get(run)?;
    let fix = solution.runs.get(run)?;
    let groups = boards
        .alike
        .iter()
        .filter(|group| only.is_none_or(|n| group.contains(&n)));
    let mut pencil = Pencil::default();
    let mut drawn = 0;
    for (at, group) in groups.enumerate() {
        let posts: Vec<&PostHeights> = group
            .iter()
            .filter_map(|n| boards.posts.iter().find(|post| post.n == *n))
            .collect();
        let size = group.first().and_then(|n| fix.posts.get(n.checked_sub(1)?));
        let (Some(first), Some(size)) = (posts.first(), size) else {
            continue;
        };
        let lying = Lying {
            unit: job.show.lengths,
            posts: &posts,
            middle: -APART * at as f64,
            half: size.size[0] / 2.0,
        };
        lying.draw(&mut pencil, run, first);
        drawn += 1;
    }
    let words = format!("Posts of run {run} on trestles, {drawn} groups, marks from their tops");
    (drawn > 0).then(|| pencil.done(words))
}

/// A group of posts, drawn as one.
struct Lying<'a> {
    unit: Unit,
    posts: &'a [&'a PostHeights],
    /// Height of its middle in the drawing, mm.
    middle: f64,
    half: f64,
}

impl Lying<'_> {
    fn draw(&self, pencil: &mut Pencil, run: &RunId, first: &PostHeights) {
        let lengths = self.posts.iter().filter_map(|post| post.length);
        let longest = lengths.fold(0.0, f64::max);
        let [low, high] = [self.middle - self.half, self.middle + self.half];
        pencil
            .area(
                Role::Post,
                LineStyle::Plain,
                Fill::Plain,
                upright(0.0, low, longest, high),
            )
            .of(Target::Post {
                run: run.clone(),
                n: first.n,
            });
        for mark in &first.along {
            match mark.what {
                AlongWhat::Rail(_) => self.housing(pencil, mark),
                AlongWhat::Gravel => self.edge(pencil, mark, "board"),
                AlongWhat::Ground => {}
                AlongWhat::Bolt(_) => self.bolt(pencil, mark.from),
            }
        }
        for post in self.posts {
            self.ground(pencil, post, longest);
        }
        let names: Vec<String> = self.posts.iter().map(|post| post.n.to_string()).collect();
        let name = match names.len() {
            1 => format!("post {}", names.join("")),
            _ => format!("posts {}: clamp together", names.join(", ")),
        };
        let at = Vec2::new(0.0, high + self.half * 0.9);
        let label = Label::near(at, name, Vec2::new(1.0, 0.0), 0.0);
        pencil.label(Role::Text, label.rank(Rank::Now));
    }

    fn housing(&self, pencil: &mut Pencil, mark: &AlongPost) {
        let [low, high] = [self.middle - self.half, self.middle + self.half];
        let depth = mark.depth.unwrap_or(0.0).max(self.half * 0.15);
        let [bottom, top] = match mark.side {
            Some(PostFace::Start) => [high - depth, high],
            Some(PostFace::End) => [low, low + depth],
            Some(PostFace::Front) | None => [low, high],
        };
        let area = upright(mark.from, bottom, mark.to, top);
        pencil.area(Role::Rail, LineStyle::Fine, Fill::Plain, area);
        let (at, out) = match mark.side {
            Some(PostFace::End) => (Vec2::new(mark.from, low), DOWN),
            _ => (Vec2::new(mark.from, high), UP),
        };
        let label = Label::near(at, show(mark.from, self.unit), out, 0.0);
        pencil.label(Role::Text, label);
    }

    fn edge(&self, pencil: &mut Pencil, mark: &AlongPost, name: &str) {
        let [low, high] = [self.middle - self.half, self.middle + self.half];
        let (ends, out) = match mark.side {
            Some(PostFace::Start) => ([self.middle, high], UP),
            Some(PostFace::End) => ([self.middle, low], DOWN),
            Some(PostFace::Front) | None => ([low, high], UP),
        };
        let ends = ends.map(|y| Vec2::new(mark.from, y));
        pencil.line(Role::GravelBoard, LineStyle::Thick, ends[0], ends[1]);
        let text = format!("{name} {}", show(mark.from, self.unit));
        let label = Label::near(ends[1], text, out, 0.0);
        pencil.label(Role::Text, label);
    }

    fn bolt(&self, pencil: &mut Pencil, at: f64) {
        let centre = Vec2::new(at, self.middle);
        pencil.area(
            Role::Mark,
            LineStyle::Plain,
            Fill::None,
            circle(centre, BOLT),
        );
        let below = Vec2::new(at, self.middle - self.half);
        let label = Label::near(below, show(at, self.unit), DOWN, 0.0);
        pencil.label(Role::Text, label);
    }

    /// Each post's own ground line and cut-off.
    fn ground(&self, pencil: &mut Pencil, post: &PostHeights, longest: f64) {
        let [low, high] = [self.middle - self.half, self.middle + self.half];
        let ground = post
            .along
            .iter()
            .find(|mark| mark.what == AlongWhat::Ground);
        if let Some(mark) = ground.filter(|mark| mark.from < longest) {
            let ends = [low, high].map(|y| Vec2::new(mark.from, y));
            pencil.line(Role::Ground, LineStyle::Dashed, ends[0], ends[1]);
            let text = format!("{}: ground {}", post.n, show(mark.from, self.unit));
            pencil.label(Role::Quiet, Label::near(ends[0], text, DOWN, 0.0).small());
        }
        if let Some(length) = post.length {
            if length < longest - 0.5 {
                let ends = [low, high].map(|y| Vec2::new(length, y));
                pencil.line(Role::Post, LineStyle::Plain, ends[0], ends[1]);
            }
            let text = format!("{}: cut {}", post.n, show(length, self.unit));
            let at = Vec2::new(length, high);
            pencil.label(Role::Text, Label::near(at, text, UP, 0.0).small());
        }
    }
}
