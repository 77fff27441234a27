//! One measurement, as it is in the file: tape, offset, inline or angle.

use super::extra::Extra;
use super::site::Side;
use crate::job::ids::{MarkId, WallId};
use serde::{Deserialize, Serialize};
use serde_json::Value;

/// Standard deviation of an inline reading where none is given, mm.
pub const INLINE_SD: f64 = 1.0;
/// Standard deviation of an angle where none is given, degrees.
pub const ANGLE_SD: f64 = 0.3;

/// A reading and whether it is used.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(from = "OnDisk", into = "OnDisk")]
pub struct Reading {
    /// What was read, and between what.
    pub what: Measure,
    /// False where it is left out of the fit.
    pub used: bool,
    /// Keys that this program or this kind does not know, kept as they are.
    pub extra: Extra,
}

/// What was measured. Lengths mm, angles degrees; `None` where nothing has been read yet.
#[derive(Clone, Debug, PartialEq)]
pub enum Measure {
    /// Mark to mark; `drop` is the height difference of the ends when taped on the slope.
    Tape {
        /// Where the tape was held.
        from: MarkId,
        /// Where it was read.
        to: MarkId,
        /// As read on the tape, mm; `None` while not read.
        length: Option<f64>,
        /// How much higher one end was than the other, mm; 0 where it was taped level.
        drop: f64,
    },
    /// Square off a wall's line to a mark.
    Offset {
        /// The mark that was offset to.
        mark: MarkId,
        /// The wall whose line it was measured from.
        wall: WallId,
        /// The side of the wall, looking along it, that the mark is on; asked for where it is
        /// missing.
        side: Option<Side>,
        /// Square off the wall's line, mm; `None` while not read.
        length: Option<f64>,
    },
    /// A mark on the string between two others.
    Inline {
        /// The mark on the string.
        mark: MarkId,
        /// The two marks the string is stretched between.
        with: [MarkId; 2],
        /// Standard deviation across the string, mm; [`INLINE_SD`] where none is given.
        sd: f64,
    },
    /// The unsigned angle at a mark between two others, 0 to 180.
    Angle {
        /// The mark on one arm.
        from: MarkId,
        /// The mark the angle is turned at.
        at: MarkId,
        /// The mark on the other arm.
        to: MarkId,
        /// From 0 to 180; `None` while not read.
        degrees: Option<f64>,
        /// Standard deviation, degrees; [`ANGLE_SD`] where none is given.
        sd: f64,
    },
    /// A kind this program does not know.
    Other {
        /// The word that the file has for it.
        kind: String,
    },
}

impl Reading {
    /// A used tape between two marks, read level, mm.
    #[must_use]
    pub fn tape(from: MarkId, to: MarkId, length: f64) -> Self {
        Measure::Tape {
            from,
            to,
            length: Some(length),
            drop: 0.0,
        }
        .into()
    }
}

impl Measure {
    /// A level length as this reading would read it: a tape on its slope √(level² + drop²), mm;
    /// anything else as it is.
    #[must_use]
    pub fn as_read(&self, level: f64) -> f64 {
        match self {
            Self::Tape { drop, .. } if *drop != 0.0 => level.hypot(*drop),
            _ => level,
        }
    }
}

impl From<Measure> for Reading {
    fn from(what: Measure) -> Self {
        Self {
            what,
            used: true,
            extra: Extra::new(),
        }
    }
}

