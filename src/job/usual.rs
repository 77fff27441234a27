//! What is usual where nobody has said otherwise, native to the unit that a person works in.
//!
//! What a file does not say keeps its meaning whatever the unit ([`model`](super::model)). These
//! figures are for what is begun: a part of a new job is written with them, so that its file says so.
//!
//! ```
//! use tautmark::job::usual::Usual;
//! use tautmark::length::Unit;
//! assert_eq!(Usual::of(Unit::Mm).bays().max, 1800.0);
//! assert_eq!(Usual::of(Unit::FEET).bays().max, 72.0 * 25.4);
//! ```

use super::Job;
use super::model::{Bays, Gravel, Hole, Leaf, Lock, Pales, PostSize, Rails};
use crate::length::{Unit, inches};
use crate::volume::of_bag;

/// Usual figures of one family of units, mm.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Usual {
    /// Side of a square post.
    pub post: f64,
    /// Longest bay, centre to centre.
    pub bay: f64,
    /// From a wall's face to the string in front of it.
    pub string: f64,
    /// Across a post hole.
    pub hole_diameter: f64,
    /// From the ground to the bottom of a post hole.
    pub hole_depth: f64,
    /// Concrete from one bag, litres.
    pub bag: f64,
    /// Gap of a gate leaf at its hinges.
    pub hinge: f64,
    /// Gap of a gate leaf at its latch.
    pub latch: f64,
    /// Gap under a gate leaf.
    pub ground: f64,
    /// Clearance to keep under a gate that swings.
    pub swing: f64,
    /// Height of a gravel board.
    pub gravel: f64,
    /// Clearance under a gravel board.
    pub clearance: f64,
    /// The gap under a gravel board that is still fine.
    pub gap: f64,
    /// Centres of the lowest and the highest rail above the gravel board's top.
    pub rails: [f64; 2],
    /// How far a rail sits in its post.
    pub seat: f64,
    /// Thickness of a rail.
    pub rail: f64,
    /// Width of a pale.
    pub pale: f64,
    /// The least that one pale covers of the next.
    pub lap: f64,
    /// Tops of the pales above the gravel board's top.
    pub pale_height: f64,
    /// Height of a fence out of the ground.
    pub fence: f64,
    /// From the laser to what it sights.
    pub sight: f64,
    /// Length of a spirit level.
    pub spirit_level: f64,
    /// What a lock's shaft is longer by than what it passes through.
    pub shaft: f64,
    /// Width of a member of a gate leaf's frame.
    pub stile: f64,
    /// Thickness of that frame.
    pub frame: f64,
    /// Thickness of the boards on its face.
    pub face: f64,
    /// Centre of a gate's lock above the leaf's bottom.
    pub lock_height: f64,
    /// From the leaf's edge to the spindle of its lock.
    pub backset: f64,
    /// Width of the lock's case.
    pub case: f64,
    /// From each end of a post on a wall to its nearest bolt.
    pub bolt_ends: f64,
    /// The farthest that two of its bolts are apart.
    pub bolt_most: f64,
    /// Width of the strip that is cleared along a run.
    pub strip: f64,
    /// Thickness of turf taken up.
    pub turf: f64,
    /// Arms to mark on two strings for the check of a corner.
    pub arms: [f64; 4],
}

impl Usual {
    /// Where lengths are millimetres or metres: what a file means that does not say.
    pub const METRIC: Self = Self {
        post: 100.0,
        bay: 1800.0,
        string: 50.0,
        hole_diameter: 300.0,
        hole_depth: 600.0,
        bag: 12.0,
        hinge: 15.0,
        latch: 10.0,
        ground: 60.0,
        swing: 30.0,
        gravel: 150.0,
        clearance: 10.0,
        gap: 50.0,
        rails: [60.0, 1440.0],
        seat: 15.0,
        rail: 40.0,
        pale: 150.0,
        lap: 20.0,
        pale_height: 1600.0,
        fence: 1800.0,
        sight: 5000.0,
        spirit_level: 1200.0,
        shaft: 5.0,
        stile: 70.0,
        frame: 38.0,
        face: 16.0,
        lock_height: 1000.0,
        backset: 60.0,
        case: 110.0,
        bolt_ends: 150.0,
        bolt_most: 500.0,
        strip: 300.0,
        turf: 50.0,
        arms: [1000.0, 1500.0, 2000.0, 3000.0],
    };

