//! The Sheet place: the set-out sheet's pages as they will be printed, and the files it can be had
//! as.

use super::device::{Handed, Way};
use super::menu::choice;
use super::rows::patched;
use super::words::{capital, counted, row, status};
use super::{Bridge, Desk, Menu, Then};
use crate::export::{Form, Paper, Subject};
use crate::job::Severity;
use crate::sheet::Sheet;
use slint::{Global, ModelRc, SharedString, VecModel};
use std::rc::Rc;
use tautmark_ui::{App, Item, Nav, Page, SheetVm, Verdict};

const PAPERS: [(Paper, &str); 2] = [(Paper::A4, "A4"), (Paper::Letter, "Letter")];

pub(super) fn wire(app: &App, bridge: &Rc<Bridge>) {
    let vm = SheetVm::get(app);
    let at = bridge.clone();
    vm.on_form_pressed(move |id| at.act(|desk| pressed(desk, &id)));
    let at = bridge.clone();
    vm.on_turned(move |by| {
        at.act(|desk| {
            let from = desk.page().map_or(0, |(page, _)| page);
            turn_to(desk, from.saturating_add_signed(by as isize))
        });
    });
    let at = bridge.clone();
    vm.on_paper_picked(move |index| {
        at.act(|desk| {
            let picked = usize::try_from(index).ok().and_then(|i| PAPERS.get(i));
            desk.sheet.paper = picked.map(|(paper, _)| *paper);
            desk.sheet.forget();
            desk.view.whole();
            Then::Stay
        });
    });
    let at = bridge.clone();
    vm.on_content_pressed(move |id| {
        at.act(|desk| turn_to(desk, id.parse().unwrap_or_default()));
    });
    let papers = PAPERS.map(|(_, name)| SharedString::from(name));
    vm.set_papers(ModelRc::new(VecModel::from(papers.to_vec())));
}

fn turn_to(desk: &mut Desk, page: usize) -> Then {
    desk.sheet.page = page.min(desk.pages().len().saturating_sub(1));
    desk.view.whole();
    Then::Stay
}

pub(super) fn fill(app: &App, desk: &Desk) {
    if Nav::get(app).get_page() != Page::Sheet {
        return;
    }
    let vm = SheetVm::get(app);
    let count = desk.pages().len();
    let at = desk.page().map_or(0, |(at, _)| at);
    vm.set_page(format!("Page {} of {count}", at + 1).into());
    vm.set_has_before(at > 0);
    vm.set_has_after(at + 1 < count);
    let paper = PAPERS.iter().position(|(one, _)| *one == desk.paper());
    vm.set_paper(paper.unwrap_or_default() as i32);
    vm.set_status(standing(desk));
    vm.set_contents(patched(vm.get_contents(), contents(desk)));
    let forms = forms(desk).map(|(id, title, note)| row(&id, &title, &note, "", ""));
    vm.set_forms(patched(vm.get_forms(), forms.collect()));
}

