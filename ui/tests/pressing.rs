//! What can be pressed is large enough, named, in reach, and does what it says.

mod fingers;
mod orchard;

use i_slint_backend_testing::{AccessibleRole, ElementHandle, ElementQuery};
use orchard::{Scene, Site, scenes, settle, stand};
use slint::platform::{Key, PointerEventButton, WindowEvent};
use slint::{ComponentHandle, Global, LogicalPosition, SharedString};
use std::{cell::RefCell, rc::Rc};
use tautmark_ui::{DrawingVm, EntryVm, FrameVm, Nav, Page, Place, ThemeMode, WallsVm};

const PRESSED: [AccessibleRole; 6] = [
    AccessibleRole::Button,
    AccessibleRole::ListItem,
    AccessibleRole::Tab,
    AccessibleRole::RadioButton,
    AccessibleRole::Checkbox,
    AccessibleRole::TextInput,
];

fn pressables(site: &Site) -> Vec<ElementHandle> {
    PRESSED
        .iter()
        .flat_map(|&role| {
            ElementQuery::from_root(&site.app)
                .match_descendants()
                .match_accessible_role(role)
                .find_all()
        })
        .collect()
}

fn scene(name: &str) -> Scene {
    scenes()
        .into_iter()
        .find(|scene| scene.name == name)
        .expect("a scene of that name")
}

fn press(site: &Site, label: &str) {
    let found = ElementHandle::find_by_accessible_label(&site.app, label).next();
    found
        .unwrap_or_else(|| panic!("nothing is called {label}"))
        .invoke_accessible_default_action();
    settle();
}

fn key(site: &Site, text: impl Into<SharedString>) {
    let text = text.into();
    site.app
        .window()
        .dispatch_event(WindowEvent::KeyPressed { text: text.clone() });
    site.app
        .window()
        .dispatch_event(WindowEvent::KeyReleased { text });
    settle();
}

/// Every pressable thing of every scene, on a screen of this size.
fn targets(width: f32, height: f32) {
    let site = Site::open(width, height);
    for scene in scenes() {
        site.go(&scene, ThemeMode::Day);
        let all = pressables(&site);
        assert!(!all.is_empty(), "{}: nothing to press", scene.name);
        for element in all {
            let label = element.accessible_label().unwrap_or_default();
            let (size, at) = (element.size(), element.absolute_position());
            let here = format!(
                "{width} × {height}, {}: {label:?} {size:?} at {at:?}",
                scene.name
            );
            assert!(!label.is_empty(), "no name: {here}");
            assert!(
                size.width >= 56.0 && size.height >= 56.0,
                "too small for a glove: {here}"
            );
            assert!(
                at.x >= -0.5 && at.x + size.width <= width + 0.5,
                "off the side: {here}"
            );
        }
    }
}

#[test]
fn everything_is_within_reach_on_the_smallest_phone() {
    targets(320.0, 568.0);
}

#[test]
fn everything_is_within_reach_on_a_phone() {
    targets(360.0, 800.0);
}

#[test]
fn everything_is_within_reach_on_its_side() {
    targets(915.0, 412.0);
}

#[test]
fn everything_is_within_reach_on_a_desktop() {
    targets(1280.0, 800.0);
}

#[test]
fn keys_are_64_high_and_say_what_was_pressed() {
    let site = Site::open(320.0, 568.0);
    let heard = Rc::new(RefCell::new(Vec::new()));
    let ear = heard.clone();
    EntryVm::get(&site.app).on_key(move |what| ear.borrow_mut().push(what.to_string()));
    site.go(&scene("reading"), ThemeMode::Day);
    for digit in ["7", "0", "."] {
        let cap = ElementHandle::find_by_accessible_label(&site.app, digit)
            .next()
            .expect("a key");
        assert!(cap.size().height >= 64.0, "{digit}: {:?}", cap.size());
    }
    for label in ["7", "0", ".", "Plus", "Minus", "Delete the last figure"] {
        press(&site, label);
    }
    assert_eq!(*heard.borrow(), ["7", "0", ".", "+", "-", "back"]);

    heard.borrow_mut().clear();
    site.go(&scene("reading-feet"), ThemeMode::Day);
    for label in ["ft", "in", "1/4", "1/2", "3/4", "−1/16", "+1/16"] {
        press(&site, label);
    }
    assert_eq!(
        *heard.borrow(),
        ["ft", "in", "1/4", "1/2", "3/4", "-1/16", "+1/16"]
    );

    heard.borrow_mut().clear();
    site.go(&scene("reading-sight"), ThemeMode::Day);
    press(&site, "Up");
    press(&site, "Down");
    assert_eq!(*heard.borrow(), ["up", "down"]);
}

#[test]
fn a_desktop_keyboard_types_the_same_figures() {
    let site = Site::open(1280.0, 800.0);
    let heard = Rc::new(RefCell::new(Vec::new()));
    let (ear, next) = (heard.clone(), heard.clone());
    EntryVm::get(&site.app).on_key(move |what| ear.borrow_mut().push(what.to_string()));
    EntryVm::get(&site.app).on_next_pressed(move || next.borrow_mut().push("next".into()));
    site.go(&scene("reading"), ThemeMode::Day);
    for text in ["3", "4", ",", "+", "x"] {
        key(&site, text);
    }
    key(&site, Key::Backspace);
    key(&site, Key::Return);
    assert_eq!(*heard.borrow(), ["3", "4", ".", "+", "back", "next"]);
}

