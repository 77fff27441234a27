//! What the plane network, the lines and the corners come to.

use super::ray::Ray;
use crate::adjust::misread::Hint;
use crate::job::{LineId, MarkId};
use nalgebra::Vector2;
use serde::Serialize;

/// Whether everything holds together, or something can still move.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "lowercase")]
pub enum NetworkStatus {
    /// Everything that was measured has its place.
    Fixed,
    /// Something has too few readings to hold it.
    Loose,
}

/// Where a mark is, and how sure, mm.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct MarkFix {
    /// Along +x of the [`Frame`](super::SiteFrame).
    pub x: f64,
    /// Along +y of that frame.
    pub y: f64,
    /// Half width of the 95 % band along `axis`, the larger axis of its ellipse.
    pub pm: f64,
    /// Bearing along which it is least sure, degrees; `pm` holds that way.
    pub axis: f64,
}

/// What one used reading comes to: mm, or degrees for an angle.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct ReadingFix {
    /// Place in the file's list of readings.
    pub index: usize,
    /// What the fit makes of it, as it would be read.
    pub adjusted: f64,
    /// Adjusted less observed.
    pub residual: f64,
    /// The share of this reading that the others check, 0 to 1.
    pub redundancy: f64,
    /// |residual| in standard deviations of the residual; 0 where nothing checks the reading.
    pub standardised: f64,
    /// A smaller slip in this reading would not show; none where nothing checks it.
    #[serde(rename = "least slip")]
    pub least_slip: Option<f64>,
    /// What the others make of it where it is suspect; none too where something is loose without it.
    #[serde(flatten)]
    pub suspect: Option<SuspectFix>,
}

/// What the other readings make of a suspect one, a sloping tape as it would be read on its slope:
/// mm, or degrees for an angle.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct SuspectFix {
    /// What it should have read.
    pub predicted: f64,
    /// Half width of the 95 % band of that prediction.
    #[serde(rename = "predicted pm")]
    pub predicted_pm: f64,
    /// Observed less predicted.
    pub slip: f64,
    /// A usual misreading that explains the slip; none where no usual one does.
    pub hint: Option<Hint>,
}

/// How the readings hold together.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct NetworkFix {
    /// Whether every mark has its place.
    pub status: NetworkStatus,
    /// Marks that can still move, in the order of the file.
    pub loose: Vec<MarkId>,
    /// Readings less the rank of the normal matrix: what is loose hides no check.
    pub redundancy: i64,
    /// Σ(v/sd)².
    pub chi2: f64,
    /// None of the readings stands out, and together they scatter no more than stated.
    pub agrees: bool,
    /// A mark that may be, or must be, on the other side from where it is drawn.
    #[serde(rename = "other side", skip_serializing_if = "Option::is_none")]
    pub other_side: Option<OtherSide>,
    /// Least Σ(v/sd)² that leaving out one reading gives; only where one is suspect.
    #[serde(rename = "chi2 without", skip_serializing_if = "Option::is_none")]
    pub chi2_without: Option<f64>,
    /// Places of the suspect readings in the file's list.
    pub suspects: Vec<usize>,
    /// Leaving out any one reading does not make the others agree.
    #[serde(
        rename = "more than one wrong",
        skip_serializing_if = "std::ops::Not::not"
    )]
    pub more_than_one_wrong: bool,
}

/// A mark on the other side of the line between two others from where it is drawn.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct OtherSide {
    /// The mark that is beside it.
    pub mark: MarkId,
    /// Where the line begins.
    pub from: MarkId,
    /// Where the line ends.
    pub to: MarkId,
    /// The readings fit only so, and that is how the marks are worked out; else the mark is where it
    /// is drawn and one reading does not fit, while all would on the other side.
    pub taken: bool,
}

/// The next tape worth taking, mm.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct NextTape {
    /// Where to hold it.
    pub from: MarkId,
    /// Where to read it.
    pub to: MarkId,
    /// The largest ± of a mark as it is; none while marks are loose.
    pub before: Option<f64>,
    /// The largest ± of a mark with that tape.
    pub after: f64,
    /// Marks that can move now and cannot with that tape.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub settles: Vec<MarkId>,
}

