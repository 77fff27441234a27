//! Random sites whose true geometry is known.
#![allow(dead_code, reason = "each test takes what it needs")]

use rand::{RngExt, rngs::StdRng, seq::SliceRandom};
use rand_distr::{Distribution, StandardNormal};
use tautmark::adjust::{At, Equation, Observation, System};

/// How the marks of a site lie.
#[derive(Clone, Copy, Debug)]
pub enum Shape {
    /// Anywhere on a plot.
    Scattered,
    /// Along a boundary, a little to either side.
    Strip,
    /// Round the corners of buildings, some marks close together.
    Clusters,
    /// Round the edge of a plot.
    Ring,
    /// Along three walls, most of them in the middle of one, exactly on its line.
    Walls,
    /// Along a path ten times as long as it is wide.
    Thin,
}

/// Which marks are taped to which.
#[derive(Clone, Copy, Debug)]
pub enum Taping {
    /// Each mark to four earlier ones, picked anywhere.
    Anywhere,
    /// Each mark to the four nearest earlier ones.
    Nearest,
    /// As the nearest, but every third mark hangs on two tapes alone.
    Hung,
    /// Two halves, each taped within itself, with two marks in common: nothing but the sketch says
    /// that one is not folded over onto the other.
    Folded,
    /// As it is half typed in: as the nearest, but every fourth mark has one tape or none yet.
    Partial,
}

/// A site: where its marks truly are, mm, and how long it is.
pub struct Site {
    pub truth: Vec<[f64; 2]>,
    pub size: f64,
}

impl Site {
    pub fn random(rng: &mut StdRng, shape: Shape, count: usize) -> Self {
        let size = rng.random_range(5_000.0..30_000.0);
        let mut truth: Vec<[f64; 2]> = Vec::new();
        while truth.len() < count {
            let mark = match shape {
                Shape::Scattered => [rng.random_range(0.0..size), rng.random_range(0.0..size)],
                Shape::Strip => [
                    rng.random_range(0.0..size),
                    rng.random_range(0.0..size / 5.0),
                ],
                Shape::Clusters => {
                    let corner = [[0.1, 0.1], [0.8, 0.2], [0.3, 0.9]][rng.random_range(0..3)];
                    corner.map(|c| size * (c + rng.random_range(-0.1..0.1)))
                }
                Shape::Walls => {
                    let along = rng.random_range(0.0..1.0);
                    let [from, to] = [
                        [[0.0, 0.0], [0.6, 0.1]],
                        [[0.6, 0.1], [0.5, 0.8]],
                        [[0.1, 0.5], [0.5, 0.8]],
                    ][rng.random_range(0..3)];
                    [0, 1].map(|axis| size * (from[axis] + along * (to[axis] - from[axis])))
                }
                Shape::Thin => [
                    rng.random_range(0.0..size),
                    rng.random_range(0.0..size / 10.0),
                ],
                Shape::Ring => {
                    let turn = rng.random_range(0.0..std::f64::consts::TAU);
                    let radius = size * rng.random_range(0.4..0.5);
                    [radius * turn.cos(), radius * turn.sin()]
                }
            };
            if truth
                .iter()
                .all(|other| apart(*other, mark) > size * 0.3 / (count as f64).max(15.0))
            {
                truth.push(mark);
            }
        }
        Self { truth, size }.framed()
    }

    /// The same site with mark 0 at the origin and mark 1 on +x.
    fn framed(mut self) -> Self {
        self.truth = framed(&self.truth);
        self
    }

    /// Pairs of marks to tape.
    pub fn pairs(&self, rng: &mut StdRng, taping: Taping) -> Vec<(usize, usize)> {
        let mut order: Vec<usize> = (0..self.truth.len()).collect();
        order.shuffle(rng);
        let mut pairs = Vec::new();
        for (at, &mark) in order.iter().enumerate() {
            let mut earlier = order[..at].to_vec();
            if let Taping::Anywhere = taping {
                earlier.shuffle(rng);
            } else {
                let far = |&other: &usize| apart(self.truth[other], self.truth[mark]);
                earlier.sort_by(|a, b| far(a).total_cmp(&far(b)));
            }
            let is_nth = |n: usize| at > 3 && at % n == 0;
            let tapes = match taping {
                Taping::Hung if is_nth(3) => 2,
                Taping::Partial if is_nth(4) => at % 8 / 4,
                _ => 4,
            };
            if let Taping::Folded = taping {
                let half = |place: usize| place % 2;
                let common = order[..2].to_vec();
                let mates = order[2..at.max(2)].iter().enumerate();
                let mates = mates.filter(|(place, _)| half(*place) == half(at));
                earlier = common.into_iter().filter(|&other| other != mark).collect();
                earlier.extend(mates.map(|(_, &other)| other).take(2));
                if at == 0 {
                    earlier.clear();
                }
                if at == 1 {
                    earlier = vec![order[0]];
                }
            }
            earlier.truncate(tapes);
            pairs.extend(earlier.into_iter().map(|other| (other, mark)));
        }
        pairs
    }

    /// The system of these readings, true to the last digit, from marks put down wrong by up to
    /// `wrong` of the site's size.
    pub fn system(&self, rng: &mut StdRng, equations: &[Equation], wrong: f64) -> System {
        let reach = self.size * wrong;
        let rough: Vec<[f64; 2]> = self
            .truth
            .iter()
            .map(|mark| {
                let turn = rng.random_range(0.0..std::f64::consts::TAU);
                let by = rng.random_range(0.0..=reach);
                [mark[0] + by * turn.cos(), mark[1] + by * turn.sin()]
            })
            .collect();
        let flat: Vec<f64> = self.truth.iter().flatten().copied().collect();
        let mut held = vec![false; flat.len()];
        (held[0], held[1], held[3]) = (true, true, true);
        let mut start: Vec<f64> = framed(&rough).into_iter().flatten().collect();
        start[3] = 0.0;
        System {
            start,
            held,
            observations: equations
                .iter()
                .map(|equation| Observation {
                    equation: *equation,
                    value: equation.value(&flat),
                    sd: if matches!(equation, Equation::Angle { .. }) {
                        0.3
                    } else {
                        2.0
                    },
                })
                .collect(),
        }
    }

    /// Largest distance of an adjusted mark from the truth, mm.
    pub fn error(&self, x: &[f64]) -> f64 {
        x.chunks(2)
            .zip(&self.truth)
            .map(|(at, truth)| apart([at[0], at[1]], *truth))
            .fold(0.0, f64::max)
    }
}

fn apart(a: [f64; 2], b: [f64; 2]) -> f64 {
    (a[0] - b[0]).hypot(a[1] - b[1])
}

fn framed(marks: &[[f64; 2]]) -> Vec<[f64; 2]> {
    let [ox, oy] = marks[0];
    let length = apart(marks[0], marks[1]);
    let (c, s) = ((marks[1][0] - ox) / length, (marks[1][1] - oy) / length);
    marks
        .iter()
        .map(|[x, y]| [(x - ox) * c + (y - oy) * s, (y - oy) * c - (x - ox) * s])
        .collect()
}

pub fn tape((from, to): (usize, usize)) -> Equation {
    Equation::Distance {
        from: At::nth(from),
        to: At::nth(to),
    }
}

/// The same readings as a careful person would take them: each off by chance as its sd says.
pub fn noisy(rng: &mut StdRng, system: &System) -> System {
    let mut system = system.clone();
    for observation in &mut system.observations {
        let chance: f64 = StandardNormal.sample(rng);
        observation.value += observation.sd * chance;
    }
    system
}
