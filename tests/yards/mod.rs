//! Invented sites with known truth, taped with known errors.

use rand::rngs::StdRng;
use rand::{RngExt, SeedableRng};
use rand_distr::{Distribution, Normal};
use std::collections::HashMap;
use tautmark::job::model::{
    BayFit, Bays, Corner, CornerPost, End, Line, Mark, PostSet, PostSize, Run, Side, Station, Wall,
};
use tautmark::job::reading::Reading;
use tautmark::job::{Job, MarkId};
use tautmark::tape::TapeClass;

/// A site: a job, and where its marks really are (mm, in the job's frame).
pub struct Site {
    pub job: Job,
    pub truth: HashMap<String, [f64; 2]>,
}

/// How well the tapes are read.
#[derive(Clone, Copy, PartialEq)]
pub enum Tapes {
    Exact,
    Noisy,
}

/// Two walls with a gap between and a few more marks, every mark taped to every other; a string
/// along each wall, the corner where they cross, and a run on each.
#[must_use]
pub fn gap_between_walls(seed: u64, tapes: Tapes) -> Site {
    let mut rng = StdRng::seed_from_u64(seed);
    let mut between = |low: f64, high: f64| rng.random_range(low..high);
    let shed = between(2500.0, 5000.0);
    let corner = [shed + between(4000.0, 7000.0), 0.0];
    let turn = between(50.0f64, 120.0).to_radians();
    let along = |far: f64| [corner[0] + far * turn.cos(), corner[1] + far * turn.sin()];
    let gap = between(2500.0, 4500.0);
    let far = gap + between(2500.0, 4500.0);
    let marks = [
        ("A", [0.0, 0.0]),
        ("B", [shed, 0.0]),
        ("C", along(gap)),
        ("D", along(far)),
        (
            "E",
            [shed + between(-800.0, 800.0), between(1500.0, 3000.0)],
        ),
        ("F", [between(1000.0, 3000.0), between(3500.0, 6000.0)]),
    ];
    let mut job = Job::new("Invented site");
    job.tape.class = TapeClass::II;
    for (id, at) in marks {
        let rough = [
            at[0] + between(-300.0, 300.0),
            at[1] + between(-300.0, 300.0),
        ];
        job.marks.push(Mark {
            id: id.into(),
            rough: Some(rough),
            ..Mark::default()
        });
    }
    for (id, from, to) in [("shed", "A", "B"), ("garden", "C", "D")] {
        let (from, to) = (from.into(), to.into());
        job.walls.push(Wall {
            id: id.into(),
            from,
            to,
            ..Wall::default()
        });
    }
    for (i, (from, a)) in marks.iter().enumerate() {
        for (to, b) in &marks[i + 1..] {
            let length = (a[0] - b[0]).hypot(a[1] - b[1]);
            let sd = job.tape.class.sd(job.tape.reading, length);
            let error = match tapes {
                Tapes::Exact => 0.0,
                Tapes::Noisy => Normal::new(0.0, sd).expect("sd").sample(&mut rng),
            };
            job.readings
                .push(Reading::tape(id(from), id(to), length + error));
        }
    }
    fence(&mut job);
    let truth = marks
        .into_iter()
        .map(|(id, at)| (id.to_owned(), at))
        .collect();
    Site { job, truth }
}

fn id(text: &str) -> MarkId {
    text.into()
}

/// Strings 50 mm off both walls, the corner where they cross, and a run from each wall's end to it.
fn fence(job: &mut Job) {
    for (id, wall) in [("front", "shed"), ("side", "garden")] {
        let station = |at| Station {
            at: Some(at),
            off: Some(50.0),
            ..Station::default()
        };
        job.lines.push(Line {
            id: id.into(),
            wall: Some(wall.into()),
            side: Some(Side::Right),
            offsets: Some(vec![station(0.0), station(2500.0)]),
            ..Line::default()
        });
    }
    job.corners.push(Corner {
        id: "X".into(),
        lines: ["front".into(), "side".into()],
        post: Some(CornerPost {
            set: PostSet::Bisect,
            ..CornerPost::default()
        }),
        ..Corner::default()
    });
    let mark = |id: &str| {
        Some(End {
            mark: Some(id.into()),
            ..End::default()
        })
    };
    let corner = || {
        Some(End {
            corner: Some("X".into()),
            ..End::default()
        })
    };
    for (id, line, start, end) in [
        ("R1", "front", mark("B"), corner()),
        ("R2", "side", corner(), mark("C")),
    ] {
        job.runs.push(Run {
            id: id.into(),
            line: line.into(),
            side: Some(Side::Left),
            gap: 75.0,
            start,
            end,
            post: Some(PostSize::default()),
            bays: Some(Bays {
                max: 1800.0,
                fit: BayFit::Equal,
                ..Bays::default()
            }),
            ..Run::default()
        });
    }
}
