//! The sizes that are typed: gravel boards, rails, pales and what can be bought.

use crate::app::desk::{Desk, FigureKind, Prompt};
use crate::app::kit::setting_figure::{Set, SettingFigure, problem_in};
use crate::app::kit::words::status;
use crate::job::edit::{Edit, Setting};
use crate::job::model::{Boards, Gravel, Job, Pales, Rails, Stock};
use tautmark_ui::{KeySigns, Status, Verdict};

const fn size(
    key: &'static str,
    label: &'static str,
    note: &'static str,
    place: &'static str,
    get: fn(&Job) -> Option<f64>,
    set: fn(&mut Boards, f64),
) -> SettingFigure {
    SettingFigure {
        key,
        title: "",
        label,
        note,
        kind: FigureKind::Length,
        get,
        set: Set::Boards(set),
        place,
    }
}

fn gravel(boards: &mut Boards, set: impl FnOnce(&mut Gravel)) {
    if let Some(one) = &mut boards.gravel {
        set(one);
    }
}

fn rails(boards: &mut Boards, set: impl FnOnce(&mut Rails)) {
    if let Some(one) = &mut boards.rails {
        set(one);
    }
}

fn pales(boards: &mut Boards, set: impl FnOnce(&mut Pales)) {
    if let Some(one) = &mut boards.pales {
        set(one);
    }
}

/// Of gravel boards, in the order of the page.
pub static GRAVEL: [SettingFigure; 6] = [
    size(
        "BoardHeight",
        "Height of a gravel board",
        "",
        "boards.gravel",
        |job| Some(job.boards.gravel.as_ref()?.height),
        |boards, value| gravel(boards, |one| one.height = value),
    ),
    size(
        "Clearance",
        "Clear of the ground",
        "under the board at its highest ground",
        "boards.gravel",
        |job| Some(job.boards.gravel.as_ref()?.clearance),
        |boards, value| gravel(boards, |one| one.clearance = value),
    ),
    size(
        "Dig",
        "Dig out at most",
        "at the highest ground of a bay",
        "boards.gravel",
        |job| Some(job.boards.gravel.as_ref()?.dig),
        |boards, value| gravel(boards, |one| one.dig = value),
    ),
    size(
        "Gap",
        "Gap under it still fine",
        "at the lowest ground of a bay",
        "boards.gravel.gap",
        |job| Some(job.boards.gravel.as_ref()?.gap),
        |boards, value| gravel(boards, |one| one.gap = value),
    ),
    size(
        "Step",
        "One step",
        "boards step by whole ones; 0 follows the ground",
        "boards.gravel.step",
        |job| job.boards.gravel.as_ref()?.step,
        |boards, value| gravel(boards, |one| one.step = (value != 0.0).then_some(value)),
    ),
    SettingFigure {
        kind: FigureKind::Signed(KeySigns::UpDown),
        ..size(
            "Top",
            "Top at this height",
            "above the datum's zero; else the ground decides",
            "boards.gravel.top",
            |job| job.boards.gravel.as_ref()?.top,
            |boards, value| gravel(boards, |one| one.top = Some(value)),
        )
    },
];

/// Of rails.
pub static RAILS: [SettingFigure; 6] = [
    SettingFigure {
        kind: FigureKind::Count,
        ..size(
            "RailCount",
            "Rails in a bay",
            "",
            "boards.rails",
            |job| Some(f64::from(job.boards.rails.as_ref()?.count)),
            // Whole and not below 0: the keypad counts; a number past u32 is no number of rails.
            |boards, value| rails(boards, |one| one.count = value.max(0.0) as u32),
        )
    },
    size(
        "RailLow",
        "Lowest rail",
        "its centre above the gravel board's top",
        "boards.rails",
        |job| Some(job.boards.rails.as_ref()?.low),
        |boards, value| rails(boards, |one| one.low = value),
    ),
    size(
        "RailHigh",
        "Highest rail",
        "its centre above the gravel board's top",
        "boards.rails",
        |job| Some(job.boards.rails.as_ref()?.high),
        |boards, value| rails(boards, |one| one.high = value),
    ),
    size(
        "Seat",
        "Seat in the post",
        "how far each end goes into its post",
        "boards.rails",
        |job| Some(job.boards.rails.as_ref()?.seat),
        |boards, value| rails(boards, |one| one.seat = value),
    ),
    size(
        "Notch",
        "Notch, deep",
        "cut for a rail; else as deep as the seat",
        "boards.rails.notch",
        |job| job.boards.rails.as_ref().map(Rails::notch_depth),
        |boards, value| rails(boards, |one| one.notch = Some(value)),
    ),
    size(
        "Thick",
        "Thickness of a rail",
        "for the cuts at corners",
        "boards.rails",
        |job| job.boards.rails.as_ref().map(Rails::thickness),
        |boards, value| rails(boards, |one| one.thick = Some(value)),
    ),
];

