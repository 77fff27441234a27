//! Pieces one under the other, and pages where they are full.

use super::columns;
use super::piece::{Frame, PagePieces, Piece, Sheaf, group_end, height};
use std::rc::Rc;

/// Fills page after page; narrow pieces in a row stand in two columns. A piece goes to the next page
/// with all that is glued before it; only a group taller than a page is broken inside.
pub(super) fn flow(pieces: &[Rc<Piece>], frame: &Frame) -> Vec<PagePieces> {
    let mut sheaf = Sheaf {
        frame,
        pages: vec![PagePieces::default()],
        y: 0.0,
    };
    let mut rest = pieces;
    while let Some(first) = rest.first() {
        let alike = rest.iter().take_while(|one| one.narrow == first.narrow);
        let (row, after) = rest.split_at(alike.count());
        if first.narrow {
            columns::fill(row, &mut sheaf);
        } else {
            down(row, after, &mut sheaf);
        }
        rest = after;
    }
    sheaf.pages
}

/// Pieces as wide as the page, one under the other; a heading stays with what comes `after`.
fn down(pieces: &[Rc<Piece>], after: &[Rc<Piece>], sheaf: &mut Sheaf<'_>) {
    let mut at = 0;
    while at < pieces.len() {
        let end = group_end(pieces, at);
        let group = &pieces[at..end];
        let leads = end == pieces.len() && pieces[end - 1].glued && !after.is_empty();
        let next = if leads {
            let next = &after[..group_end(after, 0)];
            let least = if next[0].narrow { columns::LEAST } else { 0.0 };
            next[0].before + height(next).max(least)
        } else {
            0.0
        };
        let tall = height(group) + next;
        if sheaf.y > 0.0 && sheaf.y + group[0].before + tall > sheaf.frame.height {
            sheaf.turn_over();
        }
        for piece in group {
            place(piece, sheaf);
        }
        at = end;
    }
}

fn place(piece: &Rc<Piece>, sheaf: &mut Sheaf<'_>) {
    let before = if sheaf.y == 0.0 { 0.0 } else { piece.before };
    if sheaf.y > 0.0 && sheaf.y + before + piece.height > sheaf.frame.height {
        sheaf.turn_over();
    }
    if sheaf.y == 0.0
        && let Some(again) = &piece.again
    {
        sheaf.put([0.0, 0.0], again);
        sheaf.y = again.height;
    }
    if sheaf.y > 0.0 {
        sheaf.y += piece.before;
    }
    sheaf.put([0.0, sheaf.y], piece);
    sheaf.y += piece.height;
}

#[cfg(test)]
mod tests {
    use super::super::Paper;
    use super::*;

    fn piece(height: f64, glued: bool) -> Rc<Piece> {
        Rc::new(Piece {
            height,
            glued,
            before: 10.0,
            ..Piece::default()
        })
    }

    fn frame() -> Frame {
        Frame {
            height: 100.0,
            ..Frame::of(Paper::A4)
        }
    }

    fn tops(pages: &[PagePieces]) -> Vec<Vec<f64>> {
        let of = |page: &PagePieces| page.pieces.iter().map(|([_, y], _)| *y).collect();
        pages.iter().map(of).collect()
    }

    #[test]
    fn what_is_glued_goes_over_together() {
        let pieces = [piece(60.0, false), piece(10.0, true), piece(25.0, false)];
        assert_eq!(tops(&flow(&pieces, &frame())), [vec![0.0], vec![0.0, 20.0]]);
        let pieces = [piece(60.0, false), piece(10.0, false), piece(25.0, false)];
        assert_eq!(tops(&flow(&pieces, &frame())), [vec![0.0, 70.0], vec![0.0]]);
    }

    #[test]
    fn a_table_starts_again_with_its_heading() {
        let head = piece(20.0, true);
        let row = || {
            Rc::new(Piece {
                height: 30.0,
                again: Some(Rc::clone(&head)),
                ..Piece::default()
            })
        };
        let pieces = [Rc::clone(&head), row(), row(), row()];
        assert_eq!(
            tops(&flow(&pieces, &frame())),
            [vec![0.0, 20.0, 50.0], vec![0.0, 20.0]]
        );
    }

    #[test]
    fn narrow_pieces_stand_in_two_even_columns() {
        let narrow = |height| {
            Rc::new(Piece {
                height,
                narrow: true,
                ..Piece::default()
            })
        };
        let four = [narrow(20.0), narrow(20.0), narrow(20.0), narrow(20.0)];
        let pages = flow(&four, &frame());
        assert_eq!(tops(&pages), [vec![0.0, 20.0, 0.0, 20.0]]);
        let lefts: Vec<f64> = pages[0].pieces.iter().map(|([x, _], _)| *x).collect();
        assert_eq!((lefts[0], lefts[1], lefts[2]), (0.0, 0.0, lefts[3]));
        assert!(lefts[2] > frame().width / 2.0);
        // Too little is left under something wide; six fit on the next page, two on the last.
        let mut more = vec![piece(70.0, false)];
        more.extend((0..8).map(|_| narrow(30.0)));
        let pages = flow(&more, &frame());
        let placed: usize = pages.iter().map(|page| page.pieces.len()).sum();
        assert_eq!((placed, pages.len()), (9, 3));
    }

    #[test]
    fn a_group_taller_than_a_page_is_still_printed() {
        let pieces: Vec<_> = (0..5).map(|_| piece(40.0, true)).collect();
        let all: usize = flow(&pieces, &frame()).iter().map(|p| p.pieces.len()).sum();
        assert_eq!(all, 5);
    }
}
