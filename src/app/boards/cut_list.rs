//! The cut list: every piece by what it is, the saw cuts at corners, and what to buy.

use super::front;
use crate::app::bridge::{Bridge, PagePicture, Screen, Spec};
use crate::app::desk::{Desk, Then, caution};
use crate::app::kit::{capital, counted, patched, row};
use crate::app::names::{run_called, said_down};
use crate::boards::{Bought, Buy, Cut, CutPiece as Piece, GateLeaf, RailEnd, Spot, WhichEnd};
use crate::cautions::{Caution, LIFTING, SAWING, TREATED_CUTS};
use crate::drawing::cut_piece;
use crate::job::edit::{Edit, Setting};
use crate::job::model::{CutDone, Job};
use crate::length;
use crate::volume;
use slint::Global;
use std::rc::Rc;
use tautmark_ui::{App, CutListVm, Page, Place, RowItem, Verdict};

/// What can hurt while timber is carried and cut.
const CAUTIONS: [Caution; 3] = [SAWING, TREATED_CUTS, LIFTING];

/// The page.
pub struct CutList;

impl Screen for CutList {
    fn spec(&self) -> Spec {
        Spec::inside(Place::Boards, Page::CutList, "cut-list")
    }

    fn wire(&self, app: &App, bridge: &Rc<Bridge>) {
        let vm = CutListVm::get(app);
        vm.on_caution_pressed(bridge.does(|desk| caution::open(desk, &CAUTIONS)));
        vm.on_pressed(bridge.does_with(|desk, id| match id.strip_prefix("cut ") {
            Some(at) => at.parse().map_or(Then::Stay, |at| toggle(desk, at)),
            None => Then::Stay,
        }));
    }

    fn fill(&self, app: &App, desk: &Desk) -> bool {
        let vm = CutListVm::get(app);
        vm.set_rows(patched(vm.get_rows(), rows(desk)));
        vm.set_caution(caution::line(&CAUTIONS));
        false
    }

    /// The piece last pressed, where it is one with two ends; else the run from the front.
    fn picture(&self, desk: &Desk) -> Option<PagePicture> {
        let chosen = desk.chosen.piece;
        let cut = chosen.and_then(|at| desk.solution.cuts.get(at));
        let along = cut.filter(|cut| matches!(cut.item, Piece::Gravel | Piece::Rail));
        Some(along.map_or_else(
            || front(desk),
            |cut| PagePicture::Drawing(cut_piece(desk.job(), cut)),
        ))
    }
}

/// Notes that pieces are cut, or that they are not.
fn toggle(desk: &mut Desk, at: usize) -> Then {
    let Some(cut) = desk.solution.cuts.get(at) else {
        return Then::Stay;
    };
    let (piece, length) = (cut.item, cut.length);
    let mut stock = desk.saved().stock.clone();
    let before = stock.done.len();
    stock.done.retain(|one| !one.is(piece, length));
    if stock.done.len() == before {
        stock.done.push(CutDone {
            piece,
            length,
            extra: Default::default(),
        });
    }
    desk.chosen.piece = Some(at);
    desk.change(Edit::Set(Setting::Stock(stock)));
    Then::Stay
}

/// Opens the page.
pub fn open(desk: &mut Desk) -> Then {
    caution::once(desk, &CAUTIONS);
    Then::Open(Page::CutList)
}

fn header(title: &str) -> RowItem {
    RowItem {
        strong: true,
        ..row(title, title, "", "", "")
    }
}

fn rows(desk: &Desk) -> Vec<RowItem> {
    let solution = &desk.solution;
    if solution.cuts.is_empty() {
        let note = "Give the sizes of boards, rails and pales, and set out a run.";
        return vec![row("none", "Nothing to cut yet", note, "", "")];
    }
    let mut rows = vec![header("To cut")];
    let cuts = solution.cuts.iter().enumerate();
    rows.extend(cuts.map(|(at, cut)| cut_row(desk.job(), at, cut, &solution.buy)));
    let runs = solution.boards.iter();
    let ends = runs.clone().flat_map(|(run, boards)| {
        let name = run_called(desk.job(), run);
        let ends = boards.ends.iter();
        ends.map(move |end| end_row(desk.job(), &name, end))
    });
    rows.extend(ends);
    let gates = runs.flat_map(|(run, boards)| {
        let name = run_called(desk.job(), run);
        let gates = boards.gates.iter();
        gates.map(move |leaf| gate_row(desk.job(), &name, leaf))
    });
    rows.extend(gates);
    rows.push(header("To buy"));
    rows.extend(buy_rows(desk));
    rows
}

