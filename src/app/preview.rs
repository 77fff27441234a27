//! The sheet's pages on the screen, as they will be printed.

use super::Desk;
use super::painted::painted;
use crate::drawing::{Bounds, Laid, Margins, Stroke, Tile, Tone, Vec2, View as Sight};
use crate::export::{Page, Paper, pages};
use crate::sheet::Sheet;
use std::cell::OnceCell;
use tautmark_ui::Drawing;

/// The page in sight, and the pages once they have been laid out.
#[derive(Default)]
pub struct Preview {
    /// From 0.
    pub page: usize,
    /// The paper that was asked for; else the usual one.
    pub paper: Option<Paper>,
    pages: OnceCell<Vec<Page>>,
}

impl Preview {
    /// Forgets the pages: something on them has changed.
    pub fn forget(&mut self) {
        self.pages = OnceCell::new();
    }
}

impl Desk {
    /// The paper that the sheet is laid out for.
    #[must_use]
    pub fn paper(&self) -> Paper {
        let usual = Paper::usual(self.job().show.lengths);
        self.sheet.paper.unwrap_or(usual)
    }

    /// The sheet's pages, laid out when they are first asked for after a change.
    pub(super) fn pages(&self) -> &[Page] {
        self.sheet
            .pages
            .get_or_init(|| pages(&Sheet::new(self.job(), &self.solution), self.paper()))
    }

    /// The page in sight and its place among the pages, from 0; the last where there are fewer.
    pub(super) fn page(&self) -> Option<(usize, &Page)> {
        let pages = self.pages();
        let at = self.sheet.page.min(pages.len().checked_sub(1)?);
        Some((at, pages.get(at)?))
    }
}

/// Where the page is on the screen when all of it is seen: one view unit is a pt.
pub(super) fn whole(desk: &Desk) -> Option<Sight> {
    let (_, page) = desk.page()?;
    let [width, height] = page.size;
    let bounds = Bounds::around([Vec2::zeros(), Vec2::new(width, -height)]);
    Some(Sight::fit(&bounds, desk.view.room(), Margins::even(8.0)))
}

/// The page as strokes and labels of the screen.
pub(super) fn shown(desk: &Desk, sight: &Sight) -> Drawing {
    let Some((at, page)) = desk.page() else {
        return Drawing::default();
    };
    let mut ink = Laid::default();
    ink.strokes.push(edge(page.size));
    ink.add(page.ink.clone());
    let mut ink = ink.placed(sight.scale, sight.origin);
    let room = desk.view.room();
    let [width, height] = room;
    // Only what is in sight costs anything to draw.
    let screen = Tile::level(Vec2::new(width, height) / 2.0, [width / 2.0, height / 2.0]);
    ink.labels.retain(|label| label.tile().covers(&screen));
    let description = format!("Page {} of {} of the sheet", at + 1, desk.pages().len());
    painted(ink, room, &description)
}

/// The edge of the paper.
fn edge([width, height]: [f64; 2]) -> Stroke {
    let corners = [[0.0, 0.0], [width, 0.0], [width, height], [0.0, height]];
    Stroke {
        points: corners.map(Vec2::from).into(),
        closed: true,
        line: Some((Tone::Second, 1.0)),
        dash: None,
        fill: Some(Tone::Paper),
        item: 0,
    }
}
