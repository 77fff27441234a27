//! Lines: strings with their nails, corners with their check diagonal.

use super::field::{Field, Focus, Measure};
use super::menu::choice;
use super::rows::patched;
use super::words::{fact, row, said, silence, status};
use super::{Bridge, Desk, Menu, Notice, Then};
use crate::job::edit::{Change, Edit};
use crate::job::model::{Corner, CornerPost, Line, Side, Station};
use crate::job::{CornerId, Job, LineId};
use crate::length;
use crate::quick::Taped;
use crate::quick::corner::{CornerTapes, corner_by_tapes};
use crate::quick::turn_string::{Swing, turn_string};
use crate::site::{CornerFix, LineFix, PM};
use slint::Global;
use std::rc::Rc;
use tautmark_ui::{App, CornerVm, Item, LinesVm, Nav, Page, Place, StringVm, Verdict};

pub(super) fn wire(app: &App, bridge: &Rc<Bridge>) {
    let vm = LinesVm::get(app);
    let at = bridge.clone();
    vm.on_string_pressed(move |id| {
        at.act(|desk| match id.parse() {
            Ok(index) => {
                desk.chosen.line = index;
                Then::Open(Page::Line)
            }
            Err(_) => Then::Stay,
        })
    });
    let at = bridge.clone();
    vm.on_corner_pressed(move |id| {
        at.act(|desk| match id.parse() {
            Ok(index) => {
                desk.chosen.corner = index;
                desk.chosen.diagonal = None;
                Then::Open(Page::Corner)
            }
            Err(_) => Then::Stay,
        })
    });
    let at = bridge.clone();
    vm.on_add_string(move || at.act(add_string));
    let at = bridge.clone();
    vm.on_add_corner(move || at.act(add_corner));
    let vm = StringVm::get(app);
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
    let vm = CornerVm::get(app);
    let at = bridge.clone();
    vm.on_asked(move |id| at.act(|desk| explain(desk, &id)));
    let at = bridge.clone();
    vm.on_other_arms(move || {
        at.act(|desk| {
            desk.ask(Box::new(ArmFigure {
                corner: desk.chosen.corner,
            }));
            Then::Keypad
        })
    });
    let at = bridge.clone();
    vm.on_it_reads(move || {
        at.act(|desk| {
            desk.ask(Box::new(DiagonalFigure {
                corner: desk.chosen.corner,
            }));
            Then::Keypad
        })
    });
}

pub(super) fn fill(app: &App, desk: &Desk) {
    let nav = Nav::get(app);
    if nav.get_place() != Place::Lines {
        return;
    }
    match nav.get_page() {
        Page::Line => fill_string(app, desk),
        Page::Corner => fill_corner(app, desk),
        _ => fill_lists(app, desk),
    }
}

fn fill_lists(app: &App, desk: &Desk) {
    let vm = LinesVm::get(app);
    let job = desk.job();
    let strings = job
        .lines
        .iter()
        .enumerate()
        .map(|(i, line)| string_row(desk, i, line))
        .collect();
    vm.set_strings(patched(vm.get_strings(), strings));
    let corners = job
        .corners
        .iter()
        .enumerate()
        .map(|(i, corner)| corner_row(desk, i, corner));
    vm.set_corners(patched(vm.get_corners(), corners.collect()));
    let problem = desk
        .solution
        .problems
        .iter()
        .find(|p| p.place.starts_with("lines[") || p.place.starts_with("corners["));
    vm.set_status(match (problem, job.lines.is_empty()) {
        (Some(problem), _) => status(
            Verdict::Attention,
            &format!("**{}** {}", problem.text, problem.remedy),
        ),
        (None, true) => status(
            Verdict::Note,
            "**No string yet.** Stretch one along a wall, so many mm off it, or through two marks.",
        ),
        (None, false) => silence(),
    });
}

/// A line's name as people say it.
#[must_use]
pub fn line_name(line: &Line) -> &str {
    if line.name.is_empty() {
        line.id.as_str()
    } else {
        &line.name
    }
}

fn along(job: &Job, line: &Line) -> String {
    match (&line.wall, &line.marks) {
        (Some(id), _) => {
            let wall = job.walls.iter().find(|wall| wall.id == *id);
            let name = wall.map_or(id.as_str(), |wall| {
                if wall.name.is_empty() {
                    wall.id.as_str()
                } else {
                    &wall.name
                }
            });
            let side = match line.side {
                Some(Side::Right) => "right of",
                _ => "left of",
            };
            format!("{side} {name}")
        }
        (None, Some([from, to])) => format!("through {from} and {to}"),
        (None, None) => "not placed yet".to_owned(),
    }
}

