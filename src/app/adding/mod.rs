//! Adding strings, corners and runs: each with what is usual, for a person to change or to leave, and
//! what comes next on the way from walls to posts.
//!
//! ```text
//!   walls ──▶ a string in front of each ──▶ where they cross, the corner ──▶ a run on each ──▶ posts
//! ```

pub mod corner;
pub mod onward;
pub mod run;
pub mod string;
