//! The files that the sheet can be had as, and how they leave the app.

use crate::app::desk::{Desk, Menu, Rows, Then};
use crate::app::device::{Handed, Way};
use crate::app::kit::{counted, row};
use crate::export::{Form, Subject};

/// What is taken along: the sheet in one of its forms, or the job itself (`None`).
type Taken = Option<Form>;

/// What a set-out can be had as, and what that is for; pressing one hands it over.
pub fn forms(desk: &Desk) -> Rows {
    let job = desk.job();
    let mut rows = Rows::default();
    let mut add = |title: &str, note: &str, taken: Taken| {
        let named = title.to_owned();
        rows.push(row("", title, note, "", ""), move |desk| {
            pressed(desk, named, taken)
        });
    };
    let pages = counted(desk.sheet_pages().len(), "page", "pages");
    let pages = format!("PDF, {pages}");
    add("Pages to print", &pages, Some(Form::Pdf(desk.paper())));
    let message = "the running readings in a few lines";
    add("A short message", message, Some(Form::Message));
    add("The job itself", "to open on another device", None);
    add("A page for a browser", "HTML", Some(Form::Html));
    add("Plain text", "TXT", Some(Form::Text));
    add("Tables for a spreadsheet", "CSV", Some(Form::Csv));
    let mut draw = |of: &str, subject| {
        let title = format!("Drawing of {of}");
        add(&title, "SVG", Some(Form::Svg(subject)));
    };
    draw("the plan", Subject::Plan);
    for run in desk.solution.runs.keys() {
        draw(&format!("run {run}"), Subject::Run(run.clone()));
    }
    let corners = job.corners.iter().map(|corner| &corner.id);
    for id in corners.filter(|id| desk.solution.corners.contains_key(*id)) {
        draw(&format!("corner {id}"), Subject::Corner(id.clone()));
    }
    add(
        "The plan for drawing programs",
        "DXF, in mm",
        Some(Form::Dxf),
    );
    rows
}

/// Hands it over; where there are several ways, they can be chosen from first.
fn pressed(desk: &mut Desk, title: String, taken: Taken) -> Then {
    let [_, _, ..] = desk.device.ways() else {
        let way = desk.device.ways().first().copied();
        return hand_over(desk, &taken, way.unwrap_or(Way::Save));
    };
    let ways = desk.device.ways().iter();
    let menu = ways.fold(Menu::new(title), |menu, &way| {
        let (title, note) = match way {
            Way::Share => ("Share it", "To another app: a message, a printer"),
            Way::Save => ("Save it", "On this device"),
        };
        let taken = taken.clone();
        menu.row(title, note, move |desk| hand_over(desk, &taken, way))
    });
    desk.offer(menu)
}

/// Makes the file and gives it to the person; says where it went, or what is in the way.
fn hand_over(desk: &mut Desk, taken: &Taken, way: Way) -> Then {
    let made = file(desk, taken);
    let said = made.and_then(|file| desk.device.hand_over(&file, way));
    desk.say(&said.unwrap_or_else(|why| why))
}

fn file(desk: &Desk, taken: &Taken) -> Result<Handed, String> {
    let name = file_name(&desk.job().title);
    let Some(form) = taken else {
        let text = desk.open().map(|open| open.text());
        return Ok(Handed::job(&name, text.unwrap_or_default().into_bytes()));
    };
    let bytes = form
        .make(desk.job(), &desk.solution)
        .map_err(|why| why.to_string())?;
    // What a file shows is in its name, so that two of one job are told apart.
    let shows = match form {
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
