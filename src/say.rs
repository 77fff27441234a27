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
mod tests {
    use super::*;
    use crate::boards::{BayAt, PostFace};
    use crate::job::example;
    use crate::solve;

    #[test]
    fn a_post_is_called_before_its_figure() {
        let table = [
            (
                post(3, "", 1940.0, Unit::Mm),
                "post three, one nine four zero",
            ),
            (
                post(12, "", 673.0, Unit::M),
                "post twelve, zero point six seven three",
            ),
            (
                post(2, "", 3111.5, Unit::FEET),
                "post two, ten foot two and a half",
            ),
            (post(1, "", -38.4, Unit::Mm), "post one, back, three eight"),
            (post(1, "", -0.4, Unit::Mm), "post one, zero"),
            (
                post(5, "Front corner", 5219.0, Unit::Mm),
                "post five, front corner, five two one nine",
            ),
        ];
        for (said, words) in table {
            assert_eq!(said, words);
        }
    }

    fn bay(top: f64, rails: &[f64]) -> BayAt {
        BayAt {
            top,
            bottom: top - 150.0,
            rails: rails.to_vec(),
            gap: None,
            dig: None,
        }
    }

    /// A post of the example with its top at 1855 mm and these bays.
    fn standing(before: Option<BayAt>, after: Option<BayAt>) -> PostHeights {
        let post = &solve(&example()).boards["R1"].posts[2];
        PostHeights {
            n: 4,
            top: Some(1855.0),
            before,
            after,
            ..post.clone()
        }
    }

    fn from(edge: RailEdge) -> FromLaser<'static> {
        FromLaser {
            line: 1000.0,
            edge,
            above_centre: edge.above_centre(95.0),
            sides: ["towards the start", "towards the end"],
        }
    }

    #[test]
    fn a_height_is_said_which_way_how_far_and_for_what() {
        let same = || Some(bay(415.0, &[600.0, 1673.0]));
        let lower = Some(bay(395.0, &[600.0, 1673.0]));
        let top = "post four. up, eight five five, post top";
        let table = [
            (
                standing(same(), same()),
                RailEdge::Centre,
                ". up, six seven three, rail two centre. down, four zero zero, rail one centre. \
                 down, five eight five, board top",
            ),
            (
                standing(None, same()),
                RailEdge::Top,
                ". up, seven two one, rail two top. down, three five three, rail one top. \
                 down, five eight five, board top",
            ),
            (
                standing(same(), lower),
                RailEdge::Centre,
                ". up, six seven three, rail two centre. down, four zero zero, rail one centre. \
                 down, five eight five, board top, towards the start. \
                 down, six zero five, board top, towards the end",
            ),
            (
                standing(Some(bay(1000.2, &[])), None),
                RailEdge::Centre,
                ". on the line, board top",
            ),
        ];
        for (post, edge, words) in table {
            let said = heights(&post, &from(edge), Unit::Mm);
            assert_eq!(said, format!("{top}{words}"));
        }
    }

    #[test]
    fn marks_on_the_trestles_run_from_the_top() {
        let mark = |what, from, to, depth| AlongPost {
            what,
            from,
            to,
            depth,
            side: Some(PostFace::Front),
            half: None,
            bending: None,
            section: None,
        };
        let [rail, board, ground] = [
            mark(AlongWhat::Rail(2), 120.0, 215.0, Some(45.0)),
            mark(AlongWhat::Gravel, 1440.0, 1590.0, None),
            mark(AlongWhat::Ground, 1600.0, 1600.0, None),
        ];
        let sides = [
            ("Front, from the top".to_owned(), vec![&rail, &board]),
            ("Bolts and the ground".to_owned(), vec![&ground]),
        ];
        let said = along(&[2, 3, 4], &sides, &[(2, 2200.0)], Unit::Mm);
        let words = "posts two, three and four. front, from the top. rail two, one two zero to two one \
                     five, four five deep. gravel board, one four four zero to one five nine zero. bolts \
                     and the ground. ground, one six zero zero. post two, cut at two two zero zero";
        assert_eq!(said, words);
    }
}
