use super::laid::{LaidRun, Tip};
use super::{PieceEnd, RunBoards};
use crate::job::RunId;
use crate::job::model::{CutPiece, Stock};
use crate::job::sound::Sound;
use serde::Serialize;

/// Pieces whose lengths agree within this are cut alike, mm.
const ALIKE: f64 = 0.05;

/// Pieces of one kind and length, mm.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Cut {
    /// Gravel board, rail, pale or post.
    pub item: CutPiece,
    /// Of the longer edge, with the seats of a rail.
    pub length: f64,
    /// Of the shorter edge; the length where its ends are square.
    pub short: f64,
    /// Ends that are cut on the bevel.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub ends: Vec<PieceEnd>,
    /// How many are alike.
    pub count: usize,
    /// Where each of them goes.
    #[serde(rename = "where")]
    pub spots: Vec<Spot>,
}

impl Cut {
    /// Whether the job notes that pieces of this kind and length are cut. One whose length has changed
    /// since is not.
    #[must_use]
    pub fn is_done(&self, stock: &Stock) -> bool {
        stock.done.iter().any(|one| one.is(self.item, self.length))
    }
}

/// Where pieces go: between two posts of a run, or at one post (`from` and `to` the same).
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Spot {
    /// The run they go into.
    pub run: RunId,
    /// Number of the post nearer the run's start.
    pub from: usize,
    /// Number of the post nearer the run's end; the same as `from` for what is at one post.
    pub to: usize,
}

struct Piece {
    item: CutPiece,
    length: f64,
    short: f64,
    ends: Vec<PieceEnd>,
    count: usize,
    spot: Spot,
}

/// Everything to cut, longest first within each kind. Lengths not known yet are left out; a corner
/// post counts once.
pub(super) fn cuts(sound: &Sound, laid: &[LaidRun], built: &[RunBoards]) -> Vec<Cut> {
    let mut pieces = Vec::new();
    for (run, boards) in laid.iter().zip(built) {
        of_run(sound, run, boards, &mut pieces);
        posts(run, laid, built, boards, &mut pieces);
    }
    pieces.retain(|piece| piece.length > 0.0 && piece.count > 0);
    pieces.sort_by(|a, b| (a.item.cmp(&b.item)).then(b.length.total_cmp(&a.length)));
    let mut cuts: Vec<Cut> = Vec::new();
    for piece in pieces {
        match cuts.last_mut() {
            Some(cut) if is_alike(cut, &piece) => {
                cut.count += piece.count;
                cut.spots.push(piece.spot);
            }
            _ => cuts.push(Cut {
                item: piece.item,
                length: piece.length,
                short: piece.short,
                ends: piece.ends,
                count: piece.count,
                spots: vec![piece.spot],
            }),
        }
    }
    cuts
}

/// Of one kind, one length and with the same bevels.
fn is_alike(cut: &Cut, piece: &Piece) -> bool {
    let same = |a: f64, b: f64| (a - b).abs() <= ALIKE;
    let bevels = cut.ends.iter().zip(&piece.ends);
    cut.item == piece.item
        && cut.length - piece.length <= ALIKE
        && same(cut.short, piece.short)
        && cut.ends.len() == piece.ends.len()
        && bevels.into_iter().all(|(a, b)| {
            a.end == b.end && a.long_point == b.long_point && same(a.long_to_short, b.long_to_short)
        })
}

fn of_run(sound: &Sound, run: &LaidRun, boards: &RunBoards, pieces: &mut Vec<Piece>) {
    let mut add =
        |item, [length, short]: [f64; 2], ends: &[PieceEnd], count, [from, to]: [usize; 2]| {
            let run = run.run.id.clone();
            pieces.push(Piece {
                item,
                length,
                short,
                ends: ends.to_vec(),
                count,
                spot: Spot { run, from, to },
            });
        };
    for board in &boards.gravel {
        let lengths = [board.length, board.short];
        add(
            CutPiece::Gravel,
            lengths,
            &board.ends,
            1,
            [board.from, board.to],
        );
    }
    let rails = sound.boards.rails.as_ref().map_or(0, |rails| rails.count);
    for bay in &boards.rails {
        let posts = [bay.from, bay.to];
        if bay.shorter.is_empty() {
            let lengths = [bay.length, bay.short];
            add(CutPiece::Rail, lengths, &bay.ends, rails as usize, posts);
        }
        for by in &bay.shorter {
            let lengths = [bay.length - by, bay.short - by];
            add(CutPiece::Rail, lengths, &bay.ends, 1, posts);
        }
    }
    let height = sound.boards.pales.as_ref().map_or(0.0, |p| p.height);
    for stretch in &boards.pales {
        let posts = [stretch.from, stretch.to];
        add(CutPiece::Pale, [height; 2], &[], stretch.count, posts);
    }
}

/// The posts that this run answers for: all but a corner post that an earlier run has. A shared
/// one is as long as the longer of what the two runs ask.
fn posts(
    run: &LaidRun,
    laid: &[LaidRun],
    built: &[RunBoards],
    boards: &RunBoards,
    pieces: &mut Vec<Piece>,
) {
    for post in &boards.posts {
        let twin = twin(run, post.n, laid, built);
        if twin.as_ref().is_some_and(|(earlier, _)| *earlier) {
            continue;
        }
        let other = twin.and_then(|(_, length)| length);
        let lengths = [post.length, other].into_iter().flatten();
        if let Some(length) = lengths.reduce(f64::max) {
            pieces.push(Piece {
                item: CutPiece::Post,
                length,
                short: length,
                ends: Vec::new(),
                count: 1,
                spot: Spot {
                    run: run.run.id.clone(),
                    from: post.n,
                    to: post.n,
                },
            });
        }
    }
}

/// For a shared corner post: whether an earlier run has it, and its length there.
fn twin(
    run: &LaidRun,
    n: usize,
    laid: &[LaidRun],
    built: &[RunBoards],
) -> Option<(bool, Option<f64>)> {
    let posts = &run.fix.posts;
    let tip = [(Tip::Start, posts.first()), (Tip::End, posts.last())]
        .into_iter()
        .find(|(tip, post)| {
            post.is_some_and(|post| post.n == n) && run.partner(*tip, laid).is_some()
        })
        .map(|(tip, _)| tip)?;
    let partner = run.partner(tip, laid)?;
    let at = laid
        .iter()
        .position(|other| other.run.index == partner.run.run.index)?;
    let theirs = &built.get(at)?.posts;
    let post = match partner.tip {
        Tip::Start => theirs.first(),
        Tip::End => theirs.last(),
    };
    let earlier = partner.run.run.index < run.run.index;
    Some((earlier, post.and_then(|post| post.length)))
}

/// Whether an earlier run has this post.
pub(super) fn is_twin(run: &LaidRun, n: usize, laid: &[LaidRun], built: &[RunBoards]) -> bool {
    twin(run, n, laid, built).is_some_and(|(earlier, _)| earlier)
}

/// How many posts there are, a shared corner post counted once, and litres of concrete for all of
/// them with over-digging.
pub(super) fn posts_and_litres(laid: &[LaidRun], built: &[RunBoards]) -> (usize, f64) {
    let mut total = (0, 0.0);
    for (run, boards) in laid.iter().zip(built) {
        for post in &boards.posts {
            if !is_twin(run, post.n, laid, built) {
                total.0 += 1;
                total.1 += post.litres_dug.unwrap_or(0.0);
            }
        }
    }
    total
}
