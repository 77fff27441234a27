//! Two tapes from two marks, swung until they meet in the centre of the post at hand.

use super::site::Site;
use crate::drawing::bounds::Vec2;
use crate::drawing::model::{Label, LineStyle, Rank, Role, Target};
use crate::drawing::pencil::{Pencil, arc};
use crate::job::MarkId;
use crate::length::show;

/// Arc drawn to either side of the post, degrees and mm at the most.
const SWING: f64 = 8.0;
const WIDEST: f64 = 400.0;

pub(super) fn draw(site: &Site, pencil: &mut Pencil) {
    let (Some(run), Some(shown)) = (&site.show.run, site.show.post) else {
        return;
    };
    let Some(fix) = site.solution.runs.get(run) else {
        return;
    };
    let Some(post) = fix.posts.iter().find(|post| post.n == shown.n) else {
        return;
    };
    let at = site.place([post.x, post.y]);
    for (mark, length) in post.arcs.iter().flatten() {
        if let Some(from) = site.mark(mark) {
            swing(site, mark, [from, at], *length, pencil);
        }
    }
}

fn swing(site: &Site, mark: &MarkId, [from, to]: [Vec2; 2], length: f64, pencil: &mut Pencil) {
    let way = to - from;
    let target = Target::Mark(mark.clone());
    pencil
        .line(Role::AskedTape, LineStyle::Plain, from, to)
        .of(target.clone());
    let sweep = SWING.min((WIDEST / length.max(1.0)).to_degrees());
    let bearing = way.y.atan2(way.x).to_degrees();
    let points = arc(from, way.norm(), bearing - sweep, 2.0 * sweep);
    pencil.path(Role::AskedTape, LineStyle::Fine, points);
    let text = show(length, site.job.show.lengths);
    let label = Label::on((from + to) / 2.0, text, way, way.norm() / 2.0);
    pencil.label(Role::Text, label.rank(Rank::Now)).of(target);
}
