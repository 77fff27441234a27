//! What things are called: from a job and a thing of it to words.

pub mod points;
pub mod readings;
pub mod things;

pub use points::{place_of, point_place, said_down};
pub use readings::{is_missing, reading_title};
pub use things::{
    along, end_name, face_reading, front_of, is_pinned, marked, post_name, run_called, run_name,
    runs_to_choose, side_name, side_of, string_name, string_names, the, thing_called, wall_name,
    zero_name,
};
