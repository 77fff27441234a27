//! A laser as it stands: its plane tilts, the same way in every sight of one set-up.

use rand::RngExt;
use rand::rngs::StdRng;
use std::f64::consts::TAU;
use tautmark::laser::LaserWorth;

/// The plane of one set-up: how far it climbs, mm in each m, along x and along y.
#[derive(Clone, Copy)]
pub struct Plane([f64; 2]);

impl Plane {
    /// Tilted in any direction by seven tenths to all of what its maker states.
    pub fn random(rng: &mut StdRng, laser: LaserWorth) -> Self {
        let tilt = laser.accuracy * rng.random_range(0.7..1.0);
        let toward: f64 = rng.random_range(0.0..TAU);
        Self([tilt * toward.cos(), tilt * toward.sin()])
    }

    /// How far the plane is above its set-up at a point so many mm away, mm.
    pub fn climbs(self, away: [f64; 2]) -> f64 {
        (self.0[0] * away[0] + self.0[1] * away[1]) / 1000.0
    }
}

/// How far one reading is off, mm, for an eye good to 1 mm: the sum of two even chances.
pub fn eye(rng: &mut StdRng) -> f64 {
    let half = 1.5f64.sqrt();
    rng.random_range(-half..half) + rng.random_range(-half..half)
}
