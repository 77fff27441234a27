//! How the app's values become the screen's: words, rows, fields, drawings. It lets nothing act.

pub mod choices;
pub mod fields;
pub mod painted;
pub mod plan;
pub mod rows;
pub mod setting_figure;
pub mod words;
