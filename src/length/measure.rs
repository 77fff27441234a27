//! The units that may follow a figure, and their names.

/// A unit as written after a figure.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub(super) enum Measure {
    Mm,
    Cm,
    M,
    Foot,
    Inch,
}

const NAMES: [(&str, Measure); 21] = [
    ("mm", Measure::Mm),
    ("millimetre", Measure::Mm),
    ("millimetres", Measure::Mm),
    ("millimeter", Measure::Mm),
    ("millimeters", Measure::Mm),
    ("cm", Measure::Cm),
    ("centimetre", Measure::Cm),
    ("centimetres", Measure::Cm),
    ("centimeter", Measure::Cm),
    ("centimeters", Measure::Cm),
    ("m", Measure::M),
    ("metre", Measure::M),
    ("metres", Measure::M),
    ("meter", Measure::M),
    ("meters", Measure::M),
    ("ft", Measure::Foot),
    ("foot", Measure::Foot),
    ("feet", Measure::Foot),
    ("in", Measure::Inch),
    ("inch", Measure::Inch),
    ("inches", Measure::Inch),
];

impl Measure {
    /// The unit of that name, in lower case.
    pub(super) fn named(word: &str) -> Option<Self> {
        NAMES
            .iter()
            .find(|(name, _)| *name == word)
            .map(|(_, measure)| *measure)
    }

    /// Whether typing on can make a name of `word`.
    pub(super) fn begins_a_name(word: &str) -> bool {
        NAMES.iter().any(|(name, _)| name.starts_with(word))
    }
}
