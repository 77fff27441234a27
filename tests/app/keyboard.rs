//! A desktop's keyboard: figures, Next, the way back and undo, wherever the person has been before.

use i_slint_backend_testing::{AccessibleRole, ElementHandle};
use slint::platform::{Key, PointerEventButton, WindowEvent};
use slint::{ComponentHandle, Global, LogicalPosition, Model, SharedString};
use tautmark::job::reading::Measure;
use tautmark::job::{self, Job};
use tautmark_app_tests::{Hand, settle};
use tautmark_ui::{DrawingVm, Page, Place};

fn length(job: &Job, reading: usize) -> Option<f64> {
    match job.readings[reading].what {
        Measure::Tape { length, .. } => length,
        _ => None,
    }
}

fn key(hand: &Hand, text: impl Into<SharedString>) {
    let (window, text) = (hand.app.window(), text.into());
    window.dispatch_event(WindowEvent::KeyPressed { text: text.clone() });
    window.dispatch_event(WindowEvent::KeyReleased { text });
    settle();
}

fn type_in(hand: &Hand, letters: &str) {
    for letter in letters.chars() {
        key(hand, letter);
    }
}

fn undo(hand: &Hand) {
    let (window, text) = (hand.app.window(), SharedString::from(Key::Control));
    window.dispatch_event(WindowEvent::KeyPressed { text: text.clone() });
    key(hand, 'z');
    window.dispatch_event(WindowEvent::KeyReleased { text });
}

/// Puts the mouse on what is called this, and clicks.
fn click(hand: &Hand, label: &str) {
    let mut all = ElementHandle::find_by_accessible_label(&hand.app, label);
    let found = all.find(|element| element.accessible_role() != Some(AccessibleRole::Text));
    let element = found.unwrap_or_else(|| panic!("nothing is called {label:?}"));
    let (at, size) = (element.absolute_position(), element.size());
    let position = LogicalPosition::new(at.x + size.width / 2.0, at.y + size.height / 2.0);
    let button = PointerEventButton::Left;
    let window = hand.app.window();
    window.dispatch_event(WindowEvent::PointerMoved { position });
    window.dispatch_event(WindowEvent::PointerPressed { position, button });
    window.dispatch_event(WindowEvent::PointerReleased { position, button });
    settle();
}

#[test]
fn a_figure_is_typed_and_taken_back() {
    let hand = Hand::on_screen(job::example(), 1280.0, 800.0);
    let before = length(&hand.saved(), 3);
    hand.press("A to C");
    hand.press("Enter its figure");
    type_in(&hand, "10806+76");
    key(&hand, Key::Return);
    assert_eq!(length(&hand.saved(), 3), Some(10_882.0));
    undo(&hand);
    assert_eq!(length(&hand.saved(), 3), before);
    hand.press("A to C");
    hand.press("Enter its figure");
    key(&hand, '9');
    key(&hand, Key::Escape);
    assert!(!hand.sees("Leave this figure"));
    let after = length(&hand.saved(), 3);
    assert_eq!(after, before, "what was not entered changes nothing");
}

#[test]
fn keys_go_on_working_after_a_name_was_typed() {
    let hand = Hand::on_screen(job::example(), 1280.0, 800.0);
    let title = hand.saved().title;
    hand.go(Place::Walls, Page::Settings);
    click(&hand, "Name of the job");
    key(&hand, 'x');
    assert_eq!(hand.saved().title, format!("{title}x"));
    click(&hand, "Back");
    assert_eq!(hand.here().1, Page::Walls);
    undo(&hand);
    assert_eq!(hand.saved().title, title, "undone without a click first");
    hand.go(Place::Posts, Page::Run);
    click(&hand, "Name of the run");
    key(&hand, 'x');
    click(&hand, "Strings");
    undo(&hand);
    assert_eq!(hand.saved().runs, job::example().runs);
    click(&hand, "front meets side");
    assert_eq!(hand.here().1, Page::Corner);
    key(&hand, Key::Escape);
    assert_eq!(hand.here(), (Place::Lines, Page::Lines));
}

#[test]
fn a_keypad_that_comes_with_its_page_keeps_the_keys() {
    let hand = Hand::with_no_job(1280.0, 800.0);
    click(&hand, "New job");
    click(&hand, "One wall");
    type_in(&hand, "3650");
    key(&hand, Key::Return);
    assert_eq!(length(&hand.saved(), 0), Some(3650.0));
}

#[test]
fn a_menu_closed_by_a_key_gives_the_keys_back() {
    let hand = Hand::on_screen(job::example(), 1280.0, 800.0);
    hand.press("A to C");
    hand.press("Leave it out");
    assert!(!hand.saved().readings[3].used);
    click(&hand, "Add a reading");
    // The last thing on the screen: Close.
    key(&hand, Key::Backtab);
    key(&hand, Key::Return);
    assert!(!hand.sees("Close"));
    undo(&hand);
    assert!(hand.saved().readings[3].used);
}

#[test]
fn the_drawing_fills_its_room_again_after_the_keypad() {
    let hand = Hand::on(job::example());
    let drawn = |hand: &Hand| -> Vec<(String, i32, i32)> {
        let labels = DrawingVm::get(&hand.app).get_drawing().labels;
        labels
            .iter()
            .map(|one| (one.text.to_string(), one.x as i32, one.y as i32))
            .collect()
    };
    hand.press("A to C");
    let before = drawn(&hand);
    hand.press("Enter its figure");
    assert_ne!(drawn(&hand), before, "it has less room");
    type_in(&hand, "10881");
    // As in a window: the frame is drawn before anything else happens.
    let text = SharedString::from(Key::Return);
    hand.app
        .window()
        .dispatch_event(WindowEvent::KeyPressed { text: text.clone() });
    hand.picture("live-after-keypad");
    hand.app
        .window()
        .dispatch_event(WindowEvent::KeyReleased { text });
    settle();
    assert_eq!(drawn(&hand), before);
    hand.press("Sheet");
    hand.press("Back");
    assert_eq!(drawn(&hand), before);
}
