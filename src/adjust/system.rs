use super::equation::Equation;

/// What is to be adjusted: parameters with their rough values, and the readings that bear on them.
///
/// `start` and `held` go by parameter; a parameter that `held` does not reach is free.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct System {
    /// Rough value of every parameter, mm.
    pub start: Vec<f64>,
    /// Parameters that keep their rough value; these settle the frame.
    pub held: Vec<bool>,
    /// The readings.
    pub observations: Vec<Observation>,
}

/// One reading: what it ought to equal, what was read, and how far to trust it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Observation {
    /// What the reading is of.
    pub equation: Equation,
    /// What was read, in the unit of the equation (mm or degrees).
    pub value: f64,
    /// Standard deviation of the reading, in the same unit; above 0.
    pub sd: f64,
}