/// Of pales.
pub static PALES: [SettingFigure; 3] = [
    size(
        "PaleWidth",
        "Width of a pale",
        "",
        "boards.pales",
        |job| Some(job.boards.pales.as_ref()?.width),
        |boards, value| pales(boards, |one| one.width = value),
    ),
    size(
        "Lap",
        "Least lap",
        "of one pale over the next",
        "boards.pales",
        |job| Some(job.boards.pales.as_ref()?.lap),
        |boards, value| pales(boards, |one| one.lap = value),
    ),
    size(
        "PaleHeight",
        "Height of a pale",
        "above the gravel board's top",
        "boards.pales",
        |job| Some(job.boards.pales.as_ref()?.height),
        |boards, value| pales(boards, |one| one.height = value),
    ),
];

/// What a saw cut takes.
pub static KERF: SettingFigure = SettingFigure {
    key: "Kerf",
    title: "",
    label: "Saw cut",
    note: "lost at each cut",
    kind: FigureKind::Length,
    get: |job| Some(job.stock.kerf),
    set: Set::Stock(|stock, value| stock.kerf = value),
    place: "stock.kerf",
};

/// What is bought by its length.
pub struct Goods {
    /// Its name, for several.
    pub name: &'static str,
    title: &'static str,
    place: &'static str,
    /// Lengths that can be bought, mm.
    pub lengths: fn(&Stock) -> &Vec<f64>,
    lengths_mut: fn(&mut Stock) -> &mut Vec<f64>,
}

/// All of it, in the order of the work.
pub static GOODS: [Goods; 3] = [
    Goods {
        name: "Gravel boards",
        title: "**Gravel board to buy**",
        place: "stock.gravel",
        lengths: |stock| &stock.gravel,
        lengths_mut: |stock| &mut stock.gravel,
    },
    Goods {
        name: "Rails",
        title: "**Rail to buy**",
        place: "stock.rails",
        lengths: |stock| &stock.rails,
        lengths_mut: |stock| &mut stock.rails,
    },
    Goods {
        name: "Posts",
        title: "**Post to buy**",
        place: "stock.posts",
        lengths: |stock| &stock.posts,
        lengths_mut: |stock| &mut stock.posts,
    },
];

/// One length that can be bought, by its place in the list; one past the last is a new one.
pub struct Bought {
    pub of: &'static Goods,
    pub at: usize,
}

/// What entering 0 does.
pub const OFF_THE_LIST: &str = "0 takes it off the list";

impl Prompt for Bought {
    fn key(&self) -> String {
        format!("{} {}", self.of.place, self.at)
    }

    fn title(&self, _job: &Job) -> String {
        self.of.title.to_owned()
    }

    fn measure(&self) -> FigureKind {
        FigureKind::Length
    }

    fn value(&self, job: &Job) -> Option<f64> {
        (self.of.lengths)(&job.stock).get(self.at).copied()
    }

    fn edit(&self, job: &Job, value: f64) -> Option<Edit> {
        let mut stock = job.stock.clone();
        let lengths = (self.of.lengths_mut)(&mut stock);
        match lengths.get_mut(self.at) {
            Some(_) if value == 0.0 => drop(lengths.remove(self.at)),
            Some(there) => *there = value,
            None if value == 0.0 => {}
            None => lengths.push(value),
        }
        Some(Edit::Set(Setting::Stock(stock)))
    }

    fn verdict(&self, desk: &Desk, typed: Option<f64>) -> Option<Status> {
        if typed.is_none() {
            return Some(status(Verdict::Note, OFF_THE_LIST));
        }
        problem_in(desk, self.of.place)
    }
}
