//! What things are called: from a job and a thing of it to words.

pub mod points;
pub mod readings;
pub mod things;
