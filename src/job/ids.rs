//! Names of things in a job, each kind its own type, so that a wall is never taken for a mark.

use indexmap::IndexMap;
use serde::{Deserialize, Serialize};
use std::{borrow::Borrow, fmt};

/// What was worked out for the things of one kind, by name and in the order of the file.
pub type ByName<Id, T> = IndexMap<Id, T>;

macro_rules! id {
    ($($(#[$doc:meta])* $name:ident;)*) => {$(
        $(#[$doc])*
        #[derive(Clone, Debug, Default, PartialEq, Eq, Hash, PartialOrd, Ord, Serialize, Deserialize)]
        #[serde(transparent)]
        pub struct $name(pub String);

        impl $name {
            /// The name as text.
            #[must_use]
            pub fn as_str(&self) -> &str {
                &self.0
            }

            /// True where the file gives no name.
            #[must_use]
            pub fn is_empty(&self) -> bool {
                self.0.is_empty()
            }
        }

        impl From<&str> for $name {
            fn from(text: &str) -> Self {
                Self(text.to_owned())
            }
        }

        impl From<String> for $name {
            fn from(text: String) -> Self {
                Self(text)
            }
        }

        impl Borrow<str> for $name {
            fn borrow(&self) -> &str {
                &self.0
            }
        }

        impl fmt::Display for $name {
            fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
                f.write_str(&self.0)
            }
        }
    )*};
}

id! {
    /// A mark: a fixed point on the ground or a wall.
    MarkId;
    /// A wall: a straight reference face.
    WallId;
    /// A string line.
    LineId;
    /// A corner: where two lines cross.
    CornerId;
    /// A run: a stretch of fence along one line.
    RunId;
    /// A set-up of the laser.
    SetupId;
    /// A point with a height.
    PointId;
}

/// A name with its kind before it, “string front”; one that says its kind by itself, such as
/// “string 1”, stays as it is.
#[must_use]
pub fn with_kind(kind: &str, name: &str) -> String {
    let says_it = name
        .strip_prefix(kind)
        .is_some_and(|rest| rest.starts_with(' '));
    if says_it {
        name.to_owned()
    } else {
        format!("{kind} {name}")
    }
}

#[cfg(test)]
mod tests {
    use super::with_kind;

    #[test]
    fn a_kind_is_not_said_twice() {
        assert_eq!(with_kind("string", "front"), "string front");
        assert_eq!(with_kind("string", "string 1"), "string 1");
        assert_eq!(with_kind("wall", "wallflower"), "wall wallflower");
    }
}
