use super::equation::{Equation, Linear};
use super::mark::At;
use super::system::{Observation, System};
use nalgebra::{DMatrix, DVector};

/// A system made ready for solving: held parameters left out, the rest numbered ("slots"), and
/// every figure brought within what the arithmetic can carry.
#[derive(Clone, Debug)]
pub(super) struct Prepared {
    pub start: Vec<f64>,
    pub readings: Vec<Observation>,
    /// Slot of each parameter; none if it is held.
    slots: Vec<Option<usize>>,
    /// Parameter in each slot.
    pub params: Vec<usize>,
}

/// N = AᵀA (its lower triangle, n × n) and the gradient Aᵀ(v/sd) (n), by slot.
#[derive(Clone, Debug)]
pub(super) struct Normal {
    pub matrix: DMatrix<f64>,
    pub gradient: DVector<f64>,
}

/// No site is larger than this and no reading so fine, mm: figures beyond are brought back to it
/// so that squares and sums stay finite.
pub(super) const LARGEST: f64 = 1e12;
const SMALLEST_SD: f64 = 1e-6;

fn finite(value: f64) -> f64 {
    if value.is_nan() {
        0.0
    } else {
        value.clamp(-LARGEST, LARGEST)
    }
}

impl Prepared {
    pub fn of(system: &System) -> Self {
        let held: Vec<bool> = (0..system.start.len())
            .map(|param| system.held.get(param).copied().unwrap_or(false))
            .collect();
        Self::new(&system.start, &held, &system.observations)
    }

    pub fn new(start: &[f64], held: &[bool], readings: &[Observation]) -> Self {
        let params: Vec<usize> = (0..start.len()).filter(|&param| !held[param]).collect();
        let mut slots = vec![None; start.len()];
        for (slot, &param) in params.iter().enumerate() {
            slots[param] = Some(slot);
        }
        Self {
            start: start.iter().map(|&value| finite(value)).collect(),
            readings: readings.iter().map(within_reason).collect(),
            slots,
            params,
        }
    }

    /// Number of unknowns.
    pub fn unknowns(&self) -> usize {
        self.params.len()
    }

    /// Slot of a parameter; none if it is held or there is no such parameter.
    pub fn slot(&self, param: usize) -> Option<usize> {
        self.slots.get(param).copied().flatten()
    }

    /// Σ(v/sd)² at `x` over all readings but `without`.
    pub fn chi2(&self, x: &[f64], without: Option<usize>) -> f64 {
        (0..self.readings.len())
            .filter(|&index| Some(index) != without)
            .map(|index| self.misfit(index, x).powi(2))
            .sum()
    }

    /// v/sd of one reading at `x`.
    pub fn misfit(&self, index: usize, x: &[f64]) -> f64 {
        let reading = &self.readings[index];
        (reading.equation.value(x) - reading.value) / reading.sd
    }

    /// All readings but `without`, linearised at `x`.
    fn linearised<'a>(
        &'a self,
        x: &'a [f64],
        without: Option<usize>,
    ) -> impl Iterator<Item = (&'a Observation, Linear)> {
        self.readings
            .iter()
            .enumerate()
            .filter(move |(index, _)| Some(*index) != without)
            .map(|(_, reading)| (reading, reading.equation.linear(x)))
    }

    /// Gradient Aᵀ(v/sd) at `x` over all readings but `without`, by slot.
    pub fn gradient(&self, x: &[f64], without: Option<usize>) -> DVector<f64> {
        let mut gradient = DVector::zeros(self.unknowns());
        for (reading, linear) in self.linearised(x, without) {
            let v = (linear.value - reading.value) / (reading.sd * reading.sd);
            for (slot, slope) in self.row(&linear) {
                gradient[slot] += slope * v;
            }
        }
        gradient
    }

    /// N and gradient at `x` over all readings but `without`.
    pub fn normal(&self, x: &[f64], without: Option<usize>) -> Normal {
        let n = self.unknowns();
        let mut matrix = DMatrix::zeros(n, n);
        for (reading, linear) in self.linearised(x, without) {
            let weight = 1.0 / (reading.sd * reading.sd);
            for (a, of_a) in self.row(&linear) {
                for (b, of_b) in self.row(&linear).filter(|(b, _)| *b <= a) {
                    matrix[(a, b)] += of_a * of_b * weight;
                }
            }
        }
        Normal {
            matrix,
            gradient: self.gradient(x, without),
        }
    }

    /// Adds what bent tapes add to N: Σ(v/sd²) ∂²f/∂x², the rest of the second derivative of half
    /// Σ(v/sd)². Only tapes bend enough to matter.
    pub fn add_curvature(&self, matrix: &mut DMatrix<f64>, x: &[f64], without: Option<usize>) {
        for (reading, linear) in self.linearised(x, without) {
            let is_tape = matches!(reading.equation, Equation::Distance { .. });
            if !is_tape || linear.value <= 0.0 {
                continue;
            }
            let v = (linear.value - reading.value) / (reading.sd * reading.sd);
            let bend = v / linear.value;
            // Of a length, ∂²/∂a∂b is (±δ − slope · slope)/length; terms go x, y, x, y.
            for (i, &(a, of_a)) in linear.terms().iter().enumerate() {
                for (j, &(b, of_b)) in linear.terms().iter().enumerate() {
                    let (Some(a), Some(b)) = (self.slot(a.0), self.slot(b.0)) else {
                        continue;
                    };
                    if b <= a {
                        let straight = match (i % 2 == j % 2, i / 2 == j / 2) {
                            (true, true) => 1.0,
                            (true, false) => -1.0,
                            (false, _) => 0.0,
                        };
                        matrix[(a, b)] += bend * (straight - of_a * of_b);
                    }
                }
            }
        }
    }

    /// The row of A for a linearised equation, by slot, held parameters left out.
    pub fn row<'a>(&'a self, linear: &'a Linear) -> impl Iterator<Item = (usize, f64)> + 'a {
        linear
            .terms()
            .iter()
            .filter_map(|&(param, slope)| Some((self.slot(param.0)?, slope)))
    }

    /// The marks in the plane that any reading bears on, each once, in order.
    pub fn marks(&self) -> Vec<At> {
        let mut marks: Vec<At> = self
            .readings
            .iter()
            .flat_map(|reading| reading.equation.marks())
            .collect();
        marks.sort_unstable();
        marks.dedup();
        marks
    }

    /// How large the site is: its longest tape, mm.
    pub fn size(&self) -> f64 {
        let taped = self
            .readings
            .iter()
            .filter(|reading| matches!(reading.equation, Equation::Distance { .. }))
            .map(|reading| reading.value);
        taped.fold(1.0, f64::max)
    }
}

fn within_reason(reading: &Observation) -> Observation {
    Observation {
        equation: reading.equation,
        value: finite(reading.value),
        sd: finite(reading.sd).abs().max(SMALLEST_SD),
    }
}
