//! Invented sites with known truth, taped with known errors.
#![allow(dead_code, reason = "each test takes what it needs")]

use rand::rngs::StdRng;
use rand::{RngExt, SeedableRng};
use std::collections::HashMap;
use tautmark::job::model::{
    BayFit, Bays, Corner, CornerPost, End, Line, Mark, PostSet, PostSize, Run, Side, Station, Wall,
};
use tautmark::job::reading::Reading;
use tautmark::job::{Job, MarkId};
use tautmark::tape::TapeClass;

/// A site: a job, where its marks really are (mm, in the job's frame), and the hand at work there.
pub struct Site {
    pub job: Job,
    pub truth: HashMap<String, [f64; 2]>,
    pub hand: Hand,
}

/// One person with one tape. The tape is longer or shorter than it says, the same in every reading;
/// each reading is off by the eye, by a mark set to whole millimetres, and by how hard it is pulled;
/// each nail is off by a hammer's blow. None of it is normally distributed.
pub struct Hand {
    rng: StdRng,
    /// What the tape reads of a true mm.
    pub scale: f64,
}

impl Hand {
    pub fn new(seed: u64) -> Self {
        let mut rng = StdRng::seed_from_u64(seed ^ 0x7a9e);
        // Class III permits 0.4 mm per m.
        let scale = 1.0 + rng.random_range(-4e-4..4e-4);
        Self { rng, scale }
    }

    /// Sum of two even chances, standard deviation 1.
    fn chance(&mut self) -> f64 {
        let half = 1.5f64.sqrt();
        self.rng.random_range(-half..half) + self.rng.random_range(-half..half)
    }

    /// How far one reading or one mark of `length` mm is off, for a hand good to 1 mm and 0.1 mm
    /// per m: the eye, and the nearest whole mm (s.d. √(1/12)), and the pull.
    pub fn slip(&mut self, length: f64) -> f64 {
        let eye = (1.0f64 - 1.0 / 12.0).sqrt() * self.chance();
        let whole = self.rng.random_range(-0.5..0.5);
        let most = 0.1 * 3f64.sqrt();
        eye + whole + length / 1000.0 * self.rng.random_range(-most..most)
    }

    /// What the tape reads between two points `length` mm apart.
    pub fn read(&mut self, length: f64) -> f64 {
        length * self.scale + self.slip(length)
    }

    /// How far a nail is off its offset, mm.
    pub fn nail(&mut self) -> f64 {
        self.chance()
    }
}

impl Site {
    /// The site with strings as they are really stretched: every nail off by a little.
    pub fn stretched(&self, seed: u64) -> Job {
        // Not the chances that the readings were drawn from.
        let mut hand = Hand::new(seed + 2_000_000);
        let mut job = self.job.clone();
        for line in &mut job.lines {
            for station in line.offsets.iter_mut().flatten() {
                station.off = station.off.map(|off| off + hand.nail());
            }
        }
        job
    }
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
    job.tape.class = TapeClass::III;
    let mut hand = Hand::new(seed);
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
            let read = match tapes {
                Tapes::Exact => length,
                Tapes::Noisy => hand.read(length),
            };
            job.readings.push(Reading::tape(id(from), id(to), read));
        }
    }
    fence(&mut job);
    let truth = marks
        .into_iter()
        .map(|(id, at)| (id.to_owned(), at))
        .collect();
    Site { job, truth, hand }
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
