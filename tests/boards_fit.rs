//! Whatever the site: marks along a post and marks on it are the same heights, pieces fit between
//! the posts as they stand, and every notch lies within its post and off its bolts. Where posts stand
//! is read from their places on the ground, not from the running readings that lengths come from.

mod fences;

use fences::cornered;
use proptest::prelude::*;
use serde_json::json;
use tautmark::boards::{
    AlongWhat, LongPoint, MarkEdge, MarkedThing, PieceEnd, RunBoards, UpOrDown, WhichEnd,
    height_marks,
};
use tautmark::job::Job;
use tautmark::job::model::{Foot, Joint, PostSet, Rails, Side};
use tautmark::setout::{Post, RunFix};
use tautmark::{Solution, solve};

/// What a fence is made with.
#[derive(Clone, Debug)]
struct Made {
    seed: u64,
    set: PostSet,
    joint: Joint,
    /// Thickness of rails and boards, and how far behind the posts' fronts they sit, as a share of
    /// what is left of the post.
    thick: [f64; 2],
    sits: [f64; 2],
    seat: f64,
    notch: f64,
    post: [f64; 2],
}

fn made() -> impl Strategy<Value = Made> {
    let set = prop_oneof![
        Just(PostSet::First),
        Just(PostSet::Second),
        Just(PostSet::Bisect)
    ];
    let joint = prop_oneof![Just(Joint::Side), Just(Joint::Face)];
    (
        any::<u64>(),
        set,
        joint,
        [20.0..60.0, 15.0..40.0],
        [0.02..0.98, 0.02..0.98],
        0.0..30.0,
        0.0..40.0,
        [75.0..150.0, 75.0..150.0],
    )
        .prop_map(|(seed, set, joint, thick, sits, seat, notch, post)| Made {
            seed,
            set,
            joint,
            thick,
            sits,
            seat,
            notch,
            post,
        })
}

