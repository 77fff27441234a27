//! The sides of posts that are marked and cut together.

use super::{AlongPost, PostFace, PostHeights, WhichEnd};

/// One side of a group of posts, with its marks from the top down.
#[derive(Clone, Debug, PartialEq)]
pub struct PostSide<'a> {
    /// Which side: “both” where start and end are alike, “start”, “end”, “front” and its halves;
    /// empty for posts without marks on any.
    pub side: &'static str,
    /// What is marked there.
    pub marks: Vec<&'a AlongPost>,
}

/// The sides of a group of posts that differ: those of its first, which all share.
///
/// ```
/// use tautmark::boards::{cut_together, post_sides};
///
/// let solution = tautmark::solve(&tautmark::job::example());
/// let groups = cut_together(&solution.boards, &"R1".into());
/// let sides = post_sides(&groups[0]);
/// assert!(sides.iter().all(|side| !side.marks.is_empty()));
/// ```
#[must_use]
pub fn post_sides<'a>(posts: &[&'a PostHeights]) -> Vec<PostSide<'a>> {
    let Some(&first) = posts.first() else {
        return Vec::new();
    };
    let on = |face| -> Vec<&AlongPost> {
        let marks = first.along.iter();
        marks.filter(|mark| mark.side == Some(face)).collect()
    };
    let [start, end, front] = [PostFace::Start, PostFace::End, PostFace::Front].map(on);
    let same = |a: &[&AlongPost], b: &[&AlongPost]| {
        a.len() == b.len()
            && a.iter().zip(b).all(|(a, b)| {
                a.what == b.what && (a.from - b.from).abs() < 0.05 && a.depth == b.depth
            })
    };
    let mut sides: Vec<(&'static str, Vec<&AlongPost>)> = Vec::new();
    if !start.is_empty() && same(&start, &end) {
        sides.push(("both", start));
    } else {
        sides.extend([("start", start), ("end", end)]);
    }
    // Rails across the front at two heights each keep to their half of it.
    let of_half = |half| -> Vec<&AlongPost> {
        let marks = front.iter().copied();
        marks
            .filter(|mark| mark.half.is_none_or(|own| own == half))
            .collect()
    };
    if front.iter().any(|mark| mark.half.is_some()) {
        sides.push(("front, start half", of_half(WhichEnd::Start)));
        sides.push(("front, end half", of_half(WhichEnd::End)));
    } else {
        sides.push(("front", front));
    }
    sides.retain(|(_, marks)| !marks.is_empty());
    if sides.is_empty() {
        sides.push(("", Vec::new()));
    }
    let sides = sides.into_iter();
    sides
        .map(|(side, marks)| PostSide { side, marks })
        .collect()
}
