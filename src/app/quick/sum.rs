//! What a quick sum is: the figures it asks for, what comes of them, its picture, what is kept.

use super::answer::{Stop, Worked};
use super::given::Given;
use super::input::Input;
use super::keep::Keep;
use super::pen::Pen;
use crate::cautions::Caution;
use crate::drawing::Drawing;

/// One free-standing calculation.
pub struct QuickSum {
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
    pub picture: fn(&mut Pen<'_>),
    /// What the picture shows, in words.
    pub pictured: &'static str,
    pub cautions: &'static [Caution],
    pub keep: Option<Keep>,
}

impl QuickSum {
    /// Nothing yet: what most sums have no use for stays as it is here.
    pub const BARE: Self = Self {
        id: "",
        title: "",
        stage: Stage::Measure,
        answers: "",
        how: "",
        why: "",
        inputs: &[],
        work: |_| Err(Stop::Missing),
        picture: |_| {},
        pictured: "",
        cautions: &[],
        keep: None,
    };

    /// Its picture, with its figures as they stand.
    #[must_use]
    pub fn drawing(&self, given: &Given<'_>) -> Drawing {
        let mut pen = Pen::new(given);
        (self.picture)(&mut pen);
        pen.done(self.pictured)
    }

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
