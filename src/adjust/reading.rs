use super::equation::{At, Equation, Linear, Param, coordinate, place};
use super::system::Observation;

/// A mark that may leave the plane: where it is in it, and how far above.
#[derive(Clone, Copy, Debug)]
pub(super) struct Aloft {
    pub at: At,
    pub up: Param,
}

/// What a reading of a [`super::problem::Problem`] is of.
#[derive(Clone, Copy, Debug)]
pub(super) enum Form {
    /// As the caller put it.
    Plane(Equation),
    /// A distance through space.
    Space { from: Aloft, to: Aloft },
    /// How far a mark is above the plane.
    Height(Param),
}

/// A reading ready for solving.
#[derive(Clone, Copy, Debug)]
pub(super) struct Reading {
    pub form: Form,
    pub value: f64,
    pub sd: f64,
}

impl From<&Observation> for Reading {
    fn from(observation: &Observation) -> Self {
        Self {
            form: Form::Plane(observation.equation),
            value: observation.value,
            sd: observation.sd,
        }
    }
}

impl Form {
    /// The marks in it that lie in the plane.
    pub fn marks(self) -> impl Iterator<Item = At> {
        match self {
            Self::Plane(equation) => Some(equation.marks()),
            Self::Space { .. } | Self::Height(_) => None,
        }
        .into_iter()
        .flatten()
    }

    /// Whether it is a length in the plane.
    pub fn is_tape(self) -> bool {
        matches!(self, Self::Plane(Equation::Distance { .. }))
    }

    /// Value at `x`.
    pub fn value(&self, x: &[f64]) -> f64 {
        match self {
            Self::Plane(equation) => equation.value(x),
            Self::Space { .. } | Self::Height(_) => self.linear(x).value,
        }
    }

    /// Value at `x`, and slopes.
    pub fn linear(&self, x: &[f64]) -> Linear {
        match *self {
            Self::Plane(equation) => equation.linear(x),
            Self::Space { from, to } => space(x, from, to),
            Self::Height(up) => Linear::new(coordinate(x, up)).and(up, 1.0),
        }
    }
}

fn space(x: &[f64], from: Aloft, to: Aloft) -> Linear {
    let ([ax, ay], [bx, by]) = (place(x, from.at), place(x, to.at));
    let run = [
        bx - ax,
        by - ay,
        coordinate(x, to.up) - coordinate(x, from.up),
    ];
    let length = run[0].hypot(run[1]).hypot(run[2]);
    // Coincident marks pull straight up, which is never wrong for long.
    let unit = if length > 0.0 {
        run.map(|part| part / length)
    } else {
        [0.0, 0.0, 1.0]
    };
    Linear::new(length)
        .and(from.at.x, -unit[0])
        .and(from.at.y, -unit[1])
        .and(from.up, -unit[2])
        .and(to.at.x, unit[0])
        .and(to.at.y, unit[1])
        .and(to.up, unit[2])
}
