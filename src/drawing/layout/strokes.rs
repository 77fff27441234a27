//! Strokes, fillings, hatches and the signs that have their size from the eye.

use super::Stroke;
use super::board::{LayoutBoard, STRIKES};
use super::tile::Tile;
use crate::drawing::bounds::Vec2;
use crate::drawing::hand::Areas;
use crate::drawing::model::{DrawnItem, Fill, Hatched, LineStyle, Role, Shape};
use crate::drawing::pencil::turned;
use crate::drawing::tone::{Tone, filling, outline};
use crate::drawing::view::ViewPoint;

pub(super) fn draw(board: &mut LayoutBoard, index: usize, item: &DrawnItem) {
    let tone = outline(item.role, item.stress);
    match &item.shape {
        Shape::Path {
            points,
            closed,
            line,
            fill,
        } => {
            let points = points.iter().map(|&at| board.view.place(at)).collect();
            path(board, index, item, points, *closed, (*line, *fill));
        }
        Shape::Wall { from, to, hatched } => {
            let ends = [board.view.place(*from), board.view.place(*to)];
            wall(board, index, item, ends, *hatched);
        }
        Shape::Footprint {
            centre,
            width,
            depth,
            bearing,
        } => {
            let size = [*width, *depth];
            let scale = board.view.scale;
            let least = size[0].min(size[1]).max(1.0) * scale;
            let larger = (board.desk.hand.post / least).max(1.0);
            let corners = turned(*centre, size.map(|side| side * larger), *bearing);
            let points = corners.into_iter().map(|at| board.view.place(at)).collect();
            path(
                board,
                index,
                item,
                points,
                true,
                (LineStyle::Plain, Fill::Plain),
            );
        }
        Shape::Cross(at) => {
            let (at, arm) = (board.view.place(*at), board.desk.hand.cross);
            let width = board.desk.hand.line;
            for way in [Vec2::new(arm, 0.0), Vec2::new(0.0, arm)] {
                stroke(board, index, vec![at - way, at + way], (tone, width));
            }
            // Words may come close between the arms.
            board.keep_off(Tile::level(at, [arm, width]));
            board.keep_off(Tile::level(at, [width, arm]));
        }
        Shape::Ring { at, clear } => {
            let hand = board.desk.hand;
            let radius = (clear * board.view.scale + hand.gap).max(hand.ring);
            let at = board.view.place(*at);
            let points = (0..24).map(|i| {
                let (sine, cosine) = (f64::from(i) * std::f64::consts::TAU / 24.0).sin_cos();
                at + Vec2::new(cosine, sine) * radius
            });
            let ring = Stroke {
                points: points.collect(),
                closed: true,
                line: Some((Tone::String, hand.line)),
                dash: None,
                fill: None,
                item: index,
            };
            board.laid.strokes.push(ring);
            board.keep_off(Tile::level(at, [radius, radius]));
        }
        Shape::Dot(at) => {
            let (at, radius) = (board.view.place(*at), board.desk.hand.dot);
            let points = (0..12).map(|i| {
                let (sine, cosine) = (f64::from(i) * std::f64::consts::TAU / 12.0).sin_cos();
                at + Vec2::new(cosine, sine) * radius
            });
            let dot = Stroke {
                points: points.collect(),
                closed: true,
                line: None,
                dash: None,
                fill: Some(tone),
                item: index,
            };
            board.laid.strokes.push(dot);
            board.keep_off(Tile::level(at, [radius, radius]));
        }
        Shape::Dimension(_) | Shape::Row(_) | Shape::Label(_) => {}
    }
}

fn stroke(board: &mut LayoutBoard, item: usize, points: Vec<ViewPoint>, line: (Tone, f64)) {
    board.laid.strokes.push(Stroke {
        points,
        closed: false,
        line: Some(line),
        dash: None,
        fill: None,
        item,
    });
}

fn path(
    board: &mut LayoutBoard,
    index: usize,
    item: &DrawnItem,
    points: Vec<ViewPoint>,
    closed: bool,
    (line, fill): (LineStyle, Fill),
) {
    if matches!(item.role, Role::Post | Role::DonePost)
        && let Some(tile) = Tile::around(&points)
    {
        board.keep_off(tile.grown(board.desk.hand.line));
    }
    let cost = cost(item.role, line);
    let ends = points.iter().zip(points.iter().skip(1));
    for (&from, &to) in ends {
        board.avoid(from, to, cost);
    }
    if closed && let (Some(&last), Some(&first)) = (points.last(), points.first()) {
        board.avoid(last, first, cost);
    }
    let tone = outline(item.role, item.stress);
    let pen = board.desk.hand.pen(line);
    let filled = fill == Fill::Plain;
    board.laid.strokes.push(Stroke {
        points: points.clone(),
        closed,
        line: pen.map(|(width, _)| (tone, width)),
        dash: pen.and_then(|(_, dash)| dash),
        fill: filled.then(|| filling(item.role, item.stress)),
        item: index,
    });
    if filled && board.desk.hand.areas == Areas::Hatched {
        hatch_area(board, index, item.role, &points);
    }
}

