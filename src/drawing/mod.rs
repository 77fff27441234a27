//! What does it look like? One drawing model in mm, for the screen and for paper.
//!
//! ```text
//!   Job + Solution ──plan, elevation, …──▶ Drawing (mm, y up, roles)
//!                                             │ lay_out at a View
//!                                             ▼
//!                             Laid (strokes and words in px or pt, y down)
//! ```
//!
//! A drawing knows what each thing is, not how it looks; the layout decides sizes, hatches and
//! where words stand, once for every renderer; the renderer only has colours.

mod bounds;
mod colours;
mod corner;
mod elevation;
mod hand;
mod hit;
mod layout;
mod leaf;
mod levels;
mod model;
mod options;
mod pencil;
mod piece;
mod plan;
mod post;
mod sketch;
mod svg;
mod text;
mod tone;
mod trestles;
mod view;
mod words;

pub use bounds::{Bounds, Vec2};
pub use colours::on_paper;
pub use corner::{corner, corner_detail, corner_small};
pub use elevation::{ElevationShow, Figures, elevation};
pub use hand::{Areas, Hand};
pub use hit::hit;
pub use layout::{Laid, LayoutDesk, PlacedLabel, Stroke, Tile, fitted, lay_out};
pub use leaf::gate_leaf;
pub use levels::levels;
pub use model::{
    Dimension, Drawing, DrawnItem, Fill, Hatched, Label, LineStyle, Rank, Role, Row, RowFigure,
    Shape, Sign, Size, Stress, Target, WordsPlace,
};
pub use options::{foot_small, joint_small};
pub use piece::cut_piece;
pub use plan::{Asked, Detail, Face, PlanShow, PostShow, Seen, Turn, plan};
pub use post::post_heights;
pub use sketch::{Sketch, Solid, Tag, direction};
pub use svg::{svg, svg_over};
pub use text::{BOLD, Bundled, REGULAR, TextMeasure, Weight, has};
pub use tone::{Tone, filling, outline};
pub use trestles::trestles;
pub use view::{Margins, View, ViewPoint};
pub use words::from_laser;
