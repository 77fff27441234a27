//! The files that the sheet can be had as, and how they leave the app.

use crate::app::desk::{Desk, Menu, Then};
use crate::app::device::{Handed, Way};
use crate::app::kit::words::counted;
use crate::export::{Form, Subject};

/// What a set-out can be had as: the id, its name, and what it is for.
pub fn forms(desk: &Desk) -> impl Iterator<Item = (String, String, String)> {
    let job = desk.job();
    let pages = counted(desk.sheet_pages().len(), "page", "pages");
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
pub fn pressed(desk: &mut Desk, id: &str) -> Then {
    let [_, _, ..] = desk.device.ways() else {
        let way = desk.device.ways().first().copied();
        return hand_over(desk, id, way.unwrap_or(Way::Save));
    };
    let name = forms(desk).find(|(form, ..)| form == id);
    let title = name.map(|(_, title, _)| title).unwrap_or_default();
    let ways = desk.device.ways().iter();
    let menu = ways.fold(Menu::new(title), |menu, &way| {
        let (title, note) = match way {
            Way::Share => ("Share it", "To another app: a message, a printer"),
            Way::Save => ("Save it", "On this device"),
        };
        let id = id.to_owned();
        menu.row(title, note, move |desk| hand_over(desk, &id, way))
    });
    desk.offer(menu)
}

/// Makes the file and gives it to the person; says where it went, or what is in the way.
fn hand_over(desk: &mut Desk, id: &str, way: Way) -> Then {
    let made = file(desk, id);
    let said = made.and_then(|file| desk.device.hand_over(&file, way));
    desk.say(&said.unwrap_or_else(|why| why));
    Then::Stay
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