    /// Where lengths are feet and inches.
    pub const FEET: Self = Self {
        post: inches(3.5),
        bay: inches(72.0),
        string: inches(2.0),
        hole_diameter: inches(12.0),
        hole_depth: inches(24.0),
        bag: of_bag(80.0),
        hinge: inches(0.75),
        latch: inches(0.5),
        ground: inches(2.0),
        swing: inches(1.0),
        gravel: inches(5.5),
        clearance: inches(0.5),
        gap: inches(2.0),
        rails: [inches(3.0), inches(57.0)],
        seat: inches(0.5),
        rail: inches(1.5),
        pale: inches(5.5),
        lap: inches(1.0),
        pale_height: inches(64.0),
        fence: inches(72.0),
        sight: inches(180.0),
        spirit_level: inches(48.0),
        shaft: inches(0.25),
        stile: inches(3.5),
        frame: inches(1.5),
        face: inches(0.625),
        lock_height: inches(36.0),
        backset: inches(2.375),
        case: inches(4.5),
        bolt_ends: inches(6.0),
        bolt_most: inches(20.0),
        strip: inches(12.0),
        turf: inches(2.0),
        arms: [inches(36.0), inches(48.0), inches(72.0), inches(120.0)],
    };

    /// Those of a unit.
    #[must_use]
    pub const fn of(unit: Unit) -> &'static Self {
        if unit.is_feet() {
            &Self::FEET
        } else {
            &Self::METRIC
        }
    }

    /// The posts of a new run.
    #[must_use]
    pub fn post(&self) -> PostSize {
        PostSize {
            width: self.post,
            depth: self.post,
            ..PostSize::default()
        }
    }

    /// The bays of a new run.
    #[must_use]
    pub fn bays(&self) -> Bays {
        Bays {
            max: self.bay,
            ..Bays::default()
        }
    }

    /// A gate's leaf where there was none.
    #[must_use]
    pub fn leaf(&self) -> Leaf {
        Leaf {
            hinge: self.hinge,
            latch: self.latch,
            ground: self.ground,
            stile: self.stile,
            thick: self.frame,
            face: self.face,
            ..Leaf::default()
        }
    }

    /// A gate's lock where there was none.
    #[must_use]
    pub fn lock(&self) -> Lock {
        Lock {
            height: self.lock_height,
            backset: self.backset,
            case: self.case,
            ..Lock::default()
        }
    }

    /// The holes of a new job.
    #[must_use]
    pub fn hole(&self) -> Hole {
        Hole {
            diameter: self.hole_diameter,
            depth: self.hole_depth,
            bag: self.bag,
            ..Hole::default()
        }
    }

    /// A gravel board where there was none.
    #[must_use]
    pub fn gravel(&self) -> Gravel {
        Gravel {
            height: self.gravel,
            clearance: self.clearance,
            gap: self.gap,
            ..Gravel::default()
        }
    }

    /// Rails where there were none.
    #[must_use]
    pub fn rails(&self) -> Rails {
        let usual = Rails::default();
        Rails {
            low: self.rails[0],
            high: self.rails[1],
            seat: self.seat,
            // A thickness that goes without saying is not said.
            thick: Some(self.rail).filter(|thick| *thick != usual.thickness()),
            ..usual
        }
    }

    /// Pales where there were none.
    #[must_use]
    pub fn pales(&self) -> Pales {
        Pales {
            width: self.pale,
            lap: self.lap,
            height: self.pale_height,
            ..Pales::default()
        }
    }
}

impl Job {
    /// A job with a title, native to the unit it is begun in, and nothing measured yet.
    #[must_use]
    pub fn begun_in(unit: Unit, title: &str) -> Self {
        let mut job = Self::new(title);
        job.show = job.show.turned_to(unit);
        job.hole = Usual::of(unit).hole();
        job
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::length::{InchPart, rounded};

    #[test]
    fn metric_figures_are_what_a_file_means_that_does_not_say() {
        let usual = Usual::of(Unit::M);
        assert_eq!(usual.post(), PostSize::default());
        assert_eq!(usual.bays(), Bays::default());
        assert_eq!(usual.leaf(), Leaf::default());
        assert_eq!(usual.hole(), Hole::default());
        assert_eq!(usual.gravel(), Gravel::default());
        assert_eq!(usual.rails(), Rails::default());
        assert_eq!(usual.pales(), Pales::default());
        assert_eq!(Job::begun_in(Unit::Mm, "Hedge end"), Job::new("Hedge end"));
    }

    #[test]
    fn native_figures_are_on_the_coarsest_tape() {
        let usual = Usual::of(Unit::FEET);
        let (gravel, rails, pales) = (usual.gravel(), usual.rails(), usual.pales());
        let leaf = usual.leaf();
        let eighths = Unit::FtIn(InchPart::Eighth);
        for mm in [
            usual.post().width,
            usual.bays().max,
            usual.hole().diameter,
            leaf.hinge,
            leaf.latch,
            leaf.ground,
            gravel.height,
            gravel.clearance,
            rails.low,
            rails.high,
            rails.seat,
            rails.thickness(),
            pales.width,
            pales.lap,
            pales.height,
        ] {
            assert!((rounded(mm, eighths, 0) - mm).abs() < 1e-9, "{mm} mm");
        }
        assert!(
            Job::begun_in(Unit::FEET, "Hedge end")
                .show
                .lengths
                .is_feet()
        );
    }
}
