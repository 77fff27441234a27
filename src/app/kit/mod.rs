//! How the app's values become the screen's: words, rows, fields, figures to type, drawings. What a row
//! does it only carries: the bridge lets it act.

pub mod choices;
pub mod fields;
pub mod instruments;
pub mod keypad_figure;
pub mod painted;
pub mod plan;
pub mod problems;
pub mod rows;
pub mod words;

pub use fields::{
    FormButton, FormContents, FormFigure, FormRow, check, choice, figure, heading, pick, result,
    text,
};
pub use instruments::{class_row, laser_accuracy, unit_rows};
pub use keypad_figure::{KeypadFigure, Slot};
pub use painted::{laid, painted};
pub use plan::{plan_of, plan_of_run, small, thumbnail};
pub use problems::{beside, problem_in, told, verdict_of};
pub use rows::patched;
pub use words::{Misfits, angle_pm, capital, checked, counted, fact, row, said, silence, status};
