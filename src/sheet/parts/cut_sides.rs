//! The sides of posts that are marked and cut together, as rows of the sheet.

use crate::boards::{AlongPost, PostHeights, post_sides};

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
        let numbers: Vec<String> = posts.iter().map(|post| post.n.to_string()).collect();
        let sides = post_sides(posts).into_iter().enumerate();
        all.extend(sides.map(|(k, side)| MarkedSide {
            name: numbers.join(", "),
            side: side.side,
            first,
            posts: posts.clone(),
            marks: side.marks,
            leads: k == 0,
        }));
    }
    all
}
