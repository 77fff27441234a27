//! What is seen of the desk and is not of the job: where a drawing has been moved, the sheet's pages,
//! the rows of the list of jobs, the quick sum.

use super::Desk;
use crate::drawing::View;
use crate::export::{Paper, SheetPage as Leaf, pages};
use crate::sheet::Sheet;
use crate::store::JobKey;
use std::cell::OnceCell;
use std::collections::HashMap;
use std::time::SystemTime;
use tautmark_ui::{JobRow, Page, Place};

/// What of the drawing is seen: the room for it (logical px) and, once it has been moved, where.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Viewport {
    room: [f64; 2],
    /// Where it has been moved, and of which page: another page's drawing is another one.
    moved: Option<(View, Place, Page)>,
}

impl Viewport {
    /// Width and height of the room for the drawing, logical px.
    #[must_use]
    pub fn room(&self) -> [f64; 2] {
        self.room
    }

    /// Its width over its height; 1 while there is no room.
    #[must_use]
    pub fn aspect(&self) -> f64 {
        let [width, height] = self.room.map(|side| side.max(1.0));
        width / height
    }

    /// Gives the drawing this room; in another one it is seen whole again.
    pub fn resize(&mut self, room: [f64; 2]) {
        if self.room != room {
            *self = Self { room, moved: None };
        }
    }

    /// Shows the whole of the drawing again.
    pub fn whole(&mut self) {
        self.moved = None;
    }
}

impl Desk {
    /// Where the drawing of the page in sight has been moved to; `None` where all of it is seen.
    #[must_use]
    pub fn moved_view(&self) -> Option<View> {
        let here = (self.nav.place, self.nav.page);
        let (view, place, page) = self.view.moved?;
        ((place, page) == here).then_some(view)
    }

    /// Moves the drawing of the page in sight.
    pub fn move_view(&mut self, to: View) {
        self.view.moved = Some((to, self.nav.place, self.nav.page));
    }
}

/// The sheet's page in sight, and the pages once they have been laid out.
#[derive(Default)]
pub struct SheetPreview {
    /// From 0.
    pub page: usize,
    /// The paper that was asked for; else the usual one.
    pub paper: Option<Paper>,
    pages: OnceCell<Vec<Leaf>>,
}

impl SheetPreview {
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
    pub fn sheet_pages(&self) -> &[Leaf] {
        self.sheet
            .pages
            .get_or_init(|| pages(&Sheet::new(self.job(), &self.solution), self.paper()))
    }

    /// The page in sight and its place among the pages, from 0; the last where there are fewer.
    pub fn sheet_page(&self) -> Option<(usize, &Leaf)> {
        let pages = self.sheet_pages();
        let at = self.sheet.page.min(pages.len().checked_sub(1)?);
        Some((at, pages.get(at)?))
    }
}

/// When a job was last changed, as far as the disk says so.
pub type Changed = Option<SystemTime>;

/// Rows of the list of jobs that were made before, with the time of the job they show.
#[derive(Default)]
pub struct Listed(pub HashMap<JobKey, (Changed, JobRow)>);

/// The quick sum in sight, by its name, and what was cleared away.
#[derive(Default)]
pub struct QuickInSight {
    /// The sum's name; empty while none has been opened.
    pub sum: String,
    /// Names and figures that were cleared last, to be taken back.
    pub cleared: Vec<(String, f64)>,
}
