//! Figures on an elevation: up and down from the laser line, posts, gates.

use super::built::Built;
use super::{ElevationShow, Figures};
use crate::drawing::bounds::Vec2;
use crate::drawing::model::{Label, Rank, Role, Target, WordsPlace};
use crate::drawing::pencil::Pencil;
use crate::drawing::words::from_laser;
use crate::length::show;

const UP: Vec2 = Vec2::new(0.0, 1.0);
const LEVEL: Vec2 = Vec2::new(1.0, 0.0);

pub(super) fn draw(built: &Built, show: &ElevationShow, pencil: &mut Pencil) {
    posts(built, show, pencil);
    bays(built, show, pencil);
    gates(built, pencil);
    laser(built, pencil);
}

fn posts(built: &Built, shown: &ElevationShow, pencil: &mut Pencil) {
    let last = built.fix.posts.len();
    for post in built.posts {
        let [foot, top] = built.post(post);
        let target = Target::Post {
            run: built.run.clone(),
            n: post.n,
        };
        let rank = if post.n == 1 || post.n == last {
            Rank::Kept
        } else if post.n.is_multiple_of(5) {
            Rank::Main
        } else {
            Rank::Usual
        };
        let at = Vec2::new(post.centre, foot);
        // Beside another post a number would mislead.
        let number = Label {
            place: WordsPlace::Toward {
                toward: -UP,
                clear: 0.0,
            },
            ..Label::near(at, post.n.to_string(), -UP, 0.0)
        };
        pencil
            .label(Role::Text, number.rank(rank))
            .of(target.clone());
        let known = built.boards.and_then(|boards| {
            let heights = boards.posts.iter().find(|one| one.n == post.n)?;
            heights.top
        });
        if let (Figures::All, Some((_, line)), Some(known)) = (shown.figures, &built.laser, known) {
            let text = from_laser(known, *line, built.job.show.lengths);
            let label = Label::near(Vec2::new(post.centre, top), text, UP, 0.0);
            let label = label.pointing(known, *line);
            pencil.label(Role::Text, label.rank(Rank::Usual)).of(target);
        }
    }
}

fn bays(built: &Built, shown: &ElevationShow, pencil: &mut Pencil) {
    let (Some((_, line)), Some(boards)) = (&built.laser, built.boards) else {
        return;
    };
    let unit = built.job.show.lengths;
    for bay in built.bays() {
        let middle = (bay.near + bay.far) / 2.0;
        let target = Target::Bay {
            run: built.run.clone(),
            from: bay.from,
        };
        let board = boards.gravel.iter().find(|board| board.from == bay.from);
        if let Some(top) = board.and_then(|board| board.top) {
            let text = from_laser(top, *line, unit);
            let at = Vec2::new(middle, (bay.top + bay.bottom) / 2.0);
            let label = Label::on(at, text, LEVEL, (bay.far - bay.near) / 2.0);
            let label = label.pointing(top, *line);
            pencil.label(Role::Text, label).of(target.clone());
        }
        let known = boards.rails.iter().find(|rails| rails.from == bay.from);
        if shown.figures == Figures::All
            && let Some(rails) = known
        {
            let edge = built.rail_edge();
            for &rail in &rails.heights {
                let marked = rail + edge;
                let text = from_laser(marked, *line, unit);
                let at = Vec2::new(middle, rail);
                let label = Label {
                    place: WordsPlace::Around {
                        toward: UP,
                        clear: built.rail_height() / 2.0,
                    },
                    ..Label::near(at, text, UP, 0.0)
                };
                pencil
                    .label(Role::Text, label.pointing(marked, *line).rank(Rank::Usual))
                    .of(target.clone());
            }
        }
    }
}

fn gates(built: &Built, pencil: &mut Pencil) {
    for gate in built.gates() {
        let at = Vec2::new((gate.near + gate.far) / 2.0, (gate.bottom + gate.top) / 2.0);
        let clear = show(gate.far - gate.near, built.job.show.lengths);
        let label = Label::on(at, format!("gate {clear}"), LEVEL, 0.0).small();
        pencil
            .label(Role::Text, label.rank(Rank::Usual))
            .of(Target::Gate {
                run: built.run.clone(),
                index: gate.index,
            });
    }
}

fn laser(built: &Built, pencil: &mut Pencil) {
    let Some((setup, line)) = &built.laser else {
        return;
    };
    let [left, right] = built.reach();
    let at = Vec2::new((left + right) / 2.0, *line);
    let label = Label {
        place: WordsPlace::Beside {
            along: LEVEL,
            out: UP,
            reach: (right - left) / 2.0,
        },
        ..Label::near(at, format!("laser line, set-up {setup}"), UP, 0.0)
    };
    pencil
        .label(Role::LaserLine, label.small().rank(Rank::Main))
        .of(Target::Setup(setup.clone()));
}
