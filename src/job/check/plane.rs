//! Marks, walls and readings.

use super::{FilePlace, Ledger, Named};
use crate::job::ids::{MarkId, WallId};
use crate::job::model::Job;
use crate::job::reading::{Measure, Reading};
use crate::job::sound::{MarkIx, Quantity, Sound, SoundMark, SoundWall, Taken, WallIx};

pub(super) type Marks = Named<MarkId, MarkIx>;
pub(super) type Walls = Named<WallId, WallIx>;

pub(super) fn marks(job: &Job, sound: &mut Sound, ledger: &mut Ledger) -> Marks {
    let mut marks = Marks::new();
    let list = FilePlace::File.key("marks");
    for (index, mark) in job.marks.iter().enumerate() {
        let place = list.nth(index);
        ledger.unknown_keys(place, &mark.extra);
        if !marks.claim(&mark.id, "mark", place, ledger) {
            continue;
        }
        let rough = mark.rough.filter(|&[x, y]| {
            let mut side = |nth, value| {
                let place = place.key("rough");
                ledger
                    .any(place.nth(nth), value, "place on the sketch")
                    .is_some()
            };
            side(0, x) && side(1, y)
        });
        marks.settle(&mark.id, MarkIx(sound.marks.len()));
        sound.marks.push(SoundMark {
            id: mark.id.clone(),
            rough,
            index,
        });
    }
    marks
}

pub(super) fn walls(job: &Job, marks: &Marks, sound: &mut Sound, ledger: &mut Ledger) -> Walls {
    let mut walls = Walls::new();
    let list = FilePlace::File.key("walls");
    for (i, wall) in job.walls.iter().enumerate() {
        let place = list.nth(i);
        ledger.unknown_keys(place, &wall.extra);
        if !walls.claim(&wall.id, "wall", place, ledger) {
            continue;
        }
        let from = marks.find(&wall.from, "mark", place.key("from"), ledger);
        let to = marks.find(&wall.to, "mark", place.key("to"), ledger);
        let (Some(from), Some(to)) = (from, to) else {
            continue;
        };
        if from == to {
            ledger.problems.error(
                place.key("to"),
                format!(
                    "Wall “{}” goes through mark {} twice.",
                    wall.called(),
                    wall.from
                ),
                "Give it two different marks.",
            );
            continue;
        }
        walls.settle(&wall.id, WallIx(sound.walls.len()));
        sound.walls.push(SoundWall {
            id: wall.id.clone(),
            name: wall.name.clone(),
            from,
            to,
        });
    }
    walls
}

pub(super) fn readings(
    job: &Job,
    marks: &Marks,
    walls: &Walls,
    sound: &mut Sound,
    ledger: &mut Ledger,
) {
    let list = FilePlace::File.key("readings");
    for (index, reading) in job.readings.iter().enumerate() {
        let place = list.nth(index);
        ledger.unknown_keys(place, &reading.extra);
        let desk = Desk {
            place,
            marks,
            walls,
            sound,
        };
        if let Some((what, sd)) = desk.quantity(reading, ledger)
            && reading.used
        {
            let drop = match reading.what {
                Measure::Tape { drop, .. } => drop,
                _ => 0.0,
            };
            sound.readings.push(Taken {
                index,
                what,
                sd,
                drop,
            });
        }
    }
}

/// What is needed to check one reading.
struct Desk<'a> {
    place: FilePlace<'a>,
    marks: &'a Marks,
    walls: &'a Walls,
    sound: &'a Sound,
}

