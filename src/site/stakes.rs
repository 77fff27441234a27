//! Where marks and nails are while a figure made from them is tried.

use crate::job::sound::{LineIx, MarkIx};
use nalgebra::Vector2;

/// Gives the place of a mark, mm.
pub type PlaceOf<'a> = dyn Fn(MarkIx) -> Vector2<f64> + 'a;

/// One nail set a little off its offset, mm, away from the wall positive.
#[derive(Clone, Copy, Debug, PartialEq)]
struct NailOff {
    line: LineIx,
    nail: usize,
    by: f64,
}

/// Where the marks are, and that every nail is where it should be, but for one.
#[derive(Clone, Copy)]
pub struct Stakes<'a> {
    marks: &'a PlaceOf<'a>,
    moved: Option<NailOff>,
}

impl<'a> Stakes<'a> {
    /// Marks at these places, every nail where it should be.
    #[must_use]
    pub fn at(marks: &'a PlaceOf<'a>) -> Self {
        Self { marks, moved: None }
    }

    /// The same with one nail of a line so many mm off its offset, and every other where it should be.
    #[must_use]
    pub fn with_nail_off(self, line: LineIx, nail: usize, by: f64) -> Self {
        let moved = Some(NailOff { line, nail, by });
        Self { moved, ..self }
    }

    /// The place of a mark, mm.
    #[must_use]
    pub fn mark(&self, ix: MarkIx) -> Vector2<f64> {
        (self.marks)(ix)
    }

    /// How far a nail of a line is off its offset, mm.
    #[must_use]
    pub fn nail_off(&self, line: LineIx, nail: usize) -> f64 {
        match self.moved {
            Some(moved) if (moved.line, moved.nail) == (line, nail) => moved.by,
            _ => 0.0,
        }
    }
}
