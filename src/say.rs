//! What is read aloud while hands are full: a post's figure, its heights, its marks on the trestles, from
//! values to words.
//!
//! ```text
//!   3, 1 940 mm         ──▶  post three, one nine four zero
//!   ▲ 673 centre        ──▶  up, six seven three, rail two centre
//!   rail 2, 120 to 215  ──▶  rail two, one two zero to two one five
//! ```
//!
//! A figure stands before what it is of or after it as the hand needs it: which way first, then how far,
//! then what for. No ± is said. Lengths are mm; how one is called is [`spoken`]. A device's voice says
//! the words: `app::device::Voice`.
//!
//! ```
//! use tautmark::length::Unit;
//! use tautmark::say;
//! assert_eq!(say::post(3, "", 1940.0, Unit::Mm), "post three, one nine four zero");
//! assert_eq!(say::post(1, "centre", -40.0, Unit::Mm), "post one, centre, back, four zero");
//! ```

use crate::boards::{
    AlongPost, AlongWhat, MarkSide, MarkedThing, PostHeights, UpOrDown, height_marks,
};
use crate::job::model::RailEdge;
use crate::length::{Unit, number_spoken, rounded, spoken};
use crate::listed::and;

/// The figure of post `n`, from 1: the running reading (mm) of the face that is named, or of the usual one
/// where none is. A reading below zero is taped back from the run's zero.
///
/// ```
/// use tautmark::length::Unit;
/// use tautmark::say;
/// assert_eq!(say::post(4, "", 3590.0, Unit::M), "post four, three point five nine");
/// ```
#[must_use]
pub fn post(n: usize, face: &str, reading: f64, unit: Unit) -> String {
    let mut parts = vec![posts(&[n])];
    if !face.is_empty() {
        parts.push(face.to_lowercase());
    }
    if rounded(reading, unit, 0) < 0.0 {
        parts.push("back".to_owned());
    }
    parts.push(spoken(reading, unit));
    parts.join(", ")
}

/// Where the heights of a post are measured from, and how its two sides are called.
pub struct FromLaser<'a> {
    /// Height of the laser line, mm.
    pub line: f64,
    /// What of a rail its heights are of.
    pub edge: RailEdge,
    /// From a rail's centre up to that, mm.
    pub above_centre: f64,
    /// “towards the start” and “towards the end”, said only where the two differ.
    pub sides: [&'a str; 2],
}

/// Everything that is marked on a post from the laser line, the top first.
///
/// ```
/// use tautmark::length::Unit;
/// use tautmark::say::{FromLaser, heights};
///
/// let job = tautmark::job::example();
/// let solution = tautmark::solve(&job);
/// let from = FromLaser {
///     line: solution.levels.as_ref().map_or(0.0, |levels| levels.setups["S1"].line),
///     edge: job.show.rail,
///     above_centre: 0.0,
///     sides: ["towards the start", "towards the end"],
/// };
/// let words = heights(&solution.boards["R1"].posts[2], &from, Unit::Mm);
/// assert!(words.starts_with("post three. up, "), "{words}");
/// ```
#[must_use]
pub fn heights(post: &PostHeights, from: &FromLaser<'_>, unit: Unit) -> String {
    let marks = height_marks(post, from.line);
    let mut said = vec![posts(&[post.n])];
    let mut done: Vec<MarkedThing> = Vec::new();
    for mark in &marks {
        if done.contains(&mark.what) {
            continue;
        }
        done.push(mark.what);
        let same = marks.iter().filter(|one| one.what == mark.what);
        let each: Vec<(MarkSide, String)> = same
            .map(|one| {
                let up = match one.way {
                    UpOrDown::Up => one.by,
                    UpOrDown::Down => -one.by,
                };
                (one.side, height(one.what, up, from, unit))
            })
            .collect();
        if each.windows(2).all(|two| two[0].1 == two[1].1) {
            said.extend(each.into_iter().map(|(_, words)| words).next());
            continue;
        }
        let [before, after] = from.sides;
        said.extend(each.into_iter().map(|(side, words)| match side {
            MarkSide::Both => words,
            MarkSide::Before => format!("{words}, {before}"),
            MarkSide::After => format!("{words}, {after}"),
        }));
    }
    said.join(". ")
}

/// “up, six seven three, rail two centre”; `up` is mm above the laser line, of a rail its centre.
fn height(what: MarkedThing, up: f64, from: &FromLaser<'_>, unit: Unit) -> String {
    let (name, up) = match what {
        MarkedThing::Top => ("post top".to_owned(), up),
        MarkedThing::Gravel => ("board top".to_owned(), up),
        MarkedThing::Rail(n) => (
            format!("{} {}", rail(n), from.edge.name()),
            up + from.above_centre,
        ),
    };
    let shown = rounded(up, unit, 0);
    if shown == 0.0 {
        return format!("on the line, {name}");
    }
    let way = if shown < 0.0 { "down" } else { "up" };
    format!("{way}, {}, {name}", spoken(up, unit))
}

/// The marks of posts that lie clamped together on the trestles, mm from their tops: what is on each side
/// under its name, and where each is cut off, by its number.
///
/// ```
/// use tautmark::length::Unit;
/// use tautmark::say::along;
/// let words = along(&[2, 3], &[], &[(2, 2310.0), (3, 2345.0)], Unit::Mm);
/// let cut = "post two, cut at two three one zero. post three, cut at two three four five";
/// assert_eq!(words, format!("posts two and three. {cut}"));
/// ```
#[must_use]
pub fn along(
    numbers: &[usize],
    sides: &[(String, Vec<&AlongPost>)],
    cuts: &[(usize, f64)],
    unit: Unit,
) -> String {
    let mut said = vec![posts(numbers)];
    for (name, marks) in sides {
        said.push(name.to_lowercase());
        said.extend(marks.iter().map(|one| mark(one, unit)));
    }
    said.extend(
        cuts.iter()
            .map(|&(n, length)| format!("{}, cut at {}", posts(&[n]), spoken(length, unit))),
    );
    said.join(". ")
}

/// “rail two, one two zero to two one five, four five deep”.
fn mark(mark: &AlongPost, unit: Unit) -> String {
    let name = match mark.what {
        AlongWhat::Rail(n) => rail(n),
        AlongWhat::Bolt(n) => format!("bolt {}", number_spoken(n as u64)),
        AlongWhat::Gravel | AlongWhat::Ground => mark.what.to_string(),
    };
    let [from, to] = [mark.from, mark.to].map(|at| spoken(at, unit));
    let mut words = format!("{name}, {from}");
    if to != from {
        words.push_str(&format!(" to {to}"));
    }
    if let Some(depth) = mark.depth {
        words.push_str(&format!(", {} deep", spoken(depth, unit)));
    }
    words
}

fn rail(n: usize) -> String {
    format!("rail {}", number_spoken(n as u64))
}

fn posts(numbers: &[usize]) -> String {
    let words: Vec<String> = numbers.iter().map(|&n| number_spoken(n as u64)).collect();
    let name = if numbers.len() == 1 { "post" } else { "posts" };
    format!("{name} {}", and(&words))
}

#[cfg(test)]
mod tests;