/// A corner with two walls, whose posts there are bolted to them.
fn fence(made: &Made) -> Job {
    let mut job = cornered(made.seed).job;
    let [width, depth] = made.post;
    for run in &mut job.runs {
        let post = run.post.get_or_insert_default();
        (post.width, post.depth) = (width, depth);
    }
    if let Some(post) = &mut job.corners[0].post {
        (post.width, post.depth, post.set) = (width, depth, made.set);
    }
    let set = |k: usize| made.sits[k] * (depth - made.thick[k]);
    if let Some(rails) = &mut job.boards.rails {
        rails.thick = Some(made.thick[0]);
        rails.set = Some(set(0));
        rails.seat = made.seat;
        rails.notch = Some(made.notch);
        rails.joint = made.joint;
    }
    if let Some(gravel) = &mut job.boards.gravel {
        gravel.thick = made.thick[1];
        gravel.set = Some(set(1));
    }
    let notches = json!([{ "rail": 1, "foot": "hole", "depth": made.notch / 2.0 },
                         { "foot": "wall", "depth": made.notch * 1.5 }]);
    job.boards.notches = serde_json::from_value(notches).expect("notches");
    job
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 64, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn marks_lying_and_standing_are_the_same_heights_from_either_set_up(made in made()) {
        let job = fence(&made);
        let solution = solve(&job);
        let levels = solution.levels.as_ref().expect("levelled");
        let half = job.boards.rails.as_ref().expect("rails").height / 2.0;
        for post in solution.boards.values().flat_map(|run| &run.posts) {
            let top = post.top.expect("known");
            for setup in levels.setups.values() {
                // On the standing post, with the tape from the laser line.
                let mut standing: Vec<(MarkedThing, f64)> = height_marks(post, setup.line)
                    .into_iter()
                    .map(|mark| (mark.what, match mark.way {
                        UpOrDown::Up => setup.line + mark.by,
                        UpOrDown::Down => setup.line - mark.by,
                    }))
                    .collect();
                standing.retain(|(what, _)| *what != MarkedThing::Top);
                let found = |what: MarkedThing, height: f64| {
                    standing.iter().any(|(one, at)| *one == what && (at - height).abs() < 0.1)
                };
                // On the lying post, with the tape from its top.
                for mark in &post.along {
                    match mark.what {
                        AlongWhat::Rail(n) if mark.from > 0.0 => {
                            prop_assert!(found(MarkedThing::Rail(n), top - mark.from - half));
                        }
                        AlongWhat::Gravel => {
                            prop_assert!(found(MarkedThing::Gravel, top - mark.from));
                        }
                        AlongWhat::Ground => {
                            let ground = post.ground.expect("known");
                            prop_assert!((top - mark.from - ground).abs() < 0.1);
                        }
                        _ => {}
                    }
                }
                // The mark to bring to the line, once the post stands.
                let mark = post.to_laser(setup.line).expect("marked");
                let below = match mark.way {
                    UpOrDown::Up => setup.line + mark.by,
                    UpOrDown::Down => setup.line - mark.by,
                };
                let edges = post.along.iter().filter(|one| Some(one.what) == mark.what);
                let mut edges: Vec<f64> = edges
                    .map(|one| match mark.edge {
                        MarkEdge::Upper => one.from,
                        MarkEdge::Lower => one.to,
                    })
                    .collect();
                if mark.what.is_none() {
                    edges.push(0.0);
                }
                prop_assert!(edges.iter().any(|edge| (top - edge - below).abs() < 0.1));
            }
        }
    }

    #[test]
    fn pieces_fit_between_the_posts_as_they_stand(made in made()) {
        let job = fence(&made);
        let solution = solve(&job);
        let gravel = job.boards.gravel.as_ref().expect("boards");
        let rails = job.boards.rails.as_ref().expect("rails");
        for (at, (id, run)) in solution.runs.iter().enumerate() {
            let boards = &solution.boards[id];
            let front = job.runs[at].gap;
            let sight = Sight::of(&job, at, run);
            let sits = |set: Option<f64>, thick: f64| [0.0, thick].map(|y| front + set.unwrap_or(0.0) + y);
            for board in &boards.gravel {
                let depths = sits(gravel.set, gravel.thick);
                let piece = Piece { depths, long: board.length, short: board.short, ends: &board.ends };
                fits(&piece, &sight, [board.from, board.to])?;
            }
            if rails.joint == Joint::Side {
                for bay in &boards.rails {
                    let depths = sits(rails.set, rails.thickness());
                    let seats = 2.0 * rails.seat;
                    let piece = Piece {
                        depths,
                        long: bay.length - seats,
                        short: bay.short - seats,
                        ends: &bay.ends,
                    };
                    fits(&piece, &sight, [bay.from, bay.to])?;
                }
            } else {
                across(rails, run, boards)?;
            }
        }
        if rails.joint == Joint::Face {
            mitred(&job, &solution, rails)?;
        }
    }

    #[test]
    fn notches_lie_within_their_posts_and_off_the_bolts(made in made()) {
        let job = fence(&made);
        let solution = solve(&job);
        let wall = job.boards.fixings.clone().unwrap_or_default().wall;
        let rails = job.boards.rails.as_ref().expect("rails");
        let mut bolted = 0;
        for (id, run) in &solution.boards {
            for post in &run.posts {
                let stands = &solution.runs[id].posts[post.n - 1];
                let length = post.length.expect("known");
                let into = match rails.joint {
                    Joint::Side => stands.size[0],
                    Joint::Face => stands.size[1],
                };
                for mark in post.along.iter().filter(|mark| mark.depth.is_some()) {
                    let depth = mark.depth.expect("a depth");
                    prop_assert!(mark.from >= 0.0 && mark.from < mark.to && mark.to <= length);
                    prop_assert!(depth >= 0.0 && depth < into);
                    let left = 1.0 - depth / stands.size[1];
                    prop_assert!((mark.section.expect("a share") - left).abs() < 1e-9);
                    prop_assert!((mark.bending.expect("a share") - left * left).abs() < 1e-9);
                    let bolts = post.bolts.iter().flat_map(|row| &row.at);
                    for bolt in bolts {
                        let off = (mark.from - bolt).max(bolt - mark.to);
                        prop_assert!(off >= wall.clear - 1e-6, "{off}");
                    }
                }
                if let Some(row) = &post.bolts {
                    prop_assert!(stands.foot == Foot::Wall && row.at.len() > 1);
                    let (first, last) = (row.at[0], row.at[row.at.len() - 1]);
                    prop_assert!(first >= wall.ends - 1e-6 && last <= length - wall.ends + 1e-6);
                    bolted += 1;
                }
            }
        }
        let refused = solution.problems.iter().any(|one| one.place == "boards.fixings.wall");
        prop_assert!(bolted == 2 || refused);
    }
}

