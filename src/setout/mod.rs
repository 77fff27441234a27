//! Where do the posts go? Runs, posts, gates, corner posts, two-tape swings.
//!
//! ```text
//!   zero                 gate opening                         end
//!    │                   at ──── at+clear                      │
//!    █──────────────────█           █───────────█──────────────◆   string below,
//!    1                  2           3           4              5   posts behind it
//!    ├── running readings, all from the zero ─────────────────▶
//! ```
//!
//! All lengths mm; a running reading is measured along the string from the run's zero.

mod fixes;

pub use fixes::{GateFix, Post, PostKind, RunFix};
