//! The screens of Tautmark: generated from the `.slint` files beside this one.
//!
//! A crate of its own, so that a change to the geometry does not compile the screens again.

slint::include_modules!();
