//! The ± of every quick answer holds the truth about 95 times in 100: with one tape that is longer or
//! shorter than it says throughout, an eye that reads to whole millimetres, and lasers that tilt.

mod lasers;

use lasers::{Plane, eye};
use rand::rngs::StdRng;
use rand::{RngExt, SeedableRng};
use std::f64::consts::TAU;
use tautmark::job::model::Tape;
use tautmark::laser::LaserWorth;
use tautmark::quick::carry_level::{LineSight, Shared, TwoSetups, carry_level};
use tautmark::quick::corner::{CornerTapes, corner_by_tapes};
use tautmark::quick::four_sides::{FourSides, four_sides};
use tautmark::quick::laser_check::{AtPegs, TwoPegs, turn_about, two_pegs};
use tautmark::quick::spirit_level::reversed;
use tautmark::quick::tape_check::{BothTapes, TwoTapeClasses, tape_check};
use tautmark::quick::turn_string::turn_string;
use tautmark::quick::two_tapes::{TwoTapes, point_by_tapes};
use tautmark::quick::{Figure, Taped};
use tautmark::tape::TapeClass;

type Outcome = Result<(), Box<dyn std::error::Error>>;

const TRIALS: u32 = 4000;

/// One person with one tape, and what that tape reads of a true mm.
struct Reader {
    rng: StdRng,
    scale: f64,
}

impl Reader {
    fn new() -> Self {
        Self {
            rng: StdRng::seed_from_u64(20_260),
            scale: 1.0,
        }
    }

    /// The same person with another tape.
    fn another_tape(&mut self) {
        self.scale = 1.0 + self.rng.random_range(-4e-4..4e-4);
    }

    /// A figure as an eye good to `reading` mm reads it.
    fn read(&mut self, truth: f64, reading: f64) -> f64 {
        truth + reading * eye(&mut self.rng)
    }

    /// A true length as this tape reads it, pulled harder one time than another.
    fn tape(&mut self, truth: f64, reading: f64) -> Taped {
        let tape = Tape {
            reading,
            ..Tape::default()
        };
        let most = tape.pull * 3f64.sqrt();
        let pulled = truth / 1000.0 * self.rng.random_range(-most..most);
        let length = self.read(truth * self.scale, reading) + pulled;
        Taped::new(length, tape.sd(length))
    }

    /// A length as worked out, in true mm: the tape's own scale cancels where it sets out again.
    fn true_length(&self, figure: Figure) -> Figure {
        figure.scaled(1.0 / self.scale)
    }
}

/// Tries an answer many times and asks how often each of its figures held its truth.
fn holds<const N: usize>(
    truths: [f64; N],
    mut answer: impl FnMut(&mut Reader) -> Result<[Figure; N], Box<dyn std::error::Error>>,
) -> Outcome {
    let mut reader = Reader::new();
    let mut held = [0u32; N];
    for _ in 0..TRIALS {
        reader.another_tape();
        let figures = answer(&mut reader)?;
        for ((count, figure), truth) in held.iter_mut().zip(figures).zip(truths) {
            *count += u32::from((figure.value - truth).abs() <= figure.pm);
        }
    }
    for (which, count) in held.into_iter().enumerate() {
        let share = f64::from(count) / f64::from(TRIALS);
        assert!(
            (0.93..=0.97).contains(&share),
            "figure {which} held {share}"
        );
    }
    Ok(())
}

#[test]
fn corner_and_string() -> Outcome {
    let across = f64::sqrt(3e3 * 3e3 + 4e3 * 4e3 - 2.0 * 3e3 * 4e3 * 104.3f64.to_radians().cos());
    let slant = 1000.0 * 14.3f64.to_radians().tan();
    let chord = 2.0 * 5e3 * 7.15f64.to_radians().sin();
    holds([104.3, slant, chord], |reader| {
        let corner = corner_by_tapes(&CornerTapes {
            first: reader.tape(3e3, 1.0),
            second: reader.tape(4e3, 1.5),
            across: reader.tape(across, 2.0),
        })?;
        Ok([
            corner.angle,
            corner.per_metre,
            turn_string(&corner, 90.0, 5e3)?.by,
        ])
    })
}

#[test]
fn point() -> Outcome {
    holds([1700.0, 2600.0], |reader| {
        let point = point_by_tapes(&TwoTapes {
            base: reader.tape(6e3, 2.0),
            from_first: reader.tape(1700f64.hypot(2600.0), 1.0),
            from_second: reader.tape(4300f64.hypot(2600.0), 1.5),
        })?;
        Ok([
            reader.true_length(point.along),
            reader.true_length(point.off),
        ])
    })
}

