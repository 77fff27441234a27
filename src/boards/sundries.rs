//! Everything small that a fence takes, and the ground that comes out.

use super::cuts::{Cut, is_twin};
use super::laid::LaidRun;
use super::{GateLeaf, RunBoards};
use crate::job::model::{CutPiece, Foot, Joint};
use crate::job::sound::Sound;
use serde::Serialize;

/// A trench for a let-in board is at least as wide as a spade, mm.
const SPADE: f64 = 150.0;

/// Counts, and what is dug out. Litres; mm where it is not said.
#[derive(Clone, Debug, Default, PartialEq, Serialize)]
pub struct Sundries {
    /// To hold pales, rails and gravel boards.
    pub screws: Screws,
    /// Into walls.
    pub bolts: usize,
    /// For all gates with a leaf: two each, three for a high one.
    pub hinges: usize,
    /// For all gates with a lock.
    pub locks: usize,
    /// A cap for every post.
    pub caps: usize,
    /// Dug ground as it lies heaped: holes as dug, trenches under let-in boards and the cleared
    /// strip, with their swelling, litres.
    pub spoil: f64,
    /// The strip to clear along the runs: its length, mm, and its area, m².
    pub strip: f64,
    /// Its area, m².
    #[serde(rename = "strip area")]
    pub strip_area: f64,
    /// Around every cut end and housing, to be sealed.
    pub sealer: f64,
}

/// Screws by what they hold.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize)]
pub struct Screws {
    /// Pales to rails.
    pub pales: usize,
    /// Rails to posts.
    pub rails: usize,
    /// Gravel boards to posts.
    pub gravel: usize,
}

impl Screws {
    /// All of them.
    #[must_use]
    pub fn all(&self) -> usize {
        self.pales + self.rails + self.gravel
    }
}

pub(super) fn sundries(
    sound: &Sound,
    cuts: &[Cut],
    laid: &[LaidRun],
    built: &[RunBoards],
) -> Sundries {
    let clear = sound.boards.clear.clone().unwrap_or_default();
    let strip = laid.iter().map(strip).sum::<f64>();
    let strip_litres = strip * clear.width * clear.depth / 1e6;
    let leaves = || built.iter().flat_map(|run| &run.gates);
    let mut own = own_posts(laid, built);
    Sundries {
        screws: screws(sound, cuts),
        bolts: own
            .clone()
            .filter_map(|(_, _, post)| post.bolts.as_ref())
            .map(|row| row.at.len())
            .sum(),
        hinges: leaves().map(GateLeaf::hinges).sum(),
        locks: leaves().filter(|leaf| leaf.lock.is_some()).count(),
        caps: own.clone().count(),
        spoil: (holes(sound, &mut own) + trenches(sound, laid) + strip_litres) * clear.bulk,
        strip,
        strip_area: strip * clear.width / 1e6,
        sealer: sealer(sound, cuts, laid, built),
    }
}

/// Every post once: a shared corner post with the first of its runs.
fn own_posts<'a>(
    laid: &'a [LaidRun<'a>],
    built: &'a [RunBoards],
) -> impl Iterator<
    Item = (
        &'a LaidRun<'a>,
        &'a crate::setout::Post,
        &'a super::PostHeights,
    ),
> + Clone {
    laid.iter().zip(built).flat_map(move |(run, boards)| {
        let posts = run.fix.posts.iter().zip(&boards.posts);
        posts
            .filter(move |(post, _)| !is_twin(run, post.n, laid, built))
            .map(move |(post, heights)| (run, post, heights))
    })
}

fn screws(sound: &Sound, cuts: &[Cut]) -> Screws {
    let fixings = sound.boards.fixings.clone().unwrap_or_default();
    let pieces = |item| {
        let of_item = cuts.iter().filter(|cut| cut.item == item);
        of_item.map(|cut| cut.count).sum::<usize>()
    };
    let rails = sound.boards.rails.as_ref().map_or(0, |rails| rails.count);
    Screws {
        pales: pieces(CutPiece::Pale) * rails as usize * fixings.pale as usize,
        rails: pieces(CutPiece::Rail) * 2 * fixings.rail as usize,
        gravel: pieces(CutPiece::Gravel) * 2 * fixings.gravel as usize,
    }
}

/// From the first post's near face to the last one's far face.
fn strip(run: &LaidRun) -> f64 {
    let ends = run.fix.posts.first().zip(run.fix.posts.last());
    ends.map_or(0.0, |(first, last)| (last.far - first.near).max(0.0))
}

fn holes<'a>(
    sound: &Sound,
    posts: &mut impl Iterator<
        Item = (
            &'a LaidRun<'a>,
            &'a crate::setout::Post,
            &'a super::PostHeights,
        ),
    >,
) -> f64 {
    let hole = &sound.hole;
    let round = std::f64::consts::FRAC_PI_4 * hole.diameter * hole.diameter;
    let each = round * hole.depth * (1.0 + hole.over) / 1e6;
    let dug = posts.filter(|(_, post, _)| post.foot == Foot::Hole).count();
    each * dug as f64
}

/// Under boards that are let in, litres: from the ground down to their clearance.
fn trenches(sound: &Sound, laid: &[LaidRun]) -> f64 {
    let Some(gravel) = &sound.boards.gravel else {
        return 0.0;
    };
    let width = gravel.thick.max(SPADE);
    let bays = laid.iter().flat_map(|run| {
        run.bays.iter().filter_map(move |bay| {
            let under = bay.board?.bottom - gravel.clearance;
            Some(run.ground.above(under, bay.near, bay.far))
        })
    });
    bays.sum::<f64>() * width / 1e6
}

/// Around the ends of rails and gravel boards, the cut-offs of posts, and the housings, mm.
fn sealer(sound: &Sound, cuts: &[Cut], laid: &[LaidRun], built: &[RunBoards]) -> f64 {
    let boards = &sound.boards;
    let around = |a: f64, b: f64| 2.0 * (a + b);
    let ends = |item| match item {
        CutPiece::Gravel => boards
            .gravel
            .as_ref()
            .map_or(0.0, |one| 2.0 * around(one.height, one.thick)),
        CutPiece::Rail => boards
            .rails
            .as_ref()
            .map_or(0.0, |one| 2.0 * around(one.height, one.thickness())),
        CutPiece::Pale | CutPiece::Post => 0.0,
    };
    let pieces: f64 = cuts
        .iter()
        .map(|cut| ends(cut.item) * cut.count as f64)
        .sum();
    let posts = own_posts(laid, built).map(|(_, post, heights)| {
        let across = |joint| match joint {
            Joint::Side => boards.rails.as_ref().map_or(0.0, |rails| rails.thickness()),
            Joint::Face => post.size[0],
        };
        let joint = boards.rails.as_ref().map(|rails| rails.joint);
        let housings = heights.along.iter().filter(|mark| mark.depth.is_some());
        let housings: f64 = housings
            .map(|mark| around(mark.to - mark.from, across(joint.unwrap_or_default())))
            .sum();
        let cut_off = heights
            .length
            .map_or(0.0, |_| around(post.size[0], post.size[1]));
        housings + cut_off
    });
    pieces + posts.sum::<f64>()
}