/// A string line: a point on it (mm) and its bearing (degrees).
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct LineFix {
    /// Of a point on it, along +x of the marks' frame.
    pub x: f64,
    /// Of that point, along +y.
    pub y: f64,
    /// Direction of the string from +x, counter-clockwise.
    pub bearing: f64,
    /// How far each nail is off the straight string, mm, away from the wall positive; only where
    /// there are three nails or more.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub bow: Option<Vec<f64>>,
}

impl LineFix {
    /// The string as a ray from its point, along its direction.
    #[must_use]
    pub fn ray(&self) -> Ray {
        let (sin, cos) = self.bearing.to_radians().sin_cos();
        Ray {
            through: Vector2::new(self.x, self.y),
            along: Vector2::new(cos, sin),
        }
    }
}

/// Where two lines cross: mm and degrees.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct CornerFix {
    /// Of the crossing, along +x of the marks' frame.
    pub x: f64,
    /// Of the crossing, along +y.
    pub y: f64,
    /// Half width of the 95 % band of the crossing, along its least sure direction.
    pub pm: f64,
    /// Angle between the arms: 180 less the turn.
    pub angle: f64,
    /// Half width of the 95 % band of the angle.
    #[serde(rename = "angle pm")]
    pub angle_pm: f64,
    /// Unsigned change of direction from the first line onto the second.
    pub turn: f64,
    /// Saw angle off square for a mitred joint: half the turn.
    pub bevel: f64,
    /// What the tape across must read with equal arms.
    pub check: Vec<Diagonal>,
    /// The strings as stretched, from the diagonals taped across them.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub checks: Vec<StretchedFix>,
    /// Where its post stands; none where no run meets the corner.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub post: Option<CornerPostFix>,
}

/// A check diagonal: the tape from one string to the other, both marked `arm` from the corner, mm.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct Diagonal {
    /// From the crossing along either string.
    pub arm: f64,
    /// What the tape across must read.
    pub diagonal: f64,
    /// Half width of the 95 % band of the diagonal, with the marking of both arms.
    pub pm: f64,
}

/// What a diagonal taped across a corner makes of its strings: mm and degrees.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct StretchedFix {
    /// Place in the corner's list of checks.
    pub index: usize,
    /// As marked on the first string and on the second.
    pub arms: [f64; 2],
    /// As taped across.
    pub diagonal: f64,
    /// Between the strings as they are stretched.
    pub angle: f64,
    /// Of that angle, from the marking of both arms and the tape across.
    pub pm: f64,
    /// What to do about it.
    pub verdict: StretchVerdict,
    /// How to bring them to the corner's angle; only with [`StretchVerdict::Move`].
    #[serde(rename = "move", skip_serializing_if = "Option::is_none")]
    pub end_move: Option<EndMove>,
}

/// What is to be done about strings as stretched.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "lowercase")]
pub enum StretchVerdict {
    /// As near to the corner's angle as the tapes can tell.
    Within,
    /// A string's end is to be moved.
    Move,
    /// Further off than a string is out: other arms, or another diagonal.
    Asked,
}

/// How far to move the far end of a string, mm.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct EndMove {
    /// The string whose far end moves.
    pub line: LineId,
    /// The string that it is moved against.
    pub other: LineId,
    /// From the crossing along the string to the end that moves.
    pub at: f64,
    /// Square to the string.
    pub by: f64,
    /// Half width of the 95 % band of that move.
    pub pm: f64,
    /// Towards the other string or away from it.
    pub way: EndWay,
}

/// Which way a string's end goes.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "lowercase")]
pub enum EndWay {
    /// Towards the other string: the angle shrinks.
    Towards,
    /// Away from the other string: the angle grows.
    Away,
}

/// A corner post: its centre (mm) and the bearing of its width (degrees).
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct CornerPostFix {
    /// Along +x of the marks' frame.
    pub x: f64,
    /// Along +y.
    pub y: f64,
    /// Of its width axis from +x, counter-clockwise.
    pub rotation: f64,
    /// Along that axis, mm.
    #[serde(skip)]
    pub width: f64,
    /// Across that axis, mm.
    #[serde(skip)]
    pub depth: f64,
}