fn string_row(desk: &Desk, index: usize, line: &Line) -> Item {
    let solved = desk.solution.lines.contains_key(&line.id);
    let note = match solved {
        true => along(desk.job(), line),
        false => format!("{}; waits for its marks", along(desk.job(), line)),
    };
    let nails = line.offsets.as_ref().map_or(0, Vec::len);
    let figure = match nails {
        0 => String::new(),
        1 => "1 nail".to_owned(),
        more => format!("{more} nails"),
    };
    Item {
        verdict: if solved {
            Verdict::None
        } else {
            Verdict::Attention
        },
        ..row(&index.to_string(), line_name(line), &note, &figure, "")
    }
}

fn names(job: &Job, corner: &Corner) -> [String; 2] {
    corner.lines.each_ref().map(|id| {
        let line = job.lines.iter().find(|line| line.id == *id);
        line.map_or(id.as_str(), line_name).to_owned()
    })
}

fn corner_row(desk: &Desk, index: usize, corner: &Corner) -> Item {
    let [first, second] = names(desk.job(), corner);
    let title = format!("{first} meets {second}");
    match desk.solution.corners.get(&corner.id) {
        Some(fix) => {
            let figure = format!("{:.1}°", fix.angle);
            let note = format!("saw set at {:.1}°", fix.bevel);
            row(
                &index.to_string(),
                &title,
                &note,
                &figure,
                &angle_pm(fix.angle_pm),
            )
        }
        None => Item {
            verdict: Verdict::Attention,
            ..row(&index.to_string(), &title, "not settled yet", "", "")
        },
    }
}

fn angle_pm(pm: f64) -> String {
    format!("±\u{a0}{:.1}", pm.max(0.05))
}

