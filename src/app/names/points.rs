//! What points, set-ups and their sights are called.

use super::things::run_called;
use crate::job::PointId;
use crate::job::model::{Job, Point};
use crate::length::{self, Unit};

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
}
