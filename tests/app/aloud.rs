//! Figures read aloud, for hands that are full: what a device's voice is given to say, and when.

use slint::Global;
use std::cell::{Cell, RefCell};
use std::rc::Rc;
use tautmark::app::Then;
use tautmark::app::device::{Device, Handed, Picked, Voice, Way};
use tautmark::job::{self, Job};
use tautmark::length::Unit;
use tautmark_app_tests::{Hand, settle, wait};
use tautmark_ui::{MarkOutVm, Page, Place};

const CHOICE: &str = "Read the figures aloud";
const SILENCE: &str = "silence";

/// A device that keeps what it is given to say.
#[derive(Default)]
struct Speaking {
    heard: RefCell<Vec<String>>,
    awake: Cell<bool>,
}

impl Speaking {
    /// What was said since this was last asked.
    fn heard(&self) -> Vec<String> {
        self.heard.take()
    }
}

impl Device for Speaking {
    fn hand_over(&self, file: &Handed, _: Way) -> Result<String, String> {
        Ok(file.name.clone())
    }

    fn ways(&self) -> &'static [Way] {
        &[Way::Save]
    }

    fn pick(&self, _: Box<dyn FnOnce(Picked)>) {}

    fn keep_awake(&self, awake: bool) {
        self.awake.set(awake);
    }

    fn voice(&self) -> Option<&dyn Voice> {
        Some(self)
    }
}

impl Voice for Speaking {
    fn say(&self, words: &str) {
        self.heard.borrow_mut().push(words.to_owned());
    }

    fn hush(&self) {
        self.heard.borrow_mut().push(SILENCE.to_owned());
    }
}

/// Gives the app a device with a voice.
fn with_voice(hand: &Hand) -> Rc<Speaking> {
    let device = Rc::new(Speaking::default());
    let own = device.clone();
    hand.bridge.act(|desk| {
        desk.device = own;
        Then::Stay
    });
    settle();
    device
}

fn opened(job: Job) -> (Hand, Rc<Speaking>) {
    let hand = Hand::on_screen(job, 360.0, 800.0);
    let device = with_voice(&hand);
    (hand, device)
}

fn at_post(hand: &Hand, run: usize, post: usize) {
    hand.bridge.act(|desk| {
        (desk.chosen.run, desk.chosen.post) = (run, post);
        Then::Stay
    });
    hand.go(Place::Posts, Page::MarkOut);
}

#[test]
fn without_a_voice_there_is_no_choice() {
    let hand = Hand::on(job::example());
    for (place, page) in [
        (Place::Posts, Page::MarkOut),
        (Place::Levels, Page::Heights),
        (Place::Boards, Page::Trestles),
    ] {
        hand.go(place, page);
        assert!(!hand.sees(CHOICE) && !hand.sees("Say it"));
    }
}

#[test]
fn the_device_stays_awake_where_hands_are_full() {
    let (hand, device) = opened(job::example());
    for (place, page, full) in [
        (Place::Posts, Page::Posts, false),
        (Place::Posts, Page::MarkOut, true),
        (Place::Levels, Page::Levels, false),
        (Place::Levels, Page::Heights, true),
        (Place::Boards, Page::CutList, false),
        (Place::Boards, Page::Trestles, true),
    ] {
        hand.go(place, page);
        assert_eq!(device.awake.get(), full, "{page:?}");
    }
}

#[test]
fn each_post_says_its_figure_once() {
    let (hand, device) = opened(job::example());
    at_post(&hand, 0, 3);
    assert!(!hand.sees("Say it"));
    assert_eq!(device.heard(), [""; 0], "off until it is chosen");
    hand.press(CHOICE);
    assert_eq!(device.heard(), ["post three, one nine four zero"]);
    hand.press("Marked · 4");
    assert_eq!(device.heard(), ["post four, three five nine zero"]);
    wait(3);
    assert_eq!(device.heard(), [""; 0]);
    hand.press("Say it");
    assert_eq!(device.heard(), ["post four, three five nine zero"]);
    hand.press("Centre");
    assert_eq!(device.heard(), ["post four, centre, three six four zero"]);
    hand.press("Near face");
    hand.press("Post 3 before");
    assert_eq!(
        device.heard(),
        [
            "post four, three five nine zero",
            "post three, one nine four zero"
        ]
    );
    hand.press("Posts");
    assert_eq!(device.heard(), [SILENCE], "the page is left");
    hand.press("Walls");
    assert_eq!(device.heard(), [""; 0]);
}

#[test]
fn a_press_on_the_figure_still_says_where_it_comes_from() {
    let (hand, device) = opened(job::example());
    at_post(&hand, 0, 3);
    hand.press(CHOICE);
    device.heard();
    let figure = MarkOutVm::get(&hand.app).get_how_plain();
    hand.press(&figure);
    assert!(hand.bridge.look(|desk| desk.notice.is_some()));
    hand.press("Close");
    hand.press("As built…");
    hand.press("Leave this figure");
    assert_eq!(device.heard(), [""; 0], "the figure is the same");
    hand.press(CHOICE);
    assert_eq!(device.heard(), [SILENCE]);
    assert!(!hand.sees("Say it"));
}

