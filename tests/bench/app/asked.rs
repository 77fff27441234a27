//! A figure of each place, asked for and half typed.

use slint::platform::{Key, WindowEvent};
use slint::{ComponentHandle, Global, Model, SharedString};
use tautmark::job;
use tautmark_app_tests::screen::{Screen, prepare};
use tautmark_app_tests::{Hand, settle};
use tautmark_ui::{
    EntryVm, FormVm, FrameVm, LevelsVm, LinesVm, Nav, Page, Place, StringVm, WallsVm,
};

/// Width and height, px.
pub const SIZE: [f32; 2] = [412.0, 915.0];

pub const PLACES: [Place; 5] = [
    Place::Walls,
    Place::Lines,
    Place::Posts,
    Place::Levels,
    Place::Boards,
];

/// The app on a phone with the example in it, and its screen.
pub fn phone() -> (Hand, Screen) {
    prepare();
    let hand = Hand::on_screen(job::example(), SIZE[0], SIZE[1]);
    hand.app
        .window()
        .dispatch_event(WindowEvent::WindowActiveChanged(true));
    (hand, Screen::of_latest(SIZE))
}

/// With the keypad over a place. By turns the last digit of the figure is typed and taken back.
pub struct Asked {
    pub hand: Hand,
    pub screen: Screen,
    last: char,
    typed: bool,
}

impl Asked {
    pub fn in_place(place: Place) -> Self {
        let (hand, screen) = phone();
        let figure = ask(&hand, place);
        settle();
        assert!(Nav::get(&hand.app).get_entry(), "a figure is asked for");
        let mut asked = Self {
            hand,
            screen,
            last: ' ',
            typed: false,
        };
        asked.screen.draw_whole();
        let mut digits: Vec<char> = figure.chars().collect();
        asked.last = digits.pop().expect("a digit");
        digits.into_iter().for_each(|digit| asked.key(digit.into()));
        asked.prove();
        asked
    }

    /// One key of the keyboard, down and up.
    pub fn press(&mut self) {
        self.typed = !self.typed;
        let text = if self.typed {
            self.last.into()
        } else {
            Key::Backspace.into()
        };
        self.key(text);
    }

    fn key(&self, text: SharedString) {
        let window = self.hand.app.window();
        window.dispatch_event(WindowEvent::KeyPressed { text: text.clone() });
        window.dispatch_event(WindowEvent::KeyReleased { text });
    }

    /// Each press changes the figure, the solution, the drawing and the screen.
    fn prove(&mut self) {
        let mut before = None;
        for _ in 0..4 {
            self.press();
            self.screen.draw_changed();
            let now = self.seen();
            if let Some(before) = before.replace(now.clone()) {
                assert_ne!(before.0, now.0, "the figure");
                assert_ne!(before.1, now.1, "the solution");
                assert_ne!(before.2, now.2, "the drawing");
                assert_ne!(before.3, now.3, "the screen");
            }
        }
        let part = self.screen.pixels();
        self.screen.draw_whole();
        assert!(
            part == self.screen.pixels(),
            "what has changed is all that differs"
        );
    }

    fn seen(&self) -> (String, String, Vec<String>, Vec<[u8; 4]>) {
        let figure = EntryVm::get(&self.hand.app).get_figure();
        let solution = self.hand.bridge.look(|desk| format!("{:?}", desk.solution));
        let drawing = tautmark_ui::DrawingVm::get(&self.hand.app).get_drawing();
        let strokes = drawing.strokes.iter().map(|stroke| format!("{stroke:?}"));
        let labels = drawing.labels.iter().map(|label| format!("{label:?}"));
        let drawing = strokes.chain(labels).collect();
        (figure.into(), solution, drawing, self.screen.pixels())
    }
}

/// Asks for a figure of the place as a person does, and answers what the example has for it.
fn ask(hand: &Hand, place: Place) -> &'static str {
    let pick_first = || FrameVm::get(&hand.app).invoke_menu_picked("0".into());
    match place {
        Place::Walls => {
            hand.go(place, Page::Walls);
            WallsVm::get(&hand.app).invoke_reading_pressed("3".into());
            pick_first();
            "10881"
        }
        Place::Lines => {
            hand.go(place, Page::Lines);
            LinesVm::get(&hand.app).invoke_string_pressed("0".into());
            StringVm::get(&hand.app).invoke_nail_pressed("0".into());
            pick_first();
            "50"
        }
        Place::Posts => {
            hand.go(place, Page::Run);
            FormVm::get(&hand.app).invoke_pressed("LongestBay".into());
            "1900"
        }
        Place::Levels => {
            hand.go(place, Page::Levels);
            LevelsVm::get(&hand.app).invoke_row_pressed("sight 0 1".into());
            pick_first();
            "674"
        }
        Place::Boards => {
            hand.go(place, Page::Sizes);
            FormVm::get(&hand.app).invoke_pressed("BoardHeight".into());
            "150"
        }
    }
}
