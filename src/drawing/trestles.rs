//! Posts lying on trestles, tops to the left: every mark along them before they are set.
//!
//! ```text
//!                 123     813       1 503  board 1 600
//!               ┌──┐▒▒▒▒┌──────┐▒▒▒▒┌───────┬──────┊─────────┐
//!   2 and 3     │                           │      ┊ ground  │ cut 2 337
//!   together    └──┘▒▒▒▒└──────┘▒▒▒▒└───────┴──────┊─────────┘   start side above, end side below
//! ```

use super::bounds::Vec2;
use super::model::{
    Drawing, Fill, Label, LineStyle, Rank, Role, Row, RowFigure, Shape, Target, WordsPlace,
};
use super::pencil::{Pencil, circle, upright};
use crate::Solution;
use crate::boards::{
    AlongPost, AlongWhat, PostFace, PostHeights, WhichEnd, cut_length, cut_together,
};
use crate::job::{Job, RunId};
use crate::length::{Unit, show};
use crate::listed::and;

/// How posts are drawn across: what counts is along them.
#[derive(Clone, Copy)]
struct Scale {
    /// Times as thick as they are.
    thick: f64,
    /// Room for a line of figures beside a post, as a share of the longest.
    figures: f64,
}

/// All of a run's, on a page: thin, to lie under each other.
const ALL: Scale = Scale {
    thick: 0.75,
    figures: 0.038,
};
/// One group, on a phone: thick enough for its figures.
const ONE: Scale = Scale {
    thick: 2.0,
    figures: 0.09,
};
/// Between posts where no figures stand, as a share of the room for figures.
const BARE: f64 = 0.3;
/// How large a bolt is drawn, mm.
const BOLT: f64 = 9.0;
const UP: Vec2 = Vec2::new(0.0, 1.0);
const DOWN: Vec2 = Vec2::new(0.0, -1.0);
const RIGHT: Vec2 = Vec2::new(1.0, 0.0);
const LEFT: Vec2 = Vec2::new(-1.0, 0.0);

/// The groups of a run's posts that are marked and cut together, one under the other; only that of
/// post `only` where it is given, else without a corner post that an earlier run has. `None` while
/// no post has marks.
#[must_use]
pub fn trestles(
    job: &Job,
    solution: &Solution,
    run: &RunId,
    only: Option<usize>,
) -> Option<Drawing> {
    let boards = solution.boards.get(run)?;
    let fix = solution.runs.get(run)?;
    let groups: Vec<Vec<&PostHeights>> = match only {
        None => cut_together(&solution.boards, run),
        Some(n) => {
            let group = boards.alike.iter().find(|group| group.contains(&n))?;
            let posts = boards.posts.iter();
            vec![posts.filter(|post| group.contains(&post.n)).collect()]
        }
    };
    let scale = if only.is_some() { ONE } else { ALL };
    let lying: Vec<Lying<'_>> = groups
        .into_iter()
        .filter_map(|posts| {
            let first = *posts.first()?;
            let size = fix.post(first.n)?.size;
            let cuts = posts
                .iter()
                .map(|post| cut_length(&solution.boards, run, post.n));
            Some(Lying {
                unit: job.show.lengths,
                run,
                first,
                cuts: cuts.collect(),
                posts,
                thick: scale.thick,
                half: size[0] / 2.0 * scale.thick,
                middle: 0.0,
            })
        })
        .collect();
    let longest = lying.iter().map(Lying::longest).fold(0.0, f64::max);
    let room = longest * scale.figures;
    let mut pencil = Pencil::default();
    let mut lowest = 0.0;
    let drawn = lying.len();
    for post in lying {
        let middle = lowest - post.beside(true, room) - post.half;
        lowest = middle - post.half - post.beside(false, room);
        Lying { middle, ..post }.draw(&mut pencil);
    }
    let groups = if drawn == 1 { "group" } else { "groups" };
    let words = format!("Posts of run {run} on trestles, {drawn} {groups}, marks from their tops");
    (drawn > 0).then(|| pencil.done(words))
}

