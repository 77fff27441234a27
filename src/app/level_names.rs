//! What points, set-ups and their sights are called.

use super::run_names::run_name;
use crate::job::model::{Job, Point};
use crate::job::{PointId, RunId};
use crate::length::{self, Unit};

/// A run by its id: “Front run”; the id alone where there is no such run.
#[must_use]
pub fn run_called(job: &Job, id: &RunId) -> String {
    let run = job.runs.iter().find(|run| run.id == *id);
    run.map_or_else(|| id.to_string(), run_name)
}

/// Where a point is: “ground at 1 800 on Front run”, “mark A”; empty where only its name says so.
#[must_use]
pub fn place_of(job: &Job, point: &Point) -> String {
    if let (Some(run), Some(at)) = (&point.run, point.at) {
        let at = length::show(at, job.show.lengths);
        return format!("ground at {at} on {}", run_called(job, run));
    }
    let mark = point.mark.as_ref();
    mark.map(|id| format!("mark {id}")).unwrap_or_default()
}

/// The same for a point by its id.
#[must_use]
pub fn point_place(job: &Job, id: &PointId) -> String {
    let point = job.levels.points.iter().find(|point| point.id == *id);
    point.map(|point| place_of(job, point)).unwrap_or_default()
}

/// A sight as it is said on site: “413 down”, “180 up”.
#[must_use]
pub fn said_down(down: f64, unit: Unit) -> String {
    let way = if down < 0.0 { "up" } else { "down" };
    format!("{} {way}", length::show(down.abs(), unit))
}

/// The first of `stem`1, `stem`2, … that nothing is called yet.
#[must_use]
pub fn free_name<'a>(stem: &str, taken: impl Iterator<Item = &'a str> + Clone) -> String {
    let mut number = 1_usize;
    loop {
        let name = format!("{stem}{number}");
        if !taken.clone().any(|other| other == name) {
            return name;
        }
        number += 1;
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::job::example;

    #[test]
    fn points_are_called_by_where_they_are() {
        let job = example();
        assert_eq!(point_place(&job, &"nail".into()), "mark A");
        let ground = "ground at 1\u{a0}800 on Run R1";
        assert_eq!(point_place(&job, &"g2".into()), ground);
        assert_eq!(point_place(&job, &"peg".into()), "");
    }

    #[test]
    fn up_and_down_are_words() {
        assert_eq!(said_down(413.0, Unit::Mm), "413 down");
        assert_eq!(said_down(-180.0, Unit::Mm), "180 up");
    }

    #[test]
    fn a_free_name_is_the_first_number_not_taken() {
        let taken = ["S1", "S2", "S4"];
        assert_eq!(free_name("S", taken.into_iter()), "S3");
        assert_eq!(free_name("g", [].into_iter()), "g1");
    }
}