/// The keys of every kind side by side. A key that its kind does not use goes to `extra`.
#[derive(Clone, Default, Serialize, Deserialize)]
#[serde(default)]
struct OnDisk {
    kind: String,
    #[serde(skip_serializing_if = "Option::is_none")]
    mark: Option<MarkId>,
    #[serde(skip_serializing_if = "Option::is_none")]
    wall: Option<WallId>,
    #[serde(skip_serializing_if = "Option::is_none")]
    from: Option<MarkId>,
    #[serde(skip_serializing_if = "Option::is_none")]
    at: Option<MarkId>,
    #[serde(skip_serializing_if = "Option::is_none")]
    to: Option<MarkId>,
    #[serde(skip_serializing_if = "Option::is_none")]
    with: Option<[MarkId; 2]>,
    #[serde(skip_serializing_if = "Option::is_none")]
    side: Option<Side>,
    #[serde(skip_serializing_if = "Option::is_none")]
    length: Option<f64>,
    #[serde(skip_serializing_if = "Option::is_none")]
    drop: Option<f64>,
    #[serde(skip_serializing_if = "Option::is_none")]
    degrees: Option<f64>,
    #[serde(skip_serializing_if = "Option::is_none")]
    sd: Option<f64>,
    #[serde(rename = "use", skip_serializing_if = "Option::is_none")]
    used: Option<bool>,
    #[serde(flatten)]
    extra: Extra,
}

impl From<OnDisk> for Reading {
    fn from(mut disk: OnDisk) -> Self {
        let what = match disk.kind.as_str() {
            "tape" => Measure::Tape {
                from: disk.from.take().unwrap_or_default(),
                to: disk.to.take().unwrap_or_default(),
                length: disk.length.take(),
                drop: disk.drop.take().unwrap_or(0.0),
            },
            "offset" => Measure::Offset {
                mark: disk.mark.take().unwrap_or_default(),
                wall: disk.wall.take().unwrap_or_default(),
                side: disk.side.take(),
                length: disk.length.take(),
            },
            "inline" => Measure::Inline {
                mark: disk.mark.take().unwrap_or_default(),
                with: disk.with.take().unwrap_or_default(),
                sd: disk.sd.take().unwrap_or(INLINE_SD),
            },
            "angle" => Measure::Angle {
                from: disk.from.take().unwrap_or_default(),
                at: disk.at.take().unwrap_or_default(),
                to: disk.to.take().unwrap_or_default(),
                degrees: disk.degrees.take(),
                sd: disk.sd.take().unwrap_or(ANGLE_SD),
            },
            kind => Measure::Other {
                kind: kind.to_owned(),
            },
        };
        let used = disk.used.take().unwrap_or(true);
        Self {
            what,
            used,
            extra: left_over(disk),
        }
    }
}

/// What the reading's kind did not take, kept key by key.
fn left_over(mut disk: OnDisk) -> Extra {
    disk.kind.clear();
    let mut extra = std::mem::take(&mut disk.extra);
    if let Ok(Value::Object(rest)) = serde_json::to_value(disk) {
        extra.extend(rest.into_iter().filter(|(key, _)| key != "kind"));
    }
    extra
}

impl From<Reading> for OnDisk {
    fn from(reading: Reading) -> Self {
        let mut disk = OnDisk {
            extra: reading.extra,
            ..OnDisk::default()
        };
        if !reading.used {
            disk.used = Some(false);
        }
        match reading.what {
            Measure::Tape {
                from,
                to,
                length,
                drop,
            } => {
                disk.kind = "tape".to_owned();
                (disk.from, disk.to, disk.length) = (Some(from), Some(to), length);
                disk.drop = (drop != 0.0).then_some(drop);
            }
            Measure::Offset {
                mark,
                wall,
                side,
                length,
            } => {
                disk.kind = "offset".to_owned();
                (disk.mark, disk.wall, disk.side, disk.length) =
                    (Some(mark), Some(wall), side, length);
            }
            Measure::Inline { mark, with, sd } => {
                disk.kind = "inline".to_owned();
                (disk.mark, disk.with, disk.sd) = (Some(mark), Some(with), Some(sd));
            }
            Measure::Angle {
                from,
                at,
                to,
                degrees,
                sd,
            } => {
                disk.kind = "angle".to_owned();
                (disk.from, disk.at, disk.to) = (Some(from), Some(at), Some(to));
                (disk.degrees, disk.sd) = (degrees, Some(sd));
            }
            Measure::Other { kind } => disk.kind = kind,
        }
        disk
    }
}
