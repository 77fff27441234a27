//! One string: its nails off the wall, and how far the wall is bowed.

use super::nail::{along_wall, off_wall};
use super::strings;
use crate::app::adding::onward;
use crate::app::bridge::{Bridge, PagePicture, Screen, Spec};
use crate::app::desk::{Desk, Menu, Then, caution};
use crate::app::kit::{patched, row, silence, status};
use crate::app::names::along;
use crate::app::renaming;
use crate::cautions::{BOUNDARY, Caution, STRINGS};
use crate::drawing::Target;
use crate::job::edit::{Change, Edit, Thing};
use crate::job::model::{Line, Side, Station};
use crate::length;
use crate::site::LineFix;
use slint::Global;
use std::rc::Rc;
use tautmark_ui::{App, Page, Place, RowItem, Status, StringVm, Verdict};

/// Before a string says where a fence stands, and while it is stretched.
const CAUTIONS: [Caution; 2] = [BOUNDARY, STRINGS];

/// The page of one string.
pub struct OneString;

impl Screen for OneString {
    fn spec(&self) -> Spec {
        Spec::inside(Place::Lines, Page::Line, "line")
    }

    fn wire(&self, app: &App, bridge: &Rc<Bridge>) {
        let vm = StringVm::get(app);
        vm.on_more(bridge.does(more));
        vm.on_onward_pressed(bridge.does(onward::go));
        vm.on_caution_pressed(bridge.does(|desk| caution::open(desk, &CAUTIONS)));
        vm.on_nail_pressed(bridge.does_with(|desk, id| match id.parse() {
            Ok(nail) => about_nail(desk, nail),
            Err(_) => Then::Stay,
        }));
        vm.on_add_nail(bridge.does(add_nail));
        vm.on_turn_round(
            bridge.does(|desk| change_line(desk, |line| line.reverse = !line.reverse)),
        );
    }

    fn fill(&self, app: &App, desk: &Desk) -> bool {
        let vm = StringVm::get(app);
        let job = desk.job();
        let Some(line) = job.lines.get(desk.chosen.line) else {
            return false;
        };
        let unit = job.show.lengths;
        let turned = if line.reverse { ", reversed" } else { "" };
        vm.set_about(status(
            Verdict::None,
            &format!("**{}**, {}{turned}", line.called(), along(job, line)),
        ));
        vm.set_off_wall(line.wall.is_some());
        vm.set_onward(onward::said(desk).into());
        vm.set_caution(caution::line(&CAUTIONS));
        let fix = desk.solution.lines.get(&line.id);
        let bow = fix.and_then(|fix| fix.bow.as_ref());
        let nails = line.offsets.iter().flatten().enumerate().map(|(k, nail)| {
            let say =
                |mm: Option<f64>| mm.map_or_else(|| "—".to_owned(), |mm| length::show(mm, unit));
            let title = format!("{} along the wall", say(nail.at));
            let off_straight = bow
                .and_then(|bow| bow.get(k))
                .map_or_else(String::new, |by| {
                    format!(
                        "{} off the straight string",
                        length::signed_fine(*by, unit, 1)
                    )
                });
            let missing = nail.at.is_none() || nail.off.is_none();
            RowItem {
                verdict: if missing {
                    Verdict::Attention
                } else {
                    Verdict::None
                },
                ..row(&k.to_string(), &title, &off_straight, &say(nail.off), "off")
            }
        });
        vm.set_nails(patched(vm.get_nails(), nails.collect()));
        vm.set_bow(match line.offsets.as_deref() {
            Some([nail]) if nail.off.is_some() => status(
                Verdict::Note,
                "**One nail: taken as parallel to the wall.** Add a nail near the wall's other end to be sure of its direction.",
            ),
            _ => bow_status(fix, desk),
        });
        false
    }

    fn picture(&self, desk: &Desk) -> Option<PagePicture> {
        let line = desk.job().lines.get(desk.chosen.line);
        Some(strings(
            desk,
            line.map(|line| Target::Line(line.id.clone())),
        ))
    }
}

fn bow_status(fix: Option<&LineFix>, desk: &Desk) -> Status {
    let Some(bow) = fix.and_then(|fix| fix.bow.as_ref()) else {
        return silence();
    };
    let unit = desk.job().show.lengths;
    let most = bow.iter().fold(0.0f64, |most, by| most.max(by.abs()));
    let verdict = if most > desk.job().tolerance.length {
        Verdict::Attention
    } else {
        Verdict::Good
    };
    status(
        verdict,
        &format!(
            "The wall bows: the nails are up to **{}** off a straight string.",
            length::show_fine(most, unit, 1)
        ),
    )
}

/// Asks what to do with the string.
fn more(desk: &mut Desk) -> Then {
    let Some(line) = desk.saved().lines.get(desk.chosen.line) else {
        return Then::Stay;
    };
    let thing = Thing::Line(line.id.clone());
    if line.wall.is_none() {
        return renaming::about(desk, thing);
    }
    let menu = Menu::new(line.called())
        .row(
            "To the other side of the wall",
            "with the same nails",
            |desk| {
                change_line(desk, |line| {
                    line.side = Some(match line.side {
                        Some(Side::Right) => Side::Left,
                        _ => Side::Right,
                    });
                })
            },
        )
        .row("Rename or delete it", "", |desk| {
            renaming::about(desk, thing)
        });
    desk.offer(menu)
}

/// Changes the string in sight.
pub fn change_line(desk: &mut Desk, how: impl FnOnce(&mut Line)) -> Then {
    let at = desk.chosen.line;
    if let Some(mut value) = desk.saved().lines.get(at).cloned() {
        how(&mut value);
        desk.change(Edit::Line(Change::Replace { at, value }));
    }
    Then::Stay
}

fn add_nail(desk: &mut Desk) -> Then {
    let Some(line) = desk.saved().lines.get(desk.chosen.line) else {
        return Then::Stay;
    };
    let nail = line.offsets.as_ref().map_or(0, Vec::len);
    let off = line.offsets.as_ref().and_then(|nails| nails.last()?.off);
    change_line(desk, |line| {
        line.offsets.get_or_insert_default().push(Station {
            off,
            ..Station::default()
        });
    });
    desk.ask(along_wall(desk.chosen.line, nail))
}

fn about_nail(desk: &mut Desk, nail: usize) -> Then {
    let line = desk.chosen.line;
    let menu = Menu::new(format!("Nail {}", nail + 1))
        .row("How far off the wall", "", move |desk| {
            desk.ask(off_wall(line, nail))
        })
        .row("How far along the wall", "", move |desk| {
            desk.ask(along_wall(line, nail))
        })
        .row("Delete the nail", "", move |desk| {
            change_line(desk, |line| {
                if let Some(nails) = line.offsets.as_mut().filter(|nails| nail < nails.len()) {
                    nails.remove(nail);
                }
            })
        });
    desk.offer(menu)
}
