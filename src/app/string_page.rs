//! One string: its nails off the wall, and how far the wall is bowed.

use super::lines::along;
use super::menu::choice;
use super::nail_figure::{NailFigure, NailPart};
use super::rows::patched;
use super::words::{row, silence, status};
use super::{Bridge, Desk, Menu, Then, naming};
use crate::job::edit::{Change, Edit, Thing};
use crate::job::model::{Line, Side, Station};
use crate::length;
use crate::site::LineFix;
use slint::Global;
use std::rc::Rc;
use tautmark_ui::{App, Item, StringVm, Verdict};

pub(super) fn wire(app: &App, bridge: &Rc<Bridge>) {
    let vm = StringVm::get(app);
    let at = bridge.clone();
    vm.on_more(move || at.act(more));
    let at = bridge.clone();
    vm.on_nail_pressed(move |id| {
        at.act(|desk| match id.parse() {
            Ok(nail) => nail_menu(desk, nail),
            Err(_) => Then::Stay,
        })
    });
    let at = bridge.clone();
    vm.on_add_nail(move || at.act(add_nail));
    let at = bridge.clone();
    vm.on_turn_round(move || {
        at.act(|desk| {
            change_line(desk, |line| line.reverse = !line.reverse);
            Then::Stay
        })
    });
}

pub(super) fn fill(app: &App, desk: &Desk) {
    let vm = StringVm::get(app);
    let job = desk.job();
    let Some(line) = job.lines.get(desk.chosen.line) else {
        return;
    };
    let unit = job.show.lengths;
    let turned = if line.reverse { ", turned round" } else { "" };
    vm.set_about(status(
        Verdict::None,
        &format!("**{}**, {}{turned}", line.called(), along(job, line)),
    ));
    vm.set_off_wall(line.wall.is_some());
    let fix = desk.solution.lines.get(&line.id);
    let bow = fix.and_then(|fix| fix.bow.as_ref());
    let nails = line.offsets.iter().flatten().enumerate().map(|(k, nail)| {
        let say = |mm: Option<f64>| mm.map_or_else(|| "—".to_owned(), |mm| length::show(mm, unit));
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
        Item {
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
            "**One nail: taken as parallel to the wall.** Add an offset near the wall's other end to be sure of its direction.",
        ),
        _ => bow_status(fix, desk),
    });
}

fn bow_status(fix: Option<&LineFix>, desk: &Desk) -> tautmark_ui::Status {
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
        return naming::about(desk, thing);
    }
    let rows = vec![
        choice(
            "side",
            "To the other side of the wall",
            "with the same nails",
        ),
        choice("name", "Rename or delete it", ""),
    ];
    desk.menu = Some(Menu::new(line.called(), rows, |desk, id| {
        if id != "side" {
            return naming::about(desk, thing);
        }
        change_line(desk, |line| {
            line.side = Some(match line.side {
                Some(Side::Right) => Side::Left,
                _ => Side::Right,
            });
        });
        Then::Stay
    }));
    Then::Stay
}

fn change_line(desk: &mut Desk, how: impl FnOnce(&mut Line)) -> bool {
    let at = desk.chosen.line;
    let Some(mut value) = desk.saved().lines.get(at).cloned() else {
        return false;
    };
    how(&mut value);
    desk.change(Edit::Line(Change::Replace { at, value }))
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
    let line = desk.chosen.line;
    desk.ask(Box::new(NailFigure {
        line,
        nail,
        part: NailPart::At,
    }));
    Then::Keypad
}

fn nail_menu(desk: &mut Desk, nail: usize) -> Then {
    let choices = vec![
        choice("off", "How far off the wall", ""),
        choice("at", "How far along the wall", ""),
        choice("delete", "Take the nail out", ""),
    ];
    desk.menu = Some(Menu::new(
        format!("Nail {}", nail + 1),
        choices,
        move |desk, id| {
            let line = desk.chosen.line;
            let part = match id {
                "off" => NailPart::Off,
                "at" => NailPart::At,
                _ => {
                    change_line(desk, |line| {
                        if let Some(nails) =
                            line.offsets.as_mut().filter(|nails| nail < nails.len())
                        {
                            nails.remove(nail);
                        }
                    });
                    return Then::Stay;
                }
            };
            desk.ask(Box::new(NailFigure { line, nail, part }));
            Then::Keypad
        },
    ));
    Then::Stay
}
