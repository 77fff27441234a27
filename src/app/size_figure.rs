//! The sizes that are typed: gravel boards, rails, pales and what can be bought.

use super::Desk;
use super::field::{Field, Measure};
use super::words::status;
use crate::job::Severity;
use crate::job::edit::{Edit, Setting};
use crate::job::model::{Gravel, Job, Pales, Rails, Stock};
use tautmark_ui::{Status, Verdict};

/// Which size.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Size {
    BoardHeight,
    Clearance,
    Dig,
    Gap,
    Step,
    Top,
    RailCount,
    RailLow,
    RailHigh,
    Seat,
    Notch,
    Thick,
    PaleWidth,
    Lap,
    PaleHeight,
    Kerf,
    /// A length that can be bought; one past the last is a new one.
    Bought(Kind, usize),
}

/// What is bought by its length.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Kind {
    Gravel,
    Rails,
    Posts,
}

impl Kind {
    /// All of them, in the order of the work.
    pub const ALL: [Self; 3] = [Self::Gravel, Self::Rails, Self::Posts];

    /// Its name, for several.
    #[must_use]
    pub fn name(self) -> &'static str {
        match self {
            Self::Gravel => "Gravel boards",
            Self::Rails => "Rails",
            Self::Posts => "Posts",
        }
    }

    /// Lengths that can be bought, mm.
    #[must_use]
    pub fn lengths(self, stock: &Stock) -> &[f64] {
        match self {
            Self::Gravel => &stock.gravel,
            Self::Rails => &stock.rails,
            Self::Posts => &stock.posts,
        }
    }

    fn lengths_mut(self, stock: &mut Stock) -> &mut Vec<f64> {
        match self {
            Self::Gravel => &mut stock.gravel,
            Self::Rails => &mut stock.rails,
            Self::Posts => &mut stock.posts,
        }
    }
}

