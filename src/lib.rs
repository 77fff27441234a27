//! Tautmark: set out a fence with a gate from tape readings.
//!
//! One direction: a [`job::Job`] (plain data, what is on disk) is checked and solved into a
//! solution (plain data), and the sheet and the app show that. Lengths are millimetres, angles
//! degrees, heights millimetres with up positive, throughout.

// What comes from outside may be anything: it is answered, never unwrapped.
#![warn(clippy::unwrap_used)]
#![warn(missing_docs)]

pub mod adjust;
#[cfg(all(feature = "app", target_os = "android"))]
mod android;
#[cfg(feature = "app")]
pub mod app;
pub mod boards;
#[cfg(all(feature = "app", target_arch = "wasm32"))]
mod browser;
pub mod cautions;
mod clock;
pub mod drawing;
pub mod export;
pub mod job;
pub mod laser;
pub mod length;
pub mod levels;
mod listed;
pub mod quick;
pub mod say;
pub mod setout;
pub mod sheet;
pub mod site;
mod solve;
pub mod store;
pub mod tape;
pub mod volume;

pub use solve::{Solution, solve};
