use crate::job::Where;
use std::fmt;

/// A place in the file, such as `runs[0].gates[1].at`. It becomes text only where something is
/// wrong with it: a job has hundreds of places, checked at each key press.
#[derive(Clone, Copy)]
pub(super) enum Place<'a> {
    File,
    Key(&'a Place<'a>, &'a str),
    Nth(&'a Place<'a>, usize),
}

impl<'a> Place<'a> {
    pub const fn key(&'a self, key: &'a str) -> Self {
        Place::Key(self, key)
    }

    pub const fn nth(&'a self, index: usize) -> Self {
        Place::Nth(self, index)
    }
}

impl fmt::Display for Place<'_> {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Place::File => Ok(()),
            Place::Key(Place::File, key) => f.write_str(key),
            Place::Key(within, key) => write!(f, "{within}.{key}"),
            Place::Nth(within, index) => write!(f, "{within}[{index}]"),
        }
    }
}

impl From<Place<'_>> for Where {
    fn from(place: Place<'_>) -> Self {
        place.to_string().into()
    }
}

impl From<Place<'_>> for String {
    fn from(place: Place<'_>) -> Self {
        place.to_string()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn as_it_is_found_in_the_file() {
        let runs = Place::File.key("runs");
        let gates = runs.nth(0);
        let gates = gates.key("gates");
        assert_eq!(gates.nth(1).key("at").to_string(), "runs[0].gates[1].at");
    }
}