impl Size {
    /// What it is called.
    #[must_use]
    pub fn label(self) -> &'static str {
        match self {
            Self::BoardHeight => "Height of a gravel board",
            Self::Clearance => "Clear of the ground",
            Self::Dig => "Dig out at most",
            Self::Gap => "Gap under it still fine",
            Self::Step => "One step",
            Self::Top => "Top at this height",
            Self::RailCount => "Rails in a bay",
            Self::RailLow => "Lowest rail",
            Self::RailHigh => "Highest rail",
            Self::Seat => "Seat in the post",
            Self::Notch => "Notch, deep",
            Self::Thick => "Thickness of a rail",
            Self::PaleWidth => "Width of a pale",
            Self::Lap => "Least lap",
            Self::PaleHeight => "Height of a pale",
            Self::Kerf => "Saw cut",
            Self::Bought(Kind::Gravel, _) => "Gravel board to buy",
            Self::Bought(Kind::Rails, _) => "Rail to buy",
            Self::Bought(Kind::Posts, _) => "Post to buy",
        }
    }

    /// What it is measured from, or what follows where it is not given.
    #[must_use]
    pub fn note(self) -> &'static str {
        match self {
            Self::Clearance => "under the board at its highest ground",
            Self::Dig => "at the highest ground of a bay",
            Self::Gap => "at the lowest ground of a bay",
            Self::Step => "boards step by whole ones; 0 follows the ground",
            Self::Top => "above the datum's zero; else the ground decides",
            Self::RailLow | Self::RailHigh => "its centre above the gravel board's top",
            Self::Seat => "how far each end goes into its post",
            Self::Notch => "cut for a rail; else as deep as the seat",
            Self::Thick => "for the cuts at corners",
            Self::Lap => "of one pale over the next",
            Self::PaleHeight => "above the gravel board's top",
            Self::Kerf => "lost at each cut",
            Self::Bought(..) => "0 takes it off the list",
            Self::BoardHeight | Self::RailCount | Self::PaleWidth => "",
        }
    }

    /// What the job has, mm or a number.
    #[must_use]
    pub fn value(self, job: &Job) -> Option<f64> {
        let gravel = job.boards.gravel.as_ref();
        let rails = job.boards.rails.as_ref();
        let pales = job.boards.pales.as_ref();
        match self {
            Self::BoardHeight => gravel.map(|one| one.height),
            Self::Clearance => gravel.map(|one| one.clearance),
            Self::Dig => gravel.map(|one| one.dig),
            Self::Gap => gravel.map(|one| one.gap),
            Self::Step => gravel?.step,
            Self::Top => gravel?.top,
            Self::RailCount => rails.map(|one| f64::from(one.count)),
            Self::RailLow => rails.map(|one| one.low),
            Self::RailHigh => rails.map(|one| one.high),
            Self::Seat => rails.map(|one| one.seat),
            Self::Notch => rails.map(Rails::notch_depth),
            Self::Thick => rails.map(Rails::thickness),
            Self::PaleWidth => pales.map(|one| one.width),
            Self::Lap => pales.map(|one| one.lap),
            Self::PaleHeight => pales.map(|one| one.height),
            Self::Kerf => Some(job.stock.kerf),
            Self::Bought(kind, at) => kind.lengths(&job.stock).get(at).copied(),
        }
    }

    fn edit(self, job: &Job, value: f64) -> Option<Edit> {
        match self {
            Self::Kerf | Self::Bought(..) => {
                let mut stock = job.stock.clone();
                self.set_stock(&mut stock, value);
                Some(Edit::Set(Setting::Stock(stock)))
            }
            _ => {
                let mut boards = job.boards.clone();
                if let Some(gravel) = &mut boards.gravel {
                    self.set_gravel(gravel, value);
                }
                if let Some(rails) = &mut boards.rails {
                    self.set_rails(rails, value);
                }
                if let Some(pales) = &mut boards.pales {
                    self.set_pales(pales, value);
                }
                Some(Edit::Set(Setting::Boards(boards)))
            }
        }
    }

    fn set_gravel(self, gravel: &mut Gravel, value: f64) {
        match self {
            Self::BoardHeight => gravel.height = value,
            Self::Clearance => gravel.clearance = value,
            Self::Dig => gravel.dig = value,
            Self::Gap => gravel.gap = value,
            Self::Step => gravel.step = (value != 0.0).then_some(value),
            Self::Top => gravel.top = Some(value),
            _ => {}
        }
    }

    fn set_rails(self, rails: &mut Rails, value: f64) {
        match self {
            // Whole and not below 0: the keypad counts; a number past u32 is no number of rails.
            Self::RailCount => rails.count = value.max(0.0) as u32,
            Self::RailLow => rails.low = value,
            Self::RailHigh => rails.high = value,
            Self::Seat => rails.seat = value,
            Self::Notch => rails.notch = Some(value),
            Self::Thick => rails.thick = Some(value),
            _ => {}
        }
    }

    fn set_pales(self, pales: &mut Pales, value: f64) {
        match self {
            Self::PaleWidth => pales.width = value,
            Self::Lap => pales.lap = value,
            Self::PaleHeight => pales.height = value,
            _ => {}
        }
    }

    fn set_stock(self, stock: &mut Stock, value: f64) {
        let Self::Bought(kind, at) = self else {
            stock.kerf = value;
            return;
        };
        let lengths = kind.lengths_mut(stock);
        match lengths.get_mut(at) {
            Some(_) if value == 0.0 => drop(lengths.remove(at)),
            Some(there) => *there = value,
            None if value == 0.0 => {}
            None => lengths.push(value),
        }
    }

    /// Where a problem with it stands in the file.
    fn place(self) -> &'static str {
        match self {
            Self::BoardHeight | Self::Clearance | Self::Dig => "boards.gravel",
            Self::Gap => "boards.gravel.gap",
            Self::Step => "boards.gravel.step",
            Self::Top => "boards.gravel.top",
            Self::Notch => "boards.rails.notch",
            Self::RailCount | Self::RailLow | Self::RailHigh | Self::Seat | Self::Thick => {
                "boards.rails"
            }
            Self::PaleWidth | Self::Lap | Self::PaleHeight => "boards.pales",
            Self::Kerf => "stock.kerf",
            Self::Bought(Kind::Gravel, _) => "stock.gravel",
            Self::Bought(Kind::Rails, _) => "stock.rails",
            Self::Bought(Kind::Posts, _) => "stock.posts",
        }
    }
}

impl Field for Size {
    fn key(&self) -> String {
        format!("size {self:?}")
    }

    fn title(&self, _job: &Job) -> String {
        format!("**{}**", self.label())
    }

    fn measure(&self) -> Measure {
        match self {
            Self::RailCount => Measure::Count,
            Self::Top => Measure::Signed(tautmark_ui::KeySigns::UpDown),
            _ => Measure::Length,
        }
    }

    fn value(&self, job: &Job) -> Option<f64> {
        Self::value(*self, job)
    }

    fn edit(&self, job: &Job, value: f64) -> Option<Edit> {
        Self::edit(*self, job, value)
    }

    fn verdict(&self, desk: &Desk, typed: Option<f64>) -> Option<Status> {
        if typed.is_none() {
            let note = self.note();
            return (!note.is_empty()).then(|| status(Verdict::Note, note));
        }
        let mut problems = desk.solution.problems.iter();
        let problem = problems
            .find(|one| one.severity != Severity::Note && one.place.starts_with(self.place()))?;
        let text = format!("{} {}", problem.text, problem.remedy);
        Some(status(Verdict::Attention, &text))
    }
}