/// One of a kind, and several.
fn called(piece: Piece) -> (&'static str, &'static str) {
    match piece {
        Piece::Gravel => ("gravel board", "gravel boards"),
        Piece::Rail => ("rail", "rails"),
        Piece::Pale => ("pale", "pales"),
        Piece::Post => ("post", "posts"),
    }
}

fn cut_row(job: &Job, at: usize, cut: &Cut, bought: &Buy) -> RowItem {
    let (one, many) = called(cut.item);
    let title = capital(if cut.count == 1 { one } else { many });
    let figure = length::show(cut.length, job.show.lengths);
    let times = format!("× {}", cut.count);
    let mut notes = vec![spots(job, &cut.spots)];
    if !cut.ends.is_empty() {
        let short = length::show_with_unit(cut.short, job.show.lengths);
        notes.push(format!("long point; {short} where shortest"));
    }
    notes.extend(from_stock(job, cut, bought));
    let done = cut.is_done(&job.stock);
    RowItem {
        verdict: if done { Verdict::Good } else { Verdict::None },
        left_out: done,
        ..row(
            &format!("cut {at}"),
            &title,
            &if done {
                format!("cut; {}", notes.join("; "))
            } else {
                notes.join("; ")
            },
            &figure,
            &times,
        )
    }
}

/// Which stock lengths a piece comes out of.
fn from_stock(job: &Job, cut: &Cut, bought: &Buy) -> Option<String> {
    let of = match cut.item {
        Piece::Gravel => &bought.gravel,
        Piece::Rail => &bought.rails,
        Piece::Pale => &bought.pales,
        Piece::Post => &bought.posts,
    };
    let mut stock: Vec<f64> = of
        .bars
        .iter()
        .filter(|bar| {
            bar.pieces
                .iter()
                .any(|piece| (piece - cut.length).abs() < 0.05)
        })
        .map(|bar| bar.stock)
        .collect();
    stock.dedup();
    let said: Vec<String> = stock
        .iter()
        .map(|mm| length::show_with_unit(*mm, job.show.lengths))
        .collect();
    (!said.is_empty()).then(|| format!("out of {}", said.join(" and ")))
}

/// “Front run: 1 to 2, 3 to 4; Side run: 1 to 2”; posts by their number alone.
fn spots(job: &Job, spots: &[Spot]) -> String {
    let mut runs: Vec<(&Spot, Vec<[usize; 2]>)> = Vec::new();
    for spot in spots {
        let place = [spot.from, spot.to];
        match runs.iter_mut().find(|(first, _)| first.run == spot.run) {
            Some((_, places)) => {
                if !places.contains(&place) {
                    places.push(place);
                }
            }
            None => runs.push((spot, vec![place])),
        }
    }
    let said = runs.into_iter().map(|(first, mut places)| {
        places.sort_unstable();
        let run = run_called(job, &first.run);
        if first.from == first.to {
            let posts = stretches(&places, 1);
            let posts: Vec<String> = posts.into_iter().map(|of| of.said("post")).collect();
            format!("{run}: {}", posts.join(", "))
        } else {
            let bays = stretches(&places, 0);
            let bays: Vec<String> = bays.into_iter().map(|of| of.said("bay")).collect();
            format!("{run}: {}", bays.join(", "))
        }
    });
    said.collect::<Vec<_>>().join("; ")
}

/// Neighbours without a gap between them: posts, or bays from post to post.
#[derive(Clone, Copy)]
struct Stretch {
    from: usize,
    to: usize,
    many: bool,
}

impl Stretch {
    /// “post 3”, “posts 3 to 7”, “bay 3 to 4”, “bays 3 to 7”.
    fn said(self, what: &str) -> String {
        let Self { from, to, many } = self;
        match (many, from == to) {
            (true, _) => format!("{what}s {from} to {to}"),
            (false, true) => format!("{what} {from}"),
            (false, false) => format!("{what} {from} to {to}"),
        }
    }
}

/// Joins what follows on: the next starts `step` after the end of the one before.
fn stretches(places: &[[usize; 2]], step: usize) -> Vec<Stretch> {
    let mut all: Vec<Stretch> = Vec::new();
    for &[from, to] in places {
        match all.last_mut() {
            Some(last) if last.to + step == from => {
                last.to = to;
                last.many = true;
            }
            _ => all.push(Stretch {
                from,
                to,
                many: false,
            }),
        }
    }
    all
}

