//! Posts as they stand, their holes, and gates between them. Each post once: a corner post belongs
//! to the run at hand, or else to the first run that has it.

use super::Detail;
use super::site::Site;
use crate::drawing::bounds::Vec2;
use crate::drawing::model::{Fill, Label, LineStyle, Rank, Role, Shape, Target, WordsPlace};
use crate::drawing::pencil::{Pencil, circle, left_of};
use crate::job::RunId;
use crate::job::model::Foot;
use crate::setout::{GateFix, Post, PostKind, RunFix};

/// Closer than this two posts are one, mm.
const SAME: f64 = 1.0;

pub(super) fn draw(site: &Site, pencil: &mut Pencil) {
    let mut drawn: Vec<Vec2> = Vec::new();
    for (run, fix) in site.runs() {
        for gate in &fix.gates {
            draw_gate(site, run, fix, gate, pencil);
        }
        for post in &fix.posts {
            let at = site.place([post.x, post.y]);
            if drawn.iter().all(|other| (other - at).norm() > SAME) {
                drawn.push(at);
                let other = same_post(site, run, at);
                draw_post(site, run, fix, post, other, pencil);
            }
        }
    }
}

/// The number in another run of the post that stands there, where a corner post has two.
fn same_post(site: &Site, run: &RunId, at: Vec2) -> Option<usize> {
    let others = site.solution.runs.iter().filter(|(id, _)| *id != run);
    let mut posts = others.flat_map(|(_, fix)| &fix.posts);
    let same = |post: &&Post| (site.place([post.x, post.y]) - at).norm() <= SAME;
    posts.find(same).map(|post| post.n)
}

fn draw_post(
    site: &Site,
    run: &RunId,
    fix: &RunFix,
    post: &Post,
    other: Option<usize>,
    pencil: &mut Pencil,
) {
    let at = site.place([post.x, post.y]);
    let target = Target::Post {
        run: run.clone(),
        n: post.n,
    };
    if site.show.detail == Detail::Sheet && post.foot == Foot::Hole {
        let hole = circle(at, site.job.hole.diameter.max(0.0) / 2.0);
        pencil
            .area(Role::Hole, LineStyle::Fine, Fill::None, hole)
            .of(target.clone());
    }
    let done = site
        .job
        .marked
        .iter()
        .any(|one| one.run == *run && one.post as usize == post.n && one.done);
    let role = if done { Role::DonePost } else { Role::Post };
    let at_hand = site.show.run.as_ref() == Some(run)
        && site.show.post.is_some_and(|shown| shown.n == post.n);
    let chosen = at_hand || site.is_chosen(&target);
    let footprint = Shape::Footprint {
        centre: at,
        width: post.size[0],
        depth: post.size[1],
        bearing: post.rotation + site.turn,
    };
    pencil
        .add(role, footprint)
        .of(target.clone())
        .chosen_if(chosen);
    let clear = post.size[0].hypot(post.size[1]) / 2.0;
    if at_hand {
        pencil
            .add(role, Shape::Ring { at, clear })
            .of(target.clone())
            .chosen_if(true);
    }
    let numbered = match &site.show.run {
        Some(chosen) => chosen == run && site.show.post.is_none(),
        None => site.show.detail == Detail::Sheet || site.solution.runs.len() == 1,
    };
    if numbered && site.show.detail != Detail::Small {
        let label = number(site, fix, post, at, clear, other);
        pencil.label(role, label).of(target).chosen_if(chosen);
    }
}

/// On a screen beyond the string; on the sheet behind it, where no running reading stands.
fn number(
    site: &Site,
    fix: &RunFix,
    post: &Post,
    at: Vec2,
    clear: f64,
    other: Option<usize>,
) -> Label {
    let string = string_side(site, fix, post);
    let (toward, clear) = match site.show.detail {
        Detail::Sheet => (-string, clear.max(site.job.hole.diameter / 2.0)),
        _ => (string, clear.max(post.off.abs())),
    };
    let ends = post.n == 1 || post.n == fix.posts.len();
    let rank = match post.kind {
        PostKind::Line if ends => Rank::Kept,
        PostKind::Line if post.n.is_multiple_of(5) => Rank::Usual,
        PostKind::Line => Rank::Many,
        _ => Rank::Kept,
    };
    let text = match other.filter(|_| site.show.detail == Detail::Sheet) {
        Some(other) => format!("{} · {other}", post.n),
        None => post.n.to_string(),
    };
    Label {
        place: WordsPlace::Toward { toward, clear },
        ..Label::near(at, text, toward, clear).rank(rank)
    }
}

/// Unit vector from a post towards the run's string.
pub(super) fn string_side(site: &Site, fix: &RunFix, post: &Post) -> Vec2 {
    let track = site.track(fix);
    let off = track.off(site.place([post.x, post.y]));
    left_of(track.along) * if off > 0.0 { -1.0 } else { 1.0 }
}

fn draw_gate(site: &Site, run: &RunId, fix: &RunFix, gate: &GateFix, pencil: &mut Pencil) {
    let Some(post) = fix.posts.iter().find(|post| post.n == gate.from) else {
        return;
    };
    let track = site.track(fix);
    let off = track.off(site.place([post.x, post.y]));
    let ends = [track.at(gate.near, off), track.at(gate.far, off)];
    let target = Target::Gate {
        run: run.clone(),
        index: gate.index,
    };
    let chosen = site.is_chosen(&target);
    pencil
        .line(Role::Gate, LineStyle::Fine, ends[0], ends[1])
        .of(target.clone())
        .chosen_if(chosen);
    if site.show.detail == Detail::Screen {
        let out = -string_side(site, fix, post);
        let label = Label {
            place: WordsPlace::Beside {
                along: track.along,
                out,
                reach: (gate.far - gate.near) / 2.0,
            },
            ..Label::near((ends[0] + ends[1]) / 2.0, "gate", out, 0.0)
        };
        pencil
            .label(Role::Quiet, label.small().rank(Rank::Extra))
            .of(target);
    }
}
