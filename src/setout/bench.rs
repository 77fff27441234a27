//! One run being set out, and a post on its string before it is numbered.

use super::fixes::PostKind;
use super::track::Track;
use crate::job::model::Foot;
use crate::job::sound::{Sound, SoundRun};
use crate::site::{Plane, Strings};

/// Faces nearer than this are one face, mm.
pub(super) const SAME: f64 = 1.0;

/// A post on the string, before it is numbered. Running readings, mm.
#[derive(Clone, Copy, Debug)]
pub(super) struct Stand {
    pub kind: PostKind,
    pub near: f64,
    pub centre: f64,
    pub far: f64,
    /// String to centre, mm.
    pub off: f64,
    pub wedge: Option<f64>,
    pub foot: Foot,
    pub bearing: Option<f64>,
    pub size: [f64; 2],
    /// Bearing of the width axis, degrees.
    pub rotation: f64,
    /// The post is there already.
    pub stands: bool,
    /// Nothing holds it but the bay on either side.
    pub filled: bool,
    /// It stays where it was measured.
    pub kept: bool,
}

/// An opening between two posts, and its place in the file's list of gates. Mm.
#[derive(Clone, Copy, Debug)]
pub(super) struct Opening {
    pub index: usize,
    pub near: f64,
    pub far: f64,
}

/// One run being set out.
pub(super) struct Bench<'a> {
    pub sound: &'a Sound,
    pub run: &'a SoundRun,
    pub plane: &'a Plane,
    pub strings: &'a Strings,
    pub track: Track,
}

impl Bench<'_> {
    /// Its place in the file.
    pub fn place(&self) -> String {
        format!("runs[{}]", self.run.index)
    }

    /// A post of the run's own size, square to its string.
    pub fn plain(&self, kind: PostKind, centre: f64) -> Stand {
        let half = self.run.width / 2.0;
        Stand {
            kind,
            near: centre - half,
            centre,
            far: centre + half,
            off: self.run.gap + self.run.depth / 2.0,
            wedge: None,
            foot: self.run.foot,
            bearing: None,
            size: [self.run.width, self.run.depth],
            rotation: self.track.ray.bearing(),
            stands: false,
            filled: false,
            kept: false,
        }
    }
}
