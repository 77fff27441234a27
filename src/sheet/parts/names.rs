//! What things are called, and what a place in the file means.

use crate::job::reading::{Measure, Reading};
use crate::job::{Job, RunId, WallId, model, with_kind};

/// What a reading was of, such as `Tape A to C`.
pub fn reading(job: &Job, reading: &Reading) -> String {
    match &reading.what {
        Measure::Tape { from, to, .. } => format!("Tape {from} to {to}"),
        Measure::Offset { mark, wall: id, .. } => format!("{mark} square off {}", wall(job, id)),
        Measure::Inline {
            mark,
            with: [from, to],
            ..
        } => format!("{mark} on the string {from} to {to}"),
        Measure::Angle { from, at, to, .. } => format!("Angle {from}, {at}, {to}"),
        Measure::Other { kind } => format!("“{kind}”"),
    }
}

/// A wall's own name, or its short one.
pub fn wall(job: &Job, id: &WallId) -> String {
    let named = job.walls.iter().find(|wall| wall.id == *id);
    match named.filter(|wall| !wall.name.is_empty()) {
        Some(wall) => wall.name.clone(),
        None => with_kind("wall", id.as_str()),
    }
}

/// `String front`, with its own name where it has one.
pub fn line(line: &model::Line) -> String {
    let own = line.id.as_str();
    let own = own.strip_prefix("string ").unwrap_or(own);
    with_name(&format!("String {own}"), &line.name)
}

/// `Run R1`, with its own name where it has one.
pub fn run(job: &Job, id: &RunId) -> String {
    let named = job.runs.iter().find(|run| run.id == *id);
    with_name(
        &format!("Run {id}"),
        named.map_or("", |run| run.name.as_str()),
    )
}

fn with_name(short: &str, name: &str) -> String {
    if name.is_empty() {
        short.to_owned()
    } else {
        format!("{short}, {name}")
    }
}

/// A place in the file, such as `runs[0].gates[1].at`, in a person's words: `Run R1, gate 2, at`.
pub fn place(job: &Job, place: &str) -> String {
    let mut words: Vec<String> = Vec::new();
    let mut outer = Outer::default();
    for part in place.split('.') {
        let (key, at) = split(part);
        match at {
            Some(at) => words.push(entry(job, key, at, &mut outer)),
            None => words.extend(single(key)),
        }
    }
    super::super::phrase::sentence(&words.join(", "))
}

/// The lists that the place is inside of.
#[derive(Default)]
struct Outer {
    setup: Option<usize>,
}

/// `gates[1]` → `gates`, 1.
fn split(part: &str) -> (&str, Option<usize>) {
    let Some((key, rest)) = part.split_once('[') else {
        return (part, None);
    };
    let at = rest.strip_suffix(']').and_then(|at| at.parse().ok());
    (key, at)
}

fn entry(job: &Job, key: &str, at: usize, outer: &mut Outer) -> String {
    let called = |kind: &str, id: Option<&str>| match id {
        Some(id) if !id.is_empty() => with_kind(kind, id),
        _ => format!("{kind} {}", at + 1),
    };
    match key {
        "marks" => called("mark", job.marks.get(at).map(|one| one.id.as_str())),
        "walls" => called("wall", job.walls.get(at).map(|one| one.id.as_str())),
        "lines" => called("string", job.lines.get(at).map(|one| one.id.as_str())),
        "corners" => called("corner", job.corners.get(at).map(|one| one.id.as_str())),
        "runs" => called("run", job.runs.get(at).map(|one| one.id.as_str())),
        "readings" => match job.readings.get(at) {
            Some(one) => format!("reading {}, {}", at + 1, reading(job, one)),
            None => called("reading", None),
        },
        "points" => {
            let point = job.levels.points.get(at);
            called("point", point.map(|one| one.id.as_str()))
        }
        "setups" => {
            outer.setup = Some(at);
            let setup = job.levels.setups.get(at);
            called("set-up", setup.map(|one| one.id.as_str()))
        }
        "sights" => {
            let setup = outer.setup.and_then(|setup| job.levels.setups.get(setup));
            let sight = setup.and_then(|setup| setup.sights.get(at));
            match sight {
                Some(sight) => format!("sight of {}", sight.point),
                None => called("sight", None),
            }
        }
        "gates" => called("gate", None),
        "pins" => called("pinned post", None),
        "offsets" => called("nail", None),
        "marked" => called("post marked as done", None),
        key => called(key, None),
    }
}

/// A key that holds one thing; none where it only groups others.
fn single(key: &str) -> Option<String> {
    let words = match key {
        "" | "boards" | "levels" => return None,
        "drop" => "height difference",
        "at" => "where it is",
        "off" => "how far off",
        "clear" => "clear width",
        "max" => "longest bay",
        "dist" => "distance from the laser",
        "gravel" => "gravel board",
        "bays" => "bays",
        "post" => "post size",
        key => key,
    };
    Some(words.to_owned())
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::job::example;

    #[test]
    fn places_in_a_persons_words() {
        let job = example();
        for (at, words) in [
            ("runs[0].gates[0].clear", "Run R1, gate 1, clear width"),
            ("readings[3].length", "Reading 4, Tape A to C, length"),
            (
                "levels.setups[1].sights[0].down",
                "Set-up S2, sight of peg, down",
            ),
            ("marks[99]", "Mark 100"),
            ("boards.gravel.gap", "Gravel board, gap"),
            ("nonsense[x].y", "Nonsense, y"),
            ("", ""),
        ] {
            assert_eq!(place(&job, at), words, "{at}");
        }
    }

    #[test]
    fn a_thing_goes_by_its_own_name_where_it_has_one() {
        let mut job = example();
        assert_eq!(run(&job, &"R1".into()), "Run R1");
        job.runs[0].name = "along the lane".to_owned();
        assert_eq!(run(&job, &"R1".into()), "Run R1, along the lane");
        assert_eq!(wall(&job, &"shed".into()), "Potting shed front");
        assert_eq!(wall(&job, &"none".into()), "wall none");
    }
}
