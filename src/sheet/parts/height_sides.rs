//! The heights of a post, side by side where they differ.

use crate::boards::{HeightMark, MarkSide, PostHeights, UpOrDown};

/// The marks of each side that differ; one row where both sides are alike.
pub(super) fn sides(
    post: &PostHeights,
    is_first: bool,
    marks: &[HeightMark],
) -> Vec<(String, Vec<HeightMark>)> {
    let of = |side| {
        marks
            .iter()
            .filter(|mark| mark.side == side || mark.side == MarkSide::Both)
            .copied()
            .collect::<Vec<_>>()
    };
    // A corner post's other side belongs to the run round the corner.
    let (mut start, mut end) = ("to start".to_owned(), "to end".to_owned());
    if let Some(other) = &post.shared {
        let round = if is_first { &mut start } else { &mut end };
        *round = format!("run {other}");
    }
    let is_level = post.step.is_some_and(|step| step.abs() < 0.05);
    match (&post.before, &post.after) {
        (Some(_), Some(_)) if is_level => vec![("both".to_owned(), of(MarkSide::Before))],
        (Some(_), Some(_)) => vec![(start, of(MarkSide::Before)), (end, of(MarkSide::After))],
        (Some(_), None) => vec![(start, of(MarkSide::Before))],
        (None, Some(_)) => vec![(end, of(MarkSide::After))],
        (None, None) if marks.is_empty() => Vec::new(),
        (None, None) => vec![(String::new(), marks.to_vec())],
    }
}

/// From the laser line down to a mark, mm; less than 0 above it.
pub(super) fn down(mark: &HeightMark) -> f64 {
    match mark.way {
        UpOrDown::Up => -mark.by,
        UpOrDown::Down => mark.by,
    }
}
