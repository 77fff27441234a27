//! What boards? Gravel boards, rails, pales and posts: heights, lengths, what to cut and buy.
//!
//! ```text
//!    ▐▌                     ▐▌ ─ post top = gravel top + height of the pales
//!    ▐▌═════════════════════▐▌ ─ rails, evenly from low to high above the gravel top
//!    ▐▌═════════════════════▐▌
//!    ▐▌▒▒▒▒▒▒▒▒▒▒▒▒▒▒▒▒▒▒▒▒▒▐▌ ─ gravel top          ┐ step
//!    ▐▌▒▒▒▒▒▒▒▒▒▒▒▒▒▒▒▒▒▒▒▒▒▐▌▒▒▒▒▒▒▒▒▒▒▒▒ ─────────┘
//!   ‾‾▐▌‾‾‾‾───────____     ▐▌▒▒▒▒▒▒▒▒▒▒▒▒
//!    ▐▌     ground     ‾‾‾‾‾▐▌‾‾‾──── clearance under, or dug in
//!    └┘hole                 └┘
//! ```
//!
//! A bay goes from post centre to post centre; gate openings have no boards. Heights are mm above
//! the datum's zero, up positive; lengths mm; running readings are the run's own.

mod along;
mod bays;
mod bolts;
mod buy;
mod cuts;
mod ends;
mod fixes;
mod gates;
mod gravel;
mod ground;
mod housings;
mod laid;
mod leaf;
mod marks;
mod meets;
mod notches;
mod outline;
mod pales;
mod pieces;
mod post_sides;
mod posts;
mod rails;
mod reach;
mod report;
mod shared;
mod sundries;
mod to_laser;
mod tops;

pub use crate::job::model::CutPiece;
pub use along::{AlongPost, AlongWhat, PostFace};
pub use bolts::BoltRow;
pub use buy::{Bar, Bought, Buy};
pub use cuts::{Cut, Spot};
pub use ends::{RailEnd, SawCut, WhichEnd};
pub use fixes::{BoardsFix, GravelBoard, GroundAt, RailBay, RunBoards};
pub use gates::GateLeaf;
pub use leaf::LockFix;
pub use marks::{HeightMark, MarkSide, MarkedThing, UpOrDown, height_marks};
pub use meets::BayAt;
pub use notches::{Governs, NotchFix};
pub use pales::PaleStretch;
pub use pieces::{LongPoint, PieceEnd, PostCorner};
pub use post_sides::{PostSide, post_sides};
pub use posts::PostHeights;
pub use shared::{SharedPost, cut_length, cut_together, shared_post};
pub use sundries::{Screws, Sundries};
pub use to_laser::{LaserMark, MarkEdge};

use crate::job::Problems;
use crate::job::sound::Sound;
use crate::levels::LevelsFix;
use crate::setout::RunFix;

/// Boards, rails, pales and posts of every run that is set out (`runs` by place in `sound.runs`),
/// as far as the heights are known. Lengths do not wait for heights. What is missing or worth a
/// look goes to `problems`.
#[must_use]
pub fn boards(
    sound: &Sound,
    runs: &[Option<RunFix>],
    levels: Option<&LevelsFix>,
    problems: &mut Problems,
) -> BoardsFix {
    let mut laid = laid::lay(sound, runs, levels);
    gravel::fit(&sound.boards, &mut laid);
    let posts = posts::posts(sound, &laid, problems);
    let built: Vec<RunBoards> = laid
        .iter()
        .zip(posts)
        .map(|(run, posts)| RunBoards {
            setup: run.setup.as_ref().map(|(id, _)| id.clone()),
            gravel: gravel::boards(sound.boards.gravel.as_ref(), run, &laid),
            rails: rails::rails(&sound.boards, run, &laid),
            pales: pales::pales(sound, run, problems),
            ground: run.ground.points().to_vec(),
            alike: along::alike(marked(run, &posts)),
            notch: notches::notch(sound, run, &posts),
            ends: ends::rail_ends(sound, run, &laid),
            gates: gates::leaves(sound, run, &posts, problems),
            posts,
        })
        .collect();
    report::report(sound, &laid, &built, levels, problems);
    let cuts = cuts::cuts(sound, &laid, &built);
    let buy = buy::buy(sound, &cuts, &laid, &built, problems);
    let ids = laid.iter().map(|run| run.run.id.clone());
    BoardsFix {
        runs: ids.zip(built).collect(),
        cuts,
        buy,
    }
}

/// Each post's number, size and marks.
fn marked<'a>(
    run: &'a laid::LaidRun,
    posts: &'a [PostHeights],
) -> impl Iterator<Item = (usize, [f64; 2], &'a [AlongPost])> {
    let sizes = run.fix.posts.iter().map(|post| post.size);
    sizes
        .zip(posts)
        .map(|(size, post)| (post.n, size, post.along.as_slice()))
}
