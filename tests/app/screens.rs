//! Every place of the app on the example job, drawn into `target/screens` to be looked at.

use slint::Global;
use tautmark::job;
use tautmark_app_tests::{Hand, PAGES};
use tautmark_ui::{Theme, ThemeMode};

const SIZES: [(f32, f32); 4] = [
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
            }
        })
        .join()
        .expect("every place is drawn");
    }
}
