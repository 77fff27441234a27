//! In which order to put a site together, so that each mark is as well tied as may be to those
//! already down.

use super::equation::{At, Equation};
use super::problem::Problem;
use super::reading::Form;

/// Which readings each mark is in.
pub(super) struct Ties {
    pub marks: Vec<At>,
    /// For each reading the places of its marks.
    of_reading: Lists,
    of_mark: Lists,
}

/// Lists one behind the other.
struct Lists {
    start: Vec<usize>,
    items: Vec<usize>,
}

impl Lists {
    fn of(&self, nth: usize) -> &[usize] {
        &self.items[self.start[nth]..self.start[nth + 1]]
    }

    fn len(&self) -> usize {
        self.start.len() - 1
    }

    fn iter(&self) -> impl Iterator<Item = &[usize]> {
        (0..self.len()).map(|nth| self.of(nth))
    }

    /// For each of `count` items the lists that it is in.
    fn turned_round(&self, count: usize) -> Self {
        let mut start = vec![0; count + 1];
        for &item in &self.items {
            start[item + 1] += 1;
        }
        for item in 0..count {
            start[item + 1] += start[item];
        }
        let mut next = start.clone();
        let mut items = vec![0; self.items.len()];
        for (nth, list) in self.iter().enumerate() {
            for &item in list {
                items[next[item]] = nth;
                next[item] += 1;
            }
        }
        Self { start, items }
    }
}

impl Ties {
    pub fn of(problem: &Problem) -> Self {
        let marks = problem.marks();
        let mut of_reading = Lists {
            start: Vec::with_capacity(problem.readings.len() + 1),
            items: Vec::with_capacity(3 * problem.readings.len()),
        };
        of_reading.start.push(0);
        for reading in &problem.readings {
            let its = reading.form.marks();
            let places = its.filter_map(|mark| marks.binary_search(&mark).ok());
            of_reading.items.extend(places);
            of_reading.start.push(of_reading.items.len());
        }
        Self {
            of_mark: of_reading.turned_round(marks.len()),
            of_reading,
            marks,
        }
    }

    /// Every mark that is free to move in the plane, with its readings.
    pub fn free<'a>(&'a self, problem: &'a Problem) -> impl Iterator<Item = (At, &'a [usize])> {
        let is_free = |mark: &At| {
            [mark.x, mark.y]
                .iter()
                .all(|param| problem.slot(param.0).is_some())
        };
        let all = self.marks.iter().copied().zip(self.of_mark.iter());
        all.filter(move |(mark, _)| is_free(mark))
    }

    /// The readings of a mark whose other marks are down.
    pub fn telling<'a>(
        &'a self,
        mark: usize,
        down: &'a [bool],
    ) -> impl Iterator<Item = usize> + 'a {
        let others_down = move |index: &&usize| {
            let its = self.of_reading.of(**index);
            its.iter()
                .filter(|&&other| !down[other])
                .all(|&other| other == mark)
        };
        self.of_mark.of(mark).iter().filter(others_down).copied()
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
pub(super) fn order(problem: &Problem, ties: &Ties, spent: &mut Vec<usize>) -> Option<Order> {
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
        .filter_map(|(reading, its)| match (reading.form, its) {
            (Form::Plane(Equation::Distance { .. }), &[a, b]) if a != b && reading.value > 0.0 => {
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
        for &index in ties.of_mark.of(mark) {
            let mut up = ties
                .of_reading
                .of(index)
                .iter()
                .filter(|&&other| !down[other]);
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
    use crate::adjust::reading::Reading;

    fn taped(pairs: &[(usize, usize)]) -> Problem {
        let tape = |&(from, to): &(usize, usize)| Reading {
            form: Form::Plane(Equation::Distance {
                from: At::nth(from),
                to: At::nth(to),
            }),
            value: 1000.0,
            sd: 1.0,
        };
        Problem::new(
            &[0.0; 10],
            &[true, true, false, true],
            pairs.iter().map(tape).collect(),
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
