//! What can be named in a job.

use crate::job::ids::{CornerId, LineId, MarkId, PointId, RunId, SetupId, WallId};
use crate::job::model::{Corner, Gate, Line, Mark, Marked, Pin, Point, Run, Setup, Sight, Wall};
use crate::job::reading::Reading;
use serde::{Deserialize, Serialize};

/// A thing in a job, by its name.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "lowercase")]
pub enum Thing {
    /// A point that is measured between.
    Mark(MarkId),
    /// A straight wall from mark to mark.
    Wall(WallId),
    /// A string stretched for the fence.
    Line(LineId),
    /// A crossing of two strings.
    Corner(CornerId),
    /// A stretch of fence along one string.
    Run(RunId),
    /// A point with a height.
    Point(PointId),
    /// A position of the laser.
    Setup(SetupId),
}

impl Thing {
    /// The same kind of thing by another name.
    #[must_use]
    pub fn renamed(&self, name: &str) -> Self {
        match self {
            Self::Mark(_) => Self::Mark(name.into()),
            Self::Wall(_) => Self::Wall(name.into()),
            Self::Line(_) => Self::Line(name.into()),
            Self::Corner(_) => Self::Corner(name.into()),
            Self::Run(_) => Self::Run(name.into()),
            Self::Point(_) => Self::Point(name.into()),
            Self::Setup(_) => Self::Setup(name.into()),
        }
    }

    /// The trade's word for what it is.
    #[must_use]
    pub fn kind(&self) -> &'static str {
        match self {
            Thing::Mark(_) => Mark::KIND,
            Thing::Wall(_) => Wall::KIND,
            Thing::Line(_) => Line::KIND,
            Thing::Corner(_) => Corner::KIND,
            Thing::Run(_) => Run::KIND,
            Thing::Point(_) => Point::KIND,
            Thing::Setup(_) => Setup::KIND,
        }
    }

    /// Its name.
    #[must_use]
    pub fn name(&self) -> &str {
        match self {
            Thing::Mark(id) => id.as_str(),
            Thing::Wall(id) => id.as_str(),
            Thing::Line(id) => id.as_str(),
            Thing::Corner(id) => id.as_str(),
            Thing::Run(id) => id.as_str(),
            Thing::Point(id) => id.as_str(),
            Thing::Setup(id) => id.as_str(),
        }
    }
}

/// One entry of a list of the job.
pub(super) trait ListItem: Clone {
    /// The trade's word for it.
    const KIND: &'static str;

    /// The name that no other of its kind may have; `None` for what has no name.
    fn name(&self) -> Option<&str> {
        None
    }
}

macro_rules! items {
    (named: $($named:ty = $word:literal),*; nameless: $($plain:ty = $plain_word:literal),*;) => {
        $(impl ListItem for $named {
            const KIND: &'static str = $word;

            fn name(&self) -> Option<&str> {
                Some(self.id.as_str())
            }
        })*
        $(impl ListItem for $plain {
            const KIND: &'static str = $plain_word;
        })*
    };
}

items! {
    named: Mark = "mark", Wall = "wall", Line = "line", Corner = "corner", Run = "run",
        Point = "point", Setup = "set-up";
    nameless: Reading = "reading", Gate = "gate", Pin = "pin", Sight = "sight",
        Marked = "post marked as done";
}