/// How little words like to stand on a line: what is drawn heavily or in ink strikes them, what is fine
/// or dotted they may stand on with a patch.
fn cost(role: Role, line: LineStyle) -> f64 {
    match (role, line) {
        (_, LineStyle::None) => 0.0,
        (Role::Pale, _) => 0.05,
        (_, LineStyle::Plain | LineStyle::Thick | LineStyle::Dashed | LineStyle::HeavyDashed) => {
            STRIKES
        }
        (Role::GravelBoard, _) => 0.3,
        (Role::Rail, _) => 0.6,
        (Role::Hole, _) => 1.5,
        (_, LineStyle::Dotted | LineStyle::Hair) => 0.7,
        (_, LineStyle::Fine) => STRIKES,
    }
}

/// The face as a thick line, and behind it a hatched strip.
fn wall(
    board: &mut LayoutBoard,
    index: usize,
    item: &DrawnItem,
    ends: [ViewPoint; 2],
    hatched: Hatched,
) {
    let hand = *board.desk.hand;
    let [from, to] = ends;
    let tone = outline(item.role, item.stress);
    let along = (to - from).try_normalize(1e-9);
    // In the view y goes down: left of the direction is the other way round.
    let back = match (hatched, along) {
        (Hatched::Left, Some(along)) => Some(Vec2::new(along.y, -along.x)),
        (Hatched::Right, Some(along)) => Some(Vec2::new(-along.y, along.x)),
        _ => None,
    };
    if let (Some(back), Role::Wall) = (back, item.role) {
        let depth = hand.strip.min((to - from).norm() / 2.0);
        let strip = vec![from, to, to + back * depth, from + back * depth];
        board.laid.strokes.push(Stroke {
            points: strip.clone(),
            closed: true,
            line: None,
            dash: None,
            fill: Some(Tone::Wall),
            item: index,
        });
        for line in hatching(&strip, hand.hatch, back_slanted(back)) {
            stroke(board, index, line.to_vec(), (Tone::Hatch, hand.hair));
        }
        let far = [from + back * depth * 0.6, to + back * depth * 0.6];
        board.avoid(far[0], far[1], 1.0);
    }
    let (line, dash) = match item.role {
        Role::Sketch => (
            hand.line,
            hand.pen(LineStyle::Dashed).and_then(|(_, dash)| dash),
        ),
        _ => (hand.thick, None),
    };
    board.avoid(from, to, STRIKES);
    board.laid.strokes.push(Stroke {
        points: vec![from, to],
        closed: false,
        line: Some((tone, line)),
        dash,
        fill: None,
        item: index,
    });
}

/// Slanted by an eighth turn to a wall's back.
fn back_slanted(back: Vec2) -> Vec2 {
    let slanted = back + Vec2::new(-back.y, back.x);
    slanted / std::f64::consts::SQRT_2
}

fn hatch_area(board: &mut LayoutBoard, index: usize, role: Role, points: &[ViewPoint]) {
    let hand = *board.desk.hand;
    let half = std::f64::consts::FRAC_1_SQRT_2;
    let (spacing, way) = match role {
        Role::GravelBoard => (hand.hatch * 0.8, Vec2::new(half, -half)),
        Role::Ground => (hand.hatch * 2.5, Vec2::new(half, half)),
        _ => return,
    };
    for line in hatching(points, spacing, way) {
        stroke(board, index, line.to_vec(), (Tone::Hatch, hand.hair));
    }
}

/// Parallel lines in a direction across a closed area, `spacing` apart.
fn hatching(area: &[ViewPoint], spacing: f64, way: Vec2) -> Vec<[ViewPoint; 2]> {
    /// More lines than this say no more.
    const MOST: f64 = 2000.0;
    let across = Vec2::new(-way.y, way.x);
    let off = |at: &ViewPoint| at.dot(&across);
    let low = area.iter().map(off).fold(f64::INFINITY, f64::min);
    let high = area.iter().map(off).fold(f64::NEG_INFINITY, f64::max);
    let mut lines = Vec::new();
    let count = (high - low) / spacing;
    if !count.is_finite() || !(0.0..MOST).contains(&count) {
        return lines;
    }
    let mut at = (low / spacing).floor() * spacing + spacing / 2.0;
    while at < high {
        let mut cuts = cuts(area, across, way, at);
        cuts.sort_by(f64::total_cmp);
        let pairs = cuts.chunks_exact(2);
        lines.extend(pairs.map(|pair| [0, 1].map(|end| way * pair[end] + across * at)));
        at += spacing;
    }
    lines
}

/// Where the line at `at` across cuts the edges of an area, along `way`.
fn cuts(area: &[ViewPoint], across: Vec2, way: Vec2, at: f64) -> Vec<f64> {
    let next = area.iter().cycle().skip(1);
    let edges = area.iter().zip(next);
    let cut = |(from, to): (&ViewPoint, &ViewPoint)| {
        let (a, b) = (from.dot(&across) - at, to.dot(&across) - at);
        ((a > 0.0) != (b > 0.0)).then(|| {
            let share = a / (a - b);
            from.dot(&way) + share * (to - from).dot(&way)
        })
    };
    edges.filter_map(cut).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_square_is_hatched_from_edge_to_edge() {
        let square = [[0.0, 0.0], [10.0, 0.0], [10.0, 10.0], [0.0, 10.0]].map(Vec2::from);
        let lines = hatching(&square, 2.0, Vec2::new(1.0, 0.0));
        assert_eq!(lines.len(), 5);
        assert!(lines.iter().all(|[from, to]| from.x == 0.0 && to.x == 10.0));
    }
}
