//! How long the app takes to answer: a key, a page, a start, a long list of jobs, the sheet as pages.
//! On the software renderer, 412 × 915.

mod asked;

use asked::{Asked, PLACES, SIZE, phone};
use divan::{Bencher, black_box};
use slint::Global;
use std::path::Path;
use std::time::Duration;
use tautmark::export::{Form, Paper};
use tautmark::job;
use tautmark::solve;
use tautmark::store::Jobs;
use tautmark_app_tests::screen::{Screen, prepare};
use tautmark_app_tests::{Hand, PAGES};
use tautmark_ui::{JobsVm, Place};

fn main() {
    divan::main();
}

/// A press, the solution that follows from it, and the drawing of it made ready.
#[divan::bench(args = PLACES, sample_count = 200, sample_size = 1)]
fn key_to_solution_and_drawing(bencher: Bencher, place: &Place) {
    let mut asked = Asked::in_place(*place);
    bencher.bench_local(|| asked.press());
}

/// As a person waits for it: what has changed is drawn over the last frame.
#[divan::bench(args = PLACES, sample_count = 200, sample_size = 1)]
fn key_to_frame(bencher: Bencher, place: &Place) {
    let mut asked = Asked::in_place(*place);
    bencher.bench_local(|| {
        asked.press();
        asked.screen.draw_changed()
    });
}

/// The same with every pixel of the window drawn.
#[divan::bench(args = PLACES, sample_count = 200, sample_size = 1)]
fn key_to_whole_frame(bencher: Bencher, place: &Place) {
    let mut asked = Asked::in_place(*place);
    bencher.bench_local(|| {
        asked.press();
        asked.screen.draw_whole();
    });
}

#[divan::bench(args = PAGES.map(|(name, ..)| name), sample_count = 30)]
fn refresh_and_whole_frame(bencher: Bencher, name: &str) {
    let (hand, mut screen) = phone();
    let at = PAGES.iter().find(|(own, ..)| *own == name);
    let (_, place, page) = at.expect("a page of that name");
    hand.go(*place, *page);
    bencher.bench_local(|| {
        hand.bridge.refresh();
        screen.draw_whole();
    });
}

/// The sheet of the example as pages to print.
#[divan::bench(sample_count = 50)]
fn sheet_to_pdf(bencher: Bencher) {
    let job = job::example();
    let solution = solve(&job);
    let form = Form::Pdf(Paper::A4);
    bencher.bench_local(|| form.make(black_box(&job), &solution).expect("pages"));
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

/// The app on the jobs of a folder, with its first frame drawn.
fn started(folder: &Path) -> (Hand, Screen) {
    prepare();
    let hand = Hand::in_folder(folder, SIZE[0], SIZE[1]);
    let mut screen = Screen::of_latest(SIZE);
    screen.draw_whole();
    (hand, screen)
}

/// From nothing to the first frame, where the app was left on the walls of the example.
#[divan::bench(sample_count = 20, sample_size = 1)]
fn start_to_first_frame(bencher: Bencher) {
    let folder = folder_of(0);
    prepare();
    let hand = Hand::in_folder(folder.path(), SIZE[0], SIZE[1]);
    JobsVm::get(&hand.app).invoke_example();
    hand.bridge.pause();
    hand.close();
    bencher.bench_local(|| {
        let (hand, _) = started(folder.path());
        assert_eq!(hand.here().0, Place::Walls);
        assert!(hand.bridge.look(|desk| desk.open().is_some()));
        hand.close()
    });
}

/// The list of 200 jobs: the first frame, with the rows that fill the screen.
#[divan::bench(sample_count = 10, sample_size = 1)]
fn first_frame_of_200_jobs(bencher: Bencher) {
    let folder = folder_of(200);
    bencher.bench_local(|| started(folder.path()).0.close());
}

/// The list of 200 jobs: until every row has its plan, a few of them between each two frames.
#[divan::bench(sample_count = 3, sample_size = 1)]
fn all_of_200_jobs(bencher: Bencher) {
    let folder = folder_of(200);
    bencher.bench_local(|| {
        let (hand, _) = started(folder.path());
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
    let (hand, mut screen) = started(folder.path());
    tautmark_app_tests::wait(1);
    bencher.bench_local(|| {
        hand.bridge.refresh();
        screen.draw_whole();
    });
}
