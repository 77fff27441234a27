//! Which one figure do I need right now, without starting a job?
//!
//! Each file answers one question a builder asks with a tape in hand; every function is pure,
//! refuses figures that cannot be, and says how sure its answer is. Readings go in with one
//! standard deviation, answers come out with the half width of their 95 % band.
//!
//! ```text
//!    corner, turn_string, bevel ....  what angle, which way to move, how to cut
//!    four_sides ....................  is it a rectangle, what is in the way
//!    two_tapes .....................  where is that point
//!    bays, gaps, pales, fall .......  equal bays, gaps, laps, steps
//!    carry_level, laser_check,
//!    spirit_level ..................  what level, and can I believe it
//!    tape_check, tape_pull .........  can I believe the tape
//!    gate, brace, gate_lock ........  leaf, swing, latch, brace, lock
//!    notch, bolts ..................  what a notch leaves, bolts down a wall post
//!    concrete, spoil ...............  how many bags, what is to be carted off
//! ```

pub mod bays;
pub mod bevel;
pub mod bolts;
pub mod brace;
pub mod carry_level;
pub mod concrete;
pub mod corner;
pub mod fall;
mod figure;
pub mod four_sides;
pub mod gaps;
pub mod gate;
pub mod gate_lock;
pub mod laser_check;
pub mod notch;
pub mod pales;
mod refusal;
pub mod spirit_level;
pub mod spoil;
pub mod tape_check;
pub mod tape_pull;
mod triangle;
pub mod turn_string;
pub mod two_tapes;

pub use figure::{Figure, FigureError, Taped};
pub use refusal::Refusal;