#[test]
fn four_corners() -> Outcome {
    let at = [
        (0.0, 0.0),
        (6000.0, 100.0),
        (6400.0, 4200.0),
        (-300.0, 3900.0f64),
    ];
    let [a, b, c, d] = at;
    let far = |p: (f64, f64), q: (f64, f64)| (p.0 - q.0).hypot(p.1 - q.1);
    let bearing = |p: (f64, f64), q: (f64, f64)| (q.1 - p.1).atan2(q.0 - p.0).to_degrees();
    let inside =
        |before, here, after| (bearing(here, before) - bearing(here, after)).rem_euclid(360.0);
    let truths = [
        inside(d, a, b),
        inside(a, b, c),
        inside(b, c, d),
        inside(c, d, a),
        0.0,
    ];
    // Trials that happen to contradict give no angles; they are one in a thousand.
    holds(truths, |reader| {
        loop {
            let check = four_sides(&FourSides {
                ab: reader.tape(far(a, b), 1.0),
                bc: reader.tape(far(b, c), 2.0),
                cd: reader.tape(far(c, d), 1.0),
                da: reader.tape(far(d, a), 1.5),
                ac: reader.tape(far(a, c), 2.0),
                bd: reader.tape(far(b, d), 1.0),
            })?;
            if let Some(layout) = check.layout {
                let [a, b, c, d] = layout.angles;
                return Ok([a, b, c, d, check.closure.off]);
            }
        }
    })
}

#[test]
fn carried_level() -> Outcome {
    let laser = LaserWorth {
        accuracy: 0.3,
        reading: 1.0,
    };
    holds([-37.0, 375.0], |reader| {
        // Each set-up's plane tilts in its own way, and each sight goes its own way from it.
        let planes = [0, 1].map(|_| Plane::random(&mut reader.rng, laser));
        let mut sight = |setup: usize, down: f64, dist: f64| {
            let turn: f64 = reader.rng.random_range(0.0..TAU);
            let climbs = planes[setup].climbs([dist * turn.cos(), dist * turn.sin()]);
            let down = reader.read(down + climbs, 1.0);
            LineSight { down, dist }
        };
        let carried = carry_level(
            &TwoSetups {
                datum: sight(0, 412.0, 4e3),
                change_points: vec![
                    Shared {
                        first: sight(0, 655.0, 9e3),
                        second: sight(1, 618.0, 3e3),
                    },
                    Shared {
                        first: sight(0, 200.0, 5e3),
                        second: sight(1, 163.0, 12e3),
                    },
                ],
                datum_again: Some(sight(1, 375.0, 15e3)),
            },
            laser,
        )?;
        Ok([carried.step, carried.line])
    })
}

#[test]
fn laser_and_spirit_level() -> Outcome {
    let laser = LaserWorth {
        accuracy: 0.3,
        reading: 1.0,
    };
    holds([0.25, 320.0, 0.25, 1.5], |reader| {
        let pegs = two_pegs(
            &TwoPegs {
                base: 20e3,
                middle: AtPegs {
                    a: reader.read(1202.5, 1.0),
                    b: reader.read(1522.5, 1.0),
                },
                second: AtPegs {
                    a: reader.read(1400.25, 1.0),
                    b: reader.read(1724.75, 1.0),
                },
                second_dist: AtPegs { a: 1e3, b: 19e3 },
                higher: None,
            },
            laser,
        )?;
        let first = reader.read(2.5, 1.0);
        let turned = turn_about(reader.read(-2.5, 1.0) - first, 10e3, laser)?;
        let level = reversed(reader.read(3.5, 0.5), reader.read(0.5, 0.5), 1200.0, 0.5)?;
        Ok([pegs.slope, pegs.a_above_b, turned.slope, level.error])
    })
}

#[test]
fn scale_and_zero_of_a_tape() -> Outcome {
    let tapes = TwoTapeClasses {
        first: TapeClass::II,
        second: TapeClass::II,
        reading: 0.7,
    };
    holds([0.4, -2.0], |reader| {
        let mut both = |length: f64| BothTapes {
            first: reader.read(length * 1.0004 - 2.0, 0.7),
            second: reader.read(length, 0.7),
        };
        let check = tape_check(&[both(1e3), both(4e3), both(7e3), both(10e3)], tapes)?;
        let parts = check.parts.ok_or("9 m of spread part scale and zero")?;
        Ok([parts.scale, parts.zero])
    })
}