fn end_row(job: &Job, run: &str, end: &RailEnd) -> RowItem {
    let which = match end.end {
        WhichEnd::Start => "start",
        WhichEnd::End => "end",
    };
    let unit = job.show.lengths;
    let cut = end.to_post;
    let note = format!(
        "saw set {:.1}° off square, {} from long to short point; where two meet past the post {:.1}°",
        cut.off_square,
        length::show(cut.long_to_short, unit),
        end.mitre.off_square
    );
    let title = format!("Rail ends at corner {}, {which} of {run}", end.corner);
    let id = format!("end {run} {which}");
    let figure = format!("{:.1}°", cut.off_square);
    row(&id, &title, &note, &figure, "off square")
}

fn gate_row(job: &Job, run: &str, leaf: &GateLeaf) -> RowItem {
    let unit = job.show.lengths;
    let mut note = format!(
        "opening {}, hung on post {}",
        length::show(leaf.clear, unit),
        leaf.hung
    );
    if let Some(down) = leaf.down {
        let bottom = said_down(down, unit);
        note.push_str(&format!("; its bottom {bottom} from the laser line"));
    }
    let title = format!("Gate leaf, posts {} to {} of {run}", leaf.from, leaf.to);
    let id = format!("gate {run} {}", leaf.index);
    row(&id, &title, &note, &length::show(leaf.width, unit), "wide")
}

fn buy_rows(desk: &Desk) -> Vec<RowItem> {
    let buy = &desk.solution.buy;
    let kinds = [
        (Piece::Gravel, &buy.gravel),
        (Piece::Rail, &buy.rails),
        (Piece::Pale, &buy.pales),
        (Piece::Post, &buy.posts),
    ];
    let bought = kinds.into_iter().filter(|(_, bought)| bought.pieces > 0);
    let mut rows: Vec<RowItem> = bought
        .map(|(kind, bought)| buy_row(desk.job(), kind, bought))
        .collect();
    let unknown = buy.post_count.saturating_sub(buy.posts.pieces);
    if unknown > 0 {
        let title = counted(unknown, "post of unknown length", "posts of unknown length");
        let note = "sight the ground along the run to know it";
        rows.push(row("buy unknown", &capital(&title), note, "", ""));
    }
    let all = volume::said(buy.litres, desk.job().show.lengths);
    let all = format!("{all} in all");
    let bags = format!("{}", buy.bags);
    rows.push(row("buy concrete", "Bags of concrete", &all, &bags, ""));
    rows
}

fn buy_row(job: &Job, kind: Piece, bought: &Bought) -> RowItem {
    let unit = job.show.lengths;
    let (one, many) = called(kind);
    let title = capital(if bought.pieces == 1 { one } else { many });
    let total = length::show_with_unit(bought.length, unit);
    let pieces = counted(bought.pieces, "piece", "pieces");
    let mut note = format!("{pieces}, {total} in all");
    let has_stock = kind != Piece::Pale;
    let mut verdict = Verdict::None;
    if !bought.too_long.is_empty() {
        verdict = Verdict::Attention;
        let (count, longest) = (bought.too_long.len(), bought.too_long.first());
        let longest = longest.map_or_else(String::new, |mm| length::show(*mm, unit));
        note.push_str(&format!(
            "; {count} too long for any stock, the longest {longest}"
        ));
    } else if bought.stock.is_empty() && has_stock {
        note.push_str("; no stock lengths given");
    }
    let stock = bought
        .stock
        .iter()
        .map(|(length, count)| format!("{count} × {}", length::show(*length, unit)));
    let stock = stock.collect::<Vec<_>>().join(", ");
    let figure = if stock.is_empty() {
        format!("{}", bought.pieces)
    } else {
        stock
    };
    RowItem {
        verdict,
        ..row(&format!("buy {one}"), &title, &note, &figure, "")
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn neighbours_are_told_together() {
        let told = |places: &[[usize; 2]], step, what: &str| {
            let all = stretches(places, step).into_iter();
            all.map(|of| of.said(what)).collect::<Vec<_>>().join(", ")
        };
        let bays = [[1, 2], [3, 4], [4, 5], [5, 6]];
        assert_eq!(told(&bays, 0, "bay"), "bay 1 to 2, bays 3 to 6");
        let posts = [[1, 1], [2, 2], [4, 4]];
        assert_eq!(told(&posts, 1, "post"), "posts 1 to 2, post 4");
    }
}
