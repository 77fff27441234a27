//! In every place of the app at work: what can be pressed is large enough for a glove, has a name and
//! is on the screen, and the words of the drawings do not lie over each other.

use i_slint_backend_testing::{AccessibleRole, ElementHandle, ElementQuery};
use slint::{Global, LogicalPosition, LogicalSize, Model};
use std::ops::ControlFlow;
use tautmark::job;
use tautmark_app_tests::{Hand, PAGES};
use tautmark_ui::{DrawingVm, Page, Place};

const PRESSED: [AccessibleRole; 6] = [
    AccessibleRole::Button,
    AccessibleRole::ListItem,
    AccessibleRole::Tab,
    AccessibleRole::RadioButton,
    AccessibleRole::Checkbox,
    AccessibleRole::TextInput,
];

/// Least side of what is pressed, and of a key of the keypad, logical px.
const TARGET: f32 = 56.0;
const KEY: f32 = 64.0;

fn pressables(hand: &Hand) -> Vec<ElementHandle> {
    let of_role = |&role: &AccessibleRole| {
        let query = ElementQuery::from_root(&hand.app).match_descendants();
        query.match_accessible_role(role).find_all()
    };
    PRESSED.iter().flat_map(of_role).collect()
}

#[track_caller]
fn check_targets(hand: &Hand, width: f32, here: &str) {
    let all = pressables(hand);
    assert!(!all.is_empty(), "{here}: nothing to press");
    for element in all {
        let label = element.accessible_label().unwrap_or_default();
        let (size, at) = (element.size(), element.absolute_position());
        let said = format!("{width} px, {here}: {label:?} {size:?} at {at:?}");
        assert!(!label.is_empty(), "no name: {said}");
        let least = TARGET - 0.01;
        assert!(
            size.width >= least && size.height >= least,
            "too small: {said}"
        );
        assert!(
            at.x >= -0.5 && at.x + size.width <= width + 0.5,
            "off the side: {said}"
        );
    }
}

type Placed = (LogicalPosition, LogicalSize);

fn placed(element: &ElementHandle) -> Placed {
    (element.absolute_position(), element.size())
}

/// How far two boxes lie over each other, across and down; less than 0 where they do not.
fn over(a: Placed, b: Placed) -> (f32, f32) {
    let along = |a: f32, long: f32, b: f32, other: f32| (a + long).min(b + other) - a.max(b);
    (
        along(a.0.x, a.1.width, b.0.x, b.1.width),
        along(a.0.y, a.1.height, b.0.y, b.1.height),
    )
}

/// Every element of this kind, once, in the order in which they are painted.
fn of_type(hand: &Hand, name: &str) -> Vec<ElementHandle> {
    let root = ElementQuery::from_root(&hand.app).find_first();
    let mut found = Vec::new();
    root.expect("a window").visit_descendants(|element| {
        if element.type_name().is_some_and(|own| own == name) {
            found.push(element);
        }
        ControlFlow::<()>::Continue(())
    });
    found
}

/// The level words of the drawing: none lies over another or is cut off by its edge.
#[track_caller]
fn check_words(hand: &Hand, here: &str) {
    let of_type = |name: &str| of_type(hand, name);
    let Some(canvas) = of_type("Canvas").first().map(placed) else {
        return;
    };
    let labels = DrawingVm::get(&hand.app).get_drawing().labels;
    let boxes = of_type("LabelText");
    assert_eq!(labels.row_count(), boxes.len(), "{here}");
    let level: Vec<_> = labels
        .iter()
        .zip(&boxes)
        .filter(|(label, _)| label.turn == 0.0)
        .collect();
    for (n, (label, element)) in level.iter().enumerate() {
        let own = placed(element);
        let inside = over(own, canvas);
        assert!(
            inside.0 > own.1.width - 4.0 && inside.1 > own.1.height - 4.0,
            "{here}: {:?} is cut off, {own:?} in {canvas:?}",
            label.text
        );
        for (other, its) in &level[n + 1..] {
            let (across, down) = over(own, placed(its));
            // A patch of paper is 3 px wider than its words, and letters are lower than their line.
            assert!(
                across < 7.0 || down < 5.0,
                "{here}: {:?} and {:?} lie over each other",
                label.text,
                other.text
            );
        }
    }
}

fn every_page(width: f32, height: f32) {
    let hand = Hand::on_screen(job::example(), width, height);
    for (name, place, page) in PAGES {
        hand.go(place, page);
        let here = format!("{name} at {width} × {height}");
        check_targets(&hand, width, &here);
        check_words(&hand, &here);
    }
}

#[test]
fn on_the_smallest_phone() {
    every_page(320.0, 568.0);
}

#[test]
fn on_a_phone() {
    every_page(360.0, 800.0);
}

#[test]
fn on_a_large_phone() {
    every_page(412.0, 915.0);
}

#[test]
fn on_its_side() {
    every_page(915.0, 412.0);
}

#[test]
fn on_a_desktop() {
    every_page(1280.0, 800.0);
}

/// Over every place: the keypad of one of its figures, a menu, a notice and a warning.
#[test]
fn what_is_laid_over_a_page() {
    for (width, height) in [
        (320.0, 568.0),
        (360.0, 800.0),
        (412.0, 915.0),
        (915.0, 412.0),
    ] {
        std::thread::spawn(move || over_a_page(width, height))
            .join()
            .expect("everything is in reach");
    }
}

fn over_a_page(width: f32, height: f32) {
    let hand = Hand::on_screen(job::example(), width, height);
    hand.press("Add a reading");
    check_targets(&hand, width, "menu");
    hand.press("Close");
    hand.press("A to C");
    hand.press("Enter its figure");
    check_keys(&hand, width, "tape");
    hand.press("Leave this figure");
    hand.go(Place::Lines, Page::Corner);
    hand.press("Angle between them");
    check_targets(&hand, width, "notice");
    hand.press("Close");
    hand.press("Type what it reads");
    check_keys(&hand, width, "diagonal");
    hand.press("Leave this figure");
}

fn check_keys(hand: &Hand, width: f32, here: &str) {
    check_targets(hand, width, here);
    check_words(hand, here);
    for label in [
        "7",
        "0",
        ".",
        "Plus",
        "Minus",
        "Delete the last figure",
        "Next",
    ] {
        let mut found = ElementHandle::find_by_accessible_label(&hand.app, label);
        let key = found.next().unwrap_or_else(|| panic!("no key {label}"));
        assert!(
            key.size().height >= KEY,
            "{width} px, {here}, {label}: {:?}",
            key.size()
        );
    }
}
