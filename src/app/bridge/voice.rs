//! The voice: reads the figure of the page in sight aloud, once for each that is come to.

use super::Bridge;
use super::screen::Screen;
use crate::app::desk::{Desk, Then};
use slint::Global;
use std::cell::RefCell;
use std::rc::Rc;
use tautmark_ui::{App, Page, VoiceVm};

/// What was read aloud last.
#[derive(Default)]
pub struct ReadAloud {
    last: RefCell<Option<Heard>>,
}

/// Words, and what they were of: posts of two runs may be called and stand alike.
#[derive(PartialEq)]
struct Heard {
    page: Page,
    title: Option<String>,
    words: String,
}

pub fn wire(app: &App, bridge: &Rc<Bridge>) {
    let vm = VoiceVm::get(app);
    vm.on_toggled(bridge.does(|desk| {
        desk.aloud = !desk.aloud;
        Then::Stay
    }));
    let at = bridge.clone();
    vm.on_say_it(move || {
        at.look(|desk| {
            let words = at.screen(desk.nav.page).aloud(desk);
            if let Some((voice, words)) = desk.device.voice().zip(words) {
                voice.say(&words);
            }
        });
    });
}

impl ReadAloud {
    /// Reads aloud what has come into sight, and falls silent where there is nothing more to say. Where
    /// there is, hands are full: the device stays awake, with a voice or without.
    pub fn follow(&self, app: &App, desk: &Desk, screen: &dyn Screen) {
        let words = screen.aloud(desk);
        desk.device.keep_awake(words.is_some());
        let voice = desk.device.voice();
        let words = words.filter(|_| voice.is_some());
        let vm = VoiceVm::get(app);
        vm.set_offered(words.is_some());
        vm.set_on(words.is_some() && desk.aloud);
        let Some(voice) = voice else { return };
        let mut last = self.last.borrow_mut();
        let Some(words) = words.filter(|_| desk.aloud) else {
            if last.take().is_some() {
                voice.hush();
            }
            return;
        };
        // What lies over the page is read first.
        if desk.entry.is_some() || desk.notice.is_some() || desk.menu.is_some() {
            return;
        }
        let now = Heard {
            page: desk.nav.page,
            title: screen.title(desk),
            words,
        };
        if last.as_ref() != Some(&now) {
            voice.say(&now.words);
            *last = Some(now);
        }
    }
}
