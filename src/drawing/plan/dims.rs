//! Figures on the plan: the running reading to the post at hand; on the sheet every running
//! reading, walls, gates and corners.

use super::posts::string_side;
use super::site::Site;
use super::{Detail, Face, PostShow, Seen};
use crate::drawing::bounds::Vec2;
use crate::drawing::model::{
    Dimension, Hatched, Label, Rank, Role, Row, RowFigure, Shape, Target, WordsPlace,
};
use crate::drawing::pencil::{Pencil, left_of};
use crate::job::RunId;
use crate::length::show;
use crate::setout::{Post, RunFix};
use crate::site::Ray;

pub(super) fn draw(site: &Site, pencil: &mut Pencil) {
    if let (Some(run), Some(shown)) = (&site.show.run, site.show.post) {
        to_post(site, run, shown, pencil);
    }
    if site.show.detail != Detail::Sheet {
        return;
    }
    if site.show.posts == Seen::Shown {
        for (run, fix) in site.runs() {
            running(site, run, fix, pencil);
            gates(site, run, fix, pencil);
            name(site, run, fix, pencil);
        }
    }
    walls(site, pencil);
    corners(site, pencil);
}

/// The running reading of the chosen part of a post, mm.
fn reading(post: &Post, face: Face) -> f64 {
    match face {
        Face::Near => post.near,
        Face::Centre => post.centre,
        Face::Far => post.far,
    }
}

fn to_post(site: &Site, run: &RunId, shown: PostShow, pencil: &mut Pencil) {
    let Some(fix) = site.solution.runs.get(run) else {
        return;
    };
    let Some(post) = fix.posts.iter().find(|post| post.n == shown.n) else {
        return;
    };
    let track = site.track(fix);
    let to = reading(post, shown.face);
    let dimension = Dimension {
        from: track.at(0.0, 0.0),
        to: track.at(to, 0.0),
        out: string_side(site, fix, post),
        clear: 0.0,
        name: String::new(),
        text: show(to, site.job.show.lengths),
        rank: Rank::Now,
    };
    let target = Target::Post {
        run: run.clone(),
        n: post.n,
    };
    pencil
        .add(Role::Dimension, Shape::Dimension(dimension))
        .of(target);
}

/// Running readings of the centres, in front of the string.
fn running(site: &Site, run: &RunId, fix: &RunFix, pencil: &mut Pencil) {
    let track = site.track(fix);
    let Some(out) = fix.posts.first().map(|post| string_side(site, fix, post)) else {
        return;
    };
    let hole = site.job.hole.diameter.max(0.0) / 2.0;
    let depth = fix.posts.iter().map(|post| post.off.abs() + hole);
    let figure = |post: &Post| RowFigure {
        at: track.at(post.centre, 0.0),
        text: show(post.centre, site.job.show.lengths),
        of: Some(Target::Post {
            run: run.clone(),
            n: post.n,
        }),
    };
    let row = Row {
        along: track.along,
        out,
        clear: hole.max(80.0),
        clear_back: depth.fold(0.0, f64::max),
        level: false,
        figures: fix.posts.iter().map(figure).collect(),
    };
    pencil.add(Role::Dimension, Shape::Row(row));
}

/// The run's name and length, behind its posts.
fn name(site: &Site, run: &RunId, fix: &RunFix, pencil: &mut Pencil) {
    let Some(post) = fix.posts.first() else {
        return;
    };
    let track = site.track(fix);
    let named = site.job.runs.iter().find(|one| one.id == *run);
    let name = named.map_or("", |one| one.name.as_str());
    let length = show(fix.length, site.job.show.lengths);
    let out = -string_side(site, fix, post);
    let off = post.off.abs() + site.job.hole.diameter / 2.0;
    let at = track.at(fix.length / 2.0, 0.0) + out * off;
    let text = if name.is_empty() {
        format!("run {run}: {length} long")
    } else {
        format!("run {run}, {name}: {length} long")
    };
    let label = Label {
        place: WordsPlace::Beside {
            along: track.along,
            out,
            reach: fix.length / 2.0,
        },
        ..Label::near(at, text, out, 0.0)
    };
    pencil.label(Role::Quiet, label.small().rank(Rank::Usual));
}

/// The clear openings, behind the posts.
fn gates(site: &Site, run: &RunId, fix: &RunFix, pencil: &mut Pencil) {
    let track = site.track(fix);
    for gate in &fix.gates {
        let Some(post) = fix.posts.iter().find(|post| post.n == gate.from) else {
            continue;
        };
        let off = track.off(site.place([post.x, post.y]));
        let clear = gate.far - gate.near;
        let dimension = Dimension {
            from: track.at(gate.near, off),
            to: track.at(gate.far, off),
            out: -string_side(site, fix, post),
            clear: (site.job.hole.diameter / 2.0).max(post.size[1]),
            name: String::new(),
            text: format!("gate {}", show(clear, site.job.show.lengths)),
            rank: Rank::Main,
        };
        pencil
            .add(Role::Dimension, Shape::Dimension(dimension))
            .of(Target::Gate {
                run: run.clone(),
                index: gate.index,
            });
    }
}

/// Walls that do not move, on their hatched side.
fn walls(site: &Site, pencil: &mut Pencil) {
    for wall in &site.job.walls {
        let ends = [&wall.from, &wall.to].map(|id| {
            let fix = site.solution.marks.get(id)?;
            Some(site.place([fix.x, fix.y]))
        });
        let [Some(from), Some(to)] = ends else {
            continue;
        };
        let Some(ray) = Ray::between(from, to) else {
            continue;
        };
        let out = left_of(ray.along)
            * match super::walls::hatched(site, wall, &ray) {
                Hatched::Right => -1.0,
                Hatched::Left | Hatched::Neither => 1.0,
            };
        let dimension = Dimension {
            from,
            to,
            out,
            clear: 0.0,
            name: wall.called().to_owned(),
            text: show((to - from).norm(), site.job.show.lengths),
            rank: Rank::Usual,
        };
        pencil
            .add(Role::Dimension, Shape::Dimension(dimension))
            .of(Target::Wall(wall.id.clone()));
    }
}

fn corners(site: &Site, pencil: &mut Pencil) {
    for (id, fix) in &site.solution.corners {
        let at = site.place([fix.x, fix.y]);
        let text = format!("{:.1}°", fix.angle);
        let away = (at - site.middle())
            .try_normalize(1e-6)
            .unwrap_or(Vec2::new(0.0, -1.0));
        let label = Label::near(at, text, away, 60.0).rank(Rank::Usual);
        pencil
            .label(Role::Text, label)
            .of(Target::Corner(id.clone()));
    }
}