#[test]
fn back_is_asked_for_and_is_left_to_the_device_at_the_end() {
    let site = Site::open(360.0, 800.0);
    let nav = Nav::get(&site.app);
    let asked = Rc::new(RefCell::new(0));
    let count = asked.clone();
    nav.on_back(move || *count.borrow_mut() += 1);
    site.go(&scene("corner"), ThemeMode::Day);
    nav.set_can_go_back(true);
    key(&site, Key::Back);
    key(&site, Key::Escape);
    assert_eq!(*asked.borrow(), 2);
    // With nowhere left to go, the device takes it, and leaves the app.
    nav.set_can_go_back(false);
    let result = site
        .app
        .window()
        .dispatch_event_with_result(WindowEvent::KeyPressed {
            text: Key::Back.into(),
        });
    assert_eq!(
        result.expect("delivered"),
        slint::platform::WindowEventDispatchResult::Rejected
    );
}

#[test]
fn the_frame_asks_for_places_jobs_and_pages() {
    let site = Site::open(360.0, 800.0);
    let nav = Nav::get(&site.app);
    let asked = Rc::new(RefCell::new(Vec::new()));
    let ear = asked.clone();
    nav.on_go(move |place| ear.borrow_mut().push(format!("{place:?}")));
    let ear = asked.clone();
    nav.on_open(move |page| ear.borrow_mut().push(format!("{page:?}")));
    let ear = asked.clone();
    nav.on_back(move || ear.borrow_mut().push("back".to_owned()));
    site.go(&scene("walls"), ThemeMode::Day);
    for label in ["Strings", "Posts", "Levels", "Boards", "Sheet"] {
        press(&site, label);
    }
    press(&site, "Orchard corner screen");
    site.go(&scene("corner"), ThemeMode::Day);
    press(&site, "Orchard corner screen");
    site.go(&scene("jobs"), ThemeMode::Day);
    press(&site, "About");
    let said = asked.borrow().join(" ");
    assert_eq!(said, "Lines Posts Levels Boards Sheet Jobs back About");
}

#[test]
fn what_cannot_be_done_is_not_done() {
    let site = Site::open(412.0, 915.0);
    let undone = Rc::new(RefCell::new(0));
    let count = undone.clone();
    FrameVm::get(&site.app).on_redo(move || *count.borrow_mut() += 1);
    site.go(&scene("walls"), ThemeMode::Day);
    press(&site, "Redo");
    assert_eq!(*undone.borrow(), 0);
    FrameVm::get(&site.app).set_can_redo(true);
    settle();
    press(&site, "Redo");
    assert_eq!(*undone.borrow(), 1);
}

#[test]
fn tab_and_enter_reach_the_readings() {
    let site = Site::open(412.0, 915.0);
    let heard = Rc::new(RefCell::new(Vec::new()));
    let ear = heard.clone();
    WallsVm::get(&site.app).on_reading_pressed(move |id| ear.borrow_mut().push(id.to_string()));
    site.go(&scene("walls"), ThemeMode::Day);
    for _ in 0..20 {
        key(&site, Key::Tab);
        key(&site, " ");
        if !heard.borrow().is_empty() {
            break;
        }
        stand(&site.app, Place::Walls, Page::Walls);
    }
    assert_eq!(heard.borrow().first().map(String::as_str), Some("A to C"));
}

#[test]
fn a_press_on_the_drawing_is_told_from_a_pan() {
    let site = Site::open(412.0, 915.0);
    let taps = Rc::new(RefCell::new(Vec::new()));
    let pans = Rc::new(RefCell::new(Vec::new()));
    let (tap_ear, pan_ear) = (taps.clone(), pans.clone());
    let vm = DrawingVm::get(&site.app);
    vm.on_tapped(move |x, y| tap_ear.borrow_mut().push((x, y)));
    vm.on_panned(move |x, y| pan_ear.borrow_mut().push((x, y)));
    site.go(&scene("walls"), ThemeMode::Day);
    let window = site.app.window();
    let button = PointerEventButton::Left;
    let point = |x, y| LogicalPosition::new(x, y);

    window.dispatch_event(WindowEvent::PointerPressed {
        position: point(100.0, 160.0),
        button,
    });
    window.dispatch_event(WindowEvent::PointerReleased {
        position: point(102.0, 160.0),
        button,
    });
    settle();
    assert_eq!(*taps.borrow(), [(102.0, 100.0)]);
    assert!(pans.borrow().is_empty());

    window.dispatch_event(WindowEvent::PointerPressed {
        position: point(100.0, 160.0),
        button,
    });
    window.dispatch_event(WindowEvent::PointerMoved {
        position: point(140.0, 175.0),
    });
    window.dispatch_event(WindowEvent::PointerReleased {
        position: point(140.0, 175.0),
        button,
    });
    settle();
    assert_eq!(*pans.borrow(), [(40.0, 15.0)]);
    assert_eq!(taps.borrow().len(), 1);
}

#[test]
fn two_fingers_zoom_and_press_nothing() {
    let site = Site::open(412.0, 915.0);
    let taps = Rc::new(RefCell::new(0));
    let scale = Rc::new(RefCell::new(1.0));
    let (tap_ear, zoom_ear) = (taps.clone(), scale.clone());
    let vm = DrawingVm::get(&site.app);
    vm.on_tapped(move |_, _| *tap_ear.borrow_mut() += 1);
    vm.on_zoomed(move |factor, _, _| *zoom_ear.borrow_mut() *= factor);
    site.go(&scene("walls"), ThemeMode::Day);
    fingers::spread(site.app.window(), (150.0, 200.0), (250.0, 200.0), 80.0);
    settle();
    assert!(*scale.borrow() > 1.5, "{}", scale.borrow());
    assert_eq!(*taps.borrow(), 0);
}