fn fill_string(app: &App, desk: &Desk) {
    let vm = StringVm::get(app);
    let job = desk.job();
    let Some(line) = job.lines.get(desk.chosen.line) else {
        return;
    };
    let unit = job.show.lengths;
    let turned = if line.reverse { ", turned round" } else { "" };
    vm.set_about(status(
        Verdict::None,
        &format!("**{}**, {}{turned}", line_name(line), along(job, line)),
    ));
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
    vm.set_bow(bow_status(fix, desk));
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

fn fill_corner(app: &App, desk: &Desk) {
    let vm = CornerVm::get(app);
    let job = desk.job();
    let Some(corner) = job.corners.get(desk.chosen.corner) else {
        return;
    };
    let [first, second] = names(job, corner);
    vm.set_about(status(
        Verdict::None,
        &format!("**{first}** meets **{second}**"),
    ));
    let Some(fix) = desk.solution.corners.get(&corner.id) else {
        vm.set_about(status(
            Verdict::Attention,
            &format!(
                "**{first}** meets **{second}**: not settled yet. Finish the tapes to their marks."
            ),
        ));
        return;
    };
    let unit = job.show.lengths;
    let off = fix.angle - 90.0;
    let per_metre = length::show_with_unit(1000.0 * off.to_radians().tan().abs(), unit);
    let pm = angle_pm(fix.angle_pm);
    vm.set_angle(fact(
        "angle",
        "Angle between them",
        &format!("{:.1}°", fix.angle),
        &pm,
    ));
    vm.set_square(fact(
        "square",
        "Not square by",
        &format!("{:.1}°", off.abs()),
        &format!("{per_metre} per m"),
    ));
    let saw = format!("off square; {:.1}° from the length", 90.0 - fix.bevel);
    vm.set_bevel(fact(
        "bevel",
        "Rail ends, saw set at",
        &format!("{:.1}°", fix.bevel),
        &saw,
    ));
    vm.set_place(corner_place(desk, corner));
    let check = crate::site::diagonal_at(&job.tape, fix, desk.chosen.arm);
    let arm = length::show(desk.chosen.arm, unit);
    let text =
        format!("Check it: mark **{arm}** on each string. The tape between the marks must read");
    let (text, plain) = said(&text);
    vm.set_check(text);
    vm.set_check_plain(plain);
    vm.set_diagonal(length::show(check.diagonal, unit).into());
    vm.set_diagonal_tail(length::show_pm(check.pm, unit).into());
    vm.set_found(found(desk, fix));
}

/// How far the corner is along the run that ends or starts there.
fn corner_place(desk: &Desk, corner: &Corner) -> tautmark_ui::Fact {
    let job = desk.job();
    let here = |end: &Option<crate::job::model::End>| {
        end.as_ref()
            .is_some_and(|end| end.corner.as_ref() == Some(&corner.id))
    };
    let run = job
        .runs
        .iter()
        .find(|run| here(&run.end) || here(&run.start));
    let fix = run.and_then(|run| desk.solution.runs.get(&run.id));
    let unit = job.show.lengths;
    match (run, fix) {
        (Some(run), Some(fix)) => fact(
            "place",
            &format!("Length of run {}", run.id),
            &length::show(fix.length, unit),
            &length::show_pm(fix.length_pm, unit),
        ),
        _ => fact("place", "Length of the run", "—", "no run here yet"),
    }
}

/// What the tape across really read means: the angle, and how to move the string's end.
fn found(desk: &Desk, fix: &CornerFix) -> tautmark_ui::Status {
    let Some(read) = desk.chosen.diagonal else {
        return silence();
    };
    let job = desk.job();
    let unit = job.show.lengths;
    let arm = desk.chosen.arm;
    let taped = |mm: f64| Taped::new(mm, job.tape.class.sd(job.tape.reading, mm));
    let tapes = CornerTapes {
        first: taped(arm),
        second: taped(arm),
        across: taped(read),
    };
    let corner = match corner_by_tapes(&tapes) {
        Ok(corner) => corner,
        Err(why) => return status(Verdict::Attention, &why.to_string()),
    };
    let off = corner.angle.value - fix.angle;
    let sure = corner.angle.pm.hypot(fix.angle_pm);
    let angle = format!("{:.2}°", corner.angle.value);
    if off.abs() <= sure {
        return status(
            Verdict::Good,
            &format!("That makes the angle **{angle}**: within what the tapes can tell."),
        );
    }
    let move_end = turn_string(&corner, fix.angle, arm).ok().map(|turn| {
        let by = length::show_with_unit(turn.by.value, unit);
        match turn.swing {
            Swing::Open => {
                format!(" Open it: move the mark on the second string {by} away from the first.")
            }
            Swing::Close => {
                format!(" Close it: move the mark on the second string {by} towards the first.")
            }
            Swing::Stay => String::new(),
        }
    });
    status(
        Verdict::Bad,
        &format!(
            "That makes the angle **{angle}**, {:.2}° {} than the tapes say.{}",
            off.abs(),
            if off > 0.0 { "wider" } else { "narrower" },
            move_end.unwrap_or_default()
        ),
    )
}

fn explain(desk: &mut Desk, id: &str) -> Then {
    let text = match id {
        "angle" => {
            "From the directions of both strings, which follow from the tapes to the walls' marks. Longer walls between the marks, or one more tape across the gap, make it surer."
        }
        "square" => {
            "The angle less 90°; and how far the second string is out of square in each metre of its length."
        }
        "bevel" => {
            "Half the turn from one string onto the other. A saw that reads 0 for a square cut is set to the first figure; measured from the rail's own length the cut is the second."
        }
        _ => {
            "From the run's zero to where the strings cross. The ± comes from the tapes that settle both strings."
        }
    };
    desk.notice = Some(Notice {
        title: "Where it comes from".to_owned(),
        text: text.to_owned(),
        action: None,
    });
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

fn add_string(desk: &mut Desk) -> Then {
    let job = desk.saved();
    let mut choices = Vec::new();
    for (i, wall) in job.walls.iter().enumerate() {
        let name = if wall.name.is_empty() {
            wall.id.as_str()
        } else {
            &wall.name
        };
        let looking = format!("looking from {} to {}", wall.from, wall.to);
        choices.push(choice(
            format!("left {i}"),
            format!("Left of {name}"),
            looking.clone(),
        ));
        choices.push(choice(
            format!("right {i}"),
            format!("Right of {name}"),
            looking,
        ));
    }
    if job.marks.len() > 1 {
        choices.push(choice("marks", "Through two marks", ""));
    }
    if choices.is_empty() {
        desk.say("There is nothing to stretch a string along yet. Add marks and walls first.");
        return Then::Stay;
    }
    desk.menu = Some(Menu::new("A new string", choices, |desk, id| {
        let Some((side, wall)) = id.split_once(' ') else {
            return first_mark(desk);
        };
        let side = if side == "left" {
            Side::Left
        } else {
            Side::Right
        };
        let wall = wall
            .parse()
            .ok()
            .and_then(|i: usize| desk.saved().walls.get(i));
        let Some(wall) = wall.map(|wall| wall.id.clone()) else {
            return Then::Stay;
        };
        let nail = Station {
            at: Some(0.0),
            ..Station::default()
        };
        put_string(
            desk,
            Line {
                wall: Some(wall),
                side: Some(side),
                offsets: Some(vec![nail]),
                ..Line::default()
            },
        );
        let line = desk.chosen.line;
        desk.ask(Box::new(NailFigure {
            line,
            nail: 0,
            part: NailPart::Off,
        }));
        Then::AskAt(Place::Lines, Page::Line)
    }));
    Then::Stay
}

fn first_mark(desk: &mut Desk) -> Then {
    let choices = mark_choices(desk.saved(), None);
    desk.menu = Some(Menu::new("From which mark?", choices, |desk, from| {
        let from = from.to_owned();
        let choices = mark_choices(desk.saved(), Some(&from));
        desk.menu = Some(Menu::new(
            format!("From {from} to which mark?"),
            choices,
            move |desk, to| {
                let marks = Some([from.as_str().into(), to.into()]);
                put_string(
                    desk,
                    Line {
                        marks,
                        ..Line::default()
                    },
                );
                Then::Open(Page::Line)
            },
        ));
        Then::Stay
    }));
    Then::Stay
}

/// The marks of a job to choose from, but for one.
pub(super) fn mark_choices(job: &Job, but: Option<&str>) -> Vec<Item> {
    let marks = job
        .marks
        .iter()
        .filter(|mark| Some(mark.id.as_str()) != but);
    marks
        .map(|mark| choice(mark.id.as_str(), mark.id.as_str(), mark.note.as_str()))
        .collect()
}

fn put_string(desk: &mut Desk, line: Line) {
    let at = desk.saved().lines.len();
    let taken = |id: &LineId| desk.saved().lines.iter().any(|line| line.id == *id);
    let id = (at + 1..)
        .map(|n| LineId::from(format!("string {n}")))
        .find(|id| !taken(id));
    let value = Line {
        id: id.unwrap_or_default(),
        ..line
    };
    if desk.change(Edit::Line(Change::Insert { at, value })) {
        desk.chosen.line = at;
    }
}

fn add_nail(desk: &mut Desk) -> Then {
    let Some(line) = desk.saved().lines.get(desk.chosen.line) else {
        return Then::Stay;
    };
    if line.wall.is_none() {
        desk.say("This string goes through two marks; it has no nails off a wall.");
        return Then::Stay;
    }
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

fn add_corner(desk: &mut Desk) -> Then {
    let lines = &desk.saved().lines;
    let mut choices = Vec::new();
    for (i, first) in lines.iter().enumerate() {
        for (k, second) in lines.iter().enumerate().filter(|(k, _)| *k != i) {
            let title = format!("{}, then {}", line_name(first), line_name(second));
            choices.push(choice(
                format!("{i} {k}"),
                title,
                "walking along the first, onto the second",
            ));
        }
    }
    if choices.is_empty() {
        desk.say("A corner needs two strings that cross. Add another string first.");
        return Then::Stay;
    }
    desk.menu = Some(Menu::new("A new corner", choices, |desk, id| {
        let job = desk.saved();
        let line = |text: &str| Some(job.lines.get(text.parse::<usize>().ok()?)?.id.clone());
        let lines = id
            .split_once(' ')
            .and_then(|(a, b)| Some([line(a)?, line(b)?]));
        let Some(lines) = lines else {
            return Then::Stay;
        };
        let at = job.corners.len();
        let taken = |id: &CornerId| job.corners.iter().any(|corner| corner.id == *id);
        let id = (at + 1..)
            .map(|n| CornerId::from(format!("X{n}")))
            .find(|id| !taken(id));
        let value = Corner {
            id: id.unwrap_or_default(),
            lines,
            post: Some(CornerPost::default()),
            ..Corner::default()
        };
        if desk.change(Edit::Corner(Change::Insert { at, value })) {
            desk.chosen.corner = at;
            desk.chosen.diagonal = None;
        }
        Then::Open(Page::Corner)
    }));
    Then::Stay
}

#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum NailPart {
    At,
    Off,
}

/// One of a nail's two figures.
struct NailFigure {
    line: usize,
    nail: usize,
    part: NailPart,
}

impl NailFigure {
    fn station<'a>(&self, job: &'a Job) -> Option<&'a Station> {
        job.lines.get(self.line)?.offsets.as_ref()?.get(self.nail)
    }
}

