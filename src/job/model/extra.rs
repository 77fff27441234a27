//! Keys that this program does not know, and values that are left out of the file.

use serde_json::{Map, Value};

/// Keys of the file that this program does not know, kept as they are.
pub type Extra = Map<String, Value>;

#[allow(clippy::trivially_copy_pass_by_ref)] // the signature serde asks for
pub(super) fn is_false(value: &bool) -> bool {
    !value
}

#[allow(clippy::trivially_copy_pass_by_ref)] // the signature serde asks for
pub(super) fn is_true(value: &bool) -> bool {
    *value
}
