//! What stands on a run, with every height it needs to be drawn: known, or guessed on level ground.

use super::ElevationShow;
use crate::Solution;
use crate::boards::RunBoards;
use crate::drawing::bounds::Vec2;
use crate::job::model::Foot;
use crate::job::{Job, RunId, SetupId};
use crate::setout::{Post, RunFix};

/// Above the ground where nothing tells how high a post is, mm.
const USUAL_HEIGHT: f64 = 1800.0;
/// Ground drawn beyond the first and last post, mm.
const BEYOND: f64 = 300.0;
/// Under a gate whose gaps are not given, for drawing only, mm.
const UNDER_GATE: f64 = 60.0;

/// A run and what is on it.
pub(super) struct Built<'a> {
    pub job: &'a Job,
    pub run: &'a RunId,
    pub fix: &'a RunFix,
    /// The posts that are drawn.
    pub posts: &'a [Post],
    pub boards: Option<&'a RunBoards>,
    /// The set-up and the height of its line, mm.
    pub laser: Option<(SetupId, f64)>,
}

/// A bay between two posts, from face to face. Running readings and heights, mm.
pub(super) struct DrawnBay {
    pub from: usize,
    pub near: f64,
    pub far: f64,
    pub bottom: f64,
    pub top: f64,
    /// Centres, lowest first.
    pub rails: Vec<f64>,
}

/// A gate's leaf. Running readings and heights, mm.
pub(super) struct DrawnGate {
    pub index: usize,
    pub near: f64,
    pub far: f64,
    pub bottom: f64,
    pub top: f64,
}

impl<'a> Built<'a> {
    pub fn of(
        job: &'a Job,
        solution: &'a Solution,
        run: &RunId,
        show: &ElevationShow,
    ) -> Option<Self> {
        let (run, fix) = solution.runs.get_key_value(run)?;
        let boards = solution.boards.get(run);
        let own = boards.and_then(|boards| boards.setup.as_ref());
        let laser = show.setup.as_ref().or(own).and_then(|id| {
            let levels = solution.levels.as_ref()?;
            Some((id.clone(), levels.setups.get(id)?.line))
        });
        let posts = part(&fix.posts, show.posts);
        if posts.is_empty() {
            return None;
        }
        Some(Self {
            job,
            run,
            fix,
            posts,
            boards,
            laser,
        })
    }

    /// True where the run has ground that was sighted.
    pub fn is_sighted(&self) -> bool {
        self.boards.is_some_and(|boards| !boards.ground.is_empty())
    }

    /// Running readings between which it is drawn.
    pub fn reach(&self) -> [f64; 2] {
        let first = self.posts.first().map_or(0.0, |post| post.near);
        let last = self.posts.last().map_or(0.0, |post| post.far);
        [first - BEYOND, last + BEYOND]
    }

    /// Ground at a running reading: straight between its points, level beyond; 0 where nothing has
    /// been sighted.
    pub fn ground(&self, at: f64) -> f64 {
        let Some(points) = self.boards.map(|boards| &boards.ground) else {
            return 0.0;
        };
        let after = points.iter().position(|point| point.at >= at);
        match after {
            None => points.last().map_or(0.0, |point| point.height),
            Some(0) => points[0].height,
            Some(i) => {
                let (a, b) = (&points[i - 1], &points[i]);
                let share = (at - a.at) / (b.at - a.at);
                a.height + share * (b.height - a.height)
            }
        }
    }

    /// The ground's surface from left to right.
    pub fn surface(&self, left: f64, right: f64) -> Vec<Vec2> {
        let points = self.boards.map_or(&[][..], |boards| &boards.ground);
        let between = points
            .iter()
            .filter(|point| point.at > left && point.at < right)
            .map(|point| Vec2::new(point.at, point.height));
        let mut surface = vec![Vec2::new(left, self.ground(left))];
        surface.extend(between);
        surface.push(Vec2::new(right, self.ground(right)));
        surface
    }

    /// The bottom of a post's hole and its top, mm.
    pub fn post(&self, post: &Post) -> [f64; 2] {
        let ground = self.ground(post.centre);
        let heights = self
            .boards
            .and_then(|boards| boards.posts.iter().find(|one| one.n == post.n));
        let top = heights.and_then(|one| one.top).unwrap_or_else(|| {
            let over = self.pale_height().map(|pales| self.guessed_top() + pales);
            ground + over.unwrap_or(USUAL_HEIGHT)
        });
        let foot = match post.foot {
            Foot::Hole => ground - self.job.hole.depth.max(0.0),
            Foot::Plate | Foot::Wall => {
                heights.map_or(ground, |one| top - one.length.unwrap_or(top - ground))
            }
        };
        [foot, top]
    }