impl Field for NailFigure {
    fn key(&self) -> String {
        format!("nail {} {} {:?}", self.line, self.nail, self.part)
    }

    fn title(&self, job: &Job) -> String {
        let line = job.lines.get(self.line).map(line_name).unwrap_or_default();
        match self.part {
            NailPart::At => format!("Nail {} of {line}, **along the wall**", self.nail + 1),
            NailPart::Off => format!("Nail {} of {line}, **off the wall**", self.nail + 1),
        }
    }

    fn measure(&self) -> Measure {
        Measure::Length
    }

    fn value(&self, job: &Job) -> Option<f64> {
        let station = self.station(job)?;
        match self.part {
            NailPart::At => station.at,
            NailPart::Off => station.off,
        }
    }

    fn edit(&self, job: &Job, value: f64) -> Option<Edit> {
        let mut line = job.lines.get(self.line)?.clone();
        let station = line.offsets.as_mut()?.get_mut(self.nail)?;
        match self.part {
            NailPart::At => station.at = Some(value),
            NailPart::Off => station.off = Some(value),
        }
        Some(Edit::Line(Change::Replace {
            at: self.line,
            value: line,
        }))
    }

    fn next(&self, job: &Job) -> Option<Box<dyn Field>> {
        let station = self.station(job)?;
        let part = match self.part {
            NailPart::At => NailPart::Off,
            NailPart::Off if station.at.is_none() => NailPart::At,
            NailPart::Off => return None,
        };
        Some(Box::new(NailFigure {
            line: self.line,
            nail: self.nail,
            part,
        }))
    }

