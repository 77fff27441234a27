//! Another title for a job in the list.

use crate::app::bridge::form::FormPage;
use crate::app::bridge::screen::{Back, Screen, Spec};
use crate::app::desk::{Desk, Then};
use crate::app::kit::fields::{FormContents, text};
use crate::job::edit::{Edit, Setting};
use crate::store::JobKey;
use tautmark_ui::{Page, Verdict};

/// The form of [`Page::Rename`].
pub struct Retitle;

/// Asks for another title.
pub fn ask(desk: &mut Desk, key: JobKey, title: &str) -> Then {
    desk.retitling = Some((key, title.to_owned()));
    Then::Open(Page::Rename)
}

/// Gives the job the title that was typed; to be called when the page has been left, whichever way.
fn done(desk: &mut Desk) {
    let Some((key, title)) = desk.retitling.take() else {
        return;
    };
    let title = title.trim();
    if title.is_empty() {
        desk.say("The job keeps its name: none was typed.");
    } else if desk.is_open(&key) {
        if desk.saved().title != title {
            desk.change(Edit::Set(Setting::Title(title.to_owned())));
        }
    } else if let Err(why) = desk.jobs.rename(&key, title) {
        desk.explain("It cannot be renamed", &why.to_string());
    }
}

impl Screen for Retitle {
    fn spec(&self) -> Spec {
        Spec::over(Page::Rename, Some("rename"), Back::Page(Page::Jobs)).jobless()
    }

    fn form(&self) -> Option<&dyn FormPage> {
        Some(self)
    }

    fn leave(&self, desk: &mut Desk) {
        done(desk);
    }
}

impl FormPage for Retitle {
    fn title(&self, _desk: &Desk) -> String {
        "Rename".to_owned()
    }

    fn contents(&self, desk: &Desk) -> FormContents {
        let title = desk.retitling.as_ref().map_or("", |(_, title)| title);
        let row = text("title", "Name of the job", "what the job is called", title);
        let contents = FormContents::new(vec![row]);
        FormContents {
            primary: "Rename".to_owned(),
            primary_enabled: !title.trim().is_empty(),
            ..contents.saying(
                Verdict::None,
                "The job has this name as soon as you go back.",
            )
        }
    }

    fn edited(&self, desk: &mut Desk, _id: &str, text: &str) -> Then {
        if let Some((_, title)) = &mut desk.retitling {
            text.clone_into(title);
        }
        Then::Stay
    }

    fn primary(&self, _desk: &mut Desk) -> Then {
        Then::Back
    }
}
