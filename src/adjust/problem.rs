use super::equation::{At, Linear};
use super::pattern::Pattern;
use super::reading::Reading;
use super::system::System;
use arrayvec::ArrayVec;

/// A system made ready for solving: held parameters left out, the rest put into elimination order
/// ("slots"), and every figure brought within what the arithmetic can carry.
#[derive(Clone, Debug)]
pub(super) struct Problem {
    pub start: Vec<f64>,
    pub readings: Vec<Reading>,
    /// Slot of each parameter; none if it is held.
    pub slots: Vec<Option<usize>>,
    /// Parameter in each slot.
    pub params: Vec<usize>,
    pub pattern: Pattern,
    /// For each reading and pair of its terms, where their product goes in the normal matrix.
    places: Vec<[u32; 36]>,
}

/// N = AᵀA on the pattern, and the gradient Aᵀ(v/sd), by slot.
#[derive(Clone, Debug, Default)]
pub(super) struct Normal {
    pub matrix: Vec<f64>,
    pub gradient: Vec<f64>,
    pub chi2: f64,
}

/// No site is larger than this and no reading so fine, mm: figures beyond are brought back to it
/// so that squares and sums stay finite.
pub(super) const LARGEST: f64 = 1e12;
const SMALLEST_SD: f64 = 1e-6;
const NOWHERE: u32 = u32::MAX;

/// The variables of a reading's terms; none for what is held.
type Terms = ArrayVec<Option<usize>, 6>;

fn finite(value: f64) -> f64 {
    if value.is_nan() {
        0.0
    } else {
        value.clamp(-LARGEST, LARGEST)
    }
}

impl Problem {
    pub fn of(system: &System) -> Self {
        let readings = system.observations.iter().map(Reading::from).collect();
        Self::new(&system.start, &system.held, readings)
    }