    fn focus(&self, _job: &Job) -> Focus {
        Focus::Line(self.line)
    }
}

/// The arm for which the check diagonal is shown. Nothing of the job.
struct ArmFigure {
    corner: usize,
}

impl Field for ArmFigure {
    fn key(&self) -> String {
        format!("arm {}", self.corner)
    }

    fn title(&self, _job: &Job) -> String {
        "Mark this far along **each string**".to_owned()
    }

    fn measure(&self) -> Measure {
        Measure::Length
    }

    fn value(&self, _job: &Job) -> Option<f64> {
        None
    }

    fn edit(&self, _job: &Job, _value: f64) -> Option<Edit> {
        None
    }

    fn entered(&self, desk: &mut Desk, value: f64) {
        if (100.0..=30_000.0).contains(&value) {
            desk.chosen.arm = value;
            desk.chosen.diagonal = None;
        } else {
            desk.say("Take arms between 100 mm and 30 m.");
        }
    }

    fn focus(&self, _job: &Job) -> Focus {
        Focus::Corner(self.corner)
    }
}

/// What the tape across really reads. Nothing of the job.
struct DiagonalFigure {
    corner: usize,
}

impl Field for DiagonalFigure {
    fn key(&self) -> String {
        format!("diagonal {}", self.corner)
    }

    fn title(&self, _job: &Job) -> String {
        "The tape between the marks **reads**".to_owned()
    }

    fn measure(&self) -> Measure {
        Measure::Length
    }

    fn value(&self, _job: &Job) -> Option<f64> {
        None
    }

    fn edit(&self, _job: &Job, _value: f64) -> Option<Edit> {
        None
    }

    fn entered(&self, desk: &mut Desk, value: f64) {
        desk.chosen.diagonal = Some(value);
    }

    fn verdict(&self, desk: &Desk, typed: Option<f64>) -> Option<tautmark_ui::Status> {
        let read = typed?;
        let corner = desk.job().corners.get(self.corner)?;
        let fix = desk.solution.corners.get(&corner.id)?;
        let check = crate::site::diagonal_at(&desk.job().tape, fix, desk.chosen.arm);
        let unit = desk.job().show.lengths;
        let off = read - check.diagonal;
        let verdict = if off.abs() <= check.pm {
            Verdict::Good
        } else {
            Verdict::Attention
        };
        let taped = PM * desk.job().tape.class.sd(desk.job().tape.reading, read);
        Some(status(
            verdict,
            &format!(
                "It must read **{}**; this is {} {}.",
                length::show(check.diagonal, unit),
                length::signed(off, unit),
                length::show_pm(taped, unit),
            ),
        ))
    }

    fn focus(&self, _job: &Job) -> Focus {
        Focus::Corner(self.corner)
    }
}
