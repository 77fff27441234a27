//! How long the app takes to answer: a key, a page, a start, a long list of jobs. Frames are drawn
//! whole by the software renderer, 412 × 915.

use divan::{Bencher, black_box};
use slint::{ComponentHandle, Global};
use std::time::Duration;
use tautmark::job;
use tautmark::store::Jobs;
use tautmark_app_tests::{Hand, PAGES};
use tautmark_ui::{EntryVm, FrameVm, JobsVm, LinesVm, Nav, Page, Place, StringVm, WallsVm};

fn main() {
    divan::main();
}

fn phone() -> Hand {
    Hand::on_screen(job::example(), 412.0, 915.0)
}

fn frame(hand: &Hand) {
    let drawn = hand.app.window().take_snapshot();
    black_box(drawn.expect("drawn without a screen"));
}

/// With the keypad over the place, asking for a figure of it.
fn asked(place: Place) -> Hand {
    let hand = phone();
    match place {
        Place::Walls => {
            hand.go(place, Page::Work);
            WallsVm::get(&hand.app).invoke_reading_pressed("3".into());
            FrameVm::get(&hand.app).invoke_menu_picked("figure".into());
        }
        _ => {
            hand.go(Place::Lines, Page::Work);
            LinesVm::get(&hand.app).invoke_string_pressed("0".into());
            StringVm::get(&hand.app).invoke_nail_pressed("0".into());
            FrameVm::get(&hand.app).invoke_menu_picked("off".into());
        }
    }
    FrameVm::get(&hand.app).set_menu_open(false);
    tautmark_app_tests::settle();
    assert!(Nav::get(&hand.app).get_entry(), "a figure is asked for");
    hand
}

/// A digit and its deletion by turns, so that the figure stays as long as it is.
fn by_turns(hand: &Hand) -> impl FnMut() + '_ {
    let vm = EntryVm::get(&hand.app);
    vm.invoke_key("1".into());
    vm.invoke_key("0".into());
    let mut deleting = false;
    move || {
        deleting = !deleting;
        vm.invoke_key(if deleting { "back" } else { "7" }.into());
    }
}

#[divan::bench(args = [Place::Walls, Place::Lines], sample_count = 200)]
fn key_to_solution_and_drawing(bencher: Bencher, place: &Place) {
    let hand = asked(*place);
    let press = by_turns(&hand);
    bencher.bench_local(press);
}

#[divan::bench(args = [Place::Walls, Place::Lines], sample_count = 100)]
fn key_to_frame(bencher: Bencher, place: &Place) {
    let hand = asked(*place);
    let mut press = by_turns(&hand);
    bencher.bench_local(|| {
        press();
        frame(&hand);
    });
}

#[divan::bench(args = PAGES.map(|(name, ..)| name), sample_count = 30)]
fn refresh_and_frame(bencher: Bencher, name: &str) {
    let hand = phone();
    let at = PAGES.iter().find(|(own, ..)| *own == name);
    let (_, place, page) = at.expect("a page of that name");
    hand.go(*place, *page);
    bencher.bench_local(|| {
        hand.bridge.refresh();
        frame(&hand);
    });
}

/// A folder with so many jobs in it, as they are after a start.
fn folder_of(count: usize) -> tempfile::TempDir {
    let folder = tempfile::tempdir().expect("a folder");
    let jobs = Jobs::in_folder(folder.path());
    let text = job::write(&job::example()).expect("the example has a text");
    for _ in 0..count {
        jobs.bring_in(text.as_bytes()).expect("there is room");
    }
    folder
}

/// From nothing to the first frame, where the app was left in a place of the example.
#[divan::bench(sample_count = 10, sample_size = 1)]
fn start_to_first_frame(bencher: Bencher) {
    let folder = folder_of(1);
    bencher.bench_local(|| {
        let hand = Hand::in_folder(folder.path(), 412.0, 915.0);
        frame(&hand);
        hand.close()
    });
}

/// The list of 200 jobs: the first frame, with the rows that fill the screen.
#[divan::bench(sample_count = 10, sample_size = 1)]
fn first_frame_of_200_jobs(bencher: Bencher) {
    let folder = folder_of(200);
    bencher.bench_local(|| {
        let hand = Hand::in_folder(folder.path(), 412.0, 915.0);
        frame(&hand);
        hand.close()
    });
}

/// The list of 200 jobs: until every row has its plan, a few of them between each two frames.
#[divan::bench(sample_count = 3, sample_size = 1)]
fn all_of_200_jobs(bencher: Bencher) {
    let folder = folder_of(200);
    bencher.bench_local(|| {
        let hand = Hand::in_folder(folder.path(), 412.0, 915.0);
        let mut turns = 0;
        while JobsVm::get(&hand.app).get_coming() {
            i_slint_backend_testing::mock_elapsed_time(Duration::from_millis(1));
            turns += 1;
            assert!(turns < 1000, "the list comes to an end");
        }
        hand.close()
    });
}

/// The list of 200 jobs that have been seen: one refresh, one frame.
#[divan::bench(sample_count = 30)]
fn known_list_of_200_jobs(bencher: Bencher) {
    let folder = folder_of(200);
    let hand = Hand::in_folder(folder.path(), 412.0, 915.0);
    tautmark_app_tests::wait(1);
    bencher.bench_local(|| {
        hand.bridge.refresh();
        frame(&hand);
    });
}
