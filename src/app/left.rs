//! Where the app was left: noted beside the jobs, so that it opens there again.

use super::chosen::Chosen;
use super::typing::Draft;
use super::{Bridge, Desk, Then};
use crate::store::JobKey;
use serde::de::DeserializeOwned;
use serde::{Deserialize, Deserializer, Serialize};
use slint::Global;
use std::collections::BTreeMap;
use tautmark_ui::{App, Nav, Page, Place, Theme, ThemeMode};

/// What is noted. Whatever of it cannot be read is as on a first start.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
#[serde(default)]
struct Left {
    #[serde(deserialize_with = "or_default")]
    place: String,
    #[serde(deserialize_with = "or_default")]
    page: String,
    /// The job that is open, by its key.
    #[serde(deserialize_with = "or_default")]
    job: Option<String>,
    #[serde(deserialize_with = "or_default")]
    chosen: Chosen,
    #[serde(deserialize_with = "or_default")]
    light: String,
    /// What was typed in Quick.
    #[serde(deserialize_with = "or_default")]
    figures: BTreeMap<String, f64>,
    /// The quick sum in sight, by its name.
    #[serde(deserialize_with = "or_default")]
    quick: String,
    /// Figures typed and not entered.
    #[serde(deserialize_with = "or_default")]
    drafts: BTreeMap<String, Draft>,
}

/// A part that cannot be read is left as on a first start, without the others suffering for it.
fn or_default<'a, T: DeserializeOwned + Default, D: Deserializer<'a>>(
    from: D,
) -> Result<T, D::Error> {
    let value = serde_json::Value::deserialize(from)?;
    Ok(serde_json::from_value(value).unwrap_or_default())
}

const PLACES: [(Place, &str); 5] = [
    (Place::Walls, "walls"),
    (Place::Lines, "lines"),
    (Place::Posts, "posts"),
    (Place::Levels, "levels"),
    (Place::Boards, "boards"),
];

const PAGES: [(Page, &str); 19] = [
    (Page::Work, "work"),
    (Page::Jobs, "jobs"),
    (Page::Bin, "bin"),
    (Page::Start, "start"),
    (Page::About, "about"),
    (Page::Licences, "licences"),
    (Page::Sums, "sums"),
    (Page::Quick, "quick"),
    (Page::Sheet, "sheet"),
    (Page::Settings, "settings"),
    (Page::Line, "line"),
    (Page::Corner, "corner"),
    (Page::Run, "run"),
    (Page::MarkOut, "mark-out"),
    (Page::Carry, "carry"),
    (Page::Laser, "laser"),
    (Page::Heights, "heights"),
    (Page::Sizes, "sizes"),
    (Page::CutList, "cut-list"),
];

const LIGHTS: [(ThemeMode, &str); 3] = [
    (ThemeMode::System, "system"),
    (ThemeMode::Day, "day"),
    (ThemeMode::Night, "night"),
];

fn name<T: PartialEq>(table: &[(T, &'static str)], of: &T) -> &'static str {
    let named = table.iter().find(|(one, _)| one == of);
    named.map_or("", |(_, name)| name)
}

fn named<T: Copy>(table: &[(T, &str)], text: &str) -> Option<T> {
    let found = table.iter().find(|(_, name)| *name == text);
    found.map(|(one, _)| *one)
}

/// Pages that need no job under them.
fn without_job(page: Page) -> bool {
    matches!(
        page,
        Page::Jobs
            | Page::Bin
            | Page::Start
            | Page::About
            | Page::Licences
            | Page::Sums
            | Page::Quick
    )
}

/// What is to be noted of where the person is.
pub(super) fn text(app: &App, desk: &Desk) -> String {
    let nav = Nav::get(app);
    let mut drafts = desk.drafts.clone();
    drafts.extend(desk.being_typed());
    let left = Left {
        place: name(&PLACES, &nav.get_place()).to_owned(),
        page: name(&PAGES, &nav.get_page()).to_owned(),
        job: desk.open().map(|open| open.key().to_string()),
        chosen: desk.chosen.clone(),
        light: name(&LIGHTS, &Theme::get(app).get_mode()).to_owned(),
        figures: desk.figures.clone(),
        quick: desk.quick().to_owned(),
        drafts,
    };
    // Figures that are no numbers have no text; they are left out rather than all of it.
    serde_json::to_string(&left).unwrap_or_default()
}

impl Bridge {
    /// Opens the app where it was left; on the list of jobs where that cannot be.
    pub fn reopen(&self) {
        let Some(app) = self.app.upgrade() else {
            return;
        };
        let text = self.look(|desk| desk.jobs.remembered()).unwrap_or_default();
        let left: Left = serde_json::from_str(&text).unwrap_or_default();
        Theme::get(&app).set_mode(named(&LIGHTS, &left.light).unwrap_or(ThemeMode::System));
        self.act(|desk| take_up(&app, desk, left));
    }
}

fn take_up(app: &App, desk: &mut Desk, left: Left) -> Then {
    if let Some(key) = left.job.as_deref().and_then(JobKey::parse) {
        match desk.jobs.open(&key) {
            Ok(open) => {
                desk.take(open);
                desk.chosen = left.chosen.in_bounds();
            }
            Err(why) => desk.say(&why.to_string()),
        }
    }
    desk.drafts = left.drafts;
    desk.figures = left.figures;
    desk.look_at_quick(&left.quick);
    let page = named(&PAGES, &left.page).unwrap_or(Page::Jobs);
    let page = match desk.open() {
        None if !without_job(page) => Page::Jobs,
        _ => page,
    };
    let place = named(&PLACES, &left.place).unwrap_or(Place::Walls);
    Nav::get(app).set_place(place);
    Then::Open(page)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_place_page_and_light_has_a_name_of_its_own() {
        for (place, text) in PLACES {
            assert_eq!(named(&PLACES, text), Some(place));
        }
        for (page, text) in PAGES {
            assert_eq!(named(&PAGES, text), Some(page));
        }
        for (light, text) in LIGHTS {
            assert_eq!(named(&LIGHTS, text), Some(light));
        }
    }

    #[test]
    fn what_cannot_be_read_harms_nothing_else() {
        let text = r#"{"place":"posts","page":7,"job":"yard","chosen":{"post":"five"},
            "light":null,"figures":{"a":1.5},"drafts":[1],"more":true}"#;
        let left: Left = serde_json::from_str(text).expect("it is JSON");
        assert_eq!(left.place, "posts");
        assert_eq!(left.job.as_deref(), Some("yard"));
        assert_eq!(left.figures["a"], 1.5);
        assert_eq!((left.page, left.chosen), (String::new(), Chosen::default()));
    }
}
