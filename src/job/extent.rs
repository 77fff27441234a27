//! How much a file holds, found out without keeping any of it, so that a file that is no job is
//! refused before it fills the memory.

use super::plain::unfit;
use serde::de::{DeserializeSeed, Deserializer, Error, MapAccess, SeqAccess, Visitor};
use std::fmt;

/// Lists and objects that a file may hold.
pub(super) const MOST_THINGS: usize = 50_000;

/// Figures, texts and the like that it may hold.
const MOST_VALUES: usize = 500_000;

/// How deep they may lie in each other. A change is kept in the history a few levels deeper, and
/// what reads that stops at 128.
const DEEPEST: usize = 100;

/// Looks through a whole file. Its error says what is wrong; the format adds where.
pub(super) fn look_through<'de, D: Deserializer<'de>>(file: D) -> Result<(), D::Error> {
    let mut seen = Seen::default();
    Look {
        seen: &mut seen,
        depth: 0,
    }
    .deserialize(file)
}

#[derive(Default)]
struct Seen {
    things: usize,
    values: usize,
}

impl Seen {
    fn value<E: Error>(&mut self) -> Result<(), E> {
        self.values += 1;
        if self.values > MOST_VALUES {
            return Err(E::custom(format_args!(
                "it holds more than {MOST_VALUES} figures and texts, more than any job"
            )));
        }
        Ok(())
    }

    fn text<E: Error>(&mut self, text: &str) -> Result<(), E> {
        self.value()?;
        match unfit(text) {
            None => Ok(()),
            Some(c) => Err(E::custom(format_args!(
                "a text holds a control character, U+{:04X}, which has no place in a name or a note; delete it",
                u32::from(c)
            ))),
        }
    }
}

struct Look<'a> {
    seen: &'a mut Seen,
    depth: usize,
}

impl Look<'_> {
    fn inside(&mut self) -> Look<'_> {
        Look {
            seen: self.seen,
            depth: self.depth + 1,
        }
    }

    fn thing<E: Error>(&mut self) -> Result<(), E> {
        self.seen.things += 1;
        if self.seen.things > MOST_THINGS {
            return Err(E::custom(format_args!(
                "it holds more than {MOST_THINGS} things, more than any job"
            )));
        }
        if self.depth >= DEEPEST {
            return Err(E::custom(format_args!(
                "things lie in each other more than {DEEPEST} deep"
            )));
        }
        Ok(())
    }
}

impl<'de> DeserializeSeed<'de> for Look<'_> {
    type Value = ();

    fn deserialize<D: Deserializer<'de>>(self, value: D) -> Result<(), D::Error> {
        value.deserialize_any(self)
    }
}

impl<'de> Visitor<'de> for Look<'_> {
    type Value = ();

    fn expecting(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str("any value")
    }

    fn visit_unit<E: Error>(self) -> Result<(), E> {
        self.seen.value()
    }

    fn visit_bool<E: Error>(self, _: bool) -> Result<(), E> {
        self.seen.value()
    }

    fn visit_i64<E: Error>(self, _: i64) -> Result<(), E> {
        self.seen.value()
    }

    fn visit_u64<E: Error>(self, _: u64) -> Result<(), E> {
        self.seen.value()
    }

    fn visit_f64<E: Error>(self, _: f64) -> Result<(), E> {
        self.seen.value()
    }

    fn visit_str<E: Error>(self, text: &str) -> Result<(), E> {
        self.seen.text(text)
    }

    fn visit_seq<A: SeqAccess<'de>>(mut self, mut list: A) -> Result<(), A::Error> {
        self.thing()?;
        while list.next_element_seed(self.inside())?.is_some() {}
        Ok(())
    }

    fn visit_map<A: MapAccess<'de>>(mut self, mut object: A) -> Result<(), A::Error> {
        self.thing()?;
        while object.next_key_seed(self.inside())?.is_some() {
            object.next_value_seed(self.inside())?;
        }
        Ok(())
    }
}
