//! A triangle of three lengths, seen from one of its corners.

use super::figure::{self, FigureError};
use super::refusal::{Refusal, said_in_mm};
use crate::length::{Unit, show_with_unit};

/// Why three tapes make no corner.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum CornerError {
    /// A figure that cannot be.
    Figure(FigureError),
    /// One tape is longer than the other two together.
    CannotClose {
        /// Which tape is too long.
        longest: &'static str,
        /// By how much, mm.
        by: f64,
    },
    /// All three lie on one line.
    Flat,
}

impl Refusal for CornerError {
    fn figure(&self) -> Option<&'static str> {
        match self {
            Self::Figure(figure) => figure.figure(),
            Self::CannotClose { longest, .. } => Some(longest),
            Self::Flat => Some("across tape"),
        }
    }

    fn said(&self, unit: Unit) -> String {
        match *self {
            Self::Figure(figure) => figure.said(unit),
            Self::CannotClose { longest, by } => format!(
                "The three tapes cannot close: the {longest} is {} longer than the other two \
                 together. Tape all three again.",
                show_with_unit(by, unit),
            ),
            Self::Flat => "The three tapes lie on one straight line, so they give no corner. \
                 Check the across tape, or that the legs run along two different strings."
                .to_owned(),
        }
    }
}

said_in_mm!(CornerError);

/// Third side of a triangle, mm, from two sides and the angle between them in radians, in the form
/// that keeps its digits for small angles.
pub(super) fn across(first: f64, second: f64, angle: f64) -> f64 {
    let half = (angle / 2.0).sin();
    (first - second).hypot(2.0 * (first * second).sqrt() * half)
}

/// A triangle that closes, seen from one of its corners.
#[derive(Clone, Copy, Debug)]
pub(super) struct Triangle {
    first: f64,
    second: f64,
    across: f64,
    /// Between `first` and `second`, radians.
    pub(super) angle: f64,
}

impl Triangle {
    pub(super) fn new(first: f64, second: f64, across: f64) -> Result<Self, CornerError> {
        let over = [
            ("first leg", first - second - across),
            ("second leg", second - first - across),
            ("across tape", across - first - second),
        ];
        if let Some((longest, by)) = over.into_iter().find(|(_, by)| *by > 0.0) {
            return Err(CornerError::CannotClose { longest, by });
        }
        let [a, b, c] = over.map(|(_, by)| -by);
        let angle = 2.0 * (a * b).sqrt().atan2(((first + second + across) * c).sqrt());
        let flattest = figure::FLATTEST.to_radians();
        if angle < flattest || angle > std::f64::consts::PI - flattest {
            return Err(CornerError::Flat);
        }
        Ok(Self {
            first,
            second,
            across,
            angle,
        })
    }

    /// How the angle turns, radians per mm, with the first leg, the second, and the tape across.
    pub(super) fn partials(&self) -> [f64; 3] {
        let twice_area = self.first * self.second * self.angle.sin();
        let cos = self.angle.cos();
        [
            (self.second * cos - self.first) / twice_area,
            (self.first * cos - self.second) / twice_area,
            self.across / twice_area,
        ]
    }
}