    pub fn new(start: &[f64], held: &[bool], readings: Vec<Reading>) -> Self {
        let free: Vec<usize> = (0..start.len())
            .filter(|&param| !held.get(param).copied().unwrap_or(false))
            .collect();
        let mut variable = vec![None; start.len()];
        for (at, &param) in free.iter().enumerate() {
            variable[param] = Some(at);
        }
        let start: Vec<f64> = start.iter().map(|&value| finite(value)).collect();
        let readings: Vec<Reading> = readings.into_iter().map(within_reason).collect();
        let terms: Vec<Terms> = readings
            .iter()
            .map(|reading| {
                let linear = reading.form.linear(&start);
                let of = |param: usize| variable.get(param).copied().flatten();
                let terms = linear.terms().iter();
                terms.map(|(param, _)| of(param.0)).collect()
            })
            .collect();
        let cliques = terms
            .iter()
            .map(|terms| terms.iter().flatten().copied().collect::<ArrayVec<_, 6>>());
        let pattern = Pattern::new(free.len(), cliques);
        let mut slot_of_variable = vec![0; free.len()];
        for (slot, &variable) in pattern.order.iter().enumerate() {
            slot_of_variable[variable] = slot;
        }
        let places = terms
            .iter()
            .map(|terms| places(&pattern, terms, &slot_of_variable))
            .collect();
        Self {
            start,
            readings,
            slots: variable
                .iter()
                .map(|variable| variable.map(|variable| slot_of_variable[variable]))
                .collect(),
            params: pattern
                .order
                .iter()
                .map(|&variable| free[variable])
                .collect(),
            pattern,
            places,
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
            .map(|index| self.misfit(index, x))
            .map(|v| v * v)
            .sum()
    }

    /// v/sd of one reading at `x`.
    pub fn misfit(&self, index: usize, x: &[f64]) -> f64 {
        let reading = &self.readings[index];
        (reading.form.value(x) - reading.value) / reading.sd
    }

    /// Gradient Aᵀ(v/sd) at `x` over all readings but `without`, by slot.
    pub fn gradient(&self, x: &[f64], without: Option<usize>) -> Vec<f64> {
        let mut gradient = vec![0.0; self.unknowns()];
        for (index, reading) in self.readings.iter().enumerate() {
            if Some(index) != without {
                let linear = reading.form.linear(x);
                let v = (linear.value - reading.value) / (reading.sd * reading.sd);
                for (slot, slope) in self.row(&linear) {
                    gradient[slot] += slope * v;
                }
            }
        }
        gradient
    }

    /// N, gradient and Σ(v/sd)² at `x` over all readings but `without`.
    pub fn normal(&self, x: &[f64], without: Option<usize>) -> Normal {
        let mut normal = Normal {
            matrix: vec![0.0; self.pattern.rows.len()],
            gradient: vec![0.0; self.unknowns()],
            chi2: 0.0,
        };
        for (index, reading) in self.readings.iter().enumerate() {
            if Some(index) != without {
                self.add(&mut normal, index, reading, x);
            }
        }
        normal
    }

    fn add(&self, normal: &mut Normal, index: usize, reading: &Reading, x: &[f64]) {
        let linear = reading.form.linear(x);
        let weight = 1.0 / reading.sd;
        let v = (linear.value - reading.value) * weight;
        normal.chi2 += v * v;
        let terms = linear.terms();
        for (i, &(param, slope)) in terms.iter().enumerate() {
            let Some(slot) = self.slot(param.0) else {
                continue;
            };
            let a = slope * weight;
            normal.gradient[slot] += a * v;
            let places = &self.places[index][6 * i..];
            for (&(_, other), &place) in terms.iter().zip(places) {
                if place != NOWHERE {
                    normal.matrix[place as usize] += a * other * weight;
                }
            }
        }
    }

    /// Adds what bent tapes add to N: Σ(v/sd²) ∂²f/∂x², the rest of the second derivative of half
    /// Σ(v/sd)². Only tapes bend enough to matter.
    pub fn add_curvature(&self, matrix: &mut [f64], x: &[f64], without: Option<usize>) {
        for (index, reading) in self.readings.iter().enumerate() {
            if Some(index) == without || !reading.form.is_tape() {
                continue;
            }
            let linear = reading.form.linear(x);
            if linear.value <= 0.0 {
                continue;
            }
            let v = (linear.value - reading.value) / (reading.sd * reading.sd);
            let bend = v / linear.value;
            // Of a length, ∂²/∂a∂b is (±δ − slope · slope)/length; terms go x, y, x, y.
            for (i, &(_, of_a)) in linear.terms().iter().enumerate() {
                for (j, &(_, of_b)) in linear.terms().iter().enumerate() {
                    let place = self.places[index][6 * i + j];
                    if place != NOWHERE {
                        let straight = match (i % 2 == j % 2, i / 2 == j / 2) {
                            (true, true) => 1.0,
                            (true, false) => -1.0,
                            (false, _) => 0.0,
                        };
                        matrix[place as usize] += bend * (straight - of_a * of_b);
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
            .flat_map(|reading| reading.form.marks())
            .collect();
        marks.sort_unstable();
        marks.dedup();
        marks
    }
}

fn within_reason(reading: Reading) -> Reading {
    Reading {
        form: reading.form,
        value: finite(reading.value),
        sd: finite(reading.sd).abs().max(SMALLEST_SD),
    }
}

fn places(pattern: &Pattern, terms: &[Option<usize>], slots: &[usize]) -> [u32; 36] {
    let mut places = [NOWHERE; 36];
    for (i, a) in terms.iter().enumerate() {
        for (j, b) in terms.iter().enumerate() {
            let (Some(a), Some(b)) = (a, b) else { continue };
            let (a, b) = (slots[*a], slots[*b]);
            // Each pair comes up both ways round; the lower triangle takes it once.
            if a >= b
                && let Some(entry) = pattern.entry(a, b)
            {
                places[6 * i + j] = u32::try_from(entry).unwrap_or(NOWHERE);
            }
        }
    }
    places
}
