//! Every drawing that the core makes of a job.

use rand::RngExt;
use rand::rngs::StdRng;
use rand::seq::IndexedRandom;
use tautmark::Solution;
use tautmark::drawing::{
    Asked, Detail, Drawing, ElevationShow, Face, Figures, PlanShow, PostShow, Seen, Target, Turn,
    corner, corner_detail, cut_piece, elevation, gate_leaf, levels, plan, post_heights, trestles,
};
use tautmark::job::Job;

/// Makes a drawing of a job for a room; none where the job has nothing to draw there.
pub type Made = Box<dyn Fn(&Job, &Solution, [f64; 2]) -> Option<Drawing>>;

/// The plans of a job, each showing something else.
pub fn plans(job: &Job, solution: &Solution, rng: &mut StdRng) -> Vec<Made> {
    let mut all: Vec<Made> = Vec::new();
    let mut add = |show: PlanShow| {
        all.push(Box::new(move |job, solution, room| {
            let turn = Turn::Along(room);
            Some(plan(
                job,
                solution,
                &PlanShow {
                    turn,
                    ..show.clone()
                },
            ))
        }));
    };
    for detail in [Detail::Screen, Detail::Sheet] {
        for readings in [Seen::Shown, Seen::Hidden] {
            add(PlanShow {
                detail,
                readings,
                ..PlanShow::default()
            });
        }
    }
    let asked = job.marks.choose(rng).zip(job.marks.choose(rng));
    let asked = asked.filter(|(from, to)| from.id != to.id);
    add(PlanShow {
        asked: asked.map(|(from, to)| Asked::Tape([from.id.clone(), to.id.clone()])),
        ..PlanShow::default()
    });
    let chosen = [
        job.marks
            .choose(rng)
            .map(|mark| Target::Mark(mark.id.clone())),
        job.walls
            .choose(rng)
            .map(|wall| Target::Wall(wall.id.clone())),
        job.lines
            .choose(rng)
            .map(|line| Target::Line(line.id.clone())),
    ];
    for chosen in chosen {
        add(PlanShow {
            chosen,
            ..PlanShow::default()
        });
    }
    for (run, fix) in &solution.runs {
        let run = Some(run.clone());
        let readings = Seen::Hidden;
        for close in [true, false] {
            add(PlanShow {
                run: run.clone(),
                readings,
                close,
                ..PlanShow::default()
            });
        }
        let face = *[Face::Near, Face::Centre, Face::Far]
            .choose(rng)
            .expect("faces");
        let post = fix
            .posts
            .choose(rng)
            .map(|post| PostShow { n: post.n, face });
        for swings in [Seen::Shown, Seen::Hidden] {
            add(PlanShow {
                run: run.clone(),
                readings,
                post,
                swings,
                close: true,
                ..PlanShow::default()
            });
        }
    }
    all
}

/// Its other drawings.
pub fn pieces(solution: &Solution, rng: &mut StdRng) -> Vec<Made> {
    let mut all: Vec<Made> = Vec::new();
    for id in solution.corners.keys() {
        let arm = rng.random_range(500.0..3000.0);
        let own = id.clone();
        all.push(Box::new(move |job, solution, _| {
            corner(job, solution, &own, arm)
        }));
        let own = id.clone();
        all.push(Box::new(move |job, solution, _| {
            corner_detail(job, solution, &own)
        }));
    }
    all.push(Box::new(|job, solution, room| {
        levels(job, solution, room[0] / room[1])
    }));
    for (id, fix) in &solution.runs {
        for figures in [Figures::Boards, Figures::All] {
            let part = rng.random_bool(0.5).then(|| {
                let from = rng.random_range(1..=fix.posts.len().max(1));
                [from, from + 2]
            });
            let show = ElevationShow {
                figures,
                posts: part,
                ..ElevationShow::default()
            };
            let run = id.clone();
            all.push(Box::new(move |job, solution, _| {
                elevation(job, solution, &run, &show)
            }));
        }
        let n = rng.random_range(1..=fix.posts.len().max(1));
        let run = id.clone();
        all.push(Box::new(move |job, solution, room| {
            post_heights(job, solution, (&run, n), None, room[0] / room[1])
        }));
        for only in [None, Some(n)] {
            let run = id.clone();
            all.push(Box::new(move |job, solution, _| {
                trestles(job, solution, &run, only)
            }));
        }
        for gate in &fix.gates {
            let (run, index) = (id.clone(), gate.index);
            all.push(Box::new(move |job, solution, _| {
                gate_leaf(job, solution, &run, index)
            }));
        }
    }
    let cuts = solution.cuts.len();
    if cuts > 0 {
        let nth = rng.random_range(0..cuts);
        all.push(Box::new(move |job, solution, _| {
            Some(cut_piece(job, solution.cuts.get(nth)?))
        }));
    }
    all
}
