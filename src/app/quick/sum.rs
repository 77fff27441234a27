//! What a quick sum is: the figures it asks for, what comes of them, its picture, what is kept.

use super::given::Given;
use super::keep::Keep;
use crate::cautions::Caution;
use crate::drawing::Drawing;
use crate::length::reword;
use crate::quick::Refusal;
use tautmark_ui::Verdict;

/// One free-standing calculation.
pub struct Sum {
    /// Its name in files; never shown.
    pub id: &'static str,
    pub title: &'static str,
    pub stage: Stage,
    /// The question it answers, in one line.
    pub answers: &'static str,
    /// What to do, while figures are missing.
    pub how: &'static str,
    /// Where its figure comes from, and what would make it better.
    pub why: &'static str,
    pub inputs: &'static [Input],
    pub work: fn(&Given<'_>) -> Worked,
    pub picture: fn(&Given<'_>) -> Drawing,
    pub caution: Option<&'static Caution>,
    pub keep: Option<Keep>,
}

impl Sum {
    /// The figure of that key.
    #[must_use]
    pub fn input(&self, key: &str) -> Option<&'static Input> {
        self.inputs.iter().find(|input| input.key == key)
    }
}

/// The part of the work that a sum belongs to.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Stage {
    Measure,
    Strings,
    Posts,
    Levels,
    Boards,
    Gate,
}

impl Stage {
    /// All of them, in the order of the work.
    pub const ALL: [Self; 6] = [
        Self::Measure,
        Self::Strings,
        Self::Posts,
        Self::Levels,
        Self::Boards,
        Self::Gate,
    ];

    /// What it is called over its sums.
    #[must_use]
    pub fn name(self) -> &'static str {
        match self {
            Self::Measure => "Measure what is there",
            Self::Strings => "Stretch the strings",
            Self::Posts => "Mark and set the posts",
            Self::Levels => "Carry the level",
            Self::Boards => "Cut rails and boards",
            Self::Gate => "Hang the gate",
        }
    }
}

/// One figure of a sum.
#[derive(Clone, Copy)]
pub struct Input {
    /// Where it is kept; also tells it in the picture.
    pub key: &'static str,
    pub label: &'static str,
    /// How it is taken.
    pub how: &'static str,
    /// What a refusal and the empty picture call it.
    pub called: &'static str,
    pub kind: Kind,
    pub need: Need,
}

/// How a figure is typed.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Kind {
    /// A length, mm.
    Length,
    /// A length on two keys for up and down, mm; down is positive.
    Down,
    /// A length on two keys for up and down, mm; up is positive.
    Up,
    Degrees,
    Count,
    /// A number with a unit of its own.
    Number(&'static str),
    /// One of a few, from 0.
    Choice(&'static [&'static str]),
}

/// Whether a sum can do without a figure.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Need {
    Must,
    May,
    /// This is taken until something else is typed.
    Usual(f64),
}

impl Input {
    const fn new(key: &'static str, label: &'static str, kind: Kind) -> Self {
        Self {
            key,
            label,
            how: "",
            called: label,
            kind,
            need: Need::Must,
        }
    }

    /// A length.
    pub const fn length(key: &'static str, label: &'static str) -> Self {
        Self::new(key, label, Kind::Length)
    }

    /// A sight: down from a laser line.
    pub const fn down(key: &'static str, label: &'static str) -> Self {
        Self::new(key, label, Kind::Down)
    }

    /// A height: up from somewhere.
    pub const fn up(key: &'static str, label: &'static str) -> Self {
        Self::new(key, label, Kind::Up)
    }

    /// An angle.
    pub const fn degrees(key: &'static str, label: &'static str) -> Self {
        Self::new(key, label, Kind::Degrees)
    }

    /// How many.
    pub const fn count(key: &'static str, label: &'static str) -> Self {
        Self::new(key, label, Kind::Count)
    }

    /// A number with a unit of its own.
    pub const fn number(key: &'static str, label: &'static str, unit: &'static str) -> Self {
        Self::new(key, label, Kind::Number(unit))
    }

    /// One of a few; the first until another is picked.
    pub const fn choice(
        key: &'static str,
        label: &'static str,
        options: &'static [&'static str],
    ) -> Self {
        let mut input = Self::new(key, label, Kind::Choice(options));
        input.need = Need::Usual(0.0);
        input
    }

    /// With how it is taken.
    pub const fn how(mut self, how: &'static str) -> Self {
        self.how = how;
        self
    }

    /// With what a refusal and the empty picture call it.
    pub const fn called(mut self, called: &'static str) -> Self {
        self.called = called;
        self
    }

    /// With a figure that is taken until another is typed.
    pub const fn usually(mut self, value: f64) -> Self {
        self.need = Need::Usual(value);
        self
    }

    /// One that the sum can do without.
    pub const fn may(mut self) -> Self {
        self.need = Need::May;
        self
    }
}

/// What comes of a sum: nothing while figures are missing.
pub type Worked = Option<Result<Answer, Refused>>;

/// Figures that cannot all be, and why.
#[derive(Debug)]
pub struct Refused {
    pub text: String,
    /// What the figure at fault is called, where it is one.
    pub called: Option<&'static str>,
}

impl<E: Refusal> From<E> for Refused {
    fn from(error: E) -> Self {
        Self {
            text: error.to_string(),
            called: error.figure(),
        }
    }
}

impl Refused {
    /// The reason, its lengths in the unit they are typed in.
    #[must_use]
    pub fn said(&self, given: &Given<'_>) -> String {
        reword(&self.text, given.unit).into_owned()
    }
}

/// What comes out: one main figure, others, and what is to be said of them.
#[derive(Debug)]
pub struct Answer {
    /// What the main figure is.
    pub what: String,
    pub figure: String,
    /// Its ± or unit.
    pub tail: String,
    pub rows: Vec<Found>,
    pub verdict: Verdict,
    pub says: String,
}

/// A further figure that comes out.
#[derive(Debug)]
pub struct Found {
    pub label: String,
    pub note: String,
    pub figure: String,
    pub tail: String,
}

impl Answer {
    /// An answer with its main figure and its ± or unit.
    pub fn new(
        what: impl Into<String>,
        figure: impl Into<String>,
        tail: impl Into<String>,
    ) -> Self {
        Self {
            what: what.into(),
            figure: figure.into(),
            tail: tail.into(),
            rows: Vec::new(),
            verdict: Verdict::None,
            says: String::new(),
        }
    }

    /// With another figure.
    pub fn row(
        mut self,
        label: impl Into<String>,
        figure: impl Into<String>,
        tail: impl Into<String>,
    ) -> Self {
        self.rows.push(Found {
            label: label.into(),
            note: String::new(),
            figure: figure.into(),
            tail: tail.into(),
        });
        self
    }

    /// With a line under the latest figure.
    pub fn noted(mut self, note: impl Into<String>) -> Self {
        if let Some(row) = self.rows.last_mut() {
            row.note = note.into();
        }
        self
    }

    /// With a sentence more; the gravest of all is the verdict.
    pub fn says(mut self, verdict: Verdict, text: impl AsRef<str>) -> Self {
        if !self.says.is_empty() {
            self.says.push_str("\n\n");
        }
        self.says.push_str(text.as_ref());
        if grave(verdict) > grave(self.verdict) {
            self.verdict = verdict;
        }
        self
    }
}

fn grave(verdict: Verdict) -> u8 {
    match verdict {
        Verdict::None => 0,
        Verdict::Note => 1,
        Verdict::Good => 2,
        Verdict::Attention => 3,
        Verdict::Bad => 4,
    }
}