fn standing(desk: &Desk) -> tautmark_ui::Status {
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
fn contents(desk: &Desk) -> Vec<Item> {
    let sheet = Sheet::new(desk.job(), &desk.solution);
    let pages = desk.pages().iter().enumerate();
    let begins = pages.flat_map(|(at, page)| std::iter::repeat_n(at, page.begins));
    let sections = sheet.sections.iter().zip(begins);
    sections
        .map(|(section, page)| {
            let number = (page + 1).to_string();
            row(&page.to_string(), &section.heading, "", &number, "")
        })
        .collect()
}

/// What a set-out can be had as: the id, its name, and what it is for.
fn forms(desk: &Desk) -> impl Iterator<Item = (String, String, String)> {
    let job = desk.job();
    let pages = counted(desk.pages().len(), "page", "pages");
    let named = |id: &str, title: &str, note: &str| (id.to_owned(), title.into(), note.into());
    let drawing = |kind: &str, name: &str| {
        let title = format!("Drawing of {kind} {name}");
        (format!("svg {name}"), title, "SVG".to_owned())
    };
    let mut forms = vec![
        named("pdf", "Pages to print", &format!("PDF, {pages}")),
        named(
            "message",
            "A short message",
            "the running readings in a few lines",
        ),
        named("job", "The job itself", "to open on another device"),
        named("html", "A page for a browser", "HTML"),
        named("text", "Plain text", "TXT"),
        named("csv", "Tables for a spreadsheet", "CSV"),
        named("svg plan", "Drawing of the plan", "SVG"),
    ];
    let runs = desk.solution.runs.keys();
    forms.extend(runs.map(|run| drawing("run", run.as_str())));
    let corners = job.corners.iter().map(|corner| &corner.id);
    let known = corners.filter(|id| desk.solution.corners.contains_key(*id));
    forms.extend(known.map(|corner| drawing("corner", corner.as_str())));
    forms.push(named("dxf", "The plan for drawing programs", "DXF, in mm"));
    forms.into_iter()
}

/// Hands the form over; where there are several ways, they can be chosen from first.
fn pressed(desk: &mut Desk, id: &str) -> Then {
    let [_, _, ..] = desk.device.ways() else {
        let way = desk.device.ways().first().copied();
        hand_over(desk, id, way.unwrap_or(Way::Save));
        return Then::Stay;
    };
    let rows = desk.device.ways().iter().map(|way| match way {
        Way::Share => choice("share", "Share it", "To another app: a message, a printer"),
        Way::Save => choice("save", "Save it", "On this device"),
    });
    let rows = rows.collect();
    let name = forms(desk).find(|(form, ..)| form == id);
    let id = id.to_owned();
    let title = name.map(|(_, title, _)| title).unwrap_or_default();
    desk.menu = Some(Menu::new(title, rows, move |desk, way| {
        let way = match way {
            "share" => Way::Share,
            _ => Way::Save,
        };
        hand_over(desk, &id, way);
        Then::Stay
    }));
    Then::Stay
}

/// Makes the file and gives it to the person; says where it went, or what is in the way.
fn hand_over(desk: &mut Desk, id: &str, way: Way) {
    let made = file(desk, id);
    let said = made.and_then(|file| desk.device.hand_over(&file, way));
    desk.say(&said.unwrap_or_else(|why| why));
}

fn file(desk: &Desk, id: &str) -> Result<Handed, String> {
    let name = file_name(&desk.job().title);
    let form = match id.split_once(' ') {
        Some((_, subject)) => Subject::named(desk.job(), subject).map(Form::Svg),
        None => match id {
            "pdf" => Some(Form::Pdf(desk.paper())),
            "message" => Some(Form::Message),
            "html" => Some(Form::Html),
            "text" => Some(Form::Text),
            "csv" => Some(Form::Csv),
            "dxf" => Some(Form::Dxf),
            _ => None,
        },
    };
    let Some(form) = form else {
        let text = desk.open().map(|open| open.text());
        return Ok(Handed {
            name: format!("{name}.job.json"),
            media_type: "application/json",
            bytes: text.unwrap_or_default().into_bytes(),
        });
    };
    let bytes = form
        .make(desk.job(), &desk.solution)
        .map_err(|why| why.to_string())?;
    // What a file shows is in its name, so that two of one job are told apart.
    let shows = match &form {
        Form::Svg(Subject::Run(id)) => format!("-{}", file_name(id.as_str())),
        Form::Svg(Subject::Corner(id)) => format!("-{}", file_name(id.as_str())),
        Form::Svg(Subject::Posts(run, n)) => format!("-{}-post-{n}", file_name(run.as_str())),
        Form::Svg(Subject::Gate(run, index)) => {
            format!("-{}-gate-{}", file_name(run.as_str()), index + 1)
        }
        Form::Svg(Subject::Plan) => "-plan".to_owned(),
        Form::Message => "-message".to_owned(),
        _ => String::new(),
    };
    Ok(Handed {
        name: format!("{name}{shows}.{}", form.ending()),
        media_type: form.media_type(),
        bytes,
    })
}

/// A title as the name of a file on any system: letters, digits and dashes.
fn file_name(title: &str) -> String {
    let letter = |c: char| if c.is_alphanumeric() { c } else { '-' };
    let name: String = title.to_lowercase().chars().map(letter).collect();
    let parts: Vec<&str> = name.split('-').filter(|part| !part.is_empty()).collect();
    match parts.join("-") {
        name if name.is_empty() => "job".to_owned(),
        name => name,
    }
}

#[cfg(test)]
mod tests {
    use super::file_name;

    #[test]
    fn any_title_makes_a_name() {
        assert_eq!(file_name("Orchard corner, screen"), "orchard-corner-screen");
        assert_eq!(file_name("../a: b?"), "a-b");
        assert_eq!(file_name("…"), "job");
        assert_eq!(file_name("Zaun Süd"), "zaun-süd");
    }
}
