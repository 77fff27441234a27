//! A rail or a gravel board from above, with its long and its short edge and the cuts at its ends.
//!
//! ```text
//!          ┌────────────── 1 326 ───────────────╲  37.9° off square
//!          └──────────── 1 295 ──────────────────╲
//!   string ───────────────────────────────────────
//! ```

use super::bounds::Vec2;
use super::model::{Dimension, Drawing, Fill, Label, LineStyle, Rank, Role, Shape};
use super::pencil::Pencil;
use crate::boards::{Cut, LongPoint, WhichEnd};
use crate::job::Job;
use crate::length::show;

/// Its thickness is drawn as this share of its length at least: the cuts are what counts.
const THICK: f64 = 0.09;

/// One piece of the cut list, its front (towards the string) at the foot of the picture.
#[must_use]
pub fn cut_piece(job: &Job, cut: &Cut) -> Drawing {
    let length = cut.length.max(1.0);
    let thick = length * THICK;
    let unit = job.show.lengths;
    let mut pencil = Pencil::default();
    // Where the front and the back edge begin and end along the piece.
    let (mut front, mut back) = ([0.0, length], [0.0, length]);
    for end in &cut.ends {
        let edge = match end.long_point {
            LongPoint::Front => &mut back,
            LongPoint::Back => &mut front,
        };
        match end.end {
            WhichEnd::Start => edge[0] = end.long_to_short,
            WhichEnd::End => edge[1] = length - end.long_to_short,
        }
    }
    let at = Vec2::new;
    let outline = vec![
        at(front[0], 0.0),
        at(front[1], 0.0),
        at(back[1], thick),
        at(back[0], thick),
    ];
    pencil.area(Role::Rail, LineStyle::Plain, Fill::Plain, outline);
    for (edge, y, out) in [(front, 0.0, -1.0), (back, thick, 1.0)] {
        let span = edge[1] - edge[0];
        let alone = cut.ends.is_empty() && out < 0.0;
        if alone {
            continue;
        }
        pencil.add(
            Role::Dimension,
            Shape::Dimension(Dimension {
                from: at(edge[0], y),
                to: at(edge[1], y),
                out: at(0.0, out),
                clear: thick * 0.4,
                name: String::new(),
                text: show(span, unit),
                rank: Rank::Now,
            }),
        );
    }
    for end in &cut.ends {
        let x = match end.end {
            WhichEnd::Start => -thick * 0.3,
            WhichEnd::End => length + thick * 0.3,
        };
        let text = format!("{:.1}°", end.off_square);
        let way = at(if x < 0.0 { -1.0 } else { 1.0 }, 0.0);
        let label = Label::near(at(x, thick / 2.0), text, way, 0.0);
        pencil.label(Role::Text, label);
    }
    let string = [at(-thick, -thick * 1.6), at(length + thick, -thick * 1.6)];
    pencil.line(Role::String, LineStyle::Plain, string[0], string[1]);
    pencil.done(format!("A piece {} long, from above", show(length, unit)))
}