#[test]
fn what_lies_over_a_page_is_read_first() {
    let mut job = job::example();
    job.marked.clear();
    let (hand, device) = opened(job);
    hand.bridge.act(|desk| {
        desk.aloud = true;
        Then::Stay
    });
    hand.go(Place::Posts, Page::Posts);
    hand.press("Mark out post 1");
    assert!(hand.bridge.look(|desk| desk.notice.is_some()));
    assert_eq!(device.heard(), [""; 0]);
    hand.press("Close");
    let said = device.heard();
    assert!(
        said.len() == 1 && said[0].starts_with("post one, "),
        "{said:?}"
    );
}

#[test]
fn heights_say_which_way_how_far_and_for_what() {
    let (hand, device) = opened(job::example());
    hand.press("Levels");
    hand.press("Mark heights");
    while hand.bridge.look(|desk| desk.notice.is_some()) {
        hand.press("Close");
    }
    hand.press(CHOICE);
    let first = device.heard();
    assert_eq!(first.len(), 1);
    assert!(first[0].contains(", rail two centre. "), "{first:?}");
    assert!(
        first[0].contains(". up, ") && first[0].ends_with(", board top"),
        "{first:?}"
    );
    assert!(
        !first[0].contains('±') && !first[0].contains(char::is_numeric),
        "{first:?}"
    );
    hand.press("Rail top");
    let tops = device.heard();
    assert!(
        tops.len() == 1 && tops[0].contains(", rail two top"),
        "{tops:?}"
    );
    let after = tautmark_ui::HeightsVm::get(&hand.app).get_after();
    hand.press(&format!("Marked · {after}"));
    let next = device.heard();
    assert!(next.len() == 1 && next[0] != tops[0], "{next:?}");
    hand.press("Say it");
    assert_eq!(device.heard(), next);
    hand.press("Boards");
    assert_eq!(device.heard(), [SILENCE]);
}

#[test]
fn the_trestles_say_every_mark_of_a_group() {
    let (hand, device) = opened(job::example());
    hand.press("Boards");
    hand.press("On the trestles");
    while hand.bridge.look(|desk| desk.notice.is_some()) {
        hand.press("Close");
    }
    hand.press(CHOICE);
    let first = device.heard();
    assert_eq!(first.len(), 1);
    assert!(
        first[0].starts_with("post") && first[0].contains(", from the top. rail "),
        "{first:?}"
    );
    assert!(
        first[0].contains(" deep. ") && first[0].contains(", cut at "),
        "{first:?}"
    );
    hand.press("Say it");
    assert_eq!(device.heard(), first);
    hand.press("Cut · next");
    let next = device.heard();
    assert!(next.len() == 1 && next[0] != first[0], "{next:?}");
}

#[test]
fn the_choice_is_kept_on_the_device() {
    let (hand, device) = opened(job::example());
    at_post(&hand, 0, 3);
    hand.press(CHOICE);
    wait(2);
    device.heard();
    let hand = hand.again();
    assert!(!hand.sees("Say it"), "this start has no voice");
    let device = with_voice(&hand);
    assert_eq!(device.heard(), ["post three, one nine four zero"]);
}

#[test]
fn the_figure_is_said_in_the_jobs_own_unit() {
    for (unit, words) in [
        (Unit::M, "post three, one point nine four"),
        (Unit::FEET, "post three, six foot four and three eighths"),
    ] {
        let mut job = job::example();
        job.show.lengths = unit;
        let (hand, device) = opened(job);
        at_post(&hand, 0, 3);
        hand.press(CHOICE);
        assert_eq!(device.heard(), [words]);
        let _ = hand.close();
    }
}

#[test]
fn what_is_pressed_for_it_is_large_enough_and_the_figure_whole() {
    for (width, height) in [(360.0, 800.0), (412.0, 915.0), (915.0, 412.0)] {
        for feet in [false, true] {
            let mut job = job::example();
            if feet {
                job.show.lengths = Unit::FEET;
            }
            let hand = Hand::on_screen(job, width, height);
            let _device = with_voice(&hand);
            at_post(&hand, 0, 4);
            hand.press(CHOICE);
            let pages = [
                ("mark-out", Place::Posts, Page::MarkOut),
                ("heights", Place::Levels, Page::Heights),
                ("trestles", Place::Boards, Page::Trestles),
            ];
            for (name, place, page) in pages {
                hand.go(place, page);
                let unit = if feet { "-feet" } else { "" };
                hand.picture(&format!("aloud-{name}{unit}-{width}x{height}"));
                if height > 500.0 {
                    assert!(hand.reaches("Say it"), "{name} at {width} × {height}");
                }
            }
            let _ = hand.close();
        }
    }
}
