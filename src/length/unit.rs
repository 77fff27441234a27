//! The unit that a person works in.

use super::InchPart;
use serde::{Deserialize, Deserializer, Serialize, Serializer};

/// How lengths are shown, and what a figure without a unit means.
///
/// By itself it is written as in the job file, `"mm"`, `"m"` or `"ft-in"`, without the part of an inch.
#[derive(Clone, Copy, PartialEq, Eq, Debug, Default)]
pub enum Unit {
    /// Whole millimetres.
    #[default]
    Mm,
    /// Metres to three decimals.
    M,
    /// Feet, inches and the smallest part of an inch that is shown; a bare figure is inches.
    FtIn(InchPart),
}

impl Unit {
    /// Feet, inches and sixteenths.
    pub const FEET: Self = Self::FtIn(InchPart::Sixteenth);

    /// Every unit, in the order in which to offer them.
    pub const ALL: [Self; 3] = [Self::Mm, Self::M, Self::FEET];

    /// Whether lengths are feet and inches.
    #[must_use]
    pub const fn is_feet(self) -> bool {
        matches!(self, Self::FtIn(_))
    }

    /// The same unit, feet and inches to that part.
    #[must_use]
    pub const fn to_part(self, part: InchPart) -> Self {
        match self {
            Self::FtIn(_) => Self::FtIn(part),
            metric => metric,
        }
    }

    /// The smallest part of an inch that is shown; none in millimetres and metres.
    #[must_use]
    pub const fn part(self) -> Option<InchPart> {
        match self {
            Self::FtIn(part) => Some(part),
            _ => None,
        }
    }

    /// Its place in [`Unit::ALL`], whatever the part.
    #[must_use]
    pub const fn place(self) -> usize {
        match self {
            Self::Mm => 0,
            Self::M => 1,
            Self::FtIn(_) => 2,
        }
    }

    /// The name that stands after a figure: `mm`, `m`, or none, since feet and inches carry their
    /// marks.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::Mm => "mm",
            Self::M => "m",
            Self::FtIn(_) => "",
        }
    }
}

#[derive(Serialize, Deserialize)]
enum OnDisk {
    #[serde(rename = "mm")]
    Mm,
    #[serde(rename = "m")]
    M,
    #[serde(rename = "ft-in")]
    FtIn,
}

impl Serialize for Unit {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        match self {
            Self::Mm => OnDisk::Mm,
            Self::M => OnDisk::M,
            Self::FtIn(_) => OnDisk::FtIn,
        }
        .serialize(serializer)
    }
}

impl<'de> Deserialize<'de> for Unit {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        Ok(match OnDisk::deserialize(deserializer)? {
            OnDisk::Mm => Self::Mm,
            OnDisk::M => Self::M,
            OnDisk::FtIn => Self::FEET,
        })
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn units_are_named_as_in_the_job_file() {
        for (unit, name) in Unit::ALL.into_iter().zip(["\"mm\"", "\"m\"", "\"ft-in\""]) {
            assert_eq!(serde_json::to_string(&unit).expect("a name"), name);
            assert_eq!(serde_json::from_str::<Unit>(name).expect("a unit"), unit);
            assert_eq!(Unit::ALL[unit.place()], unit);
        }
        assert_eq!(Unit::default(), Unit::Mm);
        assert!(serde_json::from_str::<Unit>("\"feet\"").is_err());
    }

    #[test]
    fn a_part_belongs_to_feet_and_inches_alone() {
        assert_eq!(
            Unit::FEET.to_part(InchPart::Eighth).part(),
            Some(InchPart::Eighth)
        );
        assert_eq!(Unit::M.to_part(InchPart::Eighth).part(), None);
        for part in InchPart::ALL {
            let name = serde_json::to_string(&part).expect("a name");
            assert_eq!(name, format!("\"{}\"", part.name()));
        }
    }
}