/// A run seen along itself: posts from their places on the ground.
struct Sight<'a> {
    run: &'a RunFix,
    along: [f64; 2],
    /// Away from the string, towards the posts.
    back: [f64; 2],
}

impl<'a> Sight<'a> {
    fn of(job: &Job, at: usize, run: &'a RunFix) -> Self {
        let (sin, cos) = run.bearing.to_radians().sin_cos();
        let side = match job.runs[at].side {
            Some(Side::Right) => -1.0,
            _ => 1.0,
        };
        Self {
            run,
            along: [cos, sin],
            back: [-sin * side, cos * side],
        }
    }

    /// Running reading and depth behind the string of a place on the ground.
    fn read(&self, [x, y]: [f64; 2]) -> [f64; 2] {
        let away = [x - self.run.zero[0], y - self.run.zero[1]];
        [self.along, self.back].map(|way| away[0] * way[0] + away[1] * way[1])
    }

    fn ground(&self, reading: f64, depth: f64) -> [f64; 2] {
        [0, 1].map(|i| self.run.zero[i] + self.along[i] * reading + self.back[i] * depth)
    }

    /// Where a line along the run at this depth enters a post and leaves it.
    fn crossing(&self, post: &Post, depth: f64) -> Option<[f64; 2]> {
        let (sin, cos) = post.rotation.to_radians().sin_cos();
        let corners = [(-0.5, -0.5), (0.5, -0.5), (0.5, 0.5), (-0.5, 0.5)].map(|(a, b)| {
            let (a, b) = (a * post.size[0], b * post.size[1]);
            self.read([post.x + a * cos - b * sin, post.y + a * sin + b * cos])
        });
        let mut met: Vec<f64> = Vec::new();
        for (i, from) in corners.iter().enumerate() {
            let to = corners[(i + 1) % 4];
            if (from[1] - depth) * (to[1] - depth) <= 0.0 && from[1] != to[1] {
                let share = (depth - from[1]) / (to[1] - from[1]);
                met.push(from[0] + share * (to[0] - from[0]));
            }
        }
        let least = met.iter().copied().reduce(f64::min)?;
        let most = met.iter().copied().reduce(f64::max)?;
        Some([least, most])
    }

    fn clear(&self, [from, to]: [usize; 2], depth: f64) -> Option<f64> {
        let post = |n: usize| &self.run.posts[n - 1];
        let start = self.crossing(post(from), depth)?[1];
        Some(self.crossing(post(to), depth)?[0] - start)
    }
}

/// A piece as the cut list has it, without its seats.
struct Piece<'a> {
    depths: [f64; 2],
    long: f64,
    short: f64,
    ends: &'a [PieceEnd],
}

impl Piece<'_> {
    /// What an end loses at this depth behind the front edge, as it is told to be cut.
    fn lost(&self, which: WhichEnd, behind: f64) -> f64 {
        let thick = self.depths[1] - self.depths[0];
        let Some(end) = self.ends.iter().find(|end| end.end == which) else {
            return 0.0;
        };
        let edges = match end.long_point {
            LongPoint::Front => [0.0, end.long_to_short],
            LongPoint::Back => [end.long_to_short, 0.0],
        };
        let between = |from: [f64; 2], to: [f64; 2]| {
            let share = (behind - from[0]) / (to[0] - from[0]).max(1e-9);
            from[1] + (to[1] - from[1]) * share
        };
        match &end.corner {
            Some(corner) if behind <= corner.behind => {
                between([0.0, edges[0]], [corner.behind, corner.shorter])
            }
            Some(corner) => between([corner.behind, corner.shorter], [thick, edges[1]]),
            None => between([0.0, edges[0]], [thick, edges[1]]),
        }
    }

    /// How long it is at this depth behind its front edge.
    fn at(&self, behind: f64) -> f64 {
        let thick = self.depths[1] - self.depths[0];
        let lost = |at: f64| self.lost(WhichEnd::Start, at) + self.lost(WhichEnd::End, at);
        self.long + lost(0.0).min(lost(thick)) - lost(behind)
    }
}

