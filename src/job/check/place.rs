use crate::job::Where;
use std::fmt;

/// A place in the file, such as `runs[0].gates[1].at`. It becomes text only where something is
/// wrong with it: a job has hundreds of places, checked at each key press.
#[derive(Clone, Copy)]
pub(super) enum FilePlace<'a> {
    File,
    Key(&'a FilePlace<'a>, &'a str),
    Nth(&'a FilePlace<'a>, usize),
}

impl<'a> FilePlace<'a> {
    pub const fn key(&'a self, key: &'a str) -> Self {
        FilePlace::Key(self, key)
    }

    pub const fn nth(&'a self, index: usize) -> Self {
        FilePlace::Nth(self, index)
    }
}

impl fmt::Display for FilePlace<'_> {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            FilePlace::File => Ok(()),
            FilePlace::Key(FilePlace::File, key) => f.write_str(key),
            FilePlace::Key(within, key) => write!(f, "{within}.{key}"),
            FilePlace::Nth(within, index) => write!(f, "{within}[{index}]"),
        }
    }
}

impl From<FilePlace<'_>> for Where {
    fn from(place: FilePlace<'_>) -> Self {
        place.to_string().into()
    }
}

impl From<FilePlace<'_>> for String {
    fn from(place: FilePlace<'_>) -> Self {
        place.to_string()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn as_it_is_found_in_the_file() {
        let runs = FilePlace::File.key("runs");
        let gates = runs.nth(0);
        let gates = gates.key("gates");
        assert_eq!(gates.nth(1).key("at").to_string(), "runs[0].gates[1].at");
    }
}
