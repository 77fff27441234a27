//! A frame drawn only where something has changed is the frame drawn whole, on windows of any size.

use slint::platform::{Key, WindowEvent};
use slint::{ComponentHandle, Global, SharedString, StyledText};
use tautmark::job;
use tautmark_app_tests::screen::{Screen, prepare};
use tautmark_app_tests::{Hand, PAGES, settle};
use tautmark_ui::{
    App, BoardsVm, CornerVm, EntryVm, FormVm, LevelsVm, LinesVm, Page, Place, PostsVm, Status,
    StringVm, WallsVm,
};

/// Sizes of which the shares that a page gives its parts are no whole pixels, too.
const SIZES: [[f32; 2]; 7] = [
    [360.0, 800.0],
    [393.0, 851.0],
    [412.0, 860.0],
    [412.0, 915.0],
    [915.0, 412.0],
    [1280.0, 800.0],
    [1283.0, 797.0],
];

/// Whether two pixels are of another kind. The soft edge of a stroke may come out a shade darker: the
/// renderer paints it over what stands, where only part of a drawing is painted anew.
fn apart(one: &[u8; 4], other: &[u8; 4]) -> bool {
    const SHADE: u8 = 96;
    let channels = one.iter().zip(other);
    channels.into_iter().any(|(a, b)| a.abs_diff(*b) > SHADE)
}

struct Watched {
    hand: Hand,
    screen: Screen,
    size: [f32; 2],
}

impl Watched {
    fn on(size: [f32; 2]) -> Self {
        prepare();
        let hand = Hand::on_screen(job::example(), size[0], size[1]);
        let screen = Screen::of_latest(size);
        Self { hand, screen, size }
    }

    /// Draws what has changed, and proves that it is all that differs.
    fn prove(&mut self, what: &str) {
        self.screen.draw_changed();
        let part = self.screen.pixels();
        self.screen.draw_whole();
        let whole = self.screen.pixels();
        // What has been drawn is known again from here on.
        self.screen.draw_changed();
        let width = self.size[0] as usize;
        let differ = part.iter().zip(&whole).enumerate();
        let at = differ.filter(|(_, (part, whole))| apart(part, whole));
        let at: Vec<(usize, usize)> = at.map(|(i, _)| (i % width, i / width)).collect();
        let (first, last) = (at.first(), at.last());
        assert!(
            at.is_empty(),
            "{what} at {:?}: {} pixels differ, {first:?} to {last:?}",
            self.size,
            at.len()
        );
    }

    fn key(&mut self, text: impl Into<SharedString>, what: &str) {
        let text = text.into();
        let window = self.hand.app.window();
        window.dispatch_event(WindowEvent::KeyPressed { text: text.clone() });
        self.screen.draw_changed();
        self.hand
            .app
            .window()
            .dispatch_event(WindowEvent::KeyReleased { text });
        self.screen.draw_changed();
        settle();
        self.prove(what);
    }

    /// Only words change, as in a frame that is drawn before the drawing follows.
    fn words(&mut self, what: &str, change: impl FnOnce(&App)) {
        change(&self.hand.app);
        self.prove(what);
    }

    fn press(&mut self, label: &str) {
        self.hand.press(label);
        self.prove(label);
    }
}

#[test]
fn what_is_drawn_anew_is_all_that_changed() {
    for size in SIZES {
        let walk = move || {
            let mut at = Watched::on(size);
            at.prove("the start");
            for (name, place, page) in PAGES {
                at.hand.go(place, page);
                at.prove(name);
                let status = || Status {
                    text: StyledText::from_plain_text("Other words stand here."),
                    ..Status::default()
                };
                at.words(&format!("other words, {name}"), |app| {
                    WallsVm::get(app).set_status(status());
                    LinesVm::get(app).set_status(status());
                    StringVm::get(app).set_about(status());
                    CornerVm::get(app).set_about(status());
                    PostsVm::get(app).set_status(status());
                    LevelsVm::get(app).set_status(status());
                    BoardsVm::get(app).set_status(status());
                    FormVm::get(app).set_status(status());
                });
            }
            at.hand.go(Place::Walls, Page::Walls);
            at.prove("walls");
            at.press("A to C");
            at.press("Enter its figure");
            for digit in ["1", "0", "8", "8", "4"] {
                at.key(digit, digit);
            }
            at.key(Key::Return, "a figure entered");
            at.press("Undo");
            at.press("Posts");
            at.press("Mark out post 1");
            at.press("Close");
            at.press("Marked · 2");
            // The first hole has cautions of its own.
            at.press("Close");
            at.press("Marked · 3");
            at.press("As built…");
            for digit in ["1", "9", "5", "0"] {
                at.key(digit, digit);
            }
            at.key(Key::Return, "how far behind a post stands");
            at.press("Leave this figure");
            at.press("Far face");
            at.press("As built…");
            at.words("another progress", |app| {
                EntryVm::get(app).set_progress("7 of 9".into())
            });
            at.words("another title", |app| {
                EntryVm::get(app).set_title(StyledText::from_plain_text(
                    "Post 7, a title of two lines at least",
                ));
            });
            at.key("6", "the first figure of a post as built");
            at.key(Key::Return, "the second figure of a post as built");
            at.key(Key::Return, "a post as built");
            at.press("Boards");
            at.press("Sizes");
            at.press("Stepped");
            at.press("Level");
        };
        std::thread::spawn(walk)
            .join()
            .expect("every frame is whole");
    }
}