impl Desk<'_> {
    fn at<'b>(&'b self, key: &'b str) -> FilePlace<'b> {
        self.place.key(key)
    }

    fn mark(&self, id: &MarkId, key: &str, ledger: &mut Ledger) -> Option<MarkIx> {
        self.marks.find(id, "mark", self.at(key), ledger)
    }

    fn quantity(&self, reading: &Reading, ledger: &mut Ledger) -> Option<(Quantity, f64)> {
        match &reading.what {
            Measure::Tape {
                from,
                to,
                length,
                drop,
            } => self.tape(from, to, *length, *drop, ledger),
            Measure::Offset {
                mark,
                wall,
                side,
                length,
            } => {
                let mark_ix = self.mark(mark, "mark", ledger);
                let wall_ix = self.walls.find(wall, "wall", self.at("wall"), ledger);
                if side.is_none() {
                    ledger.problems.error(
                        self.at("side"),
                        "It does not say on which side of the wall the mark is.",
                        "Say left or right, as seen looking along the wall from its first mark.",
                    );
                }
                let length = ledger.given(self.at("length"), *length, "offset")?;
                let length = ledger.not_negative(self.at("length"), length, "offset")?;
                let (mark, wall, side) = (mark_ix?, wall_ix?, (*side)?);
                let ends = self.sound.walls.get(wall.0)?;
                if mark == ends.from || mark == ends.to {
                    ledger.problems.error(
                        self.at("mark"),
                        "The mark is one of the wall's own two marks, so its offset says nothing.",
                        "Measure the offset of another mark.",
                    );
                    return None;
                }
                let sd = self.sound.tape.sd(length);
                Some((
                    Quantity::Offset {
                        mark,
                        wall,
                        side,
                        length,
                    },
                    sd,
                ))
            }
            Measure::Inline { mark, with, sd } => {
                let mark = self.mark(mark, "mark", ledger);
                let first = self.mark(&with[0], "with[0]", ledger);
                let second = self.mark(&with[1], "with[1]", ledger);
                let sd = ledger.positive(self.at("sd"), *sd, "typical error")?;
                let (mark, first, second) = (mark?, first?, second?);
                self.three_apart([first, mark, second], ledger)?;
                Some((
                    Quantity::Inline {
                        mark,
                        with: [first, second],
                    },
                    sd,
                ))
            }
            Measure::Angle {
                from,
                at,
                to,
                degrees,
                sd,
            } => {
                let from = self.mark(from, "from", ledger);
                let at = self.mark(at, "at", ledger);
                let to = self.mark(to, "to", ledger);
                let sd = ledger.positive(self.at("sd"), *sd, "typical error")?;
                let degrees = ledger.given(self.at("degrees"), *degrees, "angle")?;
                if !(0.0..=180.0).contains(&degrees) {
                    ledger.problems.error(
                        self.at("degrees"),
                        format!("The angle is {degrees}°; it must be from 0 to 180."),
                        "Enter the smaller of the two angles between the directions.",
                    );
                    return None;
                }
                let (from, at, to) = (from?, at?, to?);
                self.three_apart([from, at, to], ledger)?;
                Some((
                    Quantity::Angle {
                        from,
                        at,
                        to,
                        degrees,
                    },
                    sd,
                ))
            }
            Measure::Other { kind } => {
                ledger.problems.error(
                    self.at("kind"),
                    format!("“{kind}” is not a kind of reading."),
                    "Use tape, offset, inline or angle.",
                );
                None
            }
        }
    }

    fn tape(
        &self,
        from: &MarkId,
        to: &MarkId,
        length: Option<f64>,
        drop: f64,
        ledger: &mut Ledger,
    ) -> Option<(Quantity, f64)> {
        let (from_ix, to_ix) = (self.mark(from, "from", ledger), self.mark(to, "to", ledger));
        let length = ledger.given(self.at("length"), length, "length")?;
        let length = ledger.positive(self.at("length"), length, "length")?;
        let drop = ledger.any(self.at("drop"), drop, "drop")?;
        if drop.abs() >= length {
            ledger.problems.error(
                self.at("drop"),
                format!("The drop of {drop} is not shorter than its tape of {length}."),
                "Enter how much higher one end was than the other, or 0 if the tape was level.",
            );
            return None;
        }
        let (from, to) = (from_ix?, to_ix?);
        if from == to {
            ledger.problems.error(
                self.at("to"),
                "The tape starts and ends at the same mark.",
                "Name the two marks it was pulled between.",
            );
            return None;
        }
        let level = (length * length - drop * drop).sqrt();
        // ∂level/∂drop = −drop/level; the drop is one reading of the level.
        let by_drop = drop / level.max(1.0) * self.sound.laser.reading;
        let sd = self.sound.tape.sd(length).hypot(by_drop);
        Some((
            Quantity::Tape {
                from,
                to,
                length: level,
            },
            sd,
        ))
    }

    fn three_apart(&self, [a, b, c]: [MarkIx; 3], ledger: &mut Ledger) -> Option<()> {
        if a != b && b != c && a != c {
            return Some(());
        }
        ledger.problems.error(
            self.place,
            "The same mark stands in this reading twice.",
            "Name three different marks.",
        );
        None
    }
}
