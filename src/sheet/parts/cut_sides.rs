//! The sides of posts that are marked and cut together.

use crate::boards::{AlongPost, PostFace, PostHeights, WhichEnd};

/// One side of one group of posts.
pub struct MarkedSide<'a> {
    /// The numbers of its posts.
    pub name: String,
    /// Which side; empty for posts without marks on any.
    pub side: &'static str,
    pub first: &'a PostHeights,
    pub posts: Vec<&'a PostHeights>,
    pub marks: Vec<&'a AlongPost>,
    /// The first of its group's sides.
    pub leads: bool,
}

/// The sides of each group that differ.
pub fn sides<'a>(groups: &[Vec<&'a PostHeights>]) -> Vec<MarkedSide<'a>> {
    let mut all = Vec::new();
    for posts in groups {
        let Some(&first) = posts.first() else {
            continue;
        };
        let on = |face| -> Vec<&AlongPost> {
            let marks = first.along.iter();
            marks.filter(|mark| mark.side == Some(face)).collect()
        };
        let [start, end, front] = [PostFace::Start, PostFace::End, PostFace::Front].map(on);
        let numbers: Vec<String> = posts.iter().map(|post| post.n.to_string()).collect();
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
        for (k, (side, marks)) in sides.into_iter().enumerate() {
            all.push(MarkedSide {
                name: numbers.join(", "),
                side,
                first,
                posts: posts.clone(),
                marks,
                leads: k == 0,
            });
        }
    }
    all
}