    /// Top of a gravel board above level ground, mm.
    fn guessed_top(&self) -> f64 {
        let gravel = self.job.boards.gravel.as_ref();
        gravel.map_or(0.0, |g| g.clearance - g.dig + g.height)
    }

    pub fn pale_height(&self) -> Option<f64> {
        let pales = self.job.boards.pales.as_ref()?;
        Some(pales.height).filter(|height| *height > 0.0)
    }

    /// From a rail's centre up to the edge that its figures are of, mm.
    pub fn rail_edge(&self) -> f64 {
        let rails = self.job.boards.rails.as_ref();
        rails.map_or(0.0, |rails| rails.edge(self.job.show.rail))
    }

    pub fn rail_height(&self) -> f64 {
        let rails = self.job.boards.rails.as_ref();
        rails.map_or(0.0, |rails| rails.height)
    }

    /// Every bay that is not a gate opening.
    pub fn bays(&self) -> Vec<DrawnBay> {
        let pairs = self.posts.windows(2);
        let bays = pairs.filter(|two| !self.fix.gate_after(two[0].n));
        bays.map(|two| self.bay(&two[0], &two[1])).collect()
    }

    fn bay(&self, from: &Post, to: &Post) -> DrawnBay {
        let gravel = self.boards.and_then(|boards| {
            let board = boards.gravel.iter().find(|board| board.from == from.n)?;
            Some((board.bottom?, board.top?))
        });
        let ground = self.ground(from.centre).max(self.ground(to.centre));
        let height = self.job.boards.gravel.as_ref().map_or(0.0, |g| g.height);
        let guessed = ground + self.guessed_top();
        let (bottom, top) = gravel.unwrap_or((guessed - height, guessed));
        DrawnBay {
            from: from.n,
            near: from.far,
            far: to.near,
            bottom,
            top,
            rails: self.rails(from.n, top),
        }
    }

    fn rails(&self, from: usize, top: f64) -> Vec<f64> {
        let known = self.boards.and_then(|boards| {
            let bay = boards.rails.iter().find(|bay| bay.from == from)?;
            (!bay.heights.is_empty()).then(|| bay.heights.clone())
        });
        known.unwrap_or_else(|| {
            let Some(rails) = &self.job.boards.rails else {
                return Vec::new();
            };
            let steps = rails.count.saturating_sub(1).max(1);
            let step = (rails.high - rails.low) / f64::from(steps);
            let each = (0..rails.count.min(20)).map(|n| top + rails.low + step * f64::from(n));
            each.collect()
        })
    }

    /// Running readings of the pales' edges within a bay.
    pub fn pale_edges(&self, bay: &DrawnBay) -> Vec<f64> {
        let stretches = self.boards.map_or(&[][..], |boards| &boards.pales);
        let edges = stretches.iter().flat_map(|stretch| stretch.marks());
        edges.filter(|at| *at > bay.near && *at < bay.far).collect()
    }

    /// The leaves of the run's gates.
    pub fn gates(&self) -> Vec<DrawnGate> {
        let drawn = |n: usize| self.posts.iter().any(|post| post.n == n);
        let gates = self.fix.gates.iter();
        gates
            .filter(|gate| drawn(gate.from) && drawn(gate.to))
            .map(|gate| {
                let leaves = self.boards.map_or(&[][..], |boards| &boards.gates);
                let leaf = leaves.iter().find(|leaf| leaf.index == gate.index);
                let ground = self.ground(gate.near).max(self.ground(gate.far));
                let sides = self.fix.posts.iter();
                let tops = sides
                    .filter(|post| post.n == gate.from || post.n == gate.to)
                    .map(|post| self.post(post)[1]);
                DrawnGate {
                    index: gate.index,
                    near: gate.near,
                    far: gate.far,
                    bottom: leaf
                        .and_then(|leaf| leaf.bottom)
                        .unwrap_or(ground + UNDER_GATE),
                    top: tops.fold(f64::INFINITY, f64::min).min(1e7),
                }
            })
            .collect()
    }
}

fn part(posts: &[Post], asked: Option<[usize; 2]>) -> &[Post] {
    let Some([first, last]) = asked else {
        return posts;
    };
    let start = posts.partition_point(|post| post.n < first);
    let end = posts.partition_point(|post| post.n <= last);
    posts.get(start..end).unwrap_or_default()
}
