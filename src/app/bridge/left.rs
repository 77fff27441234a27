//! Where the app was left: noted beside the jobs, so that it opens there again.

use super::Bridge;
use super::screen::Screens;
use crate::app::desk::{Chosen, Desk, Draft, Then, root_of};
use crate::store::JobKey;
use serde::de::DeserializeOwned;
use serde::{Deserialize, Deserializer, Serialize};
use slint::Global;
use std::collections::BTreeMap;
use tautmark_ui::{App, Page, Place, Theme, ThemeMode};

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
    /// Figures are read aloud.
    #[serde(deserialize_with = "or_default")]
    aloud: bool,
    /// What was typed in Quick.
    #[serde(deserialize_with = "or_default")]
    figures: BTreeMap<String, f64>,
    /// The quick sum in sight, by its name.
    #[serde(deserialize_with = "or_default")]
    quick: String,
    /// Figures typed and not entered.
    #[serde(deserialize_with = "or_default")]
    drafts: BTreeMap<String, Draft>,
    /// The job that is being given another title, by its key, and the title so far.
    #[serde(deserialize_with = "or_default")]
    retitling: Option<(String, String)>,
}

/// A part that cannot be read is left as on a first start, without the others suffering for it.
fn or_default<'a, T: DeserializeOwned + Default, D: Deserializer<'a>>(
    from: D,
) -> Result<T, D::Error> {
    let value = serde_json::Value::deserialize(from)?;
    Ok(serde_json::from_value(value).unwrap_or_default())
}

/// Noted in place of the name of the place itself.
const ROOT: &str = "work";

const LIGHTS: [(ThemeMode, &str); 3] = [
    (ThemeMode::System, "system"),
    (ThemeMode::Day, "day"),
    (ThemeMode::Night, "night"),
];

fn name(light: ThemeMode) -> &'static str {
    let named = LIGHTS.iter().find(|(one, _)| *one == light);
    named.map_or("", |(_, name)| name)
}

fn light(text: &str) -> Option<ThemeMode> {
    let found = LIGHTS.iter().find(|(_, name)| *name == text);
    found.map(|(one, _)| *one)
}

/// The page of this name; of no screen where it is the name of none.
fn page(screens: Screens, name: &str) -> Option<Page> {
    let mut specs = screens.iter().map(|screen| screen.spec());
    let found = specs.find(|spec| !spec.is_root() && spec.name == Some(name));
    found.map(|spec| spec.page)
}

fn place(screens: Screens, name: &str) -> Option<Place> {
    let mut specs = screens.iter().map(|screen| screen.spec());
    specs
        .find(|spec| spec.is_root() && spec.name == Some(name))?
        .place
}

/// What is to be noted of where the person is.
pub(super) fn text(app: &App, desk: &Desk, screens: Screens) -> String {
    let spec = |page| {
        screens
            .iter()
            .map(|one| one.spec())
            .find(|one| one.page == page)
    };
    let name_of = |page| spec(page).and_then(|spec| spec.name).unwrap_or_default();
    let here = match desk.nav.page {
        page if page == root_of(desk.nav.place) => ROOT,
        page => name_of(page),
    };
    let mut drafts = desk.drafts.clone();
    drafts.extend(desk.being_typed());
    let left = Left {
        place: name_of(root_of(desk.nav.place)).to_owned(),
        page: here.to_owned(),
        job: desk.open().map(|open| open.key().to_string()),
        chosen: desk.chosen.clone(),
        light: name(Theme::get(app).get_mode()).to_owned(),
        aloud: desk.aloud,
        figures: desk.figures.clone(),
        quick: desk.quick.sum.clone(),
        drafts,
        retitling: desk
            .retitling
            .as_ref()
            .map(|(key, title)| (key.to_string(), title.clone())),
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
        Theme::get(&app).set_mode(light(&left.light).unwrap_or(ThemeMode::System));
        self.act(|desk| take_up(desk, left, self.house.screens));
    }
}

fn take_up(desk: &mut Desk, left: Left, screens: Screens) -> Then {
    if let Some(key) = left.job.as_deref().and_then(JobKey::parse) {
        if desk.not_opened.contains(&key) {
            desk.explain(
                "The app stopped while it opened a job",
                "It was stopped while it opened the job that was in use. The job is left as it is: press it in the list to open it again, send its file out or delete it.",
            );
        } else {
            match desk.open_key(&key) {
                Ok(()) => desk.chosen = left.chosen.in_bounds(),
                Err(why) => {
                    desk.say(&why.to_string());
                }
            }
        }
    }
    desk.aloud = left.aloud;
    desk.drafts = left.drafts;
    desk.figures = left.figures;
    desk.quick.sum = left.quick;
    desk.retitling = left
        .retitling
        .and_then(|(key, title)| Some((JobKey::parse(&key)?, title)));
    desk.nav.place = place(screens, &left.place).unwrap_or(Place::Walls);
    let page = match left.page.as_str() {
        ROOT => root_of(desk.nav.place),
        name => page(screens, name).unwrap_or(Page::Jobs),
    };
    let jobless = |page| {
        let mut specs = screens.iter().map(|one| one.spec());
        specs.any(|spec| spec.page == page && spec.jobless)
    };
    Then::Open(match desk.open() {
        None if !jobless(page) => Page::Jobs,
        _ => page,
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_light_has_a_name_of_its_own() {
        for (mode, text) in LIGHTS {
            assert_eq!(light(text), Some(mode));
        }
    }

    #[test]
    fn what_cannot_be_read_harms_nothing_else() {
        let text = r#"{"place":"posts","page":7,"job":"yard","chosen":{"post":"five"},
            "light":null,"aloud":"yes","figures":{"a":1.5},"drafts":[1],"more":true}"#;
        let left: Left = serde_json::from_str(text).expect("it is JSON");
        assert_eq!(left.place, "posts");
        assert_eq!(left.job.as_deref(), Some("yard"));
        assert_eq!(left.figures["a"], 1.5);
        assert!(!left.aloud);
        assert_eq!((left.page, left.chosen), (String::new(), Chosen::default()));
    }
}
