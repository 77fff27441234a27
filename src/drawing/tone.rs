//! Which pot of ink each thing is drawn with. The renderer knows the colours of the pots.

use super::model::{Role, Stress};

/// A pot of ink: one colour by day, one by night, one on paper.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Tone {
    /// Outlines, words and figures.
    Ink,
    /// What steps back: readings, leaders, holes.
    Second,
    /// Rules between the rows of a table.
    Rule,
    /// Strings, and whatever is asked for or chosen.
    String,
    /// Laser lines.
    Level,
    /// Inside of a wall's hatched strip.
    Wall,
    /// Hatch lines.
    Hatch,
    /// The ground, cut through.
    Earth,
    /// The line of the ground.
    Soil,
    /// Inside of a gravel board.
    Board,
    /// Inside of a rail or a gate.
    Timber,
    /// Pales, outline and inside.
    Pale,
    /// The ground that everything is drawn on.
    Paper,
    /// Inside of a post still to be set.
    Post,
    /// A reading that does not fit the others.
    Bad,
}

/// What a thing is outlined with.
#[must_use]
pub fn outline(role: Role, stress: Stress) -> Tone {
    match (role, stress) {
        (Role::Post | Role::DonePost | Role::LyingPost, _) => Tone::Ink,
        (Role::SuspectTape, _) => Tone::Bad,
        (Role::LaserLine, _) => Tone::Level,
        (Role::String | Role::AskedTape, _) | (_, Stress::Chosen) => Tone::String,
        (Role::Sketch | Role::Tape | Role::LeftOut | Role::Quiet | Role::Hole, _) => Tone::Second,
        (Role::GravelBoard | Role::Rail, _) => Tone::Second,
        (Role::Pale, _) => Tone::Pale,
        (Role::Ground | Role::GuessedGround, _) => Tone::Soil,
        (Role::Wall | Role::Mark | Role::Gate | Role::Dimension | Role::Text, _) => Tone::Ink,
    }
}

/// What a thing is filled with.
#[must_use]
pub fn filling(role: Role, stress: Stress) -> Tone {
    match (role, stress) {
        (Role::Post | Role::DonePost, Stress::Chosen) => Tone::String,
        (Role::Post | Role::LyingPost, Stress::Plain) => Tone::Post,
        (Role::DonePost, Stress::Plain) => Tone::Ink,
        (Role::GravelBoard, _) => Tone::Board,
        (Role::Rail | Role::Gate, _) => Tone::Timber,
        (Role::Pale, _) => Tone::Pale,
        (Role::Ground | Role::GuessedGround, _) => Tone::Earth,
        (Role::Wall, _) => Tone::Wall,
        _ => Tone::Paper,
    }
}
