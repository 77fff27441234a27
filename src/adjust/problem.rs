use super::equation::Linear;
use super::pattern::Pattern;
use super::system::{Observation, System};

/// A system made ready for solving: held parameters left out, the rest put into elimination order
/// ("slots"), and every figure brought within what the arithmetic can carry.
#[derive(Clone, Debug)]
pub(super) struct Problem {
    pub start: Vec<f64>,
    pub observations: Vec<Observation>,
    /// Slot of each parameter; none if it is held.
    pub slots: Vec<Option<usize>>,
    /// Parameter in each slot.
    pub params: Vec<usize>,
    pub pattern: Pattern,
    /// For each observation and pair of its terms, where their product goes in the normal matrix.
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
const LARGEST: f64 = 1e12;
const SMALLEST_SD: f64 = 1e-6;
const NOWHERE: u32 = u32::MAX;

fn finite(value: f64) -> f64 {
    if value.is_nan() {
        0.0
    } else {
        value.clamp(-LARGEST, LARGEST)
    }
}

impl Problem {
    pub fn new(system: &System) -> Self {
        let free: Vec<usize> = (0..system.start.len())
            .filter(|&param| !system.held.get(param).copied().unwrap_or(false))
            .collect();
        let mut variable = vec![None; system.start.len()];
        for (at, &param) in free.iter().enumerate() {
            variable[param] = Some(at);
        }
        let start: Vec<f64> = system.start.iter().map(|&value| finite(value)).collect();
        let terms: Vec<Vec<Option<usize>>> = system
            .observations
            .iter()
            .map(|observation| {
                let linear = observation.equation.linear(&start);
                let of = |param: usize| variable.get(param).copied().flatten();
                linear
                    .terms()
                    .iter()
                    .map(|(param, _)| of(param.0))
                    .collect()
            })
            .collect();
        let cliques: Vec<Vec<usize>> = terms
            .iter()
            .map(|terms| terms.iter().flatten().copied().collect())
            .collect();
        let pattern = Pattern::new(free.len(), cliques.iter().map(|clique| &clique[..]));
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
            observations: system.observations.iter().map(within_reason).collect(),
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
        let weighted = |(index, observation): (usize, &Observation)| {
            if Some(index) == without {
                return 0.0;
            }
            let v = (observation.equation.value(x) - observation.value) / observation.sd;
            v * v
        };
        self.observations.iter().enumerate().map(weighted).sum()
    }

    /// N, gradient and Σ(v/sd)² at `x` over all readings but `without`.
    pub fn normal(&self, x: &[f64], without: Option<usize>) -> Normal {
        let mut normal = Normal {
            matrix: vec![0.0; self.pattern.rows.len()],
            gradient: vec![0.0; self.unknowns()],
            chi2: 0.0,
        };
        for (index, observation) in self.observations.iter().enumerate() {
            if Some(index) != without {
                self.add(&mut normal, index, observation, x);
            }
        }
        normal
    }

    fn add(&self, normal: &mut Normal, index: usize, observation: &Observation, x: &[f64]) {
        let linear = observation.equation.linear(x);
        let weight = 1.0 / observation.sd;
        let v = (linear.value - observation.value) * weight;
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

    /// The row of A for a linearised equation, by slot, held parameters left out.
    pub fn row<'a>(&'a self, linear: &'a Linear) -> impl Iterator<Item = (usize, f64)> + 'a {
        linear
            .terms()
            .iter()
            .filter_map(|&(param, slope)| Some((self.slot(param.0)?, slope)))
    }
}

fn within_reason(observation: &Observation) -> Observation {
    Observation {
        equation: observation.equation,
        value: finite(observation.value),
        sd: finite(observation.sd).abs().max(SMALLEST_SD),
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
