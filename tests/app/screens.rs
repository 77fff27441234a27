//! Every place of the app on the example job, drawn into `target/screens` to be looked at.

use slint::Global;
use tautmark::job;
use tautmark_app_tests::{Hand, settle};
use tautmark_ui::{Nav, Page, Place, Theme, ThemeMode};

const SIZES: [(f32, f32); 4] = [
    (360.0, 800.0),
    (412.0, 915.0),
    (915.0, 412.0),
    (1280.0, 800.0),
];

const PAGES: [(&str, Place, Page); 15] = [
    ("jobs", Place::Walls, Page::Jobs),
    ("start", Place::Walls, Page::Start),
    ("walls", Place::Walls, Page::Work),
    ("settings", Place::Walls, Page::Settings),
    ("sheet", Place::Walls, Page::Sheet),
    ("lines", Place::Lines, Page::Work),
    ("string", Place::Lines, Page::Line),
    ("corner", Place::Lines, Page::Corner),
    ("posts", Place::Posts, Page::Work),
    ("run", Place::Posts, Page::Run),
    ("mark-out", Place::Posts, Page::MarkOut),
    ("levels", Place::Levels, Page::Work),
    ("heights", Place::Levels, Page::Heights),
    ("boards", Place::Boards, Page::Work),
    ("cut-list", Place::Boards, Page::CutList),
];

#[test]
fn every_place_is_drawn_by_day_and_by_night() {
    for (width, height) in SIZES {
        std::thread::spawn(move || {
            let hand = Hand::on_screen(job::example(), width, height);
            for (mode, light) in [(ThemeMode::Day, "day"), (ThemeMode::Night, "night")] {
                Theme::get(&hand.app).set_mode(mode);
                for (name, place, page) in PAGES {
                    let nav = Nav::get(&hand.app);
                    nav.set_place(place);
                    nav.set_page(page);
                    hand.bridge.refresh();
                    settle();
                    hand.picture(&format!("app-{width}x{height}-{name}-{light}"));
                    assert!(!hand.labels().is_empty(), "{name} is empty");
                }
            }
        })
        .join()
        .expect("every place is drawn");
    }
}
