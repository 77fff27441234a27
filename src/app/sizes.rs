//! Sizes: what the fence is made of, and which lengths can be bought.

use super::form::{Form, FormContents, check, choice, figure, heading, pick};
use super::size_figure::{Kind, Size};
use super::{Desk, Then};
use crate::job::edit::{Edit, Setting};
use crate::job::model::{BoardFit, Boards, Gravel, Job, Pales, Rails};
use crate::length;
use tautmark_ui::{Field as Row, Verdict};

/// The page of sizes.
pub(super) struct Sizes;

const GRAVEL: [Size; 6] = [
    Size::BoardHeight,
    Size::Clearance,
    Size::Dig,
    Size::Gap,
    Size::Step,
    Size::Top,
];
const RAILS: [Size; 6] = [
    Size::RailCount,
    Size::RailLow,
    Size::RailHigh,
    Size::Seat,
    Size::Notch,
    Size::Thick,
];
const PALES: [Size; 3] = [Size::PaleWidth, Size::Lap, Size::PaleHeight];

fn size_row(job: &Job, size: Size) -> Row {
    let value = size.value(job).map(|value| match size {
        Size::RailCount => format!("{value:.0}"),
        _ => length::show(value, job.show.lengths),
    });
    let value = value.unwrap_or_else(|| "—".to_owned());
    figure(&id(size), size.label(), size.note(), &value)
}

fn id(size: Size) -> String {
    format!("{size:?}")
}

/// The sizes that stand on the page, in its order.
fn shown(job: &Job) -> Vec<Size> {
    let mut sizes = Vec::new();
    if job.boards.gravel.is_some() {
        sizes.extend(GRAVEL);
    }
    if job.boards.rails.is_some() {
        sizes.extend(RAILS);
    }
    if job.boards.pales.is_some() {
        sizes.extend(PALES);
    }
    for kind in Kind::ALL {
        let count = kind.lengths(&job.stock).len();
        sizes.extend((0..=count).map(|at| Size::Bought(kind, at)));
    }
    sizes.push(Size::Kerf);
    sizes
}

impl Form for Sizes {
    fn title(&self, _desk: &Desk) -> String {
        "Sizes".to_owned()
    }

    fn contents(&self, desk: &Desk) -> FormContents {
        let job = desk.job();
        let boards = &job.boards;
        let mut rows = vec![check(
            "gravel",
            "Gravel boards",
            "",
            boards.gravel.is_some(),
        )];
        if let Some(gravel) = &boards.gravel {
            let fit = match gravel.fit {
                BoardFit::Level => 0,
                BoardFit::Stepped => 1,
            };
            let options = ["Level", "Stepped"];
            rows.push(choice(
                "fit",
                "How they follow the ground",
                &options,
                Some(fit),
            ));
            rows.extend(GRAVEL.map(|size| size_row(job, size)));
        }
        rows.push(check("rails", "Rails", "", boards.rails.is_some()));
        if boards.rails.is_some() {
            rows.extend(RAILS.map(|size| size_row(job, size)));
        }
        rows.push(check("pales", "Pales", "", boards.pales.is_some()));
        if boards.pales.is_some() {
            rows.extend(PALES.map(|size| size_row(job, size)));
        }
        rows.push(heading("Lengths that can be bought"));
        for kind in Kind::ALL {
            rows.extend(stock_rows(job, kind));
        }
        rows.push(size_row(job, Size::Kerf));
        FormContents::new(rows).saying(
            Verdict::None,
            "What every run of this job is made of. Each figure shows in the drawing at once.",
        )
    }

    fn pressed(&self, desk: &mut Desk, pressed: &str) -> Then {
        let size = shown(desk.saved())
            .into_iter()
            .find(|size| id(*size) == pressed);
        let Some(size) = size else {
            return Then::Stay;
        };
        desk.ask(Box::new(size));
        Then::Keypad
    }

    fn picked(&self, desk: &mut Desk, _id: &str, index: usize) -> Then {
        let mut boards = desk.saved().boards.clone();
        if let Some(gravel) = &mut boards.gravel {
            gravel.fit = if index == 0 {
                BoardFit::Level
            } else {
                BoardFit::Stepped
            };
        }
        set(desk, boards)
    }

    fn toggled(&self, desk: &mut Desk, id: &str) -> Then {
        let mut boards = desk.saved().boards.clone();
        match id {
            "gravel" => boards.gravel = toggled(boards.gravel, Gravel::default),
            "rails" => boards.rails = toggled(boards.rails, Rails::default),
            _ => boards.pales = toggled(boards.pales, Pales::default),
        }
        set(desk, boards)
    }
}

fn toggled<T>(there: Option<T>, usual: fn() -> T) -> Option<T> {
    match there {
        Some(_) => None,
        None => Some(usual()),
    }
}

fn set(desk: &mut Desk, boards: Boards) -> Then {
    desk.change(Edit::Set(Setting::Boards(boards)));
    Then::Stay
}

/// The lengths of one kind, and a row that adds one.
fn stock_rows(job: &Job, kind: Kind) -> Vec<Row> {
    let unit = job.show.lengths;
    let lengths = kind.lengths(&job.stock);
    let there = lengths.iter().enumerate().map(|(at, &mm)| {
        let size = Size::Bought(kind, at);
        figure(&id(size), kind.name(), size.note(), &length::show(mm, unit))
    });
    let new = id(Size::Bought(kind, lengths.len()));
    let one = if lengths.is_empty() { "a" } else { "another" };
    let label = format!("{}: {one} length", kind.name());
    let add = pick(&new, &label, "", "Add");
    there.chain([add]).collect()
}
