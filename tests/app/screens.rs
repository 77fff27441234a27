//! Every place of the app on the example job, drawn into `target/screens` to be looked at.

use slint::Global;
use tautmark::job;
use tautmark_app_tests::{Hand, PAGES};
use tautmark_ui::{Page, Place, Theme, ThemeMode};

const SIZES: [(f32, f32); 5] = [
    (320.0, 568.0),
    (360.0, 800.0),
    (412.0, 915.0),
    (915.0, 412.0),
    (1280.0, 800.0),
];

#[test]
fn every_place_is_drawn_by_day_and_by_night() {
    for (width, height) in SIZES {
        std::thread::spawn(move || {
            let hand = Hand::on_screen(job::example(), width, height);
            for (mode, light) in [(ThemeMode::Day, "day"), (ThemeMode::Night, "night")] {
                Theme::get(&hand.app).set_mode(mode);
                for (name, place, page) in PAGES {
                    hand.go(place, page);
                    hand.picture(&format!("app-{width}x{height}-{name}-{light}"));
                    assert!(!hand.labels().is_empty(), "{name} is empty");
                }
                laid_over(&hand, &format!("{width}x{height}"), light);
            }
        })
        .join()
        .expect("every place is drawn");
    }
}

/// What is laid over a page: a menu, the keypad, and where a ± comes from; and pages of a thing that was
/// chosen on another.
fn laid_over(hand: &Hand, size: &str, light: &str) {
    let picture = |name: &str| hand.picture(&format!("app-{size}-{name}-{light}"));
    hand.go(Place::Walls, Page::Walls);
    hand.press("Add a reading");
    picture("menu");
    hand.press("Close");
    hand.press("A to C");
    picture("walls-chosen");
    hand.press("Enter its figure");
    picture("keypad-tape");
    hand.press("Leave this figure");
    hand.go(Place::Lines, Page::Corner);
    hand.press("Type what it reads");
    hand.keys("2400");
    picture("keypad-diagonal");
    for _ in 0..4 {
        hand.press("Delete the last figure");
    }
    hand.press("Leave this figure");
    hand.press("Angle between them");
    picture("notice");
    hand.press("Close");
    hand.go(Place::Walls, Page::Licences);
    hand.press("B612, the typeface");
    assert_eq!(hand.here().1, Page::Licence);
    picture("licence-chosen");
    hand.go(Place::Walls, Page::Jobs);
    hand.press("Copy, rename or delete Orchard corner screen");
    hand.press("Rename");
    picture("rename-chosen");
    hand.press("Back");
}
