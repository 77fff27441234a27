//! Every quick sum. What they are all made of is named here once, for all their files.

mod bays;
mod bolts;
mod brace;
mod carry;
pub mod corner;
mod falls;
mod gaps;
mod holes;
pub mod laser;
mod leaf;
mod lock;
mod mitre;
mod notch;
mod pales;
mod points;
mod screws;
mod spirit;
mod spoil;
mod square;
mod swing;
mod tapes;
mod turn;
mod turn_about;

use super::answer::{Answer, Stop, Tail, Value, Worked};
use super::given::Given;
use super::input::Input;
use super::pen::Pen;
use super::sum::{QuickSum, Stage};
use crate::drawing::{Solid, Vec2};
use crate::job::usual::Usual;
use tautmark_ui::Verdict;

/// Every sum, in the order of the work.
pub static SUMS: [&QuickSum; 29] = [
    &corner::BY_TAPES,
    &square::SIX_TAPES,
    &points::BY_TAPES,
    &points::TAPES_TO,
    &tapes::SLOPE,
    &tapes::SAG,
    &tapes::TWO_TAPES,
    &corner::ACROSS,
    &turn::TURN,
    &square::DIAGONAL,
    &bays::BAYS,
    &gaps::GAPS,
    &holes::CONCRETE,
    &spoil::SPOIL,
    &bolts::BOLTS,
    &carry::CARRY,
    &laser::TWO_PEGS,
    &turn_about::TURN_ABOUT,
    &spirit::SPIRIT,
    &falls::STEP,
    &falls::RAIL,
    &mitre::MITRE,
    &pales::PALES,
    &notch::NOTCH,
    &screws::SCREWS,
    &leaf::LEAF,
    &brace::BRACE,
    &swing::SWING,
    &lock::LOCK,
];

/// Those that have a button of their own under the jobs.
pub const FIRST: [&str; 5] = ["corner", "point", "bays", "carry", "laser"];
