//! What is true? Least squares over readings.

pub mod misread;
