//! Sizes: what the fence is made of, and which lengths can be bought.

use super::figures::{Bought, GOODS, GRAVEL, Goods, KERF, OFF_THE_LIST, PALES, RAILS};
use super::front;
use crate::app::bridge::form::FormPage;
use crate::app::bridge::screen::{Picture, Screen, Spec};
use crate::app::desk::{Desk, Then};
use crate::app::kit::fields::{FormContents, check, choice, figure, heading, pick};
use crate::app::kit::setting_figure::SettingFigure;
use crate::job::edit::{Edit, Setting};
use crate::job::model::{BoardFit, Boards, Gravel, Job, Pales, Rails};
use crate::length;
use tautmark_ui::{Field as Row, Page, Place, Verdict};

/// The page of sizes.
pub struct Sizes;

/// The sizes that stand on the page.
fn shown(job: &Job) -> impl Iterator<Item = &'static SettingFigure> {
    let boards = &job.boards;
    let gravel = GRAVEL.iter().filter(|_| boards.gravel.is_some());
    let rails = RAILS.iter().filter(|_| boards.rails.is_some());
    let pales = PALES.iter().filter(|_| boards.pales.is_some());
    gravel.chain(rails).chain(pales).chain([&KERF])
}

/// The length that a row of this id asks for.
fn bought(id: &str) -> Option<Bought> {
    let (name, at) = id.rsplit_once(' ')?;
    let of = GOODS.iter().find(|goods| goods.name == name)?;
    let at = at.parse().ok()?;
    Some(Bought { of, at })
}

impl Screen for Sizes {
    fn spec(&self) -> Spec {
        Spec::inside(Place::Boards, Page::Sizes, "sizes")
    }

    fn form(&self) -> Option<&dyn FormPage> {
        Some(self)
    }

    fn picture(&self, desk: &Desk) -> Option<Picture> {
        Some(front(desk))
    }
}

impl FormPage for Sizes {
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
            rows.extend(GRAVEL.iter().map(|size| size.row(job)));
        }
        rows.push(check("rails", "Rails", "", boards.rails.is_some()));
        if boards.rails.is_some() {
            rows.extend(RAILS.iter().map(|size| size.row(job)));
        }
        rows.push(check("pales", "Pales", "", boards.pales.is_some()));
        if boards.pales.is_some() {
            rows.extend(PALES.iter().map(|size| size.row(job)));
        }
        rows.push(heading("Lengths that can be bought"));
        rows.extend(GOODS.iter().flat_map(|goods| stock_rows(job, goods)));
        rows.push(KERF.row(job));
        FormContents::new(rows).saying(
            Verdict::None,
            "What every run of this job is made of. Each figure shows in the drawing at once.",
        )
    }

    fn pressed(&self, desk: &mut Desk, pressed: &str) -> Then {
        let size = shown(desk.saved()).find(|size| size.key == pressed);
        match (size, bought(pressed)) {
            (Some(size), _) => desk.ask(Box::new(size)),
            (None, Some(bought)) => desk.ask(Box::new(bought)),
            (None, None) => return Then::Stay,
        }
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
            "pales" => boards.pales = toggled(boards.pales, Pales::default),
            _ => return Then::Stay,
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
fn stock_rows(job: &Job, goods: &'static Goods) -> Vec<Row> {
    let unit = job.show.lengths;
    let lengths = (goods.lengths)(&job.stock);
    let id = |at: usize| format!("{} {at}", goods.name);
    let there = lengths.iter().enumerate().map(|(at, &mm)| {
        let length = length::show(mm, unit);
        figure(&id(at), goods.name, OFF_THE_LIST, &length)
    });
    let one = if lengths.is_empty() { "a" } else { "another" };
    let label = format!("{}: {one} length", goods.name);
    let add = pick(&id(lengths.len()), &label, "", "Add");
    there.chain([add]).collect()
}
