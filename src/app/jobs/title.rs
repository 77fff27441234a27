//! Another title for a job in the list.

use crate::app::bridge::{Back, FormScreen, Spec};
use crate::app::desk::{Desk, Then};
use crate::app::kit::{FormButton, FormContents, text};
use crate::job::edit::{Edit, Setting};
use crate::store::JobKey;
use tautmark_ui::{Page, Verdict};

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

/// The form of [`Page::Rename`].
pub static RETITLE: FormScreen = FormScreen {
    title: |_| "Rename".to_owned(),
    leave: done,
    ..FormScreen::new(
        Spec::over(Page::Rename, Some("rename"), Back::Page(Page::Jobs)).jobless(),
        contents,
    )
};

fn contents(desk: &Desk) -> FormContents {
    let title = desk.retitling.as_ref().map_or("", |(_, title)| title);
    let label = "Name of the job";
    let row = text(label, "what the job is called", title, |desk, text| {
        if let Some((_, title)) = &mut desk.retitling {
            text.clone_into(title);
        }
        Then::Stay
    });
    let mut contents = FormContents::new(vec![row]).saying(
        Verdict::None,
        "Press Rename, or go back, to keep this name.",
    );
    let rename = FormButton::new("Rename", |_| Then::Back);
    contents.primary = Some(rename.enabled(!title.trim().is_empty()));
    contents
}