/// A group of posts, drawn as one.
struct Lying<'a> {
    unit: Unit,
    run: &'a RunId,
    first: &'a PostHeights,
    posts: Vec<&'a PostHeights>,
    /// What each is cut to, mm.
    cuts: Vec<Option<f64>>,
    /// Drawn so many times as thick as it is.
    thick: f64,
    half: f64,
    /// Height of its middle in the drawing, mm.
    middle: f64,
}

impl Lying<'_> {
    fn longest(&self) -> f64 {
        self.cuts.iter().flatten().copied().fold(0.0, f64::max)
    }

    /// What lies above it or below it: figures, or only a little.
    fn beside(&self, above: bool, room: f64) -> f64 {
        if self.figures(above).is_empty() {
            BARE * room
        } else {
            room
        }
    }

    fn edges(&self) -> [f64; 2] {
        [self.middle - self.half, self.middle + self.half]
    }

    fn draw(&self, pencil: &mut Pencil) {
        let [low, high] = self.edges();
        let outline = upright(0.0, low, self.longest(), high);
        pencil
            .area(Role::LyingPost, LineStyle::Plain, Fill::Plain, outline)
            .of(Target::Post {
                run: self.run.clone(),
                n: self.first.n,
            });
        for mark in &self.first.along {
            match mark.what {
                AlongWhat::Rail(_) => self.housing(pencil, mark),
                AlongWhat::Gravel => self.edge(pencil, mark),
                AlongWhat::Ground => {}
                AlongWhat::Bolt(_) => self.bolt(pencil, mark.from),
            }
        }
        self.row(pencil, high, UP, self.figures(true));
        self.row(pencil, low, DOWN, self.figures(false));
        self.grounds(pencil);
        self.ends(pencil);
        let label = Label::near(Vec2::new(0.0, self.middle), self.name(), LEFT, 0.0);
        pencil.label(Role::Text, label.rank(Rank::Now));
    }

    fn name(&self) -> String {
        let numbers: Vec<String> = self.posts.iter().map(|post| post.n.to_string()).collect();
        match numbers.as_slice() {
            [one] => one.clone(),
            [first, .., last] if numbers.len() > 4 => format!("{first} to {last} together"),
            [] => String::new(),
            _ => format!("{} together", and(&numbers)),
        }
    }

    /// Figures from the top, along one side, in their order; those of the end side only where they
    /// differ from the start side's.
    fn figures(&self, above: bool) -> Vec<(f64, String)> {
        let of = |below: bool| -> Vec<(f64, String)> {
            let figure = |mark: &AlongPost| {
                let text = show(mark.from, self.unit);
                let lies_below =
                    mark.side == Some(PostFace::End) || mark.half == Some(WhichEnd::End);
                match mark.what {
                    _ if lies_below != below => None,
                    AlongWhat::Rail(_) => Some((mark.from, text)),
                    AlongWhat::Gravel => Some((mark.from, format!("board {text}"))),
                    AlongWhat::Bolt(_) | AlongWhat::Ground => None,
                }
            };
            self.first.along.iter().filter_map(figure).collect()
        };
        let (start, end) = (of(false), of(true));
        let texts = |side: &[(f64, String)]| -> Vec<String> {
            side.iter().map(|(_, text)| text.clone()).collect()
        };
        match above {
            true => start,
            false if texts(&start) == texts(&end) => Vec::new(),
            false => end,
        }
    }

    /// A bolt with its figure beside it, inside the post.
    fn bolt(&self, pencil: &mut Pencil, at: f64) {
        let centre = Vec2::new(at, self.middle);
        pencil.area(
            Role::Mark,
            LineStyle::Plain,
            Fill::None,
            circle(centre, BOLT),
        );
        let label = Label {
            place: WordsPlace::Toward {
                toward: RIGHT,
                clear: BOLT,
            },
            ..Label::near(centre, show(at, self.unit), RIGHT, BOLT)
        };
        pencil.label(Role::Text, label.small());
    }

    fn row(&self, pencil: &mut Pencil, y: f64, out: Vec2, figures: Vec<(f64, String)>) {
        if figures.is_empty() {
            return;
        }
        let figures = figures.into_iter().map(|(at, text)| RowFigure {
            at: Vec2::new(at, y),
            text,
            of: None,
        });
        let row = Row {
            along: RIGHT,
            out,
            clear: 0.0,
            clear_back: 2.0 * self.half,
            level: true,
            figures: figures.collect(),
        };
        pencil.add(Role::Dimension, Shape::Row(row));
    }

    fn housing(&self, pencil: &mut Pencil, mark: &AlongPost) {
        let [low, high] = self.edges();
        let depth = (mark.depth.unwrap_or(0.0) * self.thick).max(self.half * 0.15);
        let [bottom, top] = match (mark.side, mark.half) {
            (Some(PostFace::Start), _) => [high - depth, high],
            (Some(PostFace::End), _) => [low, low + depth],
            (_, Some(WhichEnd::Start)) => [self.middle, high],
            (_, Some(WhichEnd::End)) => [low, self.middle],
            (_, None) => [low, high],
        };
        let area = upright(mark.from, bottom, mark.to, top);
        pencil.area(Role::Rail, LineStyle::Fine, Fill::Plain, area);
    }

    fn edge(&self, pencil: &mut Pencil, mark: &AlongPost) {
        let [low, high] = self.edges();
        let ends = match mark.side {
            Some(PostFace::Start) => [self.middle, high],
            Some(PostFace::End) => [low, self.middle],
            Some(PostFace::Front) | None => [low, high],
        };
        let [from, to] = ends.map(|y| Vec2::new(mark.from, y));
        pencil.line(Role::GravelBoard, LineStyle::Thick, from, to);
    }

    /// Each post's own ground line, named inside the post.
    fn grounds(&self, pencil: &mut Pencil) {
        let [low, high] = self.edges();
        let longest = self.longest();
        let lines = self.posts.iter().filter_map(|post| {
            let ground = post
                .along
                .iter()
                .find(|mark| mark.what == AlongWhat::Ground);
            ground.map(|mark| mark.from)
        });
        let lines: Vec<f64> = lines.filter(|at| *at < longest).collect();
        for &at in &lines {
            let ends = [low, high].map(|y| Vec2::new(at, y));
            pencil.line(Role::Ground, LineStyle::Dashed, ends[0], ends[1]);
        }
        let Some(last) = lines.iter().copied().reduce(f64::max) else {
            return;
        };
        let text = format!("ground {}", self.each(&lines));
        let label = Label {
            place: WordsPlace::Toward {
                toward: RIGHT,
                clear: 0.0,
            },
            ..Label::near(Vec2::new(last, self.middle), text, RIGHT, 0.0)
        };
        pencil.label(Role::Quiet, label.small());
    }

    /// Where each is cut off.
    fn ends(&self, pencil: &mut Pencil) {
        let [low, high] = self.edges();
        let longest = self.longest();
        let cuts: Vec<f64> = self.cuts.iter().flatten().copied().collect();
        for &length in cuts.iter().filter(|length| **length < longest - 0.5) {
            let ends = [low, high].map(|y| Vec2::new(length, y));
            pencil.line(Role::LyingPost, LineStyle::Plain, ends[0], ends[1]);
        }
        if cuts.is_empty() {
            return;
        }
        let text = format!("cut {}", self.each(&cuts));
        let label = Label::near(Vec2::new(longest, self.middle), text, RIGHT, 0.0);
        pencil.label(Role::Text, label.small());
    }

    /// A figure of each post: once where they agree, else from the least to the most.
    fn each(&self, figures: &[f64]) -> String {
        let least = figures.iter().copied().fold(f64::INFINITY, f64::min);
        let most = figures.iter().copied().fold(f64::NEG_INFINITY, f64::max);
        let [least, most] = [least, most].map(|mm| show(mm, self.unit));
        if least == most {
            least
        } else {
            format!("{least} to {most}")
        }
    }
}