/// At no depth does the piece reach into a post; where it faces both posts with its whole thickness,
/// at none does it stand off.
fn fits(piece: &Piece<'_>, sight: &Sight<'_>, posts: [usize; 2]) -> Result<(), TestCaseError> {
    const CLOSE: f64 = 0.15;
    let [front, back] = piece.depths;
    let mut clears = Vec::new();
    for step in 0..=60 {
        let depth = front + (back - front) * f64::from(step) / 60.0;
        // In front of a turned post or behind it there is nothing to meet.
        let Some(clear) = sight.clear(posts, depth) else {
            continue;
        };
        clears.push(clear);
        let long = piece.at(depth - front);
        prop_assert!(
            long < clear + CLOSE,
            "{long} where {clear} is clear, {} behind the front, posts {posts:?}, ends {:?}",
            depth - front,
            piece.ends
        );
    }
    if clears.len() <= 60 {
        return Ok(());
    }
    for (step, clear) in clears.iter().enumerate() {
        let long = piece.at((back - front) * step as f64 / 60.0);
        prop_assert!(long > clear - CLOSE, "{long} leaves a gap in {clear}");
    }
    let least = clears.iter().copied().fold(f64::INFINITY, f64::min);
    prop_assert!(piece.short < least + CLOSE && piece.short > least - 0.7);
    Ok(())
}

/// Rails across the faces cover from the first post of a stretch to its last, without a gap.
fn across(rails: &Rails, run: &RunFix, boards: &RunBoards) -> Result<(), TestCaseError> {
    for stretch in &boards.pales {
        let bays = boards
            .rails
            .iter()
            .filter(|bay| bay.from >= stretch.from && bay.to <= stretch.to);
        let bays: Vec<_> = bays.collect();
        if bays.iter().any(|bay| !bay.ends.is_empty()) {
            continue;
        }
        let all: f64 = bays.iter().map(|bay| bay.length).sum();
        let cover = run.posts[stretch.to - 1].far - run.posts[stretch.from - 1].near;
        prop_assert!((all - cover).abs() < 0.05, "{all}, {cover}, {rails:?}");
    }
    Ok(())
}

/// At the corner the two runs' rails meet on the ground, front edge to front edge and back to back.
fn mitred(job: &Job, solution: &Solution, rails: &Rails) -> Result<(), TestCaseError> {
    let [one, two] = [0, 1].map(|at| {
        let run = &solution.runs[at];
        (Sight::of(job, at, run), &solution.boards[at])
    });
    let last = one.1.rails.last().expect("a bay at the corner");
    let first = two.1.rails.first().expect("a bay at the corner");
    let set = rails.set.expect("given");
    for behind in [0.0, rails.thickness()] {
        let edge = |bay: &tautmark::boards::RailBay| {
            let ends = &bay.ends;
            let depths = [0.0, rails.thickness()];
            Piece {
                depths,
                long: bay.length,
                short: bay.short,
                ends,
            }
            .at(behind)
        };
        let begins = |sight: &Sight<'_>, boards: &RunBoards, n: usize| {
            let goes_on = boards.rails.iter().any(|bay| bay.to == n);
            let post = &sight.run.posts[n - 1];
            if goes_on { post.centre } else { post.near }
        };
        let ends = |sight: &Sight<'_>, boards: &RunBoards, n: usize| {
            let goes_on = boards.rails.iter().any(|bay| bay.from == n);
            let post = &sight.run.posts[n - 1];
            if goes_on { post.centre } else { post.far }
        };
        let here = begins(&one.0, one.1, last.from) + edge(last);
        let there = ends(&two.0, two.1, first.to) - edge(first);
        let a = one.0.ground(here, job.runs[0].gap + set + behind);
        let b = two.0.ground(there, job.runs[1].gap + set + behind);
        prop_assert!((a[0] - b[0]).hypot(a[1] - b[1]) < 0.1, "{a:?} {b:?}");
    }
    Ok(())
}
