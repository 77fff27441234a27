//! The sheet: the whole set-out as it will be printed. A person turns its pages and takes it along as
//! a file.

mod files;

use crate::app::bridge::{Back, Bridge, PagePicture, Screen, Spec};
use crate::app::desk::{Desk, Then};
use crate::app::kit::{capital, counted, patched, row, status};
use crate::export::Paper;
use crate::job::Severity;
use crate::sheet::Sheet;
use slint::{Global, ModelRc, SharedString, VecModel};
use std::rc::Rc;
use tautmark_ui::{App, Page, RowItem, SheetVm, Status, Verdict};

const PAPERS: [(Paper, &str); 2] = [(Paper::A4, "A4"), (Paper::Letter, "Letter")];

/// The page.
pub struct SheetScreen;

impl Screen for SheetScreen {
    fn spec(&self) -> Spec {
        Spec::over(Page::Sheet, Some("sheet"), Back::Place)
    }

    fn wire(&self, app: &App, bridge: &Rc<Bridge>) {
        let vm = SheetVm::get(app);
        vm.on_form_pressed(bridge.does_with(|desk, id| files::forms(desk).press(desk, id)));
        let at = bridge.clone();
        vm.on_turned(move |by| at.act(|desk| turn_by(desk, by as isize)));
        vm.on_paper_picked(bridge.does_at(pick_paper));
        vm.on_content_pressed(
            bridge.does_with(|desk, id| id.parse().map_or(Then::Stay, |page| turn_to(desk, page))),
        );
        let papers = PAPERS.map(|(_, name)| SharedString::from(name));
        vm.set_papers(ModelRc::new(VecModel::from(papers.to_vec())));
    }

    fn fill(&self, app: &App, desk: &Desk) -> bool {
        let vm = SheetVm::get(app);
        let count = desk.sheet_pages().len();
        let at = desk.sheet_page().map_or(0, |(at, _)| at);
        vm.set_page(format!("Page {} of {count}", at + 1).into());
        vm.set_has_before(at > 0);
        vm.set_has_after(at + 1 < count);
        let paper = PAPERS.iter().position(|(one, _)| *one == desk.paper());
        vm.set_paper(paper.unwrap_or_default() as i32);
        vm.set_status(standing(desk));
        vm.set_contents(patched(vm.get_contents(), contents(desk)));
        vm.set_forms(patched(vm.get_forms(), files::forms(desk).items()));
        false
    }

    fn picture(&self, desk: &Desk) -> Option<PagePicture> {
        let Some((at, page)) = desk.sheet_page() else {
            return Some(PagePicture::Blank);
        };
        let count = desk.sheet_pages().len();
        Some(PagePicture::Paper {
            ink: page.ink.clone(),
            size: page.size,
            description: format!("Page {} of {count} of the sheet", at + 1),
        })
    }
}

fn turn_by(desk: &mut Desk, by: isize) -> Then {
    let from = desk.sheet_page().map_or(0, |(page, _)| page);
    turn_to(desk, from.saturating_add_signed(by))
}

fn turn_to(desk: &mut Desk, page: usize) -> Then {
    desk.sheet.page = page.min(desk.sheet_pages().len().saturating_sub(1));
    desk.view.whole();
    Then::Stay
}

fn pick_paper(desk: &mut Desk, index: usize) -> Then {
    desk.sheet.paper = PAPERS.get(index).map(|(paper, _)| *paper);
    desk.sheet.forget();
    desk.view.whole();
    Then::Stay
}

fn standing(desk: &Desk) -> Status {
    let problems = desk.solution.problems.iter();
    match problems.filter(|p| p.severity != Severity::Note).count() {
        0 => status(
            Verdict::Good,
            "**Nothing is in the way.** Save the sheet and print it.",
        ),
        1 => status(
            Verdict::Attention,
            "**One thing to look at;** it stands first on the sheet.",
        ),
        n => status(
            Verdict::Attention,
            &format!(
                "**{} to look at;** they stand first on the sheet.",
                capital(&counted(n, "thing", "things"))
            ),
        ),
    }
}

/// The sheet's sections with the page that each begins on, its number as the id.
fn contents(desk: &Desk) -> Vec<RowItem> {
    let sheet = Sheet::new(desk.job(), &desk.solution);
    let pages = desk.sheet_pages().iter().enumerate();
    let begins = pages.flat_map(|(at, page)| std::iter::repeat_n(at, page.begins));
    let sections = sheet.sections.iter().zip(begins);
    sections
        .map(|(section, page)| {
            let number = (page + 1).to_string();
            row(&page.to_string(), &section.heading, "", &number, "")
        })
        .collect()
}
