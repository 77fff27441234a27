//! The units that may follow a figure, and their names.

/// A unit as written after a figure.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub(super) enum LengthMeasure {
    Mm,
    Cm,
    M,
    Foot,
    Inch,
}

const NAMES: [(&str, LengthMeasure); 21] = [
    ("mm", LengthMeasure::Mm),
    ("millimetre", LengthMeasure::Mm),
    ("millimetres", LengthMeasure::Mm),
    ("millimeter", LengthMeasure::Mm),
    ("millimeters", LengthMeasure::Mm),
    ("cm", LengthMeasure::Cm),
    ("centimetre", LengthMeasure::Cm),
    ("centimetres", LengthMeasure::Cm),
    ("centimeter", LengthMeasure::Cm),
    ("centimeters", LengthMeasure::Cm),
    ("m", LengthMeasure::M),
    ("metre", LengthMeasure::M),
    ("metres", LengthMeasure::M),
    ("meter", LengthMeasure::M),
    ("meters", LengthMeasure::M),
    ("ft", LengthMeasure::Foot),
    ("foot", LengthMeasure::Foot),
    ("feet", LengthMeasure::Foot),
    ("in", LengthMeasure::Inch),
    ("inch", LengthMeasure::Inch),
    ("inches", LengthMeasure::Inch),
];

impl LengthMeasure {
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
