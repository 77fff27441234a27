//! The sizes that are typed: gravel boards, rails, pales and what can be bought.

use crate::app::desk::FigureKind;
use crate::app::kit::{KeypadFigure, Slot};
use crate::job::edit::{Edit, Setting};
use crate::job::model::{Boards, Gravel, Job, Pales, Rails, Stock};
use tautmark_ui::KeySigns;

fn put(boards: Boards) -> Edit {
    Edit::Set(Setting::Boards(boards))
}

/// A figure of what the fence is made of.
pub fn size(
    label: &str,
    slot: impl Fn(&mut Boards) -> Option<&mut dyn Slot> + Clone + 'static,
) -> KeypadFigure {
    KeypadFigure::kept(label, |job| Some(job.boards.clone()), slot, put)
}

fn of_gravel(label: &str, slot: fn(&mut Gravel) -> &mut dyn Slot) -> KeypadFigure {
    size(label, move |boards| boards.gravel.as_mut().map(slot)).told_at("boards.gravel")
}

fn of_rails(label: &str, slot: fn(&mut Rails) -> &mut dyn Slot) -> KeypadFigure {
    size(label, move |boards| boards.rails.as_mut().map(slot)).told_at("boards.rails")
}

fn of_pales(label: &str, slot: fn(&mut Pales) -> &mut dyn Slot) -> KeypadFigure {
    size(label, move |boards| boards.pales.as_mut().map(slot)).told_at("boards.pales")
}

/// Of gravel boards, in the order of the page.
pub fn gravel() -> [KeypadFigure; 8] {
    [
        of_gravel("Height of a gravel board", |one| &mut one.height),
        of_gravel("Clear of the ground", |one| &mut one.clearance)
            .noted("under the board at its highest ground"),
        of_gravel("Dig out at most", |one| &mut one.dig).noted("at the highest ground of a bay"),
        of_gravel("Largest gap under it", |one| &mut one.gap)
            .noted("at the lowest ground of a bay")
            .told_at("boards.gravel.gap"),
        step(),
        of_gravel("Top at this height", |one| &mut one.top)
            .of_kind(FigureKind::Signed(KeySigns::UpDown))
            .noted("above the datum's zero; else the ground decides")
            .told_at("boards.gravel.top"),
        of_gravel("Thickness of a gravel board", |one| &mut one.thick),
        of_gravel("Front of the boards behind the posts’", |one| {
            &mut one.set
        })
        .noted("else in the middle of the posts")
        .told_at("boards.gravel.set"),
    ]
}

fn step() -> KeypadFigure {
    let there = |job: &Job| job.boards.gravel.as_ref()?.step;
    let step = KeypadFigure::new("Step of the boards", there, |job, value| {
        let mut boards = job.boards.clone();
        boards.gravel.as_mut()?.step = (value != 0.0).then_some(value);
        Some(put(boards))
    });
    step.noted("gravel boards rise by this much at a time; 0 follows the ground")
        .told_at("boards.gravel.step")
}

/// Of rails.
pub fn rails() -> [KeypadFigure; 8] {
    [
        of_rails("Rails in a bay", |one| &mut one.count).of_kind(FigureKind::Count),
        of_rails("Lowest rail", |one| &mut one.low)
            .noted("its centre above the gravel board's top"),
        of_rails("Highest rail", |one| &mut one.high)
            .noted("its centre above the gravel board's top"),
        of_rails("Seat in the post", |one| &mut one.seat)
            .noted("how far each end goes into its post"),
        of_rails("Depth of the notch", |one| &mut one.notch)
            .reading(|job| job.boards.rails.as_ref().map(Rails::notch_depth))
            .noted("cut for a rail; else as deep as the seat")
            .told_at("boards.rails.notch"),
        of_rails("Thickness of a rail", |one| &mut one.thick)
            .reading(|job| job.boards.rails.as_ref().map(Rails::thickness))
            .noted("from its front to its back"),
        of_rails("Height of a rail", |one| &mut one.height)
            .noted("from its bottom edge to its top"),
        of_rails("Front of the rails behind the posts’", |one| &mut one.set)
            .noted("else in the middle of the posts")
            .told_at("boards.rails.set"),
    ]
}

/// Of pales.
pub fn pales() -> [KeypadFigure; 3] {
    [
        of_pales("Width of a pale", |one| &mut one.width),
        of_pales("Least lap", |one| &mut one.lap).noted("of one pale over the next"),
        of_pales("Height of a pale", |one| &mut one.height).noted("above the gravel board's top"),
    ]
}

fn put_stock(stock: Stock) -> Edit {
    Edit::Set(Setting::Stock(stock))
}

/// What a saw cut takes.
pub fn kerf() -> KeypadFigure {
    let stock = |job: &Job| Some(job.stock.clone());
    KeypadFigure::kept("Saw cut", stock, |stock| Some(&mut stock.kerf), put_stock)
        .noted("lost at each cut")
        .told_at("stock.kerf")
}

/// What is bought by its length.
#[derive(Clone, Copy)]
pub struct Goods {
    /// Its name, for several.
    pub name: &'static str,
    one: &'static str,
    place: &'static str,
    /// Lengths that can be bought, mm.
    lengths: fn(&mut Stock) -> &mut Vec<f64>,
}

/// All of it, in the order of the work.
pub const GOODS: [Goods; 3] = [
    Goods {
        name: "Gravel boards",
        one: "Gravel board",
        place: "stock.gravel",
        lengths: |stock| &mut stock.gravel,
    },
    Goods {
        name: "Rails",
        one: "Rail",
        place: "stock.rails",
        lengths: |stock| &mut stock.rails,
    },
    Goods {
        name: "Posts",
        one: "Post",
        place: "stock.posts",
        lengths: |stock| &mut stock.posts,
    },
];

impl Goods {
    /// How many lengths of it there are.
    pub fn count(self, job: &Job) -> usize {
        (self.lengths)(&mut job.stock.clone()).len()
    }

    /// One length that can be bought, by its place in the list; one past the last is a new one.
    pub fn length(self, at: usize) -> KeypadFigure {
        let Self {
            name,
            one,
            place,
            lengths,
        } = self;
        let there = move |job: &Job| lengths(&mut job.stock.clone()).get(at).copied();
        let length = KeypadFigure::new(name, there, move |job, value| {
            let mut stock = job.stock.clone();
            let lengths = lengths(&mut stock);
            match lengths.get_mut(at) {
                Some(_) if value == 0.0 => drop(lengths.remove(at)),
                Some(there) => *there = value,
                None if value == 0.0 => {}
                None => lengths.push(value),
            }
            Some(put_stock(stock))
        });
        length
            .keyed(format!("{place} {at}"))
            .titled(move |_| format!("**{one} to buy**"))
            .noted("0 deletes it")
            .told_at(place)
    }
}
