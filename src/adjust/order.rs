//! In which order to put a site together, so that each mark is as well tied as may be to those
//! already down.

use super::equation::Equation;
use super::mark::At;
use super::problem::Prepared;

/// Which readings each mark is in, and which marks each reading.
pub(super) struct Ties {
    pub marks: Vec<At>,
    of_reading: Vec<Vec<usize>>,
    of_mark: Vec<Vec<usize>>,
}

impl Ties {
    pub fn of(problem: &Prepared) -> Self {
        let marks = problem.marks();
        let mut of_mark = vec![Vec::new(); marks.len()];
        let readings = problem.readings.iter().enumerate();
        let of_reading = readings
            .map(|(index, reading)| {
                let its = reading.equation.marks();
                let its: Vec<usize> = its
                    .filter_map(|mark| marks.binary_search(&mark).ok())
                    .collect();
                for &mark in &its {
                    of_mark[mark].push(index);
                }
                its
            })
            .collect();
        Self {
            marks,
            of_reading,
            of_mark,
        }
    }

    /// Every mark with its readings.
    pub fn iter(&self) -> impl Iterator<Item = (At, &[usize])> {
        let lists = self.of_mark.iter().map(Vec::as_slice);
        self.marks.iter().copied().zip(lists)
    }

    /// Whether a mark is in two readings or more: one alone leaves it loose.
    pub fn holds(&self, mark: At) -> bool {
        let at = self.marks.binary_search(&mark);
        at.is_ok_and(|at| self.of_mark[at].len() > 1)
    }

    /// The readings of a mark whose other marks are down.
    pub fn telling<'a>(
        &'a self,
        mark: usize,
        down: &'a [bool],
    ) -> impl Iterator<Item = usize> + 'a {
        let others_down = move |index: &&usize| {
            let its = &self.of_reading[**index];
            its.iter()
                .filter(|&&other| !down[other])
                .all(|&other| other == mark)
        };
        self.of_mark[mark].iter().filter(others_down).copied()
    }
}

/// Marks in the order in which they are put down.
pub(super) struct Order {
    pub marks: Vec<usize>,
    /// So many of them are where the rough positions have them,
    pub given: usize,
    /// but for the second, if a tape from the first says how far off it is, mm.
    pub apart: Option<f64>,
}

/// What it costs to put a mark down by so many readings: only from three on is it in no doubt.
const DOUBT: [u32; 4] = [10_000, 100, 1, 0];

/// So many starts are looked at for the best.
const STARTS: usize = 24;

/// The order that leaves least in doubt, from a start with none of the marks `spent`; every mark
/// of its start is then spent too.
pub(super) fn order(problem: &Prepared, ties: &Ties, spent: &mut Vec<usize>) -> Option<Order> {
    let held: Vec<usize> = (0..ties.marks.len())
        .filter(|&mark| {
            let At { x, y } = ties.marks[mark];
            problem.slot(x.0).is_none() && problem.slot(y.0).is_none()
        })
        .collect();
    if held.len() > 1 {
        let fresh = !held.iter().any(|mark| spent.contains(mark));
        spent.extend(&held);
        return fresh.then(|| order_from(ties, &held).1);
    }
    let starts: Vec<([usize; 2], f64)> = problem
        .readings
        .iter()
        .zip(ties.of_reading.iter())
        .filter_map(|(reading, its)| match (reading.equation, &its[..]) {
            (Equation::Distance { .. }, &[a, b]) if a != b && reading.value > 0.0 => {
                Some(([a, b], reading.value))
            }
            _ => None,
        })
        .filter(|(start, _)| !start.iter().any(|mark| spent.contains(mark)))
        .collect();
    let mut best: Option<(u32, Order)> = None;
    let stride = starts.len().div_ceil(STARTS).max(1);
    for (start, apart) in starts.into_iter().step_by(stride) {
        let (doubt, mut order) = order_from(ties, &start);
        order.apart = Some(apart);
        if best.as_ref().is_none_or(|(least, _)| doubt < *least) {
            best = Some((doubt, order));
        }
        // The first mark after the start may always be on either side.
        if doubt <= DOUBT[2] {
            break;
        }
    }
    let (_, order) = best?;
    spent.extend(&order.marks[..2]);
    Some(order)
}

fn order_from(ties: &Ties, seed: &[usize]) -> (u32, Order) {
    let mut down = vec![false; ties.marks.len()];
    let mut marks = seed.to_vec();
    // How many readings tie each mark to those down.
    let mut told = vec![0usize; ties.marks.len()];
    let mut doubt = 0;
    let put_down = |mark: usize, down: &mut Vec<bool>, told: &mut Vec<usize>| {
        down[mark] = true;
        for &index in &ties.of_mark[mark] {
            let its = ties.of_reading[index].iter();
            let mut up = its.filter(|&&other| !down[other]);
            if let (Some(&last), None) = (up.next(), up.next()) {
                told[last] += 1;
            }
        }
    };
    for &mark in seed {
        put_down(mark, &mut down, &mut told);
    }
    while let Some(next) = (0..down.len())
        .filter(|&mark| !down[mark])
        .max_by_key(|&mark| told[mark])
    {
        doubt += DOUBT[told[next].min(3)];
        marks.push(next);
        put_down(next, &mut down, &mut told);
    }
    (
        doubt,
        Order {
            marks,
            given: seed.len(),
            apart: None,
        },
    )
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::adjust::system::Observation;

    fn taped(pairs: &[(usize, usize)]) -> Prepared {
        let tape = |&(from, to): &(usize, usize)| Observation {
            equation: Equation::Distance {
                from: At::nth(from),
                to: At::nth(to),
            },
            value: 1000.0,
            sd: 1.0,
        };
        Prepared::new(
            &[0.0; 10],
            &[[true, true, false, true].as_slice(), &[false; 6]].concat(),
            &pairs.iter().map(tape).collect::<Vec<_>>(),
        )
    }

    /// 0 to 3 are taped all ways; 4 hangs on 2 alone.
    #[test]
    fn the_best_tied_marks_go_down_first() {
        let problem = taped(&[(0, 1), (4, 2), (0, 2), (0, 3), (1, 2), (1, 3), (2, 3)]);
        let ties = Ties::of(&problem);
        let mut spent = Vec::new();
        let first = order(&problem, &ties, &mut spent).expect("there are tapes");
        assert_eq!(first.marks.len(), 5);
        assert_eq!(first.marks[4], 4);
        assert_eq!(first.apart, Some(1000.0));
        let second = order(&problem, &ties, &mut spent).expect("two marks are left to start from");
        assert!(
            !second.marks[..2]
                .iter()
                .any(|mark| first.marks[..2].contains(mark))
        );
    }

    #[test]
    fn readings_tell_of_a_mark_once_all_its_others_are_down() {
        let problem = taped(&[(0, 1), (0, 2), (1, 2), (2, 3)]);
        let ties = Ties::of(&problem);
        let telling: Vec<usize> = ties.telling(2, &[true, true, false, false]).collect();
        assert_eq!(telling, [1, 2]);
    }

    #[test]
    fn nothing_to_start_from() {
        let problem = taped(&[]);
        assert!(order(&problem, &Ties::of(&problem), &mut Vec::new()).is_none());
    }
}
