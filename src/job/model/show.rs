//! How figures are shown.

use super::Extra;
use crate::length::{InchPart, Unit};
use serde::{Deserialize, Serialize};

/// How figures are shown.
///
/// ```
/// use tautmark::job::model::Show;
/// use tautmark::length::{InchPart, Unit};
/// let show: Show = serde_json::from_str(r#"{ "lengths": "ft-in", "part": "1/8" }"#).unwrap();
/// assert_eq!(show.lengths, Unit::FtIn(InchPart::Eighth));
/// ```
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
#[serde(from = "OnDisk", into = "OnDisk")]
pub struct Show {
    /// The unit of lengths, with the smallest part of an inch where they are feet and inches.
    pub lengths: Unit,
    /// That part while lengths are metric: it is taken again when they are feet and inches.
    pub other_part: Option<InchPart>,
    /// What of a rail its heights are of.
    pub rail: RailEdge,
    /// Keys that this program does not know, kept as they are.
    pub extra: Extra,
}

/// What of a rail a height on a post is of.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "lowercase")]
pub enum RailEdge {
    /// Its upper edge.
    Top,
    /// Its middle.
    #[default]
    Centre,
    /// Its lower edge.
    Bottom,
}

impl RailEdge {
    /// From a rail's centre up to it, mm, of a rail so high.
    #[must_use]
    pub fn above_centre(self, height: f64) -> f64 {
        match self {
            Self::Top => height / 2.0,
            Self::Centre => 0.0,
            Self::Bottom => -height / 2.0,
        }
    }

    /// What a person calls it.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::Top => "top",
            Self::Centre => "centre",
            Self::Bottom => "bottom",
        }
    }

    #[expect(clippy::trivially_copy_pass_by_ref, reason = "what serde asks for")]
    fn is_centre(&self) -> bool {
        *self == Self::Centre
    }
}

impl Show {
    /// The same with lengths in `unit`; the smallest part of an inch stays what it was.
    #[must_use]
    pub fn turned_to(&self, unit: Unit) -> Self {
        let part = self.lengths.part().or(self.other_part);
        let lengths = part.map_or(unit, |part| unit.to_part(part));
        Self {
            lengths,
            other_part: part.filter(|_| !lengths.is_feet()),
            rail: self.rail,
            extra: self.extra.clone(),
        }
    }
}

#[derive(Serialize, Deserialize)]
struct OnDisk {
    #[serde(default)]
    lengths: Unit,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    part: Option<InchPart>,
    #[serde(default, skip_serializing_if = "RailEdge::is_centre")]
    rail: RailEdge,
    #[serde(flatten)]
    extra: Extra,
}

impl From<OnDisk> for Show {
    fn from(disk: OnDisk) -> Self {
        let lengths = disk
            .part
            .map_or(disk.lengths, |part| disk.lengths.to_part(part));
        Self {
            lengths,
            other_part: disk.part.filter(|_| !lengths.is_feet()),
            rail: disk.rail,
            extra: disk.extra,
        }
    }
}

impl From<Show> for OnDisk {
    fn from(show: Show) -> Self {
        // Sixteenths need no word, so that a job is written as it was read.
        let shown = show
            .lengths
            .part()
            .filter(|part| *part != InchPart::default());
        Self {
            lengths: show.lengths,
            part: shown.or(show.other_part.filter(|_| !show.lengths.is_feet())),
            rail: show.rail,
            extra: show.extra,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn again(show: &Show) -> (String, Show) {
        let text = serde_json::to_string(show).expect("written");
        let read = serde_json::from_str(&text).expect("read");
        (text, read)
    }

    #[test]
    fn the_part_outlives_a_turn_to_metres_and_back() {
        let feet = Show {
            lengths: Unit::FtIn(InchPart::ThirtySecond),
            ..Show::default()
        };
        let (text, read) = again(&feet);
        assert_eq!(text, r#"{"lengths":"ft-in","part":"1/32"}"#);
        assert_eq!(read, feet);
        let metres = feet.turned_to(Unit::M);
        let (text, read) = again(&metres);
        assert_eq!(text, r#"{"lengths":"m","part":"1/32"}"#);
        assert_eq!(read, metres);
        assert_eq!(read.turned_to(Unit::FEET), feet);
    }

    #[test]
    fn an_old_job_means_and_writes_what_it_did() {
        for (text, unit) in [
            (r#"{"lengths":"mm"}"#, Unit::Mm),
            (r#"{"lengths":"ft-in","later":1}"#, Unit::FEET),
        ] {
            let show: Show = serde_json::from_str(text).expect("read");
            assert_eq!(show.lengths, unit);
            assert_eq!(again(&show).0, text);
        }
        assert!(serde_json::from_str::<Show>(r#"{"part":"1/7"}"#).is_err());
    }
}
